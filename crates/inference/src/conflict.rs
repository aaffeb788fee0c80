//! Which findings cannot hold together, and how far possible ones disagree.
//!
//! A set of findings that is impossible stays impossible with more added. So the shortest impossible
//! beginning of the list ends in a finding that matters; keeping it and searching on leaves a set from
//! which none can be dropped: the same as deletion filtering, in fewer trials. Both directions through the
//! list are tried and the smaller set kept. It is minimal, not always the smallest there is.
//!
//! For findings that are possible: conf(e) = ln( product of P(e_i) / P(e) ). Findings that come from one
//! coherent case tend to go together, so that conf(e) is below zero; above zero they disagree with each other
//! under the model. F. V. Jensen, B. Chamberlain, T. Nordahl, F. Jensen, "Analysis in HUGIN of data conflict",
//! Uncertainty in Artificial Intelligence 1990, 519-528.

use alloc::vec;
use alloc::vec::Vec;

use crate::plan::Plan;
use crate::query::{log_p_evidence, posterior, probability, relevant};
use crate::{Evidence, InferError, Network, NodeId};

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

/// Probabilities above this are far from where doubles end.
const SEEN: f64 = 1e-250;

/// How far findings disagree.
#[derive(Debug, Clone, PartialEq)]
pub struct Disagreement {
    /// ln( product of P(e_i) / P(e) ), nats, over the nodes with findings; above zero they disagree.
    pub measure: f64,
    /// The two nodes whose findings disagree most with each other, taken by themselves; `None` with fewer than
    /// two findings.
    pub pair: Option<Pair>,
}

/// Two nodes with findings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// The smaller node number.
    pub first: NodeId,
    /// The larger node number.
    pub second: NodeId,
    /// The measure of these two findings alone, nats; may be below zero.
    pub measure: f64,
}

/// The conflict measure of the findings and the pair most responsible. All findings on one node count as one;
/// the scale of likelihoods does not matter. Among equal pairs the one with the smallest numbers.
///
/// # Errors
/// As [`crate::posterior`].
pub fn disagreement(net: &Network, ev: &Evidence) -> Result<Disagreement, InferError> {
    let together = log_p_evidence(net, ev)?;
    let nodes = ev.nodes();
    let single: Vec<f64> =
        nodes.iter().map(|n| log_p_evidence(net, &ev.restricted(&[*n]))).collect::<Result<_, _>>()?;
    let measure = single.iter().fold(0.0, |sum, x| sum + x) - together;
    let mut pair: Option<Pair> = None;
    for (i, first) in nodes.iter().enumerate().take(nodes.len().saturating_sub(1)) {
        // With two findings, the pair is the whole.
        let given = if nodes.len() > 2 { Some(posterior(net, &ev.restricted(&[*first]))?) } else { None };
        for (j, second) in nodes.iter().enumerate().skip(i + 1) {
            let measure = match given.as_ref().map(|given| log_weight(ev, *second, given.of(*second))) {
                None => measure,
                Some(Some(log_p)) => single[j] - log_p,
                Some(None) => {
                    single[i] + single[j] - log_p_evidence(net, &ev.restricted(&[*first, *second]))?
                }
            };
            if pair.is_none_or(|p| measure > p.measure) {
                pair = Some(Pair { first: *first, second: *second, measure });
            }
        }
    }
    Ok(Disagreement { measure, pair })
}

/// ln of the probability of the findings on `node` under a distribution of the node; `None` if states that
/// a double cannot hold might count.
fn log_weight(ev: &Evidence, node: NodeId, p: &[f64]) -> Option<f64> {
    let mut logs = vec![0.0; p.len()];
    for (_, l) in ev.soft().filter(|(n, _)| *n == node) {
        logs.iter_mut().zip(l).for_each(|(a, l)| *a += libm::log(*l));
    }
    if let Some(state) = ev.state(node) {
        logs.iter_mut().enumerate().filter(|(s, _)| *s != state).for_each(|(_, a)| *a = f64::NEG_INFINITY);
    }
    let top = logs.iter().fold(f64::NEG_INFINITY, |a, b| if *b > a { *b } else { a });
    let share = logs.iter().zip(p).fold(0.0, |sum, (x, p)| sum + p * libm::exp(x - top));
    (share > SEEN).then(|| top + libm::log(share))
}
