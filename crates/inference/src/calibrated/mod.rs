//! One set of findings, many what-ifs: the posteriors, and how they would change with a further finding, with
//! several, or without some of those there are.
//!
//! Observed nodes are sliced out, the rest is eliminated inward and outward once, as for [`posterior`] (the
//! posteriors are the same to the last bit). The clusters that lie in no other form a tree of calibrated
//! beliefs: F. V. Jensen, S. L. Lauritzen, K. G. Olesen, "Bayesian updating in causal probabilistic networks by
//! local computations", Computational Statistics Quarterly 4 (1990) 269-282. A further finding is a likelihood
//! in one of them; what it says elsewhere is an average of it over P(here | there, evidence), so one pass
//! outward is enough, and it ends where nothing changes.

mod passage;
mod several;
mod split;
mod spread;
mod tree;
mod wanted;

use alloc::format;
use alloc::vec;
use alloc::vec::Vec;

use crate::eliminate::{Stop, inward};
use crate::number::{Scale, reach};
use crate::plan::Plan;
use crate::query::{check_wanted, impossible};
use crate::{Evidence, InferError, Network, NodeId, Posterior, posterior};

pub use split::{Split, posterior_by_cases};

use passage::Passages;
use several::{Source, dense, distinct};
use spread::{LANES, Room};
use tree::Tree;
use wanted::{Wanted, starts};

/// Most cells of all tables for which a tree is kept; beyond, every question is asked afresh.
const TREE_LIMIT: usize = 1 << 22;
/// A further finding whose likelihoods lie farther apart than 2^this is asked about afresh.
const FAR: i32 = -300;

/// A network with findings, ready for many what-ifs. One call is a small piece of work (tens of microseconds in
/// a network of 300 nodes), so that a long list of them can be broken off between two calls.
///
/// Answers are exact. Where the tree of plain doubles does not reach (a network too large, findings too far
/// apart, a finding taken back from a node with children or from a table with zeros) the question is answered
/// by an elimination of its own, which takes longer.
pub struct Calibrated<'n> {
    net: &'n Network,
    evidence: Evidence,
    posterior: Posterior,
    ready: Option<Ready>,
    /// Position among the eliminated variables of each node and hidden variable that is free.
    place: Vec<Option<usize>>,
    /// By node.
    removable: Vec<Removable>,
}

/// What the findings on a node say that can be taken back.
struct Removable {
    node: NodeId,
    sources: Vec<Source>,
    /// What they say whatever the free nodes are.
    constant: Scale,
}

/// The tree and what has been laid out on it.
struct Ready {
    tree: Tree,
    /// Node or hidden variable at each position, and its number of states.
    vars: Vec<NodeId>,
    sizes: Vec<usize>,
    /// Beliefs, cluster by cluster, each up to scale.
    tables: Vec<f64>,
    passages: Passages,
    wanted: Wanted,
    room: Room,
}

/// What follows from each state of a node.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// P(state | evidence), in state order.
    pub chances: Vec<f64>,
    starts: Vec<usize>,
    shares: Vec<f64>,
}

impl Given {
    /// The distribution, given the state, of the node that stands at place `index` among the wanted ones; empty if
    /// the state is impossible.
    pub fn of(&self, state: usize, index: usize) -> &[f64] {
        let width = self.starts.last().copied().unwrap_or(0);
        match (self.chances.get(state), self.starts.get(index), self.starts.get(index + 1)) {
            (Some(chance), Some(a), Some(b)) if *chance > 0.0 => &self.shares[state * width..][*a..*b],
            _ => &[],
        }
    }
}

/// What follows from other findings than the evidence.
#[derive(Clone, Debug, PartialEq)]
pub struct Changed {
    /// ln of P(these findings) / P(evidence): for further findings ln P(further | evidence).
    pub log_ratio: f64,
    starts: Vec<usize>,
    shares: Vec<f64>,
}

impl Changed {
    /// The distribution of the node that stands at place `index` among the wanted ones.
    pub fn of(&self, index: usize) -> &[f64] {
        match (self.starts.get(index), self.starts.get(index + 1)) {
            (Some(a), Some(b)) => &self.shares[*a..*b],
            _ => &[],
        }
    }
}

impl<'n> Calibrated<'n> {
    /// Weighs the evidence.
    ///
    /// # Errors
    /// As [`posterior`].
    pub fn new(net: &'n Network, evidence: &Evidence) -> Result<Self, InferError> {
        Self::possible(net, evidence)?.ok_or_else(|| impossible(net, evidence))
    }

