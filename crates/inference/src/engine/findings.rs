//! Findings node by node, and what a node's findings say together.

use alloc::vec;
use alloc::vec::Vec;

use super::state::Said;
use crate::number::{ROOM, exponent};
use crate::{Evidence, NodeId};

/// One finding on one node.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Finding<'a> {
    /// The node is in the state with this index.
    State(usize),
    /// P(what was seen | state), one number per state, finite and not negative.
    Likelihood(&'a [f64]),
}

/// What lies on one node.
#[derive(Clone, Debug, Default)]
struct Slot {
    hard: Option<usize>,
    /// Likelihoods; only the first `count` count, the rest keep their memory.
    soft: Vec<Vec<f64>>,
    count: usize,
    listed: bool,
}

/// All findings of a session.
#[derive(Clone, Debug)]
pub(crate) struct Findings {
    slots: Vec<Slot>,
    /// Nodes that have or had findings.
    listed: Vec<NodeId>,
    /// Nodes whose likelihoods lie too far apart for plain doubles.
    wild: Vec<bool>,
    wilds: usize,
    /// Room for one product of likelihoods, as m · 2^e.
    room: Vec<(f64, i64)>,
}

impl Findings {
    pub(crate) fn new(len: usize) -> Self {
        Self {
            slots: vec![Slot::default(); len],
            listed: Vec::new(),
            wild: vec![false; len],
            wilds: 0,
            room: Vec::new(),
        }
    }

    /// Plain doubles cannot hold what lies on some node.
    pub(crate) fn wild(&self) -> bool {
        self.wilds > 0
    }

    /// Nodes that have or had findings.
    pub(crate) fn listed(&self) -> &[NodeId] {
        &self.listed
    }

    /// True if exactly this lies on the node.
    pub(crate) fn same<'a>(
        &self,
        node: NodeId,
        hard: Option<usize>,
        soft: impl Iterator<Item = &'a [f64]>,
    ) -> bool {
        let slot = &self.slots[node];
        slot.hard == hard && slot.soft[..slot.count].iter().map(Vec::as_slice).eq(soft)
    }

    /// Replaces what lies on the node.
    pub(crate) fn put<'a>(
        &mut self,
        node: NodeId,
        hard: Option<usize>,
        soft: impl Iterator<Item = &'a [f64]>,
    ) {
        let slot = &mut self.slots[node];
        slot.hard = hard;
        slot.count = 0;
        for likelihood in soft {
            match slot.soft.get_mut(slot.count) {
                Some(room) => {
                    room.clear();
                    room.extend_from_slice(likelihood);
                }
                None => slot.soft.push(likelihood.into()),
            }
            slot.count += 1;
        }
        if !slot.listed {
            slot.listed = true;
            self.listed.push(node);
        }
    }

    /// Writes the product of what lies on the node, largest 1, into `out` and tells the rest.
    pub(crate) fn said(&mut self, node: NodeId, out: &mut [f64]) -> Said {
        let slot = &self.slots[node];
        let soft = &slot.soft[..slot.count];
        self.wilds -= usize::from(self.wild[node]);
        self.wild[node] = false;
        out.fill(1.0);
        if slot.hard.is_none() && soft.is_empty() {
            return Said::NOTHING;
        }
        self.room.clear();
        for state in 0..out.len() {
            let mut product = if slot.hard.is_none_or(|h| h == state) { (1.0, 0) } else { (0.0, 0) };
            for x in soft.iter().map(|l| l[state]) {
                let (m, e) = libm::frexp(product.0 * libm::frexp(x).0);
                product = (m, product.1 + i64::from(e) + i64::from(libm::frexp(x).1));
                if m == 0.0 {
                    product = (0.0, 0);
                    break;
                }
            }
            self.room.push(product);
        }
        // All m lie in [1/2, 1), or are all 1.
        let above = self.room.iter().filter(|p| p.0 > 0.0);
        let Some(top) = above.copied().max_by(|a, b| a.1.cmp(&b.1).then(a.0.total_cmp(&b.0))) else {
            return Said { any: true, scale: None, floor: 0 };
        };
        let mut floor = 0;
        for (o, (m, e)) in out.iter_mut().zip(&self.room) {
            *o = 0.0;
            if *m > 0.0 {
                let shift = (e - top.1).max(-2000) as i32;
                *o = libm::scalbn(m / top.0, shift);
                floor = floor.min(exponent(m / top.0) + shift - 1);
            }
        }
        self.wild[node] = floor < ROOM;
        self.wilds += usize::from(self.wild[node]);
        Said { any: true, scale: Some(top), floor }
    }

    /// The findings as evidence.
    pub(crate) fn evidence(&self) -> Evidence {
        let mut ev = Evidence::new();
        for node in &self.listed {
            let slot = &self.slots[*node];
            if let Some(state) = slot.hard {
                ev.observe(*node, state);
            }
            slot.soft[..slot.count].iter().for_each(|l| ev.likelihood(*node, l.clone()));
        }
        ev
    }
}
