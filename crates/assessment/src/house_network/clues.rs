//! Clue nodes. Clues read from one single-valued answer exclude or contain each other, so they share one node whose
//! states are the clues; clues of an answer with several ticks have a node each. What is asked at each of several
//! places has its nodes at each.

use std::collections::BTreeMap;

use inference::{NetworkError, NodeId};
use survey::Key;
use survey::catalog::{AnswerKind, Item};

use super::any::Route;
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
        let mut links: Vec<Links> = Vec::new();
        for k in group {
            links.push(self.links(*k, from, cuts, group.len() == 1)?);
        }
        let clues = &cuts.of(from).clues;
        let mut parents: Vec<NodeId> = links.iter().flat_map(|l| &l.links).map(|l| l.parent).collect();
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
        let set_off: Vec<(NodeId, f64)> =
            links.iter().flat_map(|l| &l.set_off).map(|node| (*node, 1.0)).collect();
        match set_off.as_slice() {
            [] => self.nb.table(node, &parents, table)?,
            // Each place by itself, and the house, leak and all, as one more.
            places => {
                let house = self.nb.node(format!("sets-off.{}.house", ids.join("-")), &NO_YES)?;
                self.nb.table(house, &parents, table)?;
                let all: Vec<(NodeId, f64)> = places.iter().copied().chain([(house, 1.0)]).collect();
                self.nb.noisy_or(node, &all, 0.0)?;
            }
        }
        Ok(ItemNode { item: item.id.clone(), place: place.map(str::to_owned), node, clues: ids, truth })
    }

    /// What sets off one clue: hidden nodes where there are any, otherwise the conditions themselves. Conditions at
    /// several places reach a clue that is asked once through hidden nodes of their own; `alone` says that the clue
    /// has its node for itself.
    fn links(
        &mut self,
        k: usize,
        from: Option<Spot<'_>>,
        cuts: &Cuts<'a>,
        alone: bool,
    ) -> Result<Links, NetworkError> {
        let Some(clue) = cuts.of(from).clues.get(k) else { return Ok(Links::default()) };
        let bands = clue.families.len();
        let mut links = vec![];
        let mut silent: Vec<f64> = clue.families.iter().map(|f| 1.0 - f.leak).collect();
        // Routes by place, in the order of the places.
        let mut places: Vec<(&str, Vec<Route>)> = Vec::new();
        for (position, condition) in clue.conditions.iter().enumerate() {
            let weights: Vec<f64> = clue.families.iter().map(|f| f.weights[position]).collect();
            let at = self.hangs_on(*condition, &clue.clue.id, from);
            let name = self.catalog.conditions[*condition].id.clone();
            if at.len() > 1 && self.catalog.derived.iter().any(|d| d.condition == name) {
                let nodes: Vec<NodeId> = at.iter().filter_map(|s| self.node_of(s.key())).collect();
                if let Some(parent) = self.every(&name, &nodes)? {
                    links.push(Link { parent, weights });
                }
                continue;
            }
            for (f, silent) in silent.iter_mut().enumerate() {
                // Of several places together as of one; where places differ, their geometric mean.
                let each = at.iter().filter_map(|s| cuts.between(k, s)).map(|(_, m)| quiet(m, k, f));
                let all: Vec<f64> = each.collect();
                match all.as_slice() {
                    [] => {}
                    [only] if at.len() == 1 => *silent /= only,
                    _ => *silent /= libm::pow(all.iter().product(), 1.0 / at.len() as f64),
                }
            }
            let routes = self.routes(k, &at, &weights, cuts);
            match (at.as_slice(), alone) {
                ([_], _) => links.extend(routes.into_iter().map(|(_, r)| Link {
                    parent: r.shows.map_or(r.condition, |(node, _)| node),
                    weights: r.weights,
                })),
                (_, true) => {
                    for (place, route) in routes {
                        match places.iter_mut().find(|(p, _)| *p == place) {
                            Some((_, list)) => list.push(route),
                            None => places.push((place, vec![route])),
                        }
                    }
                }
                (_, false) => {
                    let cause =
                        clue.clue.cause.as_deref().filter(|_| routes.iter().any(|(_, r)| r.shows.is_some()));
                    let name = cause.map_or_else(|| name.clone(), |cause| format!("{cause}.{name}"));
                    let routes: Vec<Route> = routes.into_iter().map(|(_, r)| r).collect();
                    let weights = routes.first().map(|r| r.weights.clone()).unwrap_or_default();
                    if let Some(parent) = self.shown_somewhere(&name, &routes)? {
                        links.push(Link { parent, weights });
                    }
                }
            }
        }
        let mut set_off = Vec::new();
        for (place, routes) in places {
            let name = format!("sets-off.{}.{place}", clue.clue.id);
            set_off.push(self.sets_off(&name, &routes, bands, clue.by_era_of)?);
        }
        Ok(Links { links, silent, set_off })
    }

    /// How a condition reaches a clue at each of its places.
    fn routes<'s>(
        &self,
        k: usize,
        at: &[&'s Scoped<'a>],
        weights: &[f64],
        cuts: &Cuts<'a>,
    ) -> Vec<(&'s str, Route)> {
        let route = |s: &&'s Scoped<'a>| {
            let condition = self.node_of(s.key())?;
            let between = cuts.between(k, s);
            let weights = match between {
                Some((_, m)) => weights.iter().map(|w| m.activation(*w)).collect(),
                None => weights.to_vec(),
            };
            let shows = between.map(|(node, m)| (*node, m.h.0));
            Some((s.place().unwrap_or_default(), Route { condition, shows, weights, places: at.len() }))
        };
        at.iter().filter_map(route).collect()
    }
}

/// What sets off one clue.
#[derive(Default)]
struct Links {
    links: Vec<Link>,
    /// P(no | nothing present), in each family.
    silent: Vec<f64>,
    /// Nodes "this place sets it off", where several places do, each by itself.
    set_off: Vec<NodeId>,
}

/// One parent of a clue, and its weight in each family.
struct Link {
    parent: NodeId,
    weights: Vec<f64>,
}

/// P(clue | parents), noisy-OR.
fn chance(clue: &Links, band: usize, on: &impl Fn(NodeId) -> bool) -> f64 {
    let pick = |list: &[f64]| list.get(band.min(list.len().saturating_sub(1))).copied();
    let start = pick(&clue.silent).unwrap_or(1.0).min(1.0);
    let active = clue.links.iter().filter(|l| on(l.parent)).filter_map(|l| pick(&l.weights));
    1.0 - active.fold(start, |q, w| q * (1.0 - w)).clamp(0.0, 1.0)
}
