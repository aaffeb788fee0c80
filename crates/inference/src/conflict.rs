//! Which findings cannot hold together.
//!
//! A set of findings that is impossible stays impossible with more added. So the shortest impossible
//! beginning of the list ends in a finding that matters; keeping it and searching on leaves a set from
//! which none can be dropped: the same as deletion filtering, in fewer trials. Both directions through the
//! list are tried and the smaller set kept. It is minimal, not always the smallest there is.

use alloc::vec::Vec;

use crate::plan::Plan;
use crate::query::{probability, relevant};
use crate::{Evidence, Network, NodeId};

/// A minimal set of evidence nodes, by number, that is impossible on its own. The whole must be impossible.
pub(crate) fn conflict(net: &Network, ev: &Evidence) -> Vec<NodeId> {
    let mut nodes = ev.nodes();
    let first = minimal(net, ev, nodes.clone());
    nodes.reverse();
    let second = minimal(net, ev, nodes);
    let mut best = if second.len() < first.len() { second } else { first };
    best.sort_unstable();
    best
}

fn minimal(net: &Network, ev: &Evidence, mut open: Vec<NodeId>) -> Vec<NodeId> {
    let mut found: Vec<NodeId> = Vec::new();
    loop {
        let clash = |open: &[NodeId]| !possible(net, &ev.restricted(&[&found, open].concat()));
        if open.is_empty() || (!found.is_empty() && clash(&[])) {
            return found;
        }
        // Impossible with all of `open`, possible with none: find where it tips.
        let (mut low, mut high) = (0, open.len());
        while low + 1 < high {
            let middle = low.midpoint(high);
            if clash(&open[..middle]) {
                high = middle;
            } else {
                low = middle;
            }
        }
        found.push(open[high - 1]);
        open.truncate(high - 1);
    }
}

/// False only if shown impossible; a subset too large to work out counts as possible.
fn possible(net: &Network, ev: &Evidence) -> bool {
    let include = relevant(net, ev, &[]);
    Plan::new(net, ev, &include, &[]).map_or(true, |plan| probability(net, &plan).is_some())
}
