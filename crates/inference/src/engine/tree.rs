//! The junction tree with its numbers: one compressed potential per cluster, and every index map.

use alloc::vec;
use alloc::vec::Vec;
use core::ops::Range;

use super::map::Map;
use super::shape::{Knot, cells, shape};
use super::triangulate::triangulate;
use crate::Network;
use crate::kernel::{Axes, combine};
use crate::number::{ROOM, Scale, reach};
use crate::order::Graph;

/// Most cells all clusters together may have before compression; beyond, an engine keeps no tree.
pub(crate) const TREE_LIMIT: u64 = 1 << 24;

/// A variable and where its values lie among the cells of a table.
#[derive(Clone, Debug)]
pub(crate) struct Place {
    pub(crate) var: usize,
    pub(crate) map: Map,
}

/// One cluster of the tree.
#[derive(Clone, Debug)]
pub(crate) struct Cluster {
    pub(crate) parent: Option<usize>,
    pub(crate) children: Vec<usize>,
    /// Its cells in the arena of tables.
    pub(crate) cells: Range<usize>,
    /// The cells it shares with its parent, in the arenas of messages, of those only that either of them has; one
    /// cell at a root.
    pub(crate) shared: Range<usize>,
    /// From its own cells to the shared ones.
    pub(crate) up: Map,
    /// From its parent's cells to the shared ones; none at a root.
    pub(crate) down: Option<Map>,
    /// Variables whose findings enter here.
    pub(crate) findings: Vec<Place>,
    /// Variables whose distribution is read here.
    pub(crate) inside: Vec<Place>,
    /// Variables whose distribution is read from the cells shared with the parent.
    pub(crate) between: Vec<Place>,
    /// No potential above zero is below 2^floor.
    pub(crate) floor: i32,
}

/// See the module head. Clusters come after their parents.
#[derive(Clone, Debug)]
pub(crate) struct Tree {
    pub(crate) clusters: Vec<Cluster>,
    /// Products of the tables of the nodes, compressed.
    pub(crate) potentials: Vec<f64>,
    /// All message cells.
    pub(crate) message_cells: usize,
    /// Cluster where the findings on a node enter; `None` for a node with a single state.
    pub(crate) home: Vec<Option<usize>>,
    /// Cells that are impossible without findings are gone, so zeros of messages without findings are read by no one.
    pub(crate) pruned: bool,
    /// Factor that lies in no cluster: tables over single states.
    pub(crate) constant: Scale,
}

/// What a tree is made from, kept while cells are being dropped.
pub(crate) struct Draft {
    knots: Vec<Knot>,
    states: Vec<usize>,
    /// Cells kept of each cluster, by dense index.
    kept: Vec<Vec<u32>>,
    /// What they hold, one cluster after the other. Lent to the tree that is made of it, because a house's are megabytes.
    potentials: Vec<f64>,
    pruned: bool,
    constant: Scale,
}

impl Draft {
    /// `None` if the tables would be too large or their entries too far apart for plain doubles.
    pub(crate) fn new(net: &Network, tries: u32) -> Option<Self> {
        let states: Vec<usize> = net.nodes().iter().map(|n| n.states.len()).collect();
        let free: Vec<usize> = (0..net.len()).filter(|n| states[*n] > 1).collect();
        let mut place = vec![usize::MAX; net.len()];
        free.iter().enumerate().for_each(|(i, n)| place[*n] = i);
        let mut graph = Graph::new(free.iter().map(|n| states[*n]).collect());
        for (id, node) in net.nodes().iter().enumerate() {
            let family = node.parents.iter().chain([&id]).map(|n| place[*n]);
            graph.clique(&family.filter(|p| *p != usize::MAX).collect::<Vec<usize>>());
        }
        let (_, mut cliques) = triangulate(graph, tries);
        let total = cliques.iter().fold(0u64, |sum, c| sum.saturating_add(c.cells));
        if total > TREE_LIMIT {
            return None;
        }
        for clique in &mut cliques {
            clique.scope.iter_mut().chain(&mut clique.separator).for_each(|v| *v = free[*v]);
        }
        let knots = shape(&cliques, &states);
        let mut draft = Self {
            kept: Vec::new(),
            potentials: Vec::new(),
            knots,
            states,
            pruned: false,
            constant: Scale::ONE,
        };
        draft.multiply(net)?;
        Some(draft)
    }

