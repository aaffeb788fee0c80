//! Rows of probabilities to draw from in one look, whatever their length: A. J. Walker, "An efficient method
//! for generating discrete random variables with general distributions", ACM Transactions on Mathematical
//! Software 3 (1977) 253-256, laid out as in M. D. Vose, "A linear algorithm for generating random numbers with a
//! given distribution", IEEE Transactions on Software Engineering 17 (1991) 972-975.

use alloc::vec::Vec;
use core::ops::Range;

/// At the limit and above a cell stands for the first of two, below it for the second, itself.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cell {
    limit: u64,
    to: [u32; 2],
}

/// Rows one after the other.
#[derive(Clone, Debug, Default)]
pub(super) struct Rows {
    limits: Vec<Cell>,
    /// Room while a row is laid out.
    small: Vec<u32>,
    large: Vec<u32>,
    share: Vec<f64>,
}

impl Rows {
    pub(super) fn len(&self) -> usize {
        self.limits.len()
    }

    /// Lays out a row. A cell of weight zero is never drawn, unless all are.
    pub(super) fn push(&mut self, weights: &[f64]) {
        let Self { limits, small, large, share } = self;
        let (start, count) = (limits.len(), weights.len());
        let total = weights.iter().fold(0.0, |a, x| a + x);
        let scale = if total > 0.0 { count as f64 / total } else { 0.0 };
        limits.extend((0..count as u32).map(|i| Cell { limit: u64::MAX, to: [i, i] }));
        share.clear();
        share.extend(weights.iter().map(|x| x * scale));
        small.clear();
        large.clear();
        for (i, s) in share.iter().enumerate() {
            if *s < 1.0 { small.push(i as u32) } else { large.push(i as u32) }
        }
        while let (Some(s), Some(l)) = (small.last().copied(), large.last().copied()) {
            small.pop();
            // 2^64 as a double; a share below one stays below it.
            let limit = (share[s as usize] * 18_446_744_073_709_551_616.0) as u64;
            limits[start + s as usize] = Cell { limit, to: [l, s] };
            share[l as usize] -= 1.0 - share[s as usize];
            if share[l as usize] < 1.0 {
                large.pop();
                small.push(l);
            }
        }
        // What is left is whole but for rounding; a weight of zero is not let in by it.
        let likeliest = (0..count).max_by(|a, b| weights[*a].total_cmp(&weights[*b])).unwrap_or(0);
        for s in small.iter().filter(|s| weights[**s as usize] <= 0.0) {
            limits[start + *s as usize] = Cell { limit: 0, to: [likeliest as u32; 2] };
        }
    }

    pub(super) fn part(&self, rows: &Range<usize>) -> &[Cell] {
        &self.limits[rows.clone()]
    }
}

/// The cell that 64 random bits lead to in the row of `count` cells from `start` on, counted from the start of the
/// table.
#[inline]
pub(super) fn pick(table: &[Cell], start: usize, count: usize, bits: u64) -> usize {
    let wide = u128::from(bits) * count as u128;
    let Cell { limit, to } = table[start + (wide >> 64) as usize];
    // Looked up rather than chosen: a branch would go astray every other time.
    start + to[usize::from((wide as u64) < limit)] as usize
}

/// Appends, for each state of `vars` (slowest first), the place in a table over `some` of them.
pub(super) fn counterparts(vars: &[usize], some: &[usize], sizes: &[usize], out: &mut Vec<u32>) {
    let start = out.len();
    out.push(0);
    for v in vars {
        let stride = match some.iter().position(|s| s == v) {
            Some(at) => some[at + 1..].iter().map(|s| sizes[*s]).product(),
            None => 0,
        };
        let (size, len) = (sizes[*v], out.len() - start);
        out.resize(start + len * size, 0);
        // From the last to the first, so that none is overwritten before it is read.
        for i in (0..len).rev() {
            let at = out[start + i];
            for s in 0..size {
                out[start + i * size + s] = at + (s * stride) as u32;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::vec;

    #[test]
    fn every_cell_is_picked_as_often_as_its_weight_says() {
        for weights in [
            vec![1.0],
            vec![0.25, 0.75],
            vec![0.0, 1.0],
            vec![1.0, 0.0],
            vec![0.0, 0.0, 3.0],
            vec![0.1, 0.2, 0.3, 0.4, 0.0, 1e-9, 5.0],
            vec![1.0; 17],
        ] {
            let mut rows = Rows::default();
            rows.push(&[0.5, 0.5]);
            rows.push(&weights);
            // Area under the limits, exactly.
            let mut share = vec![0.0; weights.len()];
            for cell in &rows.limits[2..] {
                let own = cell.limit as f64 / 18_446_744_073_709_551_616.0;
                share[cell.to[1] as usize] += own / weights.len() as f64;
                share[cell.to[0] as usize] += (1.0 - own) / weights.len() as f64;
            }
            let total: f64 = weights.iter().sum();
            for (s, w) in share.iter().zip(&weights) {
                assert!((s - w / total).abs() < 1e-15, "{weights:?} {share:?}");
                assert!(*w > 0.0 || *s == 0.0, "{weights:?} {share:?}");
            }
            // At the edges of every cell.
            for bits in [0, 1, u64::MAX / 2, u64::MAX / 2 + 1, u64::MAX - 1, u64::MAX] {
                assert!(weights[pick(&rows.limits[2..], 0, weights.len(), bits)] > 0.0, "{weights:?} {bits}");
            }
        }
    }

    #[test]
    fn counterparts_follow_the_order_of_both_tables() {
        let sizes = [2, 3, 2];
        let mut out = vec![9];
        counterparts(&[2, 1, 0], &[0, 2], &sizes, &mut out);
        assert_eq!(out, [9, 0, 2, 0, 2, 0, 2, 1, 3, 1, 3, 1, 3]);
    }
}
