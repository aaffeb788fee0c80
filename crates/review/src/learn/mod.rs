//! What reviewed houses say about the catalog's numbers: proposals a person takes over one by one.
//!
//! Maximum a posteriori by expectation and maximisation, over houses whose networks differ but share the catalog's
//! numbers. Expectation: `inference::learn` gives, house by house, how often each row of each table was met, given answers
//! and findings; what was not opened counts with its probability, so that opening suspected places more often does not
//! bend the numbers. The counts are added up by number of the catalog (`tally.rs`). Maximisation: one shift on the log
//! odds for each prior, clue pair and check, against the catalog's own number, which counts as many houses as its weight
//! says (`shift.rs`). A step that would lower the log posterior is halved (`climb.rs`), so that it never falls.
//!
//! Findings enter here and nowhere below; a forecast is made by rooms that cannot read them. What is left out, and why, is
//! in `docs/learning.md`.

mod climb;
mod expect;
mod numbers;
mod overlay;
mod propose;
mod relations;
mod shift;
mod tally;

use survey::SurveyId;
use survey::model::Picture;

use crate::finding::Finding;

pub use climb::{Learned, MOST_STEPS, Skipped, learn};
pub use overlay::{ApplyError, FILE, apply};
pub use propose::{Changed, FOLDS, HeldOut, Line, Proposal, propose};

/// A reviewed house: what was answered before, and what was found.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// The house.
    pub survey: SurveyId,
    /// Its folded log.
    pub picture: &'a Picture,
    /// Findings; the latest for each condition counts.
    pub findings: &'a [Finding],
}
