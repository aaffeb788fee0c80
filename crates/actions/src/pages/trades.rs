//! Pages of the trades: only what is theirs, and no money.

use std::collections::BTreeSet;

use assessment::forecast::{Advice, ConditionForecast, CutForecast, Look};
use packet::{LookRow, OpeningRow, ReadingRow, TradePages, TradeRow, UnknownRow};
use survey::catalog::{AnswerKind, CLOSERS, Gate};
use survey::log::Value;
use survey::units::inches_16;
use views::phrases;
use words::msg;

use super::crews::{CREWS, Crew};
use super::sight::Sight;

/// Most photographs on a trade's pages.
const PHOTOS: usize = 12;
/// Invasiveness from which a look leaves a hole to be closed: a pinhole.
const LEAVES_A_HOLE: u8 = 3;

/// Pages of every trade that the house concerns.
pub(super) fn pages(sight: &Sight<'_>) -> Vec<TradePages> {
    CREWS.iter().filter_map(|crew| of(crew, sight)).collect()
}

/// `None` where nothing of the house is this trade's.
fn of(crew: &Crew, sight: &Sight<'_>) -> Option<TradePages> {
    let say = sight.say;
    let lead: Vec<&ConditionForecast> = sight.listed().filter(|c| crew.leads(sight, c)).collect();
    let follow: Vec<&ConditionForecast> = sight.listed().filter(|c| crew.follows(sight, c)).collect();
    let calculations: Vec<usize> = (0..)
        .zip(&sight.forecast.calculations)
        .filter(|(_, c)| crew.calculates(&c.word))
        .map(|(n, _)| n)
        .collect();
    if lead.is_empty() && follow.is_empty() && calculations.is_empty() {
        return None;
    }
    let mut items: BTreeSet<&str> = lead.iter().flat_map(|c| sight.items_of(c)).collect();
    for c in calculations.iter().filter_map(|n| sight.forecast.calculations.get(*n)) {
        let covered = c.condition.as_deref().and_then(|key| sight.forecast.condition(key));
        items.extend(covered.into_iter().flat_map(|c| sight.items_of(c)));
    }
    let photos: Vec<usize> =
        sight.photos_where(|_, item| items.contains(item)).into_iter().take(PHOTOS).collect();
    let keys: Vec<&str> = lead.iter().map(|c| c.id.as_str()).collect();
    let looks = sight.looks().filter(|l| l.conditions.iter().any(|key| keys.contains(&key.as_str())));
    let (measured, seen) = readings(sight, &items);
    let unknown = sight.forecast.not_known.iter().filter(|n| items.contains(n.item.as_str()));
    Some(TradePages {
        file: crew.file.to_owned(),
        running: sight.words(&(crew.running)()),
        title: title(sight, &calculations, lead.len(), follow.len()),
        lead: sight.words(&msg!("pages-trade-lead")),
        conditions: lead.iter().map(|c| row(sight, c)).collect(),
        measured,
        seen,
        openings: openings(sight, lead.iter().chain(&follow).copied()),
        looks: looks.take(5).map(|l| look(sight, l)).collect(),
        asks: asks(sight, &lead),
        unknown: unknown
            .map(|n| UnknownRow {
                place: n.place.as_ref().map(|p| p.label.clone()).unwrap_or_default(),
                question: say.question(&n.item).into_owned(),
                why: phrases::why_words(say.words, &n.why),
            })
            .collect(),
        photos,
        calculations,
        caution: sight.words(&msg!("pages-trade-decides")),
    })
}

/// The first result that lies beyond what it is held against; else how many conditions there are.
fn title(sight: &Sight<'_>, calculations: &[usize], lead: usize, follow: usize) -> String {
    let beyond = calculations.iter().filter_map(|n| sight.forecast.calculations.get(*n));
    match beyond.filter(|c| c.standing == "beyond").map(|c| c.said_in(sight.say.words)).next() {
        Some(c) => sight.words(&msg!("pages-trade-title-beyond", title = c.title, n = lead)),
        None if lead > 0 => sight.words(&msg!("pages-trade-title", n = lead)),
        None if follow > 0 => sight.words(&msg!("pages-trade-title-follows", n = follow)),
        None => sight.words(&msg!("pages-trade-title-figures")),
    }
}

fn row(sight: &Sight<'_>, c: &ConditionForecast) -> TradeRow {
    let words = sight.say.words;
    TradeRow {
        name: phrases::condition_name(words, c),
        what: sight.what(c),
        words: phrases::about_in_10(words, c.probability),
        odds: c.probability,
        when: sight.when(c),
        caution: sight.caution(c),
        because: c.because.iter().take(2).map(|r| phrases::reason_words(sight.say, r)).collect(),
    }
}

