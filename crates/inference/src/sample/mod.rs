//! Exact joint samples given the evidence: an elimination walked backwards.
//!
//! After the inward pass the bucket of a variable, read as a distribution of that variable given the later
//! ones in it, is exactly P(variable | later ones, evidence). Drawing from the last bucket to the first
//! therefore draws from the joint posterior; buckets that no wanted node depends on are left out. A look into a
//! table takes as long whatever its size, so variables are drawn several at once while their table stays small.

mod rows;

use alloc::vec;
use alloc::vec::Vec;
use core::ops::Range;

use rand_core::Rng;

use crate::eliminate::{Stop, inward};
use crate::number::{Number, Wide};
use crate::plan::Plan;
use crate::query::{check_wanted, impossible, relevant};
use crate::{Evidence, InferError, Network, NodeId};

use rows::{Rows, counterparts, pick};

/// Variables are drawn together up to a table of this many cells: larger ones no longer stay close to the
/// processor.
const TOGETHER: usize = 1 << 9;

/// Draws states of the wanted nodes from their joint posterior. Immutable: one sampler serves many streams.
#[derive(Clone, Debug)]
pub struct Sampler {
    wanted: Vec<NodeId>,
    /// Places among the wanted nodes of those in a state for certain, with the state.
    certain: Vec<(usize, u16)>,
    steps: Vec<Step>,
    rows: Rows,
    /// Row of a step by the cell of an earlier one.
    places: Vec<u32>,
    /// Places among the wanted nodes, step by step.
    outputs: Vec<usize>,
    /// States by step, cell and output.
    states: Vec<u16>,
}

/// One choice: of one variable or of several together.
#[derive(Clone, Debug)]
struct Step {
    /// The earlier step that settles the row, and start among the places; the first of its part has one row.
    after: Option<(usize, usize)>,
    /// Its rows, one after the other.
    rows: Range<usize>,
    /// Cells of a row.
    cells: usize,
    /// What is read here.
    outputs: Range<usize>,
    /// Start among the states.
    states: usize,
}

/// A step while others may still be joined to it.
struct Draft {
    after: Option<usize>,
    /// Variables settled by the step before, slowest first.
    shared: Vec<usize>,
    /// These, then the variables drawn here.
    scope: Vec<usize>,
    /// One row for each state of the shared variables; rows sum to one, or to zero if they are never used.
    table: Vec<f64>,
    /// Cells of a row.
    cells: usize,
}

/// Prepares drawing of the `wanted` nodes given the evidence.
///
/// # Errors
/// As [`crate::posterior`].
pub fn sampler(net: &Network, ev: &Evidence, wanted: &[NodeId]) -> Result<Sampler, InferError> {
    ev.check(net)?;
    check_wanted(net, wanted)?;
    let plan = Plan::new(net, ev, &relevant(net, ev, wanted), &[])?;
    let mut place = vec![None; net.variables()];
    plan.vars.iter().enumerate().for_each(|(k, v)| place[*v] = Some(k));
    let mut needed = vec![false; plan.vars.len()];
    wanted.iter().filter_map(|n| place[*n]).for_each(|k| needed[k] = true);
    for k in 0..needed.len() {
        if needed[k] {
            plan.clusters[k].scope.iter().for_each(|v| needed[*v] = true);
        }
    }
    let drafts = match drafts::<f64>(net, &plan, &needed) {
        Err(Stop::Narrow) => drafts::<Wide>(net, &plan, &needed),
        done => done,
    };
    let (drafts, drawn) = drafts.map_err(|_| impossible(net, ev))?;
    let mut made = Sampler {
        wanted: wanted.into(),
        certain: Vec::new(),
        steps: Vec::with_capacity(drafts.len()),
        rows: Rows::default(),
        places: Vec::new(),
        outputs: Vec::with_capacity(wanted.len()),
        states: Vec::new(),
    };
    let mut read: Vec<Vec<(usize, usize)>> = vec![Vec::new(); drafts.len()];
    for (at, node) in wanted.iter().enumerate() {
        match place[*node] {
            Some(v) => read[drawn[v]].push((at, v)),
            // State counts fit in 16 bits: the network checks it.
            None => made.certain.push((at, plan.fixed[*node].unwrap_or(0) as u16)),
        }
    }
    let mut found = Vec::new();
    for (draft, read) in drafts.iter().zip(&read) {
        let after = draft.after.map(|s| {
            let start = made.places.len();
            counterparts(&drafts[s].scope, &draft.shared, &plan.sizes, &mut made.places);
            (s, start)
        });
        let start = made.rows.len();
        draft.table.chunks_exact(draft.cells).for_each(|row| made.rows.push(row));
        let outputs = made.outputs.len()..made.outputs.len() + read.len();
        let states = made.states.len();
        made.states.resize(states + draft.table.len() * read.len(), 0);
        for (i, (at, v)) in read.iter().enumerate() {
            made.outputs.push(*at);
            found.clear();
            counterparts(&draft.scope, &[*v], &plan.sizes, &mut found);
            let slots = made.states[states + i..].iter_mut().step_by(read.len());
            slots.zip(&found).for_each(|(slot, state)| *slot = *state as u16);
        }
        let rows = start..made.rows.len();
        made.steps.push(Step { after, rows, cells: draft.cells, outputs, states });
    }
    Ok(made)
}

