//! The elimination order an engine keeps for good: many tries at min-fill, the smallest tables win.
//!
//! Variables whose neighbors all know each other go first, once; the tries share that beginning and differ
//! in how ties are broken in what is left, one in four weighing links by state counts. Nothing is drawn
//! at random: tie-breaking comes from the number of the try through a fixed mixing function.

use alloc::vec;
use alloc::vec::Vec;

use crate::order::{Graph, Run, Step};

/// How often an order is tried.
pub(crate) const TRIES: u64 = 32;
/// Beyond this much work (words looked at, the same on every machine) no further try is begun.
const WORK_LIMIT: u64 = 1 << 27;
/// Further tries may cost this many words looked at per cell of the best tables so far: small tables are not worth
/// a long search.
const WORK_PER_CELL: u64 = 4;

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

/// The best order found, as position per variable and maximal cliques.
pub(crate) fn triangulate(graph: Graph) -> (Vec<usize>, Vec<Clique>) {
    let len = graph.states().len();
    let states = graph.states().to_vec();
    let mut free = Run::new(graph, &vec![false; len], false);
    free.advance(0, u64::from);
    let (rest, numbers) = free.rest();
    let (mut best, mut best_cells, mut work) = (Vec::new(), u64::MAX, 0u64);
    for attempt in 0..TRIES {
        if attempt > 0 && (work > WORK_LIMIT || work / WORK_PER_CELL > best_cells) {
            break;
        }
        let mut run = Run::new(rest.clone(), &vec![false; numbers.len()], attempt % 4 == 1);
        let ranks: Vec<u64> = (0..numbers.len() as u32).map(|v| mixed(attempt, v)).collect();
        run.advance(u64::MAX, |v| ranks[v as usize]);
        work = work.saturating_add(run.work);
        let cells =
            cliques(&run.steps, rest.states()).1.iter().fold(0, |sum: u64, c| sum.saturating_add(c.cells));
        if cells < best_cells {
            (best, best_cells) = (run.steps, cells);
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
