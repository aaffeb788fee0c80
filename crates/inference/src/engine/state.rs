//! Messages under one set of findings, and which of them are out of date.
//!
//! Inward, a cluster multiplies its potential by the findings that enter there and by what its children
//! say, and sums that down to what it shares with its parent. Outward, a cluster receives its parent's
//! belief without what it said itself (divided out; 0 / 0 counts as 0, and such a quotient is remembered as
//! good for these zeros only). Inward messages have their largest entry near 1; what was taken out counts into
//! P(evidence). A message whose entries are all 1 is not multiplied at all, so that what carries no findings
//! and is not asked for costs nothing.

use alloc::vec;
use alloc::vec::Vec;

use super::tree::Tree;
use crate::number::{Number, ROOM, Scale, reach};

/// Why arithmetic in plain doubles broke off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Halt {
    /// Entries of one table lie too far apart.
    Narrow,
    /// The findings have probability zero.
    Zero,
}

/// A message or a total this close to one is one: sums of a table's rows differ from it by rounding.
const ONE: f64 = 1e-14;
/// An outward message is brought near 1 if its largest entry is below this.
const LOW: f64 = 1e-30;
/// A quotient by entries below 2^this is not kept once they change.
const QUOTIENT_ROOM: i32 = -300;

/// What findings say of one node.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Said {
    /// There is something.
    pub(crate) any: bool,
    /// Taken out of the likelihoods, as m · 2^e; `None` if they rule out every state.
    pub(crate) scale: Option<(f64, i64)>,
    /// No likelihood above zero is below 2^floor.
    pub(crate) floor: i32,
}

impl Said {
    pub(crate) const NOTHING: Self = Self { any: false, scale: Some((1.0, 0)), floor: 0 };
}

#[derive(Clone, Copy, Debug)]
struct Status {
    /// The product of potential, findings and children is out of date.
    product_stale: bool,
    /// The product lies here; else with the engine.
    product_here: bool,
    /// The inward message lies here; else with the engine.
    up_here: bool,
    /// The outward message lies here; else with the engine.
    down_here: bool,
    /// What the parent says is out of date.
    down_stale: bool,
    /// What was said by the parent is good only while the zeros of the inward message stay.
    down_partial: bool,
    /// The belief has changed since distributions were read.
    read_stale: bool,
    /// The inward message is all ones.
    unit: bool,
    /// No entry above zero of the inward message is below 2^floor.
    floor: i32,
    /// Entries above zero of the inward message.
    above: usize,
    /// Taken out of the inward message, as m · 2^e.
    scale: (f64, i64),
}

/// See the module head.
#[derive(Clone, Debug)]
pub(crate) struct State {
    status: Vec<Status>,
    products: Vec<f64>,
    up: Vec<f64>,
    down: Vec<f64>,
    /// Likelihood per state, largest 1, node after node.
    pub(crate) likelihood: Vec<f64>,
    pub(crate) said: Vec<Said>,
    belief: Vec<f64>,
    sums: Vec<f64>,
}

/// What stays the same for every state of one engine.
#[derive(Clone, Copy)]
pub(crate) struct Ground<'a> {
    pub(crate) tree: &'a Tree,
    /// Start of each node's states among `shares` and `likelihood`.
    pub(crate) starts: &'a [usize],
    /// State and products without findings; none while they are being made.
    pub(crate) prior: Option<&'a State>,
}

impl State {
    /// Nothing computed yet.
    pub(crate) fn new(ground: Ground<'_>) -> Self {
        let Ground { tree, starts, .. } = ground;
        let fresh = Status {
            product_stale: true,
            product_here: true,
            up_here: true,
            down_here: true,
            down_stale: true,
            down_partial: false,
            read_stale: true,
            unit: false,
            floor: 0,
            above: 0,
            scale: (1.0, 0),
        };
        let largest = tree.clusters.iter().map(|c| c.cells.len()).max().unwrap_or(0);
        let border = tree.clusters.iter().map(|c| c.shared.len()).max().unwrap_or(0);
        let states = starts.windows(2).map(|w| w[1] - w[0]).max().unwrap_or(0);
        Self {
            status: vec![fresh; tree.clusters.len()],
            products: vec![0.0; tree.potentials.len()],
            up: vec![0.0; tree.message_cells],
            down: vec![0.0; tree.message_cells],
            likelihood: vec![1.0; starts.last().copied().unwrap_or(0)],
            said: vec![Said::NOTHING; starts.len().saturating_sub(1)],
            belief: vec![0.0; largest],
            sums: vec![0.0; border.max(states)],
        }
    }

