//! Air admittance valve (ASSE 1051): at least 4 in above the branch drain it vents, within reach, with air around it,
//! and only where the local adoption keeps it. IRC P3114.4.

use survey::Phrase;
use survey::catalog::{Book, Family, Shelf};

use super::demand::HAIR;
use crate::cite;
use crate::error::{TradeError, finite};
use crate::sheet::Limit;

const HEIGHT: &str = "valve-over-branch";

/// The book that a height is read from: this one if it names a height, else the first plumbing book that does.
pub fn naming<'a>(book: &'a Book, shelf: &'a Shelf) -> &'a Book {
    let names = |b: &&Book| b.family == Family::Plumbing && b.table(HEIGHT).is_some();
    if names(&book) { book } else { shelf.books().find(names).unwrap_or(book) }
}

/// Least height of a valve above the branch drain, inches, and where it stands.
///
/// # Errors
/// A book that names none.
pub fn least_height(book: &Book) -> Result<(f64, Limit), TradeError> {
    cite::value(book, HEIGHT)
}

/// Whether a height above the branch drain, in inches, is at least the least one.
///
/// # Errors
/// As [`least_height`], or a height that is not finite.
pub fn is_high_enough(book: &Book, above: f64) -> Result<bool, TradeError> {
    Ok(finite(Phrase("trade-valve-above-branch-drain"), above)? >= least_height(book)?.0 - HAIR)
}

/// Whether the book names such valves, and the limit to show.
///
/// # Errors
/// A book without the rule.
pub fn is_named(book: &Book) -> Result<(bool, Limit), TradeError> {
    let (named, mut limit) = cite::row(book, "valve-named", "air admittance valve")?;
    limit.value = if named > 0.0 { Phrase("trade-named") } else { Phrase("trade-commonly-refused") }.into();
    Ok((named > 0.0, limit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    use survey::catalog::Mark;

    #[test]
    fn four_inches_over_the_branch_drain() {
        // IRC P3114.4
        let shelf = catalog().shelf;
        for book in ["ipc-2021", "upc-2012"].map(|id| shelf.book(id).unwrap()) {
            let book = naming(book, &shelf);
            let high = |above| is_high_enough(book, above).unwrap();
            assert!(high(4.0) && high(6.0) && !high(3.5) && !high(3.999));
            assert_eq!(least_height(book).unwrap().1.clause, "IRC P3114.4");
            assert!(is_high_enough(book, f64::NAN).is_err());
        }
    }

    #[test]
    fn upc_places_commonly_refuse_it_from_memory() {
        let shelf = catalog().shelf;
        assert!(least_height(shelf.book("upc-2012").unwrap()).is_err());
        let (named, limit) = is_named(shelf.book("upc-2012").unwrap()).unwrap();
        assert_eq!((named, limit.mark), (false, Mark::Memory));
        assert!(is_named(shelf.book("ipc-2021").unwrap()).unwrap().0);
    }
}
