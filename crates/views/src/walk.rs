//! Cards, stops and lists of the walk, from picture and catalog, in the language of `say`.

use survey::Key;
use survey::catalog::{AnswerKind, Item, PhotoWish};
use survey::guide::{self, Status, Step};
use survey::log::Value;
use survey::model::{Picture, Standing};
use survey::units::{Length, LengthStatus, ParsedLength, feet_inches_16, inches_16};
use words::{CatalogWords, catalog, msg};

use crate::phrases;
use crate::shape::{RivalView, RowKind};
use crate::walk_shape::{
    AmissView, CardKind, CardView, CountsView, LengthView, OptionView, PhotoView, StandingView, StopCardView,
    StopView,
};

/// What stands at a step, or nothing.
fn standing_of<'p>(step: &Step<'p>, picture: &'p Picture) -> Option<&'p Standing> {
    guide::seen_by(step.item, step.place, picture).standing(&step.item.id).map(|(_, standing)| standing)
}

/// What kind of answer stands.
fn kind_of(standing: Option<&Standing>) -> RowKind {
    let Some(standing) = standing else { return RowKind::Open };
    match &standing.leading().answer.value {
        _ if standing.disagrees() => RowKind::Disagreement,
        Value::CantTell => RowKind::CantTell,
        Value::CouldNotReach(_) => RowKind::CouldNotReach,
        Value::Withdrawn => RowKind::Open,
        _ => RowKind::Answer,
    }
}

/// The stops of the walk with the questions that matter now, given in walking order.
pub fn stops(say: CatalogWords<'_>, picture: &Picture, steps: &[Step<'_>]) -> Vec<StopView> {
    let missing: Vec<_> = guide::photos(say.catalog, picture).into_iter().filter(|p| p.missing).collect();
    let stop = |stop: guide::Stop<'_>| {
        let here = steps.iter().filter(|s| s.place == stop.place && s.item.station == stop.station.id);
        let cards: Vec<StopCardView> = here
            .map(|step| StopCardView {
                key: step.key(),
                question: say.question(&step.item.id).into_owned(),
                kind: kind_of(standing_of(step, picture)),
            })
            .collect();
        (!cards.is_empty()).then(|| StopView {
            place: stop.place.to_owned(),
            station: stop.station.id.clone(),
            label: phrases::place_words(say, picture, stop.place),
            cards,
            photos_missing: missing
                .iter()
                .filter(|p| p.place == stop.place && p.item.station == stop.station.id)
                .count() as u32,
            several: stop.station.each.is_some(),
            name: picture.place(stop.place).filter(|p| !p.label.is_empty()).map(|p| p.label.clone()),
            added: stop.place != stop.station.id,
            answers: crate::house::answers_at(picture, stop.place),
            earlier: false,
            later: false,
        })
    };
    let mut stops: Vec<StopView> = guide::stops(say.catalog, picture).filter_map(stop).collect();
    // The start stays first: what is planned decides what is asked at all others.
    let stays = |stop: &StopView| {
        say.catalog.station(&stop.station).is_some_and(|s| s.place == survey::catalog::Place::Start)
    };
    let moves: Vec<bool> = stops.iter().map(|stop| !stays(stop)).collect();
    for (at, stop) in stops.iter_mut().enumerate() {
        stop.earlier = moves[at] && at.checked_sub(1).is_some_and(|before| moves[before]);
        stop.later = moves[at] && at + 1 < moves.len();
    }
    stops
}

