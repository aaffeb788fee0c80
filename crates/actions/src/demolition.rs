//! Demolition is declared, which ends the walk of a house; a declaration made by mistake is withdrawn.
//!
//! Withdrawing is an act of its own, with a reason that stays in the log, and no step of undo: whoever goes back through
//! the last answers must not open a walk that was closed. It is over once the house was sealed after the declaration.

use survey::SurveyId;
use survey::log::{Body, Demolition, DemolitionWithdrawn, Entry};
use words::msg;

use crate::enter::words_of;
use crate::{Desk, Error, Kind, Kit};

/// Declares demolition of the whole house.
///
/// # Errors
/// No such survey; demolition that was declared already; words that cannot be kept.
pub fn declare_demolition(
    desk: &mut Desk,
    survey: SurveyId,
    reason: Option<&str>,
    kit: &mut Kit<'_>,
) -> Result<Entry, Error> {
    let reason = match reason.map(str::trim) {
        None | Some("") => None,
        Some(text) => Some(words_of(msg!("the-reason"), text)?),
    };
    if let Some(declared) = &desk.picture(survey)?.demolition {
        let at = words::when(desk.words().language(), declared.at);
        return Err(Error::new(Kind::Conflict, msg!("error-demolition-again", by = &declared.by, at = at)));
    }
    desk.append(survey, Body::Demolition(Demolition { reason }), kit)
}

/// Withdraws the declaration: nothing was opened. What was recorded meanwhile counts again.
///
/// # Errors
/// No such survey; no declaration; a house sealed after it; no reason.
pub fn withdraw_demolition(
    desk: &mut Desk,
    survey: SurveyId,
    reason: &str,
    kit: &mut Kit<'_>,
) -> Result<Entry, Error> {
    let reason = words_of(msg!("the-reason"), reason)?;
    let (entries, picture) = desk.read(survey)?;
    let Some(standing) = &picture.demolition else {
        return Err(Error::new(Kind::Missing, msg!("error-demolition-none")));
    };
    if standing.sealed_since {
        return Err(Error::new(Kind::Conflict, msg!("error-demolition-sealed"))
            .hint(msg!("error-demolition-sealed-hint")));
    }
    // Tablets that were merged may each have declared it.
    let declared = entries.iter().filter(|e| matches!(e.body, Body::Demolition(_))).map(|e| e.id).collect();
    desk.append(survey, Body::DemolitionWithdrawn(DemolitionWithdrawn { declared, reason }), kit)
}
