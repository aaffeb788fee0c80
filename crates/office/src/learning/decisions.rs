//! Who took lines over or refused them, and when: a file for each time, named by its moment, never written again. It goes
//! along in a backup like everything beside the packets that is not made from them.

use std::fs;
use std::path::Path;

use serde::{Deserialize, Serialize};
use survey::{Digest, Stamp};

use super::Hand;
use crate::desk::file_error;
use crate::{Desk, OfficeError};

/// Folder of the office.
const FOLDER: &str = "decisions";
const VERSION: u32 = 1;

/// What was decided of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// It was taken over.
    Accepted,
    /// It was not.
    Refused,
}

/// One line that was decided.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decision {
    /// Its id.
    pub line: String,
    /// What became of it.
    pub verdict: Verdict,
    /// Its numbers: key, old, new.
    pub numbers: Vec<(String, f64, f64)>,
    /// Why it was refused, in somebody's words.
    pub why: String,
}

/// What was decided at once.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decided {
    v: u32,
    /// Who.
    pub by: String,
    /// When.
    pub at: Stamp,
    /// Digest of the catalog the lines start from.
    pub catalog: Digest,
    /// Digest of the catalog that holds them; none where all were refused.
    pub became: Option<Digest>,
    /// The lines.
    pub lines: Vec<Decision>,
}

impl Decided {
    pub(super) fn new(hand: Hand<'_>, catalog: Digest, became: Option<Digest>, lines: Vec<Decision>) -> Self {
        Self { v: VERSION, by: hand.by.to_owned(), at: hand.now, catalog, became, lines }
    }
}

impl Desk {
    pub(super) fn decide(&self, decided: Decided) -> Result<(), OfficeError> {
        let folder = self.dir.join(FOLDER);
        let text = serde_json::to_vec_pretty(&decided)
            .map_err(|e| OfficeError::File { path: folder.clone(), what: e.to_string() })?;
        // Moment first, so that the names sort as things happened; two of one moment differ in what they say.
        let moment = decided.at.unix_ms().max(0);
        let path = folder.join(format!("{moment:015}-{}.json", Digest::of(&text).short()));
        keys::write_whole(&path, &text).map_err(|e| file_error(&path, &e))
    }

    /// Everything that was decided, the last first.
    ///
    /// # Errors
    /// A note that cannot be read.
    pub fn decided(&self) -> Result<Vec<Decided>, OfficeError> {
        let folder = self.dir.join(FOLDER);
        if !folder.is_dir() {
            return Ok(Vec::new());
        }
        let mut paths = Vec::new();
        for entry in fs::read_dir(&folder).map_err(|e| file_error(&folder, &e))? {
            paths.push(entry.map_err(|e| file_error(&folder, &e))?.path());
        }
        paths.retain(|path| path.extension().is_some_and(|e| e == "json"));
        paths.sort();
        paths.iter().rev().map(|path| one(path)).collect()
    }
}

fn one(path: &Path) -> Result<Decided, OfficeError> {
    let bytes = fs::read(path).map_err(|e| file_error(path, &e))?;
    let damaged = |what: String| OfficeError::Learned { path: path.to_owned(), what };
    let decided: Decided = serde_json::from_slice(&bytes).map_err(|e| damaged(e.to_string()))?;
    if decided.v == VERSION { Ok(decided) } else { Err(damaged(format!("v = {}", decided.v))) }
}
