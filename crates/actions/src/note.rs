//! A remark in words, kept in the log.

use survey::SurveyId;
use survey::log::{Body, Entry, Note};

use crate::{Desk, Error, Kit};

/// Records a remark about the house, or about an item, its key at a place, or `@` and a place alone.
pub fn note(
    desk: &mut Desk,
    survey: SurveyId,
    about: Option<&str>,
    text: &str,
    kit: &mut Kit<'_>,
) -> Result<Entry, Error> {
    let text = crate::enter::words_of(words::msg!("the-note"), text)?;
    let picture = desk.picture(survey)?;
    let (item, place) = match about {
        None => (None, None),
        Some(about) => crate::place::which(desk, &picture, about)?,
    };
    let note = Note { place, item: item.map(|i| i.id), text };
    desk.append(survey, Body::Note(note), kit)
}
