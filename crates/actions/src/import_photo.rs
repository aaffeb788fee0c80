//! Taking a photograph in: the original is filed by its digest, small pictures are made of it, its facts go into the
//! log, and what can still be done better is said at once.

use photo::{Complaint, Intake, Look, PhotoError, Previews, Problem, Reason, Warning};
use survey::log::{Body, Entry, PhotoTaken};
use survey::model::Picture;
use survey::{Digest, Stamp, SurveyId};
use words::{Message, msg};

use crate::{Desk, Error, Kit, previews};

/// A camera's clock may differ from this device's by so many milliseconds before it is pointed out.
const CLOCKS_APART: i64 = 120_000;

/// A photograph that is on the disk and in the log.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    /// Digest of the original.
    pub digest: Digest,
    /// The entry; none if this very picture was already in the survey for this item.
    pub entry: Option<Entry>,
    /// What its file said badly or not at all.
    pub complaints: Vec<Complaint>,
    /// Reasons for taking it again while one still stands there.
    pub warnings: Vec<Warning>,
    /// Photographs of this house that look the same.
    pub alike: Vec<Digest>,
    /// The camera's time beside this device's, when they are more than two minutes apart.
    pub clocks: Option<Clocks>,
}

/// Two clocks that differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clocks {
    /// When it was taken by the camera's clock; in this device's offset where the camera wrote none.
    pub camera: Stamp,
    /// When it was taken in by this device's clock.
    pub device: Stamp,
}

impl Clocks {
    /// Whole minutes from the camera's time to the device's; negative when the camera is ahead.
    pub fn minutes_apart(&self) -> i64 {
        (self.device.unix_ms() - self.camera.unix_ms()) / 60_000
    }
}

impl Imported {
    /// The complaints, to be said.
    pub fn odd(&self) -> Vec<Message> {
        self.complaints.iter().map(Complaint::said).collect()
    }
    /// What is pointed out besides the complaints.
    pub fn notes(&self) -> Vec<Message> {
        let mut out: Vec<Message> = self.warnings.iter().map(|warning| warned(*warning)).collect();
        out.extend(self.alike.iter().map(|digest| msg!("photo-alike", photo = digest.short())));
        out.extend(self.clocks.map(|clocks| {
            let (camera, device) = (clocks.camera.minute_text(), clocks.device.minute_text());
            msg!(
                "photo-clocks",
                camera = camera,
                device = device,
                apart = apart(clocks.minutes_apart().abs())
            )
        }));
        out
    }
}

/// Minutes in the unit one would say them in.
fn apart(minutes: i64) -> Message {
    match minutes {
        m if m >= 2 * 24 * 60 => msg!("apart-days", n = m / (24 * 60)),
        m if m >= 2 * 60 => msg!("apart-hours", n = m / 60),
        m => msg!("apart-minutes", n = m),
    }
}

fn warned(warning: Warning) -> Message {
    match warning {
        Warning::Dark => msg!("photo-dark"),
        Warning::Glare => msg!("photo-glare"),
        Warning::Blurred => msg!("photo-blurred"),
    }
}

/// Takes in the bytes of a photograph file, for the house or for an item, its key at a place, or `@` and a place.
pub fn import_photo(
    desk: &mut Desk,
    survey: SurveyId,
    about: Option<&str>,
    name: &str,
    bytes: &[u8],
    caption: Option<&str>,
    kit: &mut Kit<'_>,
) -> Result<Imported, Error> {
    let name = &crate::enter::words_of(words::msg!("the-file-name"), name)?;
    let picture = desk.picture(survey)?;
    let (item, place) = match about {
        None => (None, None),
        Some(about) => crate::place::which(desk, &picture, about)?,
    };
    let item = item.map(|i| i.id);
    if !picture.photos.contains_key(&Digest::of(bytes)) {
        desk.still_walked(survey)?;
    }
    let facts = photo::intake(bytes, name)?;
    // Put first: taking the same picture in again brings back an original that was lost.
    let digest = desk.store.blobs().put(bytes)?;
    let (made, failed) = made_of(bytes, &facts);
    let mut imported = Imported {
        digest,
        entry: None,
        complaints: facts.complaints.clone(),
        warnings: made.as_ref().map(|made| made.look.warnings()).unwrap_or_default(),
        alike: match &made {
            Some(made) => alike(desk, &picture, digest, &made.look)?,
            None => Vec::new(),
        },
        clocks: clocks(&facts, kit.now()),
    };
    imported.complaints.extend(failed);
    let known = picture.photos.get(&digest);
    let same_item = |shows: &std::collections::BTreeSet<(String, String)>| match (&place, &item) {
        (Some(place), Some(item)) => shows.contains(&(place.clone(), item.clone())),
        _ => true,
    };
    if known.is_some_and(|k| same_item(&k.shows)) {
        if let Some(made) = &made {
            previews::handed(digest, made, |made| Ok(desk.store.keep_previews(made)?))?;
        }
        return Ok(imported);
    }
    let taken = PhotoTaken {
        place,
        item,
        digest,
        name: name.to_owned(),
        bytes: facts.bytes,
        width: facts.width,
        height: facts.height,
        orientation: facts.orientation,
        taken: facts.taken,
        taken_local: facts.taken_local,
        // In English, whatever is spoken here: the log is one for all.
        complaints: imported.complaints.iter().map(ToString::to_string).collect(),
        caption: caption.map(str::to_owned),
    };
    let body = Body::Photo(taken);
    let entry = match &made {
        Some(made) => {
            previews::handed(digest, made, |made| desk.append_photo(survey, body, Some(made), kit))?
        }
        None => desk.append(survey, body, kit)?,
    };
    imported.entry = Some(entry);
    Ok(imported)
}

/// The small pictures, or why there are none. A photograph is kept whether or not it can be shown.
fn made_of(bytes: &[u8], facts: &Intake) -> (Option<Previews>, Option<Complaint>) {
    if facts.no_preview.is_some() {
        return (None, None); // among the complaints already
    }
    match photo::previews(bytes, facts.orientation) {
        Ok(made) => (Some(made), None),
        Err(PhotoError { problem: Problem::Undecodable { reason }, .. }) => {
            (None, Some(Complaint::NoPreview(reason)))
        }
        Err(e) => (None, Some(Complaint::NoPreview(Reason::Decoder(e.problem.to_string())))),
    }
}

/// The photographs of the house that look like this one and are not this one.
fn alike(desk: &Desk, picture: &Picture, digest: Digest, look: &Look) -> Result<Vec<Digest>, Error> {
    let mut out = Vec::new();
    for other in picture.photos.keys().filter(|other| **other != digest) {
        if previews::look(desk, *other)?.is_some_and(|other| look.alike(&other)) {
            out.push(*other);
        }
    }
    Ok(out)
}

/// Both clocks, if they are further apart than taking a photograph in takes.
fn clocks(facts: &Intake, device: Stamp) -> Option<Clocks> {
    let local = || {
        let minutes = device.offset_min();
        let (sign, minutes) = (if minutes < 0 { '-' } else { '+' }, minutes.unsigned_abs());
        format!("{}{sign}{:02}:{:02}", facts.taken_local.as_ref()?, minutes / 60, minutes % 60).parse().ok()
    };
    let camera = facts.taken.or_else(local)?;
    let apart = (device.unix_ms() - camera.unix_ms()).abs();
    (apart > CLOCKS_APART).then_some(Clocks { camera, device })
}
