//! The office's brief: what to do kind by kind, what is most uncertain; and how each condition came to its odds.

use std::collections::BTreeSet;

use assessment::Forecast;
use assessment::forecast::{Advice, ConditionForecast};
use packet::{ClueRow, TodoRow, WeightRow};
use views::phrases;
use words::msg;

use super::sight::Sight;

/// Names in a row of the brief.
const NAMED: usize = 5;
/// Conditions told in full besides those before which a gate stands.
const IN_FULL: usize = 14;

/// Keys of the conditions told in full: those with a gate, and those that weigh most or are likeliest.
pub(super) fn told_in_full(f: &Forecast) -> BTreeSet<&str> {
    let weigh = f.money.to_mean.iter().chain(&f.money.to_spread).map(|c| c.condition.as_str());
    let likely = f.conditions.iter().filter(|c| c.probability >= 0.5).map(|c| c.id.as_str());
    let gates = f.conditions.iter().filter(|c| c.advice.is_gate()).map(|c| c.id.as_str());
    let mut told = BTreeSet::new();
    for key in weigh.chain(likely) {
        if told.len() < IN_FULL {
            told.insert(key);
        }
    }
    told.extend(gates);
    told
}

/// The order of the rows: what must come first, then what is in the price, then what is not.
fn rank(c: &ConditionForecast) -> Option<u8> {
    match phrases::advice_kind(&c.advice) {
        "licensed-look-first" => Some(0),
        "price-in-or-test" => Some(1),
        "price-in" => Some(2),
        "allowance" => Some(3),
        "unit-price" => Some(4),
        "exclude" => Some(5),
        "in-base-price" => Some(6),
        _ => None,
    }
}

/// What a condition costs on average, as far as the forecast says: the order within a row.
pub(super) fn weight(c: &ConditionForecast) -> f64 {
    c.probability * c.p_cost * c.cost[1].dollars()
}

/// The listed conditions, the heaviest first.
pub(super) fn heaviest<'a>(sight: &Sight<'a>) -> Vec<&'a ConditionForecast> {
    let mut all: Vec<&ConditionForecast> = sight.listed().collect();
    all.sort_by(|a, b| weight(b).total_cmp(&weight(a)).then_with(|| a.id.cmp(&b.id)));
    all
}

/// What to do, kind by kind.
pub(super) fn todo(sight: &Sight<'_>) -> Vec<TodoRow> {
    let words = sight.say.words;
    let heaviest = heaviest(sight);
    let row = |kind: u8| {
        let of: Vec<&&ConditionForecast> = heaviest.iter().filter(|c| rank(c) == Some(kind)).collect();
        let first = of.first()?;
        let name = |c: &&&ConditionForecast| {
            let name = phrases::condition_name(words, c);
            match &c.advice {
                Advice::Price { amount: Some(sum), .. } => {
                    format!("{name}: {}", phrases::round_money(words, *sum))
                }
                _ => name,
            }
        };
        Some(TodoRow {
            action: phrases::advice_short(words, &first.advice),
            names: of.iter().take(NAMED).map(name).collect(),
            more: match of.len().saturating_sub(NAMED) {
                0 => String::new(),
                n => sight.words(&msg!("pages-and-more", n = n)),
            },
        })
    };
    (0..=6).filter_map(row).collect()
}

/// The three conditions that add most to the spread of the sum.
pub(super) fn uncertain(sight: &Sight<'_>) -> Vec<WeightRow> {
    let words = sight.say.words;
    let of = sight.forecast.money.to_spread.iter().take(3);
    of.filter_map(|c| Some((c, sight.forecast.condition(&c.condition)?)))
        .map(|(share, c)| WeightRow {
            name: phrases::condition_name(words, c),
            words: phrases::about_in_10(words, c.probability),
            average: share.amount,
            range: [c.cost[0], c.cost[2]],
        })
        .collect()
}

/// From the base rate to the odds, answer by answer.
pub(super) fn path(sight: &Sight<'_>, c: &ConditionForecast) -> Vec<ClueRow> {
    let say = sight.say;
    let mut from = c.base;
    let start = ClueRow {
        what: sight.words(&msg!("pages-base-rate")),
        moved: phrases::about_in_10(say.words, c.base),
        from: c.base,
        to: c.base,
    };
    let mut rows = vec![start];
    for step in c.path.iter().flatten() {
        let (what, moved) = match &step.answer {
            Some(r) => {
                let question = phrases::at(say.words, say.question(&r.item).into_owned(), r.place.as_ref());
                let answer = phrases::value_words(say, &r.item, &r.value);
                (
                    sight.words(&msg!("pages-clue", question = question, answer = answer)),
                    phrases::how_far(r.decibans),
                )
            }
            None => (sight.words(&msg!("pages-small-steps", n = step.answers)), msg!("pages-a-little")),
        };
        rows.push(ClueRow { what, moved: sight.words(&moved), from, to: step.to });
        from = step.to;
    }
    rows
}

/// Looks that could change a condition, best first.
pub(super) fn looks(sight: &Sight<'_>, c: &ConditionForecast) -> Vec<String> {
    let words = sight.say.words;
    let of = sight.looks().filter(|l| l.conditions.contains(&c.id));
    of.take(3)
        .map(|l| {
            let label = phrases::at(words, phrases::look_words(words, l).label, l.place.as_ref());
            sight.words(&msg!("pages-look-short", look = label, n = l.minutes))
        })
        .collect()
}