    fn holding(&self, vars: usize) -> Vec<Vec<usize>> {
        let mut holding = vec![Vec::new(); vars];
        for (k, knot) in self.knots.iter().enumerate() {
            knot.scope.iter().for_each(|v| holding[*v].push(k));
        }
        holding
    }

    /// Multiplies every node's table into the smallest cluster that holds its family.
    fn multiply(&mut self, net: &Network) -> Option<()> {
        let holding = self.holding(net.len());
        let mut inside: Vec<Vec<usize>> = vec![Vec::new(); self.knots.len()];
        for (id, node) in net.nodes().iter().enumerate() {
            let family: Vec<usize> =
                [id].iter().chain(&node.parents).copied().filter(|n| self.states[*n] > 1).collect();
            let Some(rarest) = family.iter().min_by_key(|v| holding[**v].len()) else {
                // A single state under single states.
                self.constant.times(node.cpt.first().copied().filter(|x| *x > 0.0)?, 0);
                continue;
            };
            let fits = |k: &&usize| family.iter().all(|v| self.knots[**k].scope.contains(v));
            let smallest = holding[*rarest]
                .iter()
                .filter(fits)
                .min_by_key(|k| (cells(&self.knots[**k].scope, &self.states), **k))?;
            inside[*smallest].push(id);
        }
        let mut dense: Vec<f64> = Vec::new();
        let mut stride = vec![0; net.len()];
        for (knot, ids) in self.knots.iter().zip(&inside) {
            dense.clear();
            dense.resize(cells(&knot.scope, &self.states) as usize, 1.0);
            let mut floor = 0;
            for id in ids {
                floor += net.floor(*id) - 1;
                if floor < ROOM {
                    return None;
                }
                let node = &net.nodes()[*id];
                let mut next = 1;
                for v in [*id].iter().chain(node.parents.iter().rev()) {
                    stride[*v] = next;
                    next *= self.states[*v];
                }
                let axes = Axes::new(knot.scope.iter().map(|v| (self.states[*v], stride[*v])));
                combine(&mut dense, &axes, &node.cpt, 0, |c, s| c * s);
                stride[*id] = 0;
                node.parents.iter().for_each(|v| stride[*v] = 0);
            }
            let kept: Vec<u32> = (0..dense.len()).filter(|i| dense[*i] > 0.0).map(|i| i as u32).collect();
            self.potentials.extend(kept.iter().map(|i| dense[*i as usize]));
            self.kept.push(kept);
        }
        Some(())
    }

    /// Takes back what the tree before holds, and drops the cells that are not marked; marks run through all clusters'
    /// cells in order.
    pub(crate) fn keep(&mut self, mut potentials: Vec<f64>, marked: &[bool]) {
        self.pruned = true;
        let mut of = marked.iter();
        for kept in &mut self.kept {
            kept.retain(|_| of.next().copied().unwrap_or(false));
        }
        let mut of = marked.iter();
        potentials.retain(|_| of.next().copied().unwrap_or(false));
        potentials.shrink_to_fit();
        self.potentials = potentials;
    }

    /// For each kept cell of cluster `k`, the cell of a table over `vars` (row-major), all of them in `k`.
    fn targets(&self, k: usize, vars: &[usize]) -> Vec<u32> {
        let scope = &self.knots[k].scope;
        let mut to: Vec<(usize, usize)> = scope.iter().map(|v| (self.states[*v], 0)).collect();
        let mut stride = 1;
        for v in vars.iter().rev() {
            if let Some(axis) = scope.iter().position(|s| s == v) {
                to[axis].1 = stride;
            }
            stride *= self.states[*v];
        }
        counterparts(&to, self.kept[k].iter().copied())
    }

