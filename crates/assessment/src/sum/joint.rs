//! Sums over conditions that depend on each other, from the joint table of which of them hold: what the simulation
//! draws from, enumerated.

use trade::pert::Pert;

use super::law::merged;
use super::{SLACK, SumError};

/// Which of n things hold, with the probability of every combination.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    things: usize,
    /// 2ⁿ probabilities; the first thing is the highest bit, 1 = holds.
    table: Vec<f64>,
}

impl Joint {
    /// Takes a table over things that each hold or do not, the last fastest, "does not" before "holds"; it is scaled to
    /// sum to 1.
    ///
    /// # Errors
    /// A table of another size, or with a number that is no probability, or without any.
    pub fn new(things: usize, table: Vec<f64>) -> Result<Self, SumError> {
        let needed = u32::try_from(things).ok().and_then(|n| 1usize.checked_shl(n)).unwrap_or(usize::MAX);
        if table.len() != needed {
            return Err(SumError::Table { costs: things, needed, got: table.len() });
        }
        let total: f64 = table.iter().sum();
        match table.iter().find(|p| !(0.0..).contains(*p)) {
            Some(p) => Err(SumError::Probability { what: "a combination".to_owned(), p: *p }),
            None if !(total > 0.0 && total.is_finite()) => Err(SumError::Scenarios(total)),
            None => Ok(Self { things, table: table.iter().map(|p| p / total).collect() }),
        }
    }

    fn holds(&self, combination: usize, thing: usize) -> bool {
        combination >> (self.things - 1 - thing) & 1 == 1
    }

    /// Σ over combinations of P(combination)·f(combination).
    fn expect(&self, f: impl Fn(usize) -> f64) -> f64 {
        self.table.iter().enumerate().map(|(c, p)| p * f(c)).sum()
    }

    /// Σ of `values` over the things that hold in a combination.
    fn total(&self, combination: usize, values: &[f64]) -> f64 {
        values.iter().enumerate().filter(|(i, _)| self.holds(combination, *i)).map(|(_, v)| v).sum()
    }

    /// P(thing holds), for each.
    pub fn p_yes(&self) -> Vec<f64> {
        (0..self.things).map(|i| self.expect(|c| f64::from(u8::from(self.holds(c, i))))).collect()
    }

    /// P(nothing holds).
    pub fn none(&self) -> f64 {
        self.table[0]
    }

    /// Covariances of the indicators, E[(Bᵢ − pᵢ)(Bⱼ − pⱼ)].
    pub fn covariance(&self) -> Vec<Vec<f64>> {
        let p = self.p_yes();
        let off = |c: usize, i: usize| f64::from(u8::from(self.holds(c, i))) - p[i];
        let row = |i: usize| (0..self.things).map(|j| self.expect(|c| off(c, i) * off(c, j))).collect();
        (0..self.things).map(row).collect()
    }

    /// Mean and variance of Σ Bᵢ·Xᵢ with the Xᵢ independent of each other and of what holds: E[Σ σ²] plus the variance
    /// of Σ μ over the combinations. One cost for each thing; missing ones count as nothing.
    pub fn moments(&self, costs: &[Pert]) -> (f64, f64) {
        let costs = &costs[..costs.len().min(self.things)];
        let mu: Vec<f64> = costs.iter().map(Pert::mean).collect();
        let spread: Vec<f64> = costs.iter().map(Pert::variance).collect();
        let mean = self.expect(|c| self.total(c, &mu));
        let variance = self.expect(|c| {
            let off = self.total(c, &mu) - mean;
            self.total(c, &spread) + off * off
        });
        (mean, variance)
    }

    /// The distribution of Σ Bᵢ·cᵢ for fixed amounts: (sum, probability), sums rising, equal sums as one.
    pub fn fixed(&self, amounts: &[f64]) -> Vec<(f64, f64)> {
        let amounts = &amounts[..amounts.len().min(self.things)];
        let each = self.table.iter().enumerate().map(|(c, p)| (self.total(c, amounts), vec![*p]));
        merged(each.collect()).into_iter().map(|(x, p)| (x, p.iter().sum())).collect()
    }
}

/// Smallest value whose cumulative probability reaches `q` but for a rounding of 1e-12, with the cumulative probability
/// just before it and at it. `None` for an empty distribution.
pub fn quantile(distribution: &[(f64, f64)], q: f64) -> Option<(f64, f64, f64)> {
    let mut before = 0.0;
    for (i, (x, p)) in distribution.iter().enumerate() {
        let at = before + p;
        if at >= q - SLACK || i + 1 == distribution.len() {
            return Some((*x, before, at));
        }
        before = at;
    }
    None
}
