//! How orders of asking compare on invented houses: how many items are asked in the house, what share of the value of
//! all answers is gathered by then, and how good the odds are.
//!
//! What was said before the visit (plan, sheet, office) is there in every order. The value gathered is the fall of what
//! the pricing loses: it prices by the odds at hand and loses by the truth, so a wrong catalog pays for being wrong.
//! The truth of a condition is taken as its chance by the true catalog and all answers, not as a single outcome: the
//! mean is the same, its error is a fraction.

mod run;
mod table;

use assessment::ClueTables;
use survey::catalog::Catalog;

use crate::{ImagineError, SimulatedHouse, Truth};

pub use run::{HouseRuns, Run, Score};
pub use table::{Ratio, Table};

/// In which order the items are asked in the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Order {
    /// As the walk asks: station by station, what is worth asking as the answers stand.
    Adaptive,
    /// What is worth most first, wherever it is; then as [`Order::Adaptive`] no more than that is worth asking.
    WorthFirst,
    /// The whole first walk in its order, skip rules obeyed.
    Fixed,
    /// The same items and all second looks in random order.
    Random,
    /// What tells most about the conditions first, in bits, each item alone.
    Entropy,
}

impl Order {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Adaptive, Self::WorthFirst, Self::Fixed, Self::Random, Self::Entropy];
    /// Its name in tables.
    pub fn name(self) -> &'static str {
        match self {
            Self::Adaptive => "adaptive walk",
            Self::WorthFirst => "worth most first",
            Self::Fixed => "fixed walk",
            Self::Random => "random",
            Self::Entropy => "entropy of one item",
        }
    }
}

/// Answers in the house after which the odds are scored; the end of the order comes last.
pub const AFTER: [usize; 5] = [0, 5, 10, 20, 40];

/// Asks one house in every order.
///
/// # Errors
/// Answers that cannot all be true under the catalog, as text; possible where the truth is of another one.
pub fn compare(
    catalog: &Catalog,
    tables: &ClueTables,
    truth: &Truth,
    house: &SimulatedHouse,
) -> Result<HouseRuns, ImagineError> {
    run::house(catalog, tables, truth, house)
}
