//! What can be wrong with the inputs of a calculation.

use alloc::string::String;

/// Why a calculation has no answer.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
pub enum TradeError {
    /// Not a finite number.
    #[error("{what} is not a finite number; enter a plain number")]
    NotFinite {
        /// The input.
        what: &'static str,
    },
    /// Outside what the calculation takes.
    #[error("{what} {value} is outside {low} to {high} {unit}; check the reading and its unit")]
    OutOfRange {
        /// The input.
        what: &'static str,
        /// What was given.
        value: f64,
        /// Least.
        low: f64,
        /// Most.
        high: f64,
        /// Unit.
        unit: &'static str,
    },
    /// The code book lacks a table the calculation needs.
    #[error("the code book {book} holds no table “{table}”; add it, with its clause and mark")]
    NotInBook {
        /// Book.
        book: String,
        /// Table id.
        table: &'static str,
    },
    /// The table has no such row.
    #[error("{table} has no row “{value}”; it knows {known}")]
    NoRow {
        /// Book and clause.
        table: String,
        /// What was asked.
        value: String,
        /// Rows there are.
        known: String,
    },
    /// No code book of a family.
    #[error("there is no code book for {family}; put one into codes/")]
    NoBook {
        /// Family.
        family: &'static str,
    },
    /// A word that is not known.
    #[error("“{value}” is no {what} this knows; known are {known}")]
    NoWord {
        /// What it should have been.
        what: &'static str,
        /// What was given, shortened.
        value: String,
        /// Known words.
        known: String,
    },
    /// An input by a name nobody asks for.
    #[error("nothing is asked by the name “{name}”; asked are {known}")]
    NoField {
        /// The name.
        name: String,
        /// Names there are.
        known: String,
    },
    /// An answer that cannot be taken.
    #[error("{field} (“{text}”): {note}")]
    BadField {
        /// Which field.
        field: String,
        /// What was written, shortened.
        text: String,
        /// What is wrong and how to write it.
        note: String,
    },
    /// Inputs that contradict each other.
    #[error("{what}; {mend}")]
    Clash {
        /// What clashes.
        what: String,
        /// How to mend it.
        mend: &'static str,
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
