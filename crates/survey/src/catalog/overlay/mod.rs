//! A firm's overlay: its own files, which change single numbers and words of the catalog, add things, and say what is
//! not offered here, while the catalog stays as it is.
//!
//! The overlay is laid over the documents before anything is read or checked, so that all rules hold for the result.
//! Every node keeps where it was written: a fault names the overlay's file and line. Nothing depends on the order in
//! which files are handed in, and a key that is changed twice is a fault.

mod add;
mod apply;
mod backing;
mod kinds;
mod lay;
mod remove;
mod text;
mod written;

use core::fmt;

pub use backing::Backing;
pub(super) use lay::{Doc, Laid, documents};
pub(super) use remove::remove;
pub use written::{Row, Writing, Written};

use crate::Digest;

/// What an overlay did to the catalog it was laid over.
#[derive(Clone, PartialEq, Debug)]
pub struct Overlay {
    /// Its name, such as the firm's.
    pub name: Option<String>,
    /// Its version, raised with every edit by whoever edits it.
    pub version: Option<u32>,
    /// SHA-256 over its sorted files, framed as in [`super::Catalog::digest`], paths beginning with `overlay/`.
    pub digest: Digest,
    /// What was changed, in order of kind, id and key.
    pub changes: Vec<Change>,
    /// What was added, in the order of files and lines.
    pub added: Vec<Added>,
    /// What is not offered here, in order of kind and id.
    pub removed: Vec<Removed>,
}

/// One number or word that was changed, or set where the catalog had none.
#[derive(Clone, PartialEq, Debug)]
pub struct Change {
    /// Kind of thing, such as "condition".
    pub kind: String,
    /// Its id; empty for a table that is there once.
    pub id: String,
    /// The key, with dots where it lies further in: `clues.hot-line.if-present`.
    pub key: String,
    /// What the catalog says, as written in TOML; `None` where it says nothing.
    pub old: Option<String>,
    /// What the overlay says, as written in TOML.
    pub new: String,
    /// What stands behind it.
    pub backing: Backing,
    /// File and line of the overlay.
    pub place: WrittenAt,
}

/// A thing that was added.
#[derive(Clone, PartialEq, Debug)]
pub struct Added {
    /// Kind of thing.
    pub kind: String,
    /// Its id; for a relation, the ids it joins.
    pub id: String,
    /// File and line of the overlay.
    pub place: WrittenAt,
}

/// A thing that is not offered here.
#[derive(Clone, PartialEq, Debug)]
pub struct Removed {
    /// Kind of thing.
    pub kind: String,
    /// Its id.
    pub id: String,
    /// Why.
    pub reason: String,
    /// What went with it because nothing else needs it: "clue cold-stripe".
    pub with: Vec<String>,
    /// File and line of the overlay.
    pub place: WrittenAt,
}

/// A place in a file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct WrittenAt {
    /// Path of the file, beginning with `overlay/` for a file of the overlay.
    pub file: String,
    /// Line, from 1.
    pub line: u32,
}

impl fmt::Display for WrittenAt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.file, self.line)
    }
}

/// The words of every kind that can be shown, in order.
pub fn kinds() -> impl Iterator<Item = &'static str> {
    kinds::KINDS.iter().map(|k| k.word)
}
