//! Cards, houses and assessments as screens show them.

use assessment::Forecast;
use assessment::forecast::{ConditionForecast, PathStep};
use drawing::Palette;
use survey::SurveyId;
use survey::catalog::Catalog;
use survey::guide;
use survey::log::Value;
use survey::model::{Picture, Standing};
use words::{CatalogWords, msg};

use crate::shape::{
    AssessmentView, ConditionView, DaysView, FrozenView, HouseCard, HouseView, MoneyView, RivalView, RowKind,
    RowView, StationView, StepView, TakenOutView,
};
use crate::{chances, phrases};

fn label_of(picture: &Picture) -> String {
    picture.label().to_owned()
}

/// One house in the list.
pub fn house_card(
    survey: SurveyId,
    picture: &Picture,
    catalog: &Catalog,
    forecast: Option<&Forecast>,
) -> HouseCard {
    let progress = guide::progress(catalog, picture, guide::Scope::default());
    HouseCard {
        survey: survey.to_string(),
        label: label_of(picture),
        last_touched: picture.last_touched.map(|t| t.to_string()).unwrap_or_default(),
        answered: progress.answered,
        wanted: progress.asked,
        photos: picture.photos.len() as u32,
        money_p80_cents: forecast.map(|f| f.money.p80.cents()),
        packet: None,
        demolition: picture.demolition.is_some(),
    }
}

/// One house: its stations with what stands for each item that was answered or matters now, in the language of `say`.
pub fn house_view(
    survey: SurveyId,
    picture: &Picture,
    say: CatalogWords<'_>,
    forecast: Option<&Forecast>,
) -> HouseView {
    let catalog = say.catalog;
    let stations = guide::stops(catalog, picture).filter_map(|guide::Stop { station, place }| {
        let items = catalog.items.iter().filter(|i| i.station == station.id);
        let rows: Vec<RowView> = items
            .filter_map(|item| match guide::seen_by(item, place, picture).standing(&item.id) {
                Some((_, standing)) => Some(row(say, &item.id, standing)),
                None => {
                    let open = guide::status(item, place, picture) == guide::Status::Open;
                    open.then(|| open_row(say, &item.id))
                }
            })
            .collect();
        (!rows.is_empty()).then(|| StationView {
            id: station.id.clone(),
            place: place.to_owned(),
            label: say.station(&station.id).into_owned(),
            place_label: guide::place_name(catalog, picture, place),
            rows,
        })
    });
    HouseView {
        survey: survey.to_string(),
        label: label_of(picture),
        stations: stations.collect(),
        taken_out: taken_out(picture),
        photos: picture.photos.len() as u32,
        frozen: forecast.map(|f| FrozenView {
            made_at: f.made_at.to_string(),
            p80_cents: f.money.p80.cents(),
            catalog: catalog_name(f),
            engine: f.engine.clone(),
        }),
        demolition: crate::demolition::demolition(say, picture),
        withdrawn: crate::demolition::withdrawn(picture),
    }
}

/// Places that were taken out, with what is kept of them.
pub fn taken_out(picture: &Picture) -> Vec<TakenOutView> {
    let out = picture.places.iter().filter(|p| !p.there);
    out.map(|p| TakenOutView {
        place: p.id.clone(),
        station: p.station.clone(),
        label: p.label.clone(),
        reason: p.reason.clone(),
        answers: answers_at(picture, &p.id),
    })
    .collect()
}

/// How many questions are answered at a place.
pub(crate) fn answers_at(picture: &Picture, place: &str) -> u32 {
    let here = picture.answers.iter().filter(|((at, _), _)| at == place);
    here.filter(|(_, standing)| !matches!(standing.leading().answer.value, Value::Withdrawn)).count() as u32
}

fn open_row(say: CatalogWords<'_>, item: &str) -> RowView {
    RowView {
        item: item.to_owned(),
        question: say.question(item).into_owned(),
        answer: String::new(),
        kind: RowKind::Open,
        entered: None,
        tolerance: None,
        by: None,
        at: None,
        rivals: Vec::new(),
        photos: 0,
    }
}

