//! Clue nodes. Clues read from one single-valued answer exclude or contain each other, so they share one node whose
//! states are the clues; clues of an answer with several ticks have a node each. What is asked at each of several
//! places has its nodes at each.

use std::collections::BTreeMap;

use inference::{NetworkError, NodeId};
use survey::Key;
use survey::catalog::{AnswerKind, Item};

use super::cut::{Cut, Spot};
use super::exclusive::{containment, laminar, states, truth_table};
use super::{Builder, NO_YES};
use crate::mediators::{Mediator, quiet};
use crate::scope::Scoped;

/// A node that an item's answer is evidence on.
#[derive(Clone, Debug)]
pub(crate) struct ItemNode {
    /// The item.
    pub(crate) item: String,
    /// The place, where the item is asked at each of several.
    pub(crate) place: Option<String>,
    /// The node.
    pub(crate) node: NodeId,
    /// Clues it carries. Alone: states no, yes. Several: state 0 is none, state k is "clue k−1 and nothing inside it".
    pub(crate) clues: Vec<String>,
    /// For several clues: which clues are true in each state.
    pub(crate) truth: Vec<Vec<bool>>,
}

/// The house as a whole and as each place sees it, and the hidden nodes made from them.
struct Cuts<'a> {
    whole: Cut<'a>,
    /// By place.
    places: BTreeMap<String, Cut<'a>>,
    /// By key of the condition and cause.
    shows: BTreeMap<(String, String), (NodeId, Mediator)>,
}

impl<'a> Cuts<'a> {
    fn of(&self, from: Option<Spot<'_>>) -> &Cut<'a> {
        from.and_then(|(_, place)| self.places.get(place)).unwrap_or(&self.whole)
    }
    /// The hidden node between a clue and a condition at a place, if one was made.
    fn between(&self, k: usize, scoped: &Scoped<'_>) -> Option<&(NodeId, Mediator)> {
        let cause = self.whole.clues.get(k)?.clue.cause.clone()?;
        let made = self.shows.get(&(scoped.key().to_owned(), cause))?;
        made.1.members.iter().any(|m| m.clue == k).then_some(made)
    }
}

impl<'a> Builder<'a> {
    pub(super) fn clues(&mut self) -> Result<Vec<ItemNode>, NetworkError> {
        let cuts = self.cuts()?;
        let mut nodes = Vec::new();
        let (catalog, scope) = (self.catalog, self.scope);
        for item in &catalog.items {
            let spots: Vec<Option<Spot<'_>>> = if item.at_each {
                scope
                    .places_of(&item.station)
                    .iter()
                    .map(|p| Some((item.station.as_str(), p.as_str())))
                    .collect()
            } else {
                vec![None]
            };
            for from in spots {
                self.item_nodes(item, from, &cuts, &mut nodes)?;
            }
        }
        Ok(nodes)
    }

