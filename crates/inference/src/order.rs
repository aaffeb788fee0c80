//! In which order variables are eliminated: the one whose elimination adds the fewest links comes next.
//!
//! Min-fill, ties to the smallest number, so the order depends on nothing but the network and which nodes
//! are observed. Where it leads to large tables a second order, which weighs links by the number of
//! states, is tried too and the smaller total taken.

use alloc::vec;
use alloc::vec::Vec;

/// An undirected graph on `len` variables, as bit rows.
#[derive(Clone)]
pub(crate) struct Graph {
    len: usize,
    words: usize,
    rows: Vec<u64>,
    states: Vec<usize>,
}

/// One elimination: the variable and its neighbors at that moment, ascending.
#[derive(Clone)]
pub(crate) struct Step {
    pub(crate) var: usize,
    pub(crate) neighbors: Vec<usize>,
}

impl Graph {
    pub(crate) fn new(states: Vec<usize>) -> Self {
        let len = states.len();
        let words = len.div_ceil(64);
        Self { len, words, rows: vec![0; len * words], states }
    }

    /// Links every pair of the given variables.
    pub(crate) fn clique(&mut self, vars: &[usize]) {
        for a in vars {
            for b in vars {
                if a != b {
                    self.rows[a * self.words + b / 64] |= 1 << (b % 64);
                }
            }
        }
    }

    /// State counts by variable.
    pub(crate) fn states(&self) -> &[usize] {
        &self.states
    }

    fn row(&self, v: usize) -> &[u64] {
        &self.rows[v * self.words..(v + 1) * self.words]
    }

    fn linked(&self, a: usize, b: usize) -> bool {
        self.row(a)[b / 64] >> (b % 64) & 1 == 1
    }

    /// Weight of the neighbors of `a` that are neither `b` nor neighbors of `b`.
    fn outside(&self, a: usize, b: usize, weighted: bool) -> u64 {
        let words = self.row(a).iter().zip(self.row(b)).map(|(x, y)| x & !y);
        if weighted {
            let others = words.enumerate().flat_map(|(i, w)| word_bits(w).map(move |x| i * 64 + x));
            others.filter(|x| *x != b).map(|x| self.states[x] as u64).sum()
        } else {
            words.map(|w| u64::from(w.count_ones())).sum::<u64>() - 1
        }
    }

    /// Links that eliminating `v` would add, each counted twice; each weighs the product of its ends' state
    /// counts if asked.
    fn fill(&self, v: usize, weighted: bool) -> u64 {
        let own = self.row(v);
        let (mut count, mut linked, mut weight) = (0, 0, 0);
        for (i, word) in own.iter().enumerate() {
            let mut word = *word;
            while word != 0 {
                let u = i * 64 + word.trailing_zeros() as usize;
                word &= word - 1;
                let row = self.row(u);
                if weighted {
                    let mut sum = 0;
                    for (j, (x, y)) in own.iter().zip(row).enumerate() {
                        let mut apart = x & !y;
                        while apart != 0 {
                            sum += self.states[j * 64 + apart.trailing_zeros() as usize] as u64;
                            apart &= apart - 1;
                        }
                    }
                    let size = self.states[u] as u64;
                    weight += (sum - size) * size;
                } else {
                    count += 1;
                    linked += own.iter().zip(row).map(|(x, y)| u64::from((x & y).count_ones())).sum::<u64>();
                }
            }
        }
        // Unweighted: ordered pairs of neighbors, less those that know each other.
        if weighted { weight } else { count * count - count - linked }
    }

    fn weight(&self, v: usize, weighted: bool) -> u64 {
        if weighted { self.states[v] as u64 } else { 1 }
    }

    /// Eliminates `v`; returns the variables whose fill count may have changed.
    fn eliminate(&mut self, v: usize) -> Vec<u64> {
        let own = self.row(v).to_vec();
        let mut touched = own.clone();
        for u in bits(&own) {
            for w in bits(&own).filter(|w| *w > u) {
                if self.rows[u * self.words + w / 64] >> (w % 64) & 1 == 0 {
                    // Whoever knows both ends of a new link has one link less to add.
                    for (i, t) in touched.iter_mut().enumerate() {
                        *t |= self.rows[u * self.words + i] & self.rows[w * self.words + i];
                    }
                }
            }
        }
        for u in bits(&own) {
            let row = &mut self.rows[u * self.words..(u + 1) * self.words];
            row.iter_mut().zip(&own).for_each(|(r, o)| *r |= o);
            row[u / 64] &= !(1 << (u % 64));
            row[v / 64] &= !(1 << (v % 64));
        }
        touched[v / 64] &= !(1 << (v % 64));
        touched
    }

