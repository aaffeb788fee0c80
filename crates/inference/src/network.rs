//! Discrete Bayesian networks: built step by step, checked once, then unchangeable.

use alloc::collections::{BTreeMap, BTreeSet};
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use crate::error::NetworkError;
use crate::noisy_or::{Link, Noisy, chain};
use crate::number::reach;

/// Number of a node within one network in memory. Never stored: names are.
pub type NodeId = usize;

/// Rows may be off 1 by this much, as published tables are; see [`NetworkBuilder::table`].
pub(crate) const ROW_TOLERANCE: f64 = 1e-6;
/// Rows off 1 by no more than this are taken as they are, bit for bit.
pub(crate) const ROW_EXACT: f64 = 1e-12;

/// One variable with its states and its table of probabilities given its parents.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// Name, unique in the network.
    pub name: String,
    /// State names, unique in the node, at least one.
    pub states: Vec<String>,
    /// Parents, in the order the table's rows run through.
    pub parents: Vec<NodeId>,
    /// P(state | parents): one row per combination of the parents' states, first parent slowest, last
    /// parent fastest; within a row in state order. Every row sums to 1. Empty for a family kept factored,
    /// see [`Network::noisy`]; never empty for any other.
    pub cpt: Vec<f64>,
}

/// A checked network: names unique, every table complete, rows summing to 1, no circle.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    nodes: Vec<Node>,
    by_name: BTreeMap<String, NodeId>,
    topological: Vec<NodeId>,
    floors: Vec<i32>,
    /// Factored families, each with the last link of its chain.
    pub(crate) noisy: BTreeMap<NodeId, (Noisy, Link)>,
    /// The links before the last, by owner: one hidden variable each.
    pub(crate) links: Vec<Link>,
}

impl Network {
    /// Checks ready-made nodes, all with tables; parents may come later in the list than their children.
    ///
    /// # Errors
    /// Whatever [`NetworkBuilder`] refuses.
    pub fn from_nodes(nodes: Vec<Node>) -> Result<Self, NetworkError> {
        NetworkBuilder::checked(nodes)
    }

    /// All nodes, by number.
    pub fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// How many nodes there are.
    pub fn len(&self) -> usize {
        self.nodes.len()
    }

    /// True if there is no node at all.
    pub fn is_empty(&self) -> bool {
        self.nodes.is_empty()
    }

    /// The node of that name.
    pub fn find(&self, name: &str) -> Option<NodeId> {
        self.by_name.get(name).copied()
    }

    /// Index of a state of `node` by its name.
    pub fn state(&self, node: NodeId, state: &str) -> Option<usize> {
        self.nodes.get(node)?.states.iter().position(|s| s == state)
    }

    /// All nodes, every parent before its children; among the possible orders the one that takes the
    /// smallest number first.
    pub fn topological(&self) -> &[NodeId] {
        &self.topological
    }

    /// Exponent of two of the smallest entry above zero in the table of a node or hidden variable.
    pub(crate) fn floor(&self, variable: NodeId) -> i32 {
        self.floors[variable]
    }
}

/// Collects nodes and tables for a [`Network`].
#[derive(Clone, Debug, Default)]
pub struct NetworkBuilder {
    nodes: Vec<Node>,
    has_table: Vec<bool>,
    by_name: BTreeMap<String, NodeId>,
    noisy: BTreeMap<NodeId, Noisy>,
}

impl NetworkBuilder {
    /// An empty builder.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a node with its states in order.
    ///
    /// # Errors
    /// A name already taken, no states or more than 65,535, two states of one name.
    pub fn node<S: AsRef<str>>(
        &mut self,
        name: impl Into<String>,
        states: &[S],
    ) -> Result<NodeId, NetworkError> {
        let name = name.into();
        if self.by_name.contains_key(&name) {
            return Err(NetworkError::DuplicateNode { name });
        }
        if states.is_empty() || states.len() > usize::from(u16::MAX) {
            return Err(NetworkError::StateCount { node: name, states: states.len() as u64 });
        }
        let mut seen = BTreeSet::new();
        if let Some(twice) = states.iter().map(AsRef::as_ref).find(|s| !seen.insert(*s)) {
            return Err(NetworkError::DuplicateState { node: name, state: twice.into() });
        }
        let id = self.nodes.len();
        self.by_name.insert(name.clone(), id);
        let states = states.iter().map(|s| s.as_ref().into()).collect();
        self.nodes.push(Node { name, states, parents: Vec::new(), cpt: Vec::new() });
        self.has_table.push(false);
        Ok(id)
    }

