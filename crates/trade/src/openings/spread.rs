//! How sure an opened area is: the chance that it lies over a value.
//!
//! Heights move a patch smoothly; a left or right edge moves it by a whole bay, when it falls on the other side of a
//! framing center. So the area is a mixture: for every way the edges may fall (with its probability) a normal
//! distribution from the heights. An edge given on a center is meant to be cut there and does not move.

use alloc::{vec, vec::Vec};

use survey::say;

use crate::normal::phi;
use crate::openings::grid::{Grid, PER_FOOT};
use crate::openings::hole::Hole;
use crate::openings::plane::Plane;
use crate::openings::rects::{HAIR, Rect, covered};
use crate::tolerance::Budget;

/// Ways the edges of one plane may fall that are told apart; beyond it a hole is counted at its widest likely patch.
const MOST_WAYS: usize = 64;
/// Parts kept when planes of one room are put together.
const MOST_PARTS: usize = 1024;
/// Ways less likely than this are dropped.
const RARE: f64 = 1e-5;
/// Steps of Simpson's rule over one bay; even.
const STEPS: u32 = 64;

/// A mixture of normal distributions: weight, mean, variance.
#[derive(Clone, PartialEq, Debug)]
pub struct Mixture(Vec<(f64, f64, f64)>);

impl Mixture {
    /// A value without spread.
    pub fn sure(value: f64) -> Self {
        Self(vec![(1.0, value, 0.0)])
    }
    /// The mean.
    pub fn mean(&self) -> f64 {
        self.0.iter().map(|(p, m, _)| p * m).sum()
    }
    /// One standard deviation.
    pub fn sigma(&self) -> f64 {
        let mean = self.mean();
        libm::sqrt(self.0.iter().map(|(p, m, v)| p * (v + (m - mean) * (m - mean))).sum())
    }
    /// P(over a limit); exactly at the limit is not over it.
    pub fn chance_over(&self, limit: f64) -> f64 {
        let one = |m: f64, v: f64| crate::normal::chance_over(m - limit, HAIR, libm::sqrt(v));
        self.0.iter().map(|(p, m, v)| p * one(*m, *v)).sum::<f64>().clamp(0.0, 1.0)
    }
    /// The sum of two that do not depend on each other.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        let plain = |m: &Self| Self(vec![(1.0, m.mean(), m.sigma() * m.sigma())]);
        if self.0.len() * other.0.len() > MOST_PARTS {
            let (long, short) = if self.0.len() > other.0.len() { (self, other) } else { (other, self) };
            return plain(long).plus(short);
        }
        let pairs = self.0.iter().flat_map(|a| other.0.iter().map(move |b| (a, b)));
        Self(pairs.map(|(a, b)| (a.0 * b.0, a.1 + b.1, a.2 + b.2)).collect())
    }
}

/// Left and right edge of a patch and the probability that they fall so.
type Ways = Vec<(f64, f64, f64)>;

/// The area of a plane's patches over chosen holes, in square feet.
pub fn area(plane: &Plane, wanted: impl Fn(&Hole) -> bool) -> Mixture {
    let holes: Vec<&Hole> = plane.holes.iter().filter(|h| wanted(h)).collect();
    if holes.is_empty() {
        return Mixture::sure(0.0);
    }
    let mut all: Vec<(f64, Vec<(f64, f64)>)> = vec![(1.0, Vec::new())];
    for hole in &holes {
        let mut ways = ways(hole, &plane.grid);
        if all.len() * ways.len() > MOST_WAYS {
            ways = widest(&ways);
        }
        let longer = all.iter().flat_map(|(p, edges)| {
            ways.iter().map(move |(x0, x1, q)| {
                let mut edges = edges.clone();
                edges.push((*x0, *x1));
                (p * q, edges)
            })
        });
        all = longer.collect();
    }
    let part = |(p, edges): (f64, Vec<(f64, f64)>)| {
        let patches: Vec<Rect> = holes
            .iter()
            .zip(&edges)
            .map(|(h, (x0, x1))| Rect { x0: *x0, x1: *x1, ..h.edges.rect() })
            .collect();
        let sigma = heights(&holes, &patches).sigma();
        (p, covered(&patches) / PER_FOOT, sigma * sigma)
    };
    Mixture(all.into_iter().map(part).collect())
}

