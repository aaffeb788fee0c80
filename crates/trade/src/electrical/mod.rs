//! Loads, circuits, receptacles, working space, boxes, protection: one file each.
//!
//! Numbers stand in the electrical books (`catalog/codes/nec-*.toml`). The panel stays shut: whoever measures reads
//! labels and distances and opens nothing.

use alloc::{borrow::ToOwned, format};

use survey::{Phrase, say};

use crate::calculation::Calculation;
use crate::error::TradeError;
use crate::given::Given;

pub mod box_fill;
pub mod counter_outlets;
pub mod demand;
pub mod dwelling_load;
pub mod edition;
pub mod kitchen_circuits;
pub mod panel_load;
pub mod protection;
pub mod working_space;

/// What this room answers.
pub const CALCULATIONS: &[Calculation] = &[
    panel_load::CALCULATION,
    kitchen_circuits::CALCULATION,
    counter_outlets::CALCULATION,
    working_space::CALCULATION,
    box_fill::CALCULATION,
    protection::CALCULATION,
];

/// What stands beside every answer.
pub const CAUTION: Phrase = Phrase("trade-screening-answer-pricing-not-approval-licensed-electrician");

/// A whole number that was asked for; absent if it was not given.
///
/// # Errors
/// A number with a fraction.
pub(crate) fn count(given: &Given, name: &str) -> Result<Option<u32>, TradeError> {
    match given.number(name) {
        None => Ok(None),
        Some(n) if libm::floor(n) == n && (0.0..=1e6).contains(&n) => Ok(Some(n as u32)),
        Some(n) => Err(TradeError::BadField {
            field: name.to_owned(),
            text: format!("{n}"),
            note: say!("trade-write-whole-number"),
        }),
    }
}

/// Chance that at least one of some independent things is so.
pub(crate) fn any_of(chances: impl IntoIterator<Item = f64>) -> f64 {
    1.0 - chances.into_iter().map(|p| 1.0 - p).product::<f64>()
}
