//! Depth of a trap's water seal: the plumbing books give its least and its most (`seal-least`, `seal-most`).

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use crate::cite;
use crate::error::TradeError;
use crate::given::show_inches as show;
use crate::sheet::Limit;

/// Inches; keeps a seal exactly at a limit inside it whatever the last bit of the sum.
const HAIR: f64 = 1e-9;

/// What a book says of the seal.
#[derive(Clone, PartialEq, Debug)]
pub struct SealRange {
    /// Least seal, inches.
    pub least: f64,
    /// Deepest seal, inches.
    pub most: f64,
    /// Where both stand.
    pub limits: [Limit; 2],
}

impl SealRange {
    /// Whether a seal lies within; not a number does not.
    pub fn holds(&self, seal: f64) -> bool {
        (self.least - HAIR..=self.most + HAIR).contains(&seal)
    }
}

/// The range of a book.
///
/// # Errors
/// A book without one of the two limits.
pub fn range(book: &Book) -> Result<SealRange, TradeError> {
    let (least, least_limit) = cite::value(book, "seal-least")?;
    let (most, most_limit) = cite::value(book, "seal-most")?;
    Ok(SealRange { least, most, limits: [least_limit, most_limit] })
}

/// Whether a seal in inches lies within the limits of a book; not a number does not.
///
/// # Errors
/// As [`range`].
pub fn within_limits(book: &Book, seal: f64) -> Result<bool, TradeError> {
    Ok(range(book)?.holds(seal))
}

/// A seal of so many inches held against a book, in a sentence.
///
/// # Errors
/// As [`range`].
pub fn sentence(book: &Book, seal: f64) -> Result<Said, TradeError> {
    let range = range(book)?;
    let how = if range.holds(seal) {
        Phrase("trade-within")
    } else if seal > range.most {
        Phrase("trade-deeper-than")
    } else {
        Phrase("trade-shallower-than")
    };
    let limit = if seal < range.least { &range.limits[0] } else { &range.limits[1] };
    Ok(say!(
        "trade-seal-would",
        seal = show(seal),
        how = how,
        least = show(range.least),
        most = show(range.most),
        title = &book.title,
        clause = &limit.clause,
        edition = &limit.edition
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;

    #[test]
    fn both_limits_belong_to_the_range() {
        // IRC 2006 P3201.2; California Plumbing Code 2013 (UPC 2012) 1005.1
        let shelf = catalog().shelf;
        for id in ["ipc-2021", "upc-2012"] {
            let book = shelf.book(id).unwrap();
            let held = |seal| within_limits(book, seal).unwrap();
            assert!(held(2.0) && held(4.0));
            for seal in [1.99, 4.01, 9.0, 0.0, -2.0, f64::NAN] {
                assert!(!held(seal), "{seal}");
            }
        }
    }

    #[test]
    fn the_sentence_names_the_range_and_its_place() {
        let shelf = catalog().shelf;
        let upc = shelf.book("upc-2012").unwrap();
        let deep = sentence(upc, 9.0).unwrap();
        assert!(deep.contains("9\", deeper than the 2\" to 4\" of UPC (1005.1"), "{deep}");
        assert!(sentence(upc, 3.0).unwrap().contains("within the"));
        assert!(sentence(upc, 1.5).unwrap().contains("shallower than"));
    }
}
