//! Weight of evidence: how far each finding moves the odds of a hypothesis.
//!
//! The weight of e in favor of h is logit P(h | e) - logit P(h) = ln P(e | h) / P(e | not h): I. J. Good,
//! "Probability and the Weighing of Evidence", Griffin 1950, and "Weight of evidence: a brief survey",
//! Bayesian Statistics 2 (1985) 249-270. Natural logarithms; times [`DECIBANS`] gives decibans.

use alloc::vec::Vec;

use crate::query::check_wanted;
use crate::{Evidence, InferError, Network, NodeId, joint};

/// Decibans in one nat, 10 / ln 10.
pub const DECIBANS: f64 = 10.0 * core::f64::consts::LOG10_E;

/// How some findings weigh for one state of one node. Weights are in nats, one for each node of the order
/// asked for; infinite where the hypothesis becomes or ceases to be certain, `None` where certain stays
/// certain the same way.
#[derive(Debug, Clone, PartialEq)]
pub struct Weights {
    /// P(state) without the weighed findings.
    pub prior: f64,
    /// P(state) with all of them.
    pub posterior: f64,
    /// All findings together.
    pub total: Option<f64>,
    /// Each given the ones before it; they sum to the total. `None` as soon as the hypothesis is certain, one
    /// way or the other, before or after the step; the sum is then not promised.
    pub sequential: Vec<Option<f64>>,
    /// What the total would lose without this one.
    pub leave_one_out: Vec<Option<f64>>,
    /// This one by itself.
    pub alone: Vec<Option<f64>>,
}

/// Weighs the findings on the nodes of `order`, in that order, for `target` being in state `state`. All
/// findings on one node count as one. Findings on other nodes are taken as given throughout, in the prior too.
///
/// # Errors
/// As [`crate::posterior`]; a node of `order` without a finding or named twice, or a state that the target
/// does not have, is [`InferError::BadEvidence`].
pub fn weights(
    net: &Network,
    ev: &Evidence,
    target: NodeId,
    state: usize,
    order: &[NodeId],
) -> Result<Weights, InferError> {
    ev.check(net)?;
    check_wanted(net, &[target])?;
    let nodes = ev.nodes();
    let bad = |node, reason: &str| Err(InferError::BadEvidence { node, reason: reason.into() });
    if state >= net.nodes()[target].states.len() {
        return bad(target, "is weighed for a state that the node does not have");
    }
    for (i, node) in order.iter().enumerate() {
        if !nodes.contains(node) {
            return bad(*node, "is to be weighed but has not been entered");
        }
        if order[..i].contains(node) {
            return bad(*node, "is to be weighed twice");
        }
    }
    let given: Vec<NodeId> = nodes.into_iter().filter(|n| !order.contains(n)).collect();
    let p = |weighed: &[NodeId]| -> Result<f64, InferError> {
        Ok(joint(net, &ev.restricted(&[&given, weighed].concat()), &[target])?[state])
    };
    // All of it first, so that impossible findings are named among all of them.
    let posterior = p(order)?;
    let path: Vec<f64> =
        (0..order.len()).map(|i| p(&order[..i])).chain([Ok(posterior)]).collect::<Result<_, _>>()?;
    let prior = path[0];
    let certain = |p: f64| !logit(p).is_finite();
    let sequential = path
        .windows(2)
        .map(|w| if certain(w[0]) || certain(w[1]) { None } else { difference(w[1], w[0]) })
        .collect();
    let without = |i: usize| p(&[&order[..i], &order[i + 1..]].concat());
    Ok(Weights {
        prior,
        posterior,
        total: difference(posterior, prior),
        sequential,
        leave_one_out: (0..order.len())
            .map(|i| Ok(difference(posterior, without(i)?)))
            .collect::<Result<_, InferError>>()?,
        alone: order.iter().map(|n| Ok(difference(p(&[*n])?, prior))).collect::<Result<_, InferError>>()?,
    })
}

/// ln(p / (1 - p)).
fn logit(p: f64) -> f64 {
    libm::log(p) - libm::log(1.0 - p)
}

fn difference(after: f64, before: f64) -> Option<f64> {
    let d = logit(after) - logit(before);
    (!d.is_nan()).then_some(d)
}