    /// Gives a node its parents and its table, laid out as [`Node::cpt`] says. Parents need only have
    /// been added as nodes before this call; their own tables may follow.
    ///
    /// A row that misses 1 by up to 1e-12 is kept as it is; one that misses it by up to 1e-6 (rounded
    /// decimals) is divided by its sum.
    ///
    /// # Errors
    /// Unknown node, parent named twice, wrong number of entries, an entry that is negative or not finite,
    /// a row that misses 1 by more than 1e-6.
    pub fn table(&mut self, node: NodeId, parents: &[NodeId], mut cpt: Vec<f64>) -> Result<(), NetworkError> {
        self.may_take(node, parents)?;
        self.mend_rows(node, parents, &mut cpt, |row| row)?;
        self.nodes[node].parents = parents.into();
        self.nodes[node].cpt = cpt;
        self.has_table[node] = true;
        Ok(())
    }

    /// Checks that a node has no family yet and may have these parents.
    pub(crate) fn may_take(&self, node: NodeId, parents: &[NodeId]) -> Result<(), NetworkError> {
        if let Some(id) = [node].iter().chain(parents).find(|id| **id >= self.nodes.len()) {
            return Err(NetworkError::UnknownNode { id: *id as u64 });
        }
        let name = || self.nodes[node].name.clone();
        if self.has_table[node] {
            return Err(NetworkError::TableTwice { node: name() });
        }
        let mut seen = BTreeSet::from([node]);
        if let Some(p) = parents.iter().find(|p| !seen.insert(**p)) {
            return Err(NetworkError::BadParent { node: name(), parent: self.nodes[*p].name.clone() });
        }
        Ok(())
    }

    /// Checks the rows of a table of `node` over some of its parents and divides rounded ones by their sum;
    /// `words` says more about the row in a message.
    pub(crate) fn mend_rows(
        &self,
        node: NodeId,
        parents: &[NodeId],
        cpt: &mut [f64],
        words: impl Fn(String) -> String,
    ) -> Result<(), NetworkError> {
        let name = || self.nodes[node].name.clone();
        let width = self.nodes[node].states.len();
        let expected =
            parents.iter().fold(width as u64, |n, p| n.saturating_mul(self.nodes[*p].states.len() as u64));
        if cpt.len() as u64 != expected {
            return Err(NetworkError::TableSize { node: name(), expected, got: cpt.len() as u64 });
        }
        for (r, row) in cpt.chunks_exact_mut(width).enumerate() {
            if let Some(x) = row.iter().find(|x| !x.is_finite() || **x < 0.0) {
                return Err(NetworkError::BadEntry {
                    node: name(),
                    row: words(self.row_words(parents, r)),
                    value: *x,
                });
            }
            let sum = sum(row);
            if (sum - 1.0).abs() > ROW_TOLERANCE {
                let row = words(self.row_words(parents, r));
                return Err(NetworkError::RowSum { node: name(), row, sum });
            }
            if (sum - 1.0).abs() > ROW_EXACT {
                row.iter_mut().for_each(|x| *x /= sum);
            }
        }
        Ok(())
    }

    /// Enters a checked family without a table.
    pub(crate) fn keep_factored(&mut self, node: NodeId, parents: &[NodeId], family: Noisy) {
        self.nodes[node].parents = parents.into();
        self.noisy.insert(node, family);
        self.has_table[node] = true;
    }

    pub(crate) fn name(&self, node: NodeId) -> &str {
        &self.nodes[node].name
    }

    pub(crate) fn width(&self, node: NodeId) -> usize {
        self.nodes[node].states.len()
    }

    /// A network of ready-made nodes.
    pub(crate) fn checked(nodes: Vec<Node>) -> Result<Network, NetworkError> {
        let mut builder = Self::new();
        for node in &nodes {
            builder.node(node.name.as_str(), &node.states)?;
        }
        for (id, node) in nodes.into_iter().enumerate() {
            builder.table(id, &node.parents, node.cpt)?;
        }
        builder.build()
    }

