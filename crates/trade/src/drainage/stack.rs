//! Stacks and other upright drains.
//!
//! IPC Table 710.1(2): what enters within one branch interval (about one story), and the whole stack by the number of
//! its intervals. UPC Table 703.2: one column for every upright drain, with a longest height.

use survey::Phrase;
use survey::catalog::Book;

use super::demand::{Demand, Size, by_units};
use super::units::Load;
use crate::cite;
use crate::error::TradeError;
use crate::measure::FixtureUnits;

/// Branch intervals up to which a stack counts as low: IPC Table 710.1(2).
pub const LOW: u32 = 3;
/// Most branch intervals taken: no dwelling has more.
pub const MOST_INTERVALS: u32 = 20;

/// The column of a whole stack.
fn whole(intervals: u32) -> &'static str {
    if intervals <= LOW { "stack-to-three" } else { "stack-over-three" }
}

/// Whether the book sizes every upright drain by one column.
fn upright(book: &Book) -> bool {
    book.table("vertical-drain").is_some()
}

/// What a stack is asked to do: its whole load, and what enters at its busiest interval.
///
/// # Errors
/// A book without the tables.
pub fn demand<'a>(
    book: &'a Book,
    load: &'a Load,
    intervals: u32,
    busiest: f64,
) -> Result<Demand<'a>, TradeError> {
    let what = Phrase("trade-whole-load-stack");
    if upright(book) {
        return Demand::on(book, "vertical-drain", what, load, "water-closets-vertical");
    }
    let mut demand = Demand::on(book, whole(intervals), what, load, "water-closets-vertical")?;
    let one = cite::table(book, "stack-one-interval")?;
    demand.add(book, one, Phrase("trade-load-enters-one-interval"), busiest);
    Ok(demand)
}

/// What an upright drain within one story is asked to do. A book without a column for it takes it as a stack of one
/// interval.
///
/// # Errors
/// A book without the table.
pub fn demand_upright<'a>(book: &'a Book, load: &'a Load) -> Result<Demand<'a>, TradeError> {
    let id = if upright(book) { "vertical-drain" } else { "stack-one-interval" };
    Demand::on(book, id, Phrase("trade-load-upright-drain"), load, "water-closets-vertical")
}

/// The smallest stack of up to three branch intervals by its whole load alone.
///
/// # Errors
/// A book without the table, or a load beyond it.
pub fn smallest_low(book: &Book, units: FixtureUnits) -> Result<Size, TradeError> {
    by_units(cite::table(book, whole(LOW))?, units, Phrase("trade-load-stack"))
}

/// The smallest upright drain by its load alone, under a book with a column for it.
///
/// # Errors
/// A book without the table, or a load beyond it.
pub fn smallest_upright(book: &Book, units: FixtureUnits) -> Result<Size, TradeError> {
    by_units(cite::table(book, "vertical-drain")?, units, Phrase("trade-load-vertical-drain"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drainage::units::Fixtures;
    use crate::testing::catalog;

    fn units(n: f64) -> FixtureUnits {
        FixtureUnits::new(n).unwrap()
    }

    #[test]
    fn the_columns_are_kept_to_their_last_unit() {
        let shelf = catalog().shelf;
        let (ipc, upc) = (shelf.book("ipc-2021").unwrap(), shelf.book("upc-2012").unwrap());
        // IPC Table 710.1(2): 4, 10, 20, 48, 240
        for (last, size, next) in
            [(4.0, "1-1/2", "2"), (10.0, "2", "2-1/2"), (20.0, "2-1/2", "3"), (48.0, "3", "4")]
        {
            assert_eq!(smallest_low(ipc, units(last)).unwrap().name, size);
            assert_eq!(smallest_low(ipc, units(last + 1.0)).unwrap().name, next);
        }
        assert!(smallest_low(ipc, units(241.0)).is_err());
        // UPC Table 703.2, vertical: 1, 2, 16, 32, 48, 256
        for (last, size, next) in [
            (1.0, "1-1/4", "1-1/2"),
            (2.0, "1-1/2", "2"),
            (16.0, "2", "2-1/2"),
            (32.0, "2-1/2", "3"),
            (48.0, "3", "4"),
        ] {
            assert_eq!(smallest_upright(upc, units(last)).unwrap().name, size);
            assert_eq!(smallest_upright(upc, units(last + 1.0)).unwrap().name, next);
        }
        assert!(smallest_upright(ipc, units(1.0)).is_err() && smallest_low(upc, units(1.0)).is_err());
    }

    #[test]
    fn the_busiest_interval_can_govern_a_stack() {
        let shelf = catalog().shelf;
        let ipc = shelf.book("ipc-2021").unwrap();
        let load = Load::of(ipc, &Fixtures::of_words(&["lavatory"; 4]).unwrap()).unwrap();
        let size =
            |intervals, busiest| demand(ipc, &load, intervals, busiest).unwrap().smallest().map(|s| s.name);
        // 4 units in all go through 1-1/2 in, but only 2 of them at one interval: IPC Table 710.1(2)
        assert_eq!((size(2, 2.0), size(2, 4.0)), (Some("1-1/2"), Some("2")));
        assert_eq!(size(4, 2.0), Some("1-1/2"));
    }

    #[test]
    fn a_sink_does_not_drop_through_inch_and_a_half_under_the_upc() {
        let shelf = catalog().shelf;
        let upc = shelf.book("upc-2012").unwrap();
        let size = |words| {
            let load = Load::of(upc, &Fixtures::of_words(words).unwrap()).unwrap();
            demand_upright(upc, &load).unwrap().smallest().map(|s| s.name)
        };
        assert_eq!((size(&["lavatory", "lavatory"]), size(&["kitchen_sink"])), (Some("1-1/2"), Some("2")));
    }
}
