//! Least slope of a horizontal drain by its size: IPC 704.1; UPC 708.1, which takes less from 4 in up only with
//! approval.

use alloc::format;

use survey::Phrase;
use survey::catalog::Book;

use super::demand::HAIR;
use crate::cite;
use crate::error::{TradeError, finite};
use crate::number::size_name;
use crate::sheet::{Limit, Standing};

/// Least slope of a nominal size in inches, in inches per foot, and where it stands.
///
/// # Errors
/// A size the book does not list.
pub fn least(book: &Book, inches: f64) -> Result<(f64, Limit), TradeError> {
    let inches = finite(Phrase("trade-pipe-size"), inches)?;
    let name = size_name(inches).map_or_else(|| format!("{inches}"), Into::into);
    let larger = "least-slope-larger";
    let id = if book.table(larger).is_some_and(|t| t.row(&name).is_some()) { larger } else { "least-slope" };
    cite::row(book, id, &name)
}

/// How a slope lies to the least one of a size. What needs an approval is asked locally.
///
/// # Errors
/// As [`least`].
pub fn judge(book: &Book, inches: f64, slope: f64) -> Result<(Standing, Limit), TradeError> {
    let (least, limit) = least(book, inches)?;
    if slope >= least - HAIR {
        return Ok((Standing::Within, limit));
    }
    let name = size_name(inches).unwrap_or_default();
    if book.table("gentle-slope").is_some_and(|t| t.row(name).is_some()) {
        let (approved, with_approval) = cite::row(book, "gentle-slope", name)?;
        if slope >= approved - HAIR {
            return Ok((Standing::AskLocally, with_approval));
        }
    }
    Ok((Standing::Beyond, limit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    #[test]
    fn the_tables_of_both_families_are_kept() {
        // IPC Table 704.1 as adopted in Chicago; California Plumbing Code 2013, 708.1
        let shelf = catalog().shelf;
        let (ipc, upc) = (shelf.book("ipc-2021").unwrap(), shelf.book("upc-2012").unwrap());
        for (inches, by_ipc) in [
            (1.25, 0.25),
            (1.5, 0.25),
            (2.0, 0.25),
            (2.5, 0.25),
            (3.0, 0.125),
            (4.0, 0.125),
            (5.0, 0.125),
            (6.0, 0.125),
            (8.0, 0.0625),
            (10.0, 0.0625),
        ] {
            assert_eq!(least(ipc, inches).unwrap().0, by_ipc, "{inches}");
            assert_eq!(least(upc, inches).unwrap().0, 0.25, "{inches}");
        }
        assert!(least(ipc, 7.0).is_err() && least(ipc, f64::NAN).is_err());
    }

    #[test]
    fn a_gentle_slope_of_four_inch_pipe_is_asked_for_under_the_upc() {
        let shelf = catalog().shelf;
        let standing = |book: &str, inches, slope| judge(shelf.book(book).unwrap(), inches, slope).unwrap().0;
        assert_eq!(standing("upc-2012", 4.0, 0.125), Standing::AskLocally);
        assert_eq!(standing("upc-2012", 3.0, 0.125), Standing::Beyond);
        assert_eq!(standing("upc-2012", 4.0, 0.1), Standing::Beyond);
        assert_eq!(standing("ipc-2021", 3.0, 0.125), Standing::Within);
        assert_eq!(standing("ipc-2021", 2.0, 0.125), Standing::Beyond);
    }
}
