//! One finding, carried outward from the cluster that holds its node.
//!
//! Only borders that lead to a wanted node are crossed, each once, and none behind one where nothing changes.
//! Up to four results of the same node travel together.

use alloc::vec;
use alloc::vec::Vec;

use super::Ready;
use super::tree::{Home, Side, Tree};
use crate::Posterior;

/// How many findings travel together at most.
pub(super) const LANES: usize = 4;

/// Room for messages and distributions, kept from question to question.
pub(super) struct Room {
    /// Start of each border's message.
    starts: Vec<usize>,
    messages: Vec<f64>,
    /// The message that is being carried on.
    from: Vec<f64>,
    /// What a single node is told.
    told: Vec<f64>,
    /// Borders crossed, with the side they were crossed to.
    open: Vec<(usize, Side)>,
}

impl Room {
    pub(super) fn new(tree: &Tree, sizes: &[usize]) -> Self {
        let (mut starts, mut end, mut widest) = (Vec::new(), 0, 0);
        for border in &tree.borders {
            starts.push(end);
            end += border.cells * LANES;
            widest = widest.max(border.cells);
        }
        let states = sizes.iter().copied().max().unwrap_or(0);
        Self {
            starts,
            messages: vec![0.0; end],
            from: vec![0.0; widest.max(states) * LANES],
            told: vec![0.0; states * LANES],
            open: Vec::new(),
        }
    }
}

impl Ready {
    /// Carries `L` findings on the node at home in `source`; `seed` has P(finding | state) for each of them,
    /// state by state. Distributions that change are written into `shares`, one answer after the other.
    pub(super) fn spread<const L: usize>(
        &mut self,
        source: Home,
        seed: &[f64],
        base: &Posterior,
        shares: &mut [f64],
    ) {
        let Self { tree, vars, sizes, tables, passages, wanted, room } = self;
        let Room { starts, messages, from, told, open } = room;
        let width = wanted.width();
        let own = tree.vars(source.clique, source.port)[0];
        if let Some(slot) = wanted.slots[own] {
            weigh(base.of(vars[own]), seed.as_chunks::<L>().0, &mut shares[slot..], width);
        }
        open.clear();
        from[..seed.len()].copy_from_slice(seed);
        let (mut at, mut len) = (Side { clique: source.clique, port: source.port }, seed.len());
        loop {
            let from_lanes = from[..len].as_chunks::<L>().0;
            let here = &tree.cliques[at.clique];
            for (out, b) in here.borders.iter().enumerate().filter(|(out, _)| *out != at.port) {
                let border = &tree.borders[*b];
                let toward = border.toward(at.clique);
                if !wanted.ahead[*b][toward] {
                    continue;
                }
                let passage = passages.through(tree, tables, sizes, at.clique, [at.port, out]);
                let message = &mut messages[starts[*b]..][..border.cells * L];
                if passages.carry(passage, from_lanes, message.as_chunks_mut::<L>().0) {
                    open.push((*b, border.sides[toward]));
                }
            }
            for (i, v) in here.nodes.iter().enumerate() {
                let out = here.borders.len() + i;
                let Some(slot) = wanted.slots[*v].filter(|_| out != at.port) else { continue };
                let passage = passages.through(tree, tables, sizes, at.clique, [at.port, out]);
                let told = told[..sizes[*v] * L].as_chunks_mut::<L>().0;
                if passages.carry(passage, from_lanes, told) {
                    weigh(base.of(vars[*v]), told, &mut shares[slot..], width);
                }
            }
            let Some((b, side)) = open.pop() else { return };
            len = tree.borders[b].cells * L;
            from[..len].copy_from_slice(&messages[starts[b]..][..len]);
            at = side;
        }
    }
}

/// Writes a node's distribution given each finding, into answers that lie `width` apart.
fn weigh<const L: usize>(base: &[f64], told: &[[f64; L]], shares: &mut [f64], width: usize) {
    let mut totals = [0.0; L];
    for (p, t) in base.iter().zip(told) {
        totals.iter_mut().zip(t).for_each(|(a, t)| *a += p * t);
    }
    for (lane, total) in totals.iter().enumerate().filter(|(_, total)| **total > 0.0) {
        let Some(out) = shares.get_mut(lane * width..) else { return };
        out.iter_mut().zip(base).zip(told).for_each(|((o, p), t)| *o = p * t[lane] / total);
    }
}
