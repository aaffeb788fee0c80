//! Laying lights out over a ceiling: even rows, moved off the joists.
//!
//! Spacing of about half the ceiling height and half of that to the walls is common practice without a source.

use alloc::{vec, vec::Vec};

use survey::Phrase;

use crate::error::{TradeError, finite};

/// Spacing of lights and their distance from a wall, inches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Spacing {
    /// From light to light.
    pub spacing: f64,
    /// From the wall to the first light.
    pub wall: f64,
}

/// Half the ceiling height, and half of that to the walls; inches.
///
/// # Errors
/// A height that is not finite.
pub fn spacing(ceiling_height: f64) -> Result<Spacing, TradeError> {
    let spacing = finite(Phrase("trade-ceiling-height"), ceiling_height)? / 2.0;
    Ok(Spacing { spacing, wall: spacing / 2.0 })
}

/// How many lights in a row of this length come nearest to a spacing: at least one.
pub fn count(length: f64, spacing: f64) -> u32 {
    let most = 200.0; // a row longer than any house
    let n = libm::floor(length / spacing);
    let n = libm::fmin(libm::fmax(n, 1.0), most);
    // n or n + 1, whichever comes nearer to the spacing
    let off = |n: f64| libm::fabs(length / n - spacing);
    let n = if n < most && off(n + 1.0) < off(n) { n + 1.0 } else { n };
    n as u32
}

/// Places along a row: even, half a step at each wall; inches.
pub fn even(length: f64, count: u32) -> Vec<f64> {
    let step = length / f64::from(count.max(1));
    (0..count).map(|i| (f64::from(i) + 0.5) * step).collect()
}

/// Centers of the joists across a room, from one of them and their spacing; inches from the wall, at most 1000.
pub fn joists(width: f64, first: f64, spacing: f64) -> Vec<f64> {
    let least = libm::fmax(spacing, 1.0);
    let start = first - libm::floor(first / least) * least;
    let mut out = Vec::new();
    for k in 0_u32..1000 {
        let x = start + f64::from(k) * least;
        if x > width {
            break;
        }
        out.push(x);
    }
    out
}

/// One place before and after it was moved off a joist, inches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Moved {
    /// Where the even row has it.
    pub from: f64,
    /// Where it goes.
    pub to: f64,
}

impl Moved {
    /// How far it was moved, with its sign.
    pub fn by(self) -> f64 {
        self.to - self.from
    }
}

/// Where the middle of a light may lie: between joists by `off` from a center, and `wall` from the walls.
pub fn free(width: f64, joists: &[f64], off: f64, wall: f64) -> Vec<(f64, f64)> {
    let mut out = Vec::new();
    let mut from = wall;
    for joist in joists {
        let to = libm::fmin(joist - off, width - wall);
        if from <= to {
            out.push((from, to));
        }
        from = libm::fmax(from, joist + off);
    }
    if from <= width - wall {
        out.push((from, width - wall));
    }
    out
}

/// Moves each place by the least distance into a free stretch. A pair that mirrors another keeps the mirror where one
/// distance serves both, and is no more than `most_extra` further than the least for either. None where no stretch is
/// free.
pub fn off_joists(places: &[f64], free: &[(f64, f64)], most_extra: f64) -> Option<Vec<Moved>> {
    let nearest = |x: f64| -> Option<f64> {
        let to = free.iter().map(|(a, b)| libm::fmin(libm::fmax(x, *a), *b));
        to.min_by(|p, q| libm::fabs(p - x).total_cmp(&libm::fabs(q - x)))
    };
    let is_free = |x: f64| free.iter().any(|(a, b)| (*a - 1e-9..=*b + 1e-9).contains(&x));
    let mut out = Vec::with_capacity(places.len());
    for x in places {
        out.push(Moved { from: *x, to: nearest(*x)? });
    }
    let n = places.len();
    for i in 0..n / 2 {
        let j = n - 1 - i;
        let (Some(left), Some(right)) = (out.get(i).copied(), out.get(j).copied()) else { continue };
        let least = libm::fmax(libm::fabs(left.by()), libm::fabs(right.by()));
        // One distance for both, toward the middle or away from it: the ends of the free stretches are where it turns.
        let ends = free.iter().flat_map(|(a, b)| [*a, *b]);
        let shifts = ends.flat_map(|end| [end - left.from, right.from - end]).chain([0.0]);
        let serves = |d: &f64| {
            libm::fabs(*d) <= least + most_extra && is_free(left.from + d) && is_free(right.from - d)
        };
        let best = shifts.filter(serves).min_by(|p, q| libm::fabs(*p).total_cmp(&libm::fabs(*q)));
        if let Some(d) = best {
            for (at, to) in [(i, left.from + d), (j, right.from - d)] {
                if let Some(moved) = out.get_mut(at) {
                    moved.to = to;
                }
            }
        }
    }
    Some(out)
}

