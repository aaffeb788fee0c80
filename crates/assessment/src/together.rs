//! Conditions that hang together under the evidence, with the joint distribution of each such cluster.
//!
//! A check reports on several conditions at once. What its whole report is worth on the conditions of one cluster is
//! computed exactly from their joint table; what one cluster's part tells of another is left out, so a value made of
//! clusters is a floor. Clusters are formed by the strongest dependences first and hold at most [`MOST`] conditions.

use inference::{InferError, NodeId, Split};

/// Conditions in one cluster at most: a joint table of 2^10 cells.
const MOST: usize = 10;
/// Dependence below which two conditions are taken apart: a covariance of presence this small moves no decision.
const APART: f64 = 1e-6;

/// Conditions that hang together.
#[derive(Clone, Debug)]
pub(crate) struct Cluster {
    /// Indexes of the conditions, rising.
    pub(crate) members: Vec<usize>,
    /// P(presence of each member | evidence): first member slowest, absent before present.
    joint: Vec<f64>,
}

/// What a report says of one condition: P("shows it" | there) and P("shows not" | not there).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reads {
    /// Position of the condition.
    pub condition: usize,
    /// P("shows it" | there).
    pub sensitivity: f64,
    /// P("shows not" | not there).
    pub specificity: f64,
}

/// Groups conditions into clusters and computes their joint tables. `covariance(i, j)` of presence, symmetric.
pub(crate) fn clusters(
    tree: &Split<'_>,
    nodes: &[NodeId],
    covariance: impl Fn(usize, usize) -> f64,
) -> Result<Vec<Cluster>, InferError> {
    groups(nodes.len(), covariance)
        .into_iter()
        .map(|members| {
            let wanted: Vec<NodeId> = members.iter().map(|m| nodes[*m]).collect();
            Ok(Cluster { joint: tree.joint(&wanted)?, members })
        })
        .collect()
}

/// Groups of indexes, joined strongest dependence first, none larger than [`MOST`].
fn groups(n: usize, covariance: impl Fn(usize, usize) -> f64) -> Vec<Vec<usize>> {
    let mut pairs: Vec<(f64, usize, usize)> = (0..n)
        .flat_map(|i| (0..i).map(move |j| (i, j)))
        .map(|(i, j)| (libm::fabs(covariance(i, j)), j, i))
        .filter(|(strength, _, _)| *strength > APART)
        .collect();
    pairs.sort_by(|a, b| b.0.total_cmp(&a.0).then((a.1, a.2).cmp(&(b.1, b.2))));
    let mut group_of: Vec<usize> = (0..n).collect();
    let mut groups: Vec<Vec<usize>> = (0..n).map(|i| vec![i]).collect();
    for (_, i, j) in pairs {
        let (a, b) = (group_of[i].min(group_of[j]), group_of[i].max(group_of[j]));
        if a != b && groups[a].len() + groups[b].len() <= MOST {
            let moved = core::mem::take(&mut groups[b]);
            moved.iter().for_each(|m| group_of[*m] = a);
            groups[a].extend(moved);
        }
    }
    groups.iter_mut().for_each(|g| g.sort_unstable());
    groups.retain(|g| !g.is_empty());
    groups
}

impl Cluster {
    /// The conditions' distributions after a report: `each(P(report), &[P(member present | report)])` for every
    /// possible report of the `reads` that fall into this cluster. Does nothing when none does.
    pub(crate) fn after(&self, reads: &[Reads], mut each: impl FnMut(f64, &[f64])) {
        let n = self.members.len();
        let here: Vec<Option<Reads>> =
            self.members.iter().map(|m| reads.iter().find(|r| r.condition == *m).copied()).collect();
        if here.iter().all(Option::is_none) {
            return;
        }
        // One table for P(report), then one for each member with only its presence kept.
        let tables: Vec<Vec<f64>> = (0..=n)
            .map(|keep| {
                let mut table = self.joint.clone();
                if let Some(member) = keep.checked_sub(1) {
                    let bit = 1 << (n - 1 - member);
                    table
                        .iter_mut()
                        .enumerate()
                        .filter(|(cell, _)| cell & bit == 0)
                        .for_each(|(_, p)| *p = 0.0);
                }
                through(table, &here)
            })
            .collect();
        let (chances, kept) = tables.split_at(1);
        let mut present = vec![0.0; n];
        for (report, p) in chances.iter().flatten().enumerate().filter(|(_, p)| **p > 0.0) {
            for (slot, table) in present.iter_mut().zip(kept) {
                *slot = (table[report] / p).clamp(0.0, 1.0);
            }
            each(*p, &present);
        }
    }
}

