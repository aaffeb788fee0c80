//! The six-inch rule: no vent runs flat lower than 6 in above the flood rim of the fixture it serves, or it fills and
//! becomes a drain when the drain is blocked. IPC 905.5, UPC 905.3.

use survey::Phrase;
use survey::catalog::Book;

use crate::cite;
use crate::error::{TradeError, finite};
use crate::sheet::Limit;

/// Lowest height of a horizontal vent for a flood rim, both in inches above one floor, and the limit it stands in.
///
/// # Errors
/// A book without the rule, or a height that is not finite.
pub fn least_height(book: &Book, rim: f64) -> Result<(f64, Limit), TradeError> {
    let rim = finite(Phrase("trade-flood-rim-height"), rim)?;
    let (over, limit) = cite::value(book, "vent-over-rim")?;
    Ok((rim + over, limit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    #[test]
    fn six_inches_over_the_rim_under_both_families() {
        // IPC 905.5 and UPC 905.3: 36 in rim, 42 in vent
        let shelf = catalog().shelf;
        for book in ["ipc-2021", "upc-2012"].map(|id| shelf.book(id).unwrap()) {
            for (rim, least) in [(36.0, 42.0), (35.75, 41.75), (34.0, 40.0)] {
                assert_eq!(least_height(book, rim).unwrap().0, least);
            }
            assert!(least_height(book, f64::NAN).is_err());
        }
    }
}
