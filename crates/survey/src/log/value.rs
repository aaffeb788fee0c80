//! What an answer can be. "Can't tell" and "could not reach, because…" are values like any other.

use serde::{Deserialize, Serialize};

use crate::units::{Length, Quantity};

/// The value of one answer. The serialized form is hashed: never rename or reorder; add variants at the end.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Value {
    /// One option of a single-choice item.
    Choice(String),
    /// One or more options of a multiple-choice item, sorted, without doubles.
    Choices(Vec<String>),
    /// A measured length.
    Length(Length),
    /// Any other measured or counted quantity.
    Number(Quantity),
    /// Free words.
    Text(String),
    /// What further checks showed.
    Checks(Vec<CheckResult>),
    /// Looked, and could not tell.
    CantTell,
    /// Could not get there; the reason in words.
    CouldNotReach(String),
    /// The earlier answer is taken back; nothing stands in its place.
    Withdrawn,
}

/// One further check (a scan, a pinhole, an opened cover) and what it showed about some conditions.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
pub struct CheckResult {
    /// Check id of the catalog.
    pub check: String,
    /// Keys of the conditions it was made for ([`crate::Key`]).
    pub conditions: Vec<String>,
    /// What it showed.
    pub result: CheckOutcome,
}

/// Outcome of a further check.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CheckOutcome {
    /// The condition showed itself.
    ShowsIt,
    /// Nothing of it was seen, which is not the same as its absence.
    ShowsNot,
    /// No telling.
    Unclear,
}

impl CheckOutcome {
    /// The word that is typed and stored.
    pub const fn word(self) -> &'static str {
        match self {
            Self::ShowsIt => "shows-it",
            Self::ShowsNot => "shows-not",
            Self::Unclear => "unclear",
        }
    }
    /// The outcome of a word.
    pub fn of_word(word: &str) -> Option<Self> {
        [Self::ShowsIt, Self::ShowsNot, Self::Unclear].into_iter().find(|outcome| outcome.word() == word)
    }
}

impl Value {
    /// Several options in their one stored order.
    pub fn choices(mut options: Vec<String>) -> Self {
        options.sort();
        options.dedup();
        Self::Choices(options)
    }
    /// True for answers that state something about the house.
    pub fn is_statement(&self) -> bool {
        !matches!(self, Self::CantTell | Self::CouldNotReach(_) | Self::Withdrawn)
    }
}
