//! Cases told apart: a tree for each, mixed by their chances.
//!
//! One unobserved node above most others (the era of a house whose year nobody knows) ties a network together that
//! falls into small parts as soon as it is known: each what-if then runs through all of it. Conditioning on that node
//! keeps the parts apart: J. Pearl, "Probabilistic Reasoning in Intelligent Systems" (1988), section 4.4.2. Answers are
//! the same to rounding; each is a mean over the cases, weighed by P(case | evidence).

use alloc::vec;
use alloc::vec::Vec;

use super::wanted::{copied, starts};
use super::{Calibrated, Changed, Given, check_found};
use crate::query::{check_wanted, impossible, joint};
use crate::{Evidence, InferError, Network, NodeId, Posterior};

/// A network with findings, ready for many what-ifs, case by case. Asked and answered as [`Calibrated`].
pub struct Split<'n> {
    net: &'n Network,
    evidence: Evidence,
    posterior: Posterior,
    cases: Vec<Case<'n>>,
}

/// What holds in one case.
struct Case<'n> {
    /// States that hold in it.
    states: Vec<(NodeId, usize)>,
    /// P(case | evidence).
    chance: f64,
    /// None where the evidence rules the case out.
    tree: Option<Calibrated<'n>>,
}

impl<'n> Split<'n> {
    /// Weighs the evidence case by case. Each case is a list of states that hold in it; exactly one case must hold
    /// whatever the network does (the states of one node, each with the states of nodes that copy it). No cases: one
    /// tree for all, as [`Calibrated::new`].
    ///
    /// # Errors
    /// As [`Calibrated::new`].
    pub fn new(
        net: &'n Network,
        evidence: &Evidence,
        cases: &[Vec<(NodeId, usize)>],
    ) -> Result<Self, InferError> {
        evidence.check(net)?;
        let none = [Vec::new()];
        let mut made = Vec::new();
        for states in if cases.is_empty() { &none[..] } else { cases } {
            let tree = match holding(evidence, states) {
                Some(all) => Calibrated::possible(net, &all)?,
                None => None,
            };
            made.push(Case { states: states.clone(), chance: 0.0, tree });
        }
        let posterior = match &made[..] {
            [Case { tree: Some(tree), .. }] => tree.posterior().clone(),
            all => blend(net, evidence, all.iter().filter_map(|c| Some(c.tree.as_ref()?.posterior())))?,
        };
        for case in &mut made {
            let log = case.tree.as_ref().map(|tree| tree.posterior().log_p_evidence);
            case.chance = log.map_or(0.0, |log| libm::exp(log - posterior.log_p_evidence));
        }
        Ok(Self { net, evidence: evidence.clone(), posterior, cases: made })
    }

    /// The evidence.
    pub fn evidence(&self) -> &Evidence {
        &self.evidence
    }

    /// Every node's distribution given the evidence, and P(evidence).
    pub fn posterior(&self) -> &Posterior {
        &self.posterior
    }

    /// What follows from each state of `node`, for the `wanted` nodes; see [`Calibrated::given`].
    ///
    /// # Errors
    /// As [`Calibrated::given`].
    pub fn given(&mut self, node: NodeId, wanted: &[NodeId]) -> Result<Given, InferError> {
        if let [Case { tree: Some(only), .. }] = &mut self.cases[..] {
            return only.given(node, wanted);
        }
        check_wanted(self.net, &[node])?;
        check_wanted(self.net, wanted)?;
        let starts = starts(wanted, &self.posterior);
        let width = starts[wanted.len()];
        let states = self.posterior.of(node).len();
        let mut chances = vec![0.0; states];
        let mut shares = vec![0.0; states * width];
        for case in &mut self.cases {
            let Some(tree) = &mut case.tree else { continue };
            let here = tree.given(node, wanted)?;
            for (state, chance) in here.chances.iter().enumerate() {
                let weight = case.chance * chance;
                chances[state] += weight;
                let (all, one) =
                    (&mut shares[state * width..][..width], &here.shares[state * width..][..width]);
                if weight > 0.0 {
                    all.iter_mut().zip(one).for_each(|(sum, x)| *sum += weight * x);
                }
            }
        }
        for (state, chance) in chances.iter().enumerate().filter(|(_, chance)| **chance > 0.0) {
            shares[state * width..][..width].iter_mut().for_each(|x| *x /= chance);
        }
        Ok(Given { chances, starts, shares })
    }

    /// What follows for the `wanted` nodes from further findings; see [`Calibrated::with`].
    ///
    /// # Errors
    /// As [`Calibrated::with`].
    pub fn with(&mut self, findings: &[(NodeId, &[f64])], wanted: &[NodeId]) -> Result<Changed, InferError> {
        if let [Case { tree: Some(only), .. }] = &mut self.cases[..] {
            return only.with(findings, wanted);
        }
        let mut all = Vec::new();
        for case in &mut self.cases {
            let Some(tree) = &mut case.tree else { continue };
            match tree.with(findings, wanted) {
                Ok(changed) => all.push((libm::log(case.chance) + changed.log_ratio, changed.shares)),
                Err(InferError::Impossible { .. }) => {}
                Err(error) => return Err(error),
            }
        }
        self.mixed(&all, wanted).ok_or_else(|| {
            let mut with = self.evidence.clone();
            findings.iter().for_each(|(node, l)| with.likelihood(*node, l.to_vec()));
            impossible(self.net, &with)
        })
    }