    /// Maps of cluster `k` and its parent to the cells they share, and which of the dense ones those are.
    fn border(&self, k: usize) -> (Map, Option<Map>, Vec<u32>) {
        let knot = &self.knots[k];
        let shared = &knot.scope[..knot.shared];
        let mut up = self.targets(k, shared);
        let mut down = knot.parent.map(|p| self.targets(p, shared));
        let mut number = vec![u32::MAX; cells(shared, &self.states) as usize];
        up.iter().chain(down.iter().flatten()).for_each(|to| number[*to as usize] = 0);
        let used: Vec<u32> = (0..number.len() as u32).filter(|to| number[*to as usize] == 0).collect();
        (0..).zip(&used).for_each(|(i, to)| number[*to as usize] = i);
        up.iter_mut().chain(down.iter_mut().flatten()).for_each(|to| *to = number[*to as usize]);
        (Map::new(up), down.map(Map::new), used)
    }

    /// Settles where findings enter and distributions are read, and makes every map.
    pub(crate) fn tree(&mut self) -> Tree {
        let holding = self.holding(self.states.len());
        let mut clusters: Vec<Cluster> = Vec::with_capacity(self.knots.len());
        let (mut at, mut message, mut shared) = (0, 0, Vec::with_capacity(self.knots.len()));
        for (k, knot) in self.knots.iter().enumerate() {
            let (up, down, used) = self.border(k);
            let cells = at..at + self.kept[k].len();
            clusters.push(Cluster {
                parent: knot.parent,
                children: knot.children.clone(),
                cells: cells.clone(),
                shared: message..message + used.len(),
                up,
                down,
                findings: Vec::new(),
                inside: Vec::new(),
                between: Vec::new(),
                floor: reach(&self.potentials[cells]).map_or(0, |(_, low)| low.min(0) - 1),
            });
            at += self.kept[k].len();
            message += used.len();
            shared.push(used);
        }
        let mut home = vec![None; self.states.len()];
        for (v, holding) in holding.iter().enumerate() {
            let Some(smallest) = holding.iter().min_by_key(|k| (self.kept[**k].len(), **k)) else { continue };
            home[v] = Some(*smallest);
            let place = Place { var: v, map: Map::new(self.targets(*smallest, &[v])) };
            clusters[*smallest].findings.push(place.clone());
            let size = |k: &usize| clusters[*k].shared.len();
            let border = holding
                .iter()
                .filter(|k| self.knots[**k].scope[..self.knots[**k].shared].contains(&v))
                .min_by_key(|k| (size(k), **k));
            match border {
                Some(b) if size(b) < self.kept[*smallest].len() => {
                    let vars = &self.knots[*b].scope[..self.knots[*b].shared];
                    let to: Vec<(usize, usize)> =
                        vars.iter().map(|s| (self.states[*s], usize::from(*s == v))).collect();
                    let map = Map::new(counterparts(&to, shared[*b].iter().copied()));
                    clusters[*b].between.push(Place { var: v, map });
                }
                _ => clusters[*smallest].inside.push(place),
            }
        }
        Tree {
            clusters,
            potentials: core::mem::take(&mut self.potentials),
            message_cells: message,
            home,
            pruned: self.pruned,
            constant: self.constant,
        }
    }
}

/// For each dense index of a table whose axes have (size, stride elsewhere), slowest first: the index elsewhere.
fn counterparts(axes: &[(usize, usize)], cells: impl Iterator<Item = u32>) -> Vec<u32> {
    // The fastest axes up to about the root of the whole in one list, the others in another.
    let whole = axes.iter().fold(1u64, |n, (size, _)| n.saturating_mul(*size as u64));
    let (mut split, mut low) = (axes.len(), 1u64);
    while split > 0 && low.saturating_mul(low) < whole {
        split -= 1;
        low *= axes[split].0 as u64;
    }
    let list = |axes: &[(usize, usize)]| {
        axes.iter().fold(vec![0u32], |list, (size, stride)| {
            list.iter().flat_map(|at| (0..*size).map(move |s| at + (s * stride) as u32)).collect()
        })
    };
    let (high, fast) = (list(&axes[..split]), list(&axes[split..]));
    let low = low as u32;
    cells.map(|cell| high[(cell / low) as usize] + fast[(cell % low) as usize]).collect()
}
