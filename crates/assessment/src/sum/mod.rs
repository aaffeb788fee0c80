//! Sums of costs that may or may not come, computed and not drawn: exact moments, and quantiles of the sum's own
//! distribution. The simulation of a whole house ([`crate::simulate`]) can be held against it.
//!
//! C = Σ Bᵢ·Xᵢ with Bᵢ yes or no and Xᵢ a PERT estimate or a fixed amount, all in one unit of money, never negative.
//! What makes several Bᵢ likely at once enters as scenarios (given the scenario, the Bᵢ are independent), or as the
//! joint table of the Bᵢ ([`joint`]).

mod grid;
pub mod joint;
mod law;
mod moments;
#[cfg(test)]
mod tests;

use trade::pert::Pert;

pub use law::Law;
pub use moments::Moments;

/// A probability that is reached but for rounding counts as reached.
const SLACK: f64 = 1e-12;
/// More fixed sums than this are not listed.
const MOST_ATOMS: usize = 1 << 16;

/// One cost that may come.
#[derive(Clone, Debug, PartialEq)]
pub struct Uncertain {
    /// What it costs if it comes.
    pub cost: Pert,
    /// Probability that it comes, in each scenario.
    pub p: Vec<f64>,
}

/// Costs that may come, over scenarios of which one holds.
#[derive(Clone, Debug, PartialEq)]
pub struct CostSum {
    scenarios: Vec<f64>,
    items: Vec<Uncertain>,
}

/// Why a sum has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SumError {
    /// A probability outside 0 to 1.
    #[error("{what} has the probability {p}; a probability lies between 0 and 1")]
    Probability {
        /// Which item or scenario.
        what: String,
        /// The number given.
        p: f64,
    },
    /// An item without one probability for each scenario.
    #[error("item {item} has {got} probabilities and needs {needed}, one for each scenario")]
    Shape {
        /// Counted from 1.
        item: usize,
        /// How many it has.
        got: usize,
        /// How many scenarios there are.
        needed: usize,
    },
    /// Scenarios that do not make up 1.
    #[error("the scenarios have probabilities that sum to {0}; they must sum to 1")]
    Scenarios(f64),
    /// A cost that can be negative.
    #[error("item {item} can cost {low}; costs start at 0")]
    Negative {
        /// Counted from 1.
        item: usize,
        /// Its low value.
        low: f64,
    },
    /// A cost that is too large to be added up.
    #[error("the costs together are too large to be added up")]
    TooLarge,
    /// Too many different sums of fixed costs.
    #[error("the fixed costs have more than {MOST_ATOMS} different sums; give ranges, or round the amounts")]
    TooManyFixed,
    /// A table that does not belong to these costs.
    #[error("a joint table over {costs} costs needs {needed} probabilities and has {got}")]
    Table {
        /// Costs given.
        costs: usize,
        /// Two to the power of that.
        needed: usize,
        /// Probabilities given.
        got: usize,
    },
}

impl CostSum {
    /// Scenarios with their probabilities, which sum to 1 within 1e-9, and items with one probability for each.
    ///
    /// # Errors
    /// Numbers that are no probabilities, shapes that do not match, negative costs.
    pub fn new(scenarios: Vec<f64>, mut items: Vec<Uncertain>) -> Result<Self, SumError> {
        let check = |p: f64, what: String| {
            if (0.0..=1.0).contains(&p) { Ok(()) } else { Err(SumError::Probability { what, p }) }
        };
        for (i, p) in scenarios.iter().enumerate() {
            check(*p, format!("scenario {}", i + 1))?;
        }
        let total: f64 = scenarios.iter().sum();
        if (total - 1.0).abs() > 1e-9 {
            return Err(SumError::Scenarios(total));
        }
        for (i, item) in items.iter().enumerate() {
            let (number, low) = (i + 1, item.cost.low());
            if item.p.len() != scenarios.len() {
                let (got, needed) = (item.p.len(), scenarios.len());
                return Err(SumError::Shape { item: number, got, needed });
            }
            for p in &item.p {
                check(*p, format!("item {number}"))?;
            }
            if low < 0.0 {
                return Err(SumError::Negative { item: number, low });
            }
        }
        // What never comes would only widen the range.
        items.retain(|i| i.p.iter().any(|p| *p > 0.0));
        if !items.iter().map(|i| i.cost.high()).sum::<f64>().is_finite() {
            return Err(SumError::TooLarge);
        }
        Ok(Self { scenarios, items })
    }

    /// Independent costs: (probability, cost).
    ///
    /// # Errors
    /// As [`CostSum::new`].
    pub fn independent(items: impl IntoIterator<Item = (f64, Pert)>) -> Result<Self, SumError> {
        Self::new(vec![1.0], items.into_iter().map(|(p, cost)| Uncertain { cost, p: vec![p] }).collect())
    }

    /// A common cause that holds with probability `p_common`; each item with its probability if it is absent, its
    /// probability if it is present, and its cost.
    ///
    /// # Errors
    /// As [`CostSum::new`].
    pub fn common_cause(
        p_common: f64,
        items: impl IntoIterator<Item = (f64, f64, Pert)>,
    ) -> Result<Self, SumError> {
        if !(0.0..=1.0).contains(&p_common) {
            return Err(SumError::Probability { what: "the common cause".to_owned(), p: p_common });
        }
        let items =
            items.into_iter().map(|(absent, present, cost)| Uncertain { cost, p: vec![absent, present] });
        Self::new(vec![1.0 - p_common, p_common], items.collect())
    }
}