/// One card; what the walk knows beyond it (its neighbors, what hangs on it) is left empty.
pub fn card(say: CatalogWords<'_>, picture: &Picture, step: &Step<'_>) -> CardView {
    let Step { item, place, .. } = *step;
    let standing = standing_of(step, picture);
    let value = standing.map(|s| &s.leading().answer.value);
    let measured = last_length(picture);
    let photos = picture.photos.values().filter(|seen| {
        let shows = |p: &str, i: &str| i == item.id && (!item.at_each || p == place);
        seen.shows.iter().any(|(p, i)| shows(p, i))
    });
    let scale = match &item.answer {
        AnswerKind::Number { scale: Some(scale), .. } => {
            Some(say.words.catalog(&format!("scale-{}", catalog::slug(scale)), scale).into_owned())
        }
        AnswerKind::Length { over: Some(over), .. } => Some(over.clone()),
        _ => None,
    };
    let zero = match &item.answer {
        AnswerKind::Number { zero_means: Some(zero), .. } => {
            Some(say.words.catalog(&format!("item-{}-zero", item.id), zero).into_owned())
        }
        _ => None,
    };
    let note = item.photo_note.as_deref();
    CardView {
        key: step.key(),
        item: item.id.clone(),
        place: place.to_owned(),
        station: item.station.clone(),
        place_label: phrases::place_words(say, picture, place),
        question: say.question(&item.id).into_owned(),
        why: say.why(item).into_owned(),
        bears_on: None,
        kind: match &item.answer {
            AnswerKind::Choice { .. } => CardKind::Choice,
            AnswerKind::Choices { .. } => CardKind::Choices,
            AnswerKind::Length { .. } => CardKind::Length,
            AnswerKind::Number { .. } => CardKind::Number,
            AnswerKind::Checks => CardKind::Checks,
        },
        options: options(say, item, value),
        unit: match &item.answer {
            AnswerKind::Length { unit, .. } => unit.symbol().to_owned(),
            AnswerKind::Number { unit, .. } if !unit.is_empty() => say.unit(unit).into_owned(),
            _ => String::new(),
        },
        signed: match &item.answer {
            AnswerKind::Length { min, .. } => *min < Length::ZERO,
            AnswerKind::Number { min_milli, .. } => *min_milli < 0,
            _ => false,
        },
        scale,
        zero_means: zero,
        photo: match item.photo {
            PhotoWish::None => PhotoView::None,
            PhotoWish::Optional => PhotoView::Optional,
            PhotoWish::Needed => PhotoView::Needed,
        },
        photo_note: note.map(|note| say.words.catalog(&format!("item-{}-photo", item.id), note).into_owned()),
        photos: photos.count() as u32,
        standing: standing
            .filter(|s| s.disagrees() || !matches!(value, Some(Value::Withdrawn)))
            .map(|s| standing_view(say, item, s)),
        notes: picture
            .notes
            .iter()
            .filter(|(_, _, n)| n.item.as_deref() == Some(&item.id))
            .filter(|(_, _, n)| !item.at_each || n.place.as_deref() == Some(place))
            .map(|(_, _, n)| n.text.clone())
            .collect(),
        tolerance: measured.and_then(|(_, tolerance)| tolerance).map(inches_16),
        metric: measured.is_some_and(|(entered, _)| entered.trim_end().ends_with(['m'])),
        before: None,
        after: None,
    }
}

/// True once a length was measured in the house; the keypad then begins as the last one left it.
pub fn measured(picture: &Picture) -> bool {
    last_length(picture).is_some()
}

/// The length measured last, as it was entered, and its tolerance: the next one starts from them.
fn last_length(picture: &Picture) -> Option<(&str, Option<Length>)> {
    let claims = picture.answers.values().flat_map(|s| &s.claims);
    let lengths = claims.filter(|c| matches!(c.answer.value, Value::Length(_)));
    let last = lengths.max_by_key(|c| (c.at.unix_ms(), c.id))?;
    Some((last.answer.entered.as_deref().unwrap_or_default(), last.answer.tolerance))
}

/// The options of an item; "can't tell" is left out, every card has it.
pub fn options(say: CatalogWords<'_>, item: &Item, value: Option<&Value>) -> Vec<OptionView> {
    let chosen = |id: &str| match value {
        Some(Value::Choice(one)) => one == id,
        Some(Value::Choices(several)) => several.iter().any(|s| s == id),
        _ => false,
    };
    let alone = |id: &str| match &item.answer {
        AnswerKind::Choices { alone, .. } => alone.iter().any(|a| a == id),
        _ => false,
    };
    let shown = item.answer.options().iter().filter(|o| o.id != "cant-tell");
    shown
        .map(|o| OptionView {
            id: o.id.clone(),
            label: say.option(item, &o.id).into_owned(),
            chosen: chosen(&o.id),
            alone: alone(&o.id),
        })
        .collect()
}

fn rivals(say: CatalogWords<'_>, item: &Item, standing: &Standing) -> Vec<RivalView> {
    let claims = standing.claims.iter().filter(|_| standing.disagrees());
    claims
        .map(|c| RivalView {
            answer: phrases::value_words(say, &item.id, &c.answer.value),
            by: c.by.clone(),
            at: c.at.to_string(),
        })
        .collect()
}

