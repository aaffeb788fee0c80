//! Whether a forecast was made by numbers that had learned from the very house.

use serde::{Deserialize, Serialize};
use survey::{Digest, Stamp, SurveyId};

/// A catalog that learned from houses.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trained {
    /// Version of this form; 1.
    pub v: u32,
    /// Digest of catalog and overlay together, as a forecast names it.
    pub catalog: Digest,
    /// When it was written.
    pub at: Stamp,
    /// The houses whose findings are in its numbers, those it took over from before among them.
    pub houses: Vec<SurveyId>,
}

impl Trained {
    /// Version of the form.
    pub const VERSION: u32 = 1;
}

/// Whether the catalog of a forecast had seen the house. A catalog that is on the list is taken at its word. One that is
/// not may hold the same learned numbers with some other file beside them, which gives it another digest; so a forecast
/// made after any learning from the house counts as made by a catalog that had seen it.
pub fn saw(house: SurveyId, catalog: Digest, made_at: Stamp, trained: &[Trained]) -> bool {
    let mut listed = trained.iter().filter(|t| t.catalog == catalog).peekable();
    if listed.peek().is_some() {
        return listed.any(|t| t.houses.contains(&house));
    }
    trained.iter().any(|t| t.at.unix_ms() <= made_at.unix_ms() && t.houses.contains(&house))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_listed_catalog_is_taken_at_its_word_and_another_by_its_day() {
        let at = |ms| Stamp::new(ms, 0).unwrap();
        let (ours, theirs) = (SurveyId::from_bytes([1; 16]), SurveyId::from_bytes([2; 16]));
        let (learned, other) = (Digest::of(b"learned"), Digest::of(b"other"));
        let trained = [Trained { v: 1, catalog: learned, at: at(1000), houses: vec![ours] }];
        assert!(saw(ours, learned, at(5), &trained));
        assert!(!saw(theirs, learned, at(5000), &trained));
        assert!(saw(ours, other, at(1000), &trained), "may be the learned numbers under another digest");
        assert!(!saw(ours, other, at(999), &trained));
        assert!(!saw(theirs, other, at(5000), &trained));
    }
}
