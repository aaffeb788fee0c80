//! How large a vent must be: half the drain and at least 1-1/4 in under every book; then under the IPC (906.2) one
//! size larger over 40 ft of developed length, under the UPC (Table 703.2) by load and length, with a third of the
//! permitted length horizontal at most.

use survey::Phrase;
use survey::catalog::{Book, Table};

use super::demand::{HAIR, Size, by_units};
use crate::cite;
use crate::error::TradeError;
use crate::measure::FixtureUnits;
use crate::number::SIZES;
use crate::sheet::Limit;

/// Smallest and largest drain taken, nominal inches.
pub const DRAINS: (f64, f64) = (1.25, 12.0);

/// What a book asks of the vent of one drain.
#[derive(Clone, Debug)]
pub struct Rules<'a> {
    book: &'a Book,
    /// Half the drain, inches.
    pub half: f64,
    /// Smallest vent of all, inches.
    pub least: f64,
    /// The smallest nominal size by those two.
    pub base: Size,
    /// Developed length over which the vent is a size larger, feet.
    long: Option<f64>,
    load: Option<&'a Table>,
    length: Option<&'a Table>,
    /// The permitted length is divided by this for the horizontal part, where the book limits that.
    pub part: Option<f64>,
}

/// Nominal sizes of vents, from the smallest up.
fn ladder() -> impl Iterator<Item = Size> {
    SIZES.into_iter().filter(|(_, inches)| *inches >= DRAINS.0).filter_map(|(name, _)| Size::named(name))
}

/// A single value, where the book has the table.
fn maybe(book: &Book, id: &'static str) -> Result<Option<f64>, TradeError> {
    if book.table(id).is_some() { cite::value(book, id).map(|(v, _)| Some(v)) } else { Ok(None) }
}

impl<'a> Rules<'a> {
    /// The rules for a drain of a nominal size in inches.
    ///
    /// # Errors
    /// A drain outside 1-1/4 to 12 in, a book without the rules, or a vent beyond its sizes.
    pub fn of(book: &'a Book, drain: f64) -> Result<Self, TradeError> {
        if !(DRAINS.0..=DRAINS.1).contains(&drain) {
            let (low, high) = DRAINS;
            return Err(TradeError::OutOfRange {
                what: Phrase("trade-drain-size"),
                value: drain,
                low,
                high,
                unit: "in",
            });
        }
        let half = drain / cite::value(book, "vent-half")?.0;
        let least = cite::value(book, "vent-least")?.0;
        let at_least = libm::fmax(half, least);
        let base = ladder().find(|s| s.inches >= at_least - HAIR);
        let base = base.ok_or_else(|| beyond_sizes(at_least))?;
        let (load, length) = (book.table("vent-load"), book.table("vent-length"));
        let (long, part) = (maybe(book, "vent-long")?, maybe(book, "vent-horizontal-part")?);
        Ok(Self { book, half, least, base, long, load, length, part })
    }
    /// Whether a size is at least half the drain and carries a load, where one is known and the book asks.
    pub fn carries(&self, size: Size, units: Option<FixtureUnits>) -> bool {
        let by_load = match (self.load, units) {
            (Some(table), Some(units)) => table.row(size.name).is_some_and(|m| units.get() <= m + HAIR),
            _ => true,
        };
        by_load && size.inches >= self.base.inches - HAIR && self.lists(size)
    }
    fn lists(&self, size: Size) -> bool {
        self.length.is_none_or(|t| t.row(size.name).is_some())
    }
    /// Units a size carries as a vent, where the book says.
    pub fn load_of(&self, size: Size) -> Option<f64> {
        self.load?.row(size.name)
    }
    /// Whether the book holds the load of a vent against a table.
    pub fn asks_load(&self) -> bool {
        self.load.is_some()
    }
    /// Longest developed length of a size in feet; None if the book sets no limit for it.
    pub fn longest(&self, size: Size) -> Option<f64> {
        match self.length {
            Some(table) => table.row(size.name),
            None => self.long.filter(|_| size.inches < self.base.inches + HAIR),
        }
    }
    /// Longest horizontal part of a size in feet; None if the book sets no limit.
    pub fn longest_flat(&self, size: Size) -> Option<f64> {
        Some(self.longest(size)? / self.part?)
    }
    /// Whether a size does for a load, a length and a horizontal part, in feet.
    pub fn does(&self, size: Size, units: Option<FixtureUnits>, length: f64, flat: Option<f64>) -> bool {
        let short = self.longest(size).is_none_or(|most| length <= most + HAIR);
        let short_flat = match (self.longest_flat(size), flat) {
            (Some(most), Some(flat)) => flat <= most + HAIR,
            _ => true,
        };
        self.carries(size, units) && short && short_flat
    }
    /// The smallest size that does.
    ///
    /// # Errors
    /// None does.
    pub fn smallest(
        &self,
        units: Option<FixtureUnits>,
        length: f64,
        flat: Option<f64>,
    ) -> Result<Size, TradeError> {
        let found = self.sizes().find(|size| self.does(*size, units, length, flat));
        found.ok_or_else(|| match (self.length, units) {
            (Some(table), _) if table.rows.iter().all(|(_, most)| length > *most) => {
                let high = table.rows.iter().map(|(_, most)| *most).fold(0.0, f64::max);
                TradeError::OutOfRange {
                    what: Phrase("trade-vent-length"),
                    value: length,
                    low: 0.0,
                    high,
                    unit: "ft",
                }
            }
            (Some(_), Some(units))
                if self.load.is_some_and(|t| t.rows.iter().all(|(_, m)| units.get() > *m)) =>
            {
                let high = self.load.map(|t| t.rows.iter().map(|(_, m)| *m).fold(0.0, f64::max));
                let high = high.unwrap_or_default();
                TradeError::OutOfRange {
                    what: Phrase("trade-load-vent"),
                    value: units.get(),
                    low: 0.0,
                    high,
                    unit: "DFU",
                }
            }
            _ => beyond_sizes(self.base.inches),
        })
    }
    /// Sizes the book knows, from the smallest up.
    pub fn sizes(&self) -> impl Iterator<Item = Size> {
        ladder().filter(|s| self.lists(*s))
    }
    /// The limits to show for a size.
    ///
    /// # Errors
    /// A book without one of them.
    pub fn limits(&self, size: Size, flat: bool) -> Result<alloc::vec::Vec<Limit>, TradeError> {
        let mut out =
            alloc::vec![cite::value(self.book, "vent-half")?.1, cite::value(self.book, "vent-least")?.1];
        if self.long.is_some() {
            out.push(cite::value(self.book, "vent-long")?.1);
        }
        for id in ["vent-load", "vent-length"] {
            if self.book.table(id).is_some_and(|t| t.row(size.name).is_some()) {
                out.push(cite::row(self.book, id, size.name)?.1);
            }
        }
        if self.part.is_some() && flat {
            out.push(cite::value(self.book, "vent-horizontal-part")?.1);
        }
        if self.book.table("vent-size-up").is_some() {
            out.push(cite::value(self.book, "vent-size-up")?.1);
        }
        Ok(out)
    }
}