/// What bottoms and heights bring, by the area gained and lost when each moves by its σ.
fn heights(holes: &[&Hole], patches: &[Rect]) -> Budget {
    let mut budget = Budget::new();
    for (i, (hole, patch)) in holes.iter().zip(patches).enumerate() {
        // Only what stands above or below can be uncovered or covered.
        let beside =
            patches.iter().enumerate().filter(|(j, r)| *j != i && r.x0 < patch.x1 && r.x1 > patch.x0);
        let mut near: Vec<Rect> = beside.map(|(_, r)| *r).collect();
        let [_, bottom, _, height] = hole.edges.sigmas();
        for (what, sigma, follows) in [("bottom", bottom, 1.0), ("height", height, 0.0)] {
            let mut moved = |by: f64| {
                let y0 = patch.y0 + follows * by;
                near.push(Rect { y0, y1: libm::fmax(patch.y1 + by, y0), ..*patch });
                let area = covered(&near) / PER_FOOT;
                near.pop();
                area
            };
            let slope = (moved(sigma) - moved(-sigma)) / (2.0 * sigma);
            budget.add(say!("trade-hole-2", what = what, i = i), slope, sigma);
        }
    }
    budget
}

/// Every way the two edges of a hole may fall.
fn ways(hole: &Hole, grid: &Grid) -> Ways {
    let (rect, [at, _, wide, _]) = (hole.edges.rect(), hole.edges.sigmas());
    let width = rect.x1 - rect.x0;
    let meant = grid.extend(&rect);
    let mut out = Ways::new();
    match (grid.on_center(rect.x0), grid.on_center(rect.x1)) {
        (true, true) => out.push((meant.x0, meant.x1, 1.0)),
        (true, false) => {
            for (right, p) in rights(grid, rect.x1, libm::hypot(at, wide)) {
                add(&mut out, meant.x0, right, p);
            }
        }
        (false, known) => {
            let from = grid.left_of(rect.x0 - 5.0 * at);
            let mut n = from;
            while n <= grid.left_of(rect.x0 + 5.0 * at) {
                let (low, high) = (grid.endless(n), grid.endless(n + 1.0));
                if known {
                    let p = phi((high - rect.x0) / at) - phi((low - rect.x0) / at);
                    add(&mut out, grid.center(n), meant.x1, p);
                } else {
                    both(&mut out, grid, n, (rect.x0, at), (width, wide));
                }
                n += 1.0;
            }
        }
    }
    out.retain(|(_, _, p)| *p > RARE);
    let sum: f64 = out.iter().map(|(_, _, p)| p).sum();
    if sum <= 0.0 {
        return vec![(meant.x0, meant.x1, 1.0)];
    }
    out.iter_mut().for_each(|(_, _, p)| *p /= sum);
    out
}

/// The left edge lies between two centers: Simpson's rule over it, and for each place the ways of the right edge.
fn both(out: &mut Ways, grid: &Grid, n: f64, left: (f64, f64), width: (f64, f64)) {
    let low = libm::fmax(grid.endless(n), left.0 - 5.0 * left.1);
    let high = libm::fmin(grid.endless(n + 1.0), left.0 + 5.0 * left.1);
    if high <= low {
        return;
    }
    let step = (high - low) / f64::from(STEPS);
    for k in 0..=STEPS {
        let weight = if k == 0 || k == STEPS { 1.0 } else { f64::from(2 + 2 * (k % 2)) };
        let x = low + step * f64::from(k);
        let z = (x - left.0) / left.1;
        let density = libm::exp(-z * z / 2.0) / (left.1 * libm::sqrt(2.0 * core::f64::consts::PI));
        for (right, p) in rights(grid, x + width.0, width.1) {
            add(out, grid.center(n), right, p * density * weight * step / 3.0);
        }
    }
}

/// Centers that a right edge about `x` may be extended to.
fn rights(grid: &Grid, x: f64, sigma: f64) -> Vec<(f64, f64)> {
    let mut out = Vec::new();
    let mut n = grid.right_of(x - 5.0 * sigma);
    while n <= grid.right_of(x + 5.0 * sigma) {
        let (low, high) = (grid.endless(n - 1.0), grid.endless(n));
        out.push((grid.center(n), phi((high - x) / sigma) - phi((low - x) / sigma)));
        n += 1.0;
    }
    out
}

fn add(ways: &mut Ways, x0: f64, x1: f64, p: f64) {
    match ways.iter_mut().find(|(a, b, _)| *a == x0 && *b == x1) {
        Some((_, _, sum)) => *sum += p,
        None => ways.push((x0, x1, p)),
    }
}

/// One way: the widest among those that are not unlikely.
fn widest(ways: &Ways) -> Ways {
    let over = |least: f64| {
        let likely = ways.iter().filter(move |(_, _, p)| *p > least);
        likely.map(|(x0, x1, _)| (*x0, *x1)).reduce(|a, b| (libm::fmin(a.0, b.0), libm::fmax(a.1, b.1)))
    };
    over(0.05).or_else(|| over(0.0)).map(|(x0, x1)| vec![(x0, x1, 1.0)]).unwrap_or_default()
}
