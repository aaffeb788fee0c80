//! The joint draws of a house, kept for questions that a frozen assessment does not answer: what a promise costs, what
//! would be if.

use crate::assess::DRAWS;
use crate::error::AssessError;
use crate::live::Odds;
use crate::simulate::{Draws, Item};

/// The joint draws of a house: those whose sums its assessment tells.
#[derive(Clone, Debug)]
pub(crate) struct HouseDraws {
    /// What the simulation knows of each condition in scope, in the order of the scope.
    pub(crate) items: Vec<Item>,
    /// The draws.
    pub(crate) draws: Draws,
}

impl HouseDraws {
    /// Draws a house. `go_on` is asked every thousand draws; nothing comes back when it says no.
    pub(crate) fn of(odds: &Odds<'_>, go_on: impl FnMut() -> bool) -> Result<Option<Self>, AssessError> {
        let items = odds.sim_items();
        let draws = Draws::make(&items, DRAWS, odds.seed_word(), odds.presence()?.from(0), go_on);
        Ok(draws.map(|draws| Self { items, draws }))
    }
}
