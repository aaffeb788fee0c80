//! The questions: P(evidence), the posterior of every node, the joint of a few.

use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use crate::conflict::conflict;
use crate::eliminate::{Stop, inward};
use crate::number::{Number, Scale, Wide};
use crate::plan::{CLUSTER_LIMIT, Plan, with_ancestors};
use crate::{Evidence, InferError, Network, NodeId};

/// P(state | evidence) of every node, evidence nodes too.
#[derive(Debug, Clone, PartialEq)]
pub struct Posterior {
    /// Natural logarithm of P(evidence); soft findings count with their likelihoods as given.
    pub log_p_evidence: f64,
    pub(crate) starts: Vec<usize>,
    pub(crate) shares: Vec<f64>,
}

impl Posterior {
    /// The distribution of `node` in state order, summing to 1; empty for a node that is not in the network.
    pub fn of(&self, node: NodeId) -> &[f64] {
        match (self.starts.get(node), self.starts.get(node + 1)) {
            (Some(a), Some(b)) => &self.shares[*a..*b],
            _ => &[],
        }
    }
}

/// Up to this many cells one pass over the whole network is quick; beyond, going piece by piece is weighed.
const WHOLE_LIMIT: usize = 1 << 24;

/// Every node's distribution given the evidence, and P(evidence), in one inward and one outward pass.
///
/// # Errors
/// [`InferError::Impossible`] whichever nodes one is interested in, [`InferError::BadEvidence`],
/// [`InferError::TooLarge`].
pub fn posterior(net: &Network, ev: &Evidence) -> Result<Posterior, InferError> {
    ev.check(net)?;
    let (mut answer, mut done) = Posterior::blank(net, ev);
    let everything = vec![true; net.len()];
    let whole = Plan::new(net, ev, &everything, &[]);
    let cells = whole.as_ref().map_or(usize::MAX, |plan| plan.cells);
    match whole {
        Ok(plan) if cells <= WHOLE_LIMIT || !pieces_are_smaller(net, ev, done.clone(), cells) => {
            answer.log_p_evidence = answer.fill(net, ev, &plan, &mut done)?;
        }
        _ => answer.piecewise(net, ev, &mut done)?,
    }
    Ok(answer)
}

impl Posterior {
    /// Only what needs no arithmetic: observed nodes and single states, marked.
    pub(crate) fn blank(net: &Network, ev: &Evidence) -> (Self, Vec<bool>) {
        let mut starts = vec![0];
        for node in net.nodes() {
            starts.push(starts[starts.len() - 1] + node.states.len());
        }
        let mut answer = Self { log_p_evidence: 0.0, shares: vec![0.0; starts[net.len()]], starts };
        let mut done = vec![false; net.len()];
        for (id, node) in net.nodes().iter().enumerate() {
            let state = ev.state(id).or((node.states.len() == 1).then_some(0));
            if let Some(state) = state {
                answer.shares[answer.starts[id] + state] = 1.0;
                done[id] = true;
            }
        }
        (answer, done)
    }

    /// As [`posterior`], with distributions for the wanted nodes at least; `None` if the evidence is impossible.
    pub(crate) fn of_some(
        net: &Network,
        ev: &Evidence,
        wanted: &[NodeId],
    ) -> Result<Option<Self>, InferError> {
        let (mut answer, mut done) = Self::blank(net, ev);
        match Plan::new(net, ev, &relevant(net, ev, wanted), &[]) {
            Ok(plan) if plan.cells <= WHOLE_LIMIT => {
                let Some(scale) = answer.pass(net, &plan, &mut done) else { return Ok(None) };
                answer.log_p_evidence = scale.ln();
                Ok(Some(answer))
            }
            // Looked at as a whole it may come in smaller pieces.
            _ => match posterior(net, ev) {
                Err(InferError::Impossible { .. }) => Ok(None),
                done => done.map(Some),
            },
        }
    }

    /// Runs one plan and enters what is not known yet; returns ln P(evidence).
    fn fill(
        &mut self,
        net: &Network,
        ev: &Evidence,
        plan: &Plan,
        done: &mut [bool],
    ) -> Result<f64, InferError> {
        self.pass(net, plan, done).map(Scale::ln).ok_or_else(|| impossible(net, ev))
    }

    /// The same, `None` if the evidence is impossible.
    fn pass(&mut self, net: &Network, plan: &Plan, done: &mut [bool]) -> Option<Scale> {
        let mut report = |id: NodeId, shares: &[f64]| {
            // Hidden variables have no place in `done`.
            if done.get(id) == Some(&false) {
                self.shares[self.starts[id]..self.starts[id + 1]].copy_from_slice(shares);
                done[id] = true;
            }
        };
        match both::<f64>(net, plan, &mut report) {
            Err(Stop::Narrow) => both::<Wide>(net, plan, &mut report).ok(),
            done => done.ok(),
        }
    }

    /// Nodes without evidence below them may tie a large network into one cluster though each of them on its
    /// own is easy: answer the part that carries the evidence, then the rest family by family.
    fn piecewise(&mut self, net: &Network, ev: &Evidence, done: &mut [bool]) -> Result<(), InferError> {
        let plan = Plan::new(net, ev, &relevant(net, ev, &[]), &[])?;
        self.log_p_evidence = self.fill(net, ev, &plan, done)?;
        // The deepest first: each brings along everything above it.
        for id in net.topological().iter().rev() {
            if !done[*id] {
                let plan = Plan::new(net, ev, &relevant(net, ev, &[*id]), &[])?;
                self.fill(net, ev, &plan, done)?;
            }
        }
        Ok(())
    }
}

