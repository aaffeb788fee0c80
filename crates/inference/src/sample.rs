//! Exact joint samples given the evidence: the buckets of the elimination, walked backwards.
//!
//! After the inward pass the bucket of a variable, read as a distribution of that variable given the later
//! ones in it, is exactly P(variable | later ones, evidence). Drawing from the last bucket to the first
//! therefore draws from the joint posterior; buckets that no wanted node depends on are left out.

use alloc::vec;
use alloc::vec::Vec;

use rand_core::Rng;

use crate::eliminate::{Stop, inward};
use crate::number::{Number, Wide};
use crate::plan::Plan;
use crate::query::{check_wanted, impossible, relevant};
use crate::{Evidence, InferError, Network, NodeId};

/// Draws states of the wanted nodes from their joint posterior. Immutable: one sampler serves many streams.
#[derive(Clone, Debug)]
pub struct Sampler {
    wanted: Vec<NodeId>,
    outputs: Vec<Output>,
    steps: Vec<Step>,
    /// (step whose state is read, stride in rows) for all steps, one after the other.
    inputs: Vec<(usize, usize)>,
    /// Rows of cumulative probabilities.
    cumulative: Vec<f64>,
}

#[derive(Clone, Copy, Debug)]
enum Output {
    Fixed(u16),
    Drawn(usize),
}

#[derive(Clone, Copy, Debug)]
struct Step {
    states: usize,
    inputs: (usize, usize),
    start: usize,
}

/// Prepares drawing of the `wanted` nodes given the evidence.
///
/// # Errors
/// As [`crate::posterior`].
pub fn sampler(net: &Network, ev: &Evidence, wanted: &[NodeId]) -> Result<Sampler, InferError> {
    ev.check(net)?;
    check_wanted(net, wanted)?;
    let plan = Plan::new(net, ev, &relevant(net, ev, wanted), &[])?;
    let made = match prepare::<f64>(net, &plan, wanted) {
        Err(Stop::Narrow) => prepare::<Wide>(net, &plan, wanted),
        done => done,
    };
    made.map_err(|_| impossible(net, ev))
}

fn prepare<N: Number>(net: &Network, plan: &Plan, wanted: &[NodeId]) -> Result<Sampler, Stop> {
    let pass = inward::<N>(net, plan)?;
    let position = |node: NodeId| plan.vars.iter().position(|v| *v == node);
    let mut needed = vec![false; plan.vars.len()];
    wanted.iter().filter_map(|n| position(*n)).for_each(|k| needed[k] = true);
    for k in 0..needed.len() {
        if needed[k] {
            plan.clusters[k].scope.iter().for_each(|v| needed[*v] = true);
        }
    }
    let mut step_of = vec![0; plan.vars.len()];
    let (mut steps, mut inputs, mut cumulative) = (Vec::new(), Vec::new(), Vec::new());
    for k in (0..needed.len()).rev().filter(|k| needed[*k]) {
        let (cluster, states) = (&plan.clusters[k], plan.sizes[k]);
        let first = inputs.len();
        let mut stride = 1;
        for v in cluster.scope.iter().rev().skip(1) {
            inputs.push((step_of[*v], stride));
            stride *= plan.sizes[*v];
        }
        step_of[k] = steps.len();
        steps.push(Step { states, inputs: (first, inputs.len()), start: cumulative.len() });
        for row in pass.tables[cluster.offset..cluster.offset + cluster.cells].chunks_exact(states) {
            push_cumulative(&mut cumulative, row);
        }
    }
    let outputs = wanted
        .iter()
        .map(|n| match position(*n) {
            Some(k) => Output::Drawn(step_of[k]),
            // State counts fit in 16 bits: the network checks it.
            None => Output::Fixed(plan.fixed[*n].unwrap_or(0) as u16),
        })
        .collect();
    Ok(Sampler { wanted: wanted.into(), outputs, steps, inputs, cumulative })
}

/// The last state above zero and all after it get 1, so that rounding never lets a draw fall through, and a
/// state of probability zero is never drawn.
fn push_cumulative<N: Number>(out: &mut Vec<f64>, row: &[N]) {
    let total = row.iter().fold(N::ZERO, |a, x| a.plus(*x));
    let last = row.iter().rposition(|x| !x.is_zero()).unwrap_or(0);
    let mut sum = N::ZERO;
    for (i, x) in row.iter().enumerate() {
        sum = sum.plus(*x);
        out.push(if i >= last { 1.0 } else { sum.share(total) });
    }
}

impl Sampler {
    /// The wanted nodes, in the order of the drawn states.
    pub fn wanted(&self) -> &[NodeId] {
        &self.wanted
    }

    /// Draws one joint sample: the state index of each wanted node into `out`, in the order they were asked
    /// for. Uses the same number of generator words for every draw, so streams stay in step.
    pub fn draw<R: Rng + ?Sized>(&self, rng: &mut R, out: &mut [u16]) {
        let mut states = vec![0usize; self.steps.len()];
        for (i, step) in self.steps.iter().enumerate() {
            let row: usize =
                self.inputs[step.inputs.0..step.inputs.1].iter().map(|(s, stride)| states[*s] * stride).sum();
            let start = step.start + row * step.states;
            // 53 random bits: every double of the form k / 2^53 below 1.
            let u = (rng.next_u64() >> 11) as f64 * (1.0 / (1u64 << 53) as f64);
            let row = &self.cumulative[start..start + step.states];
            states[i] = row.iter().position(|c| u < *c).unwrap_or(0);
        }
        for (o, output) in out.iter_mut().zip(&self.outputs) {
            *o = match output {
                Output::Fixed(state) => *state,
                Output::Drawn(step) => states[*step] as u16,
            };
        }
    }
}
