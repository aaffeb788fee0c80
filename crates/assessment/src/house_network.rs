//! The network of one house: context, conditions in scope, hidden nodes for common causes, clues.
//!
//! Built from catalog and scope alone, so that it can be written out and checked with any general tool; the answers
//! enter as evidence afterwards. One exception is named: where a calculation on measured inputs covers a condition,
//! its probability stands in for the condition's prior, and the clues it replaces no longer hang on it.
//!
//! Where a house has several of something, each place has the conditions of the first one with the same tables: the
//! context of the house is shared, so two soffits of one house are alike before anybody looks at them, and beyond that
//! independent. What is asked at a place speaks about that place and about the house; what is asked once speaks about
//! all places together (`any.rs`).

use std::collections::BTreeMap;

use inference::{
    Evidence, InferError, Network, NetworkBuilder, NetworkError, NodeId, Posterior, posterior_by_cases,
};
use survey::catalog::{Catalog, Condition, DatedBy};

use crate::clue_table::ClueTables;
use crate::error::AssessError;
use crate::priors::{adjusting, combinations, prior_at};
use crate::scope::{Scope, Scoped};

mod any;
mod clues;
mod cut;
mod exclusive;
mod rows;

pub(crate) use clues::ItemNode;
pub(crate) use rows::prior_rows;
pub use rows::{PriorRow, PriorRows};

/// A probability a calculation gives a condition.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// Key of the condition.
    pub condition: String,
    /// P(present).
    pub p: f64,
}

/// The network of one house and what its nodes stand for.
#[derive(Clone, Debug)]
pub struct HouseNetwork {
    /// The network; node names are `house.<factor>`, `condition.<key>`, `shows.<cause>.<key>`, `clue.<key>`,
    /// `item.<key>`, `check.<check>.<key>.<n>`, and over several places `sets-off.<clue>.<place>`,
    /// `shown.…`, `any.…`, `every.…`.
    pub net: Network,
    /// Node of each context factor.
    pub(crate) factors: BTreeMap<String, NodeId>,
    /// Node of the era of the room, apart from the era of the house.
    pub(crate) room_era: Option<NodeId>,
    /// Nodes of the conditions in scope by key, in catalog order; states no, yes.
    pub conditions: Vec<(String, NodeId)>,
    /// What each item's answer is evidence on.
    pub(crate) items: Vec<ItemNode>,
    /// Nodes of checks made: (check, key, n) → node; states no, yes.
    pub(crate) checks: BTreeMap<(String, String, u32), NodeId>,
}