/// Goes through the pieces of [`Posterior::piecewise`] without the arithmetic: are they possible, and fewer
/// cells together than `cells`?
fn pieces_are_smaller(net: &Network, ev: &Evidence, mut done: Vec<bool>, cells: usize) -> bool {
    let mut sum = 0;
    for wanted in [None].into_iter().chain(net.topological().iter().rev().map(Some)) {
        if wanted.is_some_and(|id| done[*id]) {
            continue;
        }
        let include = relevant(net, ev, wanted.copied().as_slice());
        include.iter().zip(&mut done).for_each(|(i, d)| *d |= i);
        sum += Plan::new(net, ev, &include, &[]).map_or(cells, |plan| plan.cells);
        if sum >= cells {
            return false;
        }
    }
    true
}

fn both<N: Number>(
    net: &Network,
    plan: &Plan,
    report: &mut impl FnMut(NodeId, &[f64]),
) -> Result<Scale, Stop> {
    let mut pass = inward::<N>(net, plan)?;
    pass.outward(net, plan, report);
    Ok(pass.scale)
}

/// ln P(evidence), from the evidence nodes and what lies above them.
///
/// # Errors
/// As [`posterior`].
pub fn log_p_evidence(net: &Network, ev: &Evidence) -> Result<f64, InferError> {
    ev.check(net)?;
    let plan = Plan::new(net, ev, &relevant(net, ev, &[]), &[])?;
    probability(net, &plan).map(Scale::ln).ok_or_else(|| impossible(net, ev))
}

/// P(nodes | evidence) as one table: row-major in the given order, last node fastest, summing to 1.
/// Meant for small sets; observed nodes are allowed.
///
/// # Errors
/// As [`posterior`]; a node named twice or not in the network is [`InferError::BadEvidence`].
pub fn joint(net: &Network, ev: &Evidence, nodes: &[NodeId]) -> Result<Vec<f64>, InferError> {
    ev.check(net)?;
    check_wanted(net, nodes)?;
    if let Some((at, node)) = nodes.iter().enumerate().find(|(i, n)| nodes[..*i].contains(n)) {
        return Err(InferError::BadEvidence {
            node: *node,
            reason: format!("is asked for twice (place {at})"),
        });
    }
    let sizes: Vec<usize> = nodes.iter().map(|n| net.nodes()[*n].states.len()).collect();
    let cells = sizes.iter().fold(1u64, |n, s| n.saturating_mul(*s as u64));
    if cells > CLUSTER_LIMIT {
        let cluster: Vec<String> = nodes.iter().map(|n| net.nodes()[*n].name.clone()).collect();
        return Err(InferError::TooLarge { cells, limit: CLUSTER_LIMIT, cluster });
    }
    let plan = Plan::new(net, ev, &relevant(net, ev, nodes), nodes)?;
    let table = match last::<f64>(net, &plan, nodes) {
        Err(Stop::Narrow) => last::<Wide>(net, &plan, nodes),
        done => done,
    };
    let table = table.map_err(|_| impossible(net, ev))?;
    // Put the observed nodes back as axes with a single state above zero.
    let mut out = vec![0.0; cells as usize];
    for (i, p) in table.iter().enumerate() {
        let (mut rest, mut at, mut stride) = (i, 0, 1);
        for (node, size) in nodes.iter().zip(&sizes).rev() {
            let state = plan.fixed[*node].unwrap_or_else(|| {
                let state = rest % size;
                rest /= size;
                state
            });
            at += state * stride;
            stride *= size;
        }
        out[at] = *p;
    }
    Ok(out)
}

fn last<N: Number>(net: &Network, plan: &Plan, nodes: &[NodeId]) -> Result<Vec<f64>, Stop> {
    let scope: Vec<usize> = nodes.iter().filter_map(|n| plan.vars.iter().position(|v| v == n)).collect();
    let table = inward::<N>(net, plan)?.last(net, plan, &scope)?;
    let total = table.iter().fold(N::ZERO, |a, x| a.plus(*x));
    Ok(table.iter().map(|x| x.share(total)).collect())
}

/// P(evidence) of a plan without kept nodes; `None` if it is zero.
pub(crate) fn probability(net: &Network, plan: &Plan) -> Option<Scale> {
    match inward::<f64>(net, plan) {
        Ok(pass) => Some(pass.scale),
        Err(Stop::Zero) => None,
        Err(Stop::Narrow) => inward::<Wide>(net, plan).ok().map(|pass| pass.scale),
    }
}

/// The nodes that the answer depends on: evidence, wanted nodes, and all above them.
pub(crate) fn relevant(net: &Network, ev: &Evidence, wanted: &[NodeId]) -> Vec<bool> {
    with_ancestors(net, ev.nodes().into_iter().chain(wanted.iter().copied()))
}

pub(crate) fn check_wanted(net: &Network, wanted: &[NodeId]) -> Result<(), InferError> {
    match wanted.iter().find(|n| **n >= net.len()) {
        Some(node) => {
            Err(InferError::BadEvidence { node: *node, reason: "is asked for but not in the network".into() })
        }
        None => Ok(()),
    }
}

pub(crate) fn impossible(net: &Network, ev: &Evidence) -> InferError {
    InferError::Impossible { conflict: conflict(net, ev) }
}
