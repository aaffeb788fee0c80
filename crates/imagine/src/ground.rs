//! What a house is drawn from: the network of the truth, and what each of its nodes means for the answers.
//!
//! The only file that knows how `assessment` lays a house out as a network and names its nodes.

use std::collections::BTreeMap;

use assessment::{ClueTables, HouseNetwork, Scope};
use inference::{Network, NodeId};
use survey::Key;
use survey::catalog::{Answers, Catalog, Clue, Condition};
use survey::log::Value;

use crate::ImagineError;
use crate::candidates::sample_answers;
use crate::forward::{self, States};
use crate::stream::Stream;

/// A network with its meaning.
pub(crate) struct Ground {
    net: Network,
    /// Conditions in scope, in catalog order, and their nodes.
    conditions: Vec<(String, NodeId)>,
    /// Hidden nodes by which a condition shows itself.
    shows: Vec<(String, NodeId)>,
    /// Node of each context factor.
    factors: BTreeMap<String, NodeId>,
    room_era: Option<NodeId>,
    sights: BTreeMap<String, Vec<Sight>>,
}

/// One node that an item's answer shows, and which clues are to be seen in each of its states.
#[derive(Clone, Debug)]
pub(crate) struct Sight {
    /// The node.
    pub(crate) node: NodeId,
    /// Clues it carries.
    pub(crate) clues: Vec<String>,
    /// For each state, which of them are seen.
    pub(crate) rows: Vec<Vec<bool>>,
}

impl Ground {
    /// The network of the conditions in scope of a house that has one of everything.
    pub(crate) fn new(
        catalog: &Catalog,
        tables: &ClueTables,
        scope: &[&Condition],
        room_dated: bool,
    ) -> Result<Self, ImagineError> {
        Self::over((catalog, tables), catalog, &Scope::one_of_each(catalog, scope), room_dated)
    }

    /// The network of what is in scope of a house, by the catalog that is true and its tables; `catalog` is the same
    /// place by place, by whose ids everything goes here.
    pub(crate) fn over(
        (true_of, tables): (&Catalog, &ClueTables),
        catalog: &Catalog,
        scope: &Scope<'_>,
        room_dated: bool,
    ) -> Result<Self, ImagineError> {
        let house = HouseNetwork::build(true_of, tables, scope, &[], &[], room_dated)
            .map_err(|e| ImagineError::Network(e.to_string()))?;
        let net = house.net;
        let factors = catalog.factors.iter();
        let factors = factors.filter_map(|f| Some((f.id.clone(), net.find(&format!("house.{}", f.id))?)));
        let shows = net.nodes().iter().enumerate();
        let shows = shows.filter_map(|(id, n)| Some((n.name.strip_prefix("shows.")?.to_owned(), id)));
        let mut sights = BTreeMap::new();
        for item in catalog.items.iter().filter(|i| !i.clues.is_empty()) {
            let seen = sights_of(catalog, &net, &item.id);
            if !seen.is_empty() {
                sights.insert(item.id.clone(), seen);
            }
        }
        Ok(Self {
            conditions: house.conditions,
            shows: shows.collect(),
            factors: factors.collect(),
            room_era: net.find("house.room-era"),
            sights,
            net,
        })
    }

