//! The chance that a hole is larger than a member takes, when hole, depth and place are all uncertain.
//!
//! Two limits bind at once, a share of the depth and the wood kept at each edge, and they share the same errors, so
//! adding their chances would count some cases twice. Depth and place are therefore summed over (trapezoid on a grid
//! of ±6 σ, which for a normal weight converges faster than any power of the step), and the hole's own error is
//! taken in closed form at each point.

use crate::normal::chance_over;

/// A normal variable.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Normal {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sigma: f64,
}

/// Half the nodes of the sum: 0.1 σ apart.
const NODES: i32 = 60;

/// P(hole > largest(depth, shift)): `shift` is how far the hole lies off its mark, with mean nought and σ
/// `shift_sigma`. All in inches.
pub fn chance_larger(
    hole: Normal,
    depth: Normal,
    shift_sigma: f64,
    largest: impl Fn(f64, f64) -> f64,
) -> f64 {
    let mut weight = 0.0;
    let mut beyond = 0.0;
    for i in -NODES..=NODES {
        for j in -NODES..=NODES {
            let (zi, zj) = (f64::from(i) / 10.0, f64::from(j) / 10.0);
            let w = libm::exp(-0.5 * (zi * zi + zj * zj));
            let limit = largest(depth.mean + zi * depth.sigma, zj * shift_sigma);
            weight += w;
            beyond += w * chance_over(hole.mean, limit, hole.sigma);
        }
    }
    libm::fmin(libm::fmax(beyond / weight, 0.0), 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::normal::phi;

    #[test]
    fn with_one_limit_it_is_the_closed_formula() {
        // P(H > 0.4 D) = Φ((μ_H − 0.4 μ_D) / √(σ_H² + 0.16 σ_D²))
        let (hole, depth) = (Normal { mean: 2.18, sigma: 0.016 }, Normal { mean: 5.5, sigma: 0.03125 });
        let got = chance_larger(hole, depth, 0.0, |d, _| 0.4 * d);
        let sigma = libm::sqrt(0.016 * 0.016 + 0.16 * 0.03125 * 0.03125);
        assert!((got - phi((2.18 - 2.2) / sigma)).abs() < 1e-9, "{got}");
    }

    #[test]
    fn both_edges_count_and_neither_counts_twice() {
        // A hole of fixed size in a member of fixed depth leaves 0.1 in to spare at each edge: P = 2 Φ(−0.1/σ).
        let fixed = |mean| Normal { mean, sigma: 1e-6 };
        let got =
            chance_larger(fixed(2.0), fixed(3.45), 0.05, |d, shift| 2.0 * (d / 2.0 - shift.abs() - 0.625));
        assert!((got - 2.0 * phi(-2.0)).abs() < 0.01, "{got}"); // a step on the grid: to a node's weight
    }
}