/// The steps that draw the needed variables, and which of them draws each.
fn drafts<N: Number>(net: &Network, plan: &Plan, needed: &[bool]) -> Result<(Vec<Draft>, Vec<usize>), Stop> {
    let pass = inward::<N>(net, plan)?;
    let (mut drafts, mut drawn): (Vec<Draft>, _) = (Vec::new(), vec![0; needed.len()]);
    let (mut first, mut places) = (None, Vec::new());
    for k in (0..needed.len()).rev().filter(|k| needed[*k]) {
        let (cluster, cells) = (&plan.clusters[k], plan.sizes[k]);
        // All other variables of the bucket lie in the bucket that its message went to.
        let shared = &cluster.scope[..cluster.scope.len() - 1];
        let table = pass.tables[cluster.offset..][..cluster.cells].chunks_exact(cells).flat_map(|row| {
            let total = row.iter().fold(N::ZERO, |a, x| a.plus(*x));
            row.iter().map(move |x| if x.is_zero() { 0.0 } else { x.share(total) })
        });
        let before = cluster.parent.map(|p| drawn[p]);
        let joined = before.or(first).filter(|s| drafts[*s].table.len().saturating_mul(cells) <= TOGETHER);
        drawn[k] = joined.unwrap_or(drafts.len());
        match joined.map(|s| &mut drafts[s]) {
            Some(draft) => {
                let table: Vec<f64> = table.collect();
                places.clear();
                counterparts(&draft.scope, shared, &plan.sizes, &mut places);
                let row = |p: &u32| &table[*p as usize * cells..][..cells];
                let with = draft.table.iter().zip(&places);
                draft.table = with.flat_map(|(x, p)| row(p).iter().map(move |y| x * y)).collect();
                draft.scope.push(k);
                draft.cells *= cells;
            }
            None => {
                let (scope, shared, table) = (cluster.scope.clone(), shared.to_vec(), table.collect());
                drafts.push(Draft { after: before, shared, scope, table, cells });
            }
        }
        if cluster.parent.is_none() {
            first = Some(drawn[k]);
        }
    }
    Ok((drafts, drawn))
}

/// Random words from one: G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", ACM
/// OOPSLA 2014, 453-472, with the mixing function that D. Stafford found best among his ("Mix13").
struct Bits(u64);

impl Bits {
    #[inline]
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ self.0 >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ z >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ z >> 31
    }
}

impl Sampler {
    /// The wanted nodes, in the order of the drawn states.
    pub fn wanted(&self) -> &[NodeId] {
        &self.wanted
    }

    /// Draws one joint sample: the state index of each wanted node into `out`, in the order they were asked
    /// for. Takes one word of 64 bits from the generator, always, so that streams of different samplers stay in
    /// step; what the steps of a draw need is made from that word.
    pub fn draw<R: Rng + ?Sized>(&self, rng: &mut R, out: &mut [u16]) {
        /// So many steps need no memory of their own.
        const FEW: usize = 128;
        if self.wanted.is_empty() {
            rng.next_u64();
            return;
        }
        match [[0]; FEW].get_mut(..self.steps.len()) {
            Some(reached) => self.fill(reached, rng, out),
            None => self.fill(&mut vec![[0]; self.steps.len()], rng, out),
        }
    }

    /// Draws one joint sample after another, as many as `out` holds: the same ones that [`Sampler::draw`] called as
    /// often would give, in less time.
    pub fn draws<R: Rng + ?Sized>(&self, rng: &mut R, out: &mut [u16]) {
        /// So many draws go step by step together, so that one need not wait for what another looks up.
        const ABREAST: usize = 8;
        let Some(width) = Some(self.wanted.len()).filter(|n| *n > 0) else { return };
        let whole = out.len() - out.len() % (ABREAST * width);
        let (whole, rest) = out.split_at_mut(whole);
        let mut reached = vec![[0; ABREAST]; self.steps.len()];
        whole.chunks_exact_mut(ABREAST * width).for_each(|out| self.fill(&mut reached, rng, out));
        let mut reached = vec![[0]; self.steps.len()];
        rest.chunks_exact_mut(width).for_each(|out| self.fill(&mut reached, rng, out));
    }

    /// Makes `L` draws into `out`, one after the other. `reached`: room for the cell that each step comes to.
    fn fill<R: Rng + ?Sized, const L: usize>(&self, reached: &mut [[u32; L]], rng: &mut R, out: &mut [u16]) {
        let width = self.wanted.len();
        let mut bits: [Bits; L] = core::array::from_fn(|_| Bits(rng.next_u64()));
        for (i, step) in self.steps.iter().enumerate() {
            let mut rows = [0; L];
            if let Some((before, start)) = step.after {
                let places = &self.places[start..];
                rows.iter_mut().zip(&reached[before]).for_each(|(row, cell)| *row = places[*cell as usize]);
            }
            let table = self.rows.part(&step.rows);
            for ((row, bits), cell) in rows.iter().zip(&mut bits).zip(&mut reached[i]) {
                *cell = pick(table, *row as usize * step.cells, step.cells, bits.next()) as u32;
            }
            let outputs = &self.outputs[step.outputs.clone()];
            if !outputs.is_empty() {
                let table = &self.states[step.states..];
                for (cell, out) in reached[i].iter().zip(out.chunks_exact_mut(width)) {
                    let states = &table[*cell as usize * outputs.len()..][..outputs.len()];
                    outputs.iter().zip(states).for_each(|(at, state)| out[*at] = *state);
                }
            }
        }
        for out in out.chunks_exact_mut(width) {
            self.certain.iter().for_each(|(at, state)| out[*at] = *state);
        }
    }
}
