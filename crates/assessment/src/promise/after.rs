//! The premium after checks: the same draws, weighed by what the checks show.
//!
//! Draws in which the same promised conditions are there weigh alike under any result, so they are counted by that
//! pattern of presence. For a result the weight of a pattern is the product of its probabilities there: sensitivity
//! where the condition is there and shows, one less it where it is there and does not show, and so on.

use super::{Terms, loaded, payouts};
use crate::simulate::Draws;

/// Draws between two places at which the patterns are counted up.
const BLOCK: usize = 128;
/// A percentile that is reached but for rounding counts as reached.
const SLACK: f64 = 1e-12;

/// What one check tells of one promised condition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Read {
    /// Place of the condition among the promised ones.
    pub(super) at: usize,
    /// P(shows it | there).
    pub(super) sensitivity: f64,
    /// P(does not show it | not there).
    pub(super) specificity: f64,
}

/// Payouts of all draws, rising, with the pattern of presence of each.
pub(super) struct Patterns {
    terms: Terms,
    /// Payouts, rising.
    paid: Vec<f64>,
    /// Pattern of each payout.
    pattern: Vec<usize>,
    /// Which promised conditions are there in each pattern.
    there: Vec<Vec<bool>>,
    /// Draws of each pattern, and their payouts together.
    count: Vec<f64>,
    total: Vec<f64>,
    /// Draws of each pattern among the first `BLOCK`, twice `BLOCK` … payouts.
    upto: Vec<Vec<f64>>,
}

/// What a set of checks does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Prospect {
    /// P(the premium after the results is at most the wanted figure).
    pub(super) chance: f64,
    /// The premium averaged over the results.
    pub(super) expected: f64,
    /// P(nothing shows), and the premium then.
    pub(super) clear: (f64, f64),
}

impl Patterns {
    pub(super) fn of(draws: &Draws, covered: &[usize], cap: f64, terms: Terms) -> Self {
        let paid = payouts(draws, covered);
        let mut order: Vec<usize> = (0..paid.len()).collect();
        order.sort_by(|a, b| paid[*a].total_cmp(&paid[*b]).then(a.cmp(b)));
        let mut patterns = Self {
            terms,
            paid: Vec::with_capacity(paid.len()),
            pattern: Vec::with_capacity(paid.len()),
            there: Vec::new(),
            count: Vec::new(),
            total: Vec::new(),
            upto: Vec::new(),
        };
        for draw in order {
            let entries = draws.entries(draw);
            let there: Vec<bool> = covered.iter().map(|c| entries.iter().any(|e| e.item == *c)).collect();
            let known = patterns.there.iter().position(|t| *t == there);
            let pattern = known.unwrap_or_else(|| {
                patterns.there.push(there);
                patterns.count.push(0.0);
                patterns.total.push(0.0);
                patterns.there.len() - 1
            });
            let paid = libm::fmin(paid[draw], cap);
            patterns.paid.push(paid);
            patterns.pattern.push(pattern);
            patterns.count[pattern] += 1.0;
            patterns.total[pattern] += paid;
        }
        let mut so_far = vec![0.0; patterns.there.len()];
        for block in patterns.pattern.chunks_exact(BLOCK) {
            block.iter().for_each(|pattern| so_far[*pattern] += 1.0);
            patterns.upto.push(so_far.clone());
        }
        patterns
    }

    /// The premium when each pattern weighs so much; `whole` is the weight of all draws.
    fn premium(&self, weights: &[f64], whole: f64) -> f64 {
        let weighed = |of: &[f64]| -> f64 { of.iter().zip(weights).map(|(c, w)| c * w).sum() };
        let enough = whole * (0.9 - SLACK);
        let before = self.upto.partition_point(|counts| weighed(counts) < enough);
        let mut sum = before.checked_sub(1).map_or(0.0, |block| weighed(&self.upto[block]));
        let mut p90 = self.paid.last().copied().unwrap_or(0.0);
        for (paid, pattern) in self.paid.iter().zip(&self.pattern).skip(before * BLOCK) {
            sum += weights[*pattern];
            if sum >= enough {
                p90 = *paid;
                break;
            }
        }
        loaded(weighed(&self.total) / whole, p90, &self.terms)
    }

    /// What these reads do, over all their results.
    pub(super) fn after(&self, reads: &[Read], wanted: f64) -> Prospect {
        let mut prospect = Prospect { chance: 0.0, expected: 0.0, clear: (0.0, 0.0) };
        let mut room = vec![vec![1.0; self.there.len()]; reads.len() + 1];
        self.results(reads, wanted, true, &mut room, &mut prospect);
        prospect
    }

    /// Goes on to the results of the first read, with the weights so far in the first row of the room.
    fn results(
        &self,
        reads: &[Read],
        wanted: f64,
        clear: bool,
        room: &mut [Vec<f64>],
        prospect: &mut Prospect,
    ) {
        let Some((weights, rest)) = room.split_first_mut() else { return };
        let Some((read, reads)) = reads.split_first() else {
            let whole: f64 = self.count.iter().zip(&*weights).map(|(c, w)| c * w).sum();
            if whole > 0.0 {
                let (p, premium) = (whole / self.paid.len() as f64, self.premium(weights, whole));
                prospect.expected += p * premium;
                prospect.chance += if premium <= wanted { p } else { 0.0 };
                if clear {
                    prospect.clear = (p, premium);
                }
            }
            return;
        };
        for shows in [false, true] {
            let given = |there: bool| match (shows, there) {
                (true, true) => read.sensitivity,
                (false, true) => 1.0 - read.sensitivity,
                (true, false) => 1.0 - read.specificity,
                (false, false) => read.specificity,
            };
            for ((next, weight), there) in rest[0].iter_mut().zip(&*weights).zip(&self.there) {
                *next = weight * given(there[read.at]);
            }
            self.results(reads, wanted, clear && !shows, rest, prospect);
        }
    }
}
