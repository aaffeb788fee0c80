//! Answers → evidence. "Can't tell", "could not reach", disagreements and hiding answers set none.

use std::collections::BTreeMap;

use inference::{Evidence, NodeId};
use survey::catalog::{Answers, Catalog, Clue, LAST_GUT};
use survey::guide;
use survey::log::{CheckOutcome, CheckResult, Value};
use survey::model::Picture;

use crate::house_network::HouseNetwork;

/// What one answer says about one node.
#[derive(Clone, Debug, PartialEq)]
pub enum Finding {
    /// The node is in this state.
    State(usize),
    /// Likelihood of each state.
    Likelihood(Vec<f64>),
}

/// What one item's answer at one place sets.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// The item.
    pub item: String,
    /// The place, where the item is asked at each of several.
    pub place: Option<String>,
    /// Key of the two ([`survey::Key`]).
    pub key: String,
    /// Nodes and what is said of them.
    pub findings: Vec<(NodeId, Finding)>,
}

/// The evidence of a house, item by item in walking order. Made of a folded log by [`house_evidence`] and of nothing
/// else, so that no finding can be slipped in.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseEvidence {
    /// Items that set something.
    pub(crate) settings: Vec<Setting>,
}

impl HouseEvidence {
    /// All of it.
    pub fn all(&self) -> Evidence {
        self.keeping(|_| true)
    }
    /// All but the answer with this key.
    pub fn without(&self, key: &str) -> Evidence {
        self.keeping(|k| k != key)
    }
    /// Only the answers whose keys are wanted.
    pub fn keeping(&self, wanted: impl Fn(&str) -> bool) -> Evidence {
        let mut evidence = Evidence::new();
        for (node, finding) in self.settings.iter().filter(|s| wanted(&s.key)).flat_map(|s| &s.findings) {
            match finding {
                Finding::State(state) => evidence.observe(*node, *state),
                Finding::Likelihood(l) => evidence.likelihood(*node, l.clone()),
            }
        }
        evidence
    }
    /// Answers that touch any of some nodes.
    pub fn on(&self, nodes: &[NodeId]) -> Vec<&Setting> {
        let touches = |s: &&Setting| s.findings.iter().any(|(n, _)| nodes.contains(n));
        self.settings.iter().filter(touches).collect()
    }
}

/// Year of the room's last gut to the studs, if one was given.
pub(crate) fn room_year(answers: &dyn Answers) -> Option<i64> {
    match answers.value(LAST_GUT) {
        Some(Value::Number(year)) if year.milli > 0 => Some(year.milli.div_euclid(1000)),
        _ => None,
    }
}

/// Check results recorded: one reading for each (check, key of a condition), the last one named. The same check named twice
/// is one look, not two.
pub(crate) fn checks_made(
    catalog: &Catalog,
    answers: &dyn Answers,
) -> Vec<(String, String, u32, CheckOutcome)> {
    let mut made: Vec<(String, String, u32, CheckOutcome)> = Vec::new();
    for item in &catalog.items {
        let Some(Value::Checks(results)) = answers.value(&item.id) else { continue };
        for CheckResult { check, conditions, result } in results {
            for condition in conditions {
                match made.iter_mut().find(|(k, c, _, _)| k == check && c == condition) {
                    Some(same) => same.3 = *result,
                    None => made.push((check.clone(), condition.clone(), 1, *result)),
                }
            }
        }
    }
    made
}

/// Evidence of the answers on the nodes of a house's network.
pub fn house_evidence(catalog: &Catalog, house: &HouseNetwork, picture: &Picture) -> HouseEvidence {
    /// By item and, where it is asked at each of several, place.
    type ByItem<'a> = BTreeMap<(&'a str, Option<&'a str>), Vec<(NodeId, Finding)>>;
    let mut by_item: ByItem<'_> = BTreeMap::new();
    for factor in &catalog.factors {
        let level = factor.level(picture).and_then(|l| factor.levels.iter().position(|x| x.id == l));
        if let (Some(level), Some(node)) = (level, house.factors.get(&factor.id)) {
            by_item.entry((&factor.item, None)).or_default().push((*node, Finding::State(level)));
        }
    }
    if let (Some(year), Some(era), Some(node)) = (room_year(picture), catalog.era(), house.room_era) {
        let level = era.band_of_year(year).and_then(|b| era.levels.iter().position(|l| l.id == b));
        if let Some(level) = level {
            by_item.entry((LAST_GUT, None)).or_default().push((node, Finding::State(level)));
        }
    } else if let (Some(era), Some(node)) = (catalog.era(), house.room_era) {
        // The room is as old as the house: saying so spares the network a variable, and changes no number.
        let level = era.level(picture).and_then(|l| era.levels.iter().position(|x| x.id == l));
        let copies = !house.net.nodes()[node].parents.is_empty();
        if let Some(level) = level.filter(|_| copies) {
            by_item.entry((&era.item, None)).or_default().push((node, Finding::State(level)));
        }
    }
    for item_node in &house.items {
        let place = item_node.place.as_deref();
        let here = picture.at(place);
        let states: Vec<Option<bool>> = item_node
            .clues
            .iter()
            .map(|c| catalog.clues.get(c).and_then(|c: &Clue| c.state(&here)))
            .collect();
        if let Some(finding) = finding_of(&states, &item_node.truth) {
            by_item.entry((&item_node.item, place)).or_default().push((item_node.node, finding));
        }
    }
    let results_item = catalog.items.iter().find(|i| matches!(picture.value(&i.id), Some(Value::Checks(_))));
    for (check, condition, n, outcome) in checks_made(catalog, picture) {
        let node = house.checks.get(&(check, condition, n));
        let state = match outcome {
            CheckOutcome::ShowsIt => 1,
            CheckOutcome::ShowsNot => 0,
            CheckOutcome::Unclear => continue,
        };
        if let (Some(node), Some(item)) = (node, results_item) {
            by_item.entry((&item.id, None)).or_default().push((*node, Finding::State(state)));
        }
    }
    let mut settings = Vec::new();
    for stop in guide::stops_as_listed(catalog, picture) {
        for item in catalog.items.iter().filter(|i| i.station == stop.station.id) {
            let place = item.at_each.then_some(stop.place);
            if let Some(findings) = by_item.remove(&(item.id.as_str(), place)) {
                settings.push(Setting {
                    item: item.id.clone(),
                    place: place.map(str::to_owned),
                    key: item.key_at(stop.place),
                    findings,
                });
            }
        }
    }
    HouseEvidence { settings }
}

/// The clue states of one node as evidence on it; `None` when they say nothing.
fn finding_of(states: &[Option<bool>], truth: &[Vec<bool>]) -> Option<Finding> {
    if states.iter().all(Option::is_none) {
        return None;
    }
    if let [Some(only)] = states {
        return Some(Finding::State(usize::from(*only)));
    }
    let agrees = |row: &Vec<bool>| row.iter().zip(states).all(|(t, s)| s.is_none_or(|s| s == *t));
    let fitting: Vec<usize> = (0..truth.len()).filter(|s| agrees(&truth[*s])).collect();
    match fitting.as_slice() {
        [] => None,
        [state] => Some(Finding::State(*state)),
        _ => Some(Finding::Likelihood(truth.iter().map(|row| f64::from(u8::from(agrees(row)))).collect())),
    }
}
