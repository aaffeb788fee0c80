//! What to look at next: the expected value of each further check, per minute.
//!
//! The value of a check is the sum over all conditions of the fall in the least expected loss that its whole report
//! brings on average: EVSI = Σ min L(now) − E over reports of Σ min L(after the report). Within a cluster of
//! conditions that hang together this is exact; what the report on one cluster tells of another is left out, so the
//! value is a floor. Which pricings are offered is held as it is now, so no report is ever worth less than nothing.
//! From the value go the minutes at the firm's rate and the repair. Gated hazards bring no value here: their licensed
//! look comes first whatever the arithmetic says.

use survey::catalog::{Answers, Catalog, Check};

use crate::decision::LossRules;
use crate::evidence::checks_made;
use crate::forecast::{Look, cents, round2};
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
    answers: &dyn Answers,
    rules: &LossRules,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Vec<Look>> {
    let done = checks_made(catalog, answers);
    let mut looks = Vec::new();
    for (id, check) in &catalog.checks {
        if !go_on() {
            return None;
        }
        let reads: Vec<Reads> = stakes
            .iter()
            .enumerate()
            .filter(|(_, stake)| !done.iter().any(|(k, on, _, _)| k == id && *on == stake.key()))
            .filter_map(|(condition, stake)| {
                let pair = stake.scoped.condition().checks.iter().find(|k| k.check == *id)?;
                Some(Reads { condition, sensitivity: pair.sensitivity, specificity: pair.specificity })
            })
            .collect();
        looks.extend(look(id, check, &reads, stakes, clusters, answers, rules));
    }
    looks.sort_by(|a, b| {
        b.net_per_minute
            .cmp(&a.net_per_minute)
            .then(a.invasiveness.cmp(&b.invasiveness))
            .then(a.check.cmp(&b.check))
    });
    Some(looks)
}

/// One check as a look, if it may be offered and its value is above zero.
fn look(
    id: &str,
    check: &Check,
    reads: &[Reads],
    stakes: &[Stake<'_>],
    clusters: &[Cluster],
    answers: &dyn Answers,
    rules: &LossRules,
) -> Option<Look> {
    let blocked: Vec<Option<bool>> = check.blocked_if.iter().map(|b| b.holds(answers)).collect();
    if reads.is_empty() || blocked.contains(&Some(true)) {
        return None;
    }
    let mut gains = vec![0.0; stakes.len()];
    clusters.iter().for_each(|cluster| add_gains(&mut gains, cluster, reads, stakes));
    let value: f64 = gains.iter().sum();
    if value <= NOTHING {
        return None;
    }
    let minutes = check.minutes.likely.max(0.5);
    let cost = minutes / 60.0 * rules.labor_per_hour + check.cost.likely.dollars();
    let mut ask_first = check.not_while.clone();
    if ask_first.is_empty() && blocked.iter().any(Option::is_none) {
        ask_first.push("an answer that could forbid it is still open: settle it first".to_owned());
    }
    Some(Look {
        check: id.to_owned(),
        label: check.name.clone(),
        conditions: stakes
            .iter()
            .zip(&gains)
            .filter(|(_, gain)| **gain > NOTHING)
            .map(|(stake, _)| stake.key().to_owned())
            .collect(),
        minutes: round2(minutes),
        cost: cents(cost),
        value: cents(value),
        net_per_minute: cents((value - cost) / minutes),
        invasiveness: check.invasive,
        who: check.who.clone(),
        ask_first,
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
