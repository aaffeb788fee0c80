//! Trade calculations as screens show them, worked out from the answers as they stand.

use assessment::Calculated;
use assessment::forecast::{CalculationForecast, PlaceRef};
use drawing::Palette;
use survey::catalog::Catalog;
use survey::guide;
use survey::log::Value;
use survey::model::Picture;
use survey::{Said, say};
use trade::given::{Field, Kind, Need};
use trade::{Calculation, by_trade};
use words::{CatalogWords, Message, Words, msg};

use crate::fit_shape::{FieldKind, FieldView, FitRowView, FitsView, InputView, TradeView};
use crate::shape::{CalculationView, LimitView, LineView};
use crate::{chances, phrases};

/// A calculation as it is frozen, drawn for a screen.
pub fn calculation(c: &CalculationForecast, words: &Words) -> CalculationView {
    let c = &c.said_in(words);
    let line = |[label, text]: &[String; 2]| LineView { label: label.clone(), text: text.clone() };
    let limit = |[rule, value, place]: &[String; 3]| LimitView {
        rule: rule.clone(),
        value: value.clone(),
        place: place.clone(),
    };
    CalculationView {
        word: c.word.clone(),
        title: c.title.clone(),
        standing: c.standing.clone(),
        sentence: c.sentence.clone(),
        missing: c.missing.clone(),
        changes: c.changes.clone(),
        arithmetic: c.arithmetic.iter().map(line).collect(),
        limits: c.limits.iter().map(limit).collect(),
        assumed: c.assumed.clone(),
        notes: c.notes.clone(),
        caution: c.caution.clone(),
        drawing: c.picture.as_ref().map(|picture| {
            chances::three_widths(|width, name| {
                let name = format!("{}-{name}", c.word);
                drawing::svg(picture, width, Palette::Screen, &name, &|said| words.text(said))
            })
        }),
    }
}

/// One that was run on a house.
pub fn calculated(say: CatalogWords<'_>, picture: &Picture, c: &Calculated) -> CalculationView {
    let title = title(say.catalog, picture, c);
    let frozen = CalculationForecast::of_sheet(c.word, title, c.condition.clone(), &c.sheet);
    calculation(&frozen, say.words)
}

fn title(catalog: &Catalog, picture: &Picture, c: &Calculated) -> Said {
    let place = c.place.as_deref().and_then(|p| PlaceRef::of(catalog, picture, p));
    match place {
        Some(place) => say!("trade-name-at", name = c.title, depth = place.label),
        None => c.title.into(),
    }
}

/// Word of a calculation, with the place where it was worked out for one of several.
pub fn key(c: &Calculated) -> String {
    match &c.place {
        Some(place) => format!("{}@{place}", c.word),
        None => c.word.to_owned(),
    }
}

/// All of them by trade; `done` are those that were run on the house.
pub fn fits(say: CatalogWords<'_>, picture: &Picture, survey: &str, done: &[Calculated]) -> FitsView {
    let rows = |calculation: &Calculation| -> Vec<FitRowView> {
        let here: Vec<FitRowView> = done
            .iter()
            .filter(|c| c.word == calculation.word)
            .map(|c| FitRowView {
                key: key(c),
                title: say.words.text(&title(say.catalog, picture, c)),
                standing: Some(c.sheet.standing.word().to_owned()),
                sentence: say.words.text(&c.sheet.sentence),
                from_walk: true,
            })
            .collect();
        let from_walk = assessment::run_here().any(|word| word == calculation.word);
        let other = || FitRowView {
            key: calculation.word.to_owned(),
            title: say.words.text(&calculation.title.into()),
            standing: None,
            sentence: say.words.text(&calculation.about.into()),
            from_walk,
        };
        if here.is_empty() { vec![other()] } else { here }
    };
    let trades = by_trade().map(|(trade, list)| TradeView {
        name: say.words.say(&trade_name(trade)),
        fits: list.into_iter().flat_map(rows).collect(),
    });
    FitsView { survey: survey.to_owned(), label: picture.label().to_owned(), trades: trades.collect() }
}

fn trade_name(trade: trade::Trade) -> Message {
    use trade::Trade as T;
    match trade {
        T::Drains => msg!("calc-trade-drains"),
        T::Framing => msg!("calc-trade-framing"),
        T::Gas => msg!("calc-trade-gas"),
        T::Electrical => msg!("calc-trade-electrical"),
        T::Openings => msg!("calc-trade-openings"),
        T::Household => msg!("calc-trade-household"),
        T::Lights => msg!("calc-trade-lights"),
        T::Lengths => msg!("calc-trade-lengths"),
    }
}

/// What the walk says to a calculation, in the order it is read.
pub fn inputs(say: CatalogWords<'_>, picture: &Picture, c: &Calculated) -> Vec<InputView> {
    c.asked.iter().filter_map(|item| input(say, picture, item, c.place.as_deref())).collect()
}

fn input(say: CatalogWords<'_>, picture: &Picture, id: &str, place: Option<&str>) -> Option<InputView> {
    let item = say.catalog.item(id)?;
    // An item that is asked once has its own station; one that is asked at each, the place of the calculation.
    let place = if item.at_each { place.unwrap_or(&item.station) } else { &item.station };
    let standing = guide::seen_by(item, place, picture).standing(id).map(|(_, standing)| standing);
    let claim = standing.filter(|s| !s.disagrees()).map(|s| s.leading());
    let said = claim.filter(|c| !matches!(c.answer.value, Value::Withdrawn));
    let disagrees = standing.is_some_and(|s| s.disagrees());
    Some(InputView {
        key: item.key_at(place),
        question: say.question(id).into_owned(),
        answer: match said {
            Some(claim) => Some(phrases::value_words(say, id, &claim.answer.value)),
            None => disagrees.then(|| say.words.say(&msg!("why-disagree"))),
        },
        tolerance: said.and_then(|c| phrases::tolerance_words(&c.answer)),
        by: said.map(|c| c.by.clone()),
        at: said.map(|c| c.at.to_string()),
        photos: said.map_or(0, |c| c.answer.photos.len() as u32),
    })
}

/// What a calculation asks, with what was given to it so far.
pub fn fields(words: &Words, calculation: &Calculation, given: &[(String, String)]) -> Vec<FieldView> {
    let of = |field: &Field| -> String {
        let rows: Vec<&str> =
            given.iter().filter(|(name, _)| name == field.name).map(|(_, text)| text.as_str()).collect();
        rows.join("\n")
    };
    calculation.fields.iter().map(|field| view_of(words, field, of(field))).collect()
}

fn view_of(words: &Words, field: &Field, given: String) -> FieldView {
    let (kind, choices, columns) = match field.kind {
        Kind::Word(words) => (FieldKind::Word, words.iter().map(|w| (*w).to_owned()).collect(), Vec::new()),
        Kind::YesNo => (FieldKind::Word, vec!["yes".to_owned(), "no".to_owned()], Vec::new()),
        Kind::Rows(columns) => (
            FieldKind::Rows,
            Vec::new(),
            columns.iter().map(|c| format!("{}: {}", c.name, words.text(&c.takes()))).collect(),
        ),
        _ => (FieldKind::Line, Vec::new(), Vec::new()),
    };
    FieldView {
        name: field.name.to_owned(),
        ask: words.text(&field.ask.into()),
        takes: words.text(&field.takes()),
        kind,
        words: choices,
        must: matches!(field.need, Need::Must),
        otherwise: match field.need {
            Need::Else(default) => Some(default.to_owned()),
            _ => None,
        },
        given,
        columns,
    }
}
