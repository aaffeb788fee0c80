//! The record of some outcomes: scores, their parts, the reliability of ten bins with bands, money and days.

use std::collections::BTreeSet;

use serde::Serialize;
use survey::SurveyId;

use super::amounts::Amounts;
use crate::scores::bins::{equal_width, murphy};
use crate::scores::ranking::roc_auc;
use crate::scores::wilson::{NINETY_FIVE, wilson};
use crate::scores::{brier, log_score, skill};

/// Below so many outcomes a record is small: counts are told, no curve is drawn.
pub const SMALL_OUTCOMES: usize = 20;
/// Below so many houses too, because outcomes of one house go together.
pub const SMALL_HOUSES: usize = 5;
/// Bins of the reliability diagram, of equal width.
pub const BINS: usize = 10;

/// Whether a record is small.
pub fn is_small(outcomes: usize, houses: usize) -> bool {
    outcomes < SMALL_OUTCOMES || houses < SMALL_HOUSES
}

/// One forecast probability and what became of it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Case {
    pub(crate) house: SurveyId,
    pub(crate) p: f64,
    pub(crate) base: f64,
    /// None where nobody opened the place.
    pub(crate) happened: Option<bool>,
    /// True where no finding was entered yet.
    pub(crate) open: bool,
}

/// What a record says. Every number rests on the houses listed with it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Record {
    /// Houses with an outcome in the scores.
    pub houses: Vec<SurveyId>,
    /// Outcomes: conditions that were opened.
    pub opened: u32,
    /// Of those, found.
    pub found: u32,
    /// Not opened: in no score.
    pub not_opened: u32,
    /// Without a finding yet: in no score.
    pub not_entered: u32,
    /// True where the numbers are small ([`is_small`]).
    pub small: bool,
    /// Scores; none without an outcome.
    pub scores: Option<ConditionScores>,
    /// Bins that hold an outcome, lowest first.
    pub bins: Vec<BinRow>,
    /// Dollars.
    pub money: Amounts,
    /// Working days.
    pub days: Amounts,
}

/// Scores of probabilities. The Brier score is `reliability` − `resolution` + `uncertainty`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ConditionScores {
    /// Mean (p − y)².
    pub brier: f64,
    /// How far the forecasts of a bin lie off what happened in it; 0 is best.
    pub reliability: f64,
    /// How far the bins tell outcomes apart, what is hidden within bins included; more is better.
    pub resolution: f64,
    /// What the outcomes themselves leave open.
    pub uncertainty: f64,
    /// Log score, nats.
    pub log_score: f64,
    /// Brier score of the base rates.
    pub base_brier: f64,
    /// Log score of the base rates.
    pub base_log_score: f64,
    /// 1 − brier / base_brier; none where the base rates were perfect.
    pub brier_skill: Option<f64>,
    /// 1 − log score / that of the base rates.
    pub log_skill: Option<f64>,
    /// Area under the ROC curve; none where all outcomes are the same.
    pub auc: Option<f64>,
}

/// One bin.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BinRow {
    /// Lower end.
    pub from: f64,
    /// Upper end.
    pub to: f64,
    /// Outcomes.
    pub n: u32,
    /// Of those, found.
    pub found: u32,
    /// Mean forecast.
    pub mean: f64,
    /// Share found.
    pub share: f64,
    /// 95 % band around it, by Wilson.
    pub band: [f64; 2],
    /// Its houses.
    pub houses: Vec<SurveyId>,
}

impl Record {
    /// The record of some cases and sums.
    pub(crate) fn of(cases: &[Case], money: Amounts, days: Amounts) -> Self {
        let opened: Vec<(&Case, bool)> = cases.iter().filter_map(|c| Some((c, c.happened?))).collect();
        let p: Vec<f64> = opened.iter().map(|(c, _)| c.p).collect();
        let base: Vec<f64> = opened.iter().map(|(c, _)| c.base).collect();
        let y: Vec<bool> = opened.iter().map(|(_, y)| *y).collect();
        let houses = listed(opened.iter().map(|(c, _)| c.house));
        let open = cases.iter().filter(|c| c.open).count();
        Self {
            opened: y.len() as u32,
            found: y.iter().filter(|y| **y).count() as u32,
            not_opened: (cases.len() - y.len() - open) as u32,
            not_entered: open as u32,
            small: is_small(y.len(), houses.len()),
            scores: scores(&p, &base, &y),
            bins: bin_rows(&opened, &p, &y),
            houses,
            money,
            days,
        }
    }
}

fn scores(p: &[f64], base: &[f64], y: &[bool]) -> Option<ConditionScores> {
    let parts = murphy(&equal_width(p, y, BINS))?;
    let (ours, theirs) = (brier(p, y)?, brier(base, y)?);
    let (log, base_log) = (log_score(p, y)?, log_score(base, y)?);
    Some(ConditionScores {
        brier: ours,
        reliability: parts.reliability,
        resolution: parts.generalised_resolution(),
        uncertainty: parts.uncertainty,
        log_score: log,
        base_brier: theirs,
        base_log_score: base_log,
        brier_skill: skill(ours, theirs),
        log_skill: skill(log, base_log),
        auc: roc_auc(p, y),
    })
}

fn bin_rows(opened: &[(&Case, bool)], p: &[f64], y: &[bool]) -> Vec<BinRow> {
    // The same rule as `equal_width`.
    let bin_of = |p: f64| ((p * BINS as f64).floor() as usize).min(BINS - 1);
    let row = |(k, bin): (usize, crate::scores::bins::Bin)| {
        let band = wilson(bin.happened, bin.n, NINETY_FIVE)?;
        Some(BinRow {
            from: k as f64 / BINS as f64,
            to: (k + 1) as f64 / BINS as f64,
            n: bin.n as u32,
            found: bin.happened as u32,
            mean: bin.mean_p,
            share: bin.mean_y,
            band,
            houses: listed(opened.iter().filter(|(c, _)| bin_of(c.p) == k).map(|(c, _)| c.house)),
        })
    };
    equal_width(p, y, BINS).into_iter().enumerate().filter_map(row).collect()
}

/// Each once, in order of ids.
fn listed(houses: impl Iterator<Item = SurveyId>) -> Vec<SurveyId> {
    houses.collect::<BTreeSet<_>>().into_iter().collect()
}
