//! Steel plates that keep nails and screws out of a pipe: how many a line of holes takes.
//!
//! Distances are in the framing book: 1-1/4 in for wiring (NEC 300.4(A)(1)) and in current plumbing codes, 1-1/2 in
//! in older ones. The plumber and the inspector decide.

use alloc::{vec, vec::Vec};

use survey::catalog::Book;

use crate::cite::value;
use crate::error::TradeError;
use crate::sheet::Limit;

/// Distances from hole to edge under which a plate belongs there, inches.
pub struct Distances {
    /// For pipe, as printed in current codes.
    pub piping: f64,
    /// For pipe in older editions.
    pub older: f64,
    /// For cable.
    pub wiring: f64,
    /// Where they stand, the piping ones first.
    pub limits: Vec<Limit>,
}

/// The distances of a book.
///
/// # Errors
/// A book without one of them.
pub fn distances(book: &Book) -> Result<Distances, TradeError> {
    let (piping, current) = value(book, "nail-plate-piping")?;
    let (older, old) = value(book, "nail-plate-piping-older")?;
    let (wiring, cable) = value(book, "nail-plate-wiring")?;
    Ok(Distances { piping, older, wiring, limits: vec![current, old, cable] })
}

/// Largest hole in the middle of a member of this depth that needs no plate at either edge, inches.
pub fn largest_unplated(depth: f64, edge: f64) -> f64 {
    depth - 2.0 * edge
}

/// How many edges of a member lie nearer to the hole than `edge`: none, one or two.
pub fn edges_near(depth: f64, center: f64, hole: f64, edge: f64) -> u32 {
    let near = |wood: f64| u32::from(wood < edge - super::HAIR);
    near(center - hole / 2.0) + near(depth - center - hole / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_one_inch_hole_is_the_largest_in_a_2x4_without_a_plate() {
        // NEC 300.4(A)(1): 1-1/4 in at each edge; 3-1/2 − 2 × 1-1/4 = 1
        assert_eq!(largest_unplated(3.5, 1.25), 1.0);
        assert_eq!(largest_unplated(5.5, 1.25), 3.0);
        assert_eq!([1.0, 1.01].map(|hole| edges_near(3.5, 1.75, hole, 1.25)), [0, 2]);
        assert_eq!(edges_near(3.5, 1.5, 0.75, 1.25), 1);
    }
}
