//! What the pages of a packet say: picked from picture, catalog and frozen forecast; nothing is computed here.

mod brief;
mod crews;
mod household;
mod orders;
mod sight;
mod tables;
mod trades;

use std::collections::BTreeSet;

use assessment::Forecast;
use assessment::forecast::{CalculationForecast, ConditionForecast};
use assessment::promise::Promise;
use drawing::{Palette, Width};
use packet::{
    Amount, AnswerRow, Book, CalculationBlock, ConditionRow, Drawn, LimitRow, LookRow, MoneyBlock, PagesData,
    PhotoBlock, Readers, Station, UnknownRow, WeightRow,
};
use survey::catalog::Item;
use survey::guide::{self, Stop};
use survey::log::Value;
use survey::model::{Claim, Picture, Standing};
use survey::units::Money;
use survey::{Digest, Stamp, SurveyId};
use views::shape::WeightView;
use views::{chances, phrases};
use words::{CatalogWords, Words, msg};

use crate::picture::{self, Shown};
use crate::{Desk, Error};
use sight::Sight;

/// Width of a drawing on the pages, millimeters; the template sets it as wide.
const PAGE: f64 = 130.0;
/// Width of the drawings of money and days, millimeters: that of the text.
const PLOT: f64 = 174.0;
/// Conditions below this are counted, not listed ("unlikely"), unless a gate stands before them.
const LISTED_FROM: f64 = 0.10;
/// Most remarks and photographs on the pages; the packet has them all.
const MOST_REMARKS: usize = 500;
const MOST_PHOTOS: usize = 400;

/// What the packet is, as far as the pages say it.
pub(crate) struct Sealing<'a> {
    pub(crate) survey: SurveyId,
    pub(crate) number: u32,
    pub(crate) organization: Option<&'a str>,
    pub(crate) sealed_at: Stamp,
    pub(crate) assessment: Digest,
    /// The languages of the pages.
    pub(crate) readers: Readers<'a>,
    /// What the firm promises the household, if it does.
    pub(crate) promise: Option<&'a Promise>,
}

/// Gathers what all pages and tables say.
pub(crate) fn book(
    desk: &Desk,
    picture: &Picture,
    forecast: &Forecast,
    sealing: &Sealing<'_>,
) -> Result<Book, Error> {
    let Readers { crew, household } = sealing.readers;
    let say = CatalogWords::new(crew, &desk.catalog);
    let photos = photos_listed(picture);
    let sight = Sight { say, picture, forecast, photos: &photos };
    Ok(Book {
        office: office(desk, &sight, sealing)?,
        trades: trades::pages(&sight),
        household: household::pages(&Sight { say: CatalogWords::new(household, &desk.catalog), ..sight }),
        change_orders: orders::pages(&sight, sealing.promise),
        tables: tables::tables(&sight),
    })
}

/// The photographs in the order shown.
fn photos_listed(picture: &Picture) -> Vec<Digest> {
    let mut list: Vec<_> = picture.photos.iter().collect();
    list.sort_by_key(|(digest, seen)| (seen.taken.taken.map(|t| t.unix_ms()), seen.at.unix_ms(), **digest));
    list.into_iter().map(|(digest, _)| *digest).take(MOST_PHOTOS).collect()
}

/// Gathers the data of the office's pages.
fn office(desk: &Desk, sight: &Sight<'_>, sealing: &Sealing<'_>) -> Result<PagesData, Error> {
    let Sight { say, picture, forecast, .. } = *sight;
    let names: BTreeSet<&str> =
        picture.answers.values().flat_map(|s| &s.claims).map(|c| c.by.as_str()).collect();
    let listed: Vec<&ConditionForecast> = forecast.conditions.iter().filter(|c| listed(c)).collect();
    let left_out = forecast.conditions.len() - listed.len();
    let told = brief::told_in_full(forecast);
    Ok(PagesData {
        label: forecast.label.clone(),
        survey: sealing.survey,
        number: sealing.number,
        organization: sealing.organization.map(str::to_owned),
        sealed_at: sealing.sealed_at,
        demolition: picture.demolition.as_ref().map(|declared| (declared.by.clone(), declared.at)),
        surveyed_by: names.into_iter().map(str::to_owned).collect(),
        catalog: forecast.catalog.version.clone(),
        catalog_digest: forecast.catalog.digest,
        engine: forecast.engine.clone(),
        assessment_digest: sealing.assessment,
        log_position: forecast.log.entries,
        title: title(say.words, forecast),
        lead: lead(say.words, forecast, left_out),
        money: money(say.words, forecast),
        todo: brief::todo(sight),
        uncertain: brief::uncertain(sight),
        conditions: listed.into_iter().map(|c| condition(sight, c, told.contains(c.id.as_str()))).collect(),
        calculations: forecast
            .calculations
            .iter()
            .map(|c| calculation(&c.said_in(say.words), say.words))
            .collect(),
        looks: looks(sight),
        stations: stations(sight),
        unknown: unknown(say, forecast),
        photos: photos(desk, sight)?,
        disclaimers: vec![phrases::assessment_caution(say.words, forecast), say.notice().into_owned()],
    })
}

