//! Answers under every plumbing book, shown side by side where the sizes differ.

use alloc::{string::String, vec::Vec};

use survey::catalog::{Book, Family, Shelf};
use survey::{Phrase, Said, say};

use crate::cite::{across, books};
use crate::error::TradeError;
use crate::sheet::{Sheet, Standing};

/// A sheet and the size it comes to, in words.
pub(super) type Sized = (Sheet, Said);

/// As [`across`], which compares how results stand. Two quantities stand alike whatever they are, so where the sizes
/// differ the books are shown side by side; where they stand alike with different sizes, a note names each.
///
/// # Errors
/// As the answer, or no book at all.
pub(super) fn by_book(
    shelf: &Shelf,
    caution: Phrase,
    answer: impl Fn(&Book) -> Result<Sized, TradeError>,
) -> Result<Sheet, TradeError> {
    let (books, chosen) = books(shelf, Family::Plumbing)?;
    let first = books.first().map(|b| b.id.clone());
    let mut sizes: Vec<(String, Said)> = Vec::new();
    let mut notes: Vec<Said> = Vec::new();
    for book in books {
        let (sheet, size) = answer(book)?;
        notes.extend(sheet.notes);
        if sheet.standing != Standing::CannotSay {
            sizes.push((book.title.clone(), size));
        }
    }
    let differ = !chosen && sizes.windows(2).any(|w| w[0].1 != w[1].1);
    let mut sheet = across(shelf, Family::Plumbing, caution, |book| {
        let (mut sheet, _) = answer(book)?;
        if differ && sheet.standing == Standing::Quantity && first.as_ref() != Some(&book.id) {
            // Only tells the sheets apart; the joined one answers "ask locally".
            sheet.standing = Standing::CannotSay;
        }
        Ok(sheet)
    })?;
    // Where the books stand alike the first one answers; what the others add to it is not lost.
    for note in notes {
        if !sheet.notes.contains(&note) {
            sheet.notes.push(note);
        }
    }
    if differ && sheet.standing != Standing::AskLocally {
        let each: Vec<Said> =
            sizes.iter().map(|(book, size)| say!("trade-under", size = size, book = book)).collect();
        sheet.note(say!("trade-smallest-sizes-differ", each = each));
    }
    Ok(sheet)
}

/// The worse of two standings, for an answer that holds several things against values.
pub(super) fn worse(a: Standing, b: Standing) -> Standing {
    let rank = |s: Standing| match s {
        Standing::Quantity => 0,
        Standing::Within => 1,
        Standing::Near => 2,
        Standing::CannotSay => 3,
        Standing::AskLocally => 4,
        Standing::Beyond => 5,
    };
    if rank(b) > rank(a) { b } else { a }
}