/// What was measured, and what else was answered, of the items that bear on a trade.
fn readings(sight: &Sight<'_>, items: &BTreeSet<&str>) -> (Vec<ReadingRow>, Vec<ReadingRow>) {
    let say = sight.say;
    let (mut measured, mut seen) = (Vec::new(), Vec::new());
    let bears = sight.answers().into_iter().filter(|(_, item, _)| items.contains(item.id.as_str()));
    for (place, item, standing) in bears {
        let Some(answer) = standing.settled().filter(|a| a.value.is_statement()) else { continue };
        let photos = sight.photos_where(|at, of| of == item.id && (!item.at_each || at == place));
        let row = ReadingRow {
            what: say.question(&item.id).into_owned(),
            place: phrases::place_words(say, sight.picture, place),
            reading: phrases::value_words(say, &item.id, &answer.value),
            good_to: phrases::tolerance_words(answer).unwrap_or_default(),
            photos: photos.iter().map(|n| (n + 1).to_string()).collect::<Vec<_>>().join(", "),
        };
        match (&item.answer, &answer.value) {
            (AnswerKind::Length { .. }, _) | (_, Value::Length(_)) => measured.push(row),
            _ => seen.push(row),
        }
    }
    (measured, seen)
}

/// Openings that conditions bring, likeliest first.
pub(super) fn openings<'c>(
    sight: &Sight<'_>,
    conditions: impl Iterator<Item = &'c ConditionForecast>,
) -> Vec<OpeningRow> {
    let closes = |c: &ConditionForecast| {
        let trades = sight.catalogued(c).map(|condition| condition.trades.as_slice()).unwrap_or_default();
        trades.iter().find(|t| CLOSERS.contains(&t.as_str())).cloned()
    };
    let row = |c: &ConditionForecast| {
        let closes = closes(c)?;
        Some(OpeningRow {
            what: phrases::bare_name(sight.say.words, c),
            place: c.place.as_ref().map(|p| p.label.clone()).unwrap_or_default(),
            words: phrases::about_in_10(sight.say.words, c.probability),
            size: size(sight, c),
            stage: sight.stage(&c.stage),
            opens: sight.trade(&c.trade),
            closes: sight.trade(&closes),
        })
    };
    conditions.filter_map(row).collect()
}

/// How many openings a condition brings, and how large.
fn size(sight: &Sight<'_>, c: &ConditionForecast) -> String {
    let Some(CutForecast { number: [few, usual, many], width, height }) = c.cut else {
        return sight.words(&msg!("pages-opening-planned"));
    };
    let (width, height) = (inches_16(width), inches_16(height));
    sight.words(&if few == many {
        msg!("pages-opening-cut", n = usual, width = width, height = height)
    } else {
        msg!("pages-opening-cuts", n = usual, few = few, many = many, width = width, height = height)
    })
}

fn look(sight: &Sight<'_>, l: &Look) -> LookRow {
    let words = sight.say.words;
    let told = phrases::look_words(words, l);
    let how = sight.words(&phrases::invasive(l.invasiveness));
    let mut why = vec![how];
    if l.invasiveness >= LEAVES_A_HOLE {
        why.push(sight.words(&msg!("pages-look-closes")));
    }
    if !told.ask_first.is_empty() {
        why.push(sight.words(&msg!("pages-not-while", what = told.ask_first.join("; "))));
    }
    LookRow {
        what: phrases::at(words, told.label, l.place.as_ref()),
        time: sight.words(&msg!("pages-minutes", n = l.minutes)),
        worth: told.who,
        why: why.join(". "),
    }
}

/// What is asked of a trade: a first look where a gate stands, and a price beforehand.
fn asks(sight: &Sight<'_>, lead: &[&ConditionForecast]) -> Vec<String> {
    let words = sight.say.words;
    let name = |c: &ConditionForecast| phrases::condition_name(words, c);
    let mut asks = Vec::new();
    for c in lead {
        match &c.advice {
            Advice::LicensedLookFirst { until } => {
                let until = phrases::gate_words(sight.say, &c.id, until);
                asks.push(sight.words(&msg!("pages-ask-look", condition = name(c), until = until)));
            }
            Advice::PriceInOrTest { until } => {
                let until = phrases::gate_words(sight.say, &c.id, until);
                asks.push(sight.words(&msg!("pages-ask-treat", condition = name(c), until = until)));
            }
            _ => {}
        }
    }
    let priced: Vec<String> =
        lead.iter().filter(|c| matches!(c.advice, Advice::Price { .. })).take(6).map(|c| name(c)).collect();
    if !priced.is_empty() {
        asks.push(sight.words(&msg!("pages-ask-price", conditions = priced)));
    }
    asks.push(sight.words(&msg!("pages-ask-tell")));
    asks
}

/// Whether the catalog takes a condition as there until it is tested.
pub(super) fn presumed(sight: &Sight<'_>, c: &ConditionForecast) -> bool {
    sight
        .catalogued(c)
        .and_then(|condition| condition.decision.as_ref())
        .is_some_and(|d| d.kind == Gate::Presume)
}
