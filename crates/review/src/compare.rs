//! One house: the forecast beside what was found.

use std::collections::BTreeMap;

use assessment::STAGES;
use assessment::forecast::{ConditionForecast, Forecast};
use assessment::simulate::working_days;
use serde::{Deserialize, Serialize};
use survey::units::Money;
use survey::{Digest, SurveyId};

use crate::finding::{Finding, Outcome};
use crate::scores::{brier, log_score, skill};

/// Found although the forecast was below this ("possible" at most): a miss.
pub const MISSED_BELOW: f64 = 0.30;
/// Not there although the forecast was at least this ("likely"): a false alarm.
pub const FALSE_ALARM_FROM: f64 = 0.60;

/// Prediction beside finding for one house.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Comparison {
    /// Version of this form; 1.
    pub v: u32,
    /// The house.
    pub survey: SurveyId,
    /// Its label.
    pub label: String,
    /// Digest of the frozen forecast that is compared.
    pub forecast: Digest,
    /// One row for each condition in scope, in the order of the forecast.
    pub rows: Vec<Row>,
    /// Conditions found although the forecast held them out of scope; their cost is in the actual sum.
    pub out_of_scope: Vec<Finding>,
    /// Scores over the conditions that were opened; absent when none was.
    pub scores: Option<Scores>,
    /// Conditions of the forecast that were not opened, or have no finding yet: in no score.
    pub not_opened: u32,
    /// Conditions without any finding yet.
    pub open: u32,
    /// Misses, dearest first; those found out of scope among them.
    pub missed: Vec<String>,
    /// False alarms, likeliest first.
    pub false_alarms: Vec<String>,
    /// Money against the forecast.
    pub money: MoneyCheck<Money>,
    /// Of that, found after the price was fixed.
    pub money_late: Money,
    /// Working days against the forecast.
    pub days: MoneyCheck<f64>,
}

/// One condition.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Key of the condition ([`survey::Key`]).
    pub condition: String,
    /// Its name, with the place where the house has several.
    pub name: String,
    /// Forecast probability.
    pub probability: f64,
    /// Base rate of its era.
    pub era_base: f64,
    /// What was found; none if nothing was entered yet.
    pub outcome: Option<Outcome>,
    /// What it cost.
    pub cost: Money,
    /// Days it added.
    pub days: f64,
    /// Note of the finding.
    pub note: String,
    /// True when the base price holds it, so that its cost is not in the sums.
    pub in_base_price: bool,
}

/// Scores of one house. Small numbers are small: `n` stands beside them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scores {
    /// Conditions that were opened.
    pub n: u32,
    /// Of those, found.
    pub found: u32,
    /// Brier score of the forecast.
    pub brier: f64,
    /// Brier score of the era base rates.
    pub brier_base: f64,
    /// 1 − brier / brier_base.
    pub brier_skill: Option<f64>,
    /// Log score of the forecast, nats.
    pub log_score: f64,
    /// Log score of the era base rates, nats.
    pub log_score_base: f64,
}

/// An actual sum against the forecast percentiles.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MoneyCheck<T> {
    /// What it came to.
    pub actual: T,
    /// Forecast percentiles.
    pub p50: T,
    /// See `p50`.
    pub p80: T,
    /// See `p50`.
    pub p90: T,
    /// Whether the actual stayed within P50, P80, P90.
    pub within: [bool; 3],
}

fn check<T: PartialOrd + Copy>(actual: T, [p50, p80, p90]: [T; 3]) -> MoneyCheck<T> {
    MoneyCheck { actual, p50, p80, p90, within: [actual <= p50, actual <= p80, actual <= p90] }
}

