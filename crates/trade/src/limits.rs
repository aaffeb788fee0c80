//! Which book a short word of the plumbing trade means, and the values a sink drain is held against.

use alloc::{string::ToString, vec::Vec};

use survey::Phrase;
use survey::catalog::{Book, Shelf};

use crate::cite;
use crate::error::TradeError;
use crate::sheet::Limit;

/// Short words for plumbing codes, and the book of this catalog that stands for each.
pub const PLUMBING_WORDS: [(&str, &str); 2] = [("IPC", "ipc-2021"), ("UPC", "upc-2012")];

/// The plumbing book a short word means.
///
/// # Errors
/// An unknown word, or a catalog without that book.
pub fn plumbing_book<'a>(shelf: &'a Shelf, word: &str) -> Result<&'a Book, TradeError> {
    let id = PLUMBING_WORDS.iter().find(|(w, _)| *w == word).map(|(_, id)| *id);
    let Some(id) = id else {
        let value = word.chars().take(60).collect();
        return Err(TradeError::NoWord { what: Phrase("trade-code"), value, known: "IPC, UPC".to_string() });
    };
    shelf.book(id).ok_or(TradeError::NoBook { family: "plumbing" })
}

/// The limits a sink drain fit uses under one book.
///
/// # Errors
/// A book without one of them.
pub fn of_sink_drain(book: &Book, trap_size: &str) -> Result<Vec<Limit>, TradeError> {
    let mut out = Vec::new();
    for id in ["outlet-to-weir", "seal-least", "seal-most"] {
        out.push(cite::value(book, id)?.1);
    }
    out.push(cite::row(book, "least-slope", trap_size)?.1);
    out.push(cite::value(book, "kitchen-trap")?.1);
    out.push(cite::row(book, "trap-arm-longest", trap_size)?.1);
    for id in ["trap-arm-fall", "trap-arm-shortest"] {
        out.push(cite::value(book, id)?.1);
    }
    Ok(out)
}
