//! Which further checks bring a premium under a wanted figure, for the least money.
//!
//! Looking does not change what is there: over the results of any check the mean payout averages to what it was, so an
//! average premium can fall by part of its loading only. What a check can do is to bring the premium under the figure
//! *if it shows nothing*. So checks are judged by the chance that the premium after their results is at most the
//! figure; the average over the results stands beside it, and is what the firm would charge in the long run.
//!
//! What a check tells of conditions that are not promised is left out, so the chance is that of its results on the
//! promised ones alone.

use super::Terms;
use super::after::{Patterns, Prospect, Read};
use crate::simulate::Draws;
use crate::together::Reads;

/// Up to so many checks every set of them is tried.
const EXHAUSTIVE: usize = 12;
/// Results of all sets together beyond which not every set is tried, however few the checks.
const MOST_RESULTS: u64 = 4_000_000;
/// Results of one set, as a power of two, beyond which it is not tried.
const MOST_READS: usize = 12;

/// A check that could be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// Minutes it takes.
    pub minutes: f64,
    /// What it costs, dollars: its minutes and what it spoils.
    pub cost: f64,
    /// What it tells of the conditions, by the position of their items.
    pub reads: Vec<Reads>,
}

/// A set of checks and what it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The checks, by index, rising.
    pub checks: Vec<usize>,
    /// Minutes together.
    pub minutes: f64,
    /// Cost together, dollars.
    pub cost: f64,
    /// P(the premium after the results is at most the wanted figure).
    pub chance: f64,
    /// The premium averaged over the results.
    pub expected: f64,
    /// P(nothing shows).
    pub clear: f64,
    /// The premium if nothing shows.
    pub if_clear: f64,
}

impl Plan {
    /// A better chance than the nearest so far; of equal chances, a lower premium if nothing shows.
    fn nearer(&self, nearest: Option<&Self>) -> bool {
        nearest.is_none_or(|n| (self.chance, -self.if_clear) > (n.chance, -n.if_clear))
    }
}

/// What came of the search.
#[derive(Clone, Debug, PartialEq)]
pub struct Search {
    /// The cheapest set with a sufficient chance; none when no set tried has it.
    pub found: Option<Plan>,
    /// The set with the best chance when none is sufficient, of equals that with the lowest premium if nothing shows,
    /// then the cheapest; none when no check tells anything of what is promised.
    pub nearest: Option<Plan>,
    /// True when every set was tried; otherwise the set was built up one check at a time.
    pub every: bool,
}

/// Looks for the cheapest set of checks after which a promise of `covered` up to `cap` costs at most `wanted`, with the
/// chance the terms ask for. `go_on` is asked before each set; nothing comes back when it says no.
pub fn cheapest(
    draws: &Draws,
    covered: &[usize],
    cap: f64,
    wanted: f64,
    terms: &Terms,
    checks: &[Check],
    go_on: impl FnMut() -> bool,
) -> Option<Search> {
    let reads = |check: &Check| -> Vec<Read> {
        let one = |r: &Reads| {
            let at = covered.iter().position(|c| *c == r.condition)?;
            Some(Read { at, sensitivity: r.sensitivity, specificity: r.specificity })
        };
        check.reads.iter().filter_map(one).collect()
    };
    let read: Vec<Vec<Read>> = checks.iter().map(reads).collect();
    let useful: Vec<usize> = (0..checks.len()).filter(|c| !read[*c].is_empty()).collect();
    let patterns = Patterns::of(draws, covered, cap, *terms);
    let desk = Desk { checks, read, patterns, wanted, enough: terms.chance, go_on };
    // Π (1 + 2^reads) results over all sets.
    let results =
        useful.iter().fold(1u64, |n, c| n.saturating_mul(1 + (1u64 << desk.read[*c].len().min(40))));
    if useful.len() <= EXHAUSTIVE && results <= MOST_RESULTS {
        desk.try_every(&useful)
    } else {
        desk.build_up(&useful)
    }
}

struct Desk<'a, G> {
    checks: &'a [Check],
    read: Vec<Vec<Read>>,
    patterns: Patterns,
    wanted: f64,
    enough: f64,
    go_on: G,
}

