//! The joint draws of a house, kept for questions that a frozen assessment does not answer: what a promise costs, what
//! would be if.

use survey::catalog::Condition;

use crate::assess::{DRAWS, Request};
use crate::error::AssessError;
use crate::live::Live;
use crate::simulate::{Draws, Item};

/// The joint draws of a house: those whose sums its assessment tells.
#[derive(Clone, Debug)]
pub struct HouseDraws<'a> {
    /// Keys of the conditions in scope, in the order of the items.
    pub keys: Vec<String>,
    /// The conditions, likewise.
    pub conditions: Vec<&'a Condition>,
    /// What the simulation knows of each.
    pub items: Vec<Item>,
    /// The draws.
    pub draws: Draws,
}

impl<'a> HouseDraws<'a> {
    /// Draws a house. `go_on` is asked every thousand draws; nothing comes back when it says no.
    ///
    /// # Errors
    /// As [`crate::assess()`].
    pub fn of(request: &Request<'a>, go_on: impl FnMut() -> bool) -> Result<Option<Self>, AssessError> {
        let mut live = Live::default();
        let scope = crate::scope::scope_of(request.catalog, request.picture);
        let odds = live.odds(request)?;
        let (items, seed) = (odds.sim_items(), odds.seed_word());
        let draws = Draws::make(&items, DRAWS, seed, odds.presence()?, go_on);
        let keys = scope.iter().map(|s| s.key().to_owned()).collect();
        let conditions = scope.iter().map(|s| s.condition()).collect();
        Ok(draws.map(|draws| Self { keys, conditions, items, draws }))
    }

    /// Place of a condition among the items.
    pub fn position(&self, key: &str) -> Option<usize> {
        self.keys.iter().position(|k| k == key)
    }
}
