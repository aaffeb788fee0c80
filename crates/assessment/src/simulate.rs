//! The unknown in money and days: joint draws of the conditions from the exact posterior, so that what goes
//! together stays together, and for each one that becomes a cost a draw from its three-point estimates.
//!
//! Never add up single percentiles: the percentiles reported are those of the simulated sum.
//!
//! Three steps, each fixed by its input: presence comes from the caller one draw after the other; money and days of a
//! condition that is there come from its own stream of random words ([`Item::stream`]); sums and percentiles follow
//! ([`Draws::outcome`]), and may be taken again for other base prices without drawing again.

mod bars;
mod draws;
mod order;
mod stream;
mod summary;
#[cfg(test)]
mod tests;

use survey::catalog::Stage;
use trade::pert::Pert;

pub(crate) use bars::{day_bars, money_shape};
pub use draws::{Draws, Entry};
pub(crate) use order::spread;
pub use stream::{stream_of, word};
pub use summary::{money_alone, run, working_days};

/// What the simulation must know of one condition.
#[derive(Clone, Debug)]
pub struct Item {
    /// Its stream of random numbers, one for each condition ([`stream_of`] its key).
    pub stream: u64,
    /// Cost if it becomes one, dollars.
    pub cost: Pert,
    /// Working days it adds.
    pub days: Pert,
    /// When in the job it shows.
    pub stage: Stage,
    /// Trade whose days it takes.
    pub trade: String,
    /// P(becomes a cost | present).
    pub p_cost: f64,
    /// Items (by index) whose cost this one already holds.
    pub covers: Vec<usize>,
    /// True when the base price already holds it.
    pub in_base: bool,
    /// True when its delay is a calendar wait for a utility, kept apart from working days.
    pub utility_wait: bool,
}

/// One quantity's distribution over the draws.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Spread {
    /// Mean.
    pub mean: f64,
    /// Smallest values the sum stays within in 50, 80 and 90 of 100 draws.
    pub p50: f64,
    /// See `p50`.
    pub p80: f64,
    /// See `p50`.
    pub p90: f64,
    /// Monte-Carlo standard errors of mean, P50, P80, P90.
    pub se: [f64; 4],
}

/// Outcome of the simulation.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Outcome {
    /// Dollars not in the base price.
    pub money: Spread,
    /// Dollars of conditions the base price already holds.
    pub base_money: Spread,
    /// Working days: per stage the sum within a trade, the longest over trades, summed over stages.
    pub days: Spread,
    /// Calendar days a utility may take, the longest of them.
    pub utility_days: Spread,
    /// Draws of the money, sorted.
    pub sorted_money: Vec<f64>,
    /// Draws of the working days, in no order.
    pub day_draws: Vec<f64>,
    /// Mean money of each item.
    pub mean_of: Vec<f64>,
    /// Mean money of each item in draws near P80 minus that near P50.
    pub spread_of: Vec<f64>,
}
