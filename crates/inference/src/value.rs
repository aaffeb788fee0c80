//! What an observation is worth before it is made: mutual information, and the loss it is expected to spare.
//!
//! With losses L\[a\]\[t\] of action a in state t of the target, EVSI(X) = min_a E[L_a | e] - sum_x P(x | e)
//! min_a E[L_a | e, x] and EVPI the same with the target itself seen: H. Raiffa, R. Schlaifer, "Applied
//! Statistical Decision Theory", Harvard 1961, chapter 4. Both are added up as what is spared by leaving the
//! action that is best now, state by state, so that neither can come out negative.

use alloc::format;
use alloc::vec;
use alloc::vec::Vec;

use crate::mpe::TIE;
use crate::query::check_wanted;
use crate::{Evidence, InferError, Network, NodeId, joint, posterior};

/// A decision on what is known now.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// P(state of the target | evidence), in state order.
    pub target_posterior: Vec<f64>,
    /// Its entropy, nats.
    pub target_entropy: f64,
    /// The action of least expected loss; the first of equal ones.
    pub best_action: usize,
    /// The least expected loss, in the unit of the losses.
    pub expected_loss: f64,
    /// What knowing the target's state for certain would spare, in the unit of the losses.
    pub evpi: f64,
    /// One for each set of nodes asked about, in that order.
    pub observations: Vec<Observation>,
}

/// What seeing the states of a set of nodes, all at once, is worth.
#[derive(Debug, Clone, PartialEq)]
pub struct Observation {
    /// Mutual information with the target given the evidence, nats, never negative.
    pub mutual_information: f64,
    /// Loss it is expected to spare, before its own cost, never negative.
    pub evsi: f64,
    /// The action of least expected loss after each outcome (row-major in the order of the nodes, last node
    /// fastest); `None` for an outcome of probability zero or where two actions tie within 1e-9.
    pub best_actions: Vec<Option<usize>>,
}

/// Weighs a decision about `target` and what seeing each set of nodes beforehand would spare.
///
/// `loss[action][state]`: one row per action, one number per state of the target, in any one unit, negative
/// for a gain. `sets`: each names one node or a few; observed nodes and the target itself are allowed.
///
/// # Errors
/// As [`crate::joint`]; no action, a row of the wrong length or a loss that is not finite is
/// [`InferError::BadEvidence`] of the target.
pub fn value(
    net: &Network,
    ev: &Evidence,
    target: NodeId,
    loss: &[Vec<f64>],
    sets: &[Vec<NodeId>],
) -> Result<Decision, InferError> {
    check_wanted(net, &[target])?;
    sets.iter().try_for_each(|set| check_wanted(net, set))?;
    check_loss(net, target, loss)?;
    let now = posterior(net, ev)?;
    let p = now.of(target);
    let best = best_action(loss, p);
    let expected = |row: &[f64]| row.iter().zip(p).fold(0.0, |sum, (l, p)| sum + l * p);
    let spared = |t: usize| loss[best][t] - loss.iter().fold(f64::INFINITY, |m, row| least(m, row[t]));
    let evpi = p.iter().enumerate().fold(0.0, |sum, (t, p)| sum + p * spared(t));

    // Every single node at once: its distribution given each state of the target.
    let given: Vec<_> = p
        .iter()
        .enumerate()
        .map(|(t, p)| {
            if *p == 0.0 || !sets.iter().any(|s| s.len() == 1) {
                return Ok(None);
            }
            let mut ev = ev.clone();
            ev.observe(target, t);
            posterior(net, &ev).map(Some)
        })
        .collect::<Result<_, _>>()?;
    let mut observations = Vec::with_capacity(sets.len());
    for set in sets {
        let table = match set[..] {
            [node] => {
                let width = net.nodes()[node].states.len();
                let row = |(p, q): (&f64, &Option<crate::Posterior>)| -> Vec<f64> {
                    q.as_ref().map_or(vec![0.0; width], |q| q.of(node).iter().map(|x| p * x).collect())
                };
                p.iter().zip(&given).flat_map(row).collect()
            }
            _ => with_target(net, ev, target, set)?,
        };
        observations.push(observation(&table, loss, best));
    }
    Ok(Decision {
        target_posterior: p.to_vec(),
        target_entropy: p.iter().filter(|p| **p > 0.0).fold(0.0, |h, p| h - p * libm::log(*p)),
        best_action: best,
        expected_loss: expected(&loss[best]),
        evpi,
        observations,
    })
}

