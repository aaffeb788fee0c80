//! The junction tree as a shape: which variables meet where, before any numbers.
//!
//! Each part of the graph is rooted at its largest clique. Where several neighbors of a clique share
//! nested sets of variables with it, a small cluster over the largest of these sets is put in between: it
//! gathers what they say, so that the large table is gone through once for all of them (the idea of
//! P. P. Shenoy, "Binary join trees for computing marginals in the Shenoy-Shafer architecture",
//! International Journal of Approximate Reasoning 17 (1997) 239-263).

use alloc::vec;
use alloc::vec::Vec;

use super::triangulate::Clique;

/// One cluster; parents come before their children.
#[derive(Clone, Debug)]
pub(crate) struct Knot {
    /// Variables, slowest axis first; those shared with the parent lead, in the parent's order.
    pub(crate) scope: Vec<usize>,
    /// How many of them are shared with the parent.
    pub(crate) shared: usize,
    pub(crate) parent: Option<usize>,
    pub(crate) children: Vec<usize>,
}

/// Cells of the dense table over some variables.
pub(crate) fn cells(vars: &[usize], states: &[usize]) -> u64 {
    vars.iter().fold(1, |n, v| n.saturating_mul(states[*v] as u64))
}

/// A cluster while the tree is being put together.
struct Draft {
    scope: Vec<usize>,
    separator: Vec<usize>,
    children: Vec<usize>,
}

/// Roots, groups and orders the tree.
pub(crate) fn shape(list: &[Clique], states: &[usize]) -> Vec<Knot> {
    let mut drafts: Vec<Draft> = list
        .iter()
        .map(|c| Draft { scope: c.scope.clone(), separator: Vec::new(), children: Vec::new() })
        .collect();
    let roots = root(list, &mut drafts);
    let mut open = roots.clone();
    while let Some(c) = open.pop() {
        group(&mut drafts, c, states);
        open.extend(&drafts[c].children);
    }
    order(drafts, &roots, states)
}

/// Turns the edges so that they lead away from the largest clique of each part; returns those.
fn root(list: &[Clique], drafts: &mut [Draft]) -> Vec<usize> {
    let mut links: Vec<Vec<(usize, usize)>> = vec![Vec::new(); list.len()];
    for (k, clique) in list.iter().enumerate() {
        if let Some(p) = clique.parent {
            links[k].push((p, k));
            links[p].push((k, k));
        }
    }
    let mut by_size: Vec<usize> = (0..list.len()).collect();
    by_size.sort_by_key(|k| (core::cmp::Reverse(list[*k].cells), *k));
    let (mut seen, mut roots) = (vec![false; list.len()], Vec::new());
    for start in by_size {
        if seen[start] {
            continue;
        }
        seen[start] = true;
        roots.push(start);
        let mut open = vec![start];
        while let Some(k) = open.pop() {
            for (other, edge) in &links[k] {
                if !seen[*other] {
                    seen[*other] = true;
                    drafts[*other].separator = list[*edge].separator.clone();
                    drafts[k].children.push(*other);
                    open.push(*other);
                }
            }
        }
    }
    roots
}

/// Puts small clusters between `c` and those of its children that share nested sets with it.
fn group(drafts: &mut Vec<Draft>, c: usize, states: &[usize]) {
    let size = |vars: &[usize]| cells(vars, states);
    let mut children = core::mem::take(&mut drafts[c].children);
    children.sort_by_key(|k| (core::cmp::Reverse(size(&drafts[*k].separator)), *k));
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for k in children {
        let inside = |g: &Vec<usize>| {
            let head = &drafts[g[0]].separator;
            drafts[k].separator.iter().all(|v| head.contains(v))
        };
        // Groups are by falling size: the last that fits is the smallest.
        match groups.iter().rposition(inside) {
            Some(g) => groups[g].push(k),
            None => groups.push(vec![k]),
        }
    }
    for members in groups {
        let head = drafts[members[0]].separator.clone();
        if members.len() > 1 && size(&drafts[c].scope) > size(&head).saturating_mul(2) {
            let number = drafts.len();
            drafts[c].children.push(number);
            drafts.push(Draft { scope: head.clone(), separator: head, children: members });
        } else {
            drafts[c].children.extend(members);
        }
    }
}

/// Numbers clusters from the roots on and settles their axes.
fn order(mut drafts: Vec<Draft>, roots: &[usize], states: &[usize]) -> Vec<Knot> {
    let mut knots: Vec<Knot> = Vec::with_capacity(drafts.len());
    let mut open: Vec<(usize, Option<usize>)> = roots.iter().rev().map(|r| (*r, None)).collect();
    let mut uses = vec![0usize; states.len()];
    while let Some((d, parent)) = open.pop() {
        let number = knots.len();
        let Draft { mut scope, separator, children } = core::mem::replace(
            &mut drafts[d],
            Draft { scope: Vec::new(), separator: Vec::new(), children: Vec::new() },
        );
        let mut axes: Vec<usize> = match parent {
            Some(p) => {
                let parent: &mut Knot = &mut knots[p];
                parent.children.push(number);
                parent.scope.iter().copied().filter(|v| separator.contains(v)).collect()
            }
            None => Vec::new(),
        };
        let shared = axes.len();
        // Variables that many children share vary slowly: their runs are longer.
        for k in &children {
            drafts[*k].separator.iter().for_each(|v| uses[*v] += 1);
        }
        scope.retain(|v| !separator.contains(v));
        scope.sort_by_key(|v| core::cmp::Reverse(uses[*v]));
        axes.append(&mut scope);
        for k in &children {
            drafts[*k].separator.iter().for_each(|v| uses[*v] = 0);
        }
        knots.push(Knot { scope: axes, shared, parent, children: Vec::new() });
        open.extend(children.iter().rev().map(|k| (*k, Some(number))));
    }
    knots
}
