//! The walk through an invented house: what goes missing, what is asked in which order, which further looks are made.

use std::collections::{BTreeMap, BTreeSet};

use survey::catalog::{AnswerKind, Catalog, Check, Condition, Item, Place};
use survey::log::{CheckOutcome, CheckResult, Value};

use crate::candidates::not_done;
use crate::habits::Habits;
use crate::house::{Said, Step, Who};
use crate::speak::Facts;
use crate::stream::Stream;
use crate::suspect::probability;

/// Minutes an answer takes, where the station does not say: judgment.
const MINUTES: f64 = 0.7;

/// Why an answer says nothing, by item; the same three numbers are drawn for every item.
pub(crate) fn missing(catalog: &Catalog, habits: &Habits, stream: &mut Stream) -> BTreeMap<String, Value> {
    let mut out = BTreeMap::new();
    for item in &catalog.items {
        let (done, said, why) = (stream.share(), stream.share(), stream.share());
        if matches!(item.answer, AnswerKind::Checks) {
            continue;
        }
        if let Some(option) = not_done(item)
            && done < habits.not_done.of(&item.id)
        {
            out.insert(item.id.clone(), one(item, option));
            continue;
        }
        let station = habits.missing.get(&item.station).cloned().unwrap_or_default();
        let own = habits.missing_item.get(&item.id).copied();
        let (cant, could) = own.map_or((station.cant_tell, station.could_not_reach), |p| (p, 0.0));
        let because = station.because.get(libm::floor(why * station.because.len() as f64) as usize);
        if said < cant {
            out.insert(item.id.clone(), Value::CantTell);
        } else if let Some(because) = because.filter(|_| said < cant + could) {
            out.insert(item.id.clone(), Value::CouldNotReach(because.clone()));
        }
    }
    out
}

fn one(item: &Item, option: &str) -> Value {
    match item.answer {
        AnswerKind::Choices { .. } => Value::choices(vec![option.to_owned()]),
        _ => Value::Choice(option.to_owned()),
    }
}

/// Walks in order: skip rules, promotions, and now and then a second look that nothing promoted.
pub(crate) fn walk(
    catalog: &Catalog,
    habits: &Habits,
    said: &BTreeMap<String, Said>,
    stream: &mut Stream,
) -> Vec<Step> {
    let mut recorded = Facts::new();
    let mut steps = Vec::new();
    let mut minute = 0.0;
    for item in &catalog.items {
        let again = stream.chance(habits.second_look.of(&item.id));
        let pace = stream.between(0.5, 1.5);
        let Some(answer) = said.get(&item.id) else { continue };
        if item.skipped(&recorded) || !(item.in_first_walk(&recorded) || again) {
            continue;
        }
        let place = catalog.stations.iter().find(|s| s.id == item.station).map(|s| s.place);
        let who = match place {
            Some(Place::Sheet) => Who::Household,
            Some(Place::Office) => Who::Office,
            _ => Who::Surveyor,
        };
        recorded.insert(item.id.clone(), answer.value.clone());
        minute += if place == Some(Place::House) { MINUTES * pace } else { 0.1 };
        steps.push(Step {
            item: item.id.clone(),
            place: item.station.clone(),
            value: answer.value.clone(),
            tolerance: answer.tolerance,
            who,
            minute: minute as u32,
        });
    }
    steps
}

/// What each check would show of each condition in scope.
pub(crate) fn check_results(
    habits: &Habits,
    scope: &[&Condition],
    present: &BTreeSet<String>,
    stream: &mut Stream,
) -> BTreeMap<(String, String), CheckOutcome> {
    let mut results = BTreeMap::new();
    for c in scope {
        for pair in &c.checks {
            let (unclear, seen) = (stream.chance(habits.looks.unclear), stream.share());
            let shows =
                seen < if present.contains(&c.id) { pair.sensitivity } else { 1.0 - pair.specificity };
            let outcome = match (unclear, shows) {
                (true, _) => CheckOutcome::Unclear,
                (false, true) => CheckOutcome::ShowsIt,
                (false, false) => CheckOutcome::ShowsNot,
            };
            results.insert((pair.check.clone(), c.id.clone()), outcome);
        }
    }
    results
}

/// Further looks by a simple policy: the conditions whose presence is most in doubt for their cost, each by the check
/// that tells most in its minutes, unless an answer forbids it or may forbid it. `odds` has one number for each condition
/// in scope.
pub(crate) fn looks(
    catalog: &Catalog,
    habits: &Habits,
    scope: &[&Condition],
    recorded: &Facts,
    odds: &[f64],
    results: &BTreeMap<(String, String), CheckOutcome>,
    stream: &mut Stream,
) -> Vec<CheckResult> {
    let l = &habits.looks;
    let doubt = |c: &Condition, odds: f64| {
        let p = probability(odds);
        let cost = c.cost_in(recorded);
        p * (1.0 - p) * (cost.low.dollars() + 4.0 * cost.likely.dollars() + cost.high.dollars())
    };
    let mut ranked: Vec<(f64, &Condition)> =
        scope.iter().zip(odds).map(|(c, o)| (doubt(c, *o), *c)).collect();
    ranked.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.id.cmp(&b.1.id)));
    let allowed = |check: &Check| {
        let mut rules = check.blocked_if.iter().map(|b| b.holds(recorded));
        check.invasive <= l.invasive && rules.all(|r| r == Some(false))
    };
    let mut made: Vec<CheckResult> = Vec::new();
    let mut used: BTreeSet<&str> = BTreeSet::new();
    for (_, c) in ranked {
        if used.len() as u32 >= l.most {
            break;
        }
        let tells = |pair: &&survey::catalog::CheckPair| {
            let check = catalog.check(&pair.check);
            check
                .filter(|k| allowed(k))
                .map(|k| (pair.sensitivity + pair.specificity - 1.0) / k.minutes.likely.max(0.5))
        };
        let open = c.checks.iter().filter(|p| !used.contains(p.check.as_str()));
        let best = open.filter_map(|p| Some((tells(&p)?, p))).max_by(|a, b| a.0.total_cmp(&b.0));
        let Some((_, pair)) = best else { continue };
        if !stream.chance(l.chance) {
            continue;
        }
        used.insert(&pair.check);
        // One look tells about every condition in scope that it informs.
        for other in scope {
            if let Some(result) = results.get(&(pair.check.clone(), other.id.clone())) {
                made.push(CheckResult {
                    check: pair.check.clone(),
                    conditions: vec![other.id.clone()],
                    result: *result,
                });
            }
        }
    }
    made
}
