//! Forecast beside finding: the sum hung through the dots, the differences ranked, and what counts neither way.

use std::collections::BTreeMap;

use assessment::Forecast;
use assessment::forecast::ConditionForecast;
use drawing::{Palette, Plumb, Width};
use review::{Comparison, Difference, Finding, MoneyCheck, Outcome, Row, differences, misled};
use survey::units::Money;
use words::{CatalogWords, Message, Words, msg};

use crate::house::path;
use crate::office_shape::{
    BorneView, ComparedView, DifferenceView, FellView, MisledView, ScoresView, UnopenedView,
};
use crate::shape::DrawingView;
use crate::{chances, phrases};

use super::findings::{borne, outcome};

/// A column of the office's screens, px.
const COLUMN: Width = Width::Px(600.0);
/// Below so many outcomes a score is mostly luck.
const FEW: u32 = 20;

/// The comparison of a house, with its findings in the order they were entered.
pub fn compared(
    say: CatalogWords<'_>,
    forecast: &Forecast,
    comparison: &Comparison,
    findings: &[Finding],
) -> ComparedView {
    let words = say.words;
    let opened = comparison.rows.len() as u32 - comparison.not_opened;
    let (money_lies, days_lies) = (lies(words, &comparison.money), lies(words, &comparison.days));
    let days_said = chances::half_days(words, comparison.days.actual);
    let came = comparison.money.actual;
    let twentieths = forecast.money.shape.as_ref().map(|shape| shape.twentieths.as_slice());
    ComparedView {
        survey: comparison.survey.to_string(),
        label: comparison.label.clone(),
        frozen_at: forecast.made_at.to_string(),
        conditions: comparison.rows.len() as u32,
        opened,
        found: comparison.scores.as_ref().map_or(0, |s| s.found),
        came_cents: came.cents(),
        late_cents: comparison.money_late.cents(),
        below: twentieths.map(|sums| sums.iter().filter(|sum| **sum <= came).count() as u32),
        money: draw_money(words, forecast, came, &money_lies),
        money_lies,
        days: draw_days(words, forecast, (comparison.days.actual, &days_said), &days_lies),
        days_said,
        days_lies,
        fell: fell(forecast, findings),
        rows: rows(say, forecast, findings),
        unopened: comparison.rows.iter().filter_map(|row| unopened(words, forecast, row)).collect(),
        scores: comparison.scores.as_ref().map(|s| ScoresView {
            brier: s.brier,
            brier_base: s.brier_base,
            few: s.n < FEW,
        }),
        caution: phrases::assessment_caution(words, forecast),
    }
}

/// Where an actual sum lies among the percentiles.
fn lies<T>(words: &Words, check: &MoneyCheck<T>) -> String {
    let message: Message = match check.within {
        [true, ..] => msg!("compare-within-50"),
        [_, true, _] => msg!("compare-within-80"),
        [_, _, true] => msg!("compare-within-90"),
        _ => msg!("compare-beyond"),
    };
    words.say(&message)
}

fn draw_money(words: &Words, forecast: &Forecast, came: Money, lies: &str) -> Option<DrawingView> {
    let all = chances::money(words, forecast)?;
    let sum = phrases::round_money(words, came);
    let plumb = Plumb {
        at: came.dollars(),
        value: words.say(&msg!("compare-came-to", sum = sum)),
        says: lies.to_owned(),
    };
    let write = |dollars: f64| phrases::whole_money(words, Money::from_f64(dollars).unwrap_or(Money::MAX));
    Some(widths("came-money", |at| drawing::plumbed_dots(&all, &plumb, &write, at)))
}

fn draw_days(
    words: &Words,
    forecast: &Forecast,
    (days, said): (f64, &str),
    lies: &str,
) -> Option<DrawingView> {
    let all = chances::days(words, forecast)?;
    let halves = (days * 2.0).round();
    let plumb = Plumb {
        at: days,
        value: words.say(&msg!("compare-took-days", days = said, n = if halves == 2.0 { 1 } else { 2 })),
        says: lies.to_owned(),
    };
    let write = |days: f64| words::number(words.language(), days, 1);
    Some(widths("came-days", |at| drawing::plumbed_bars(&all, &plumb, &write, at)))
}

/// On a desk the drawings stand in one of two columns, and on a tablet they have room for no more than that.
fn widths(name: &str, draw: impl Fn((Width, Palette, &str)) -> String) -> DrawingView {
    let at = |width, held: &str| draw((width, Palette::Screen, &format!("{name}-{held}")));
    DrawingView { wide: at(COLUMN, "wide"), beside: at(COLUMN, "beside"), narrow: at(Width::Phone, "narrow") }
}

/// Where the money fell, of what is in the sum; parts of nothing are left out.
fn fell(forecast: &Forecast, findings: &[Finding]) -> Vec<FellView> {
    let latest: BTreeMap<&str, &Finding> = findings.iter().map(|f| (f.condition.as_str(), f)).collect();
    let mut parts: BTreeMap<BorneView, Money> = BTreeMap::new();
    let counts = |f: &&&Finding| {
        let held = forecast.condition(&f.condition).is_some_and(|c| c.in_base_price);
        f.outcome == Outcome::Found && !held && f.cost > Money::ZERO
    };
    for f in latest.values().filter(counts) {
        let part = parts.entry(borne(f)).or_insert(Money::ZERO);
        *part = [*part, f.cost].into_iter().sum();
    }
    let all = parts.values().copied().sum::<Money>().dollars().max(0.01);
    let part =
        |(borne, sum): (BorneView, Money)| FellView { borne, cents: sum.cents(), share: sum.dollars() / all };
    parts.into_iter().map(part).collect()
}

fn rows(say: CatalogWords<'_>, forecast: &Forecast, findings: &[Finding]) -> Vec<DifferenceView> {
    let all = differences(forecast, findings);
    let longest = all.iter().flat_map(|d| [d.carried, d.came]).max().map_or(1.0, Money::dollars).max(1.0);
    all.iter().map(|d| row(say, forecast.condition(&d.condition), d, longest)).collect()
}

fn row(say: CatalogWords<'_>, c: Option<&ConditionForecast>, d: &Difference, longest: f64) -> DifferenceView {
    let wrong = c.and_then(|c| Some((c, misled(c, d.outcome)?)));
    DifferenceView {
        key: d.condition.clone(),
        name: match c {
            Some(c) => phrases::condition_name(say.words, c),
            None => phrases::key_words(say, &d.condition),
        },
        about_in10: d.probability.map(|p| phrases::about_in_10(say.words, p)),
        outcome: outcome(d.outcome),
        carried_cents: d.carried.cents(),
        came_cents: d.came.cents(),
        carried: d.carried.dollars() / longest,
        came: d.came.dollars() / longest,
        missed: d.missed,
        false_alarm: d.false_alarm,
        misled: wrong.map(|(c, step)| MisledView { base: c.base, path: path(c, say), wrong: step as u32 }),
    }
}

fn unopened(words: &Words, forecast: &Forecast, row: &Row) -> Option<UnopenedView> {
    let entered = match row.outcome {
        Some(Outcome::Found | Outcome::NotThere) => return None,
        Some(Outcome::NotOpened) => true,
        None => false,
    };
    let c = forecast.condition(&row.condition)?;
    Some(UnopenedView {
        key: row.condition.clone(),
        name: phrases::condition_name(words, c),
        about_in10: phrases::about_in_10(words, row.probability),
        entered,
    })
}
