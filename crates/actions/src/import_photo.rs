//! Taking a photograph in: the original is filed by its digest, its facts go into the log.

use survey::log::{Body, Entry, PhotoTaken};
use survey::{Digest, SurveyId};

use crate::{Desk, Error, Kit};

/// A photograph that is on the disk and in the log.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    /// Digest of the original.
    pub digest: Digest,
    /// The entry; none if this very picture was already in the survey for this item.
    pub entry: Option<Entry>,
    /// What its file said badly or not at all.
    pub complaints: Vec<String>,
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
    let facts = photo::intake(bytes, name)?;
    // Put first: taking the same picture in again brings back an original that was lost.
    let digest = desk.store.blobs().put(bytes)?;
    let known = picture.photos.get(&digest);
    let same_item = |shows: &std::collections::BTreeSet<(String, String)>| match (&place, &item) {
        (Some(place), Some(item)) => shows.contains(&(place.clone(), item.clone())),
        _ => true,
    };
    if known.is_some_and(|k| same_item(&k.shows)) {
        return Ok(Imported { digest, entry: None, complaints: facts.complaints });
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
        complaints: facts.complaints.clone(),
        caption: caption.map(str::to_owned),
    };
    let entry = desk.append(survey, Body::Photo(taken), kit)?;
    Ok(Imported { digest, entry: Some(entry), complaints: facts.complaints })
}
