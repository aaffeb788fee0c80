//! The arithmetic of belief: an inward pass over the buckets that yields P(evidence), an outward pass that
//! yields every marginal.
//!
//! Inward, each bucket multiplies what lies in it, sums its own variable out and hands the rest to the
//! bucket of the next variable, scaled by a power of two that is kept aside. Outward, each bucket receives
//! its parent's belief divided by what it had sent there (0 / 0 counts as 0, as the product it stands for
//! is 0) and so holds the joint probability of its variables and the evidence, up to scale.

use alloc::vec;
use alloc::vec::Vec;

use crate::kernel::{Axes, combine, sum_into};
use crate::number::{Number, ROOM, Scale};
use crate::plan::{Plan, Source};
use crate::{Network, NodeId};

/// Beliefs above 2^this relative to their largest are full doubles.
const DEEPEST: i32 = -1000;

/// Why a pass broke off.
pub(crate) enum Stop {
    /// Entries of one table lie too far apart for plain doubles.
    Narrow,
    /// The evidence has probability zero.
    Zero,
}

/// What the inward pass leaves behind.
pub(crate) struct Pass<N> {
    /// Product in every bucket, one after the other; beliefs after the outward pass.
    pub(crate) tables: Vec<N>,
    messages: Vec<N>,
    floors: Vec<i32>,
    /// No entry above zero of a product is below 2^floor.
    product_floors: Vec<i32>,
    /// P(evidence).
    pub(crate) scale: Scale,
}

/// A table being multiplied together.
struct Product<'t, N> {
    table: &'t mut [N],
    empty: bool,
    floor: i32,
    shift: i64,
}

impl<'t, N: Number> Product<'t, N> {
    fn new(table: &'t mut [N]) -> Self {
        Self { table, empty: true, floor: 0, shift: 0 }
    }

    fn take<S: Copy>(
        &mut self,
        axes: &Axes,
        small: &[S],
        base: usize,
        floor: i32,
        number: impl Fn(S) -> N,
    ) -> Result<(), Stop> {
        if N::NARROW && self.floor + floor < ROOM {
            // The bound is used up; look at what is really there before giving in.
            if !self.empty {
                let spread = N::rescale(self.table).ok_or(Stop::Zero)?;
                self.shift += spread.shift;
                self.floor = spread.floor - 1;
            }
            if self.floor + floor < ROOM {
                return Err(Stop::Narrow);
            }
        }
        if self.empty {
            combine(self.table, axes, small, base, |_, s| number(s));
        } else {
            combine(self.table, axes, small, base, |c, s| c.times(number(s)));
        }
        self.empty = false;
        self.floor += floor;
        Ok(())
    }
}

/// Multiplies factors and messages into a table whose axes are `scope`.
struct Gather<'a> {
    net: &'a Network,
    plan: &'a Plan,
    strides: Vec<usize>,
}

impl Gather<'_> {
    /// Axes of a table over `scope` with the strides of a table over `other`.
    fn axes(&mut self, scope: &[usize], other: impl Iterator<Item = (usize, usize)> + Clone) -> Axes {
        other.clone().for_each(|(v, stride)| self.strides[v] = stride);
        let axes = Axes::new(scope.iter().map(|v| (self.plan.sizes[*v], self.strides[*v])));
        other.for_each(|(v, _)| self.strides[v] = 0);
        axes
    }

    /// Axes of a table over `scope` with the strides of the message of cluster `k`.
    fn message_axes(&mut self, scope: &[usize], k: usize) -> Axes {
        let plan = self.plan;
        let separator = plan.clusters[k].scope.iter().rev().skip(1);
        let mut next = 1;
        let strides: Vec<(usize, usize)> = separator
            .map(|v| {
                let stride = next;
                next *= plan.sizes[*v];
                (*v, stride)
            })
            .collect();
        self.axes(scope, strides.into_iter())
    }

    fn fill<N: Number>(
        &mut self,
        product: &mut Product<'_, N>,
        scope: &[usize],
        factors: &[usize],
        children: &[usize],
        messages: &[N],
        floors: &[i32],
    ) -> Result<(), Stop> {
        for f in factors {
            let factor = &self.plan.factors[*f];
            let axes = self.axes(scope, factor.axes.iter().copied());
            let numbers = match &factor.source {
                Source::Table(id) => self.net.family(*id).table,
                Source::Soft(likelihood) => likelihood,
            };
            product.take(&axes, numbers, factor.base, factor.floor, N::from_f64)?;
        }
        for c in children.iter().filter(|c| !self.plan.clusters[**c].unit) {
            let axes = self.message_axes(scope, *c);
            product.take(&axes, &messages[self.plan.clusters[*c].message..], 0, floors[*c], |x| x)?;
        }
        if product.empty {
            product.table.fill(N::ONE);
        }
        Ok(())
    }
}

