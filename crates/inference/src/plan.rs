//! The shape of one elimination, before any arithmetic: which nodes take part, in which order they go, and
//! which tables meet in which cluster.
//!
//! Observed nodes and nodes with a single state are sliced out of every table first. What is left is
//! numbered by elimination position: cluster k belongs to the k-th variable eliminated and holds it and
//! the later variables it meets; its axes run from the latest variable (slowest) to its own (fastest).

use alloc::vec;
use alloc::vec::Vec;

use crate::number::{ROOM, Scale, reach};
use crate::order::Graph;
use crate::{Evidence, InferError, Network, NodeId};

/// Most cells one cluster's table may have: 2^26, half a gigabyte.
pub const CLUSTER_LIMIT: u64 = 1 << 26;
/// Most cells all clusters together may have: 2^27.
pub const TOTAL_LIMIT: u64 = 1 << 27;

/// Where a factor's numbers come from.
pub(crate) enum Source {
    /// A slice of the node's own table.
    Table(NodeId),
    /// A likelihood vector.
    Soft(Vec<f64>),
}

/// A table over a few variables, reached through strides.
pub(crate) struct Factor {
    /// (variable by position, stride in the source).
    pub(crate) axes: Vec<(usize, usize)>,
    /// Offset in the source: the observed members of the family.
    pub(crate) base: usize,
    pub(crate) source: Source,
    /// No entry above zero is below 2^floor, relative to an entry of at most 1.
    pub(crate) floor: i32,
}

/// The bucket of one variable.
pub(crate) struct Cluster {
    /// Variables by position, latest first, own variable last.
    pub(crate) scope: Vec<usize>,
    /// Product of the state counts.
    pub(crate) cells: usize,
    /// Start of its table in the arena.
    pub(crate) offset: usize,
    /// Start of its message in the message arena.
    pub(crate) message: usize,
    /// The cluster its message goes to: the next of its variables to be eliminated.
    pub(crate) parent: Option<usize>,
    pub(crate) children: Vec<usize>,
    pub(crate) factors: Vec<usize>,
    /// True if what arrives here sums to one whatever the other variables are: a node without evidence
    /// on it or below it, with nothing but its own table.
    pub(crate) unit: bool,
}

/// See the module head.
pub(crate) struct Plan {
    /// Node, or hidden variable of a factored family, at each position.
    pub(crate) vars: Vec<NodeId>,
    /// State count at each position.
    pub(crate) sizes: Vec<usize>,
    /// State each node and hidden variable is fixed to, if it is.
    pub(crate) fixed: Vec<Option<usize>>,
    pub(crate) factors: Vec<Factor>,
    /// One per eliminated variable; kept variables have positions behind them and no cluster.
    pub(crate) clusters: Vec<Cluster>,
    /// Factors over kept variables only, for the final table.
    pub(crate) last_factors: Vec<usize>,
    /// Clusters whose message goes to the final table.
    pub(crate) last_children: Vec<usize>,
    pub(crate) cells: usize,
    pub(crate) message_cells: usize,
    /// Product of everything that the evidence turned into a bare number; `None` if that is zero.
    pub(crate) scale: Option<Scale>,
}

/// Marks the given nodes and everything above them.
pub(crate) fn with_ancestors(net: &Network, seeds: impl Iterator<Item = NodeId>) -> Vec<bool> {
    let mut marked = vec![false; net.len()];
    seeds.for_each(|s| marked[s] = true);
    for id in net.topological().iter().rev() {
        if marked[*id] {
            net.nodes()[*id].parents.iter().for_each(|p| marked[*p] = true);
        }
    }
    marked
}

