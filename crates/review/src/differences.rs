//! What was carried for each condition against what it came to, largest difference first.
//!
//! Only what was opened is here: a place nobody opened says nothing, neither that the forecast was right nor wrong.

use std::collections::BTreeMap;

use assessment::Pert;
use assessment::forecast::{ConditionForecast, Forecast};
use survey::units::Money;

use crate::compare::{FALSE_ALARM_FROM, MISSED_BELOW};
use crate::finding::{Finding, Outcome};

/// One condition that was opened.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Key of the condition ([`survey::Key`]).
    pub condition: String,
    /// Its forecast; none where it was held out of scope and found all the same.
    pub probability: Option<f64>,
    /// Found, or not there.
    pub outcome: Outcome,
    /// What it weighed in the mean of the forecast: odds times the mean of its cost. Nothing where the base price holds it.
    pub carried: Money,
    /// What it came to; nothing where the base price holds it.
    pub came: Money,
    /// Found although the forecast was at most "possible", or out of scope.
    pub missed: bool,
    /// Not there although the forecast was at least "likely".
    pub false_alarm: bool,
}

impl Difference {
    /// What it came to above what was carried; negative below.
    pub fn more(&self) -> i64 {
        self.came.cents() - self.carried.cents()
    }
}

/// Every condition that was opened, the largest difference first, equal ones by key.
pub fn differences(forecast: &Forecast, findings: &[Finding]) -> Vec<Difference> {
    let latest: BTreeMap<&str, &Finding> = findings.iter().map(|f| (f.condition.as_str(), f)).collect();
    let opened = latest.values().filter(|f| f.outcome != Outcome::NotOpened);
    let mut list: Vec<Difference> = opened
        .filter_map(|f| match forecast.condition(&f.condition) {
            Some(c) => Some(forecast_of(c, f)),
            None => (f.outcome == Outcome::Found).then(|| out_of_scope(f)),
        })
        .collect();
    list.sort_by(|a, b| b.more().abs().cmp(&a.more().abs()).then_with(|| a.condition.cmp(&b.condition)));
    list
}

fn forecast_of(c: &ConditionForecast, finding: &Finding) -> Difference {
    let found = finding.outcome == Outcome::Found;
    let (carried, came) =
        if c.in_base_price { (Money::ZERO, Money::ZERO) } else { (average(c), finding.cost) };
    Difference {
        condition: c.id.clone(),
        probability: Some(c.probability),
        outcome: finding.outcome,
        carried,
        came,
        missed: found && c.probability < MISSED_BELOW,
        false_alarm: !found && c.probability >= FALSE_ALARM_FROM,
    }
}

fn out_of_scope(finding: &Finding) -> Difference {
    Difference {
        condition: finding.condition.clone(),
        probability: None,
        outcome: finding.outcome,
        carried: Money::ZERO,
        came: finding.cost,
        missed: true,
        false_alarm: false,
    }
}

/// The mean of what a condition costs over many houses like this one.
fn average(c: &ConditionForecast) -> Money {
    let [low, likely, high] = c.cost.map(Money::dollars);
    // A forecast made elsewhere may hold a cost out of order; then its likely value stands for all.
    let mean = Pert::new(low, likely, high).map_or(likely, |pert| pert.mean());
    Money::from_f64(c.probability * c.p_cost * mean).unwrap_or(Money::MAX)
}
