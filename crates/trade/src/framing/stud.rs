//! What a stud takes: IRC R602.6, in the framing book.

use alloc::{vec, vec::Vec};

use survey::Phrase;
use survey::catalog::Book;

use super::{HAIR, lumber};
use crate::cite::value;
use crate::error::{TradeError, finite};
use crate::sheet::Limit;

/// Limits of one stud, inches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct StudLimits {
    /// Notch, bearing or exterior wall.
    pub notch_bearing: f64,
    /// Notch, not bearing.
    pub notch_not_bearing: f64,
    /// Hole in a single stud of a bearing or exterior wall.
    pub hole_bearing: f64,
    /// Largest hole of all: doubled, or not bearing.
    pub hole_most: f64,
    /// Largest hole that keeps wood at both edges when it is in the middle.
    pub edge_cap: f64,
}

/// Shares of a stud's depth and the wood kept at an edge, with where they stand.
#[derive(Clone, PartialEq, Debug)]
pub struct Rules {
    /// Hole, of the depth.
    pub hole: f64,
    /// Notch, of the depth.
    pub notch: f64,
    /// Wood at each edge of a hole, inches.
    pub edge: f64,
    /// Where they stand: hole, notch, edge.
    pub limits: Vec<Limit>,
}

/// The rules for a stud that bears or not, single or doubled.
///
/// # Errors
/// A book without one of them.
pub fn rules(book: &Book, bearing: bool, doubled: bool) -> Result<Rules, TradeError> {
    let (hole, notch) = match (bearing, doubled) {
        (true, false) => ("stud-hole-single", "stud-notch-bearing"),
        (true, true) => ("stud-hole-doubled", "stud-notch-bearing"),
        (false, _) => ("stud-hole-not-bearing", "stud-notch-not-bearing"),
    };
    let (hole, hole_limit) = value(book, hole)?;
    let (notch, notch_limit) = value(book, notch)?;
    let (edge, edge_limit) = value(book, "stud-hole-edge")?;
    let limits = vec![hole_limit, notch_limit, edge_limit];
    Ok(Rules { hole: hole / 100.0, notch: notch / 100.0, edge, limits })
}

/// Limits of a stud of dressed lumber.
///
/// # Errors
/// A size the book does not know, or a book without one of the rules.
pub fn limits(book: &Book, name: &str) -> Result<StudLimits, TradeError> {
    let (depth, _) = lumber::depth(book, name)?;
    let single = rules(book, true, false)?;
    let most = rules(book, false, false)?;
    let edge_cap = depth - 2.0 * single.edge;
    Ok(StudLimits {
        notch_bearing: single.notch * depth,
        notch_not_bearing: most.notch * depth,
        hole_bearing: libm::fmin(single.hole * depth, edge_cap),
        hole_most: libm::fmin(most.hole * depth, edge_cap),
        edge_cap,
    })
}

/// Whether a stud of dressed lumber takes a hole in its middle: pipe and clearance in inches.
///
/// # Errors
/// As [`limits`], or a number that is not finite.
pub fn takes(
    book: &Book,
    name: &str,
    pipe: f64,
    clearance: f64,
    bearing: bool,
    doubled: bool,
) -> Result<bool, TradeError> {
    let limits = limits(book, name)?;
    let most = if bearing && !doubled { limits.hole_bearing } else { limits.hole_most };
    Ok(finite(Phrase("trade-pipe-2"), pipe)? + finite(Phrase("trade-clearance"), clearance)? <= most + HAIR)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    #[test]
    fn the_shares_of_the_code_give_the_table_on_paper() {
        // California Residential Code 2013 (IRC 2012) R602.6: 25/40 % notch, 40/60 % hole, 5/8 in edge
        let shelf = catalog().shelf;
        let book = shelf.book("irc-2012-framing").unwrap();
        for (name, paper) in [("2x4", [0.875, 1.4, 1.4, 2.1, 2.25]), ("2x6", [1.375, 2.2, 2.2, 3.3, 4.25])] {
            let l = limits(book, name).unwrap();
            let got = [l.notch_bearing, l.notch_not_bearing, l.hole_bearing, l.hole_most, l.edge_cap];
            assert!(got.iter().zip(paper).all(|(g, p)| (g - p).abs() < 1e-12), "{name}: {got:?}");
        }
    }

    #[test]
    fn which_pipe_goes_through_which_stud() {
        // Worked by hand from R602.6 and the outside diameters, hole no larger than the pipe
        let shelf = catalog().shelf;
        let book = shelf.book("irc-2012-framing").unwrap();
        let takes = |name, pipe, bearing, doubled| takes(book, name, pipe, 0.0, bearing, doubled).unwrap();
        // 1-1/2 drain pipe: not in a single bearing 2x4, yes doubled or where nothing bears
        assert_eq!(
            [(true, false), (true, true), (false, false)].map(|(b, d)| takes("2x4", 1.9, b, d)),
            [false, true, true]
        );
        // 2 in drain pipe never crosses 2x4 studs; 2x6 single bearing no (2.2), doubled yes
        assert!(!takes("2x4", 2.375, false, true));
        assert_eq!([false, true].map(|d| takes("2x6", 2.375, true, d)), [false, true]);
        // 2 in copper in a bearing 2x6: yes, without slack; 3 in drain pipe across 2x6 studs never
        assert!(takes("2x6", 2.125, true, false) && !takes("2x6", 3.5, false, true));
    }
}
