//! What the pages of a packet say: picked from picture, catalog and frozen forecast; nothing is computed here.

use std::collections::BTreeSet;

use assessment::Forecast;
use assessment::forecast::{CalculationForecast, ConditionForecast};
use drawing::{Palette, Width};
use packet::{
    Amount, AnswerRow, CalculationBlock, ConditionRow, LimitRow, LookRow, MoneyBlock, PagesData, PhotoBlock,
    Station, UnknownRow,
};
use survey::catalog::Item;
use survey::guide::{self, Stop};
use survey::log::Value;
use survey::model::{Claim, Picture, Standing};
use survey::units::Money;
use survey::{Digest, Stamp, SurveyId};
use views::words;

use crate::{Desk, Error};

/// Width of a drawing on the pages, millimeters; the template sets it as wide.
const PAGE: f64 = 130.0;
/// Longest side of a picture on the pages, in pixels.
const THUMBNAIL: u32 = 320;
/// Conditions below this are counted, not listed ("unlikely"), unless a gate stands before them.
const LISTED_FROM: f64 = 0.10;

/// What the packet is, as far as the pages say it.
pub(crate) struct Sealing<'a> {
    pub(crate) survey: SurveyId,
    pub(crate) number: u32,
    pub(crate) organization: Option<&'a str>,
    pub(crate) sealed_at: Stamp,
    pub(crate) assessment: Digest,
}

/// Gathers the pages' data.
pub(crate) fn data(
    desk: &Desk,
    picture: &Picture,
    forecast: &Forecast,
    sealing: &Sealing<'_>,
) -> Result<PagesData, Error> {
    let names: BTreeSet<&str> =
        picture.answers.values().flat_map(|s| &s.claims).map(|c| c.by.as_str()).collect();
    let listed: Vec<&ConditionForecast> = forecast.conditions.iter().filter(|c| listed(c)).collect();
    let left_out = forecast.conditions.len() - listed.len();
    Ok(PagesData {
        label: forecast.label.clone(),
        survey: sealing.survey,
        number: sealing.number,
        organization: sealing.organization.map(str::to_owned),
        sealed_at: sealing.sealed_at,
        surveyed_by: names.into_iter().map(str::to_owned).collect(),
        catalog: forecast.catalog.version.clone(),
        catalog_digest: forecast.catalog.digest,
        engine: forecast.engine.clone(),
        assessment_digest: sealing.assessment,
        log_position: forecast.log.entries,
        title: title(forecast),
        lead: lead(forecast, left_out),
        money: money(forecast),
        conditions: listed.into_iter().map(|c| condition(desk, c)).collect(),
        calculations: forecast.calculations.iter().map(calculation).collect(),
        looks: looks(desk, forecast),
        stations: stations(desk, picture),
        unknown: unknown(desk, forecast),
        photos: photos(desk, picture)?,
        disclaimers: vec![forecast.caution.clone(), desk.catalog.notice.clone()],
    })
}

fn listed(c: &ConditionForecast) -> bool {
    use assessment::forecast::Advice;
    c.probability >= LISTED_FROM
        || matches!(c.advice, Advice::LicensedLookFirst { .. } | Advice::PriceInOrTest { .. })
}

fn title(f: &Forecast) -> String {
    let sum = words::round_dollars(f.money.p80.dollars());
    format!("The unknown in this house: within {sum} in 8 cases of 10")
}

fn lead(f: &Forecast, left_out: usize) -> String {
    let likely = f.conditions.iter().filter(|c| c.probability >= 0.60).count();
    let plan = if f.plan_known { "" } else { "No planned work is recorded, so every condition is counted. " };
    format!(
        "{plan}Of {} conditions in the scope of this work {likely} are likely or more; {left_out} unlikely ones are not \
         listed. Nothing seen is never nothing there.",
        f.conditions.len()
    )
}