impl<G: FnMut() -> bool> Desk<'_, G> {
    fn cost(&self, set: &[usize]) -> f64 {
        set.iter().map(|c| self.checks[*c].cost).sum()
    }
    fn minutes(&self, set: &[usize]) -> f64 {
        set.iter().map(|c| self.checks[*c].minutes).sum()
    }

    /// A set's prospect, unless the search was stopped (outer) or it has too many results (inner).
    fn look(&mut self, set: &[usize]) -> Option<Option<Plan>> {
        if !(self.go_on)() {
            return None;
        }
        let reads: Vec<Read> = set.iter().flat_map(|c| self.read[*c].iter().copied()).collect();
        if reads.len() > MOST_READS {
            return Some(None);
        }
        let Prospect { chance, expected, clear: (clear, if_clear) } =
            self.patterns.after(&reads, self.wanted);
        let (minutes, cost) = (self.minutes(set), self.cost(set));
        Some(Some(Plan { checks: set.to_vec(), minutes, cost, chance, expected, clear, if_clear }))
    }

    /// Tries all sets, the cheapest first, until one has a sufficient chance.
    fn try_every(mut self, useful: &[usize]) -> Option<Search> {
        let mut sets: Vec<Vec<usize>> = (1u32..1 << useful.len())
            .map(|bits| (0..useful.len()).filter(|b| bits >> b & 1 == 1).map(|b| useful[b]).collect())
            .collect();
        sets.sort_by(|a, b| {
            let by_minutes = self.minutes(a).total_cmp(&self.minutes(b));
            self.cost(a).total_cmp(&self.cost(b)).then(by_minutes).then(a.len().cmp(&b.len())).then(a.cmp(b))
        });
        let mut nearest: Option<Plan> = None;
        for set in sets {
            let Some(plan) = self.look(&set)? else { continue };
            if plan.chance >= self.enough {
                return Some(Search { found: Some(plan), nearest: None, every: true });
            }
            if plan.nearer(nearest.as_ref()) {
                nearest = Some(plan);
            }
        }
        Some(Search { found: None, nearest, every: true })
    }

    /// Adds one check after the other until the chance is sufficient, then leaves out what is not needed.
    fn build_up(mut self, useful: &[usize]) -> Option<Search> {
        let (mut so_far, mut nearest): (Option<Plan>, Option<Plan>) = (None, None);
        while let Some(plan) = self.step(useful, so_far.as_ref())? {
            if plan.chance >= self.enough {
                return Some(Search { found: Some(self.thinned(plan)?), nearest: None, every: false });
            }
            if plan.nearer(nearest.as_ref()) {
                nearest = Some(plan.clone());
            }
            so_far = Some(plan);
        }
        Some(Search { found: None, nearest, every: false })
    }

    /// The set with the one check more that gains most chance for its cost; where none gains any, that lowers the
    /// premium most, for its cost, if nothing shows. Nothing (inner) when there is no check more.
    fn step(&mut self, useful: &[usize], so_far: Option<&Plan>) -> Option<Option<Plan>> {
        let set = so_far.map_or(&[][..], |p| &p.checks);
        let (chance, if_clear) = so_far.map_or((0.0, 0.0), |p| (p.chance, p.if_clear));
        let mut best: Option<((f64, f64), Plan)> = None;
        for check in useful.iter().filter(|c| !set.contains(*c)) {
            let mut wider = set.to_vec();
            wider.push(*check);
            wider.sort_unstable();
            let Some(plan) = self.look(&wider)? else { continue };
            let cost = self.checks[*check].cost.max(1.0);
            let gain = ((plan.chance - chance).max(0.0) / cost, (if_clear - plan.if_clear) / cost);
            if best.as_ref().is_none_or(|(so_good, _)| gain > *so_good) {
                best = Some((gain, plan));
            }
        }
        Some(best.map(|(_, plan)| plan))
    }

    /// A sufficient set without the checks it can do without, the dearest first.
    fn thinned(&mut self, mut plan: Plan) -> Option<Plan> {
        let mut dearest = plan.checks.clone();
        dearest.sort_by(|a, b| self.checks[*b].cost.total_cmp(&self.checks[*a].cost).then(b.cmp(a)));
        for check in dearest {
            let fewer: Vec<usize> = plan.checks.iter().copied().filter(|c| *c != check).collect();
            if fewer.is_empty() {
                continue;
            }
            if let Some(without) = self.look(&fewer)?.filter(|w| w.chance >= self.enough) {
                plan = without;
            }
        }
        Some(plan)
    }
}
