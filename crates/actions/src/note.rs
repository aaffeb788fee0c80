//! A remark in words, kept in the log.

use survey::SurveyId;
use survey::log::{Body, Entry, Note};

use crate::{Desk, Error, Kind, Kit};

/// Records a remark about the house, or about one item of it.
pub fn note(
    desk: &mut Desk,
    survey: SurveyId,
    item: Option<&str>,
    text: &str,
    kit: &mut Kit<'_>,
) -> Result<Entry, Error> {
    let text = text.trim();
    if text.is_empty() || text.chars().count() > 4_000 {
        return Err(Error::new(Kind::Input, "a note has 1 to 4,000 characters"));
    }
    let place = match item {
        None => None,
        Some(id) => match desk.catalog.item(id) {
            Some(found) => Some(found.station.clone()),
            None => return Err(crate::record::unknown_item(desk, id)),
        },
    };
    desk.picture(survey)?; // the house must exist
    let note = Note { place, item: item.map(str::to_owned), text: text.to_owned() };
    desk.append(survey, Body::Note(note), kit)
}
