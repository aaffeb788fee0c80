//! Loops over dense tables: multiply a small table into a large one, sum a large one into a small one.
//!
//! A table is a flat slice in row-major order. The other table is reached through one stride per axis of
//! the large one (0 where it lacks the axis). Neighboring axes that step alike are merged, so that the
//! innermost loop is long and plain.

use crate::number::Number;

/// A table within the size limit has at most 27 axes, since every axis has two states or more.
const MAX_AXES: usize = 40;

/// The axes of the large table, slowest first, each with the stride in the other table.
pub(crate) struct Axes {
    len: usize,
    size: [usize; MAX_AXES],
    stride: [usize; MAX_AXES],
}

impl Axes {
    /// From (size, stride) pairs, slowest axis first.
    pub(crate) fn new(pairs: impl Iterator<Item = (usize, usize)>) -> Self {
        let mut axes = Self { len: 0, size: [1; MAX_AXES], stride: [0; MAX_AXES] };
        for (size, stride) in pairs {
            if size == 1 {
                continue;
            }
            match axes.len.checked_sub(1) {
                Some(last) if axes.stride[last] == stride * size => {
                    axes.size[last] *= size;
                    axes.stride[last] = stride;
                }
                _ => {
                    axes.size[axes.len] = size;
                    axes.stride[axes.len] = stride;
                    axes.len += 1;
                }
            }
        }
        axes.len = axes.len.max(1);
        axes
    }

    /// Calls `f(start in the large table, start in the other)` for every innermost run, in order.
    #[inline]
    fn runs(&self, mut f: impl FnMut(usize, usize)) {
        let run = self.size[self.len - 1];
        let mut index = [0usize; MAX_AXES];
        let (mut dense, mut other) = (0, 0);
        loop {
            f(dense, other);
            dense += run;
            let mut axis = self.len - 1;
            loop {
                let Some(next) = axis.checked_sub(1) else { return };
                axis = next;
                index[axis] += 1;
                other += self.stride[axis];
                if index[axis] < self.size[axis] {
                    break;
                }
                other -= self.stride[axis] * self.size[axis];
                index[axis] = 0;
            }
        }
    }
}

/// Sets every cell of `large` to `op(cell, matching cell of small)`; `base` is the offset in `small`.
#[inline]
pub(crate) fn combine<N: Copy, S: Copy>(
    large: &mut [N],
    axes: &Axes,
    small: &[S],
    base: usize,
    op: impl Fn(N, S) -> N,
) {
    let (run, stride) = (axes.size[axes.len - 1], axes.stride[axes.len - 1]);
    axes.runs(|at, from| {
        let cells = &mut large[at..at + run];
        let from = base + from;
        match stride {
            0 => {
                let s = small[from];
                cells.iter_mut().for_each(|c| *c = op(*c, s));
            }
            1 => cells.iter_mut().zip(&small[from..from + run]).for_each(|(c, s)| *c = op(*c, *s)),
            _ => {
                cells.iter_mut().zip(small[from..].iter().step_by(stride)).for_each(|(c, s)| *c = op(*c, *s))
            }
        }
    });
}

/// Adds every cell of `large` to its cell of `small`.
pub(crate) fn sum_into<N: Number>(small: &mut [N], axes: &Axes, large: &[N]) {
    let (run, stride) = (axes.size[axes.len - 1], axes.stride[axes.len - 1]);
    axes.runs(|at, to| {
        let cells = &large[at..at + run];
        match stride {
            0 => small[to] = cells.iter().fold(small[to], |a, c| a.plus(*c)),
            1 => small[to..to + run].iter_mut().zip(cells).for_each(|(s, c)| *s = s.plus(*c)),
            _ => small[to..].iter_mut().step_by(stride).zip(cells).for_each(|(s, c)| *s = s.plus(*c)),
        }
    });
}
