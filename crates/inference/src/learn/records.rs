//! Records, grouped and prepared once, and the expectation step over them.
//!
//! Identical records share one propagation with their weights added up. What does not change between steps, above
//! all the order of elimination, is worked out once per distinct record and kept. One inward and one outward pass
//! then leave in every cluster the joint of its variables and the record; every family lies inside the cluster of
//! whichever of its free members goes first.

use alloc::collections::BTreeMap;
use alloc::format;
use alloc::vec;
use alloc::vec::Vec;

use super::{Counts, LearnError};
use crate::eliminate::{Stop, inward};
use crate::kernel::{Axes, sum_into};
use crate::number::{Number, ROOM, Scale, Wide, reach};
use crate::plan::Plan;
use crate::query::impossible;
use crate::{Evidence, InferError, Network, NodeId};

/// Weighted records, ready for expectation steps on networks of one shape. Takes memory in proportion to distinct
/// records times nodes.
pub struct Records {
    /// Per node: number of states, parents.
    shape: Vec<(usize, Vec<NodeId>)>,
    distinct: Vec<Distinct>,
}

struct Distinct {
    /// Place of the first such record in the list.
    first: usize,
    weight: f64,
    evidence: Evidence,
    plan: Plan,
    /// What soft findings contribute whatever the tables are; `None` if zero.
    factor: Option<Scale>,
    /// (node, cell of its table) of families without a free member.
    settled: Vec<(NodeId, usize)>,
    families: Vec<Family>,
}

/// A family with free members.
struct Family {
    node: NodeId,
    cluster: usize,
    /// Cell of the table where all free members are in their first state.
    base: usize,
    /// (variable by position, stride in the table).
    axes: Vec<(usize, usize)>,
}

impl Records {
    /// Groups and prepares (record, weight) pairs. Records of weight zero are left out.
    ///
    /// # Errors
    /// A family kept factored, a weight that is negative or not finite, findings that do not fit the network, a
    /// network too large for one exact propagation.
    pub fn new(
        net: &Network,
        records: impl IntoIterator<Item = (Evidence, f64)>,
    ) -> Result<Self, LearnError> {
        all_tables(net)?;
        let mut groups: Vec<(usize, Evidence, f64)> = Vec::new();
        let mut known: BTreeMap<Vec<u64>, usize> = BTreeMap::new();
        for (record, (evidence, weight)) in records.into_iter().enumerate() {
            if !weight.is_finite() || weight < 0.0 {
                let what = format!("the weight of record {}", record + 1);
                return Err(LearnError::Amount { what, value: weight });
            }
            evidence.check(net).map_err(|cause| LearnError::Record { record, cause })?;
            if weight == 0.0 {
                continue;
            }
            match known.get(&key(&evidence)) {
                Some(group) => groups[*group].2 += weight,
                None => {
                    known.insert(key(&evidence), groups.len());
                    groups.push((record, evidence, weight));
                }
            }
        }
        let distinct = groups.into_iter().map(|(first, evidence, weight)| {
            Distinct::new(net, first, evidence, weight)
                .map_err(|cause| LearnError::Record { record: first, cause })
        });
        Ok(Self { shape: shape(net).collect(), distinct: distinct.collect::<Result<_, _>>()? })
    }

    /// How many propagations one expectation step takes: distinct records above weight zero.
    pub fn distinct(&self) -> usize {
        self.distinct.len()
    }

    /// The expectation step: expected counts of every family, and the log likelihood, under `net`.
    ///
    /// # Errors
    /// A network of another shape than the records were prepared for, or with a family kept factored; a record that
    /// is impossible under it.
    pub fn expect(&mut self, net: &Network) -> Result<Counts, LearnError> {
        let now: Vec<(usize, Vec<NodeId>)> = shape(net).collect();
        if now != self.shape {
            let at = now.iter().zip(&self.shape).position(|(a, b)| a != b).unwrap_or(self.shape.len());
            let node = net.nodes().get(at).map_or_else(Default::default, |n| n.name.clone());
            return Err(LearnError::Shape { node });
        }
        all_tables(net)?;
        let mut counts = Counts::zero(net);
        for record in &mut self.distinct {
            let ln = record.expect(net, &mut counts.tables).ok_or_else(|| LearnError::Record {
                record: record.first,
                cause: impossible(net, &record.evidence),
            })?;
            counts.log_likelihood += record.weight * ln;
            counts.weight += record.weight;
        }
        Ok(counts)
    }
}

fn all_tables(net: &Network) -> Result<(), LearnError> {
    match net.noisy.keys().next() {
        Some(id) => Err(LearnError::Factored { node: net.nodes()[*id].name.clone() }),
        None => Ok(()),
    }
}

fn shape(net: &Network) -> impl Iterator<Item = (usize, Vec<NodeId>)> + '_ {
    net.nodes().iter().map(|n| (n.states.len(), n.parents.clone()))
}

