//! The most that the compiler of the pages is given. It cannot be interrupted, so its time and memory are bounded by
//! its input: letters of one text (`clean.rs`), letters in all, pictures, rows. Far above what a house needs (our own
//! choice, no source); a test sets the most and says how long that took.

use std::collections::BTreeMap;

use crate::PacketError;
use crate::limits::{TEMPLATE, TEMPLATES};

/// Bytes of one document's JSON text.
pub(super) const DATA: usize = 8 << 20;
/// Most pixels on the longer side of a small copy.
pub(super) const SIDE: u32 = 1_024;
/// Bytes of one small copy, and of one drawing.
pub(super) const PICTURE: usize = 2 << 20;
/// Pictures of a packet's pages.
pub(super) const PICTURES: usize = 1_000;

/// Refuses what is more than `most`, naming it.
pub(super) fn at_most(what: &str, found: usize, most: usize) -> Result<(), PacketError> {
    if found <= most {
        return Ok(());
    }
    Err(PacketError::TooLarge { file: what.to_owned(), found: found as u64, limit: most as u64 })
}

/// A firm's templates: how many, how large, and names that are plain.
pub(super) fn templates(files: &BTreeMap<String, Vec<u8>>) -> Result<(), PacketError> {
    at_most("the number of templates", files.len(), TEMPLATES)?;
    for (name, bytes) in files {
        crate::names::check(name.as_bytes())?;
        at_most(name, bytes.len(), TEMPLATE)?;
    }
    Ok(())
}
