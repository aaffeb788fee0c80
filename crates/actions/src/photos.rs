//! Photographs as a screen asks for them: those of a house, one with its marks, and marks and lengths as typed there.

use plane::{Paper, Point};
use survey::log::{Shape, Spot};
use survey::units::{Length, LengthUnit, inches_16, parse_length};
use survey::{Digest, SurveyId};
use views::photo_shape::{MeasuredOnPhotoView, PhotoMarkedView, PhotoTakenView, PhotosView};
use words::{Words, msg};

use crate::enter::without_plus_or_minus;
use crate::mark::seen;
use crate::{Desk, Error, Imported, Kind, MeasuredOnPhoto, OnPhoto};

/// A mark as it was drawn on a screen.
#[derive(Clone, Debug, PartialEq)]
pub enum Drawn {
    /// An arrow: tail, head.
    Arrow([[f64; 2]; 2]),
    /// A ring: middle, a point it runs through.
    Ring([[f64; 2]; 2]),
    /// Words and the left end of their baseline.
    Words([f64; 2], String),
    /// The ends of a length, what the tape said, and ± what.
    Dimension([[f64; 2]; 2], String, Option<String>),
}

/// What lies in the picture, as it was chosen on a screen.
#[derive(Clone, Debug, PartialEq)]
pub enum Sheet {
    /// Letter paper, upright.
    Letter,
    /// A4 paper, upright.
    A4,
    /// Something else: its width and height as written.
    Own(String, String),
}

/// The photographs of a house by place, or those that show one question, given by its key.
///
/// # Errors
/// No such survey, or no such item or place.
pub fn photos(desk: &Desk, survey: SurveyId, key: Option<&str>) -> Result<PhotosView, Error> {
    let picture = desk.picture(survey)?;
    if let Some(key) = key {
        crate::place::which(desk, &picture, &crate::place::about_card(desk, key))?;
    }
    Ok(views::photos::photos(desk.say(), &picture, &survey.to_string(), key))
}

/// One photograph with its marks.
///
/// # Errors
/// A photograph that is not of the house.
pub fn photo_marked(desk: &Desk, survey: SurveyId, photo: Digest) -> Result<PhotoMarkedView, Error> {
    let picture = desk.picture(survey)?;
    Ok(views::photos::photo_marked(desk.say(), &picture, photo, seen(&picture, photo)?))
}

/// What is said of a photograph just taken in.
pub fn photo_taken(imported: &Imported, words: &Words) -> PhotoTakenView {
    PhotoTakenView {
        digest: imported.digest.to_string(),
        known: imported.entry.is_none(),
        complaints: imported.odd().iter().map(|odd| words.say(odd)).collect(),
        notes: imported.notes().iter().map(|note| words.say(note)).collect(),
    }
}

/// A mark to be kept, from what was drawn.
///
/// # Errors
/// A point that is none, or a length that cannot be read.
pub fn drawn(drawn: Drawn) -> Result<Shape, Error> {
    Ok(match drawn {
        Drawn::Arrow([from, to]) => Shape::Arrow { from: spot(from)?, to: spot(to)? },
        Drawn::Ring([middle, through]) => Shape::Ring { middle: spot(middle)?, through: spot(through)? },
        Drawn::Words(at, text) => Shape::Words { at: spot(at)?, text },
        Drawn::Dimension([from, to], length, tolerance) => Shape::Dimension {
            from: spot(from)?,
            to: spot(to)?,
            length: typed(&length)?,
            tolerance: tolerance.as_deref().map(typed).transpose()?,
        },
    })
}

/// What to measure on a photograph, from what was marked: four corners in order around the sheet, then two ends; how far
/// these may stand off its plane, ± as written.
///
/// # Errors
/// A size that cannot be read.
pub fn on_photo(
    sheet: &Sheet,
    lying: bool,
    corners: [[f64; 2]; 4],
    ends: [[f64; 2]; 2],
    off_plane: Option<&str>,
) -> Result<OnPhoto, Error> {
    let upright = match sheet {
        Sheet::Letter => Paper::LETTER,
        Sheet::A4 => Paper::A4,
        Sheet::Own(width, height) => Paper { width: typed(width)?, height: typed(height)? },
    };
    let paper = if lying { upright.on_its_side() } else { upright };
    let point = |[x, y]: [f64; 2]| Point::new(x, y);
    Ok(OnPhoto {
        paper,
        corners: corners.map(point),
        ends: ends.map(point),
        off_plane: off_plane.map(typed).transpose()?,
    })
}

/// What was measured on a photograph, for a screen.
pub fn measured_view(done: &MeasuredOnPhoto, words: &Words) -> MeasuredOnPhotoView {
    let inches = done.distance.max(0.0) as u32;
    let millimeters = words::number(words.language(), done.length.mm(), 0);
    MeasuredOnPhotoView {
        inches: inches_16(done.length),
        metric: words.say(&msg!("quantity", number = millimeters, unit = "mm")),
        tolerance: inches_16(done.tolerance),
        distance_feet: inches / 12,
        distance_inches: inches % 12,
        focal_assumed: done.focal_assumed,
        recorded: done.recorded.as_ref().map(|recorded| recorded.words.clone()),
        complaints: done.recorded.as_ref().map(|recorded| recorded.complaints.clone()).unwrap_or_default(),
    }
}

fn spot([x, y]: [f64; 2]) -> Result<Spot, Error> {
    Spot::from_pixels(x, y).ok_or_else(|| Error::new(Kind::Input, msg!("error-plane-number")))
}

/// A length as written; inches where it has no unit.
fn typed(text: &str) -> Result<Length, Error> {
    let parsed = parse_length(without_plus_or_minus(text), LengthUnit::Inch);
    parsed.length.filter(|length| *length > Length::ZERO).ok_or_else(|| {
        Error::new(
            Kind::Input,
            msg!("error-no-length-typed", text = text.chars().take(80).collect::<String>()),
        )
        .hint(msg!("error-length-hint", note = parsed.note))
    })
}