/// Holds a frozen forecast against findings (the latest one for each condition).
pub fn compare(forecast: &Forecast, digest: Digest, findings: &[Finding]) -> Comparison {
    let latest: BTreeMap<&str, &Finding> = findings.iter().map(|f| (f.condition.as_str(), f)).collect();
    let rows: Vec<Row> =
        forecast.conditions.iter().map(|c| row(c, latest.get(c.id.as_str()).copied())).collect();
    let opened: Vec<&Row> =
        rows.iter().filter(|r| matches!(r.outcome, Some(Outcome::Found | Outcome::NotThere))).collect();
    let y: Vec<bool> = opened.iter().map(|r| r.outcome == Some(Outcome::Found)).collect();
    let p: Vec<f64> = opened.iter().map(|r| r.probability).collect();
    let base: Vec<f64> = opened.iter().map(|r| r.era_base).collect();
    let counts = |r: &&Row| r.outcome == Some(Outcome::Found) && !r.in_base_price;
    let late = |r: &&Row| latest.get(r.condition.as_str()).is_some_and(|f| !f.priced_before_signing);
    let out_of_scope: Vec<Finding> = latest
        .values()
        .filter(|f| f.outcome == Outcome::Found && forecast.condition(&f.condition).is_none())
        .map(|f| (*f).clone())
        .collect();
    let missed = rows.iter().filter(|r| r.outcome == Some(Outcome::Found) && r.probability < MISSED_BELOW);
    let mut misses: Vec<(Money, String)> = missed.map(|r| (r.cost, r.condition.clone())).collect();
    misses.extend(out_of_scope.iter().map(|f| (f.cost, f.condition.clone())));
    misses.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
    let outside: Money = out_of_scope.iter().map(|f| f.cost).sum();
    let outside_late: Money = out_of_scope.iter().filter(|f| !f.priced_before_signing).map(|f| f.cost).sum();
    let alarms =
        rows.iter().filter(|r| r.outcome == Some(Outcome::NotThere) && r.probability >= FALSE_ALARM_FROM);
    Comparison {
        v: 1,
        survey: forecast.survey,
        label: forecast.label.clone(),
        forecast: digest,
        scores: scores(&p, &base, &y),
        not_opened: (rows.len() - opened.len()) as u32,
        open: rows.iter().filter(|r| r.outcome.is_none()).count() as u32,
        missed: misses.into_iter().map(|(_, id)| id).collect(),
        false_alarms: alarms.map(|r| r.condition.clone()).collect(),
        money: check(
            rows.iter().filter(counts).map(|r| r.cost).sum::<Money>() + outside,
            [forecast.money.p50, forecast.money.p80, forecast.money.p90],
        ),
        money_late: rows.iter().filter(counts).filter(late).map(|r| r.cost).sum::<Money>() + outside_late,
        days: check(actual_days(forecast, &rows), [forecast.days.p50, forecast.days.p80, forecast.days.p90]),
        rows,
        out_of_scope,
    }
}

fn row(c: &ConditionForecast, finding: Option<&Finding>) -> Row {
    Row {
        condition: c.id.clone(),
        name: c.full_name(),
        probability: c.probability,
        era_base: c.era_base,
        outcome: finding.map(|f| f.outcome),
        cost: finding.map_or(Money::ZERO, |f| f.cost),
        days: finding.map_or(0.0, |f| f.days),
        note: finding.map(|f| f.note.clone()).unwrap_or_default(),
        in_base_price: c.in_base_price,
    }
}

fn scores(p: &[f64], base: &[f64], y: &[bool]) -> Option<Scores> {
    let (brier_here, brier_base) = (brier(p, y)?, brier(base, y)?);
    let round = |x: f64| libm::round(x * 1e6) / 1e6;
    Some(Scores {
        n: y.len() as u32,
        found: y.iter().filter(|y| **y).count() as u32,
        brier: round(brier_here),
        brier_base: round(brier_base),
        brier_skill: skill(brier_here, brier_base).map(round),
        log_score: round(log_score(p, y)?),
        log_score_base: round(log_score(base, y)?),
    })
}

/// Days as the forecast counts them: within a trade and stage they add, across trades they run side by side.
fn actual_days(forecast: &Forecast, rows: &[Row]) -> f64 {
    let counted = rows.iter().filter(|r| r.outcome == Some(Outcome::Found) && !r.in_base_price);
    let delays: Vec<_> = counted
        .filter_map(|r| {
            let c = forecast.condition(&r.condition).filter(|c| !c.utility_wait)?;
            let stage = STAGES.iter().find(|(_, id)| *id == c.stage)?.0;
            Some((stage, c.trade.as_str(), r.days))
        })
        .collect();
    libm::round(working_days(delays.into_iter()) * 100.0) / 100.0
}
