//! Several findings at once, or findings taken back: what they say is collected toward the roots and carried
//! outward again.

use alloc::vec;
use alloc::vec::Vec;

use super::Ready;
use crate::kernel::{Axes, combine, sum_into};
use crate::number::Scale;
use crate::{NodeId, Posterior};

/// What comes into one cluster: P(finding | state) up to scale, over a few of its variables.
pub(super) struct Source {
    pub(super) clique: usize,
    /// Variables by position, slowest axis first.
    pub(super) vars: Vec<usize>,
    pub(super) likelihood: Vec<f64>,
}

/// Where something comes in.
#[derive(Clone, Copy, PartialEq)]
enum From {
    Source(usize),
    /// Port of the cluster.
    Border(usize),
}

/// Messages of one question, by border; `None` where nothing is said.
struct Said {
    up: Vec<Option<Vec<f64>>>,
    down: Vec<Option<Vec<f64>>>,
}

/// A question under way.
struct Question<'a> {
    ready: &'a mut Ready,
    sources: &'a [Source],
    /// Sources by cluster.
    at: Vec<Vec<usize>>,
    said: Said,
    strides: Vec<usize>,
}

impl Ready {
    /// Writes the distributions that change into `shares` and returns the probability of what the sources say,
    /// given the evidence; `None` if it is zero.
    pub(super) fn several(
        &mut self,
        sources: &[Source],
        base: &Posterior,
        shares: &mut [f64],
    ) -> Option<Scale> {
        let mut at = vec![Vec::new(); self.tree.cliques.len()];
        sources.iter().enumerate().for_each(|(i, s)| at[s.clique].push(i));
        let none = vec![None; self.tree.borders.len()];
        let said = Said { up: none.clone(), down: none };
        let strides = vec![0; self.sizes.len()];
        let mut question = Question { ready: self, sources, at, said, strides };
        let chance = question.collect()?;
        question.distribute(base, shares);
        Some(chance)
    }
}