    /// The cuts, and the hidden nodes in the order of the conditions.
    fn cuts(&mut self) -> Result<Cuts<'a>, NetworkError> {
        let scope = self.scope;
        let mut cuts = Cuts { whole: self.cut(None), places: BTreeMap::new(), shows: BTreeMap::new() };
        for station in &self.catalog.stations {
            // The only place of its kind sees the house as a whole.
            for place in Some(scope.places_of(&station.id)).filter(|p| p.len() > 1).into_iter().flatten() {
                cuts.places.insert(place.clone(), self.cut(Some((&station.id, place))));
            }
        }
        for scoped in scope.iter() {
            let cut = scoped.place().and_then(|p| cuts.places.get(p)).unwrap_or(&cuts.whole);
            let is_this = |m: &&Mediator| self.catalog.conditions[m.condition].id == scoped.condition().id;
            for mediator in cut.mediators.iter().filter(is_this) {
                let node = self.nb.node(format!("shows.{}.{}", mediator.cause, scoped.key()), &NO_YES)?;
                let (h0, h1) = mediator.h;
                let Some(parent) = self.node_of(scoped.key()) else { continue };
                self.nb.table(node, &[parent], vec![1.0 - h0, h0, 1.0 - h1, h1])?;
                let key = (scoped.key().to_owned(), mediator.cause.clone());
                cuts.shows.insert(key, (node, mediator.clone()));
            }
        }
        Ok(cuts)
    }

    /// The nodes of one item at one place, or of the house.
    fn item_nodes(
        &mut self,
        item: &'a Item,
        from: Option<Spot<'_>>,
        cuts: &Cuts<'a>,
        nodes: &mut Vec<ItemNode>,
    ) -> Result<(), NetworkError> {
        let clues = &cuts.of(from).clues;
        let here: Vec<usize> = (0..clues.len())
            .filter(|i| clues[*i].clue.item == item.id && !clues[*i].conditions.is_empty())
            .collect();
        let single = !matches!(item.answer, AnswerKind::Choices { .. } | AnswerKind::Checks);
        let together = single && here.len() > 1 && laminar(&here, clues);
        let groups: Vec<Vec<usize>> =
            if together { vec![here] } else { here.into_iter().map(|c| vec![c]).collect() };
        for group in groups {
            nodes.push(self.item_node(item, from, &group, cuts)?);
        }
        Ok(())
    }

    fn item_node(
        &mut self,
        item: &'a Item,
        from: Option<Spot<'_>>,
        group: &[usize],
        cuts: &Cuts<'a>,
    ) -> Result<ItemNode, NetworkError> {
        let mut links: Vec<Vec<Link>> = Vec::new();
        for k in group {
            links.push(self.links(*k, from, cuts)?);
        }
        let clues = &cuts.of(from).clues;
        let mut parents: Vec<NodeId> = links.iter().flatten().map(|l| l.parent).collect();
        parents.sort_unstable();
        parents.dedup();
        let bands = group.iter().map(|k| clues[*k].families.len()).max().unwrap_or(1);
        let inside = containment(group, clues);
        let truth = truth_table(&inside);
        let mut table = Vec::new();
        for band in 0..bands {
            for row in 0..1usize << parents.len() {
                let on = |node: NodeId| {
                    let position = parents.iter().position(|p| *p == node).unwrap_or(0);
                    row >> (parents.len() - 1 - position) & 1 == 1
                };
                let p: Vec<f64> = links.iter().map(|l| chance(l, band, &on)).collect();
                table.extend(states(&p, &inside));
            }
        }
        let place = from.map(|(_, place)| place);
        let key = |id: &str| Key::new(id, place, Some(&item.station)).to_string();
        let ids: Vec<String> = group.iter().map(|k| clues[*k].clue.id.clone()).collect();
        let node = if let [only] = ids.as_slice() {
            self.nb.node(format!("clue.{}", key(only)), &NO_YES)?
        } else {
            let mut names = vec!["none"];
            names.extend(ids.iter().map(String::as_str));
            self.nb.node(format!("item.{}", key(&item.id)), &names)?
        };
        if let Some(dated) = group.iter().find_map(|k| clues[*k].by_era_of) {
            parents.splice(0..0, self.era_of(dated));
        }
        self.nb.table(node, &parents, table)?;
        Ok(ItemNode { item: item.id.clone(), place: place.map(str::to_owned), node, clues: ids, truth })
    }

    /// What sets off one clue: hidden nodes where there are any, otherwise the conditions themselves; of a condition
    /// at several places, "at some place".
    fn links(
        &mut self,
        k: usize,
        from: Option<Spot<'_>>,
        cuts: &Cuts<'a>,
    ) -> Result<Vec<Link>, NetworkError> {
        let Some(scoped) = cuts.of(from).clues.get(k) else { return Ok(Vec::new()) };
        let mut links = vec![];
        let mut silent: Vec<f64> = scoped.families.iter().map(|f| 1.0 - f.leak).collect();
        for (position, condition) in scoped.conditions.iter().enumerate() {
            let weights: Vec<f64> = scoped.families.iter().map(|f| f.weights[position]).collect();
            let at = self.hangs_on(*condition, &scoped.clue.id, from);
            let between: Vec<Option<&(NodeId, Mediator)>> = at.iter().map(|s| cuts.between(k, s)).collect();
            let Some((_, through)) = between.iter().flatten().next() else {
                let nodes: Vec<NodeId> = at.iter().filter_map(|s| self.node_of(s.key())).collect();
                let name = self.catalog.conditions[*condition].id.clone();
                if let Some(parent) = self.any(&name, &nodes)? {
                    links.push(Link { parent, weights, silent: vec![] });
                }
                continue;
            };
            for (f, silent) in silent.iter_mut().enumerate() {
                *silent /= quiet_at(&between, through, k, f);
            }
            let shown = at.iter().zip(&between);
            let nodes: Vec<NodeId> =
                shown.filter_map(|(s, b)| b.map(|b| b.0).or_else(|| self.node_of(s.key()))).collect();
            let weights = weights.iter().map(|w| through.activation(*w)).collect();
            let name = format!("shows.{}.{}", through.cause, self.catalog.conditions[*condition].id);
            if let Some(parent) = self.any(&name, &nodes)? {
                links.push(Link { parent, weights, silent: vec![] });
            }
        }
        if let Some(first) = links.first_mut() {
            first.silent = silent;
        }
        Ok(links)
    }
}

/// P(no hidden node of any place sets off the clue | condition absent everywhere).
fn quiet_at(between: &[Option<&(NodeId, Mediator)>], through: &Mediator, k: usize, family: usize) -> f64 {
    if let [Some((_, only))] = between {
        return quiet(only, k, family);
    }
    let none_shows: f64 = between.iter().flatten().map(|(_, m)| 1.0 - m.h.0).product();
    let h0 = through.h.0;
    if h0 <= 0.0 { 1.0 } else { 1.0 - (1.0 - none_shows) * (1.0 - quiet(through, k, family)) / h0 }
}

/// One parent of a clue: its weight in each family; the first carries P(no | nothing present) of the clue.
struct Link {
    parent: NodeId,
    weights: Vec<f64>,
    silent: Vec<f64>,
}

/// P(clue | parents), noisy-OR. Where hidden nodes of several places show more often than the leak can pay for, the
/// clue shows a little more often with nothing there than the fit says.
fn chance(links: &[Link], band: usize, on: &impl Fn(NodeId) -> bool) -> f64 {
    let pick = |list: &[f64]| list.get(band.min(list.len().saturating_sub(1))).copied();
    let start = links.first().and_then(|l| pick(&l.silent)).unwrap_or(1.0).min(1.0);
    let active = links.iter().filter(|l| on(l.parent)).filter_map(|l| pick(&l.weights));
    1.0 - active.fold(start, |q, w| q * (1.0 - w)).clamp(0.0, 1.0)
}
