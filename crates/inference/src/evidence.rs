//! What has been found: hard findings (a state) and soft findings (a likelihood per state).

use alloc::collections::BTreeMap;
use alloc::format;
use alloc::vec::Vec;
use core::cmp::Ordering;

use crate::{InferError, Network, NodeId};

/// Findings on the nodes of a network. The order in which they are entered never changes an answer, to
/// the last bit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    hard: BTreeMap<NodeId, usize>,
    soft: BTreeMap<NodeId, Vec<Vec<f64>>>,
}

impl Evidence {
    /// No findings.
    pub fn new() -> Self {
        Self::default()
    }

    /// Sets `node` to the state with index `state`; a second call for the node replaces the first.
    pub fn observe(&mut self, node: NodeId, state: usize) {
        self.hard.insert(node, state);
    }

    /// Adds a likelihood P(what was seen | state), one number per state in state order, not normalised.
    /// Several on one node multiply; one beside a hard finding multiplies P(evidence).
    pub fn likelihood(&mut self, node: NodeId, likelihood: Vec<f64>) {
        let list = self.soft.entry(node).or_default();
        let at = list.partition_point(|l| compare(l, &likelihood) == Ordering::Less);
        list.insert(at, likelihood);
    }

    /// Takes back every finding on `node`.
    pub fn forget(&mut self, node: NodeId) {
        self.hard.remove(&node);
        self.soft.remove(&node);
    }

    /// The same findings without those on `node`.
    pub fn without(&self, node: NodeId) -> Self {
        let mut rest = self.clone();
        rest.forget(node);
        rest
    }

    /// Hard findings as (node, state index), by node number.
    pub fn hard(&self) -> impl Iterator<Item = (NodeId, usize)> + '_ {
        self.hard.iter().map(|(n, s)| (*n, *s))
    }

    /// Soft findings as (node, likelihood per state), by node number; a node may come several times.
    pub fn soft(&self) -> impl Iterator<Item = (NodeId, &[f64])> + '_ {
        self.soft.iter().flat_map(|(n, list)| list.iter().map(move |l| (*n, l.as_slice())))
    }

    /// The state index observed for `node`, if any.
    pub fn state(&self, node: NodeId) -> Option<usize> {
        self.hard.get(&node).copied()
    }

    /// Every node with a finding, once each, by number.
    pub fn nodes(&self) -> Vec<NodeId> {
        let mut nodes: Vec<NodeId> = self.hard.keys().chain(self.soft.keys()).copied().collect();
        nodes.sort_unstable();
        nodes.dedup();
        nodes
    }

    /// True if there is no finding at all.
    pub fn is_empty(&self) -> bool {
        self.hard.is_empty() && self.soft.is_empty()
    }

    /// Only the findings on the given nodes.
    pub(crate) fn restricted(&self, nodes: &[NodeId]) -> Self {
        let keep = |n: &NodeId| nodes.contains(n);
        Self {
            hard: self.hard.iter().filter(|(n, _)| keep(n)).map(|(n, s)| (*n, *s)).collect(),
            soft: self.soft.iter().filter(|(n, _)| keep(n)).map(|(n, l)| (*n, l.clone())).collect(),
        }
    }

    /// Checks that every finding fits its node.
    pub(crate) fn check(&self, net: &Network) -> Result<(), InferError> {
        let bad = |node, reason| Err(InferError::BadEvidence { node, reason });
        for (node, state) in self.hard() {
            match net.nodes().get(node) {
                None => return bad(node, format!("is on no node of this network of {} nodes", net.len())),
                Some(n) if state >= n.states.len() => {
                    let (name, count) = (&n.name, n.states.len());
                    return bad(
                        node,
                        format!("(\"{name}\") names state index {state}; it has {count} states"),
                    );
                }
                Some(_) => {}
            }
        }
        for (node, l) in self.soft() {
            let Some(n) = net.nodes().get(node) else {
                return bad(node, format!("is on no node of this network of {} nodes", net.len()));
            };
            if l.len() != n.states.len() {
                let (name, count, got) = (&n.name, n.states.len(), l.len());
                return bad(node, format!("(\"{name}\") has {got} likelihoods; it has {count} states"));
            }
            if let Some(x) = l.iter().find(|x| !x.is_finite() || **x < 0.0) {
                let name = &n.name;
                return bad(
                    node,
                    format!("(\"{name}\") has likelihood {x}; it must be finite and not negative"),
                );
            }
        }
        Ok(())
    }
}

/// A fixed order of likelihood vectors, so that their product does not depend on when each was entered.
fn compare(a: &[f64], b: &[f64]) -> Ordering {
    a.iter()
        .zip(b)
        .map(|(x, y)| x.total_cmp(y))
        .find(|o| *o != Ordering::Equal)
        .unwrap_or_else(|| a.len().cmp(&b.len()))
}
