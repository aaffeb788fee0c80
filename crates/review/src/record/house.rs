//! One house of the record: what was forecast, by what, and what became of it. Plain data; nothing here looks anything up.

use assessment::Forecast;
use assessment::forecast::Bars;
use serde::Serialize;
use survey::{Digest, Key, Stamp, SurveyId};

use crate::compare::compare;
use crate::finding::{Finding, Outcome};

/// What is known of a house besides its forecast.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Known {
    /// Who recorded answers, each once.
    pub surveyors: Vec<String>,
    /// Era band by the year built, if it was given.
    pub era: Option<String>,
    /// Jobs planned.
    pub scope: Vec<String>,
}

/// A house with a forecast and findings.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgedHouse {
    /// The house.
    pub survey: SurveyId,
    /// Its label.
    pub label: String,
    /// Digest of the frozen forecast.
    pub forecast: Digest,
    /// Digest of the catalog that made it.
    pub catalog: Digest,
    /// When the forecast was frozen.
    pub made_at: Stamp,
    /// Who, when built, what planned.
    pub known: Known,
    /// One for each condition forecast.
    pub conditions: Vec<JudgedCondition>,
    /// Conditions found that the forecast held out of scope: in no score of probabilities, in the sums.
    pub out_of_scope: u32,
    /// The unknown in dollars; none while a condition has no finding.
    pub money: Option<JudgedSum>,
    /// The unknown in working days.
    pub days: Option<JudgedSum>,
}

/// One condition of a house.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgedCondition {
    /// Id in the catalog, without the place.
    pub id: String,
    /// P(present), frozen.
    pub p: f64,
    /// The catalog's base rate of its era, frozen.
    pub era_base: f64,
    /// What was found; none if nothing was entered.
    pub outcome: Option<Outcome>,
}

/// A forecast amount and what it came to.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgedSum {
    /// P50, P80, P90.
    pub percentiles: [f64; 3],
    /// Values of equal chance, rising, as far as they were frozen.
    pub members: Vec<f64>,
    /// What it came to where places were opened.
    pub actual: f64,
    /// True when everything forecast was opened: otherwise the actual is only what was seen.
    pub whole: bool,
}

/// Why a house cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NotJudged {
    /// No finding was entered yet.
    NoFindings,
    /// Findings were entered before any forecast was here.
    NoForecastInTime,
}

impl JudgedCondition {
    /// Whether it was there; none where nobody opened the place.
    pub fn happened(&self) -> Option<bool> {
        match self.outcome? {
            Outcome::Found => Some(true),
            Outcome::NotThere => Some(false),
            Outcome::NotOpened => None,
        }
    }
}

impl JudgedHouse {
    /// A house from its frozen forecast and its findings (the latest for each condition counts).
    pub fn new(forecast: &Forecast, digest: Digest, findings: &[Finding], known: Known) -> Self {
        let comparison = compare(forecast, digest, findings);
        let conditions: Vec<JudgedCondition> = comparison
            .rows
            .iter()
            .map(|r| JudgedCondition {
                id: Key::parse(&r.condition).id.to_owned(),
                p: r.probability,
                era_base: r.era_base,
                outcome: r.outcome,
            })
            .collect();
        let entered = comparison.open == 0 && !conditions.is_empty();
        let whole = comparison.not_opened == 0;
        let (money, days) = (&comparison.money, &comparison.days);
        let sum = |percentiles, members, actual| {
            entered.then_some(JudgedSum { percentiles, members, actual, whole })
        };
        Self {
            survey: forecast.survey,
            label: forecast.label.clone(),
            forecast: digest,
            catalog: forecast.catalog.digest,
            made_at: forecast.made_at,
            known,
            out_of_scope: comparison.out_of_scope.len() as u32,
            money: sum(
                [money.p50, money.p80, money.p90].map(|m| m.dollars()),
                money_members(forecast),
                money.actual.dollars(),
            ),
            days: sum(
                [days.p50, days.p80, days.p90],
                forecast.days.bars.as_ref().map(day_members).unwrap_or_default(),
                days.actual,
            ),
            conditions,
        }
    }

    /// True where at least one place was opened.
    pub fn is_opened(&self) -> bool {
        self.conditions.iter().any(|c| c.happened().is_some())
    }
}

/// Twenty values of equal chance; in forecasts of the older form the nineteen percentiles that were frozen.
fn money_members(forecast: &Forecast) -> Vec<f64> {
    let values = match &forecast.money.shape {
        Some(shape) => &shape.twentieths,
        None => &forecast.money.quantiles,
    };
    values.iter().map(|m| m.dollars()).collect()
}

/// Working days at a hundred equal steps of chance, read from the bars: evenly within a bar, but nothing in the first,
/// which holds the draws without any delay; beyond the last bar half a bar further.
fn day_members(bars: &Bars) -> Vec<f64> {
    const MEMBERS: u32 = 100;
    let all: u64 = bars.counts.iter().map(|n| u64::from(*n)).sum::<u64>() + u64::from(bars.beyond);
    if all == 0 {
        return Vec::new();
    }
    let value = |rank: f64| {
        let mut below = 0.0;
        for (i, count) in bars.counts.iter().enumerate() {
            let count = f64::from(*count);
            if rank < below + count {
                return if i == 0 { 0.0 } else { (i as f64 + (rank - below) / count) * bars.step };
            }
            below += count;
        }
        (bars.counts.len() as f64 + 0.5) * bars.step
    };
    (0..MEMBERS).map(|k| value((f64::from(k) + 0.5) / f64::from(MEMBERS) * all as f64)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_read_from_their_bars() {
        // 50 without delay, 40 between half a day and one, 10 beyond.
        let bars = Bars { step: 0.5, counts: vec![50, 40], beyond: 10 };
        let members = day_members(&bars);
        assert_eq!(members.len(), 100);
        assert_eq!((members[0], members[49], members[99]), (0.0, 0.0, 1.25));
        assert!((members[50] - (0.5 + 0.5 * 0.5 / 40.0)).abs() < 1e-12, "{}", members[50]);
        assert!(members.windows(2).all(|w| w[0] <= w[1]));
        assert!(day_members(&Bars { step: 0.5, counts: vec![], beyond: 0 }).is_empty());
    }
}