    /// A state without findings that borrows this one's tables.
    pub(crate) fn fork(&self) -> Self {
        let mut status = self.status.clone();
        for s in &mut status {
            (s.product_here, s.up_here, s.down_here) = (false, false, false);
        }
        Self {
            status,
            products: vec![0.0; self.products.len()],
            up: vec![0.0; self.up.len()],
            down: vec![0.0; self.down.len()],
            likelihood: self.likelihood.clone(),
            said: self.said.clone(),
            belief: vec![0.0; self.belief.len()],
            sums: vec![0.0; self.sums.len()],
        }
    }

    /// To be called when the likelihoods of a node have changed.
    pub(crate) fn touch(&mut self, ground: Ground<'_>, node: usize) {
        if let Some(home) = ground.tree.home[node] {
            self.status[home].product_stale = true;
            self.outdate(ground, home, None);
        }
    }

    /// The product of cluster `k` changes, by what child `but` says or by findings: all other children must
    /// hear of it.
    fn outdate(&mut self, ground: Ground<'_>, k: usize, but: Option<usize>) {
        self.status[k].read_stale = true;
        for child in &ground.tree.clusters[k].children {
            if Some(*child) != but {
                self.status[*child].down_stale = true;
            }
        }
    }

    /// Brings every inward message up to date.
    pub(crate) fn collect(&mut self, ground: Ground<'_>) -> Result<(), Halt> {
        if self.said.iter().any(|s| s.scale.is_none()) {
            return Err(Halt::Zero);
        }
        for k in (0..self.status.len()).rev() {
            if !self.status[k].product_stale {
                continue;
            }
            let changed = self.inward(ground, k)?;
            self.status[k].product_stale = false;
            self.status[k].read_stale = true;
            if changed {
                if self.status[k].down_partial {
                    self.status[k].down_stale = true;
                }
                if let Some(parent) = ground.tree.clusters[k].parent {
                    self.status[parent].product_stale = true;
                    self.outdate(ground, parent, Some(k));
                }
            }
        }
        Ok(())
    }

    /// Computes the product and the inward message of cluster `k`; true if the message is not what it was.
    fn inward(&mut self, ground: Ground<'_>, k: usize) -> Result<bool, Halt> {
        let cluster = &ground.tree.clusters[k];
        let potential = &ground.tree.potentials[cluster.cells.clone()];
        let product = &mut self.products[cluster.cells.clone()];
        let (mut floor, mut shift, mut empty) = (cluster.floor, 0i64, true);
        let findings = cluster.findings.iter().filter(|p| self.said[p.var].any).map(|p| {
            let likelihood = &self.likelihood[ground.starts[p.var]..ground.starts[p.var + 1]];
            (&p.map, likelihood, self.said[p.var].floor)
        });
        let children = cluster.children.iter().filter(|c| !self.status[**c].unit).filter_map(|c| {
            let child = &ground.tree.clusters[*c];
            Some((child.down.as_ref()?, up(ground, &self.status, &self.up, *c), self.status[*c].floor))
        });
        for (map, small, low) in findings.chain(children) {
            if floor + low < ROOM {
                // The bound is used up; look at what is really there before giving in.
                if empty {
                    product.copy_from_slice(potential);
                    empty = false;
                }
                let spread = <f64 as Number>::rescale(product).ok_or(Halt::Zero)?;
                shift += spread.shift;
                floor = spread.floor - 1;
                if floor + low < ROOM {
                    return Err(Halt::Narrow);
                }
            }
            if empty {
                map.product(product, potential, small);
            } else {
                map.multiply(product, small);
            }
            empty = false;
            floor += low;
        }
        if empty {
            product.copy_from_slice(potential);
        }
        let sums = &mut self.sums[..cluster.shared.len()];
        cluster.up.sum(sums, product);
        let top = largest(sums);
        if top == 0.0 {
            return Err(Halt::Zero);
        }
        let close = |x: f64| (x - 1.0).abs() <= ONE;
        let above = sums.iter().filter(|x| **x > 0.0).count();
        let all =
            if ground.tree.pruned { ground.prior.map_or(above, |p| p.status[k].above) } else { sums.len() };
        let unit = above == all && sums.iter().all(|x| *x == 0.0 || close(*x / top));
        let scale = if unit || above == 1 {
            sums.iter_mut().filter(|x| **x > 0.0).for_each(|x| *x = 1.0);
            (if close(top) { 1.0 } else { top }, shift)
        } else {
            // A power of two, which loses nothing.
            let spread = <f64 as Number>::rescale(sums).ok_or(Halt::Zero)?;
            (1.0, shift + spread.shift)
        };
        let changed = up(ground, &self.status, &self.up, k) != sums;
        let status = &mut self.status[k];
        if changed {
            self.up[cluster.shared.clone()].copy_from_slice(sums);
            status.up_here = true;
        }
        status.product_here = true;
        status.unit = unit;
        status.above = above;
        status.scale = scale;
        status.floor = if unit { 0 } else { reach(sums).map_or(0, |(_, low)| low - 1) };
        Ok(changed)
    }