    /// A house in which nothing is settled yet.
    pub(crate) fn blank(&self) -> States {
        vec![None; self.net.len()]
    }
    /// Conditions in scope and their nodes.
    pub(crate) fn conditions(&self) -> &[(String, NodeId)] {
        &self.conditions
    }
    /// Hidden nodes, by the name of their cause and condition.
    pub(crate) fn shows(&self) -> &[(String, NodeId)] {
        &self.shows
    }
    /// What an item's answer shows.
    pub(crate) fn sights(&self, item: &str) -> &[Sight] {
        self.sights.get(item).map_or(&[], Vec::as_slice)
    }
    /// Settles the level of a factor by its index.
    pub(crate) fn settle_factor(&self, states: &mut States, factor: &str, level: usize) {
        if let Some(node) = self.factors.get(factor) {
            states[*node] = Some(level);
        }
    }
    /// Level of a factor by its index.
    pub(crate) fn factor(&self, states: &States, factor: &str) -> Option<usize> {
        self.factors.get(factor).and_then(|node| states[*node])
    }
    /// Settles the era of the room by its index.
    pub(crate) fn settle_room_era(&self, states: &mut States, band: usize) {
        if let Some(node) = self.room_era {
            states[node] = Some(band);
        }
    }
    /// Draws whatever is not settled.
    pub(crate) fn draw(&self, states: &mut States, stream: &mut Stream) {
        forward::draw_rest(&self.net, states, stream);
    }
    /// Draws some sights, and all that lies above them, given that they look as some answers say; false if that never
    /// came about.
    pub(crate) fn draw_as_said(
        &self,
        said: &[(&Sight, Vec<Option<bool>>)],
        states: &mut States,
        stream: &mut Stream,
    ) -> bool {
        let nodes: Vec<NodeId> = said.iter().map(|(sight, _)| sight.node).collect();
        forward::draw_given(&self.net, &nodes, states, stream, |trial| {
            said.iter().all(|(sight, seen)| agrees(sight.row(trial), seen))
        })
    }
    /// Draws the sights of one item once more, what lies above them staying as it is.
    pub(crate) fn draw_sights_again(&self, item: &str, states: &mut States, stream: &mut Stream) {
        for sight in self.sights(item) {
            // What sets off this clue alone at one of several places is drawn with it.
            let above = self.net.nodes()[sight.node].parents.iter();
            for node in above.filter(|n| self.net.nodes()[**n].name.starts_with("sets-off.")) {
                states[*node] = Some(forward::draw_node(&self.net, *node, states, stream));
            }
            states[sight.node] = Some(forward::draw_node(&self.net, sight.node, states, stream));
        }
    }
    /// True when the clue hangs on this condition alone.
    pub(crate) fn hangs_on_only(catalog: &Catalog, clue: &str, condition: &str) -> bool {
        let mut speaks = catalog.conditions.iter().filter(|c| c.clues.iter().any(|p| p.clue == clue));
        speaks.all(|c| c.id == condition)
    }
}

impl Sight {
    /// Which of the clues are to be seen.
    pub(crate) fn row(&self, states: &States) -> &[bool] {
        self.rows.get(states[self.node].unwrap_or(0)).map_or(&[], Vec::as_slice)
    }
    /// What an answer says of each of the clues.
    pub(crate) fn said(&self, catalog: &Catalog, answers: &dyn Answers) -> Vec<Option<bool>> {
        self.clues.iter().map(|c| catalog.clue(c).and_then(|c| c.state(answers))).collect()
    }
}

/// True when nothing said differs from what is to be seen.
pub(crate) fn agrees(row: &[bool], said: &[Option<bool>]) -> bool {
    row.iter().zip(said).all(|(seen, said)| said.is_none_or(|said| said == *seen))
}

/// The nodes an item's answer is evidence on. Clues with a node of their own are called `clue.<id>`; clues of one
/// answer that exclude or contain each other share `item.<item>`, whose states are "none" and their ids.
fn sights_of(catalog: &Catalog, net: &Network, item: &str) -> Vec<Sight> {
    let Some(found) = catalog.item(item) else { return Vec::new() };
    let mut sights = Vec::new();
    for clue in &found.clues {
        if let Some(node) = net.find(&format!("clue.{clue}")) {
            let rows = vec![vec![false], vec![true]];
            sights.push(Sight { node, clues: vec![clue.clone()], rows });
        }
    }
    if let Some(node) = net.find(&format!("item.{item}")) {
        // Its states are called by the ids of the clues, at whichever place.
        let place = Key::parse(item).place;
        let states = net.nodes()[node].states.iter().skip(1);
        let clues: Vec<String> = states.map(|id| Key { id, place }.to_string()).collect();
        let rows = rows(catalog, item, &clues);
        sights.push(Sight { node, clues, rows });
    }
    sights
}

/// In the state of one clue that clue is seen, and every clue that contains it: that is true of each answer of which
/// this one is true.
fn rows(catalog: &Catalog, item: &str, clues: &[String]) -> Vec<Vec<bool>> {
    let answers = sample_answers(catalog, item);
    let truths: Vec<Vec<bool>> = answers
        .into_iter()
        .map(|value| {
            let one: BTreeMap<String, Value> = BTreeMap::from([(item.to_owned(), value)]);
            let holds = |c: &String| catalog.clue(c).and_then(|c: &Clue| c.state(&one)) == Some(true);
            clues.iter().map(holds).collect()
        })
        .collect();
    let inside = |a: usize, b: usize| {
        a == b || (truths.iter().any(|t| t[a]) && truths.iter().filter(|t| t[a]).all(|t| t[b]))
    };
    let state = |k: usize| (0..clues.len()).map(|b| inside(k, b)).collect();
    std::iter::once(vec![false; clues.len()]).chain((0..clues.len()).map(state)).collect()
}
