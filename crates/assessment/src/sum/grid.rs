//! The part of a sum that has a density, on a grid of equal steps, by direct convolution.
//!
//! Each estimate is laid on the grid by hat functions, wₖ = E[(1 − |X/h − k|)+] = (S(k−1) − 2S(k) + S(k+1))/h with
//! S(k) = E[(X − kh)+] in closed form: that keeps its mean exactly and widens its variance by at most h²/4. No draws,
//! no transforms, fixed order of sums: the same bits everywhere.

use trade::pert::Pert;

/// P(something with a density came, and the sum of it ≤ x), for x up to a reach.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    step: f64,
    /// Probability that nothing with a density came.
    pub(super) none: f64,
    /// Mass at each grid point, and of all points up to it.
    mass: Vec<f64>,
    upto: Vec<f64>,
    /// Below this no sum lies; at or above `top` all do.
    bottom: f64,
    top: f64,
}

/// An estimate on the grid: mass from grid point `first` on.
pub(super) struct Hats {
    first: usize,
    mass: Vec<f64>,
}

/// Lays an estimate on grid points 0 to `last`; mass beyond is dropped.
pub(super) fn hats(cost: &Pert, step: f64, last: usize) -> Hats {
    let first = (cost.low() / step).floor().max(0.0) as usize;
    let end = ((cost.high() / step).ceil() as usize).min(last);
    let tail = |k: f64| cost.excess(k * step);
    let (mut before, mut here) = (tail(first as f64 - 1.0), tail(first as f64));
    let mut mass = Vec::new();
    for k in first..=end {
        let after = tail(k as f64 + 1.0);
        // Never below zero but for rounding; cut off there, the roundings would no longer cancel.
        mass.push((before - 2.0 * here + after) / step);
        (before, here) = (here, after);
    }
    Hats { first, mass }
}

impl Grid {
    /// Sums up items: (probability, estimate, the estimate on the grid).
    pub(super) fn of(items: &[(f64, &Pert, &Hats)], step: f64, last: usize) -> Self {
        let mut grid = Self {
            step,
            none: 1.0,
            mass: vec![0.0; last + 1],
            upto: Vec::new(),
            bottom: f64::INFINITY,
            top: 0.0,
        };
        // So far the sum lies on points 0 to `filled`.
        let mut filled = 0;
        for (p, cost, hats) in items {
            if *p > 0.0 {
                grid.add(*p, hats, &mut filled);
                grid.bottom = grid.bottom.min(cost.low());
                grid.top += cost.high();
            }
        }
        let mut sum = 0.0;
        grid.upto = grid
            .mass
            .iter()
            .map(|m| {
                sum += m;
                sum
            })
            .collect();
        grid
    }

    fn add(&mut self, p: f64, hats: &Hats, filled: &mut usize) {
        let last = self.mass.len() - 1;
        let mut next: Vec<f64> = self.mass.iter().map(|m| (1.0 - p) * m).collect();
        for (j, w) in hats.mass.iter().enumerate() {
            let shift = hats.first + j;
            if shift > last {
                break;
            }
            let pw = p * w;
            for (to, from) in next[shift..].iter_mut().zip(&self.mass[..=*filled]) {
                *to += pw * from;
            }
            next[shift] += pw * self.none;
        }
        *filled = filled.saturating_add(hats.first).saturating_add(hats.mass.len()).min(last);
        self.mass = next;
        self.none *= 1.0 - p;
    }

    /// P(something with a density came, and the sum of it ≤ x), each point's mass spread evenly over the step around it.
    pub(super) fn at(&self, x: f64) -> f64 {
        if x <= self.bottom || x <= 0.0 {
            return 0.0;
        }
        if x >= self.top {
            return 1.0 - self.none;
        }
        self.between(x / self.step).clamp(0.0, 1.0 - self.none)
    }

    fn between(&self, place: f64) -> f64 {
        let k = (place + 0.5).floor() as usize;
        match (k.checked_sub(1), self.mass.get(k)) {
            (None, Some(mass)) => mass * 2.0 * place,
            (Some(before), Some(mass)) => self.upto[before] + mass * (place + 0.5 - k as f64),
            (_, None) => self.upto.last().copied().unwrap_or(0.0),
        }
    }
}
