//! The list of calculations: each by its word, what it asks, and how it answers.

use alloc::vec::Vec;

use survey::Phrase;
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
    pub title: Phrase,
    /// What it answers, in one sentence.
    pub about: Phrase,
    /// What it asks.
    pub fields: &'static [Field],
    /// Answers. A missing input is no error but a sheet that says "cannot say".
    pub run: fn(&Given, &Catalog) -> Result<Sheet, TradeError>,
}

/// Whose work a calculation is about.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Trade {
    /// Drains and vents.
    Drains,
    /// Holes and cuts in framing.
    Framing,
    /// Gas pipes.
    Gas,
    /// Circuits, loads and boxes.
    Electrical,
    /// Openings and closing them again, paint, and what can be had while a wall is open.
    Openings,
    /// What the household does without.
    Household,
    /// Lights in a ceiling.
    Lights,
    /// Lengths, areas and volumes.
    Lengths,
}

/// Every calculation by trade, in the order of the walk.
const TRADES: [(Trade, &[Calculation]); 10] = [
    (Trade::Drains, crate::sink_drain::CALCULATIONS),
    (Trade::Drains, crate::trap_arm::CALCULATIONS),
    (Trade::Drains, crate::drainage::CALCULATIONS),
    (Trade::Framing, crate::framing::CALCULATIONS),
    (Trade::Gas, crate::gas::CALCULATIONS),
    (Trade::Electrical, crate::electrical::CALCULATIONS),
    (Trade::Openings, crate::openings::CALCULATIONS),
    (Trade::Household, crate::outages::CALCULATIONS),
    (Trade::Lights, crate::lights::CALCULATIONS),
    (Trade::Lengths, crate::takeoff::CALCULATIONS),
];

/// Every calculation, in the order of the walk.
pub fn calculations() -> impl Iterator<Item = &'static Calculation> {
    TRADES.into_iter().flat_map(|(_, list)| list)
}

/// The trades in the order of the walk, each with its calculations.
pub fn by_trade() -> impl Iterator<Item = (Trade, Vec<&'static Calculation>)> {
    let first = |i: usize| TRADES[..i].iter().all(|(before, _)| *before != TRADES[i].0);
    let trades = (0..TRADES.len()).filter(move |i| first(*i)).map(|i| TRADES[i].0);
    trades.map(|trade| {
        let of = TRADES.into_iter().filter(|(of, _)| *of == trade);
        (trade, of.flat_map(|(_, list)| list).collect())
    })
}

/// A calculation by its word.
pub fn find(word: &str) -> Option<&'static Calculation> {
    calculations().find(|c| c.word == word)
}