impl HouseNetwork {
    /// Node of a condition by its key.
    pub fn condition(&self, key: &str) -> Option<NodeId> {
        self.conditions.iter().find(|(c, _)| c == key).map(|(_, n)| *n)
    }
    /// The eras told apart, where the evidence leaves the era of the house open: the states that hold in each. The era
    /// lies above most conditions; unknown, it ties to one piece what falls apart once it is known.
    pub(crate) fn eras(&self, catalog: &Catalog, evidence: &Evidence) -> Vec<Vec<(NodeId, usize)>> {
        let era = catalog.era().and_then(|era| self.factors.get(&era.id).copied());
        let Some(era) = era.filter(|node| evidence.state(*node).is_none()) else { return Vec::new() };
        let room = self.room_as_house().filter(|room| evidence.state(*room).is_none());
        let levels = 0..self.net.nodes()[era].states.len();
        levels
            .map(|level| [Some(era), room].into_iter().flatten().map(|node| (node, level)).collect())
            .collect()
    }
    /// Every node's distribution given the evidence, era by era where the era is open.
    ///
    /// # Errors
    /// As [`inference::posterior`].
    pub(crate) fn posterior(&self, catalog: &Catalog, evidence: &Evidence) -> Result<Posterior, InferError> {
        posterior_by_cases(&self.net, evidence, &self.eras(catalog, evidence))
    }
    /// Node of the era of the room, where it copies that of the house.
    pub(crate) fn room_as_house(&self) -> Option<NodeId> {
        self.room_era.filter(|node| !self.net.nodes()[*node].parents.is_empty())
    }
    /// Nodes of clues that hang, directly or through a hidden node, on a condition, with the clue ids they carry.
    pub fn clues_of(&self, condition: &str) -> Vec<(String, NodeId)> {
        let Some(root) = self.condition(condition) else { return Vec::new() };
        let nodes = self.net.nodes();
        // Through hidden nodes; the parents of a node were made before it, so one pass in that order is enough.
        let hidden = |node: NodeId| {
            ["shows.", "sets-off.", "shown.", "any.", "every."]
                .iter()
                .any(|p| nodes[node].name.starts_with(p))
        };
        let mut through = vec![root];
        for node in (0..nodes.len()).filter(|n| hidden(*n)) {
            if nodes[node].parents.iter().any(|p| through.contains(p)) {
                through.push(node);
            }
        }
        let hangs = |node: NodeId| nodes[node].parents.iter().any(|p| through.contains(p));
        let all = self.items.iter().flat_map(|i| i.clues.iter().map(move |c| (c.clone(), i.node)));
        all.filter(|(_, node)| hangs(*node)).collect()
    }
    /// Builds the network of the conditions in scope. `checks` are the check results to make room for:
    /// (check, key of the condition, running number).
    pub fn build(
        catalog: &Catalog,
        tables: &ClueTables,
        scope: &Scope<'_>,
        measured: &[Measured],
        checks: &[(String, String, u32)],
        room_dated: bool,
    ) -> Result<Self, AssessError> {
        Builder::new(catalog, tables, scope, measured)
            .build(checks, room_dated)
            .map_err(|error| AssessError::Catalog(error.to_string()))
    }
}

pub(crate) struct Builder<'a> {
    catalog: &'a Catalog,
    tables: &'a ClueTables,
    scope: &'a Scope<'a>,
    measured: &'a [Measured],
    nb: NetworkBuilder,
    factors: BTreeMap<String, NodeId>,
    room_era: Option<NodeId>,
    conditions: Vec<(String, NodeId)>,
    /// Hidden nodes over several places made so far, by name.
    hidden: BTreeMap<String, NodeId>,
}

const NO_YES: [&str; 2] = ["no", "yes"];

impl<'a> Builder<'a> {
    fn new(
        catalog: &'a Catalog,
        tables: &'a ClueTables,
        scope: &'a Scope<'a>,
        measured: &'a [Measured],
    ) -> Self {
        Self {
            catalog,
            tables,
            scope,
            measured,
            nb: NetworkBuilder::new(),
            factors: BTreeMap::new(),
            room_era: None,
            conditions: Vec::new(),
            hidden: BTreeMap::new(),
        }
    }

    fn build(
        mut self,
        checks: &[(String, String, u32)],
        room_dated: bool,
    ) -> Result<HouseNetwork, NetworkError> {
        self.context(room_dated)?;
        for scoped in self.scope.iter() {
            let node = self.nb.node(format!("condition.{}", scoped.key()), &NO_YES)?;
            self.conditions.push((scoped.key().to_owned(), node));
        }
        for scoped in self.scope.iter() {
            self.condition(scoped)?;
        }
        let items = self.clues()?;
        let checks = self.checks(checks)?;
        Ok(HouseNetwork {
            net: self.nb.build()?,
            factors: self.factors,
            room_era: self.room_era,
            conditions: self.conditions,
            items,
            checks,
        })
    }