/// Mutual information of the target and a set of nodes given the evidence, nats.
///
/// # Errors
/// As [`crate::joint`].
pub fn mutual_information(
    net: &Network,
    ev: &Evidence,
    target: NodeId,
    set: &[NodeId],
) -> Result<f64, InferError> {
    check_wanted(net, &[target])?;
    check_wanted(net, set)?;
    Ok(information(&with_target(net, ev, target, set)?, net.nodes()[target].states.len()))
}

fn check_loss(net: &Network, target: NodeId, loss: &[Vec<f64>]) -> Result<(), InferError> {
    let (name, states) = (&net.nodes()[target].name, net.nodes()[target].states.len());
    let reason = if loss.is_empty() {
        format!("(\"{name}\") has no action to choose from")
    } else if let Some(row) = loss.iter().find(|row| row.len() != states) {
        format!("(\"{name}\") has a row of {} losses; it has {states} states", row.len())
    } else if let Some(x) = loss.iter().flatten().find(|x| !x.is_finite()) {
        format!("(\"{name}\") has a loss of {x}; it must be finite")
    } else {
        return Ok(());
    };
    Err(InferError::BadEvidence { node: target, reason })
}

/// P(target, set | evidence): one row per state of the target. The target in the set is put back as an axis
/// that repeats it.
fn with_target(net: &Network, ev: &Evidence, target: NodeId, set: &[NodeId]) -> Result<Vec<f64>, InferError> {
    let others: Vec<NodeId> = set.iter().copied().filter(|n| *n != target).collect();
    let nodes: Vec<NodeId> = [target].into_iter().chain(others.iter().copied()).collect();
    let table = joint(net, ev, &nodes)?;
    if others.len() == set.len() {
        return Ok(table);
    }
    let size = |n: &NodeId| net.nodes()[*n].states.len();
    let width: usize = set.iter().map(size).product();
    let rest: usize = others.iter().map(size).product();
    let mut out = vec![0.0; size(&target) * width];
    for (i, p) in table.iter().enumerate() {
        let (t, mut left) = (i / rest, i % rest);
        let (mut at, mut stride) = (0, 1);
        for node in set.iter().rev() {
            let state = if *node == target { t } else { left % size(node) };
            left = if *node == target { left } else { left / size(node) };
            at += state * stride;
            stride *= size(node);
        }
        out[t * width + at] = *p;
    }
    Ok(out)
}

/// Action of least sum of loss times weight; the first of equal ones.
fn best_action(loss: &[Vec<f64>], weights: &[f64]) -> usize {
    let sums = sums(loss, weights);
    (1..sums.len()).fold(0, |best, a| if sums[a] < sums[best] { a } else { best })
}

fn sums(loss: &[Vec<f64>], weights: &[f64]) -> Vec<f64> {
    loss.iter().map(|row| row.iter().zip(weights).fold(0.0, |sum, (l, w)| sum + l * w)).collect()
}

fn observation(table: &[f64], loss: &[Vec<f64>], now: usize) -> Observation {
    let states = loss[now].len();
    let width = table.len() / states;
    let (mut evsi, mut best_actions) = (0.0, Vec::with_capacity(width));
    for x in 0..width {
        let column: Vec<f64> = (0..states).map(|t| table[t * width + x]).collect();
        let p = column.iter().fold(0.0, |a, b| a + b);
        let sums = sums(loss, &column);
        let best = best_action(loss, &column);
        evsi += sums[now] - sums[best];
        let tie = sums.iter().enumerate().any(|(a, s)| a != best && s - sums[best] <= TIE * p);
        best_actions.push((p > 0.0 && !tie).then_some(best));
    }
    Observation { mutual_information: information(table, states), evsi, best_actions }
}

/// Mutual information of the two axes of a table with `rows` rows; rounding below zero counts as zero.
fn information(table: &[f64], rows: usize) -> f64 {
    let width = table.len() / rows;
    let mut below = vec![0.0; width];
    for row in table.chunks_exact(width) {
        below.iter_mut().zip(row).for_each(|(b, p)| *b += p);
    }
    let mut sum = 0.0;
    for row in table.chunks_exact(width) {
        let own = row.iter().fold(0.0, |a, b| a + b);
        for (p, b) in row.iter().zip(&below).filter(|(p, _)| **p > 0.0) {
            sum += p * libm::log(p / own / b);
        }
    }
    if sum > 0.0 { sum } else { 0.0 }
}

fn least(a: f64, b: f64) -> f64 {
    if b < a { b } else { a }
}