impl Plan {
    /// Plans an elimination of the nodes marked in `include` (closed under parents, with all evidence), all
    /// but those in `kept`. The evidence must have been checked.
    pub(crate) fn new(
        net: &Network,
        ev: &Evidence,
        include: &[bool],
        kept: &[NodeId],
    ) -> Result<Self, InferError> {
        // From here on with the hidden variables of factored families, numbered after the nodes.
        let all = net.variables();
        let hidden_too = |of: &[bool]| -> Vec<bool> { (0..all).map(|v| of[net.owner(v)]).collect() };
        let include = &hidden_too(include);
        let mut fixed: Vec<Option<usize>> = (0..all).map(|v| (net.width(v) == 1).then_some(0)).collect();
        for (n, s) in ev.hard() {
            fixed[n] = Some(s);
            if s == 0 {
                // The highest of several is the lowest state only if each of them is.
                net.hidden(n).for_each(|h| fixed[h] = Some(0));
            }
        }
        let below = hidden_too(&with_ancestors(net, ev.nodes().into_iter()));

        // Free variables, first by node number.
        let free: Vec<NodeId> = (0..all).filter(|n| include[*n] && fixed[*n].is_none()).collect();
        let mut place = vec![None; all];
        free.iter().enumerate().for_each(|(i, n)| place[*n] = Some(i));
        let mut graph = Graph::new(free.iter().map(|n| net.width(*n)).collect());
        let mut family = Vec::new();
        for id in (0..all).filter(|n| include[*n]) {
            family.clear();
            family.extend(net.family(id).parents.iter().chain([&id]).filter_map(|n| place[*n]));
            graph.clique(&family);
        }
        let mut keep = vec![false; free.len()];
        kept.iter().filter_map(|k| place[*k]).for_each(|at| keep[at] = true);
        let steps = graph.order(&keep);
        let total = steps.iter().fold(0u64, |sum, s| sum.saturating_add(graph.cells(s)));
        if let Some(worst) = steps.iter().max_by_key(|s| graph.cells(s))
            && (graph.cells(worst) > CLUSTER_LIMIT || total > TOTAL_LIMIT)
        {
            let one = graph.cells(worst) > CLUSTER_LIMIT;
            let mut cluster: Vec<NodeId> =
                worst.neighbors.iter().chain([&worst.var]).map(|v| net.owner(free[*v])).collect();
            cluster.sort_unstable();
            cluster.dedup();
            return Err(InferError::TooLarge {
                cells: if one { graph.cells(worst) } else { total },
                limit: if one { CLUSTER_LIMIT } else { TOTAL_LIMIT },
                cluster: cluster.iter().map(|n| net.nodes()[*n].name.clone()).collect(),
            });
        }

        // Then by elimination position, kept variables last.
        let mut vars: Vec<NodeId> = steps.iter().map(|s| free[s.var]).collect();
        vars.extend((0..free.len()).filter(|v| keep[*v]).map(|v| free[v]));
        let mut position = vec![0; free.len()];
        for (k, n) in vars.iter().enumerate() {
            if let Some(at) = place[*n].replace(k) {
                position[at] = k;
            }
        }
        let sizes: Vec<usize> = vars.iter().map(|n| net.width(*n)).collect();
        let mut plan = Self {
            vars,
            sizes,
            fixed,
            factors: Vec::with_capacity(free.len()),
            clusters: Vec::with_capacity(steps.len()),
            last_factors: Vec::new(),
            last_children: Vec::new(),
            cells: 0,
            message_cells: 0,
            scale: Some(Scale::ONE),
        };
        for (k, step) in steps.iter().enumerate() {
            let mut scope: Vec<usize> = step.neighbors.iter().map(|v| position[*v]).collect();
            scope.sort_unstable_by(|a, b| b.cmp(a));
            let parent = scope.last().copied();
            scope.push(k);
            let cells: usize = scope.iter().map(|v| plan.sizes[*v]).product();
            let (offset, message) = (plan.cells, plan.message_cells);
            plan.cells += cells;
            plan.message_cells += cells / plan.sizes[k];
            let (children, factors) = (Vec::new(), Vec::new());
            plan.clusters.push(Cluster {
                scope,
                cells,
                offset,
                message,
                parent,
                children,
                factors,
                unit: false,
            });
        }
        for k in 0..plan.clusters.len() {
            if let Some(parent) = plan.clusters[k].parent {
                match plan.clusters.get_mut(parent) {
                    Some(cluster) => cluster.children.push(k),
                    None => plan.last_children.push(k),
                }
            }
        }
        plan.hand_out(net, ev, include, &below, &place);
        for k in 0..plan.clusters.len() {
            let cluster = &plan.clusters[k];
            let own = matches!(cluster.factors[..], [f] if matches!(plan.factors[f].source,
                Source::Table(n) if n == plan.vars[k] && !below[n]));
            plan.clusters[k].unit = own && cluster.children.iter().all(|c| plan.clusters[*c].unit);
        }
        Ok(plan)
    }

