//! What is in scope in one house: conditions, and where they would be. Of what a house can have several, each place
//! has its own.

use std::collections::BTreeMap;
use std::ops::Deref;

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
    /// A condition at a place of its station; `place` is none for one that a house has once.
    pub fn new(condition: &'c Condition, place: Option<&str>) -> Self {
        let key = Key::new(&condition.id, place, condition.place.as_deref()).to_string();
        Self { condition, place: place.map(str::to_owned), key }
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
    /// Positions in the scope of the conditions whose cost is in this one's when both are there: those of the same
    /// place, and where one of the two belongs to the house, the other at every place.
    pub fn covers(&self, scope: &[Scoped<'_>]) -> Vec<usize> {
        let near = |s: &Scoped<'_>| s.place.is_none() || self.place.is_none() || s.place == self.place;
        let covered = |s: &Scoped<'_>| self.condition.covers_cost_of.contains(&s.condition.id) && near(s);
        (0..scope.len()).filter(|i| covered(&scope[*i])).collect()
    }
}

/// The conditions in scope in one house, in catalog order and place by place, and its places.
#[derive(Clone, Debug, PartialEq)]
pub struct Scope<'c> {
    scoped: Vec<Scoped<'c>>,
    places: BTreeMap<String, Vec<String>>,
}

impl<'c> Scope<'c> {
    /// Some conditions in a house that has one of everything.
    pub fn one_of_each(catalog: &Catalog, conditions: &[&'c Condition]) -> Self {
        let several = catalog.stations.iter().filter(|s| s.each.is_some());
        Self {
            scoped: conditions.iter().map(|c| Scoped::new(c, c.place.as_deref())).collect(),
            places: several.map(|s| (s.id.clone(), vec![s.id.clone()])).collect(),
        }
    }
    /// Places of a station at which the same things are asked; none where a house has it once.
    pub fn places_of(&self, station: &str) -> &[String] {
        self.places.get(station).map(Vec::as_slice).unwrap_or_default()
    }
    /// One condition at one place.
    pub fn at(&self, condition: &str, place: Option<&str>) -> Option<&Scoped<'c>> {
        self.scoped.iter().find(|s| s.condition.id == condition && s.place() == place)
    }
}

impl<'c> Deref for Scope<'c> {
    type Target = [Scoped<'c>];
    fn deref(&self) -> &[Scoped<'c>] {
        &self.scoped
    }
}

/// Conditions that are not certainly out of scope, at every place where they can be.
pub fn scope_of<'c>(catalog: &'c Catalog, picture: &Picture) -> Scope<'c> {
    let several = catalog.stations.iter().filter(|s| s.each.is_some());
    let places: BTreeMap<String, Vec<String>> = several
        .map(|s| (s.id.clone(), picture.places_of(&s.id).into_iter().map(str::to_owned).collect()))
        .collect();
    let mut scoped = Vec::new();
    for condition in &catalog.conditions {
        let at = match &condition.place {
            None => vec![None],
            Some(station) => places.get(station).into_iter().flatten().map(|p| Some(p.as_str())).collect(),
        };
        let here = |place: &Option<&str>| condition.applies(&picture.at(*place)) != Some(false);
        scoped.extend(at.into_iter().filter(here).map(|place| Scoped::new(condition, place)));
    }
    Scope { scoped, places }
}