fn row(say: CatalogWords<'_>, item: &str, standing: &Standing) -> RowView {
    let claim = standing.leading();
    let answer = phrases::value_words(say, item, &claim.answer.value);
    let disagrees = standing.disagrees();
    let kind = match &claim.answer.value {
        _ if disagrees => RowKind::Disagreement,
        Value::CantTell => RowKind::CantTell,
        Value::CouldNotReach(_) => RowKind::CouldNotReach,
        Value::Withdrawn => RowKind::Open,
        _ => RowKind::Answer,
    };
    let rivals = standing.claims.iter().filter(|_| disagrees).map(|c| RivalView {
        answer: phrases::value_words(say, item, &c.answer.value),
        by: c.by.clone(),
        at: c.at.to_string(),
    });
    RowView {
        item: item.to_owned(),
        question: say.question(item).into_owned(),
        kind,
        entered: claim.answer.entered.clone().filter(|e| *e != answer),
        tolerance: phrases::tolerance_words(&claim.answer),
        by: Some(claim.by.clone()),
        at: Some(claim.at.to_string()),
        rivals: rivals.collect(),
        photos: claim.answer.photos.len() as u32,
        answer,
    }
}

/// Version of the catalog an assessment was made with, and the first digits of its digest.
fn catalog_name(forecast: &Forecast) -> String {
    format!("{} ({})", forecast.catalog.version, forecast.catalog.digest.short())
}

/// An assessment, frozen or not, without its trade calculations: screens work those out as the answers stand ([`crate::fits`]).
pub fn assessment_view(forecast: &Forecast, say: CatalogWords<'_>) -> AssessmentView {
    let (money, days) = (&forecast.money, &forecast.days);
    AssessmentView {
        made_at: forecast.made_at.to_string(),
        catalog: catalog_name(forecast),
        engine: forecast.engine.clone(),
        money: MoneyView {
            mean_cents: money.mean.cents(),
            p50_cents: money.p50.cents(),
            p80_cents: money.p80.cents(),
            p90_cents: money.p90.cents(),
            p80_error_cents: money.standard_errors[2].cents(),
            draws: forecast.draws,
            drawing: chances::money(say.words, forecast).map(|c| {
                chances::three_widths(|width, name| {
                    chances::draw_money(say.words, &c, (width, Palette::Screen, &format!("money-{name}")))
                })
            }),
        },
        days: DaysView {
            mean: days.mean,
            p50: days.p50,
            p80: days.p80,
            p90: days.p90,
            said: [days.p50, days.p80, days.p90].map(|d| chances::half_days(say.words, d)),
            drawing: chances::days(say.words, forecast).map(|c| {
                chances::three_widths(|width, name| {
                    chances::draw_days(say.words, &c, (width, Palette::Screen, &format!("days-{name}")))
                })
            }),
        },
        weights: chances::weights(say.words, forecast),
        conditions: forecast.conditions.iter().map(|c| condition(c, say)).collect(),
        caution: phrases::assessment_caution(say.words, forecast),
    }
}

fn condition(c: &ConditionForecast, say: CatalogWords<'_>) -> ConditionView {
    ConditionView {
        id: c.id.clone(),
        name: phrases::bare_name(say.words, c),
        place: c.place.as_ref().map(|p| p.label.clone()),
        probability: c.probability,
        base: c.base,
        words: phrases::odds_words(say.words, c.probability),
        about_in10: phrases::about_in_10(say.words, c.probability),
        band: c.band,
        band_words: c.band.map(|band| phrases::band_words(say.words, band)).unwrap_or_default(),
        recommendation: phrases::advice_kind(&c.advice).to_owned(),
        recommendation_words: phrases::advice_words(say.words, c),
        cost_low_cents: c.cost[0].cents(),
        cost_likely_cents: c.cost[1].cents(),
        cost_high_cents: c.cost[2].cents(),
        caution: phrases::condition_caution(say, c),
        because: c.because.iter().map(|r| phrases::reason_words(say, r)).collect(),
        path: path(c, say),
    }
}

/// How the odds of a condition came about, step by step.
pub(crate) fn path(c: &ConditionForecast, say: CatalogWords<'_>) -> Vec<StepView> {
    let mut from = c.base;
    let step = |s: &PathStep| {
        let view = step(s, from, say);
        from = s.to;
        view
    };
    c.path.iter().flatten().map(step).collect()
}

fn step(step: &PathStep, from: f64, say: CatalogWords<'_>) -> StepView {
    let (question, answer, how) = match &step.answer {
        Some(reason) => (
            phrases::at(say.words, say.question(&reason.item).into_owned(), reason.place.as_ref()),
            phrases::value_words(say, &reason.item, &reason.value),
            phrases::how_far(reason.decibans),
        ),
        None => (
            say.words.say(&msg!("step-others", n = step.answers)),
            String::new(),
            if step.to < from { msg!("moved-down") } else { msg!("moved-up") },
        ),
    };
    let about_in10 = phrases::about_in_10(say.words, step.to);
    StepView { question, answer, how: say.words.say(&how), to: step.to, about_in10 }
}
