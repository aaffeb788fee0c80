//! The elimination order an engine keeps for good: many tries at min-fill, the smallest tables win.
//!
//! Variables whose neighbors all know each other go first, once; the tries share that beginning and differ
//! in how ties are broken in what is left, one in four weighing links by state counts. Nothing is drawn
//! at random: tie-breaking comes from the number of the try through a fixed mixing function.

use alloc::vec;
use alloc::vec::Vec;

use crate::order::{Graph, Run, Step};

/// How often an order is tried unless told otherwise.
pub(crate) const TRIES: u32 = 32;

/// A maximal cluster of the triangulated graph, in elimination order.
#[derive(Clone, Debug)]
pub(crate) struct Clique {
    /// Variables in elimination order.
    pub(crate) scope: Vec<usize>,
    /// Cells of the dense table.
    pub(crate) cells: u64,
    /// The clique further on that it shares its separator with.
    pub(crate) parent: Option<usize>,
    /// The variables shared, in elimination order.
    pub(crate) separator: Vec<usize>,
}

/// The best of so many orders, as position per variable and maximal cliques: the one with the fewest cells in all
/// cliques together, the first of equal ones. A try is broken off once it cannot be that any more.
pub(crate) fn triangulate(graph: Graph, tries: u32) -> (Vec<usize>, Vec<Clique>) {
    let len = graph.states().len();
    let states = graph.states().to_vec();
    let mut free = Run::new(graph, &vec![false; len], false);
    free.advance(0, u64::from);
    let (rest, numbers) = free.rest();
    let keep = vec![false; numbers.len()];
    // The first steps are the same for all tries that weigh alike.
    let starts = [false, true].map(|weighted| Run::new(rest.clone(), &keep, weighted));
    let (mut best, mut best_cells) = (Vec::new(), u64::MAX);
    for attempt in 0..u64::from(tries.max(1)) {
        let mut run = starts[usize::from(attempt % 4 == 1)].clone();
        let ranks: Vec<u64> = (0..numbers.len() as u32).map(|v| mixed(attempt, v)).collect();
        let mut sum = Sum::new(numbers.len());
        run.advance_while(u64::MAX, |v| ranks[v as usize], |step| sum.add(step, rest.states()) < best_cells);
        if sum.cells < best_cells {
            (best, best_cells) = (run.steps, sum.cells);
        }
        if numbers.is_empty() {
            break;
        }
    }
    let mut steps = free.steps;
    for step in &mut best {
        step.var = numbers[step.var];
        step.neighbors.iter_mut().for_each(|v| *v = numbers[*v]);
    }
    steps.append(&mut best);
    cliques(&steps, &states)
}

/// Cells of the maximal cliques of an elimination, step by step.
struct Sum {
    cells: u64,
    /// By variable, the steps it was a neighbor in.
    met: Vec<Vec<usize>>,
    /// How many neighbors each step had, until the first of them is eliminated.
    pending: Vec<Option<usize>>,
}

impl Sum {
    fn new(len: usize) -> Self {
        Self { cells: 0, met: vec![Vec::new(); len], pending: Vec::with_capacity(len) }
    }

    /// Adds the step's cluster unless it lies in that of an earlier step; the cells so far.
    fn add(&mut self, step: &Step, states: &[usize]) -> u64 {
        let mut own = true;
        for k in &self.met[step.var] {
            own &= self.pending[*k].take() != Some(step.neighbors.len() + 1);
        }
        if own {
            let cells = step
                .neighbors
                .iter()
                .fold(states[step.var] as u64, |n, v| n.saturating_mul(states[*v] as u64));
            self.cells = self.cells.saturating_add(cells);
        }
        step.neighbors.iter().for_each(|v| self.met[*v].push(self.pending.len()));
        self.pending.push(Some(step.neighbors.len()));
        self.cells
    }
}

/// Rank of a variable among ties in one try; the first try goes by number. A bijection of `v` for each try
/// (odd multipliers and shifted exclusive-ors), so ranks differ.
fn mixed(attempt: u64, v: u32) -> u64 {
    if attempt == 0 {
        return u64::from(v);
    }
    let mut z = (attempt << 32 | u64::from(v)).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    z = (z ^ z >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ z >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ z >> 31
}

/// The clusters of an elimination that lie in no other, and the tree they form.
pub(crate) fn cliques(steps: &[Step], states: &[usize]) -> (Vec<usize>, Vec<Clique>) {
    let mut position = vec![0; states.len()];
    steps.iter().enumerate().for_each(|(k, s)| position[s.var] = k);
    let next = |s: &Step| s.neighbors.iter().map(|v| position[*v]).min();
    // Where the cluster of each step lies: its own, or that of an earlier step that contains it.
    let mut holder: Vec<usize> = (0..steps.len()).collect();
    let mut own = vec![true; steps.len()];
    for (k, step) in steps.iter().enumerate() {
        if let Some(p) = next(step)
            && own[p]
            && step.neighbors.len() == steps[p].neighbors.len() + 1
        {
            own[p] = false;
            holder[p] = holder[k];
        }
    }
    let mut number = vec![0; steps.len()];
    let mut count = 0;
    for k in 0..steps.len() {
        number[k] = if own[k] {
            count += 1;
            count - 1
        } else {
            number[holder[k]]
        };
    }
    let ordered = |vars: &mut Vec<usize>| vars.sort_unstable_by_key(|v| position[*v]);
    let mut list: Vec<Clique> = Vec::with_capacity(count);
    for (_, step) in steps.iter().enumerate().filter(|(k, _)| own[*k]) {
        let mut scope = step.neighbors.clone();
        scope.push(step.var);
        ordered(&mut scope);
        let cells = scope.iter().fold(1u64, |n, v| n.saturating_mul(states[*v] as u64));
        list.push(Clique { scope, cells, parent: None, separator: Vec::new() });
    }
    // The edge out of a clique is that of the last of its steps whose next variable lies elsewhere.
    for (k, step) in steps.iter().enumerate() {
        if let Some(p) = next(step)
            && number[p] != number[k]
        {
            let mut separator = step.neighbors.clone();
            ordered(&mut separator);
            list[number[k]].separator = separator;
            list[number[k]].parent = Some(number[p]);
        }
    }
    (position, list)
}
