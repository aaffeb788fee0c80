//! What can be wrong with the inputs of a calculation.

use alloc::string::String;

/// Why a calculation has no answer.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
pub enum TradeError {
    /// Not a finite number.
    #[error("{what} is not a finite number; enter inches as a plain number")]
    NotFinite {
        /// The input.
        what: &'static str,
    },
    /// The table of the code has no such row.
    #[error("{table} has no row for {what} {value}; it knows {known}")]
    NotInTable {
        /// Document and table.
        table: &'static str,
        /// The input.
        what: &'static str,
        /// What was given.
        value: String,
        /// Rows there are.
        known: &'static str,
    },
    /// A default the calculation cannot do without is absent.
    #[error("the drain defaults hold no “{id}”; add it, in inches, with its two standard deviations")]
    NoDefault {
        /// Id in the table of defaults.
        id: &'static str,
    },
    /// A length that cannot be read.
    #[error("length {at} (“{text}”): {note}")]
    Unreadable {
        /// Which one, counted from 1.
        at: u32,
        /// What was entered, shortened.
        text: String,
        /// What is wrong and how to write it.
        note: String,
    },
}

/// The value if finite, else an error naming it.
pub(crate) fn finite(what: &'static str, value: f64) -> Result<f64, TradeError> {
    if value.is_finite() { Ok(value) } else { Err(TradeError::NotFinite { what }) }
}
