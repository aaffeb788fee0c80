//! What to look at next: the expected value of each further check, per minute.
//!
//! The value of a check is the sum over all conditions of the fall in the least expected loss that its whole report
//! brings on average: EVSI = Σ min L(now) − E over reports of Σ min L(after the report). Within a cluster of
//! conditions that hang together this is exact; what the report on one cluster tells of another is left out, so the
//! value is a floor. Which pricings are offered is held as it is now, so no report is ever worth less than nothing.
//! From the value go the minutes at the firm's rate and the repair. Gated hazards bring no value here: their licensed
//! look comes first whatever the arithmetic says. Where a house has several of something, a look at each is a look of
//! its own, with its own minutes, unless the catalog says that one visit serves them all (`serves`): then the whole report
//! on all places is weighed against the minutes of one visit.

use survey::catalog::{Catalog, Check, CheckPair, Serves};
use survey::log::CheckOutcome;
use survey::model::Picture;

use crate::decision::LossRules;
use crate::evidence::checks_made;
use crate::forecast::{Look, PlaceRef, cents, round2};
use crate::scope::Scoped;
use crate::stakes::Stake;
use crate::together::{Cluster, Reads};

/// Values below half a cent are rounding.
const NOTHING: f64 = 0.005;

/// Checks that may be offered, best net value per minute first, ties to the least invasive; only those whose value
/// is above zero. `None` if `go_on` said no on the way.
pub(crate) fn rank_looks(
    catalog: &Catalog,
    stakes: &[Stake<'_>],
    clusters: &[Cluster],
    picture: &Picture,
    rules: &LossRules,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Vec<Look>> {
    let done = checks_made(catalog, picture);
    // The house with what it has once, then each of several places.
    let of: Vec<Option<PlaceRef>> =
        stakes.iter().map(|s| s.scoped.place().and_then(|p| PlaceRef::of(catalog, picture, p))).collect();
    let mut places: Vec<&Option<PlaceRef>> = vec![&None];
    for place in &of {
        if !places.contains(&place) {
            places.push(place);
        }
    }
    let mut looks = Vec::new();
    for (id, check) in &catalog.checks {
        if !go_on() {
            return None;
        }
        let reports_where = |at: &dyn Fn(usize) -> bool| -> Vec<Report> {
            let at_it = (0..stakes.len()).filter(|i| at(*i));
            at_it.filter_map(|i| Report::of(id, check, i, stakes[i].scoped, picture, &done)).collect()
        };
        if check.serves == Serves::House {
            let reports = reports_where(&|_| true);
            let made = look(id, check, None, &reports, stakes, clusters, rules);
            looks.extend(made.map(|made| {
                // What hangs together is informed too where nothing is looked at.
                let informs = |i: &usize| {
                    let looked_at = reports.iter().any(|r| r.reads.condition == *i);
                    looked_at && made.conditions.iter().any(|key| key == stakes[*i].key())
                };
                let mut serves: Vec<PlaceRef> = Vec::new();
                for place in (0..stakes.len()).filter(informs).filter_map(|i| of[i].as_ref()) {
                    if !serves.contains(place) {
                        serves.push(place.clone());
                    }
                }
                Look { serves, ..made }
            }));
            continue;
        }
        for place in &places {
            let reports = reports_where(&|i| of[i] == **place);
            looks.extend(look(id, check, (*place).clone(), &reports, stakes, clusters, rules));
        }
    }
    looks.sort_by(|a, b| {
        b.net_per_minute
            .cmp(&a.net_per_minute)
            .then(a.invasiveness.cmp(&b.invasiveness))
            .then(a.check.cmp(&b.check))
            .then_with(|| a.conditions.cmp(&b.conditions))
    });
    Some(looks)
}

/// What a check would report on one condition.
pub(crate) struct Report {
    pub(crate) reads: Reads,
    /// An answer that could forbid it is still open.
    pub(crate) unsettled: bool,
}

impl Report {
    /// None where the check says nothing about the condition, was made on it (`done`), or an answer forbids it there.
    /// `condition` is the position of `scoped`.
    pub(crate) fn of(
        id: &str,
        check: &Check,
        condition: usize,
        scoped: &Scoped<'_>,
        picture: &Picture,
        done: &[(String, String, u32, CheckOutcome)],
    ) -> Option<Self> {
        let pair = scoped.condition().checks.iter().find(|k| k.check == id)?;
        if done.iter().any(|(k, on, _, _)| k == id && on == scoped.key()) {
            return None;
        }
        let here = scoped.here(picture);
        let blocked: Vec<Option<bool>> = check.blocked_if.iter().map(|b| b.holds(&here)).collect();
        let (sensitivity, specificity) = (pair.sensitivity, pair.specificity);
        (!blocked.contains(&Some(true))).then(|| Self {
            reads: Reads { condition, sensitivity, specificity },
            unsettled: blocked.iter().any(Option::is_none),
        })
    }
}

/// P(there) after a check shows a condition, and after it does not, from P(there) before: Bayes' rule, exact for the
/// condition itself because what a first check shows hangs on nothing else.
pub fn after_report(pair: &CheckPair, before: f64) -> (f64, f64) {
    let of = |there: f64, not: f64| {
        let (with, without) = (there * before, not * (1.0 - before));
        // A report that cannot come changes nothing.
        if with + without > 0.0 { with / (with + without) } else { before }
    };
    let yes = of(pair.sensitivity, 1.0 - pair.specificity);
    (yes, of(1.0 - pair.sensitivity, pair.specificity))
}

/// Likely minutes of a check, and what it costs: the minutes at the firm's rate, and its repair, dollars.
pub(crate) fn effort(check: &Check, rules: &LossRules) -> (f64, f64) {
    let minutes = check.minutes.likely.max(0.5);
    (minutes, minutes / 60.0 * rules.labor_per_hour + check.cost.likely.dollars())
}

/// How often a check is made for what it tells: at each of several places, or once for all.
pub(crate) fn visits<'s>(
    check: &Check,
    told: impl Iterator<Item = &'s Scoped<'s>>,
    catalog: &Catalog,
    picture: &Picture,
) -> usize {
    let mut places: Vec<Option<PlaceRef>> = Vec::new();
    for scoped in told {
        let place = scoped.place().and_then(|p| PlaceRef::of(catalog, picture, p));
        if !places.contains(&place) {
            places.push(place);
        }
    }
    match check.serves {
        Serves::House => usize::from(!places.is_empty()),
        Serves::Place => places.len(),
    }
}

/// What must be asked before a check; `unsettled` when an answer that could forbid it is still open.
pub(crate) fn ask_first(check: &Check, unsettled: bool) -> Vec<String> {
    if check.not_while.is_empty() && unsettled {
        return vec!["an answer that could forbid it is still open: settle it first".to_owned()];
    }
    check.not_while.clone()
}

/// One check at one place as a look, if its value is above zero.
fn look(
    id: &str,
    check: &Check,
    place: Option<PlaceRef>,
    reports: &[Report],
    stakes: &[Stake<'_>],
    clusters: &[Cluster],
    rules: &LossRules,
) -> Option<Look> {
    let reads: Vec<Reads> = reports.iter().map(|r| r.reads).collect();
    let mut gains = vec![0.0; stakes.len()];
    clusters.iter().for_each(|cluster| add_gains(&mut gains, cluster, &reads, stakes));
    let value: f64 = gains.iter().sum();
    if value <= NOTHING {
        return None;
    }
    let (minutes, cost) = effort(check, rules);
    let unsettled = reports.iter().any(|r| r.unsettled && gains[r.reads.condition] > NOTHING);
    let informed = stakes.iter().zip(&gains).filter(|(_, gain)| **gain > NOTHING);
    Some(Look {
        check: id.to_owned(),
        label: check.name.clone(),
        place,
        serves: Vec::new(),
        conditions: informed.map(|(stake, _)| stake.key().to_owned()).collect(),
        minutes: round2(minutes),
        cost: cents(cost),
        value: cents(value),
        net_per_minute: cents((value - cost) / minutes),
        invasiveness: check.invasive,
        who: check.who.clone(),
        ask_first: ask_first(check, unsettled),
    })
}

/// Adds to `gains` how far the least expected loss of each condition of the cluster falls on average.
fn add_gains(gains: &mut [f64], cluster: &Cluster, reads: &[Reads], stakes: &[Stake<'_>]) {
    let mut after = vec![0.0; cluster.members.len()];
    let mut reported = false;
    cluster.after(reads, |p, present| {
        reported = true;
        for ((sum, member), there) in after.iter_mut().zip(&cluster.members).zip(present) {
            *sum += p * stakes[*member].least(*there);
        }
    });
    if reported {
        for (member, after) in cluster.members.iter().zip(after) {
            // Concave in the chance, so only rounding can make it negative.
            gains[*member] += (stakes[*member].now() - after).max(0.0);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_report_moves_the_chance_by_bayes_rule() {
        // A tenth of 100 houses: 9 of 10 shown, 18 of 90 shown wrongly; 9 of 27 shown, 1 of 73 not shown are there.
        let pair = CheckPair {
            check: "camera".into(),
            sensitivity: 0.9,
            specificity: 0.8,
            basis: None,
            source: None,
        };
        let (yes, no) = after_report(&pair, 0.1);
        assert!((yes - 9.0 / 27.0).abs() < 1e-12 && (no - 1.0 / 73.0).abs() < 1e-12, "{yes} {no}");
        assert_eq!(after_report(&pair, 0.0), (0.0, 0.0));
        assert_eq!(after_report(&pair, 1.0), (1.0, 1.0));
    }
}
