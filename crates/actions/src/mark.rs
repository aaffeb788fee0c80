//! Marks on a photograph of the house: made and taken back in the log, drawn beside the original and never into it.

use survey::log::{Body, Entry, MarkGone, PhotoMark, Shape, Spot};
use survey::model::{PhotoSeen, Picture};
use survey::{Digest, EntryId, SurveyId};
use words::msg;

use crate::{Desk, Error, Kind, Kit};

/// Most marks on one photograph; more hide it.
const MOST: usize = 100;
/// Longest words of a mark, in characters.
const LONGEST: usize = 120;

/// A mark that stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Marked {
    /// The entry that made it.
    pub id: EntryId,
    /// Who made it.
    pub by: String,
    /// The mark.
    pub mark: Shape,
}

/// A photograph of the house by its digest or the start of it.
///
/// # Errors
/// None or several begin so.
pub fn photo_of(desk: &Desk, survey: SurveyId, start: &str) -> Result<Digest, Error> {
    find(&*desk.picture(survey)?, start)
}

fn find(picture: &Picture, start: &str) -> Result<Digest, Error> {
    let begins = |digest: &&Digest| !start.is_empty() && digest.to_string().starts_with(start);
    let mut found = picture.photos.keys().filter(begins);
    match (found.next(), found.next()) {
        (Some(only), None) => Ok(*only),
        (Some(_), Some(_)) => Err(Error::new(Kind::Input, msg!("error-photos-begin-so", photo = start))
            .hint(msg!("error-photos-begin-so-hint"))),
        _ => Err(Error::new(Kind::Missing, msg!("error-photo-not-here", photo = start))
            .hint(msg!("error-photo-not-here-hint"))),
    }
}

/// The marks that stand on a photograph, in the order they were made.
pub fn marks(desk: &Desk, survey: SurveyId, photo: Digest) -> Result<Vec<Marked>, Error> {
    let picture = desk.picture(survey)?;
    let seen = seen(&picture, photo)?;
    let marked =
        |(id, by, mark): &(EntryId, String, Shape)| Marked { id: *id, by: by.clone(), mark: mark.clone() };
    Ok(seen.marks.iter().map(marked).collect())
}

/// Makes a mark on a photograph.
///
/// # Errors
/// A photograph that is not there, a point outside it, words that cannot be kept, or too many marks.
pub fn mark_photo(
    desk: &mut Desk,
    survey: SurveyId,
    photo: Digest,
    mark: Shape,
    kit: &mut Kit<'_>,
) -> Result<Entry, Error> {
    let picture = desk.picture(survey)?;
    let mark = checked(seen(&picture, photo)?, mark)?;
    desk.append(survey, Body::Mark(PhotoMark { photo, mark }), kit)
}

/// Takes a mark back, by its entry; it stays in the log.
///
/// # Errors
/// No such mark stands on the photograph.
pub fn take_mark_back(
    desk: &mut Desk,
    survey: SurveyId,
    photo: Digest,
    mark: EntryId,
    kit: &mut Kit<'_>,
) -> Result<Entry, Error> {
    let picture = desk.picture(survey)?;
    if !seen(&picture, photo)?.marks.iter().any(|(id, _, _)| *id == mark) {
        return Err(Error::new(Kind::Missing, msg!("error-no-mark", mark = mark.to_string()))
            .hint(msg!("error-no-mark-hint")));
    }
    desk.append(survey, Body::MarkGone(MarkGone { photo, mark }), kit)
}

/// A photograph as it is shown: a small upright JPEG without metadata, and the size of the upright original in pixels.
#[derive(Clone, Debug, PartialEq)]
pub struct PhotoShown {
    /// The small picture.
    pub jpeg: Vec<u8>,
    /// Width of the upright original.
    pub width: u32,
    /// Height of the upright original.
    pub height: u32,
}

/// A photograph to be shown with its marks over it.
///
/// # Errors
/// A photograph that is not there, or of which no small picture can be made.
pub fn photo_shown(desk: &Desk, survey: SurveyId, photo: Digest) -> Result<PhotoShown, Error> {
    let picture = desk.picture(survey)?;
    let taken = &seen(&picture, photo)?.taken;
    let jpeg = crate::picture::small(desk, photo, crate::Shown::Screen)?;
    Ok(PhotoShown { jpeg, width: taken.width, height: taken.height })
}

pub(crate) fn seen(picture: &Picture, photo: Digest) -> Result<&PhotoSeen, Error> {
    picture.photos.get(&photo).ok_or_else(|| {
        Error::new(Kind::Missing, msg!("error-photo-not-here", photo = photo.short()))
            .hint(msg!("error-photo-not-here-hint"))
    })
}

/// A mark that can be kept: its points on the photograph, its words one line.
pub(crate) fn checked(seen: &PhotoSeen, mut mark: Shape) -> Result<Shape, Error> {
    if seen.marks.len() >= MOST {
        return Err(Error::new(Kind::Conflict, msg!("error-marks-full", most = MOST))
            .hint(msg!("error-marks-full-hint")));
    }
    let (width, height) = (seen.taken.width, seen.taken.height);
    let within = |spot: &Spot| {
        let (x, y) = spot.pixels();
        (0.0..=f64::from(width)).contains(&x) && (0.0..=f64::from(height)).contains(&y)
    };
    if let Some(spot) = mark.spots().iter().find(|spot| !within(spot)) {
        let (x, y) = spot.pixels();
        return Err(Error::new(
            Kind::Input,
            msg!("error-mark-outside", x = x.to_string(), y = y.to_string()),
        )
        .hint(msg!(
            "error-mark-outside-hint",
            width = width.to_string(),
            height = height.to_string()
        )));
    }
    if let Shape::Words { text, .. } = &mut mark {
        *text = crate::enter::line_of(msg!("the-words"), text, LONGEST)?;
    }
    Ok(mark)
}