    /// The same; `None` if the evidence is impossible.
    fn possible(net: &'n Network, evidence: &Evidence) -> Result<Option<Self>, InferError> {
        evidence.check(net)?;
        let whole = vec![true; net.len()];
        let mut made = Self {
            net,
            evidence: evidence.clone(),
            posterior: Posterior::blank(net, evidence).0,
            ready: None,
            place: vec![None; net.variables()],
            removable: Vec::new(),
        };
        let plan = Plan::new(net, evidence, &whole, &[]).ok().filter(|plan| plan.cells <= TREE_LIMIT);
        match plan.map(|plan| made.weigh(&plan).map(|sure| sure.then_some(plan))) {
            Some(Ok(Some(plan))) => made.lay_out(&plan),
            Some(Ok(None)) => made.ready = None,
            Some(Err(Stop::Zero)) => return Ok(None),
            Some(Err(Stop::Narrow)) | None => match posterior(net, evidence) {
                Err(InferError::Impossible { .. }) => return Ok(None),
                done => made.posterior = done?,
            },
        }
        Ok(Some(made))
    }

    /// Both passes in plain doubles; false if the beliefs will not do for a further finding.
    fn weigh(&mut self, plan: &Plan) -> Result<bool, Stop> {
        let mut pass = inward::<f64>(self.net, plan)?;
        let Posterior { starts, shares, .. } = &mut self.posterior;
        let sure = pass.outward(self.net, plan, |id, found| {
            // Hidden variables have no place.
            if id < self.net.len() {
                shares[starts[id]..starts[id + 1]].copy_from_slice(found);
            }
        });
        self.posterior.log_p_evidence = pass.scale.ln();
        let tree = Tree::new(plan);
        self.ready = Some(Ready {
            passages: Passages::new(&tree),
            room: Room::new(&tree, &plan.sizes),
            tree,
            vars: plan.vars.clone(),
            sizes: plan.sizes.clone(),
            tables: pass.tables,
            wanted: Wanted::default(),
        });
        Ok(sure)
    }

    /// Notes where each node is and what the findings on nodes without children say.
    fn lay_out(&mut self, plan: &Plan) {
        let Some(ready) = &self.ready else { return };
        plan.vars.iter().enumerate().for_each(|(position, v)| self.place[*v] = Some(position));
        let mut has_children = vec![false; self.net.len()];
        self.net.nodes().iter().flat_map(|n| &n.parents).for_each(|p| has_children[*p] = true);
        for node in self.evidence.nodes() {
            let hard = self.evidence.state(node);
            if hard.is_some() && has_children[node] {
                continue;
            }
            let (mut sources, mut constant) = (Vec::new(), Scale::ONE);
            let mut give = |axes: &[(usize, usize)], base: usize, table: &[f64]| match axes.iter().min() {
                None => constant.times(table[base], 0),
                Some((first, _)) => {
                    let (vars, places) = dense(axes, &plan.sizes);
                    let likelihood = places.iter().map(|p| table[base + p]).collect();
                    sources.push(Source { clique: ready.tree.holders[*first], vars, likelihood });
                }
            };
            if let Some(state) = hard {
                // Of a factored family only the last link tells of the finding, unless no cause was at work: then
                // all do.
                for id in [node].into_iter().chain(self.net.hidden(node).filter(|_| state == 0)) {
                    let (axes, base) = plan.slice(self.net, id, &self.place);
                    give(&axes, base, self.net.family(id).table);
                }
            }
            for (_, likelihood) in self.evidence.soft().filter(|(n, _)| *n == node) {
                match self.place[node] {
                    Some(v) => give(&[(v, 1)], 0, likelihood),
                    None => give(&[], hard.unwrap_or(0), likelihood),
                }
            }
            self.removable.push(Removable { node, sources, constant });
        }
    }

    /// The evidence.
    pub fn evidence(&self) -> &Evidence {
        &self.evidence
    }

    /// Every node's distribution given the evidence, and P(evidence); the same as [`posterior`] to the last bit.
    pub fn posterior(&self) -> &Posterior {
        &self.posterior
    }

