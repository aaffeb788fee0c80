//! The office publishes a version of the catalog its firm works by.
//!
//! Every tablet ships with the catalog; what the firm has over it travels as its files. The version says of which shipped
//! catalog it holds and what the two come to together, so that a tablet can tell before it works by it.

use serde::{Deserialize, Serialize};
use survey::{Digest, Stamp, SurveyId};

use crate::certificate::name;
use crate::{KeyError, Record};

/// Most files of a version (our own choice, like the limits below).
const MOST_FILES: usize = 200;
/// Most bytes of one file.
const MOST_FILE: u64 = 1 << 20;
/// Most bytes of all of them.
const MOST_BYTES: u64 = 4 << 20;
/// Most houses a version can have learned from.
const MOST_HOUSES: usize = 20_000;
/// Folders a file can lie in, one inside the other, and letters of each name.
const DEPTH: usize = 4;
const LETTERS: usize = 64;

/// What the office signs of a version of its catalog. Written as JSON with these members in this order.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CatalogVersion {
    /// Number among the firm's versions, from 1.
    pub number: u64,
    /// When it was published, by the office's clock.
    pub made_at: Stamp,
    /// Who published it.
    pub by: String,
    /// Name of the firm.
    pub firm: String,
    /// Digest of the shipped catalog it is laid over.
    pub extends: Digest,
    /// Digest of that catalog with these files over it.
    pub becomes: Digest,
    /// Houses whose findings stand in its numbers.
    pub houses: Vec<SurveyId>,
    /// The firm's files, in the order of their names.
    pub files: Vec<CatalogFile>,
}

/// A file of a version. Its bytes travel beside.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CatalogFile {
    /// Its path inside the overlay.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// SHA-256 of them.
    pub sha256: Digest,
}

impl CatalogFile {
    /// The file of this name and text.
    pub fn of(name: &str, text: &str) -> Self {
        Self { name: name.to_owned(), bytes: text.len() as u64, sha256: Digest::of(text.as_bytes()) }
    }
}

impl Record for CatalogVersion {
    const TYPE: &'static str = "underlath-catalog+jws";
    fn check(&self) -> Result<(), KeyError> {
        name(&self.by)?;
        name(&self.firm)?;
        if self.number == 0 {
            return Err(KeyError::Contents("a version of the catalog is numbered from 1"));
        }
        let whole: u64 = self.files.iter().fold(0, |sum, file| sum.saturating_add(file.bytes));
        let large = self.files.iter().any(|file| file.bytes > MOST_FILE) || whole > MOST_BYTES;
        if large || self.files.len() > MOST_FILES || self.houses.len() > MOST_HOUSES {
            return Err(KeyError::TooLong);
        }
        if !self.files.iter().all(|file| is_overlay_file(&file.name)) {
            return Err(KeyError::Contents(
                "a file of the catalog has a name that no file of an overlay has",
            ));
        }
        let mut folded: Vec<String> = self.files.iter().map(|file| file.name.to_ascii_lowercase()).collect();
        folded.sort();
        if !self.files.is_sorted_by(|a, b| a.name < b.name) || folded.windows(2).any(|two| two[0] == two[1]) {
            return Err(KeyError::Contents(
                "the files of a catalog are not in order, or one stands there twice",
            ));
        }
        Ok(())
    }
}

/// Whether a file of an overlay may travel under this name: `*.toml`, and the firm's own words in `words/LANGUAGE/*.ftl`.
/// Names are plain letters, digits, `-`, `_` and dots inside, so that they are the same file on every system and lie
/// nowhere else.
pub fn is_overlay_file(path: &str) -> bool {
    let parts: Vec<&str> = path.split('/').collect();
    let plain = |part: &&str| {
        let inner = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'-' | b'_' | b'.');
        (1..=LETTERS).contains(&part.len())
            && part.bytes().all(inner)
            && part.bytes().next().is_some_and(|b| b.is_ascii_alphanumeric())
            && !part.ends_with('.')
            && !is_device(part)
    };
    let kind = match parts.as_slice() {
        ["words", language, file] => language.len() == 2 && file.ends_with(".ftl") || file.ends_with(".toml"),
        [.., file] => file.ends_with(".toml"),
        [] => false,
    };
    kind && parts.len() <= DEPTH && parts.iter().all(plain)
}

/// Names that are no files on Windows, whatever stands behind their first dot.
fn is_device(part: &str) -> bool {
    let stem = part.split('.').next().unwrap_or(part).to_ascii_lowercase();
    let numbered = |of: &str| {
        stem.strip_prefix(of).is_some_and(|n| n.len() == 1 && n.bytes().all(|b| b.is_ascii_digit()))
    };
    matches!(stem.as_str(), "con" | "prn" | "aux" | "nul") || numbered("com") || numbered("lpt")
}
