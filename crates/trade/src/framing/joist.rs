//! What a solid joist takes: IRC R502.8.1, in the framing book. Engineered lumber, I-joists and trusses have no
//! value here: the maker or an engineer says.

use alloc::{vec, vec::Vec};

use survey::catalog::Book;

use super::lumber;
use crate::cite::value;
use crate::error::TradeError;
use crate::sheet::Limit;

/// Limits of one joist, inches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct JoistLimits {
    /// Hole, anywhere along the joist; nought where the wood kept at top and bottom leaves none.
    pub hole: f64,
    /// Depth of a notch.
    pub notch: f64,
    /// Length of a notch.
    pub notch_length: f64,
    /// Depth of a notch at the end.
    pub end_notch: f64,
}

/// The numbers the limits are made of, with where they stand.
#[derive(Clone, PartialEq, Debug)]
pub struct Rules {
    /// A hole is at most the depth divided by this.
    pub hole: f64,
    /// Wood at top and bottom of a hole and between holes, inches.
    pub edge: f64,
    /// A notch is at most the depth divided by this.
    pub notch: f64,
    /// Its length is at most the depth divided by this.
    pub notch_length: f64,
    /// A notch at the end is at most the depth divided by this.
    pub end_notch: f64,
    /// No notch in the middle one of this many parts of the span.
    pub parts: f64,
    /// From this nominal thickness up the tension side is not notched, inches.
    pub tension: f64,
    /// Where they stand, in this order.
    pub limits: Vec<Limit>,
}

/// The rules of a book.
///
/// # Errors
/// A book without one of them.
pub fn rules(book: &Book) -> Result<Rules, TradeError> {
    let (hole, a) = value(book, "joist-hole")?;
    let (edge, b) = value(book, "joist-hole-edge")?;
    let (notch, c) = value(book, "joist-notch")?;
    let (notch_length, d) = value(book, "joist-notch-length")?;
    let (end_notch, e) = value(book, "joist-end-notch")?;
    let (parts, f) = value(book, "joist-notch-place")?;
    let (tension, g) = value(book, "joist-tension-notch")?;
    let limits = vec![a, b, c, d, e, f, g];
    Ok(Rules { hole, edge, notch, notch_length, end_notch, parts, tension, limits })
}

impl Rules {
    /// Limits of a joist of this depth in inches; a hole is in its middle.
    pub fn at(&self, depth: f64) -> JoistLimits {
        let by_edges = depth - 2.0 * self.edge;
        JoistLimits {
            hole: libm::fmax(libm::fmin(depth / self.hole, by_edges), 0.0),
            notch: depth / self.notch,
            notch_length: depth / self.notch_length,
            end_notch: depth / self.end_notch,
        }
    }
}

/// Limits of a joist of dressed lumber.
///
/// # Errors
/// A size the book does not know, or a book without one of the rules.
pub fn limits(book: &Book, name: &str) -> Result<JoistLimits, TradeError> {
    Ok(rules(book)?.at(lumber::depth(book, name)?.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    #[test]
    fn thirds_and_sixths_of_the_depth() {
        // California Residential Code 2013 (IRC 2012) R502.8.1; in a 2x6 the two inches at each edge beat a third
        let shelf = catalog().shelf;
        let book = shelf.book("irc-2012-framing").unwrap();
        for (name, paper) in [
            ("2x4", [0.0, 0.5833, 1.1667, 0.875]),
            ("2x6", [1.5, 0.9167, 1.8333, 1.375]),
            ("2x8", [2.4167, 1.2083, 2.4167, 1.8125]),
            ("2x10", [3.0833, 1.5417, 3.0833, 2.3125]),
            ("2x12", [3.75, 1.875, 3.75, 2.8125]),
        ] {
            let l = limits(book, name).unwrap();
            let got = [l.hole, l.notch, l.notch_length, l.end_notch];
            assert!(got.iter().zip(paper).all(|(g, p)| (g - p).abs() < 1e-4), "{name}: {got:?}");
        }
    }
}
