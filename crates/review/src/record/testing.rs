//! Judged houses for tests.

use survey::{Digest, Stamp, SurveyId};

use super::house::{JudgedCondition, JudgedHouse, JudgedSum, Known};
use crate::Outcome;

pub(crate) fn outcome(there: bool) -> Option<Outcome> {
    Some(if there { Outcome::Found } else { Outcome::NotThere })
}

/// Milliseconds of 2026-01-15T12:00:00Z.
const JANUARY: i64 = 1_768_478_400_000;
const DAY: i64 = 86_400_000;

/// House number `n` of an era, one row a condition: id, probability, base rate, outcome. Frozen on day `30·n` of 2026.
pub(crate) fn house(n: u8, era: &str, rows: &[(&str, f64, f64, Option<Outcome>)]) -> JudgedHouse {
    let conditions = rows.iter().map(|(id, p, era_base, outcome)| JudgedCondition {
        id: (*id).to_owned(),
        p: *p,
        era_base: *era_base,
        outcome: *outcome,
    });
    JudgedHouse {
        survey: SurveyId::from_bytes([n; 16]),
        label: format!("house {n}"),
        forecast: Digest::of(&[n]),
        catalog: Digest::of(b"catalog"),
        made_at: Stamp::new(JANUARY + i64::from(n - 1) * 30 * DAY, 0).unwrap(),
        known: Known {
            surveyors: vec!["Ana".into()],
            era: Some(era.into()),
            scope: vec!["new-floor".into()],
        },
        conditions: conditions.collect(),
        out_of_scope: 0,
        money: None,
        days: None,
    }
}

/// A forecast of twenty sums that came to `actual`.
pub(crate) fn sum(actual: f64, whole: bool) -> JudgedSum {
    let members: Vec<f64> = (0..20).map(|k| 100.0 * f64::from(k)).collect();
    JudgedSum { percentiles: [950.0, 1550.0, 1750.0], members, actual, whole }
}