    /// Finishes the network.
    ///
    /// # Errors
    /// A node without a table, or arrows that run in a circle.
    pub fn build(self) -> Result<Network, NetworkError> {
        if let Some(id) = self.has_table.iter().position(|has| !has) {
            return Err(NetworkError::NoTable { node: self.nodes[id].name.clone() });
        }
        let topological = topological(&self.nodes)?;
        let (mut noisy, mut links) = (BTreeMap::new(), Vec::new());
        for (id, family) in self.noisy {
            let mut chain = chain(id, &self.nodes[id].parents, &family, self.nodes.len() + links.len());
            if let Some(last) = chain.pop() {
                noisy.insert(id, (family, last));
            }
            links.append(&mut chain);
        }
        let mut net = Network {
            nodes: self.nodes,
            by_name: self.by_name,
            topological,
            floors: Vec::new(),
            noisy,
            links,
        };
        let floor = |v| reach(net.family(v).table).map_or(0, |(_, low)| low);
        net.floors = (0..net.variables()).map(floor).collect();
        Ok(net)
    }

    /// "row 3 (era e1, wet yes)" for a message.
    fn row_words(&self, parents: &[NodeId], row: usize) -> String {
        let mut rest = row;
        let mut given: Vec<String> = Vec::new();
        for p in parents.iter().rev() {
            let parent = &self.nodes[*p];
            given.push(format!("{} {}", parent.name, parent.states[rest % parent.states.len()]));
            rest /= parent.states.len();
        }
        given.reverse();
        if given.is_empty() { "row 1".into() } else { format!("row {} ({})", row + 1, given.join(", ")) }
    }
}

/// Sum in the blocked order common array libraries use (eight running sums once there are eight numbers),
/// so that a row divided by its sum agrees to the last bit with tables normalised by those.
pub(crate) fn sum(row: &[f64]) -> f64 {
    if row.len() > 128 {
        let half = row.len() / 2;
        let half = half - half % 8;
        return sum(&row[..half]) + sum(&row[half..]);
    }
    if row.len() < 8 {
        return row.iter().fold(0.0, |a, x| a + x);
    }
    let mut lanes = [0.0; 8];
    let blocks = row.chunks_exact(8);
    let rest = blocks.remainder();
    for block in blocks {
        lanes.iter_mut().zip(block).for_each(|(lane, x)| *lane += x);
    }
    let [a, b, c, d, e, f, g, h] = lanes;
    rest.iter().fold(((a + b) + (c + d)) + ((e + f) + (g + h)), |s, x| s + x)
}

fn topological(nodes: &[Node]) -> Result<Vec<NodeId>, NetworkError> {
    let mut children = vec![Vec::new(); nodes.len()];
    let mut waiting: Vec<usize> = nodes.iter().map(|n| n.parents.len()).collect();
    for (id, node) in nodes.iter().enumerate() {
        node.parents.iter().for_each(|p| children[*p].push(id));
    }
    let mut ready: BTreeSet<NodeId> = (0..nodes.len()).filter(|id| waiting[*id] == 0).collect();
    let mut order = Vec::with_capacity(nodes.len());
    while let Some(id) = ready.pop_first() {
        order.push(id);
        for child in &children[id] {
            waiting[*child] -= 1;
            if waiting[*child] == 0 {
                ready.insert(*child);
            }
        }
    }
    if order.len() == nodes.len() { Ok(order) } else { Err(cycle(nodes, &waiting)) }
}

/// Walks up from a node that never became ready; the walk must bite its tail.
fn cycle(nodes: &[Node], waiting: &[usize]) -> NetworkError {
    let mut path: Vec<NodeId> = Vec::new();
    let mut at = waiting.iter().position(|w| *w > 0);
    while let Some(id) = at {
        if let Some(start) = path.iter().position(|p| *p == id) {
            path.drain(..start);
            break;
        }
        path.push(id);
        at = nodes[id].parents.iter().copied().find(|p| waiting[*p] > 0);
    }
    path.reverse();
    NetworkError::Cycle { nodes: path.iter().map(|id| nodes[*id].name.clone()).collect() }
}