    /// Eliminates every variable not marked in `keep`.
    fn run(self, keep: &[bool], weighted: bool) -> Vec<Step> {
        let mut run = Run::new(self, keep, weighted);
        run.advance(u64::MAX, u64::from);
        run.steps
    }

    fn total(&self, steps: &[Step]) -> u64 {
        steps.iter().fold(0, |sum, s| sum.saturating_add(self.cells(s)))
    }

    /// Cells of the table over a variable and its neighbors.
    pub(crate) fn cells(&self, step: &Step) -> u64 {
        let own = self.states[step.var] as u64;
        step.neighbors.iter().fold(own, |n, v| n.saturating_mul(self.states[*v] as u64))
    }

    /// The elimination order; variables marked in `keep` stay.
    pub(crate) fn order(&self, keep: &[bool]) -> Vec<Step> {
        /// Below this total a better order saves less than finding it costs.
        const WORTH_A_SECOND_LOOK: u64 = 1 << 19;
        let first = self.clone().run(keep, false);
        let alike = self.states.windows(2).all(|s| s[0] == s[1]);
        if alike || self.total(&first) < WORTH_A_SECOND_LOOK {
            return first;
        }
        let second = self.clone().run(keep, true);
        if self.total(&second) < self.total(&first) { second } else { first }
    }
}

/// An elimination under way.
#[derive(Clone)]
pub(crate) struct Run {
    pub(crate) graph: Graph,
    fill: Vec<u64>,
    /// Variables still to be eliminated, in no particular order.
    pub(crate) open: Vec<usize>,
    pub(crate) steps: Vec<Step>,
    weighted: bool,
}

impl Run {
    pub(crate) fn new(graph: Graph, keep: &[bool], weighted: bool) -> Self {
        let fill: Vec<u64> = (0..graph.len).map(|v| graph.fill(v, weighted)).collect();
        let open: Vec<usize> = (0..graph.len).filter(|v| !keep[*v]).collect();
        let steps = Vec::with_capacity(open.len());
        Self { graph, fill, open, steps, weighted }
    }

    /// Eliminates the variable with the lowest fill, ties to the lowest `rank`, again and again while that
    /// fill is at most `limit`. Ranks must differ.
    pub(crate) fn advance(&mut self, limit: u64, rank: impl Fn(u32) -> u64) {
        self.advance_while(limit, rank, |_| true);
    }

    /// The same, as long as `go` says so after a step.
    pub(crate) fn advance_while(
        &mut self,
        limit: u64,
        rank: impl Fn(u32) -> u64,
        mut go: impl FnMut(&Step) -> bool,
    ) {
        let Self { graph, fill, open, steps, weighted } = self;
        while let Some(at) = (0..open.len()).min_by_key(|i| (fill[open[*i]], rank(open[*i] as u32))) {
            if fill[open[at]] > limit {
                return;
            }
            let var = open.swap_remove(at);
            steps.push(Step { var, neighbors: bits(graph.row(var)).collect() });
            if fill[var] == 0 {
                // Its neighbors all know each other: they only lose the pairs it was part of.
                for u in bits(graph.row(var)) {
                    let lost = 2 * graph.weight(var, *weighted) * graph.outside(u, var, *weighted);
                    fill[u] = fill[u].saturating_sub(lost);
                }
                graph.eliminate(var);
            } else {
                for u in bits(&graph.eliminate(var)) {
                    fill[u] = graph.fill(u, *weighted);
                }
            }
            // The eliminated variable's own row is no one's neighbor any more.
            graph.rows[var * graph.words..(var + 1) * graph.words].fill(0);
            if !steps.last().is_none_or(&mut go) {
                return;
            }
        }
    }

    /// What is left to eliminate as a graph of its own, with its variables' numbers in this one.
    pub(crate) fn rest(&self) -> (Graph, Vec<usize>) {
        let mut vars = self.open.clone();
        vars.sort_unstable();
        let mut graph = Graph::new(vars.iter().map(|v| self.graph.states[*v]).collect());
        for (i, v) in vars.iter().enumerate() {
            for (j, _) in vars.iter().enumerate().filter(|(_, u)| self.graph.linked(*v, **u)) {
                graph.rows[i * graph.words + j / 64] |= 1 << (j % 64);
            }
        }
        (graph, vars)
    }
}

fn word_bits(mut word: u64) -> impl Iterator<Item = usize> {
    core::iter::from_fn(move || {
        if word == 0 {
            return None;
        }
        let b = word.trailing_zeros() as usize;
        word &= word - 1;
        Some(b)
    })
}

fn bits(row: &[u64]) -> impl Iterator<Item = usize> + '_ {
    row.iter().enumerate().flat_map(|(i, w)| word_bits(*w).map(move |b| i * 64 + b))
}
