//! A noisy family as a chain of small tables, and back.
//!
//! Parents are taken by number. Link i holds P(highest draw of the leak and parents 1..=i | the same up to
//! i - 1, parent i); the last link is the node itself, the others are hidden variables with the node's
//! states, numbered from [`Network::len`] on. Taking the parents of every family in the same order keeps the
//! links of families with common parents side by side. The leak goes into the first parent's link, or has a
//! link to itself where their product might underflow.

use alloc::borrow::Cow;
use alloc::collections::BTreeSet;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;
use core::ops::Range;

use super::{Noisy, highest};
use crate::InferError;
use crate::network::{Network, NetworkBuilder, Node, NodeId};

/// One small table of a chain.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Link {
    /// The node whose family this belongs to.
    pub(crate) owner: NodeId,
    /// The link before, if any, then the parent.
    pub(crate) parents: Vec<NodeId>,
    /// Laid out as [`Node::cpt`].
    pub(crate) table: Vec<f64>,
}

/// Products of two entries above this stay far from the end of a double's range.
const TAME: f64 = 1e-100;

/// The chain of one family; its first hidden variable has number `first`.
pub(crate) fn chain(owner: NodeId, parents: &[NodeId], family: &Noisy, first: NodeId) -> Vec<Link> {
    let width = family.leak.len();
    let mut order: Vec<(NodeId, &Vec<f64>)> = parents.iter().copied().zip(&family.effects).collect();
    order.sort_unstable_by_key(|(p, _)| *p);
    let mut links: Vec<Link> = Vec::with_capacity(order.len() + 1);
    let mut leak = Some(family.leak.as_slice());
    let tame = |list: &[f64]| list.iter().all(|x| *x == 0.0 || *x >= TAME);
    if order.first().is_none_or(|(_, effect)| !(tame(&family.leak) && tame(effect))) {
        links.push(Link { owner, parents: Vec::new(), table: family.leak.clone() });
        leak = None;
    }
    for (parent, effect) in order {
        let pushes = || effect.chunks_exact(width);
        let link = match leak.take() {
            Some(leak) => {
                let table = pushes().flat_map(|push| highest(leak, push)).collect();
                Link { owner, parents: Vec::from([parent]), table }
            }
            None => {
                let low_first = (0..width).flat_map(|low| pushes().flat_map(move |push| at_least(low, push)));
                Link {
                    owner,
                    parents: Vec::from([first + links.len() - 1, parent]),
                    table: low_first.collect(),
                }
            }
        };
        links.push(link);
    }
    links
}

/// Distribution of the higher of `low` and a draw.
fn at_least(low: usize, push: &[f64]) -> Vec<f64> {
    let mut row = vec![0.0; push.len()];
    row[low] = push[..=low].iter().sum();
    row[low + 1..].copy_from_slice(&push[low + 1..]);
    row
}

/// One variable as elimination sees it.
pub(crate) struct Family<'a> {
    pub(crate) parents: &'a [NodeId],
    pub(crate) table: &'a [f64],
}

impl Network {
    /// The factored family of a node built with [`NetworkBuilder::noisy_or`] or
    /// [`NetworkBuilder::noisy_max`]; `None` for a node with a table.
    pub fn noisy(&self, node: NodeId) -> Option<&Noisy> {
        self.noisy.get(&node).map(|(family, _)| family)
    }

    /// The same network with every factored family written out as a table.
    ///
    /// # Errors
    /// [`InferError::TooLarge`] if one of them has more than `limit` cells.
    pub fn tabled(&self, limit: u64) -> Result<Self, InferError> {
        let (net, split) = self.spelled_out(limit);
        match split.first() {
            None => Ok(net.into_owned()),
            Some(id) => {
                let node = &self.nodes()[*id];
                let family = node.parents.iter().chain([id]);
                let cluster = family.map(|n| self.nodes()[*n].name.clone()).collect();
                Err(InferError::TooLarge { cells: self.cells(*id), limit, cluster })
            }
        }
    }

    /// The same distribution in plain nodes: factored families of at most `limit` cells as tables, larger ones
    /// over helper nodes behind the others, named after the node; returns the nodes of the latter too.
    pub(crate) fn spelled_out(&self, limit: u64) -> (Cow<'_, Self>, Vec<NodeId>) {
        if self.noisy.is_empty() {
            return (Cow::Borrowed(self), Vec::new());
        }
        let mut nodes = self.nodes().to_vec();
        let mut taken: BTreeSet<String> = nodes.iter().map(|n| n.name.clone()).collect();
        let mut split = Vec::new();
        for (id, (family, last)) in &self.noisy {
            if self.cells(*id) <= limit {
                nodes[*id].cpt = family.table();
                continue;
            }
            split.push(*id);
            let (start, count) = (nodes.len(), self.hidden(*id).len());
            // Hidden variables of families that became tables leave no gap.
            let moved = |p: &NodeId| if *p < self.len() { *p } else { p - self.hidden(*id).start + start };
            for (i, link) in self.links[self.hidden(*id).start - self.len()..][..count].iter().enumerate() {
                let mut name = format!("{}.part{}", nodes[*id].name, i + 1);
                while !taken.insert(name.clone()) {
                    name.push('_');
                }
                let states = nodes[*id].states.clone();
                let parents = link.parents.iter().map(moved).collect();
                nodes.push(Node { name, states, parents, cpt: link.table.clone() });
            }
            nodes[*id].parents = last.parents.iter().map(moved).collect();
            nodes[*id].cpt = last.table.clone();
        }
        // Sound nodes without circles make a sound network.
        match NetworkBuilder::checked(nodes) {
            Ok(net) => (Cow::Owned(net), split),
            Err(_) => (Cow::Borrowed(self), split),
        }
    }

    /// Cells of a node's table, were it written out.
    fn cells(&self, id: NodeId) -> u64 {
        let width = |n: &NodeId| self.width(*n) as u64;
        self.nodes()[id].parents.iter().map(width).fold(width(&id), u64::saturating_mul)
    }

    /// Nodes and hidden variables together.
    pub(crate) fn variables(&self) -> usize {
        self.len() + self.links.len()
    }

    /// The node itself, or the node whose family a hidden variable belongs to.
    pub(crate) fn owner(&self, variable: NodeId) -> NodeId {
        variable.checked_sub(self.len()).map_or(variable, |i| self.links[i].owner)
    }

    /// State count of a node or hidden variable.
    pub(crate) fn width(&self, variable: NodeId) -> usize {
        self.nodes()[self.owner(variable)].states.len()
    }

    /// Parents and table of a node or hidden variable, as elimination takes them.
    pub(crate) fn family(&self, variable: NodeId) -> Family<'_> {
        match (variable.checked_sub(self.len()), self.noisy.get(&variable)) {
            (Some(i), _) => Family { parents: &self.links[i].parents, table: &self.links[i].table },
            (None, Some((_, last))) => Family { parents: &last.parents, table: &last.table },
            (None, None) => {
                let node = &self.nodes()[variable];
                Family { parents: &node.parents, table: &node.cpt }
            }
        }
    }

    /// The hidden variables of a node's family. All of them are in the lowest state if the node is.
    pub(crate) fn hidden(&self, node: NodeId) -> Range<NodeId> {
        let start = self.len() + self.links.partition_point(|l| l.owner < node);
        start..self.len() + self.links.partition_point(|l| l.owner <= node)
    }
}