impl Question<'_> {
    /// What comes into cluster `k`, but not through port `but`.
    fn incoming(&self, k: usize, up: Option<usize>, but: Option<usize>) -> Vec<From> {
        let borders = self.ready.tree.cliques[k].borders.iter().enumerate().filter(|(port, b)| {
            let said = if Some(**b) == up { &self.said.down } else { &self.said.up };
            Some(*port) != but && said[**b].is_some()
        });
        self.at[k]
            .iter()
            .map(|s| From::Source(*s))
            .chain(borders.map(|(port, _)| From::Border(port)))
            .collect()
    }

    /// Everything toward the roots; the probability of all that is said.
    fn collect(&mut self) -> Option<Scale> {
        let mut chance = Scale::ONE;
        for i in (0..self.ready.tree.order.len()).rev() {
            let (k, up) = self.ready.tree.order[i];
            let incoming = self.incoming(k, up, None);
            if incoming.is_empty() {
                continue;
            }
            let Some(b) = up else {
                let belief = &self.ready.tables[self.ready.tree.cliques[k].table.clone()];
                let before = belief.iter().fold(0.0, |a, x| a + x);
                let after = self.product(k, &incoming).iter().fold(0.0, |a, x| a + x);
                if after <= 0.0 {
                    return None;
                }
                chance.times(after / before, 0);
                continue;
            };
            let port = self.ready.tree.borders[b].sides[0].port;
            let message = self.told(k, &incoming, port);
            let first = message[0];
            if crate::calibrated::passage::speaks(message.as_chunks::<1>().0) {
                self.said.up[b] = Some(message);
            } else if first > 0.0 {
                chance.times(first, 0);
            } else {
                return None;
            }
        }
        Some(chance)
    }

    /// Everything outward again, as far as something is wanted.
    fn distribute(&mut self, base: &Posterior, shares: &mut [f64]) {
        for i in 0..self.ready.tree.order.len() {
            let (k, up) = self.ready.tree.order[i];
            let incoming = self.incoming(k, up, None);
            if incoming.is_empty() {
                continue;
            }
            for port in 0..self.ready.tree.cliques[k].ports() {
                let border = self.ready.tree.cliques[k].borders.get(port).copied();
                let Some(b) = border else {
                    let v = self.ready.tree.vars(k, port)[0];
                    let Some(slot) = self.ready.wanted.slots[v] else { continue };
                    let told = self.told(k, &incoming, port);
                    let before = base.of(self.ready.vars[v]);
                    let total = before.iter().zip(&told).fold(0.0, |a, (p, t)| a + p * t);
                    if total > 0.0 {
                        let out = shares[slot..].iter_mut().zip(before).zip(&told);
                        out.for_each(|((o, p), t)| *o = p * t / total);
                    }
                    continue;
                };
                if Some(b) == up || !self.ready.wanted.ahead[b][0] {
                    continue;
                }
                let others = self.incoming(k, up, Some(port));
                if others.is_empty() {
                    continue;
                }
                let message = self.told(k, &others, port);
                if crate::calibrated::passage::speaks(message.as_chunks::<1>().0) {
                    self.said.down[b] = Some(message);
                }
            }
        }
    }

    /// P(what comes in | state of the port).
    fn told(&mut self, k: usize, incoming: &[From], port: usize) -> Vec<f64> {
        let vars = self.ready.tree.vars(k, port).to_vec();
        let mut out = vec![0.0; vars.iter().map(|v| self.ready.sizes[*v]).product()];
        if let [From::Border(from)] = *incoming {
            let Ready { tree, sizes, tables, passages, .. } = &mut *self.ready;
            let passage = passages.through(tree, tables, sizes, k, [from, port]);
            if let Some(message) = message(tree, &self.said, k, from) {
                passages.carry(passage, message.as_chunks::<1>().0, out.as_chunks_mut::<1>().0);
            }
            return out;
        }
        let product = self.product(k, incoming);
        let axes = self.axes(k, &vars);
        sum_into(&mut out, &axes, &product);
        let mut before = vec![0.0; out.len()];
        sum_into(&mut before, &axes, &self.ready.tables[self.ready.tree.cliques[k].table.clone()]);
        // A state that cannot be is told anything.
        let any = out.iter().zip(&before).find(|(_, b)| **b > 0.0).map_or(0.0, |(o, b)| o / b);
        out.iter_mut().zip(&before).for_each(|(o, b)| *o = if *b > 0.0 { *o / b } else { any });
        out
    }

    /// The belief of a cluster times what comes in.
    fn product(&mut self, k: usize, incoming: &[From]) -> Vec<f64> {
        let mut product = self.ready.tables[self.ready.tree.cliques[k].table.clone()].to_vec();
        for from in incoming {
            let vars = match from {
                From::Source(s) => self.sources[*s].vars.clone(),
                From::Border(port) => self.ready.tree.vars(k, *port).to_vec(),
            };
            let axes = self.axes(k, &vars);
            let small = match from {
                From::Source(s) => Some(&self.sources[*s].likelihood),
                From::Border(port) => message(&self.ready.tree, &self.said, k, *port),
            };
            if let Some(small) = small {
                combine(&mut product, &axes, small, 0, |c, s| c * s);
            }
        }
        product
    }

    /// Axes of cluster `k` with the strides of a table over `vars`.
    fn axes(&mut self, k: usize, vars: &[usize]) -> Axes {
        let sizes = &self.ready.sizes;
        let mut next = 1;
        for v in vars.iter().rev() {
            self.strides[*v] = next;
            next *= sizes[*v];
        }
        let axes = Axes::new(self.ready.tree.cliques[k].scope.iter().map(|v| (sizes[*v], self.strides[*v])));
        vars.iter().for_each(|v| self.strides[*v] = 0);
        axes
    }
}

/// What comes into cluster `k` through a port.
fn message<'a>(tree: &super::tree::Tree, said: &'a Said, k: usize, port: usize) -> Option<&'a Vec<f64>> {
    let b = tree.cliques[k].borders[port];
    let from_child = tree.borders[b].sides[1].clique == k;
    if from_child { said.up[b].as_ref() } else { said.down[b].as_ref() }
}

/// The variables of a likelihood that come as (variable, stride), as a table of its own: slowest axis first,
/// with the place in the source of each of its cells.
pub(super) fn dense(axes: &[(usize, usize)], sizes: &[usize]) -> (Vec<usize>, Vec<usize>) {
    let mut places = vec![0];
    for (v, stride) in axes {
        places = places.iter().flat_map(|at| (0..sizes[*v]).map(move |s| at + s * stride)).collect();
    }
    (axes.iter().map(|(v, _)| *v).collect(), places)
}

/// Every node once.
pub(super) fn distinct(nodes: &[NodeId]) -> Vec<NodeId> {
    let mut nodes = nodes.to_vec();
    nodes.sort_unstable();
    nodes.dedup();
    nodes
}
