//! The BIF interchange format: networks as text that general-purpose tools read and write.
//!
//! Grammar after F. G. Cozman, "The Interchange Format for Bayesian Networks", version 0.15 (1998):
//! `network`, `variable` and `probability` blocks, `table`, rows by parent states, `default`, and free-text
//! properties. In a `table` with parents the child's state runs slowest and the last parent fastest, as
//! that text says ("the order of the variables in the header"). Words may hold any sign but blanks,
//! quotes and `{ } ( ) [ ] , ; |`; others are put in double quotes, with `\"`, `\\` and `\n` inside.
//!
//! Limits: discrete variables only; 2^22 table cells in one text.

mod parse;
mod read;
mod token;
mod write;

use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

pub use read::{read, read_document};
pub use write::write;

use crate::Network;

/// A BIF text, read.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// Name in the `network` block; empty if there is none.
    pub name: String,
    /// Properties of the `network` block, as written; a quoted text, or one under `note`, without its quotes.
    pub properties: Vec<String>,
    /// The network.
    pub network: Network,
}

/// What is wrong with a BIF text, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct BifError {
    /// Line, counted from 1.
    pub line: u32,
    /// What is wrong there and how to mend it.
    pub message: String,
}

impl fmt::Display for BifError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.message)
    }
}

impl core::error::Error for BifError {}

/// The property by which our writer says that rows are doubles already normalised, so that reading does not
/// divide them once more. Other tools pass it over.
const EXACT_ROWS: &str = "rows = exact";

/// The key under which a property without a key of its own is written.
const NOTE: &str = "note";
