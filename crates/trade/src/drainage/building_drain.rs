//! Building drain: the lowest drain, which leads out of the house. IPC Table 710.1(1), column of 1/4 in/ft, from memory;
//! UPC Table 703.2, horizontal column.

use survey::Phrase;
use survey::catalog::Book;

use super::branch::gentle;
use super::demand::{Demand, Size, by_units};
use super::units::Load;
use crate::cite;
use crate::error::TradeError;
use crate::measure::FixtureUnits;

/// What a building drain is asked to do.
///
/// # Errors
/// A book without the table.
pub fn demand<'a>(book: &'a Book, load: &'a Load, slope: Option<f64>) -> Result<Demand<'a>, TradeError> {
    let what = Phrase("trade-load-building-drain");
    let mut demand = Demand::on(book, "building-drain", what, load, "water-closets-horizontal")?;
    gentle(book, &mut demand, slope)?;
    Ok(demand)
}

/// Whether the book's column holds at a slope: a book with one column alone says nothing of a gentler one.
///
/// # Errors
/// A table of another shape.
pub fn column_holds(book: &Book, slope: f64) -> Result<bool, TradeError> {
    if book.table("building-drain-slope").is_none() {
        return Ok(true);
    }
    let (least, _) = cite::value(book, "building-drain-slope")?;
    Ok(slope >= least - super::demand::HAIR)
}

/// The smallest building drain at 1/4 in/ft by its load alone.
///
/// # Errors
/// A book without the table, or a load beyond it.
pub fn smallest(book: &Book, units: FixtureUnits) -> Result<Size, TradeError> {
    by_units(cite::table(book, "building-drain")?, units, Phrase("trade-load-building-drain-2"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    use survey::catalog::Mark;

    #[test]
    fn the_columns_are_kept_to_their_last_unit() {
        let shelf = catalog().shelf;
        let size = |book: &str, n| {
            smallest(shelf.book(book).unwrap(), FixtureUnits::new(n).unwrap()).map(|s| s.name).ok()
        };
        // IPC Table 710.1(1) at 1/4 in/ft, from memory: 1, 3, 21, 24, 42, 216
        let ipc = [(1.0, "1-1/4"), (3.0, "1-1/2"), (21.0, "2"), (22.0, "2-1/2"), (42.0, "3"), (216.0, "4")];
        for (units, name) in ipc {
            assert_eq!(size("ipc-2021", units), Some(name));
        }
        // UPC Table 703.2, horizontal: 1, 1, 8, 14, 35, 216
        for (units, name) in [(1.0, "1-1/4"), (2.0, "2"), (9.0, "2-1/2"), (35.0, "3"), (36.0, "4")] {
            assert_eq!(size("upc-2012", units), Some(name));
        }
        assert_eq!((size("ipc-2021", 217.0), size("upc-2012", 217.0)), (None, None));
    }

    #[test]
    fn a_column_from_memory_says_so() {
        let shelf = catalog().shelf;
        let mark = |book: &str| shelf.book(book).unwrap().table("building-drain").unwrap().mark;
        assert_eq!((mark("ipc-2021"), mark("upc-2012")), (Mark::Memory, Mark::Published));
        assert!(!column_holds(shelf.book("ipc-2021").unwrap(), 0.125).unwrap());
        assert!(column_holds(shelf.book("upc-2012").unwrap(), 0.125).unwrap());
    }
}
