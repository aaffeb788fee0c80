//! What a tap does: it records, it is on the disk, and the walk comes back as it then stands.

use survey::SurveyId;
use survey::log::CheckOutcome;
use views::walk_shape::{DoneView, WalkView};
use words::msg;

use crate::place::about_card;
use crate::walk::{walk, walk_on};
use crate::{Desk, Entered, Error, Kept, Kind, Kit, Toward, note, record};

/// Records an answer and goes on to the next card.
///
/// # Errors
/// As [`crate::record()`]; nothing was recorded then.
pub fn answer(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    (key, entered): (&str, &Entered),
    kit: &mut Kit<'_>,
) -> Result<DoneView, Error> {
    let recorded = record::record(desk, survey, &about_card(desk, key), entered, &[], kit)?;
    let walk = walk_on(desk, kept, survey, &recorded.key, kit)?;
    Ok(DoneView { said: recorded.words, complaints: recorded.complaints, walk })
}

/// Records a remark about a card and stays on it.
///
/// # Errors
/// As [`crate::note()`].
pub fn remark(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    (key, text): (&str, &str),
    kit: &mut Kit<'_>,
) -> Result<WalkView, Error> {
    note::note(desk, survey, Some(&about_card(desk, key)), text, kit)?;
    walk(desk, kept, survey, Some(key), kit)
}

/// Takes the last act back and goes to its card.
///
/// # Errors
/// As [`crate::undo()`].
pub fn take_back(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    kit: &mut Kit<'_>,
) -> Result<DoneView, Error> {
    let taken = crate::undo(desk, survey, kit)?;
    let walk = walk(desk, kept, survey, taken.key.as_deref(), kit)?;
    Ok(DoneView { said: taken.said, complaints: Vec::new(), walk })
}

/// What one check showed of one condition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckShown {
    /// Key of the condition.
    pub condition: String,
    /// What it showed.
    pub result: CheckOutcome,
}

/// Records what a look showed, in the item that takes results of checks.
///
/// # Errors
/// A check that says nothing about the condition; a catalog whose walk takes no results.
pub fn show_check(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    (check, shown): (&str, &[CheckShown]),
    kit: &mut Kit<'_>,
) -> Result<DoneView, Error> {
    let item = crate::suppose::check_item(desk)?.id.clone();
    let answer = shown.iter().map(|s| format!("{check} {} {}", s.result.word(), s.condition)).collect();
    let entered = Entered { answer, ..Entered::default() };
    let recorded = record::record(desk, survey, &item, &entered, &[], kit)?;
    let walk = walk(desk, kept, survey, None, kit)?;
    Ok(DoneView { said: recorded.words, complaints: recorded.complaints, walk })
}

/// Adds one more of what there can be several of, and goes to its first open question.
///
/// # Errors
/// As [`crate::add_place()`].
pub fn add_place_here(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    (station, label): (&str, &str),
    kit: &mut Kit<'_>,
) -> Result<WalkView, Error> {
    let placed = crate::add_place(desk, survey, station, label, kit)?;
    let mut items = desk.catalog.items.iter().filter(|i| i.station == placed.card.station);
    let first = items.find(|i| !i.second_look).map(|i| i.key_at(&placed.card.place));
    let first = first.ok_or_else(|| Error::new(Kind::Input, msg!("error-no-item", item = station)))?;
    walk(desk, kept, survey, Some(&first), kit)
}

/// Moves a stop of the walk and stays where the walk was left.
///
/// # Errors
/// As [`crate::move_stop()`].
pub fn move_stop_here(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    (place, toward): (&str, Toward<'_>),
    kit: &mut Kit<'_>,
) -> Result<WalkView, Error> {
    crate::move_stop(desk, kept, survey, (place, toward), kit)?;
    walk(desk, kept, survey, None, kit)
}

/// Gives a place another name and stays on the card where the walk is.
///
/// # Errors
/// As [`crate::name_place()`].
pub fn name_place_here(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    (place, label): (&str, &str),
    kit: &mut Kit<'_>,
) -> Result<WalkView, Error> {
    crate::name_place(desk, survey, place, label, kit)?;
    walk(desk, kept, survey, None, kit)
}

/// Takes a place out of the walk and the odds; the walk goes on where it was, or at the first open question where that
/// was a card of the place.
///
/// # Errors
/// As [`crate::take_out_place()`].
pub fn take_out_place_here(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    place: &str,
    kit: &mut Kit<'_>,
) -> Result<WalkView, Error> {
    crate::take_out_place(desk, survey, place, None, kit)?;
    walk(desk, kept, survey, None, kit)
}