    /// ln P(evidence), once collected.
    pub(crate) fn ln(&self, ground: Ground<'_>) -> f64 {
        let mut total: Scale = ground.tree.constant;
        let said = self.said.iter().filter(|s| s.any).filter_map(|s| s.scale);
        for (m, e) in self.status.iter().map(|s| s.scale).chain(said).filter(|s| *s != (1.0, 0)) {
            total.times(m, e);
        }
        total.ln()
    }

    fn product<'a>(&'a self, ground: Ground<'a>, k: usize) -> &'a [f64] {
        let cells = ground.tree.clusters[k].cells.clone();
        match ground.prior {
            Some(prior) if !self.status[k].product_here => &prior.products[cells],
            _ => &self.products[cells],
        }
    }

    /// The outward message to cluster `k`.
    fn heard<'a>(&'a self, ground: Ground<'a>, k: usize) -> &'a [f64] {
        let cells = ground.tree.clusters[k].shared.clone();
        match ground.prior {
            Some(prior) if !self.status[k].down_here => &prior.down[cells],
            _ => &self.down[cells],
        }
    }

    /// Computes the belief of cluster `k`, whose outward message must be up to date.
    fn believe(&mut self, ground: Ground<'_>, k: usize) {
        let cluster = &ground.tree.clusters[k];
        let mut belief = core::mem::take(&mut self.belief);
        let product = self.product(ground, k);
        let table = &mut belief[..cluster.cells.len()];
        if cluster.parent.is_none() {
            table.copy_from_slice(product);
        } else {
            cluster.up.product(table, product, self.heard(ground, k));
        }
        self.belief = belief;
    }

    /// Computes what cluster `child` hears, from the belief of its parent just computed.
    fn outward(&mut self, ground: Ground<'_>, child: usize) {
        let cluster = &ground.tree.clusters[child];
        let Some((map, parent)) = cluster.down.as_ref().zip(cluster.parent) else { return };
        let sums = &mut self.sums[..cluster.shared.len()];
        map.sum(sums, &self.belief[..ground.tree.clusters[parent].cells.len()]);
        if !self.status[child].unit {
            let said = up(ground, &self.status, &self.up, child);
            sums.iter_mut().zip(said).for_each(|(x, m)| *x = if *m > 0.0 { *x / m } else { 0.0 });
        }
        let top = largest(sums);
        if top < LOW {
            // Never all zero: the findings are possible.
            <f64 as Number>::rescale(sums);
        }
        if sums.iter().filter(|x| **x > 0.0).take(2).count() == 1 {
            sums.iter_mut().filter(|x| **x > 0.0).for_each(|x| *x = 1.0);
        }
        let status = &mut self.status[child];
        let all = ground.prior.is_none_or(|p| p.status[child].above == status.above);
        status.down_partial = !all || status.floor < QUOTIENT_ROOM;
        status.down_stale = false;
        let old = match ground.prior {
            Some(prior) if !status.down_here => &prior.down,
            _ => &self.down,
        };
        if old[cluster.shared.clone()] != *sums {
            self.down[cluster.shared.clone()].copy_from_slice(sums);
            status.down_here = true;
            self.outdate(ground, child, None);
        }
    }