    fn node_of(&self, key: &str) -> Option<NodeId> {
        self.conditions.iter().find(|(c, _)| c == key).map(|(_, n)| *n)
    }
    fn in_scope(&self, key: &str) -> Option<&'a Condition> {
        self.scope.iter().find(|s| s.key() == key).map(Scoped::condition)
    }
    fn measured_p(&self, key: &str) -> Option<f64> {
        self.measured.iter().find(|m| m.condition == key).map(|m| m.p)
    }

    /// Context factors with their shares; the era of the room follows the era of the house unless the room was
    /// gutted since (`room_dated`), when it has a year of its own.
    fn context(&mut self, room_dated: bool) -> Result<(), NetworkError> {
        let catalog = self.catalog;
        for factor in &catalog.factors {
            let levels: Vec<&str> = factor.levels.iter().map(|l| l.id.as_str()).collect();
            let node = self.nb.node(format!("house.{}", factor.id), &levels)?;
            self.factors.insert(factor.id.clone(), node);
        }
        for factor in &catalog.factors {
            let node = self.factors[&factor.id];
            let shares: Vec<f64> = factor.levels.iter().map(|l| l.prior).collect();
            let given = factor.given.as_ref().and_then(|g| {
                let other = catalog.factors.iter().find(|f| f.id == g.factor)?;
                Some((g, other))
            });
            match given {
                None => self.nb.table(node, &[], normalized(shares))?,
                Some((given, other)) => {
                    let mut table = Vec::new();
                    for level in &other.levels {
                        let row = given.when.iter().find(|w| w.level == level.id);
                        table.extend(match row {
                            Some(row) => normalized(
                                factor
                                    .levels
                                    .iter()
                                    .map(|l| row.priors.get(&l.id).copied().unwrap_or(0.0))
                                    .collect(),
                            ),
                            None => normalized(shares.clone()),
                        });
                    }
                    self.nb.table(node, &[self.factors[&other.id]], table)?;
                }
            }
        }
        if let Some(era) = catalog.era() {
            let levels: Vec<&str> = era.levels.iter().map(|l| l.id.as_str()).collect();
            let node = self.nb.node("house.room-era", &levels)?;
            let n = levels.len();
            if room_dated {
                self.nb.table(node, &[], normalized(era.levels.iter().map(|l| l.prior).collect()))?;
            } else {
                let copy = (0..n * n).map(|i| f64::from(u8::from(i / n == i % n))).collect();
                self.nb.table(node, &[self.factors[&era.id]], copy)?;
            }
            self.room_era = Some(node);
        }
        Ok(())
    }

    /// Node of the era of the house or of the room.
    fn era_of(&self, dated: DatedBy) -> Option<NodeId> {
        let era = self.catalog.era()?;
        match dated {
            DatedBy::House => self.factors.get(&era.id).copied(),
            DatedBy::Room => self.room_era,
        }
    }

    /// One condition's table: era and adjusting context, then what it excludes, what implies it, or what it is
    /// derived from; or the probability a calculation gives it.
    fn condition(&mut self, scoped: &Scoped<'a>) -> Result<(), NetworkError> {
        let c = scoped.condition();
        let Some(node) = self.node_of(scoped.key()) else { return Ok(()) };
        if let Some(p) = self.measured_p(scoped.key()) {
            let p = p.clamp(1e-6, 1.0 - 1e-6); // so that a later opening which says otherwise is not impossible
            return self.nb.table(node, &[], vec![1.0 - p, p]);
        }
        if let Some(derived) = self.catalog.derived.iter().find(|d| d.condition == c.id) {
            let others = derived.none_of.iter().filter_map(|id| self.scope.at(id, scoped.place()));
            let parents: Vec<NodeId> = others.filter_map(|s| self.node_of(s.key())).collect();
            if !parents.is_empty() {
                let table = (0..1usize << parents.len())
                    .flat_map(|row| if row == 0 { [0.0, 1.0] } else { [1.0, 0.0] })
                    .collect();
                return self.nb.table(node, &parents, table);
            }
        }
        let partner = self.partner(scoped);
        let mut factors = adjusting(self.catalog, c);
        if let Some((other, _)) = partner {
            for factor in adjusting(self.catalog, other.condition()) {
                if !factors.iter().any(|f| f.id == factor.id) {
                    factors.push(factor);
                }
            }
        }
        let mut parents: Vec<NodeId> = self.era_of(c.dated_by).into_iter().collect();
        parents.extend(factors.iter().map(|f| self.factors[&f.id]));
        if let Some((other, _)) = partner {
            parents.extend(self.node_of(other.key()));
        }
        let bands: Vec<&str> =
            self.catalog.era().map(|e| e.levels.iter().map(|l| l.id.as_str()).collect()).unwrap_or_default();
        let mut table = Vec::new();
        for band in &bands {
            for row in combinations(&factors) {
                let p = prior_at(self.catalog, c, band, &row);
                let mut push = |p: f64| table.extend([1.0 - p, p]);
                match partner {
                    None => push(p),
                    Some((other, Relation::Excludes)) => {
                        let q = prior_at(self.catalog, other.condition(), band, &row);
                        push((p / (1.0 - q)).min(0.98));
                        push(0.0);
                    }
                    Some((other, Relation::ImpliedBy)) => {
                        let q = prior_at(self.catalog, other.condition(), band, &row);
                        push(((p - q) / (1.0 - q)).clamp(0.0, 0.98));
                        push(1.0);
                    }
                }
            }
        }
        self.nb.table(node, &parents, table)
    }

    /// The one condition in scope whose presence at the same place bears on this one by exclusion or implication. Of
    /// an exclusive pair the second hangs on the first; derived conditions are functions and need neither.
    fn partner(&self, scoped: &Scoped<'a>) -> Option<(&'a Scoped<'a>, Relation)> {
        let c = scoped.condition();
        let beside = |id: &str| self.scope.at(id, scoped.place());
        let derived = |id: &str| self.catalog.derived.iter().any(|d| d.condition == id);
        let excluded = self.catalog.excludes.iter().find_map(|e| {
            let first = (e.pair[1] == c.id && !derived(&e.pair[0]))
                .then(|| beside(&e.pair[0]))
                .flatten()
                .filter(|first| self.measured_p(first.key()).is_none());
            first.map(|f| (f, Relation::Excludes))
        });
        excluded.or_else(|| {
            self.catalog.implies.iter().find_map(|i| {
                let premise = (i.conclusion == c.id).then(|| beside(&i.premise)).flatten();
                premise.map(|p| (p, Relation::ImpliedBy))
            })
        })
    }

    fn checks(
        &mut self,
        made: &[(String, String, u32)],
    ) -> Result<BTreeMap<(String, String, u32), NodeId>, NetworkError> {
        let mut nodes = BTreeMap::new();
        for key in made {
            let (check, condition, n) = key;
            let pair = self.in_scope(condition).and_then(|c| c.checks.iter().find(|p| p.check == *check));
            let (Some(pair), Some(parent)) = (pair, self.node_of(condition)) else { continue };
            let node = self.nb.node(format!("check.{check}.{condition}.{n}"), &NO_YES)?;
            let (se, sp) = (pair.sensitivity, pair.specificity);
            self.nb.table(node, &[parent], vec![sp, 1.0 - sp, 1.0 - se, se])?;
            nodes.insert(key.clone(), node);
        }
        Ok(nodes)
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Relation {
    Excludes,
    ImpliedBy,
}

fn normalized(shares: Vec<f64>) -> Vec<f64> {
    let sum: f64 = shares.iter().sum();
    shares.into_iter().map(|s| s / sum).collect()
}

/// The network of a frozen assessment in the BIF interchange format, before evidence; properties name what made it.
pub fn bif(house: &HouseNetwork, forecast: &crate::Forecast) -> String {
    let made = format!("made = {}", forecast.engine);
    let catalog = format!("catalog = {} {}", forecast.catalog.version, forecast.catalog.digest);
    let evidence = format!("ln_p_evidence = {}", forecast.log_p_evidence);
    inference::bif::write(&house.net, "house", &[&made, &catalog, &evidence])
}