    /// What follows from each state of `node`, for the `wanted` nodes: for a look whose result is one of the states.
    /// Asking about the same wanted nodes again and again is cheapest.
    ///
    /// # Errors
    /// [`InferError::BadEvidence`] for a node that is not in the network; what [`posterior`] gives otherwise.
    pub fn given(&mut self, node: NodeId, wanted: &[NodeId]) -> Result<Given, InferError> {
        check_wanted(self.net, &[node])?;
        check_wanted(self.net, wanted)?;
        let chances = self.posterior.of(node).to_vec();
        let starts = starts(wanted, &self.posterior);
        let width = starts[wanted.len()];
        let mut shares = Vec::with_capacity(width * chances.len());
        chances.iter().for_each(|_| wanted::copied(wanted, &self.posterior, &mut shares));
        let mut given = Given { chances, starts, shares };
        let states = given.chances.len();
        let place = self.place[node];
        if let (Some(ready), Some(v)) = (&mut self.ready, place) {
            ready.wanted.renew(wanted, &self.posterior, &ready.tree, &self.place);
            let home = ready.tree.homes[v];
            let mut seed = vec![0.0; states * LANES];
            let mut at = 0;
            while at < states {
                let lanes = (states - at).min(LANES);
                let wide = if lanes == 3 { 4 } else { lanes };
                seed.fill(0.0);
                (0..lanes).for_each(|lane| seed[(at + lane) * wide + lane] = 1.0);
                let (seed, shares) = (&seed[..states * wide], &mut given.shares[at * width..]);
                match wide {
                    1 => ready.spread::<1>(home, seed, &self.posterior, shares),
                    2 => ready.spread::<2>(home, seed, &self.posterior, shares),
                    _ => ready.spread::<4>(home, seed, &self.posterior, shares),
                }
                at += lanes;
            }
            if width > 0 {
                given.shares.chunks_exact_mut(width).for_each(|s| ready.wanted.repeat(s, &self.posterior));
            }
        }
        // States too unlikely for plain doubles, or no tree at all.
        for state in 0..states {
            let chance = given.chances[state];
            let sure = self.evidence.state(node).is_some() || states == 1;
            if sure || (self.ready.is_some() && (chance == 0.0 || chance > libm::scalbn(1.0, FAR))) {
                continue;
            }
            let mut ev = self.evidence.clone();
            ev.observe(node, state);
            match Posterior::of_some(self.net, &ev, wanted)? {
                Some(answer) => {
                    let log_ratio = answer.log_p_evidence - self.posterior.log_p_evidence;
                    // Possible, if only just.
                    given.chances[state] = chance.max(libm::exp(log_ratio)).max(f64::MIN_POSITIVE);
                    let places = given.starts.windows(2).map(|w| state * width + w[0]..state * width + w[1]);
                    for (node, place) in wanted.iter().zip(places) {
                        given.shares[place].copy_from_slice(answer.of(*node));
                    }
                }
                None => given.chances[state] = 0.0,
            }
        }
        Ok(given)
    }

    /// What follows for the `wanted` nodes from further findings, each a likelihood over the states of a node
    /// (one for the state seen and zero for the others, if a state has been seen); several on one node multiply.
    ///
    /// # Errors
    /// As [`posterior`] with all findings.
    pub fn with(&mut self, findings: &[(NodeId, &[f64])], wanted: &[NodeId]) -> Result<Changed, InferError> {
        check_wanted(self.net, wanted)?;
        let mut all = self.evidence.clone();
        let mut further = Evidence::new();
        for (node, likelihood) in findings {
            all.likelihood(*node, likelihood.to_vec());
            further.likelihood(*node, likelihood.to_vec());
        }
        further.check(self.net)?;
        let Some(ready) = &mut self.ready else { return self.afresh(&all, wanted) };
        let (mut sources, mut scale, mut floor): (Vec<Source>, Scale, i32) = (Vec::new(), Scale::ONE, 0);
        for (node, likelihood) in further.soft() {
            let Some(v) = self.place[node] else {
                let said = self.posterior.of(node).iter().zip(likelihood).fold(0.0, |a, (p, l)| a + p * l);
                if said <= 0.0 {
                    return Err(impossible(self.net, &all));
                }
                scale.times(said, 0);
                continue;
            };
            let Some((top, low)) = reach(likelihood) else { return Err(impossible(self.net, &all)) };
            floor += low - top - 1;
            scale.times(1.0, i64::from(top));
            let (a, b) = (libm::scalbn(1.0, -top / 2), libm::scalbn(1.0, -top - (-top / 2)));
            let likelihood = likelihood.iter().map(|l| l * a * b).collect();
            sources.push(Source { clique: ready.tree.homes[v].clique, vars: vec![v], likelihood });
        }
        if floor < FAR {
            return self.afresh(&all, wanted);
        }
        self.changed(&sources, scale, wanted).ok_or_else(|| impossible(self.net, &all))
    }