    /// Brings every distribution up to date, once collected; `shares` are the ones to write into.
    pub(crate) fn distribute(&mut self, ground: Ground<'_>, shares: &mut [f64]) {
        for k in 0..self.status.len() {
            let cluster = &ground.tree.clusters[k];
            let hears = cluster.children.iter().any(|c| self.status[*c].down_stale);
            self.hear_root(ground, k);
            let reads = self.status[k].read_stale;
            if reads && !cluster.between.is_empty() {
                self.read_between(ground, k, shares);
            }
            if hears || (reads && !cluster.inside.is_empty()) {
                self.believe(ground, k);
                if reads {
                    self.read_inside(ground, k, shares);
                }
                for child in &cluster.children {
                    if self.status[*child].down_stale {
                        self.outward(ground, *child);
                    }
                }
            }
            self.status[k].read_stale = false;
        }
    }

    /// Distributions have to be read again everywhere.
    pub(crate) fn read_again(&mut self) {
        self.status.iter_mut().for_each(|s| s.read_stale = true);
    }

    /// A root hears nothing: a single one.
    fn hear_root(&mut self, ground: Ground<'_>, k: usize) {
        if ground.tree.clusters[k].parent.is_none() && self.status[k].down_stale {
            self.down[ground.tree.clusters[k].shared.clone()].fill(1.0);
            self.status[k].down_stale = false;
        }
    }

    fn read_inside(&mut self, ground: Ground<'_>, k: usize, shares: &mut [f64]) {
        let cluster = &ground.tree.clusters[k];
        for place in &cluster.inside {
            let out = &mut shares[ground.starts[place.var]..ground.starts[place.var + 1]];
            place.map.sum(out, &self.belief[..cluster.cells.len()]);
            normalize(out);
        }
    }

    fn read_between(&mut self, ground: Ground<'_>, k: usize, shares: &mut [f64]) {
        let cluster = &ground.tree.clusters[k];
        let mut room = core::mem::take(&mut self.sums);
        let sums = &mut room[..cluster.shared.len()];
        let said = up(ground, &self.status, &self.up, k);
        sums.iter_mut().zip(said).zip(self.heard(ground, k)).for_each(|((s, u), d)| *s = u * d);
        for place in &cluster.between {
            let out = &mut shares[ground.starts[place.var]..ground.starts[place.var + 1]];
            place.map.sum(out, sums);
            normalize(out);
        }
        self.sums = room;
    }

    /// Which cells of all tables can be above zero without findings; `None` if some might have vanished by
    /// rounding only. The state must be up to date.
    pub(crate) fn possible(&self, ground: Ground<'_>) -> Option<Vec<bool>> {
        let mut marks = Vec::with_capacity(self.products.len());
        let mut ones = vec![1.0; self.belief.len()];
        for cluster in &ground.tree.clusters {
            let down = &self.down[cluster.shared.clone()];
            if reach(down).is_none_or(|(_, low)| low < ROOM) {
                return None;
            }
            let heard = &mut ones[..cluster.cells.len()];
            heard.fill(1.0);
            cluster.up.multiply(heard, down);
            marks.extend(
                heard.iter().zip(&self.products[cluster.cells.clone()]).map(|(d, t)| *d > 0.0 && *t > 0.0),
            );
        }
        Some(marks)
    }
}

/// The inward message of cluster `k`.
fn up<'a>(ground: Ground<'a>, status: &[Status], here: &'a [f64], k: usize) -> &'a [f64] {
    let cells = ground.tree.clusters[k].shared.clone();
    match ground.prior {
        Some(prior) if !status[k].up_here => &prior.up[cells],
        _ => &here[cells],
    }
}

fn largest(values: &[f64]) -> f64 {
    values.iter().fold(0.0, |a, x| if *x > a { *x } else { a })
}

fn normalize(values: &mut [f64]) {
    let total = values.iter().fold(0.0, |a, x| a + x);
    if total > 0.0 {
        values.iter_mut().for_each(|x| *x /= total);
    }
}