    /// What is left of a family's table once the fixed members are sliced out: (variable, stride) and offset.
    pub(crate) fn slice(
        &self,
        net: &Network,
        id: NodeId,
        place: &[Option<usize>],
    ) -> (Vec<(usize, usize)>, usize) {
        let family = net.family(id);
        let (mut stride, mut base, mut axes) = (1, 0, Vec::with_capacity(family.parents.len() + 1));
        for member in [id].iter().chain(family.parents.iter().rev()) {
            match (self.fixed[*member], place[*member]) {
                (Some(state), _) => base += state * stride,
                (None, Some(at)) => axes.push((at, stride)),
                (None, None) => {}
            }
            stride *= net.width(*member);
        }
        (axes, base)
    }

    /// Gives every sliced table and every likelihood to the first of its variables to be eliminated.
    fn hand_out(
        &mut self,
        net: &Network,
        ev: &Evidence,
        include: &[bool],
        below: &[bool],
        place: &[Option<usize>],
    ) {
        for id in (0..net.variables()).filter(|n| include[*n]) {
            let family = net.family(id);
            if net.width(id) == 1 && !below[id] {
                continue; // a table of ones
            }
            let (axes, base) = self.slice(net, id, place);
            if axes.is_empty() {
                self.constant(family.table[base]);
            } else {
                self.give(Factor { axes, base, source: Source::Table(id), floor: net.floor(id) - 1 });
            }
        }
        for (id, likelihood) in ev.soft() {
            match (self.fixed[id], place[id]) {
                (Some(state), _) => self.constant(likelihood[state]),
                (None, Some(at)) => {
                    let axes = Vec::from([(at, 1)]);
                    self.give(Factor { axes, base: 0, source: Source::Soft(likelihood.into()), floor: 0 });
                }
                (None, None) => {}
            }
        }
    }

    fn constant(&mut self, x: f64) {
        match &mut self.scale {
            Some(scale) if x > 0.0 => scale.times(x, 0),
            _ => self.scale = None,
        }
    }

    fn give(&mut self, mut factor: Factor) {
        if let Source::Soft(likelihood) = &mut factor.source
            && let Some((top, low)) = reach(likelihood)
        {
            // Likelihoods may be of any size; a vector of ordinary spread is brought near 1, which loses
            // nothing, and one of extraordinary spread is left to wide numbers.
            if low - top > ROOM {
                let (a, b) = (-top / 2, -top - (-top / 2));
                likelihood.iter_mut().for_each(|x| *x = *x * libm::scalbn(1.0, a) * libm::scalbn(1.0, b));
                if let Some(scale) = &mut self.scale {
                    scale.times(1.0, i64::from(top));
                }
            }
            factor.floor = low - top - 1;
        }
        let first = factor.axes.iter().map(|(v, _)| *v).min().unwrap_or(0);
        match self.clusters.get_mut(first) {
            Some(cluster) => cluster.factors.push(self.factors.len()),
            None => self.last_factors.push(self.factors.len()),
        }
        self.factors.push(factor);
    }
}
