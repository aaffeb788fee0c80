//! Mean, variance and the probability of no cost at all, in closed form.

use super::CostSum;

/// Exact moments of a sum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moments {
    /// Mean.
    pub mean: f64,
    /// Variance, in the unit of money squared.
    pub variance: f64,
    /// P(C = 0). An estimate that starts at zero still costs something when it comes.
    pub p_zero: f64,
}

impl CostSum {
    /// Given a scenario, means pμ and variances p(σ² + μ²) − (pμ)² add up; over scenarios by the law of total variance.
    pub fn moments(&self) -> Moments {
        let given: Vec<Moments> = (0..self.scenarios.len()).map(|s| self.given(s)).collect();
        let over = |f: &dyn Fn(&Moments) -> f64| -> f64 {
            self.scenarios.iter().zip(&given).map(|(w, m)| w * f(m)).sum()
        };
        let mean = over(&|m| m.mean);
        let variance = over(&|m| m.variance + (m.mean - mean) * (m.mean - mean));
        Moments { mean, variance, p_zero: over(&|m| m.p_zero) }
    }

    fn given(&self, scenario: usize) -> Moments {
        let mut sum = Moments { mean: 0.0, variance: 0.0, p_zero: 1.0 };
        for item in &self.items {
            let (p, mu) = (item.p[scenario], item.cost.mean());
            sum.mean += p * mu;
            // p(σ² + μ²) − (pμ)², without the difference of two large numbers.
            sum.variance += p * item.cost.variance() + p * (1.0 - p) * mu * mu;
            if item.cost.high() > 0.0 {
                sum.p_zero *= 1.0 - p;
            }
        }
        sum
    }
}
