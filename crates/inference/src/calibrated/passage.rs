//! What a finding on one side of a cluster says on another side.
//!
//! A finding beyond port S of a cluster is known there by P(finding | s, e), one number per state s of the
//! port's variables. At port T of the same cluster it is P(finding | t, e) = sum over s of P(s | t, e) times
//! that. The numbers P(s | t, e) are laid out once for every pair of ports that is used, and serve every
//! finding that comes by. All of this is an average, so nothing leaves the range of what the finding said.

use alloc::vec;
use alloc::vec::Vec;

use super::tree::Tree;
use crate::kernel::{Axes, sum_into};

/// A message this close to saying the same of every state says nothing.
const ALIKE: f64 = 1e-14;

/// P(s | t, e) for every t, in rows: number and place of s.
#[derive(Clone, Copy)]
pub(super) struct Passage {
    start: usize,
    rows: usize,
    each: usize,
}

/// All passages laid out so far.
pub(super) struct Passages {
    list: Vec<Passage>,
    /// By cluster and port in: number of the passage plus one by port out, empty until the port is used.
    numbers: Vec<Vec<Vec<u32>>>,
    weights: Vec<f64>,
    from: Vec<u32>,
    /// Room by variable.
    strides: Vec<usize>,
}

impl Passages {
    pub(super) fn new(tree: &Tree) -> Self {
        Self {
            list: Vec::new(),
            numbers: tree.cliques.iter().map(|c| vec![Vec::new(); c.ports()]).collect(),
            weights: Vec::new(),
            from: Vec::new(),
            strides: vec![0; tree.homes.len()],
        }
    }

    /// The passage through a cluster from one port to another, laid out if it is not yet.
    pub(super) fn through(
        &mut self,
        tree: &Tree,
        tables: &[f64],
        sizes: &[usize],
        clique: usize,
        ports: [usize; 2],
    ) -> Passage {
        let numbers = &mut self.numbers[clique][ports[0]];
        if numbers.is_empty() {
            numbers.resize(tree.cliques[clique].ports(), 0);
        }
        if let Some(number) = (numbers[ports[1]] as usize).checked_sub(1) {
            return self.list[number];
        }
        let [source, target] = ports.map(|port| tree.vars(clique, port));
        let clique_of = &tree.cliques[clique];
        let made = self.lay(&clique_of.scope, &tables[clique_of.table.clone()], sizes, source, target);
        self.list.push(made);
        self.numbers[clique][ports[0]][ports[1]] = self.list.len() as u32;
        made
    }

    fn lay(
        &mut self,
        scope: &[usize],
        belief: &[f64],
        sizes: &[usize],
        source: &[usize],
        target: &[usize],
    ) -> Passage {
        let rest = || source.iter().filter(|v| !target.contains(v));
        let each: usize = rest().map(|v| sizes[*v]).product();
        let rows: usize = target.iter().map(|v| sizes[*v]).product();
        let start = self.weights.len();
        self.weights.resize(start + rows * each, 0.0);
        let weights = &mut self.weights[start..];
        let mut next = 1;
        let order = || target.iter().chain(rest());
        for v in order().collect::<Vec<_>>().into_iter().rev() {
            self.strides[*v] = next;
            next *= sizes[*v];
        }
        let axes = Axes::new(scope.iter().map(|v| (sizes[*v], self.strides[*v])));
        sum_into(weights, &axes, belief);
        order().for_each(|v| self.strides[*v] = 0);
        for row in weights.chunks_exact_mut(each) {
            let total = row.iter().fold(0.0, |a, x| a + x);
            // A state that cannot be is never counted; any average will do.
            let even = total <= 0.0;
            row.iter_mut().for_each(|x| *x = if even { 1.0 / each as f64 } else { *x / total });
        }
        // Places in the source, row by row.
        let mut next = 1;
        for v in source.iter().rev() {
            self.strides[*v] = next;
            next *= sizes[*v];
        }
        self.from.push(0);
        for v in order() {
            let (size, stride) = (sizes[*v], self.strides[*v] as u32);
            // Each place becomes `size` places, from the last to the first so that none is overwritten.
            let len = self.from.len() - start;
            self.from.resize(start + len * size, 0);
            for i in (0..len).rev() {
                let at = self.from[start + i];
                for s in (0..size).rev() {
                    self.from[start + i * size + s] = at + s as u32 * stride;
                }
            }
        }
        source.iter().for_each(|v| self.strides[*v] = 0);
        Passage { start, rows, each }
    }

    /// Carries several findings at once through a passage; false if none of them says anything on this side.
    pub(super) fn carry<const L: usize>(
        &self,
        passage: Passage,
        source: &[[f64; L]],
        target: &mut [[f64; L]],
    ) -> bool {
        let Passage { start, rows, each } = passage;
        let places = start..start + rows * each;
        let (weights, from) = (&self.weights[places.clone()], &self.from[places]);
        if each == 1 {
            target.iter_mut().zip(from).for_each(|(t, s)| *t = source[*s as usize]);
        } else {
            let rows = weights.chunks_exact(each).zip(from.chunks_exact(each));
            for (t, (weights, from)) in target.iter_mut().zip(rows) {
                let mut sum = [0.0; L];
                for (w, s) in weights.iter().zip(from) {
                    let said = &source[*s as usize];
                    sum.iter_mut().zip(said).for_each(|(a, x)| *a += w * x);
                }
                *t = sum;
            }
        }
        speaks(target)
    }
}

/// False if every state is told the same.
pub(super) fn speaks<const L: usize>(said: &[[f64; L]]) -> bool {
    let Some((first, rest)) = said.split_first() else { return false };
    rest.iter().any(|t| t.iter().zip(first).any(|(x, y)| (x - y).abs() > ALIKE * y))
}
