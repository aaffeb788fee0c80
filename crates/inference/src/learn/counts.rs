//! Expected counts: what an expectation step leaves.

use alloc::vec;
use alloc::vec::Vec;

use super::LearnError;
use crate::{Network, NodeId};

/// Expected counts N(i, j, k) of every cell of every table, and how probable the records were.
#[derive(Clone, Debug, PartialEq)]
pub struct Counts {
    /// sum of weight · ln P(record), natural logarithm.
    pub log_likelihood: f64,
    /// Sum of the weights; the counts of one node add up to it.
    pub weight: f64,
    pub(super) tables: Vec<Vec<f64>>,
    widths: Vec<usize>,
}

impl Counts {
    /// All counts zero, for networks of this shape.
    pub fn zero(net: &Network) -> Self {
        Self {
            log_likelihood: 0.0,
            weight: 0.0,
            tables: net.nodes().iter().map(|n| vec![0.0; n.cpt.len()]).collect(),
            widths: net.nodes().iter().map(|n| n.states.len()).collect(),
        }
    }

    /// Counts of a node, laid out as [`crate::Node::cpt`]; empty for a node that is not in the network.
    pub fn of(&self, node: NodeId) -> &[f64] {
        self.tables.get(node).map_or(&[], Vec::as_slice)
    }

    /// Counts of one row in state order, rows from 0; empty if there is no such row.
    pub fn row(&self, node: NodeId, row: usize) -> &[f64] {
        let width = self.widths.get(node).copied().unwrap_or(1);
        self.of(node).chunks_exact(width).nth(row).unwrap_or(&[])
    }

    /// Adds the counts of other records on a network of the same shape.
    ///
    /// # Errors
    /// [`LearnError::NoRow`] with the first node that has tables of another size; nothing is added then.
    pub fn add(&mut self, other: &Self) -> Result<(), LearnError> {
        let count = self.tables.len().max(other.tables.len());
        let differs = |n: &NodeId| {
            self.of(*n).len() != other.of(*n).len() || self.widths.get(*n) != other.widths.get(*n)
        };
        if let Some(node) = (0..count).find(differs) {
            return Err(LearnError::NoRow { node, row: 0 });
        }
        for (mine, theirs) in self.tables.iter_mut().zip(&other.tables) {
            mine.iter_mut().zip(theirs).for_each(|(a, b)| *a += b);
        }
        self.log_likelihood += other.log_likelihood;
        self.weight += other.weight;
        Ok(())
    }
}
