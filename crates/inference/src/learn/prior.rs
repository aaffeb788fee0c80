//! What is known before the records: pseudo-counts, and rows that never move.

use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::LearnError;
use crate::{Network, NodeId};

/// Pseudo-counts (beta, the Dirichlet's parameters less one) for every cell of every table of a network, and the
/// rows that are fixed.
#[derive(Clone, Debug, PartialEq)]
pub struct Prior {
    /// One table per node, laid out as [`crate::Node::cpt`].
    beta: Vec<Vec<f64>>,
    /// One mark per row.
    fixed: Vec<Vec<bool>>,
}

impl Prior {
    /// No pseudo-counts, nothing fixed: maximum likelihood.
    pub fn none(net: &Network) -> Self {
        let nodes = net.nodes();
        Self {
            beta: nodes.iter().map(|n| vec![0.0; n.cpt.len()]).collect(),
            fixed: nodes.iter().map(|n| vec![false; n.cpt.len() / n.states.len()]).collect(),
        }
    }

    /// beta = `strength` · the tables of `tables`, a network with the nodes of `net` in any order: each row
    /// counts as much as `strength` records.
    ///
    /// # Errors
    /// A strength that is negative or not finite; a node that `tables` lacks or has with other states or parents.
    pub fn from_tables(net: &Network, tables: &Network, strength: f64) -> Result<Self, LearnError> {
        if !strength.is_finite() || strength < 0.0 {
            return Err(LearnError::Amount { what: "the strength of the prior".into(), value: strength });
        }
        let mut prior = Self::none(net);
        for (id, node) in net.nodes().iter().enumerate() {
            let name = |net: &Network, list: &[NodeId]| -> Vec<String> {
                list.iter().map(|p| net.nodes()[*p].name.clone()).collect()
            };
            let other = tables.find(&node.name).map(|n| &tables.nodes()[n]).filter(|other| {
                other.states == node.states && name(tables, &other.parents) == name(net, &node.parents)
            });
            let other = other.ok_or_else(|| LearnError::Shape { node: node.name.clone() })?;
            prior.beta[id] = other.cpt.iter().map(|p| strength * p).collect();
        }
        Ok(prior)
    }

    /// Replaces the pseudo-counts of one row, in state order. Rows count from 0 as in [`crate::Node::cpt`].
    ///
    /// # Errors
    /// No such row, another number of states, a number that is negative or not finite.
    pub fn set(&mut self, node: NodeId, row: usize, beta: &[f64]) -> Result<(), LearnError> {
        if let Some(x) = beta.iter().find(|x| !x.is_finite() || **x < 0.0) {
            let what = format!("a pseudo-count of node number {node}, row {row},");
            return Err(LearnError::Amount { what, value: *x });
        }
        self.row_mut(node, row)
            .filter(|cells| cells.len() == beta.len())
            .ok_or(LearnError::NoRow { node, row })?
            .copy_from_slice(beta);
        Ok(())
    }

    /// Fixes one row: it never moves, and its pseudo-counts are dropped.
    ///
    /// # Errors
    /// No such row.
    pub fn fix(&mut self, node: NodeId, row: usize) -> Result<(), LearnError> {
        self.row_mut(node, row).ok_or(LearnError::NoRow { node, row })?.fill(0.0);
        self.fixed[node][row] = true;
        Ok(())
    }

    /// Pseudo-counts of a node; empty for a node that is not in the network.
    pub fn of(&self, node: NodeId) -> &[f64] {
        self.beta.get(node).map_or(&[], Vec::as_slice)
    }

    /// True if the row is fixed.
    pub fn is_fixed(&self, node: NodeId, row: usize) -> bool {
        self.fixed.get(node).and_then(|rows| rows.get(row)).copied().unwrap_or(false)
    }

    /// sum of beta · ln theta over all rows that are not fixed; 0 · ln 0 counts as 0.
    pub fn log_density(&self, net: &Network) -> f64 {
        let mut sum = 0.0;
        for (id, node) in net.nodes().iter().enumerate() {
            let width = node.states.len();
            for (at, (beta, theta)) in self.of(id).iter().zip(&node.cpt).enumerate() {
                if *beta > 0.0 && !self.is_fixed(id, at / width) {
                    sum += beta * libm::log(*theta);
                }
            }
        }
        sum
    }

    /// True if this prior was made for networks of this shape.
    pub(super) fn fits(&self, net: &Network) -> Result<(), LearnError> {
        let differs = |id: &usize| {
            let node = &net.nodes()[*id];
            self.of(*id).len() != node.cpt.len()
                || self.fixed.get(*id).map_or(0, Vec::len) * node.states.len() != node.cpt.len()
        };
        match (0..net.len()).find(differs) {
            Some(id) => Err(LearnError::Shape { node: net.nodes()[id].name.clone() }),
            None => Ok(()),
        }
    }

    fn row_mut(&mut self, node: NodeId, row: usize) -> Option<&mut [f64]> {
        let rows = self.fixed.get(node)?.len();
        let cells = self.beta.get_mut(node)?;
        let width = cells.len().checked_div(rows)?;
        cells.chunks_exact_mut(width.max(1)).nth(row)
    }
}

/// The maximisation for one row: theta = (counts + beta) / their sum; without any mass theta stays as it is.
/// All three in state order and of one length.
pub fn mode(counts: &[f64], beta: &[f64], theta: &mut [f64]) {
    let mass: f64 = counts.iter().zip(beta).map(|(n, b)| n + b).sum();
    if mass > 0.0 {
        theta.iter_mut().zip(counts.iter().zip(beta)).for_each(|(t, (n, b))| *t = (n + b) / mass);
    }
}