fn listed(c: &ConditionForecast) -> bool {
    c.probability >= LISTED_FROM || c.advice.is_gate()
}

fn title(words: &Words, f: &Forecast) -> String {
    words.say(&msg!("pages-title", sum = phrases::round_money(words, f.money.p80)))
}

fn lead(words: &Words, f: &Forecast, left_out: usize) -> String {
    let likely = f.conditions.iter().filter(|c| c.probability >= 0.60).count();
    let all = f.conditions.len();
    words.say(&if f.plan_known {
        msg!("pages-lead", all = all, likely = likely, left = left_out)
    } else {
        msg!("pages-lead-no-plan", all = all, likely = likely, left = left_out)
    })
}

fn money(words: &Words, f: &Forecast) -> MoneyBlock {
    let m = &f.money;
    let amount = |sum: Money, i: usize| Amount { sum, error: m.standard_errors[i] };
    let mut notes = vec![msg!("pages-draws", n = f.draws)];
    if let Some(over) = m.over {
        let [two, five, ten] = over.map(|p| phrases::in_100(words, p));
        notes.push(msg!("pages-over", two = two, five = five, ten = ten));
    }
    notes.push(msg!("pages-kept-apart", sum = phrases::whole_money(words, m.in_base_mean)));
    if f.days.utility_wait[1] > 0.0 {
        notes.push(msg!("pages-utility", n = f.days.utility_wait[1]));
    }
    MoneyBlock {
        mean: amount(m.mean, 0),
        p50: amount(m.p50, 1),
        p80: amount(m.p80, 2),
        p90: amount(m.p90, 3),
        contract: f.contract,
        days: [f.days.p50, f.days.p80, f.days.p90],
        drawing: chances::money(words, f).map(|c| Drawn {
            svg: chances::draw_money(words, &c, (Width::Page(PLOT), Palette::Page, "money")),
            said: c.said,
        }),
        days_drawing: chances::days(words, f).map(|c| Drawn {
            svg: chances::draw_days(words, &c, (Width::Page(PLOT), Palette::Page, "days")),
            said: c.said,
        }),
        weights: chances::weights(words, f).into_iter().map(weight).collect(),
        notes: notes.iter().map(|note| words.say(note)).collect(),
    }
}

fn weight(w: WeightView) -> WeightRow {
    WeightRow {
        name: w.name,
        words: w.about_in10,
        average: Money::from_cents(w.average_cents),
        range: [w.low_cents, w.high_cents].map(Money::from_cents),
    }
}

/// A condition; told in full with every step to its odds, its photographs and looks.
fn condition(sight: &Sight<'_>, c: &ConditionForecast, in_full: bool) -> ConditionRow {
    let say = sight.say;
    ConditionRow {
        name: phrases::condition_name(say.words, c),
        words: phrases::about_in_10(say.words, c.probability),
        odds: c.probability,
        band: c.band,
        low: c.cost[0],
        likely: c.cost[1],
        high: c.cost[2],
        action: phrases::advice_short(say.words, &c.advice),
        how: phrases::advice_words(say.words, c),
        caution: Some(phrases::condition_caution(say, c)),
        because: c.because.iter().take(3).map(|r| phrases::reason_words(say, r)).collect(),
        what: sight.what(c),
        when: sight.when(c),
        path: if in_full { brief::path(sight, c) } else { Vec::new() },
        photos: if in_full { sight.photos_of(c).into_iter().take(2).collect() } else { Vec::new() },
        looks: if in_full { brief::looks(sight, c) } else { Vec::new() },
    }
}

fn calculation(c: &CalculationForecast, words: &Words) -> CalculationBlock {
    let limit = |[name, value, source]: &[String; 3]| LimitRow {
        name: name.clone(),
        value: value.clone(),
        source: source.clone(),
    };
    CalculationBlock {
        title: c.title.clone(),
        sentence: c.sentence.clone(),
        missing: c.missing.clone(),
        drawing: c
            .picture
            .as_ref()
            .map(|p| drawing::svg(p, Width::Page(PAGE), Palette::Page, &c.word, &|s| words.text(s))),
        changes: c.changes.clone(),
        arithmetic: c.arithmetic.clone(),
        limits: c.limits.iter().map(limit).collect(),
        assumed: c.assumed.clone(),
        notes: c.notes.clone(),
        caution: c.caution.clone(),
    }
}

fn looks(sight: &Sight<'_>) -> Vec<LookRow> {
    let say = sight.say;
    let worth = sight.looks().take(6);
    worth
        .map(|l| {
            let told = phrases::look_words(say.words, l);
            let names = phrases::some_conditions(say, &l.conditions, 4);
            let why = if told.ask_first.is_empty() {
                msg!("pages-look-why", conditions = names, who = told.who)
            } else {
                let ask = told.ask_first.join("; ");
                msg!("pages-look-why-ask", conditions = names, who = told.who, ask = ask)
            };
            LookRow {
                what: match phrases::serves_words(say.words, l) {
                    Some(serves) => format!("{}. {serves}.", told.label),
                    None => phrases::at(say.words, told.label, l.place.as_ref()),
                },
                time: say.words.say(&msg!("pages-minutes", n = l.minutes)),
                worth: phrases::round_money(say.words, l.value),
                why: say.words.say(&why),
            }
        })
        .collect()
}

