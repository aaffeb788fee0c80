//! What can be wrong with the inputs of a calculation.

use alloc::string::String;
use core::fmt;

use survey::said::in_catalog;
use survey::{Message, Phrase, Said, msg};

/// Why a calculation has no answer. [`Self::message`] says it.
#[derive(Clone, PartialEq, Debug)]
pub enum TradeError {
    /// Not a finite number.
    NotFinite {
        /// The input.
        what: Phrase,
    },
    /// Outside what the calculation takes.
    OutOfRange {
        /// The input.
        what: Phrase,
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
    NotInBook {
        /// Book.
        book: String,
        /// Table id.
        table: &'static str,
    },
    /// The table has no such row.
    NoRow {
        /// Book and clause.
        table: String,
        /// What was asked.
        value: Said,
        /// Rows there are.
        known: String,
    },
    /// No code book of a family.
    NoBook {
        /// Family.
        family: &'static str,
    },
    /// A word that is not known.
    NoWord {
        /// What it should have been.
        what: Phrase,
        /// What was given, shortened.
        value: String,
        /// Known words.
        known: String,
    },
    /// An input by a name nobody asks for.
    NoField {
        /// The name.
        name: String,
        /// Names there are.
        known: String,
    },
    /// An answer that cannot be taken.
    BadField {
        /// Which field.
        field: String,
        /// What was written, shortened.
        text: String,
        /// What is wrong and how to write it.
        note: Said,
    },
    /// Inputs that contradict each other.
    Clash {
        /// What clashes.
        what: Said,
        /// How to mend it.
        mend: Phrase,
    },
    /// A default the calculation cannot do without is absent.
    NoDefault {
        /// Id in the table of defaults.
        id: &'static str,
    },
    /// A length that cannot be read.
    Unreadable {
        /// Which one, counted from 1.
        at: u32,
        /// What was entered, shortened.
        text: String,
        /// What is wrong and how to write it.
        note: Said,
    },
}

impl TradeError {
    /// What is wrong, where, and how to mend it.
    pub fn message(&self) -> Message {
        match self {
            Self::NotFinite { what } => msg!("trade-error-not-finite", what = *what),
            Self::OutOfRange { what, value, low, high, unit } => msg!(
                "trade-error-out-of-range",
                what = *what,
                value = plain(*value),
                low = plain(*low),
                high = with_blank(*high, unit)
            ),
            Self::NotInBook { book, table } => msg!("trade-error-not-in-book", book = book, table = *table),
            Self::NoRow { table, value, known } => {
                msg!("trade-error-no-row", table = table, value = value, known = known)
            }
            Self::NoBook { family } => msg!("trade-error-no-book", family = *family),
            Self::NoWord { what, value, known } => {
                msg!("trade-error-no-word", what = *what, value = value, known = known)
            }
            Self::NoField { name, known } => msg!("trade-error-no-field", name = name, known = known),
            Self::BadField { field, text, note } => {
                msg!("trade-error-bad-field", field = field, text = text, note = note)
            }
            Self::Clash { what, mend } => msg!("trade-error-clash", what = what, mend = *mend),
            Self::NoDefault { id } => msg!("trade-error-no-default", id = *id),
            Self::Unreadable { at, text, note } => {
                msg!("trade-error-unreadable", at = *at, text = text, note = note)
            }
        }
    }
}

fn plain(x: f64) -> String {
    alloc::format!("{x}")
}

/// With its unit, after a blank also where there is none.
fn with_blank(x: f64, unit: &str) -> Said {
    Said::Joined(" ".into(), alloc::vec![plain(x).into(), in_catalog("unit", unit)])
}

impl fmt::Display for TradeError {
    /// The id of its message; the words room says it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message().id)
    }
}

impl core::error::Error for TradeError {}

/// The value if finite, else an error naming it.
pub(crate) fn finite(what: Phrase, value: f64) -> Result<f64, TradeError> {
    if value.is_finite() { Ok(value) } else { Err(TradeError::NotFinite { what }) }
}
