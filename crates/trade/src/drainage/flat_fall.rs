//! Fall of a flat piece of drain before its vent: at most one diameter, so that the opening of the vent does not lie
//! below the weir. IRC P3105.2; UPC 1002.4, 905.5. This is one rule of several: `vent-route` holds the piece from trap
//! to riser as the trap arm it is, by [`crate::trap_arm`], with its length and its least slope.

use survey::Phrase;
use survey::catalog::Book;

use crate::cite;
use crate::error::{TradeError, finite};
use crate::sheet::Limit;
use crate::trap_arm::fall;

/// A flat piece: its fall, the most it may fall, both in inches, and the limit.
#[derive(Clone, PartialEq, Debug)]
pub struct FlatFall {
    /// Fall over the piece.
    pub fall: f64,
    /// One diameter.
    pub most: f64,
    /// Where that stands.
    pub limit: Limit,
}

impl FlatFall {
    /// A piece of a nominal diameter in inches, a slope in inches per foot and a length in inches.
    ///
    /// # Errors
    /// A number that is not finite, or a book without the rule.
    pub fn of(book: &Book, diameter: f64, slope: f64, length: f64) -> Result<Self, TradeError> {
        let diameter = finite(Phrase("trade-pipe-diameter"), diameter)?;
        let fall = fall(finite(Phrase("trade-slope-3"), slope)?, finite(Phrase("trade-length-3"), length)?);
        let (diameters, limit) = cite::value(book, "trap-arm-fall")?;
        Ok(Self { fall, most: diameters * diameter, limit })
    }
    /// Whether it falls one diameter at most.
    pub fn is_within(&self) -> bool {
        self.fall <= self.most + super::demand::HAIR
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    #[test]
    fn one_diameter_is_the_last_that_is_within() {
        // at 1/4 in/ft a 1-1/2 in pipe falls one diameter in 72 in: IRC P3105.2
        let shelf = catalog().shelf;
        let within = |d, slope, length| {
            FlatFall::of(shelf.book("ipc-2021").unwrap(), d, slope, length).unwrap().is_within()
        };
        assert!(within(1.5, 0.25, 72.0) && !within(1.5, 0.25, 84.0) && !within(1.5, 0.25, 72.1));
        assert!(within(2.0, 0.25, 96.0) && within(1.5, 0.0, 500.0));
        assert!(FlatFall::of(shelf.book("upc-2012").unwrap(), f64::NAN, 0.25, 1.0).is_err());
    }
}