/// Neither load nor length alone is beyond its table, but no size does for both, or the next size is not known.
fn beyond_sizes(least: f64) -> TradeError {
    let least = crate::number::show_number(least);
    let what = survey::say!("trade-no-vent-size-known", least = least);
    TradeError::Clash { what, mend: Phrase("trade-check-drain-size-length") }
}

/// The smallest vent by its load alone, under a book with a column for it.
///
/// # Errors
/// A book without the table, or a load beyond it.
pub fn by_load(book: &Book, units: FixtureUnits) -> Result<Size, TradeError> {
    by_units(cite::table(book, "vent-load")?, units, Phrase("trade-load-vent"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    fn size(
        book: &str,
        drain: f64,
        units: Option<f64>,
        length: f64,
        flat: Option<f64>,
    ) -> Option<&'static str> {
        let shelf = catalog().shelf;
        let units = units.map(|n| FixtureUnits::new(n).unwrap());
        let rules = Rules::of(shelf.book(book).unwrap(), drain).unwrap();
        rules.smallest(units, length, flat).map(|s| s.name).ok()
    }

    #[test]
    fn half_the_drain_and_one_size_more_over_forty_feet_under_the_ipc() {
        // IPC 906.2 as restated: half the drain, 1-1/4 at least, over 40 ft one size larger
        for (drain, length, vent) in [
            (1.5, 20.0, "1-1/4"),
            (2.0, 20.0, "1-1/4"),
            (2.0, 40.0, "1-1/4"),
            (2.0, 41.0, "1-1/2"),
            (3.0, 30.0, "1-1/2"),
            (3.0, 50.0, "2"),
            (4.0, 30.0, "2"),
            (4.0, 60.0, "2-1/2"),
            (6.0, 60.0, "4"),
        ] {
            assert_eq!(size("ipc-2021", drain, None, length, None), Some(vent), "{drain} {length}");
        }
    }

    #[test]
    fn load_length_and_the_horizontal_third_under_the_upc() {
        // UPC Table 703.2: 1, 8, 24, 48, 84, 256 DFU; 45, 60, 120, 180, 212, 300 ft
        for (drain, units, length, flat, vent) in [
            (2.0, None, 20.0, None, "1-1/4"),
            (2.0, Some(2.0), 20.0, None, "1-1/2"),
            (2.0, Some(8.0), 60.0, Some(20.0), "1-1/2"),
            (2.0, Some(8.0), 61.0, None, "2"),
            (2.0, Some(8.0), 50.0, Some(21.0), "2"), // a third of 60 ft is 20
            (2.0, Some(9.0), 20.0, None, "2"),
            (4.0, Some(30.0), 100.0, None, "2-1/2"),
        ] {
            assert_eq!(
                size("upc-2012", drain, units, length, flat),
                Some(vent),
                "{drain} {units:?} {length}"
            );
        }
        assert_eq!(size("upc-2012", 2.0, None, 301.0, None), None);
    }

    #[test]
    fn a_vent_by_load_alone() {
        let shelf = catalog().shelf;
        let upc = shelf.book("upc-2012").unwrap();
        let vent = |n| by_load(upc, FixtureUnits::new(n).unwrap()).map(|s| s.name).ok();
        for (units, name) in [
            (1.0, Some("1-1/4")),
            (2.0, Some("1-1/2")),
            (8.0, Some("1-1/2")),
            (9.0, Some("2")),
            (24.0, Some("2")),
            (25.0, Some("2-1/2")),
            (256.0, Some("4")),
            (257.0, None),
        ] {
            assert_eq!(vent(units), name, "{units}");
        }
        assert!(by_load(shelf.book("ipc-2021").unwrap(), FixtureUnits::ZERO).is_err());
    }

    #[test]
    fn what_no_drain_is_has_no_vent() {
        let shelf = catalog().shelf;
        for drain in [0.0, 1.0, 13.0, f64::NAN, f64::INFINITY] {
            assert!(Rules::of(shelf.book("ipc-2021").unwrap(), drain).is_err(), "{drain}");
        }
    }
}
