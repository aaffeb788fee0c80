//! Clue nodes. Clues read from one single-valued answer exclude or contain each other, so they share one node whose
//! states are the clues; clues of an answer with several ticks have a node each.

use std::collections::BTreeMap;

use inference::{NetworkError, NodeId};
use survey::catalog::{AnswerKind, Bound, Clue, Compare, DatedBy, TrueWhen};

use super::{Builder, NO_YES};
use crate::clue_fit::Family;
use crate::mediators::{Mediator, Member, quiet, share_leaks};
use crate::priors::era_shares;

/// A node that an item's answer is evidence on.
#[derive(Clone, Debug)]
pub(crate) struct ItemNode {
    /// The item.
    pub(crate) item: String,
    /// The node.
    pub(crate) node: NodeId,
    /// Clues it carries. Alone: states no, yes. Several: state 0 is none, state k is "clue k−1 and nothing inside it".
    pub(crate) clues: Vec<String>,
    /// For several clues: which clues are true in each state.
    pub(crate) truth: Vec<Vec<bool>>,
}

/// A clue that has at least one condition in scope, cut down to them.
struct InScope<'a> {
    clue: &'a Clue,
    /// Indexes into the scope.
    conditions: Vec<usize>,
    families: Vec<Family>,
    by_era_of: Option<DatedBy>,
}

/// How one clue's answers lie to another's.
#[derive(PartialEq)]
enum Lies {
    Apart,
    Inside,
    Around,
    Across,
}

impl<'a> Builder<'a> {
    pub(super) fn clues(&mut self) -> Result<Vec<ItemNode>, NetworkError> {
        let clues = self.clues_in_scope();
        let mediators = self.mediators(&clues);
        let mut shows: BTreeMap<usize, NodeId> = BTreeMap::new();
        for (m, mediator) in mediators.iter().enumerate() {
            let condition = &self.conditions[mediator.condition];
            let node = self.nb.node(format!("shows.{}.{}", mediator.cause, condition.0), &NO_YES)?;
            let (h0, h1) = mediator.h;
            let parent = condition.1;
            self.nb.table(node, &[parent], vec![1.0 - h0, h0, 1.0 - h1, h1])?;
            shows.insert(m, node);
        }
        let mut nodes = Vec::new();
        let catalog = self.catalog;
        for item in &catalog.items {
            let here: Vec<usize> = (0..clues.len()).filter(|i| clues[*i].clue.item == item.id).collect();
            let single = !matches!(item.answer, AnswerKind::Choices { .. } | AnswerKind::Checks);
            let together = single && here.len() > 1 && laminar(&here, &clues);
            let groups: Vec<Vec<usize>> =
                if together { vec![here] } else { here.into_iter().map(|c| vec![c]).collect() };
            for group in groups {
                nodes.push(self.item_node(&item.id, &group, &clues, &mediators, &shows)?);
            }
        }
        Ok(nodes)
    }