    /// What would follow for the `wanted` nodes without any finding on `nodes`.
    ///
    /// # Errors
    /// As [`Calibrated::without`].
    pub fn without(&mut self, nodes: &[NodeId], wanted: &[NodeId]) -> Result<Changed, InferError> {
        if let [Case { tree: Some(only), .. }] = &mut self.cases[..] {
            return only.without(nodes, wanted);
        }
        check_wanted(self.net, nodes)?;
        check_wanted(self.net, wanted)?;
        check_found(self.net, &self.evidence, nodes)?;
        let mut rest = self.evidence.clone();
        nodes.iter().for_each(|n| rest.forget(*n));
        let mut all = Vec::new();
        for case in &mut self.cases {
            // A finding on what tells the cases apart is not the case's own state.
            let apart = case.states.iter().all(|(node, _)| !nodes.contains(node));
            if let Some(tree) = case.tree.as_mut().filter(|_| apart) {
                let changed = tree.without(nodes, wanted)?;
                all.push((libm::log(case.chance) + changed.log_ratio, changed.shares));
                continue;
            }
            // What is taken back may be what ruled the case out.
            let Some(rest) = holding(&rest, &case.states) else { continue };
            if let Some(answer) = Posterior::of_some(self.net, &rest, wanted)? {
                let mut shares = Vec::new();
                copied(wanted, &answer, &mut shares);
                all.push((answer.log_p_evidence - self.posterior.log_p_evidence, shares));
            }
        }
        self.mixed(&all, wanted).ok_or_else(|| impossible(self.net, &rest))
    }

    /// P(nodes | evidence) as one table; see [`crate::joint`].
    ///
    /// # Errors
    /// As [`crate::joint`].
    pub fn joint(&self, nodes: &[NodeId]) -> Result<Vec<f64>, InferError> {
        let mut tables = Vec::new();
        for case in &self.cases {
            if let Some(tree) = &case.tree {
                tables.push((case.chance, joint(self.net, tree.evidence(), nodes)?));
            }
        }
        let mut sum = vec![0.0; tables.first().map_or(0, |(_, table)| table.len())];
        mix(&mut sum, tables.iter().map(|(chance, table)| (*chance, &table[..])));
        Ok(sum)
    }

    /// Answers of the cases, each with ln of P(case and all that is found) / P(evidence), as one.
    fn mixed(&self, all: &[(f64, Vec<f64>)], wanted: &[NodeId]) -> Option<Changed> {
        let (top, sum) = log_sum(all.iter().map(|(log, _)| *log))?;
        let starts = starts(wanted, &self.posterior);
        let mut shares = vec![0.0; starts[wanted.len()]];
        mix(&mut shares, all.iter().map(|(log, one)| (libm::exp(log - top) / sum, &one[..])));
        Some(Changed { log_ratio: top + libm::log(sum), starts, shares })
    }
}

/// Every node's distribution given the evidence, and P(evidence), case by case: as [`crate::posterior`] to rounding, and
/// the cheaper the more one unobserved node ties together. Cases as for [`Split::new`].
///
/// # Errors
/// As [`crate::posterior`].
pub fn posterior_by_cases(
    net: &Network,
    evidence: &Evidence,
    cases: &[Vec<(NodeId, usize)>],
) -> Result<Posterior, InferError> {
    if cases.is_empty() {
        return crate::posterior(net, evidence);
    }
    evidence.check(net)?;
    let everything: Vec<NodeId> = (0..net.len()).collect();
    let mut parts = Vec::new();
    for states in cases {
        if let Some(all) = holding(evidence, states) {
            parts.extend(Posterior::of_some(net, &all, &everything)?);
        }
    }
    blend(net, evidence, parts.iter())
}

/// Posteriors of the cases that the evidence allows, as one.
fn blend<'p>(
    net: &Network,
    evidence: &Evidence,
    parts: impl Iterator<Item = &'p Posterior> + Clone,
) -> Result<Posterior, InferError> {
    let Some((top, sum)) = log_sum(parts.clone().map(|part| part.log_p_evidence)) else {
        return Err(impossible(net, evidence));
    };
    let mut mixed = Posterior::blank(net, evidence).0;
    mixed.log_p_evidence = top + libm::log(sum);
    mix(&mut mixed.shares, parts.map(|part| (libm::exp(part.log_p_evidence - top) / sum, &part.shares[..])));
    Ok(mixed)
}

/// The evidence with the states of a case; `None` where it saw another state.
fn holding(evidence: &Evidence, states: &[(NodeId, usize)]) -> Option<Evidence> {
    let mut all = evidence.clone();
    for (node, state) in states {
        if all.state(*node).is_some_and(|seen| seen != *state) {
            return None;
        }
        all.observe(*node, *state);
    }
    Some(all)
}

/// The largest of some logarithms, and the sum of all as a multiple of its number; `None` if all are of zero.
fn log_sum(logs: impl Iterator<Item = f64> + Clone) -> Option<(f64, f64)> {
    let top = logs.clone().fold(f64::NEG_INFINITY, libm::fmax);
    (top > f64::NEG_INFINITY).then(|| (top, logs.fold(0.0, |sum, log| sum + libm::exp(log - top))))
}

/// Adds weighed parts.
fn mix<'a>(sum: &mut [f64], parts: impl Iterator<Item = (f64, &'a [f64])>) {
    sum.fill(0.0);
    for (weight, part) in parts {
        sum.iter_mut().zip(part).for_each(|(sum, x)| *sum += weight * x);
    }
}