fn money(f: &Forecast) -> MoneyBlock {
    let m = &f.money;
    let amount = |sum: Money, i: usize| Amount { sum, error: m.standard_errors[i] };
    let mut notes = vec![format!(
        "From {} joint draws of all conditions and their costs; percentiles of the sum, never sums of percentiles.",
        f.draws
    )];
    if let Some([two, five, ten]) = m.over {
        let percent = assessment::forecast::in_100;
        notes.push(format!(
            "Chance that it passes 2, 5, 10 % of the contract: {}, {}, {}.",
            percent(two),
            percent(five),
            percent(ten)
        ));
    }
    notes.push(format!(
        "Kept apart: {} on average for conditions the base price is taken to hold.",
        words::whole_dollars(m.in_base_mean)
    ));
    if f.days.utility_wait[1] > 0.0 {
        notes.push(format!(
            "A utility may take {} calendar days from signing in 8 cases of 10.",
            f.days.utility_wait[1]
        ));
    }
    MoneyBlock {
        mean: amount(m.mean, 0),
        p50: amount(m.p50, 1),
        p80: amount(m.p80, 2),
        p90: amount(m.p90, 3),
        contract: f.contract,
        days: [f.days.p50, f.days.p80, f.days.p90],
        notes,
    }
}

fn condition(desk: &Desk, c: &ConditionForecast) -> ConditionRow {
    ConditionRow {
        name: c.full_name(),
        words: words::about_in_10(c.probability),
        odds: c.probability,
        band: None,
        low: c.cost[0],
        likely: c.cost[1],
        high: c.cost[2],
        action: words::advice_short(&c.advice).to_owned(),
        how: words::advice_words(&c.advice),
        caution: Some(c.caution.clone()),
        because: c.because.iter().take(3).map(|r| words::reason_words(&desk.catalog, r)).collect(),
    }
}

fn calculation(c: &CalculationForecast) -> CalculationBlock {
    let limit = |[name, value, source]: &[String; 3]| LimitRow {
        name: name.clone(),
        value: value.clone(),
        source: source.clone(),
    };
    CalculationBlock {
        title: c.title.clone(),
        sentence: c.sentence.clone(),
        missing: c.missing.clone(),
        drawing: c.picture.as_ref().map(|p| drawing::svg(p, Width::Page(PAGE), Palette::Page, &c.word)),
        changes: c.changes.clone(),
        arithmetic: c.arithmetic.clone(),
        limits: c.limits.iter().map(limit).collect(),
        assumed: c.assumed.clone(),
        notes: c.notes.clone(),
        caution: c.caution.clone(),
    }
}

fn looks(desk: &Desk, f: &Forecast) -> Vec<LookRow> {
    let worth = f.looks.iter().filter(|l| l.net_per_minute > Money::ZERO).take(6);
    worth
        .map(|l| {
            let names: Vec<&str> = l
                .conditions
                .iter()
                .take(4)
                .map(|c| desk.catalog.condition_of(c).map_or(c.as_str(), |c| c.name.as_str()))
                .collect();
            let more = l.conditions.len().saturating_sub(4);
            let more = if more > 0 { format!(" and {more} more") } else { String::new() };
            let ask = if l.ask_first.is_empty() {
                String::new()
            } else {
                format!(" Not while: {}.", l.ask_first.join("; "))
            };
            LookRow {
                what: match &l.place {
                    Some(place) => format!("{} ({})", l.label, place.label),
                    None => l.label.clone(),
                },
                time: format!("{} min", l.minutes),
                worth: words::round_dollars(l.value.dollars()),
                why: format!("Could change: {}{more}. Done by: {}.{ask}", names.join(", "), l.who),
            }
        })
        .collect()
}