fn standing_view(say: CatalogWords<'_>, item: &Item, standing: &Standing) -> StandingView {
    let claim = standing.leading();
    StandingView {
        kind: kind_of(Some(standing)),
        answer: phrases::value_words(say, &item.id, &claim.answer.value),
        entered: claim.answer.entered.clone(),
        tolerance: phrases::tolerance_words(&claim.answer),
        by: claim.by.clone(),
        at: claim.at.to_string(),
        rivals: rivals(say, item, standing),
    }
}

/// An item by its key, as something amiss: where, what was asked, what stands.
pub fn amiss(say: CatalogWords<'_>, picture: &Picture, key: &str) -> Option<AmissView> {
    let parsed = Key::parse(key);
    let item = say.catalog.item(parsed.id)?;
    let place = parsed.place.unwrap_or(&item.station);
    let step = Step { item, place, status: guide::status(item, place, picture) };
    let standing = standing_of(&step, picture);
    Some(AmissView {
        key: key.to_owned(),
        place: phrases::place_words(say, picture, place),
        question: say.question(&item.id).into_owned(),
        answer: standing
            .map(|s| phrases::value_words(say, &item.id, &s.leading().answer.value))
            .unwrap_or_default(),
        rivals: standing.map(|s| rivals(say, item, s)).unwrap_or_default(),
    })
}

/// A photograph that is missing: where, and what it must show.
pub fn photo_wanted(say: CatalogWords<'_>, picture: &Picture, key: &str) -> Option<AmissView> {
    let item = say.catalog.item(Key::parse(key).id)?;
    let mut amiss = amiss(say, picture, key)?;
    if let Some(note) = &item.photo_note {
        amiss.question = say.words.catalog(&format!("item-{}-photo", item.id), note).into_owned();
    }
    Some(amiss)
}

/// What was recorded, counted.
pub fn counts(picture: &Picture) -> CountsView {
    let mut counts = CountsView {
        answers: 0,
        measurements: 0,
        photos: picture.photos.len() as u32,
        cant_tell: 0,
        not_reached: 0,
        notes: picture.notes.len() as u32,
    };
    let there = picture.answers.iter().filter(|((place, _), _)| !picture.taken_out(place));
    for (_, standing) in there {
        match &standing.leading().answer.value {
            Value::Length(_) => counts.measurements += 1,
            Value::CantTell => counts.cant_tell += 1,
            Value::CouldNotReach(_) => counts.not_reached += 1,
            Value::Withdrawn => {}
            _ => counts.answers += 1,
        }
    }
    counts
}

/// A length as it was read, echoed in both systems. `below`: it was said to lie below its plane.
pub fn length(say: CatalogWords<'_>, item: &Item, parsed: &ParsedLength, below: bool) -> LengthView {
    let Some(magnitude) = parsed.length else {
        return LengthView {
            read: false,
            inches: String::new(),
            feet: String::new(),
            metric: String::new(),
            whole: 0,
            sixteenths: 0,
            note: Some(say.words.text(&parsed.note)),
            outside: None,
        };
    };
    let length = if below { -magnitude } else { magnitude };
    let sixteenths = (magnitude.inches() * 16.0).round().max(0.0) as u32;
    let millimeters = words::number(say.words.language(), length.inches() * 25.4, 0);
    let outside = match &item.answer {
        AnswerKind::Length { unit, min, max, .. } if !(*min..=*max).contains(&length) => {
            let least = phrases::length_words(*min, *unit);
            let most = phrases::length_words(*max, *unit);
            Some(say.words.say(&msg!("length-outside", least = least, most = most)))
        }
        _ => None,
    };
    LengthView {
        read: true,
        inches: inches_16(length),
        feet: feet_inches_16(length),
        metric: say.words.say(&msg!("quantity", number = millimeters, unit = "mm")),
        whole: sixteenths / 16,
        sixteenths: sixteenths % 16,
        note: (parsed.status == LengthStatus::Warn).then(|| say.words.text(&parsed.note)),
        outside,
    }
}

/// True where a step counts as one of those that matter now.
pub fn counts_now(status: Status) -> bool {
    matches!(status, Status::Open | Status::Answered | Status::Disagreed)
}
