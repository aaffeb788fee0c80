//! How far a condition is suspected by what was seen, without any network: what a person could reckon on the spot.

use survey::catalog::{Answers, Catalog, Condition};
use survey::log::{CheckOutcome, CheckResult};

/// Odds of the condition's era times the ratio of each clue that was seen or not seen. Clues that `counts` refuses are
/// left out. Context, and clues that tell the same thing twice, are not considered.
pub(crate) fn odds(
    catalog: &Catalog,
    condition: &Condition,
    answers: &dyn Answers,
    counts: impl Fn(&str) -> bool,
) -> f64 {
    let band = catalog.band(condition.dated_by, answers);
    let prior = band.and_then(|b| condition.prior.by_band.get(b)).copied().unwrap_or(condition.prior.unknown);
    let mut odds = prior / (1.0 - prior).max(1e-9) * catalog.reference.base_odds.factor_for(&condition.id);
    for pair in condition.clues.iter().filter(|p| counts(&p.clue)) {
        let absent = pair.absent_in(band);
        match catalog.clue(&pair.clue).and_then(|c| c.state(answers)) {
            Some(true) => odds *= pair.if_present / absent.max(1e-6),
            Some(false) => odds *= (1.0 - pair.if_present) / (1.0 - absent).max(1e-6),
            None => {}
        }
    }
    odds
}

/// What the checks that were made multiply the odds of a condition by.
pub(crate) fn checked(condition: &Condition, made: &[CheckResult]) -> f64 {
    let on_it = made.iter().filter(|r| r.conditions.contains(&condition.id));
    on_it.fold(1.0, |odds, result| {
        let Some(pair) = condition.checks.iter().find(|p| p.check == result.check) else { return odds };
        odds * match result.result {
            CheckOutcome::ShowsIt => pair.sensitivity / (1.0 - pair.specificity).max(1e-6),
            CheckOutcome::ShowsNot => (1.0 - pair.sensitivity) / pair.specificity.max(1e-6),
            CheckOutcome::Unclear => 1.0,
        }
    })
}

/// Odds as a probability.
pub(crate) fn probability(odds: f64) -> f64 {
    if odds.is_finite() { odds / (1.0 + odds) } else { 1.0 }
}