fn stations(desk: &Desk, picture: &Picture) -> Vec<Station> {
    let rows = |stop: &Stop<'_>| -> Vec<AnswerRow> {
        let items = desk.catalog.items.iter().filter(|i| i.station == stop.station.id);
        items
            .filter_map(|item| {
                let (_, standing) = guide::seen_by(item, stop.place, picture).standing(&item.id)?;
                Some(answer(desk, &item.id, &item.question, standing))
            })
            .collect()
    };
    let all = guide::stops(&desk.catalog, picture).map(|stop| Station {
        name: words::place_words(&desk.catalog, picture, stop.place),
        answers: rows(&stop),
    });
    let remarks = picture.notes.iter().map(|(at, by, note)| AnswerRow {
        question: match &note.item {
            Some(item) => desk.catalog.item(item).map_or_else(|| item.clone(), |i| i.question.clone()),
            None => match &note.place {
                Some(place) => words::place_words(&desk.catalog, picture, place),
                None => "The house".to_owned(),
            },
        },
        answer: note.text.clone(),
        tolerance: None,
        who: by.clone(),
        when: at.minute_text(),
        disagrees: Vec::new(),
    });
    all.chain([Station { name: "Remarks".to_owned(), answers: remarks.collect() }])
        .filter(|s| !s.answers.is_empty())
        .collect()
}

fn answer(desk: &Desk, item: &str, question: &str, standing: &Standing) -> AnswerRow {
    let say = |c: &Claim| words::value_words(&desk.catalog, item, &c.answer.value);
    let claim = standing.leading();
    let entered = match (&claim.answer.value, &claim.answer.entered) {
        (Value::Length(_), Some(entered)) => format!("{} (entered “{entered}”)", say(claim)),
        _ => say(claim),
    };
    let disagrees = standing.disagrees();
    AnswerRow {
        question: question.to_owned(),
        answer: match &claim.answer.reason {
            Some(remark) => format!("{entered}; {remark}"),
            None => entered,
        },
        tolerance: words::tolerance_words(&claim.answer),
        who: claim.by.clone(),
        when: claim.at.minute_text(),
        disagrees: standing
            .claims
            .iter()
            .skip(1)
            .filter(|_| disagrees)
            .map(|c| format!("{} ({}, {})", say(c), c.by, c.at.minute_text()))
            .collect(),
    }
}

fn unknown(desk: &Desk, f: &Forecast) -> Vec<UnknownRow> {
    let station_of = |item: Option<&Item>| Some(desk.catalog.station(&item?.station)?.label.clone());
    let row = |n: &assessment::forecast::NotKnown| {
        let item = desk.catalog.item(&n.item);
        UnknownRow {
            place: match &n.place {
                Some(place) => place.label.clone(),
                None => station_of(item).unwrap_or_default(),
            },
            question: item.map_or_else(|| n.item.clone(), |i| i.question.clone()),
            why: n.why.clone(),
        }
    };
    f.not_known.iter().map(row).collect()
}

fn photos(desk: &Desk, picture: &Picture) -> Result<Vec<PhotoBlock>, Error> {
    let question =
        |item: &str| desk.catalog.item(item).map_or_else(|| item.to_owned(), |i| i.question.clone());
    let mut list: Vec<_> = picture.photos.iter().collect();
    list.sort_by_key(|(digest, seen)| (seen.taken.taken.map(|t| t.unix_ms()), seen.at.unix_ms(), **digest));
    list.into_iter()
        .map(|(digest, seen)| {
            let bytes = std::fs::read(desk.store.blobs().path(*digest)).map_err(|e| {
                Error::new(crate::Kind::Damaged, format!("photograph {}: {e}", digest.short()))
            })?;
            let shows: Vec<String> = seen.shows.iter().map(|(_, item)| question(item)).collect();
            let caption = seen.taken.caption.clone().unwrap_or_else(|| shows.join(" · "));
            let place = seen.taken.place.as_deref().map(|p| words::place_words(&desk.catalog, picture, p));
            let time = seen.taken.taken.map(|t| t.minute_text()).or_else(|| seen.taken.taken_local.clone());
            Ok(PhotoBlock {
                thumbnail: photo::thumbnail(&bytes, seen.taken.orientation, THUMBNAIL).unwrap_or_default(),
                caption: if caption.is_empty() { seen.taken.name.clone() } else { caption },
                place: place.unwrap_or_default(),
                time: time.unwrap_or_else(|| "time not in the file".to_owned()),
                digest: *digest,
            })
        })
        .collect()
}