/// Two records have one key exactly if they hold the same findings.
fn key(evidence: &Evidence) -> Vec<u64> {
    let mut key: Vec<u64> = evidence.hard().flat_map(|(n, s)| [n as u64, s as u64]).collect();
    key.push(u64::MAX);
    for (node, likelihood) in evidence.soft() {
        key.push(node as u64);
        key.extend(likelihood.iter().map(|x| x.to_bits()));
    }
    key
}

impl Distinct {
    fn new(net: &Network, first: usize, evidence: Evidence, weight: f64) -> Result<Self, InferError> {
        let (bare, factor) = without_scale(net, &evidence);
        let plan = Plan::new(net, &bare, &vec![true; net.len()], &[])?;
        let mut place = vec![0; net.len()];
        plan.vars.iter().enumerate().for_each(|(k, n)| place[*n] = k);
        let (mut settled, mut families) = (Vec::new(), Vec::new());
        for (id, node) in net.nodes().iter().enumerate() {
            let (mut stride, mut base, mut axes) = (1, 0, Vec::new());
            for member in [id].iter().chain(node.parents.iter().rev()) {
                match plan.fixed[*member] {
                    Some(state) => base += state * stride,
                    None => axes.push((place[*member], stride)),
                }
                stride *= net.nodes()[*member].states.len();
            }
            match axes.iter().map(|(v, _)| *v).min() {
                Some(cluster) => families.push(Family { node: id, cluster, base, axes }),
                None => settled.push((id, base)),
            }
        }
        Ok(Self { first, weight, evidence, plan, factor, settled, families })
    }

    /// Adds this record's counts to the tables and returns ln P(record); `None`, with nothing added, if the
    /// record is impossible.
    fn expect(&mut self, net: &Network, tables: &mut [Vec<f64>]) -> Option<f64> {
        // The plan's numbers that depend on the tables.
        let mut scale = self.factor?;
        for (node, cell) in &self.settled {
            match net.nodes()[*node].cpt[*cell] {
                x if x > 0.0 => scale.times(x, 0),
                _ => return None,
            }
        }
        self.plan.scale = Some(scale);
        self.plan.renew_floors(net);
        let scale = match self.families::<f64>(net, tables) {
            Err(Stop::Narrow) => self.families::<Wide>(net, tables),
            done => done,
        };
        let scale = scale.ok()?;
        self.settled.iter().for_each(|(node, cell)| tables[*node][*cell] += self.weight);
        Some(scale.ln())
    }

    fn families<N: Number>(&self, net: &Network, tables: &mut [Vec<f64>]) -> Result<Scale, Stop> {
        let plan = &self.plan;
        let mut pass = inward::<N>(net, plan)?;
        pass.outward(net, plan, |_, _| {});
        let (mut strides, mut sums) = (vec![0; plan.vars.len()], Vec::new());
        for family in &self.families {
            let cluster = &plan.clusters[family.cluster];
            family.axes.iter().for_each(|(v, stride)| strides[*v] = *stride);
            let axes = Axes::new(cluster.scope.iter().map(|v| (plan.sizes[*v], strides[*v])));
            family.axes.iter().for_each(|(v, _)| strides[*v] = 0);
            let reach: usize = family.axes.iter().map(|(v, stride)| (plan.sizes[*v] - 1) * stride).sum();
            sums.clear();
            sums.resize(reach + 1, N::ZERO);
            sum_into(&mut sums, &axes, &pass.tables[cluster.offset..cluster.offset + cluster.cells]);
            let total = sums.iter().fold(N::ZERO, |a, x| a.plus(*x));
            for (cell, sum) in tables[family.node][family.base..].iter_mut().zip(&sums) {
                *cell += self.weight * sum.share(total);
            }
        }
        Ok(pass.scale)
    }
}

/// The same record with soft findings on settled nodes taken out and ordinary ones brought near 1 by a power of
/// two, and what that takes out of P(record): a number that no table changes. `None` if it is zero.
fn without_scale(net: &Network, evidence: &Evidence) -> (Evidence, Option<Scale>) {
    let (mut bare, mut factor) = (Evidence::new(), Some(Scale::ONE));
    evidence.hard().for_each(|(node, state)| bare.observe(node, state));
    for (node, likelihood) in evidence.soft() {
        let single = (net.nodes()[node].states.len() == 1).then_some(0);
        if let Some(state) = evidence.state(node).or(single) {
            match &mut factor {
                Some(scale) if likelihood[state] > 0.0 => scale.times(likelihood[state], 0),
                _ => factor = None,
            }
            continue;
        }
        match reach(likelihood) {
            Some((top, low)) if low - top > ROOM => {
                bare.likelihood(node, likelihood.iter().map(|x| libm::scalbn(*x, -top)).collect());
                if let Some(scale) = &mut factor {
                    scale.times(1.0, i64::from(top));
                }
            }
            _ => bare.likelihood(node, likelihood.to_vec()),
        }
    }
    (bare, factor)
}

impl Plan {
    /// Takes over the smallest entries of new tables.
    fn renew_floors(&mut self, net: &Network) {
        for factor in &mut self.factors {
            if let crate::plan::Source::Table(id) = factor.source {
                factor.floor = net.floor(id) - 1;
            }
        }
    }
}
