//! The distribution of a sum: points that carry probability (nothing, and sums of fixed costs alone), kept exactly, and
//! beside each of them the part with a density.

use super::grid::{Grid, hats};
use super::{CostSum, MOST_ATOMS, SLACK, SumError};

/// Steps of the grid over the whole range, and over a part of it that is looked at again.
const STEPS: usize = 1 << 14;
const CLOSER_STEPS: usize = 1 << 12;

/// P(C ≤ x) for all x from 0 to a reach.
#[derive(Clone, Debug)]
pub struct Law {
    /// Sum of fixed costs, rising, and its probability in each scenario.
    atoms: Vec<(f64, Vec<f64>)>,
    scenarios: Vec<f64>,
    /// One for each scenario.
    grids: Vec<Grid>,
    step: f64,
    reach: f64,
}

impl CostSum {
    /// The distribution over the whole range. The grid widens the variance of what has a density by n·h²/6 at most
    /// about, with n items and h = (sum of the high values)/16384.
    ///
    /// # Errors
    /// [`SumError::TooManyFixed`].
    pub fn law(&self) -> Result<Law, SumError> {
        self.law_to(self.items.iter().map(|i| i.cost.high()).sum(), STEPS)
    }

    /// Smallest sum C stays within with probability `q` at least: sums of fixed costs are met exactly, other values
    /// within the grid's width, which is refined around low quantiles of a wide range.
    ///
    /// # Errors
    /// [`SumError::TooManyFixed`].
    pub fn quantiles(&self, q: &[f64]) -> Result<Vec<f64>, SumError> {
        let law = self.law()?;
        q.iter().map(|q| self.refined(&law, *q)).collect()
    }

    /// Looks again and again at the part of the range that the quantile lies in.
    fn refined(&self, law: &Law, q: f64) -> Result<f64, SumError> {
        let (mut found, mut step) = (law.quantile(q), law.step);
        while found > 0.0 {
            let reach = 1.25 * found + 8.0 * step;
            let closer = reach / CLOSER_STEPS as f64;
            if closer > 0.9 * step {
                break;
            }
            let close = self.law_to(reach, CLOSER_STEPS)?;
            if close.cdf(reach) < q {
                break;
            }
            (found, step) = (close.quantile(q), closer);
        }
        Ok(found)
    }

    fn law_to(&self, reach: f64, steps: usize) -> Result<Law, SumError> {
        let step = if reach > 0.0 { reach / steps as f64 } else { 1.0 };
        // Narrow estimates first: the grid is still empty further out and costs nothing there.
        let mut wide: Vec<_> = self.items.iter().filter(|i| i.cost.high() > i.cost.low()).collect();
        wide.sort_by(|a, b| a.cost.high().total_cmp(&b.cost.high()));
        let laid: Vec<_> = wide.iter().map(|i| hats(&i.cost, step, steps)).collect();
        let grids = (0..self.scenarios.len())
            .map(|s| {
                let items: Vec<_> = wide.iter().zip(&laid).map(|(i, h)| (i.p[s], &i.cost, h)).collect();
                Grid::of(&items, step, steps)
            })
            .collect();
        Ok(Law { atoms: self.atoms()?, scenarios: self.scenarios.clone(), grids, step, reach })
    }

    /// Sums of the fixed costs and their probabilities in each scenario; equal sums are one.
    fn atoms(&self) -> Result<Vec<(f64, Vec<f64>)>, SumError> {
        let mut atoms = vec![(0.0, vec![1.0; self.scenarios.len()])];
        for item in self.items.iter().filter(|i| i.cost.high() == i.cost.low() && i.cost.high() > 0.0) {
            let stays: Vec<f64> = item.p.iter().map(|p| 1.0 - p).collect();
            let times = |a: &[f64], b: &[f64]| -> Vec<f64> { a.iter().zip(b).map(|(a, b)| a * b).collect() };
            let mut next: Vec<(f64, Vec<f64>)> = atoms.iter().map(|(x, m)| (*x, times(m, &stays))).collect();
            next.extend(atoms.iter().map(|(x, m)| (x + item.cost.high(), times(m, &item.p))));
            atoms = merged(next);
            if atoms.len() > MOST_ATOMS {
                return Err(SumError::TooManyFixed);
            }
        }
        Ok(atoms)
    }
}

/// Rising values; values that differ by rounding only become one, and values without probability none.
pub(super) fn merged(mut atoms: Vec<(f64, Vec<f64>)>) -> Vec<(f64, Vec<f64>)> {
    atoms.retain(|(_, mass)| mass.iter().any(|m| *m > 0.0));
    atoms.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut out: Vec<(f64, Vec<f64>)> = Vec::new();
    for (x, mass) in atoms {
        match out.last_mut() {
            Some((before, sum)) if x - *before <= SLACK * x.abs() => {
                sum.iter_mut().zip(mass).for_each(|(s, m)| *s += m);
            }
            _ => out.push((x, mass)),
        }
    }
    out
}

impl Law {
    /// P(C ≤ x), for x up to the reach.
    pub fn cdf(&self, x: f64) -> f64 {
        let here = |s: usize, from: f64| {
            let grid = &self.grids[s];
            grid.none + grid.at(x - from)
        };
        self.atoms
            .iter()
            .take_while(|(from, _)| *from <= x)
            .map(|(from, mass)| -> f64 {
                (0..mass.len()).map(|s| self.scenarios[s] * mass[s] * here(s, *from)).sum()
            })
            .sum()
    }

    /// P(C = the atom of this index).
    fn weight(&self, atom: usize) -> f64 {
        let mass = &self.atoms[atom].1;
        (0..mass.len()).map(|s| self.scenarios[s] * mass[s] * self.grids[s].none).sum()
    }

    /// Smallest x with P(C ≤ x) ≥ q, but for a rounding of 1e-12; the reach if there is none below it.
    pub fn quantile(&self, q: f64) -> f64 {
        let q = q - SLACK;
        let inside = self.atoms.partition_point(|(x, _)| *x <= self.reach);
        let next = self.atoms[..inside].partition_point(|(x, _)| self.cdf(*x) < q);
        let mut above = match self.atoms[..inside].get(next) {
            Some((x, _)) if self.cdf(*x) - self.weight(next) < q => return *x,
            Some((x, _)) => *x,
            None => self.reach,
        };
        let mut below = next.checked_sub(1).map_or(0.0, |i| self.atoms[i].0);
        for _ in 0..60 {
            let middle = 0.5 * (below + above);
            if self.cdf(middle) < q { below = middle } else { above = middle }
        }
        above
    }
}
