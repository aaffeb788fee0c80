//! From the cells of a compressed table to the cells of a small one: tables made once, loops over them.
//!
//! A compressed table lists only the cells that can be above zero, in row-major order. For every table it
//! exchanges messages with, one map tells each cell its counterpart there: cell by cell, or in runs of
//! neighbors with one counterpart where those are long. Loops run in cell order, so sums are always added
//! up alike.

use alloc::vec::Vec;

/// Counterparts of the cells of a table.
#[derive(Clone, Debug)]
pub(crate) enum Map {
    /// Counterpart of each cell.
    Cells(Vec<u32>),
    /// Runs of cells: the counterpart of each, and where it ends.
    Runs(Vec<(u32, u32)>),
}

/// Runs are kept if they hold at least this many cells on average.
const WORTH_RUNS: usize = 4;

impl Map {
    pub(crate) fn new(targets: Vec<u32>) -> Self {
        let changes = targets.windows(2).filter(|w| w[0] != w[1]).count() + 1;
        if changes * WORTH_RUNS > targets.len() {
            return Self::Cells(targets);
        }
        let mut runs: Vec<(u32, u32)> = Vec::with_capacity(changes);
        for (i, to) in targets.iter().enumerate() {
            match runs.last_mut() {
                Some(last) if last.0 == *to => last.1 = i as u32 + 1,
                _ => runs.push((*to, i as u32 + 1)),
            }
        }
        Self::Runs(runs)
    }

    /// `out` = `table` times its counterparts in `small`.
    pub(crate) fn product(&self, out: &mut [f64], table: &[f64], small: &[f64]) {
        match self {
            Self::Cells(to) => {
                for ((o, x), to) in out.iter_mut().zip(table).zip(to) {
                    *o = x * small[*to as usize];
                }
            }
            Self::Runs(runs) => {
                let mut start = 0;
                for (to, end) in runs {
                    let (m, run) = (small[*to as usize], start..*end as usize);
                    out[run.clone()].iter_mut().zip(&table[run]).for_each(|(o, x)| *o = x * m);
                    start = *end as usize;
                }
            }
        }
    }

    /// Multiplies `table` by its counterparts in `small`.
    pub(crate) fn multiply(&self, table: &mut [f64], small: &[f64]) {
        match self {
            Self::Cells(to) => table.iter_mut().zip(to).for_each(|(x, to)| *x *= small[*to as usize]),
            Self::Runs(runs) => {
                let mut start = 0;
                for (to, end) in runs {
                    let m = small[*to as usize];
                    table[start..*end as usize].iter_mut().for_each(|x| *x *= m);
                    start = *end as usize;
                }
            }
        }
    }

    /// Adds every cell of `table` to its counterpart in `small`, which starts at zero.
    pub(crate) fn sum(&self, small: &mut [f64], table: &[f64]) {
        small.fill(0.0);
        match self {
            Self::Cells(to) => table.iter().zip(to).for_each(|(x, to)| small[*to as usize] += x),
            Self::Runs(runs) => {
                let mut start = 0;
                for (to, end) in runs {
                    small[*to as usize] += total(&table[start..*end as usize]);
                    start = *end as usize;
                }
            }
        }
    }
}

/// Sum in four lanes: one fixed order, four times as fast as one lane.
fn total(run: &[f64]) -> f64 {
    let fours = run.chunks_exact(4);
    let rest = fours.remainder().iter().fold(0.0, |a, x| a + x);
    let mut lanes = [0.0; 4];
    for four in fours {
        lanes.iter_mut().zip(four).for_each(|(lane, x)| *lane += x);
    }
    (lanes[0] + lanes[1]) + (lanes[2] + lanes[3]) + rest
}
