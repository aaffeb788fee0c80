//! Which nodes are asked about, and which borders lead to some of them.

use alloc::vec;
use alloc::vec::Vec;

use super::tree::Tree;
use crate::{NodeId, Posterior};

/// The nodes of a question. Kept from one question to the next, as most ask about the same nodes.
#[derive(Default)]
pub(super) struct Wanted {
    list: Vec<NodeId>,
    /// Start of each distribution in an answer, and the end.
    pub(super) starts: Vec<usize>,
    /// By variable: start in an answer, if wanted.
    pub(super) slots: Vec<Option<usize>>,
    /// Places of a node that is asked for again, with its first place.
    again: Vec<(usize, usize)>,
    /// By border: some are wanted away from the root, toward it.
    pub(super) ahead: Vec<[bool; 2]>,
}

impl Wanted {
    /// Takes up a new list, if it is one. `place`: variable of each node, if it is free.
    pub(super) fn renew(&mut self, list: &[NodeId], base: &Posterior, tree: &Tree, place: &[Option<usize>]) {
        if self.list == list && !self.starts.is_empty() {
            return;
        }
        self.list = list.to_vec();
        self.starts = starts(list, base);
        self.slots = vec![None; tree.homes.len()];
        self.again.clear();
        let mut count = vec![0u32; tree.cliques.len()];
        for (i, node) in list.iter().enumerate() {
            let Some(v) = place[*node] else { continue };
            match self.slots[v] {
                Some(first) => self.again.push((self.starts[i], first)),
                None => {
                    self.slots[v] = Some(self.starts[i]);
                    count[tree.homes[v].clique] += 1;
                }
            }
        }
        for (k, up) in tree.order.iter().rev() {
            if let Some(up) = up {
                count[tree.borders[*up].sides[1].clique] += count[*k];
            }
        }
        self.ahead = vec![[false; 2]; tree.borders.len()];
        let mut whole = vec![0; tree.cliques.len()];
        for (k, up) in &tree.order {
            whole[*k] = match up {
                None => count[*k],
                Some(up) => {
                    let all = whole[tree.borders[*up].sides[1].clique];
                    self.ahead[*up] = [count[*k] > 0, all > count[*k]];
                    all
                }
            };
        }
    }

    /// Length of an answer.
    pub(super) fn width(&self) -> usize {
        self.starts.last().copied().unwrap_or(0)
    }

    /// Enters the distributions of nodes asked for twice.
    pub(super) fn repeat(&self, shares: &mut [f64], base: &Posterior) {
        for (place, first) in &self.again {
            let at = self.starts.partition_point(|s| s <= place) - 1;
            let states = base.of(self.list[at]).len();
            shares.copy_within(*first..first + states, *place);
        }
    }
}

/// Where each distribution starts in an answer, and the end.
pub(super) fn starts(list: &[NodeId], base: &Posterior) -> Vec<usize> {
    let mut starts = vec![0];
    list.iter().for_each(|n| starts.push(starts[starts.len() - 1] + base.of(*n).len()));
    starts
}

/// The distributions of an answer as they are now.
pub(super) fn copied(list: &[NodeId], base: &Posterior, out: &mut Vec<f64>) {
    list.iter().for_each(|n| out.extend_from_slice(base.of(*n)));
}