/// Sends a joint table through the channels, first axis first: a read axis becomes its report, another is summed out.
fn through(mut table: Vec<f64>, here: &[Option<Reads>]) -> Vec<f64> {
    for (axis, channel) in here.iter().enumerate().rev() {
        // Axes after this one are done; those before have two states each.
        let outer = 1usize << axis;
        let inner = table.len() / (outer * 2);
        let mut next = Vec::with_capacity(if channel.is_some() { table.len() } else { table.len() / 2 });
        for block in table.chunks_exact(2 * inner) {
            let (absent, present) = block.split_at(inner);
            match channel {
                None => next.extend(absent.iter().zip(present).map(|(a, b)| a + b)),
                Some(r) => {
                    let mix =
                        |yes: f64, no: f64| absent.iter().zip(present).map(move |(a, b)| a * no + b * yes);
                    next.extend(mix(1.0 - r.sensitivity, r.specificity));
                    next.extend(mix(r.sensitivity, 1.0 - r.specificity));
                }
            }
        }
        table = next;
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn reads(condition: usize, sensitivity: f64, specificity: f64) -> Reads {
        Reads { condition, sensitivity, specificity }
    }

    /// Every report by hand: P(report, presence) = P(presence) · Π P(report of each | its presence).
    fn by_hand(joint: &[f64], n: usize, list: &[Reads]) -> Vec<(f64, Vec<f64>)> {
        (0..1usize << list.len())
            .map(|report| {
                let mut with = vec![0.0; n];
                let mut p = 0.0;
                for (cell, weight) in joint.iter().enumerate() {
                    let there = |member: usize| cell >> (n - 1 - member) & 1 == 1;
                    let mut w = *weight;
                    for (k, r) in list.iter().enumerate() {
                        let yes = report >> (list.len() - 1 - k) & 1 == 1;
                        let says = if there(r.condition) { r.sensitivity } else { 1.0 - r.specificity };
                        w *= if yes { says } else { 1.0 - says };
                    }
                    p += w;
                    (0..n).filter(|m| there(*m)).for_each(|m| with[m] += w);
                }
                with.iter_mut().for_each(|x| *x /= p);
                (p, with)
            })
            .collect()
    }

    proptest! {
        #[test]
        fn reports_are_those_computed_by_hand(
            weights in prop::collection::vec(0.01..1.0f64, 16), se in 0.05..0.95f64, sp in 0.05..0.95f64, two: bool,
        ) {
            let sum: f64 = weights.iter().sum();
            let joint: Vec<f64> = weights.iter().map(|w| w / sum).collect();
            let mut list = vec![reads(1, se, sp)];
            if two { list.push(reads(3, sp, se)); }
            let cluster = Cluster { members: vec![0, 1, 2, 3], joint: joint.clone() };
            let mut got = Vec::new();
            cluster.after(&list, |p, present| got.push((p, present.to_vec())));
            let want = by_hand(&joint, 4, &list);
            prop_assert_eq!(got.len(), want.len());
            for ((p, present), (q, wanted)) in got.iter().zip(&want) {
                prop_assert!((p - q).abs() < 1e-12);
                for (a, b) in present.iter().zip(wanted) { prop_assert!((a - b).abs() < 1e-12); }
            }
        }
    }

    #[test]
    fn the_strongest_dependences_are_kept_together_and_no_group_grows_too_large() {
        // A chain of twelve: each depends on the next, the earlier the more.
        let chain = |i: usize, j: usize| if i.abs_diff(j) == 1 { 0.2 / (1.0 + i.min(j) as f64) } else { 0.0 };
        let got = groups(12, chain);
        assert_eq!(got.iter().map(Vec::len).collect::<Vec<_>>(), [MOST, 2]);
        assert_eq!(got[0], (0..MOST).collect::<Vec<_>>());
        assert_eq!(groups(3, |_, _| 0.0), [[0], [1], [2]]);
    }
}
