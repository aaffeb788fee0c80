//! The price of a promise: some concealed conditions will not change the price, up to a cap.
//!
//! In every joint draw the promise pays the sum of what the promised conditions cost there, at most the cap:
//! payout = min(K, Σ_{i∈S} cost_i). The premium is its mean and a part λ of what the ninetieth percentile lies above
//! the mean. A condition whose cost another one holds in a draw costs nothing there, promised or not.
//!
//! What further checks do to the premium is reckoned on the same draws (`after`): a result weighs each draw with its
//! probability in that draw, which is Bayes' rule, because a result hangs on its condition alone.

mod after;
mod house;
mod search;
#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};
use survey::catalog::Catalog;

use crate::simulate::{Draws, spread};

pub use crate::together::Reads;
pub use house::{
    CheckPlan, Covered, MOST_LOADING, Part, Priced, Promise, PromiseError, Promised, Refusal, promise,
};
pub use search::{Check, Plan, Search, cheapest};

/// How a firm prices a promise. The defaults are judgment.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Terms {
    /// λ: the part of P90 − mean that is charged on top of the mean.
    pub loading: f64,
    /// The chance, at least, with which checks must bring the premium under a wanted figure to be named for it.
    pub chance: f64,
}

impl Default for Terms {
    fn default() -> Self {
        Self { loading: 0.5, chance: 0.5 }
    }
}

impl Terms {
    /// The firm's loading as its catalog has it (`promise-spread`); the chance is asked for one promise at a time.
    pub fn of(catalog: &Catalog) -> Self {
        let kept = Self::default();
        Self { loading: catalog.setting("promise-spread").unwrap_or(kept.loading), ..kept }
    }
}

/// What a promise costs, dollars.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Premium {
    /// Mean payout.
    pub mean: f64,
    /// The payout stays within this in 8 of 10 draws.
    pub p80: f64,
    /// In 9 of 10.
    pub p90: f64,
    /// P(the cap is reached).
    pub reached: f64,
    /// mean + λ·(P90 − mean).
    pub premium: f64,
    /// Monte-Carlo standard errors of mean, P80, P90, P(reached), and an upper bound of that of the premium: mean and
    /// percentile err together at worst.
    pub se: [f64; 5],
}

/// Prices a promise of some items (by index) up to a cap, dollars.
pub fn price(draws: &Draws, covered: &[usize], cap: f64, terms: &Terms) -> Premium {
    let sums = payouts(draws, covered);
    let n = sums.len().max(1) as f64;
    let reached = sums.iter().filter(|sum| **sum >= cap).count() as f64 / n;
    let mut paid: Vec<f64> = sums.into_iter().map(|sum| libm::fmin(sum, cap)).collect();
    let spread = spread(&mut paid);
    let [mean_error, _, p80_error, p90_error] = spread.se;
    let loading = terms.loading;
    Premium {
        mean: spread.mean,
        p80: spread.p80,
        p90: spread.p90,
        reached,
        premium: loaded(spread.mean, spread.p90, terms),
        se: [
            mean_error,
            p80_error,
            p90_error,
            libm::sqrt(reached * (1.0 - reached) / n),
            (1.0 - loading).abs() * mean_error + loading * p90_error,
        ],
    }
}

/// What a promise of some items costs without each of them in turn, in their order.
pub fn without_each(draws: &Draws, covered: &[usize], cap: f64, terms: &Terms) -> Vec<Premium> {
    let others = |left_out: usize| -> Vec<usize> {
        covered.iter().enumerate().filter(|(at, _)| *at != left_out).map(|(_, item)| *item).collect()
    };
    (0..covered.len()).map(|left_out| price(draws, &others(left_out), cap, terms)).collect()
}

/// mean + λ·(P90 − mean).
fn loaded(mean: f64, p90: f64, terms: &Terms) -> f64 {
    mean + terms.loading * (p90 - mean)
}

/// What the items cost together in each draw.
fn payouts(draws: &Draws, covered: &[usize]) -> Vec<f64> {
    let sum = |entries: &[crate::simulate::Entry]| {
        entries.iter().filter(|e| covered.contains(&e.item)).map(|e| e.cost).sum()
    };
    draws.iter().map(sum).collect()
}