/// The layout of a room: places across the joists and along them, inches.
#[derive(Clone, PartialEq, Debug)]
pub struct Layout {
    /// Across the joists, each moved off them.
    pub across: Vec<Moved>,
    /// Along the joists: nothing moves.
    pub along: Vec<f64>,
}

/// Lays lights out. `off` is from the middle of a light to the center of a joist, `wall` to a wall; inches. None where
/// no bay is wide enough, or where two rows would come to lie on each other.
pub fn lay(
    (across, along): (f64, f64),
    target: f64,
    joists: &[f64],
    off: f64,
    wall: f64,
    joist_spacing: f64,
) -> Option<Layout> {
    let columns = even(across, count(across, target));
    let free = free(across, joists, off, wall);
    let across = off_joists(&columns, &free, joist_spacing / 4.0)?;
    let apart = |w: &[Moved]| matches!(w, [a, b] if b.to - a.to >= 2.0 * wall);
    if !across.windows(2).all(apart) {
        return None;
    }
    let mut rows = even(along, count(along, target));
    if along < 2.0 * wall {
        rows = vec![along / 2.0];
    }
    Some(Layout { across, along: rows })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_height_and_half_of_that_to_the_wall() {
        // Common practice, no source: a 9 ft ceiling takes lights 4 ft 6 in apart, 2 ft 3 in from the wall
        assert_eq!(spacing(108.0).unwrap(), Spacing { spacing: 54.0, wall: 27.0 });
        assert!(spacing(f64::INFINITY).is_err());
    }

    #[test]
    fn an_even_row_keeps_half_a_step_at_each_wall() {
        assert_eq!((count(144.0, 48.0), even(144.0, 3)), (3, vec![24.0, 72.0, 120.0]));
        assert_eq!([60.0, 70.0, 73.0].map(|l| count(l, 48.0)), [1, 2, 2]);
        assert_eq!(count(1.0, 48.0), 1);
    }

    #[test]
    fn joists_are_counted_from_any_of_them() {
        assert_eq!(joists(60.0, 46.0, 16.0), joists(60.0, 14.0, 16.0));
        assert_eq!(joists(60.0, 14.0, 16.0), [14.0, 30.0, 46.0]);
    }

    #[test]
    fn a_light_on_a_joist_moves_by_the_least_distance() {
        // Joists at 14, 30, …; 4-1/4 in cut-out and 1/4 in clips keep 3-1/8 from a joist's center.
        let free = free(120.0, &joists(120.0, 14.0, 16.0), 3.125, 2.375);
        let moved = off_joists(&[31.0], &free, 4.0).unwrap();
        assert_eq!(moved, [Moved { from: 31.0, to: 33.125 }]);
        let still = off_joists(&[22.0], &free, 4.0).unwrap();
        assert_eq!(still.first().map(|m| m.by()), Some(0.0));
    }

    #[test]
    fn a_pair_moves_alike_where_it_can() {
        // Room of 128, joists mirrored about its middle: 8, 24, … 120. Lights at 25 and 103 move to 27-1/8 and 100-7/8.
        let free = free(128.0, &joists(128.0, 8.0, 16.0), 3.125, 2.375);
        let moved = off_joists(&[25.0, 103.0], &free, 4.0).unwrap();
        assert_eq!(moved.iter().map(|m| m.by()).collect::<Vec<_>>(), [2.125, -2.125]);
    }

    #[test]
    fn no_bay_is_wide_enough_for_a_hole_larger_than_it() {
        assert_eq!(lay((120.0, 96.0), 48.0, &joists(120.0, 6.0, 12.0), 8.0, 7.0, 12.0), None);
    }
}