    /// What would follow for the `wanted` nodes without any finding on `nodes`.
    ///
    /// # Errors
    /// As [`posterior`]; a node without a finding is [`InferError::BadEvidence`].
    pub fn without(&mut self, nodes: &[NodeId], wanted: &[NodeId]) -> Result<Changed, InferError> {
        check_wanted(self.net, nodes)?;
        check_wanted(self.net, wanted)?;
        let nodes = distinct(nodes);
        check_found(self.net, &self.evidence, &nodes)?;
        let mut rest = self.evidence.clone();
        nodes.iter().for_each(|n| rest.forget(*n));
        // An observed node has no place in the tree to be read from.
        let sliced = |n: &NodeId| self.place[*n].is_none() && wanted.contains(n);
        let Some((sources, scale)) = self.taken_back(&nodes).filter(|_| !nodes.iter().any(sliced)) else {
            return self.afresh(&rest, wanted);
        };
        match self.changed(&sources, scale, wanted) {
            Some(changed) => Ok(changed),
            None => self.afresh(&rest, wanted),
        }
    }

    /// One over what the findings on some nodes say. `None` if that cannot be said.
    fn taken_back(&self, nodes: &[NodeId]) -> Option<(Vec<Source>, Scale)> {
        self.ready.as_ref()?;
        let (mut sources, mut scale, mut floor) = (Vec::new(), Scale::ONE, 0);
        for node in nodes {
            let at = self.removable.binary_search_by_key(node, |r| r.node).ok()?;
            let (m, e) = self.removable[at].constant.parts();
            scale.times(1.0 / m, -e);
            for source in &self.removable[at].sources {
                let least = source.likelihood.iter().fold(f64::INFINITY, |a, x| if *x < a { *x } else { a });
                let (top, low) = reach(&source.likelihood).filter(|_| least > 0.0)?;
                floor += low - top - 1;
                if floor < FAR {
                    return None;
                }
                let (m, e) = libm::frexp(least);
                scale.times(1.0 / m, -i64::from(e));
                let likelihood = source.likelihood.iter().map(|l| least / l).collect();
                sources.push(Source { clique: source.clique, vars: source.vars.clone(), likelihood });
            }
        }
        Some((sources, scale))
    }

    /// Distributions with these further likelihoods; `None` if they are impossible.
    fn changed(&mut self, sources: &[Source], mut scale: Scale, wanted: &[NodeId]) -> Option<Changed> {
        let ready = self.ready.as_mut()?;
        ready.wanted.renew(wanted, &self.posterior, &ready.tree, &self.place);
        let mut shares = Vec::with_capacity(ready.wanted.width());
        wanted::copied(wanted, &self.posterior, &mut shares);
        let (m, e) = ready.several(sources, &self.posterior, &mut shares)?.parts();
        scale.times(m, e);
        ready.wanted.repeat(&mut shares, &self.posterior);
        Some(Changed { log_ratio: scale.ln(), starts: starts(wanted, &self.posterior), shares })
    }

    /// An elimination of its own.
    fn afresh(&self, ev: &Evidence, wanted: &[NodeId]) -> Result<Changed, InferError> {
        let answer = Posterior::of_some(self.net, ev, wanted)?.ok_or_else(|| impossible(self.net, ev))?;
        let mut shares = Vec::new();
        wanted::copied(wanted, &answer, &mut shares);
        let log_ratio = answer.log_p_evidence - self.posterior.log_p_evidence;
        Ok(Changed { log_ratio, starts: starts(wanted, &answer), shares })
    }
}

/// Checks that there is a finding on each of some nodes.
fn check_found(net: &Network, evidence: &Evidence, nodes: &[NodeId]) -> Result<(), InferError> {
    let found = evidence.nodes();
    match nodes.iter().find(|n| found.binary_search(n).is_err()) {
        Some(node) => {
            let reason = format!("(\"{}\") is to be left out, but there is none", net.nodes()[*node].name);
            Err(InferError::BadEvidence { node: *node, reason })
        }
        None => Ok(()),
    }
}
