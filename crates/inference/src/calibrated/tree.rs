//! The clusters of one elimination that lie in no other, what they share, and where each node is read.

use alloc::vec;
use alloc::vec::Vec;
use core::ops::Range;

use crate::engine::triangulate::cliques;
use crate::order::Step;
use crate::plan::Plan;

/// A cluster and its ports: first its borders, then the variables that are read here.
pub(super) struct Clique {
    /// Variables by position, slowest axis first.
    pub(super) scope: Vec<usize>,
    /// Its belief among the tables of the elimination.
    pub(super) table: Range<usize>,
    pub(super) borders: Vec<usize>,
    /// Variables whose home this is.
    pub(super) nodes: Vec<usize>,
}

/// What two neighboring clusters share.
pub(super) struct Border {
    /// Variables by position, slowest axis first.
    pub(super) vars: Vec<usize>,
    pub(super) cells: usize,
    /// The two sides: away from the root, toward it.
    pub(super) sides: [Side; 2],
}

/// One side of a border.
#[derive(Clone, Copy)]
pub(super) struct Side {
    pub(super) clique: usize,
    /// Which of the cluster's ports the border is.
    pub(super) port: usize,
}

/// Where a variable is read.
#[derive(Clone, Copy)]
pub(super) struct Home {
    pub(super) clique: usize,
    pub(super) port: usize,
}

pub(super) struct Tree {
    pub(super) cliques: Vec<Clique>,
    pub(super) borders: Vec<Border>,
    /// By variable.
    pub(super) homes: Vec<Home>,
    /// The cluster that each bucket of the elimination lies in.
    pub(super) holders: Vec<usize>,
    /// Clusters with the border toward the root, none at a root; roots and parents come first.
    pub(super) order: Vec<(usize, Option<usize>)>,
}

impl Clique {
    /// Number of ports.
    pub(super) fn ports(&self) -> usize {
        self.borders.len() + self.nodes.len()
    }
}

impl Tree {
    /// The tree of a plan without kept variables.
    pub(super) fn new(plan: &Plan) -> Self {
        let steps: Vec<Step> = plan
            .clusters
            .iter()
            .enumerate()
            .map(|(k, c)| Step { var: k, neighbors: c.scope[..c.scope.len() - 1].to_vec() })
            .collect();
        let (_, list) = cliques(&steps, &plan.sizes);
        // The first variable to go is the one whose bucket the cluster is; its table runs the other way.
        let mut made: Vec<Clique> = list
            .iter()
            .map(|c| {
                let bucket = &plan.clusters[c.scope[0]];
                Clique {
                    scope: bucket.scope.clone(),
                    table: bucket.offset..bucket.offset + bucket.cells,
                    borders: Vec::new(),
                    nodes: Vec::new(),
                }
            })
            .collect();
        let mut borders = Vec::with_capacity(list.len());
        for (k, clique) in list.iter().enumerate() {
            let Some(parent) = clique.parent else { continue };
            let vars: Vec<usize> = clique.separator.iter().rev().copied().collect();
            let sides = [k, parent].map(|c| Side { clique: c, port: made[c].borders.len() });
            let cells = vars.iter().map(|v| plan.sizes[*v]).product();
            [k, parent].iter().for_each(|c| made[*c].borders.push(borders.len()));
            borders.push(Border { vars, cells, sides });
        }
        let mut smallest = vec![usize::MAX; plan.clusters.len()];
        for (k, clique) in made.iter().enumerate() {
            for v in &clique.scope {
                if smallest[*v] == usize::MAX || clique.table.len() < made[smallest[*v]].table.len() {
                    smallest[*v] = k;
                }
            }
        }
        let mut holders = vec![usize::MAX; plan.clusters.len()];
        list.iter().enumerate().for_each(|(k, c)| holders[c.scope[0]] = k);
        for (k, bucket) in plan.clusters.iter().enumerate() {
            if let Some(p) = bucket.parent
                && holders[p] == usize::MAX
                && bucket.scope.len() == plan.clusters[p].scope.len() + 1
            {
                holders[p] = holders[k];
            }
        }
        let homes = (0..smallest.len())
            .map(|v| {
                let clique = &mut made[smallest[v]];
                clique.nodes.push(v);
                Home { clique: smallest[v], port: clique.ports() - 1 }
            })
            .collect();
        let roots = (0..list.len()).filter(|k| list[*k].parent.is_none()).map(|k| (k, None));
        let mut tree = Self { cliques: made, borders, homes, holders, order: roots.collect() };
        let mut at = 0;
        while let Some((k, up)) = tree.order.get(at).copied() {
            for b in tree.cliques[k].borders.iter().filter(|b| Some(**b) != up) {
                tree.order.push((tree.borders[*b].sides[0].clique, Some(*b)));
            }
            at += 1;
        }
        tree
    }

    /// The variables of a port.
    pub(super) fn vars(&self, clique: usize, port: usize) -> &[usize] {
        let clique = &self.cliques[clique];
        match clique.borders.get(port) {
            Some(b) => &self.borders[*b].vars,
            None => &clique.nodes[port - clique.borders.len()..][..1],
        }
    }
}

impl Border {
    /// Index of the side across, seen from one of the two clusters.
    pub(super) fn toward(&self, clique: usize) -> usize {
        usize::from(self.sides[0].clique == clique)
    }
}
