//! A remark in words, kept in the log.

use survey::SurveyId;
use survey::log::{Body, Entry, Note};

use crate::{Desk, Error, Kit};

/// Records a remark about the house, or about one item of it.
pub fn note(
    desk: &mut Desk,
    survey: SurveyId,
    item: Option<&str>,
    text: &str,
    kit: &mut Kit<'_>,
) -> Result<Entry, Error> {
    let text = crate::enter::words_of("the note", text)?;
    let place = match item {
        None => None,
        Some(id) => match desk.catalog.item(id) {
            Some(found) => Some(found.station.clone()),
            None => return Err(crate::record::unknown_item(desk, id)),
        },
    };
    desk.picture(survey)?; // the house must exist
    let note = Note { place, item: item.map(str::to_owned), text };
    desk.append(survey, Body::Note(note), kit)
}