/// Eliminates every variable that has a cluster.
pub(crate) fn inward<N: Number>(net: &Network, plan: &Plan) -> Result<Pass<N>, Stop> {
    let mut tables = vec![N::ZERO; plan.cells];
    let mut messages = vec![N::ZERO; plan.message_cells];
    let mut floors = vec![0; plan.clusters.len()];
    let mut product_floors = vec![0; plan.clusters.len()];
    let mut scale = plan.scale.ok_or(Stop::Zero)?;
    let mut gather = Gather { net, plan, strides: vec![0; plan.vars.len()] };
    for (k, cluster) in plan.clusters.iter().enumerate() {
        let mut product = Product::new(&mut tables[cluster.offset..cluster.offset + cluster.cells]);
        gather.fill(&mut product, &cluster.scope, &cluster.factors, &cluster.children, &messages, &floors)?;
        product_floors[k] = product.floor;
        if cluster.unit {
            continue;
        }
        scale.times(1.0, product.shift);
        let size = plan.sizes[k];
        let message = &mut messages[cluster.message..cluster.message + cluster.cells / size];
        for (m, run) in message.iter_mut().zip(product.table.chunks_exact(size)) {
            *m = run.iter().fold(N::ZERO, |a, x| a.plus(*x));
        }
        let spread = N::rescale(message).ok_or(Stop::Zero)?;
        scale.times(1.0, spread.shift);
        floors[k] = spread.floor - 1;
        if cluster.parent.is_none() {
            let (m, e) = message[0].parts();
            scale.times(m, e);
        }
    }
    Ok(Pass { tables, messages, floors, product_floors, scale })
}

impl<N: Number> Pass<N> {
    /// The table over `scope`, kept variables in any order, left once everything else is eliminated;
    /// with P(evidence) up to what this table sums to in `self.scale`.
    pub(crate) fn last(&self, net: &Network, plan: &Plan, scope: &[usize]) -> Result<Vec<N>, Stop> {
        let mut table = vec![N::ZERO; scope.iter().map(|v| plan.sizes[*v]).product()];
        let mut gather = Gather { net, plan, strides: vec![0; plan.vars.len()] };
        let mut product = Product::new(&mut table);
        gather.fill(
            &mut product,
            scope,
            &plan.last_factors,
            &plan.last_children,
            &self.messages,
            &self.floors,
        )?;
        N::rescale(&mut table).ok_or(Stop::Zero)?;
        Ok(table)
    }

    /// Turns every bucket into the belief over its variables and reports each variable's distribution.
    /// Returns true if every zero of a belief is a true one; a double may else have fallen to zero, too small to
    /// matter for these distributions but not for what follows from a further finding.
    pub(crate) fn outward(
        &mut self,
        net: &Network,
        plan: &Plan,
        mut report: impl FnMut(NodeId, &[f64]),
    ) -> bool {
        let mut sure = true;
        let mut gather = Gather { net, plan, strides: vec![0; plan.vars.len()] };
        let (mut down, mut own, mut shares) = (Vec::new(), Vec::new(), Vec::new());
        for (k, cluster) in plan.clusters.iter().enumerate().rev() {
            let size = plan.sizes[k];
            let (left, right) = self.tables.split_at_mut(cluster.offset + cluster.cells);
            let belief = &mut left[cluster.offset..];
            if let Some(p) = cluster.parent {
                let parent = &plan.clusters[p];
                let start = parent.offset - (cluster.offset + cluster.cells);
                let axes = gather.message_axes(&parent.scope, k);
                down.clear();
                down.resize(cluster.cells / size, N::ZERO);
                sum_into(&mut down, &axes, &right[start..start + parent.cells]);
                if !cluster.unit {
                    let sent = &self.messages[cluster.message..cluster.message + down.len()];
                    down.iter_mut().zip(sent).for_each(|(d, m)| *d = d.over(*m));
                }
                // Never all zero: the evidence is possible.
                let floor = N::rescale(&mut down).map_or(0, |spread| spread.floor);
                sure &= !N::NARROW || self.product_floors[k] + floor > DEEPEST;
                for (d, run) in down.iter().zip(belief.chunks_exact_mut(size)) {
                    run.iter_mut().for_each(|x| *x = x.times(*d));
                }
            }
            N::rescale(belief);
            own.clear();
            own.resize(size, N::ZERO);
            for run in belief.chunks_exact(size) {
                own.iter_mut().zip(run).for_each(|(a, x): (&mut N, &N)| *a = a.plus(*x));
            }
            let total = own.iter().fold(N::ZERO, |a, x| a.plus(*x));
            shares.clear();
            shares.extend(own.iter().map(|x| x.share(total)));
            report(plan.vars[k], &shares);
        }
        sure
    }
}
