//! The most probable explanation: the one full assignment that fits the findings best, and how far ahead of
//! the next one it is.
//!
//! The same buckets as for P(evidence), with the largest entry where there is a sum: R. Dechter, "Bucket
//! elimination: a unifying framework for reasoning", Artificial Intelligence 113 (1999) 41-85. The
//! outward pass then holds, for every state of every variable, the best joint probability with that state;
//! the second-best assignment differs from the best in some variable, so the best of those other states is
//! its probability (D. Nilsson, "An efficient algorithm for finding the M most probable configurations in
//! probabilistic expert systems", Statistics and Computing 8 (1998) 159-173).

use alloc::vec;
use alloc::vec::Vec;

use crate::eliminate::{Pass, Stop, inward};
use crate::number::{Number, Spread, Wide};
use crate::plan::Plan;
use crate::query::impossible;
use crate::{Evidence, InferError, Network};

/// Two assignments whose log probabilities differ by no more than this count as equally probable.
pub const TIE: f64 = 1e-9;

/// Gaps up to this are read off plain doubles; a double cannot tell a wider one from an impossible second.
const TRUSTED: f64 = 300.0;

/// The most probable explanation of some findings.
#[derive(Debug, Clone, PartialEq)]
pub struct Mpe {
    /// State index of every node, by node number; observed nodes as observed.
    pub states: Vec<usize>,
    /// Natural logarithm of P(states) times every likelihood of the soft findings.
    pub log_joint: f64,
    /// True if no other assignment comes within [`TIE`]. If false, `states` is one of several equally good.
    pub unique: bool,
    /// How far the second-best assignment lies below, in nats, never negative; `None` if no other assignment
    /// is possible at all.
    pub log_gap_to_second: Option<f64>,
}

/// Largest table a factored family is written out to.
const TABLE_LIMIT: u64 = 1 << 20;

/// The full assignment with the largest joint probability together with the findings.
///
/// # Errors
/// As [`crate::posterior`]; every node takes part, so no piece of a too large network can be left out.
pub fn mpe(net: &Network, ev: &Evidence) -> Result<Mpe, InferError> {
    ev.check(net)?;
    // The best explanation is one of the nodes, not of the hidden links of a factored family.
    let tables;
    let net = if (0..net.len()).any(|node| net.noisy(node).is_some()) {
        tables = net.tabled(TABLE_LIMIT)?;
        &tables
    } else {
        net
    };
    let mut plan = Plan::new(net, ev, &vec![true; net.len()], &[])?;
    // A table that sums to one has a largest entry below one.
    plan.clusters.iter_mut().for_each(|c| c.unit = false);
    let found = match search::<f64>(net, &plan) {
        Err(Stop::Narrow) => search::<Wide>(net, &plan),
        done => done,
    };
    found.map_err(|_| impossible(net, ev))
}

fn search<N: Number>(net: &Network, plan: &Plan) -> Result<Mpe, Stop> {
    let mut pass = inward::<Largest<N>>(net, plan)?;
    let chosen = walk_back(&pass, plan);
    let log_joint = pass.scale.ln();
    pass.outward(net, plan, |_, _| {});
    let gap = gap(&pass, plan, &chosen);
    if N::NARROW && gap.is_none_or(|g| g > TRUSTED) && !plan.vars.is_empty() {
        return Err(Stop::Narrow);
    }
    let mut states: Vec<usize> = plan.fixed.iter().map(|s| s.unwrap_or(0)).collect();
    plan.vars.iter().zip(&chosen).for_each(|(node, state)| states[*node] = *state);
    Ok(Mpe { states, log_joint, unique: gap.is_none_or(|g| g > TIE), log_gap_to_second: gap })
}

/// Chooses states from the last variable to the first, each the best given the later ones; the first of
/// equally good states. One state index per position.
fn walk_back<N: Number>(pass: &Pass<Largest<N>>, plan: &Plan) -> Vec<usize> {
    let mut chosen = vec![0; plan.vars.len()];
    for (k, cluster) in plan.clusters.iter().enumerate().rev() {
        let row = cluster.scope.iter().fold(0, |at, v| at * plan.sizes[*v] + chosen[*v]);
        let start = cluster.offset + row;
        let states = &pass.tables[start..start + plan.sizes[k]];
        chosen[k] = (1..states.len()).fold(0, |best, s| if states[best].below(states[s]) { s } else { best });
    }
    chosen
}

/// ln of the best over the second-best, from the beliefs of an outward pass.
fn gap<N: Number>(pass: &Pass<Largest<N>>, plan: &Plan, chosen: &[usize]) -> Option<f64> {
    let mut gap: Option<f64> = None;
    for (k, cluster) in plan.clusters.iter().enumerate() {
        let (mut top, mut other) = (Largest::<N>::ZERO, Largest::<N>::ZERO);
        for row in pass.tables[cluster.offset..cluster.offset + cluster.cells].chunks_exact(plan.sizes[k]) {
            for (state, x) in row.iter().enumerate() {
                let best = if state == chosen[k] { &mut top } else { &mut other };
                *best = best.plus(*x);
            }
        }
        if !other.is_zero() && !top.is_zero() {
            let ((a, i), (b, j)) = (top.parts(), other.parts());
            let here = (libm::log(a) - libm::log(b)) + (i - j) as f64 * core::f64::consts::LN_2;
            let here = if here > 0.0 { here } else { 0.0 };
            gap = Some(gap.map_or(here, |g| if here < g { here } else { g }));
        }
    }
    gap
}

/// A number whose sum is the larger of the two, which turns sums over states into maxima.
#[derive(Clone, Copy)]
struct Largest<N>(N);

impl<N: Number> Largest<N> {
    /// Less than `other`. Parts with a larger exponent are larger: see [`Number`] and its two kinds.
    fn below(self, other: Self) -> bool {
        let ((a, i), (b, j)) = (self.0.parts(), other.0.parts());
        if a == 0.0 || b == 0.0 || i == j { a < b } else { i < j }
    }
}

impl<N: Number> Number for Largest<N> {
    const ZERO: Self = Self(N::ZERO);
    const ONE: Self = Self(N::ONE);
    const NARROW: bool = N::NARROW;
    fn from_f64(x: f64) -> Self {
        Self(N::from_f64(x))
    }
    fn times(self, other: Self) -> Self {
        Self(self.0.times(other.0))
    }
    fn over(self, other: Self) -> Self {
        Self(self.0.over(other.0))
    }
    fn plus(self, other: Self) -> Self {
        if self.below(other) { other } else { self }
    }
    fn is_zero(self) -> bool {
        self.0.is_zero()
    }
    fn parts(self) -> (f64, i64) {
        self.0.parts()
    }
    fn share(self, total: Self) -> f64 {
        self.0.share(total.0)
    }
    fn rescale(table: &mut [Self]) -> Option<Spread> {
        let mut inner: Vec<N> = table.iter().map(|x| x.0).collect();
        let spread = N::rescale(&mut inner)?;
        table.iter_mut().zip(inner).for_each(|(x, n)| x.0 = n);
        Some(spread)
    }
}