fn stations(sight: &Sight<'_>) -> Vec<Station> {
    let Sight { say, picture, .. } = *sight;
    let rows = |stop: &Stop<'_>| -> Vec<AnswerRow> {
        sight.answers_at(stop).map(|(item, standing)| answer(say, &item.id, standing)).collect()
    };
    let all = guide::stops(say.catalog, picture)
        .map(|stop| Station { name: phrases::place_words(say, picture, stop.place), answers: rows(&stop) });
    let remarks = picture.notes.iter().take(MOST_REMARKS).map(|(at, by, note)| AnswerRow {
        question: match &note.item {
            Some(item) => say.question(item).into_owned(),
            None => match &note.place {
                Some(place) => phrases::place_words(say, picture, place),
                None => say.words.say(&msg!("pages-the-house")),
            },
        },
        answer: note.text.clone(),
        tolerance: None,
        who: by.clone(),
        when: words::when(say.words.language(), *at),
        disagrees: Vec::new(),
    });
    all.chain([Station { name: say.words.say(&msg!("pages-remarks")), answers: remarks.collect() }])
        .filter(|s| !s.answers.is_empty())
        .collect()
}

fn answer(say: CatalogWords<'_>, item: &str, standing: &Standing) -> AnswerRow {
    let value = |c: &Claim| phrases::value_words(say, item, &c.answer.value);
    let claim = standing.leading();
    let entered = match (&claim.answer.value, &claim.answer.entered) {
        (Value::Length(_), Some(entered)) => {
            say.words.say(&msg!("answer-entered", answer = value(claim), entered = entered))
        }
        _ => value(claim),
    };
    let rival = |c: &Claim| say.words.say(&msg!("rival-answer", answer = value(c), by = &c.by, when = c.at));
    let rivals = standing.claims.iter().skip(1).filter(|_| standing.disagrees());
    AnswerRow {
        question: say.question(item).into_owned(),
        answer: match &claim.answer.reason {
            Some(remark) => say.words.say(&msg!("answer-with-remark", answer = entered, remark = remark)),
            None => entered,
        },
        tolerance: phrases::tolerance_words(&claim.answer),
        who: claim.by.clone(),
        when: words::when(say.words.language(), claim.at),
        disagrees: rivals.map(rival).collect(),
    }
}

fn unknown(say: CatalogWords<'_>, f: &Forecast) -> Vec<UnknownRow> {
    let station_of = |item: &Item| say.station(&item.station).into_owned();
    let row = |n: &assessment::forecast::NotKnown| UnknownRow {
        place: match &n.place {
            Some(place) => place.label.clone(),
            None => say.catalog.item(&n.item).map(station_of).unwrap_or_default(),
        },
        question: say.question(&n.item).into_owned(),
        why: phrases::why_words(say.words, &n.why),
    };
    f.not_known.iter().map(row).collect()
}

fn photos(desk: &Desk, sight: &Sight<'_>) -> Result<Vec<PhotoBlock>, Error> {
    let Sight { say, picture, .. } = *sight;
    let listed = sight.photos.iter().filter_map(|digest| Some((digest, picture.photos.get(digest)?)));
    listed
        .map(|(digest, seen)| {
            // Checked whole when the packet is written; here only that there is something to show.
            if !desk.store.blobs().has(*digest) {
                return Err(Error::new(crate::Kind::Missing, msg!("error-no-photo", photo = digest.short())));
            }
            let shows: Vec<_> = seen.shows.iter().map(|(_, item)| say.question(item)).collect();
            let caption = seen.taken.caption.clone().unwrap_or_else(|| shows.join(" · "));
            let place = seen.taken.place.as_deref().map(|p| phrases::place_words(say, picture, p));
            // Where the camera gave its wall time without its zone, that is what is said: no zone is printed either way.
            let wall = || seen.taken.taken_local.as_ref().and_then(|wall| format!("{wall}Z").parse().ok());
            let taken = seen.taken.taken.or_else(wall);
            let time = taken.map(|t| words::when(say.words.language(), t));
            let time = time.or_else(|| seen.taken.taken_local.clone());
            Ok(PhotoBlock {
                thumbnail: picture::small(desk, *digest, Shown::List).unwrap_or_default(),
                marks: (!seen.marks.is_empty()).then(|| {
                    let marks = seen.marks.iter().map(|(_, _, mark)| mark);
                    views::marks::overlay(marks, seen.taken.width, seen.taken.height)
                }),
                caption: if caption.is_empty() { seen.taken.name.clone() } else { caption },
                place: place.unwrap_or_default(),
                time: time.unwrap_or_else(|| say.words.say(&msg!("pages-no-time"))),
                digest: *digest,
            })
        })
        .collect()
}
