//! What is in scope in one house: conditions, and where they would be.

use survey::Key;
use survey::catalog::{Catalog, Condition};
use survey::model::{At, Picture};

/// A condition in scope and the place it would be at.
#[derive(Clone, Debug, PartialEq)]
pub struct Scoped<'c> {
    condition: &'c Condition,
    place: Option<String>,
    key: String,
}

impl<'c> Scoped<'c> {
    /// A condition that a house has once.
    pub fn of_house(condition: &'c Condition) -> Self {
        Self { condition, place: None, key: Key::new(&condition.id, None, None).to_string() }
    }
    /// The condition.
    pub fn condition(&self) -> &'c Condition {
        self.condition
    }
    /// The place; none for a condition that a house has once.
    pub fn place(&self) -> Option<&str> {
        self.place.as_deref()
    }
    /// Its key ([`Key`]): forecast rows, findings and nodes of the network are named by it.
    pub fn key(&self) -> &str {
        &self.key
    }
    /// The answers as seen from its place.
    pub fn here<'p>(&'p self, picture: &'p Picture) -> At<'p> {
        picture.at(self.place())
    }
    /// Positions in the scope of the conditions whose cost is in this one's when both are there.
    pub fn covers(&self, scope: &[Scoped<'_>]) -> Vec<usize> {
        let covered = self.condition.covers_cost_of.iter();
        covered.filter_map(|id| scope.iter().position(|s| s.condition.id == *id)).collect()
    }
}

/// Conditions that are not certainly out of scope, in catalog order.
pub fn scope_of<'c>(catalog: &'c Catalog, picture: &Picture) -> Vec<Scoped<'c>> {
    let applies = |c: &&Condition| c.applies(picture) != Some(false);
    catalog.conditions.iter().filter(applies).map(Scoped::of_house).collect()
}
