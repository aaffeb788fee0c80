//! A house as those see it who count in many of them: its network with what was answered, and for each condition the
//! numbers of the catalog that its answers bear on.
//!
//! Only what a folded log says; what was found after demolition enters elsewhere.

use inference::{Evidence, NodeId};
use survey::catalog::{Catalog, CluePair, Condition};
use survey::log::CheckOutcome;
use survey::model::Picture;

use crate::calculation::{Calculated, covering};
use crate::clue_table::ClueTables;
use crate::error::AssessError;
use crate::evidence::{checks_made, house_evidence, room_year};
use crate::house_network::{HouseNetwork, PriorRows, prior_rows};
use crate::scope::{Scope, Scoped, scope_of};

/// A house: network, evidence, conditions in scope.
#[derive(Clone, Debug)]
pub struct SeenHouse {
    /// Its network.
    pub house: HouseNetwork,
    /// What was answered.
    pub evidence: Evidence,
    /// Conditions in scope.
    pub conditions: Vec<SeenCondition>,
}

/// A condition in scope, and what bears on its numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenCondition {
    /// Id in the catalog.
    pub id: String,
    /// Key.
    pub key: String,
    /// Its node; states no, yes.
    pub node: NodeId,
    /// Rows of its table, where they are made from its prior.
    pub prior: Option<PriorRows>,
    /// Its clues that were seen or not seen.
    pub clues: Vec<SeenClue>,
    /// Checks that were made on it.
    pub checks: Vec<SeenCheck>,
}

/// A clue of a condition that was looked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SeenClue {
    /// The clue.
    pub clue: String,
    /// Seen or not.
    pub seen: bool,
    /// Era band the condition is dated by, where it is known.
    pub band: Option<String>,
}

/// A check that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SeenCheck {
    /// The check.
    pub check: String,
    /// Whether it showed it.
    pub shows: bool,
}

impl SeenHouse {
    /// A house by its folded log.
    ///
    /// # Errors
    /// A catalog that makes no network.
    pub fn new(catalog: &Catalog, tables: &ClueTables, picture: &Picture) -> Result<Self, AssessError> {
        let scope = scope_of(catalog, picture);
        let calculated = covering(catalog, picture, &scope);
        let measured: Vec<_> = calculated.iter().filter_map(Calculated::measured).collect();
        let made = checks_made(catalog, picture);
        let checks: Vec<_> = made.iter().map(|(k, c, n, _)| (k.clone(), c.clone(), *n)).collect();
        let house =
            HouseNetwork::build(catalog, tables, &scope, &measured, &checks, room_year(picture).is_some())?;
        let evidence = house_evidence(catalog, &house, picture).all();
        let seen = |scoped: &Scoped<'_>| {
            let is_measured = measured.iter().any(|m| m.condition == scoped.key());
            Some(SeenCondition {
                id: scoped.condition().id.clone(),
                key: scoped.key().to_owned(),
                node: house.condition(scoped.key())?,
                prior: prior_rows(catalog, tables, &scope, &measured, scoped),
                clues: clues(catalog, picture, &scope, scoped, is_measured),
                checks: made
                    .iter()
                    .filter(|(_, c, _, outcome)| c == scoped.key() && *outcome != CheckOutcome::Unclear)
                    .map(|(k, _, _, outcome)| SeenCheck {
                        check: k.clone(),
                        shows: *outcome == CheckOutcome::ShowsIt,
                    })
                    .collect(),
            })
        };
        let conditions = scope.iter().filter_map(seen).collect();
        Ok(Self { house, evidence, conditions })
    }
}

/// The clues that speak of this condition alone among its likes: asked at its own place, or of a house that has one of
/// everything they bear on. What is asked once about several places says nothing about one of them.
fn clues(
    catalog: &Catalog,
    picture: &Picture,
    scope: &Scope<'_>,
    scoped: &Scoped<'_>,
    is_measured: bool,
) -> Vec<SeenClue> {
    let c: &Condition = scoped.condition();
    let replaced = |pair: &CluePair| {
        is_measured && c.measured_by.as_ref().is_some_and(|m| m.replaces_clues.contains(&pair.clue))
    };
    let alone = |station: &str| scope.places_of(station).len() < 2;
    let seen = |pair: &CluePair| {
        let clue = catalog.clue(&pair.clue)?;
        let item = catalog.item(&clue.item)?;
        let own = item.at_each && c.place.as_deref() == Some(item.station.as_str());
        let one = !item.at_each || alone(&item.station);
        let here = c.place.as_deref().is_none_or(alone);
        if replaced(pair) || !(own || one && here) {
            return None;
        }
        let here = picture.at(scoped.place());
        let band = catalog.band(c.dated_by, &here).map(str::to_owned);
        Some(SeenClue { clue: pair.clue.clone(), seen: clue.state(&here)?, band })
    };
    c.clues.iter().filter_map(seen).collect()
}
