//! Framing along a plane, and a hole extended to its centers: a patch needs wood behind both of its upright edges.
//!
//! Common practice, no source: (⌈x1/oc⌉ − ⌊x0/oc⌋) bays of the spacing oc, x from a framing center.

use alloc::vec::Vec;

use survey::Phrase;

use crate::error::{TradeError, finite};
use crate::openings::rects::{HAIR, Rect};

/// Square inches in a square foot.
pub const PER_FOOT: f64 = 144.0;

/// Where framing stands along a plane. Inches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Grid {
    /// Center to center; over zero.
    pub spacing: f64,
    /// Center of the first stud from the left end of the plane, where x is measured from that end. Without it x is
    /// measured from a framing center and the ends are not known.
    pub first: Option<f64>,
    /// Right end of the plane, where the left one is known too.
    pub end: Option<f64>,
}

impl Grid {
    /// Framing at zero and every `spacing` from there.
    pub const fn from_center(spacing: f64) -> Self {
        Self { spacing, first: None, end: None }
    }
    fn bays(&self, x: f64) -> f64 {
        (x - self.first.unwrap_or_default()) / self.spacing
    }
    /// The center of a number as if the plane went on beyond its ends.
    pub fn endless(&self, n: f64) -> f64 {
        self.first.unwrap_or_default() + n * self.spacing
    }
    /// The center of a number; a plane ends in framing, so none lies outside its ends.
    pub fn center(&self, n: f64) -> f64 {
        let x = self.endless(n);
        let from = if self.first.is_some() { libm::fmax(x, 0.0) } else { x };
        libm::fmin(from, self.end.unwrap_or(f64::INFINITY))
    }
    /// Number of the last center at or left of x.
    pub fn left_of(&self, x: f64) -> f64 {
        libm::floor(self.bays(x) + HAIR)
    }
    /// Number of the first center at or right of x.
    pub fn right_of(&self, x: f64) -> f64 {
        libm::ceil(self.bays(x) - HAIR)
    }
    /// Whether x was given on a center or an end of the plane: the cut is then meant to lie there.
    pub fn on_center(&self, x: f64) -> bool {
        let near = |c: f64| libm::fabs(c - x) <= HAIR;
        near(self.center(self.left_of(x))) || near(self.center(self.right_of(x)))
    }
    /// A hole extended left and right to framing.
    #[must_use]
    pub fn extend(&self, hole: &Rect) -> Rect {
        Rect {
            x0: libm::fmin(hole.x0, self.center(self.left_of(hole.x0))),
            x1: libm::fmax(hole.x1, self.center(self.right_of(hole.x1))),
            ..*hole
        }
    }
    /// Centers from one x to another, both included, at most 400.
    pub fn centers(&self, from: f64, to: f64) -> Vec<f64> {
        let mut out = Vec::new();
        let mut n = self.left_of(from);
        while out.len() < 400 && self.center(n) <= to + HAIR {
            let x = self.center(n);
            if out.last() != Some(&x) {
                out.push(x);
            }
            if x >= self.end.unwrap_or(f64::INFINITY) {
                break;
            }
            n += 1.0;
        }
        out
    }
}

/// Square feet of the patch over one hole: from `x0` to `x1` inches from a framing center, `height` inches high.
///
/// # Errors
/// A number that is not finite, edges the wrong way round, a height under zero or a spacing not over zero.
pub fn patch_area(x0: f64, x1: f64, height: f64, spacing: f64) -> Result<f64, TradeError> {
    let (x0, x1) = (finite(Phrase("trade-left-edge"), x0)?, finite(Phrase("trade-right-edge"), x1)?);
    for (what, value, low) in [
        (Phrase("trade-right-edge"), x1, x0),
        (Phrase("trade-height-2"), finite(Phrase("trade-height-2"), height)?, 0.0),
    ] {
        if value < low {
            return Err(TradeError::OutOfRange { what, value, low, high: f64::MAX, unit: "in" });
        }
    }
    if finite(Phrase("trade-framing-spacing"), spacing)? <= 0.0 {
        let (what, unit) = (Phrase("trade-framing-spacing"), "in");
        return Err(TradeError::OutOfRange { what, value: spacing, low: 1.0, high: 96.0, unit });
    }
    let grid = Grid::from_center(spacing);
    Ok((grid.right_of(x1) - grid.left_of(x0)) * spacing * height / PER_FOOT)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_patch_reaches_the_next_centers() {
        // By hand: one bay 16 × 24 ÷ 144; exactly center to center; 10 to 40 takes 0 to 48; 24 in spacing.
        for (x0, x1, height, spacing, feet) in [
            (3.0, 14.5, 24.0, 16.0, 8.0 / 3.0),
            (0.0, 16.0, 36.0, 16.0, 4.0),
            (10.0, 40.0, 48.0, 16.0, 16.0),
            (20.0, 30.0, 12.0, 24.0, 4.0),
            (38.4, 57.6, 10.0, 19.2, 19.2 / 14.4), // exactly one bay of 19.2 in: no float makes it three
        ] {
            assert!((patch_area(x0, x1, height, spacing).unwrap() - feet).abs() < 1e-12, "{x0} to {x1}");
        }
        for bad in
            [(5.0, 4.0, 1.0, 16.0), (0.0, 1.0, -1.0, 16.0), (0.0, 1.0, 1.0, 0.0), (f64::NAN, 1.0, 1.0, 16.0)]
        {
            assert!(patch_area(bad.0, bad.1, bad.2, bad.3).is_err(), "{bad:?}");
        }
    }

    #[test]
    fn a_plane_ends_in_framing() {
        // First stud at 14-1/2, plane 40 wide: framing at 0, 14-1/2, 30-1/2 and 40.
        let grid = Grid { spacing: 16.0, first: Some(14.5), end: Some(40.0) };
        assert_eq!(grid.centers(0.0, 40.0), [0.0, 14.5, 30.5, 40.0]);
        assert_eq!(grid.extend(&Rect::at(3.0, 0.0, 6.0, 8.0)), Rect::at(0.0, 0.0, 14.5, 8.0));
        assert_eq!(
            grid.extend(&Rect::at(31.0, 0.0, 2.0, 8.0)),
            Rect { x0: 30.5, y0: 0.0, x1: 40.0, y1: 8.0 }
        );
        assert!(grid.on_center(30.5) && grid.on_center(40.0) && !grid.on_center(31.0));
    }
}