    /// Families with the conditions out of scope, or replaced by a calculation, left in the leak at base rate.
    fn clues_in_scope(&self) -> Vec<InScope<'a>> {
        let catalog = self.catalog;
        let mut list = Vec::new();
        for (id, clue) in &catalog.clues {
            let Some(table) = self.tables.table(id) else { continue };
            let mut conditions = Vec::new();
            let mut families = table.families.clone();
            let mut at = 0;
            for condition in &table.conditions {
                let index = self.scope.iter().position(|s| s.condition().id == *condition);
                let replaced = self.measured_p(condition).is_some()
                    && self.catalog.condition(condition).is_some_and(|c| {
                        c.measured_by.as_ref().is_some_and(|m| m.replaces_clues.contains(id))
                    });
                match index.filter(|_| !replaced) {
                    Some(index) => {
                        conditions.push(index);
                        at += 1;
                    }
                    None => {
                        for (f, family) in families.iter_mut().enumerate() {
                            let base = self.tables.rates().base(condition, table.by_era_of.map(|_| f));
                            *family = family.absorb(at, base);
                        }
                    }
                }
            }
            if !conditions.is_empty() {
                list.push(InScope { clue, conditions, families, by_era_of: table.by_era_of });
            }
        }
        list
    }

    fn mediators(&self, clues: &[InScope<'_>]) -> Vec<Mediator> {
        /// (clue, its item, its part in the group)
        type Reporting<'c> = (usize, &'c str, Member);
        let mut groups: BTreeMap<(usize, &str), Vec<Reporting<'_>>> = BTreeMap::new();
        for (k, scoped) in clues.iter().enumerate() {
            let Some(cause) = scoped.clue.cause.as_deref() else { continue };
            for (position, (condition, pair)) in
                scoped.conditions.iter().zip(self.pairs_over_all(scoped)).enumerate()
            {
                let weights = scoped.families.iter().map(|f| f.weights[position]).collect();
                let member = Member { clue: k, pair, weights };
                groups.entry((*condition, cause)).or_default().push((k, &scoped.clue.item, member));
            }
        }
        let mut mediators = Vec::new();
        for ((condition, cause), list) in groups {
            // Clues of one single answer already exclude each other; ticks of one answer with several do not.
            let several = |item: &str| {
                let kind = self.catalog.item(item).map(|i| &i.answer);
                matches!(kind, Some(AnswerKind::Choices { .. }))
            };
            let mut sources: Vec<(&str, usize)> =
                list.iter().map(|(k, item, _)| (*item, if several(item) { *k } else { 0 })).collect();
            sources.sort_unstable();
            sources.dedup();
            if sources.len() > 1 {
                let raising = list.into_iter().map(|(_, _, m)| m).filter(|m| m.pair.0 > m.pair.1).collect();
                mediators.extend(Mediator::new(
                    condition,
                    cause,
                    raising,
                    self.catalog.reference.shared_cause_damping,
                ));
            }
        }
        let leaks: Vec<Vec<f64>> =
            clues.iter().map(|c| c.families.iter().map(|f| f.leak).collect()).collect();
        share_leaks(&mut mediators, &leaks);
        mediators
    }

    /// (P(clue | present), P(clue | absent)) for each condition, over all houses.
    fn pairs_over_all(&self, scoped: &InScope<'_>) -> Vec<(f64, f64)> {
        let ids: Vec<&str> =
            scoped.conditions.iter().map(|c| self.scope[*c].condition().id.as_str()).collect();
        if let [family] = scoped.families.as_slice() {
            return family.got(&self.tables.rates().pairs(&ids, None));
        }
        let shares = era_shares(self.catalog);
        let mut sums = vec![[0.0; 4]; scoped.conditions.len()];
        for (era, (family, share)) in scoped.families.iter().zip(&shares).enumerate() {
            let pairs = self.tables.rates().pairs(&ids, Some(era));
            for ((sum, (present, absent)), pair) in sums.iter_mut().zip(family.got(&pairs)).zip(&pairs) {
                let (with, without) = (share * pair.base, share * (1.0 - pair.base));
                *sum = [sum[0] + with * present, sum[1] + with, sum[2] + without * absent, sum[3] + without];
            }
        }
        sums.iter().map(|s| (s[0] / s[1].max(1e-300), s[2] / s[3].max(1e-300))).collect()
    }

    fn item_node(
        &mut self,
        item: &str,
        group: &[usize],
        clues: &[InScope<'_>],
        mediators: &[Mediator],
        shows: &BTreeMap<usize, NodeId>,
    ) -> Result<ItemNode, NetworkError> {
        let links: Vec<Vec<Link>> = group.iter().map(|k| self.links(*k, clues, mediators, shows)).collect();
        let mut parents: Vec<NodeId> = links.iter().flatten().map(|l| l.parent).collect();
        parents.sort_unstable();
        parents.dedup();
        let bands = group.iter().map(|k| clues[*k].families.len()).max().unwrap_or(1);
        let inside = containment(group, clues);
        let truth = truth_table(&inside);
        let mut table = Vec::new();
        for band in 0..bands {
            for row in 0..1usize << parents.len() {
                let on = |node: NodeId| {
                    let position = parents.iter().position(|p| *p == node).unwrap_or(0);
                    row >> (parents.len() - 1 - position) & 1 == 1
                };
                let p: Vec<f64> = links.iter().map(|l| chance(l, band, &on)).collect();
                table.extend(states(&p, &inside));
            }
        }
        let ids: Vec<String> = group.iter().map(|k| clues[*k].clue.id.clone()).collect();
        let node = if let [only] = ids.as_slice() {
            self.nb.node(format!("clue.{only}"), &NO_YES)?
        } else {
            let mut names = vec!["none"];
            names.extend(ids.iter().map(String::as_str));
            self.nb.node(format!("item.{item}"), &names)?
        };
        if let Some(dated) = group.iter().find_map(|k| clues[*k].by_era_of) {
            parents.splice(0..0, self.era_of(dated));
        }
        self.nb.table(node, &parents, table)?;
        Ok(ItemNode { item: item.to_owned(), node, clues: ids, truth })
    }

    /// What sets off one clue: hidden nodes where there are any, otherwise the conditions themselves.
    fn links(
        &self,
        k: usize,
        clues: &[InScope<'_>],
        mediators: &[Mediator],
        shows: &BTreeMap<usize, NodeId>,
    ) -> Vec<Link> {
        let scoped = &clues[k];
        let mut links = vec![];
        let mut leak: Vec<f64> = scoped.families.iter().map(|f| 1.0 - f.leak).collect();
        for (position, condition) in scoped.conditions.iter().enumerate() {
            let weights = scoped.families.iter().map(|f| f.weights[position]);
            let through = mediators
                .iter()
                .position(|m| m.condition == *condition && m.members.iter().any(|x| x.clue == k));
            match through {
                Some(m) => {
                    for (f, silent) in leak.iter_mut().enumerate() {
                        *silent /= quiet(&mediators[m], k, f);
                    }
                    let weights = weights.map(|w| mediators[m].activation(w)).collect();
                    links.push(Link { parent: shows[&m], weights, silent: vec![] });
                }
                None => links.push(Link {
                    parent: self.conditions[*condition].1,
                    weights: weights.collect(),
                    silent: vec![],
                }),
            }
        }
        if let Some(first) = links.first_mut() {
            first.silent = leak;
        }
        links
    }
}

/// One parent of a clue: its weight in each family; the first carries P(no | nothing present) of the clue.
struct Link {
    parent: NodeId,
    weights: Vec<f64>,
    silent: Vec<f64>,
}

/// P(clue | parents), noisy-OR.
fn chance(links: &[Link], band: usize, on: &impl Fn(NodeId) -> bool) -> f64 {
    let pick = |list: &[f64]| list.get(band.min(list.len().saturating_sub(1))).copied();
    let start = links.first().and_then(|l| pick(&l.silent)).unwrap_or(1.0).min(1.0);
    let active = links.iter().filter(|l| on(l.parent)).filter_map(|l| pick(&l.weights));
    1.0 - active.fold(start, |q, w| q * (1.0 - w)).clamp(0.0, 1.0)
}

fn lies(a: &Clue, b: &Clue) -> Lies {
    match (&a.true_when, &b.true_when) {
        (TrueWhen::In(x) | TrueWhen::Has(x), TrueWhen::In(y) | TrueWhen::Has(y)) => {
            let shared = x.iter().filter(|o| y.contains(o)).count();
            match shared {
                0 => Lies::Apart,
                n if n == x.len() => Lies::Inside,
                n if n == y.len() => Lies::Around,
                _ => Lies::Across,
            }
        }
        (TrueWhen::Compare(how_a, bound_a), TrueWhen::Compare(how_b, bound_b)) => {
            let up = |h: &Compare| matches!(h, Compare::Gte | Compare::Gt);
            let number = |b: &Bound| match b {
                Bound::Length(l) => l.eighth_um(),
                Bound::Milli(m) => *m,
            };
            let (x, y) = (number(bound_a), number(bound_b));
            match (up(how_a), up(how_b)) {
                (true, true) => {
                    if x >= y {
                        Lies::Inside
                    } else {
                        Lies::Around
                    }
                }
                (false, false) => {
                    if x <= y {
                        Lies::Inside
                    } else {
                        Lies::Around
                    }
                }
                (true, false) => {
                    if x >= y {
                        Lies::Apart
                    } else {
                        Lies::Across
                    }
                }
                (false, true) => {
                    if x <= y {
                        Lies::Apart
                    } else {
                        Lies::Across
                    }
                }
            }
        }
        _ => Lies::Across,
    }
}

/// True when any two clues exclude or contain each other.
fn laminar(group: &[usize], clues: &[InScope<'_>]) -> bool {
    group
        .iter()
        .enumerate()
        .all(|(i, a)| group[..i].iter().all(|b| lies(clues[*a].clue, clues[*b].clue) != Lies::Across))
}

/// For each clue of the group the smallest clue that contains it.
fn containment(group: &[usize], clues: &[InScope<'_>]) -> Vec<Option<usize>> {
    let around = |i: usize, j: usize| {
        i != j
            && match lies(clues[group[i]].clue, clues[group[j]].clue) {
                Lies::Inside => lies(clues[group[j]].clue, clues[group[i]].clue) != Lies::Inside || j < i,
                _ => false,
            }
    };
    (0..group.len())
        .map(|i| {
            let holders: Vec<usize> = (0..group.len()).filter(|j| around(i, *j)).collect();
            holders.iter().copied().find(|h| holders.iter().all(|o| o == h || around(*h, *o)))
        })
        .collect()
}

/// Which clues are true in each state: none, then each clue with those that contain it.
fn truth_table(inside: &[Option<usize>]) -> Vec<Vec<bool>> {
    let mut rows = vec![vec![false; inside.len()]];
    for clue in 0..inside.len() {
        let mut row = vec![false; inside.len()];
        let mut at = Some(clue);
        while let Some(k) = at {
            row[k] = true;
            at = inside[k];
        }
        rows.push(row);
    }
    rows
}

/// Probabilities of the states from P(clue) of each: what lies inside a clue is taken out of it; apart clues whose
/// sum would pass 0.999 (several causes at once) are scaled down together.
fn states(p: &[f64], inside: &[Option<usize>]) -> Vec<f64> {
    if let [only] = p {
        return vec![1.0 - only, *only];
    }
    let mut whole = p.to_vec();
    let fit_into = |whole: &mut Vec<f64>, parent: Option<usize>, room: f64| {
        let children: Vec<usize> = (0..inside.len()).filter(|k| inside[*k] == parent).collect();
        let sum: f64 = children.iter().map(|k| whole[*k]).sum();
        if sum > room {
            children.iter().for_each(|k| whole[*k] *= room / sum);
        }
    };
    fit_into(&mut whole, None, 0.999);
    // Containers before what they contain: depth is at most the number of clues.
    let mut done = vec![false; inside.len()];
    for _ in 0..inside.len() {
        for k in 0..inside.len() {
            if !done[k] && inside[k].is_none_or(|parent| done[parent]) {
                done[k] = true;
                let room = whole[k];
                fit_into(&mut whole, Some(k), room);
            }
        }
    }
    let own = |k: usize| {
        let children: f64 = (0..inside.len()).filter(|j| inside[*j] == Some(k)).map(|j| whole[j]).sum();
        (whole[k] - children).max(0.0)
    };
    let mut row: Vec<f64> = (0..p.len()).map(own).collect();
    let sum: f64 = row.iter().sum();
    row.insert(0, (1.0 - sum).max(0.0));
    row
}
