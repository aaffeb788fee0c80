//! Boring and notching, pipe sizes, plates.
//!
//! Rules are those for solid sawn lumber: IRC R502.8.1 for joists, R602.6 for studs, R602.6.1 for top plates, in the
//! framing book of `catalog/codes`. What carries load is for the building official and a structural engineer.

use alloc::{format, string::String, vec, vec::Vec};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use crate::calculation::Calculation;
use crate::error::TradeError;
use crate::given::Given;
use crate::sheet::{Limit, Sheet};
use crate::tolerance::Reading;

pub mod chance;
pub mod hole;
pub mod joist;
mod joist_bore;
pub mod joist_hole;
mod joist_notch;
pub mod lumber;
pub mod nail_plate;
pub mod pipe;
pub mod plate_cut;
pub mod stud;
mod stud_changes;
pub mod stud_hole;

/// What this room answers.
pub const CALCULATIONS: &[Calculation] =
    &[stud_hole::CALCULATION, joist_hole::CALCULATION, plate_cut::CALCULATION];

/// What stands beside every answer about studs, joists and plates.
pub const CAUTION: Phrase = Phrase("trade-screening-answer-pricing-not-approval-building");

/// Keeps a value that is exactly at a limit inside it, whatever the last bit of the product; inches.
pub(crate) const HAIR: f64 = 1e-9;

/// Inches as a decimal of at most four places, so that sixteenths are exact: shares of a depth do not fall on them.
pub(crate) fn num(inches: f64) -> String {
    let rounded = libm::round(libm::fabs(inches) * 1e4) / 1e4;
    let text = format!("{rounded:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    let sign = if inches < 0.0 && rounded > 0.0 { "−" } else { "" };
    format!("{sign}{text}")
}

/// The same with its unit.
pub(crate) fn inch(inches: f64) -> Said {
    say!("trade-in", sigma = num(inches))
}

/// A reading within a range of inches.
///
/// # Errors
/// Outside the range.
pub(crate) fn ranged(what: Phrase, reading: Reading, low: f64, high: f64) -> Result<Reading, TradeError> {
    let value = reading.inches();
    let hair = 1e-6; // the grid of what was written, as in the fields
    if (low - hair..=high + hair).contains(&value) {
        Ok(reading)
    } else {
        Err(TradeError::OutOfRange { what, value, low, high, unit: "in" })
    }
}

/// A sheet in any case where inputs were readable: a size no table knows, or readings that contradict each other,
/// are "cannot say" with the reason.
pub(crate) fn or_why(answer: Result<Sheet, TradeError>, caution: Phrase) -> Result<Sheet, TradeError> {
    match answer {
        Err(
            why @ (TradeError::NoRow { .. }
            | TradeError::NoWord { .. }
            | TradeError::OutOfRange { .. }
            | TradeError::Clash { .. }),
        ) => {
            let sentence = say!("trade-nothing-can-said", why = why.message());
            Ok(Sheet::cannot_say(sentence, vec![why.message().into()], caution))
        }
        other => other,
    }
}

/// Answers for a member and a pipe under the framing book; without either, says what is missing after `without`.
///
/// # Errors
/// A book without a table.
pub(crate) fn on_member(
    given: &Given,
    book: &Book,
    [missing_member, without]: [Phrase; 2],
    answer: impl FnOnce(lumber::Member, pipe::Pipe) -> Result<Sheet, TradeError>,
) -> Result<Sheet, TradeError> {
    match (lumber::Member::read(given, book)?, pipe::Pipe::read(given, book)?) {
        (Some(member), Ok(pipe)) => or_why(answer(member, pipe), CAUTION),
        (member, pipe) => {
            let mut missing: Vec<Said> = Vec::new();
            missing.extend(member.is_none().then(|| missing_member.into()));
            missing.extend(pipe.err());
            Ok(Sheet::cannot_say(without, missing, CAUTION))
        }
    }
}

/// The spreads taken where nobody stated one.
pub(crate) fn spreads() -> Limit {
    let value = say!(
        "trade-lumber-pipe-table-pipe",
        depthsigma = num(lumber::DEPTH_SIGMA),
        tablesigma = num(pipe::TABLE_SIGMA),
        measuredsigma = num(pipe::MEASURED_SIGMA),
        boresigma = num(hole::BORE_SIGMA),
        middlesigma = num(hole::MIDDLE_SIGMA),
        centersigma = num(hole::CENTER_SIGMA)
    );
    Limit::practice(Phrase("trade-one-standard-deviation-inches"), value)
}
