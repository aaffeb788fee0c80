//! A window over the sink: a riser below it has to turn aside under the framing of the sill, and may not do that
//! lower than the six-inch rule lets it. Plain geometry; outside diameters from the framing book.

use survey::catalog::{Family, Shelf};

use crate::cite;
use crate::error::TradeError;
use crate::framing::pipe;
use crate::sheet::Limit;

/// What a vent is taken to be made of: a word of [`pipe::MATERIALS`].
const MATERIAL: &str = "PVC/ABS DWV";

/// Sizes whose outside the framing book lists for plastic drain pipe.
pub const SIZES: &[&str] = &["1-1/4", "1-1/2", "2", "3", "4"];

/// Depth of sill and framing under the height of a window sill, inches: common practice, no source. A rough sill of
/// one flat 2x4, the stool over it, and shims.
pub const SILL_FRAMING: f64 = 3.0;
/// σ of that depth where it was not measured, inches: common practice, no source.
pub const SILL_FRAMING_SIGMA: f64 = 0.5;

/// Outside diameter of a nominal size of plastic drain pipe in inches, and the limit to show.
///
/// # Errors
/// No framing book, or a size it does not list, with those it does.
pub fn outside(shelf: &Shelf, size: &str) -> Result<(f64, Limit), TradeError> {
    let (books, _) = cite::books(shelf, Family::Framing)?;
    let book = books.first().ok_or(TradeError::NoBook { family: Family::Framing.word() })?;
    pipe::outside(book, MATERIAL, size)
}

/// Room left between the top of a flat vent and the framing under a sill, inches; negative where it does not pass.
/// `lowest` is the underside of the flat vent, all heights above one floor.
pub fn room(sill: f64, framing: f64, outside: f64, lowest: f64) -> f64 {
    sill - framing - outside - lowest
}

#[cfg(test)]
mod tests {
    use alloc::vec::Vec;

    use survey::catalog::Mark;

    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;

    #[test]
    fn a_usual_window_over_a_usual_sink_blocks_the_riser() {
        // rim 36: the flat vent lies at 42 or higher, its top at 43.9; a sill at 44 with 3 in of framing leaves 41
        let (pipe, _) = outside(&catalog().shelf, "1-1/2").unwrap();
        assert!((room(44.0, SILL_FRAMING, pipe, 42.0) - (41.0 - 43.9)).abs() < 1e-12);
        assert!(room(47.0, SILL_FRAMING, pipe, 42.0) > 0.0);
    }

    #[test]
    fn outside_diameters_are_those_of_the_framing_book() {
        let shelf = catalog().shelf;
        let rows = &shelf.book("irc-2012-framing").unwrap().table("pipe-od-pvc-abs-dwv").unwrap().rows;
        let known: Vec<&str> = rows.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(known, SIZES);
        for (name, inches) in rows {
            let (found, limit) = outside(&shelf, name).unwrap();
            assert_eq!((found, limit.mark), (*inches, Mark::Published), "{name}");
        }
        let error = outside(&shelf, "5").unwrap_err().message().en();
        assert!(error.contains("1-1/4, 1-1/2, 2, 3, 4"), "{error}");
    }
}
