//! The list of calculations: each by its word, what it asks, and how it answers.

use survey::catalog::Catalog;

use crate::error::TradeError;
use crate::given::{Field, Given};
use crate::sheet::Sheet;

/// One calculation.
#[derive(Clone, Copy, Debug)]
pub struct Calculation {
    /// Its word: lower-case, hyphens.
    pub word: &'static str,
    /// Its name.
    pub title: &'static str,
    /// What it answers, in one sentence.
    pub about: &'static str,
    /// What it asks.
    pub fields: &'static [Field],
    /// Answers. A missing input is no error but a sheet that says "cannot say".
    pub run: fn(&Given, &Catalog) -> Result<Sheet, TradeError>,
}

/// Every calculation by trade, in the order of the walk.
const TRADES: [&[Calculation]; 10] = [
    crate::sink_drain::CALCULATIONS,
    crate::trap_arm::CALCULATIONS,
    crate::drainage::CALCULATIONS,
    crate::framing::CALCULATIONS,
    crate::gas::CALCULATIONS,
    crate::electrical::CALCULATIONS,
    crate::openings::CALCULATIONS,
    crate::outages::CALCULATIONS,
    crate::lights::CALCULATIONS,
    crate::takeoff::CALCULATIONS,
];

/// Every calculation, in the order of the walk.
pub fn calculations() -> impl Iterator<Item = &'static Calculation> {
    TRADES.into_iter().flatten()
}

/// A calculation by its word.
pub fn find(word: &str) -> Option<&'static Calculation> {
    calculations().find(|c| c.word == word)
}
