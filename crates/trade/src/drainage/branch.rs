//! Horizontal branch: the drain that gathers fixtures and falls to a stack or building drain.
//!
//! IPC Table 710.1(2), horizontal column; UPC Table 703.2, horizontal column at 1/4 in/ft, four fifths of it at 1/8.

use survey::Phrase;
use survey::catalog::Book;

use super::demand::{Demand, Size};
use super::units::Load;
use crate::cite;
use crate::error::TradeError;
use crate::sheet::Limit;

/// Slope the horizontal column is for, inches per foot.
pub const TABLE_SLOPE: f64 = 0.25;

/// What a horizontal branch is asked to do. Under a book that says how much less a gentle slope carries, a slope
/// under 1/4 in/ft takes that part of the table.
///
/// # Errors
/// A book without the table.
pub fn demand<'a>(book: &'a Book, load: &'a Load, slope: Option<f64>) -> Result<Demand<'a>, TradeError> {
    let what = Phrase("trade-load-branch");
    let mut demand = Demand::on(book, "horizontal-branch", what, load, "water-closets-horizontal")?;
    gentle(book, &mut demand, slope)?;
    Ok(demand)
}

/// Lowers what the columns carry for a slope under that of the table.
///
/// # Errors
/// A table of another shape.
pub(super) fn gentle(book: &Book, demand: &mut Demand, slope: Option<f64>) -> Result<(), TradeError> {
    let is_gentle = slope.is_some_and(|s| s < TABLE_SLOPE - super::demand::HAIR);
    if is_gentle && book.table("gentle-slope-part").is_some() {
        let (part, limit): (f64, Limit) = cite::value(book, "gentle-slope-part")?;
        for column in &mut demand.columns {
            column.part = part;
        }
        demand.limits.push(limit);
    }
    Ok(())
}

/// The smallest horizontal branch for a load at 1/4 in/ft, with what its fixtures ask.
///
/// # Errors
/// A book without the table, or a load beyond it.
pub fn smallest(book: &Book, load: &Load) -> Result<Size, TradeError> {
    demand(book, load, None)?.smallest_or_error(Phrase("trade-load-horizontal-branch"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drainage::units::Fixtures;
    use crate::testing::English as _;
    use crate::testing::catalog;

    fn sized(book: &str, words: &[&str]) -> (f64, &'static str) {
        let shelf = catalog().shelf;
        let book = shelf.book(book).unwrap();
        let load = Load::of(book, &Fixtures::of_words(words).unwrap()).unwrap();
        (load.units, smallest(book, &load).unwrap().name)
    }

    #[test]
    fn worked_kitchens_and_laundries() {
        // IPC Table 710.1(2): 3, 6, 12, 20, 160; UPC Table 703.2: 1, 1, 8, 14, 35, 216; units as published
        for (words, ipc, upc) in [
            (&["lavatory"][..], (1.0, "1-1/2"), (1.0, "1-1/4")),
            (&["kitchen_sink_dw"], (2.0, "1-1/2"), (2.0, "2")),
            (&["kitchen_sink_dw", "lavatory"], (3.0, "1-1/2"), (3.0, "2")),
            (&["kitchen_sink_dw", "clothes_washer", "lavatory"], (5.0, "2"), (6.0, "2")),
            (&["kitchen_sink_dw", "clothes_washer", "laundry_tray"], (6.0, "2"), (7.0, "2")),
            (&["kitchen_sink_dw", "clothes_washer", "laundry_tray", "lavatory"], (7.0, "2-1/2"), (8.0, "2")),
        ] {
            assert_eq!((sized("ipc-2021", words), sized("upc-2012", words)), (ipc, upc), "{words:?}");
        }
    }

    #[test]
    fn fixtures_ask_for_more_than_the_load() {
        // two units go through 1-1/2 in, but the trap of a standpipe is 2 in: IPC Table 709.1
        assert_eq!(sized("ipc-2021", &["clothes_washer"]), (2.0, "2"));
        // a water closet takes 3 in at 3 units
        assert_eq!(
            (sized("ipc-2021", &["wc_1.6"]), sized("upc-2012", &["wc_1.6"])),
            ((3.0, "3"), (3.0, "3"))
        );
        // at most three water closets on 3 in: UPC Table 703.2, notes
        assert_eq!(sized("upc-2012", &["wc_1.6"; 3]), (9.0, "3"));
        assert_eq!(sized("upc-2012", &["wc_1.6"; 4]), (12.0, "4"));
    }

    #[test]
    fn a_gentle_slope_carries_four_fifths_under_the_upc() {
        let shelf = catalog().shelf;
        let (ipc, upc) = (shelf.book("ipc-2021").unwrap(), shelf.book("upc-2012").unwrap());
        let carries = |book, slope| {
            let load = Load::of(book, &Fixtures::of_words(&["lavatory"]).unwrap()).unwrap();
            demand(book, &load, Some(slope)).unwrap().columns[0].carries("4")
        };
        // 216 × 0.8: California Plumbing Code 2013, Table 703.2, note 5
        assert_eq!((carries(upc, 0.25), carries(upc, 0.125)), (Some(216.0), Some(216.0 * 0.8)));
        assert_eq!(carries(ipc, 0.125), Some(160.0));
    }

    #[test]
    fn a_load_beyond_the_table_is_an_error() {
        let shelf = catalog().shelf;
        let book = shelf.book("ipc-2021").unwrap();
        let load = Load::of(book, &Fixtures::of_words(&["wc_1.6"; 54]).unwrap()).unwrap();
        let error = smallest(book, &load).unwrap_err().message().en();
        assert!(error.contains("162") && error.contains("0 to 160 DFU"), "{error}");
    }
}
