//! The walk as a screen shows it: which questions matter now, one card, and where the walk was left.

use std::collections::BTreeSet;

use survey::catalog::Item;
use survey::guide::{self, Status, Step};
use survey::log::Entry;
use survey::model::Picture;
use survey::units::{Money, parse_length};
use survey::{Key, SurveyId};
use views::walk_shape::{LengthView, WalkView};
use words::msg;

use crate::place::about_card;
use crate::weigh::{Kept, why_now};
use crate::{Desk, Error, Kind, Kit, undo};

/// The walk of a house at a card: the one named, else the one where it was left, else the first open one. A card that
/// is shown is kept as the one where the walk is left.
///
/// # Errors
/// No such survey, or no such item or place.
pub fn walk(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    at: Option<&str>,
    kit: &mut Kit<'_>,
) -> Result<WalkView, Error> {
    let (entries, picture) = desk.read(survey)?;
    let left = match at {
        Some(key) => Some(known(desk, &picture, key)?),
        None => desk.store.left_at(survey)?,
    };
    show(desk, kept, survey, (&entries, &picture), Target::At(left), kit)
}

/// The walk after something was done on a card: at the next question that is open, those after the card first.
pub(crate) fn walk_on(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    done: &str,
    kit: &mut Kit<'_>,
) -> Result<WalkView, Error> {
    let (entries, picture) = desk.read(survey)?;
    show(desk, kept, survey, (&entries, &picture), Target::After(done.to_owned()), kit)
}

/// Which card is wanted.
enum Target {
    /// This one, or the first open one.
    At(Option<String>),
    /// The next open one after this one.
    After(String),
}

/// The key of a card at a place that is there.
fn known(desk: &Desk, picture: &Picture, about: &str) -> Result<String, Error> {
    match crate::place::which(desk, picture, &about_card(desk, about))? {
        (Some(item), Some(place)) => Ok(item.key_at(&place)),
        _ => Err(crate::record::unknown_item(desk, about)),
    }
}

/// The questions that matter now, in walking order: those of the first walk that something still depends on, second
/// looks that are worth their minute, and all that were answered. Until the house was weighed, those of the first walk.
fn steps<'a>(desk: &'a Desk, picture: &'a Picture, kept: &Kept, survey: SurveyId) -> Vec<Step<'a>> {
    let weighed = kept.next(survey);
    let no_use: BTreeSet<&str> = weighed.iter().flat_map(|n| n.no_use.iter().map(String::as_str)).collect();
    let asked: BTreeSet<String> =
        weighed.iter().flat_map(|n| n.items.iter().map(|ask| ask.key(&desk.catalog))).collect();
    let counts = |step: &Step<'_>| {
        let key = step.key();
        match step.status {
            Status::Open => asked.contains(&key) || !no_use.contains(key.as_str()),
            // Results of checks are recorded where the look is offered.
            Status::SecondLook => asked.contains(&key) && !takes_checks(step.item),
            Status::Answered | Status::Disagreed => !takes_checks(step.item),
            Status::Skipped => false,
        }
    };
    guide::walk(&desk.catalog, picture).into_iter().filter(counts).collect()
}

/// The places with a question that matters now or was answered, in the order walked.
pub(crate) fn asked_at(desk: &Desk, picture: &Picture, kept: &Kept, survey: SurveyId) -> Vec<String> {
    let mut places: Vec<String> =
        steps(desk, picture, kept, survey).iter().map(|s| s.place.to_owned()).collect();
    places.dedup();
    places
}

fn takes_checks(item: &Item) -> bool {
    matches!(item.answer, survey::catalog::AnswerKind::Checks)
}

fn show(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    (entries, picture): (&[Entry], &Picture),
    target: Target,
    kit: &mut Kit<'_>,
) -> Result<WalkView, Error> {
    let view = view(desk, kept, survey, (entries, picture), target)?;
    let card = view.card.as_ref().map(|c| c.key.as_str()).unwrap_or_default();
    desk.store.leave_at(survey, card, kit.now())?;
    Ok(view)
}

fn view(
    desk: &Desk,
    kept: &Kept,
    survey: SurveyId,
    (entries, picture): (&[Entry], &Picture),
    target: Target,
) -> Result<WalkView, Error> {
    let mut steps = steps(desk, picture, kept, survey);
    let open = |s: &Step<'_>| matches!(s.status, Status::Open | Status::Disagreed | Status::SecondLook);
    let here = match target {
        Target::At(Some(key)) if !key.is_empty() => {
            let found = steps.iter().position(|s| s.key() == key);
            // A card that was asked for is shown, whether or not it matters now.
            found.or_else(|| insert(desk, picture, &mut steps, &key))
        }
        Target::At(_) => None,
        Target::After(key) => {
            let (station, place) = place_of(desk, &key);
            let after = after(desk, picture, &steps, (&key, &station, &place));
            let on = steps.iter().enumerate().skip(after).find(|(_, s)| open(s));
            on.map(|(i, _)| i)
        }
    };
    let here = here.or_else(|| steps.iter().position(open));
    let mut card = here.map(|i| {
        let mut card = views::walk::card(desk.say(), picture, &steps[i]);
        card.before = i.checked_sub(1).map(|b| steps[b].key());
        card.after = steps.get(i + 1).map(Step::key);
        let ask = kept
            .next(survey)
            .and_then(|next| next.items.iter().find(|ask| ask.key(&desk.catalog) == card.key));
        card.bears_on = ask.map(|ask| why_now(desk, ask));
        card
    });
    if let Some(card) = card.as_mut().filter(|_| !views::walk::measured(picture)) {
        let (metric, tolerance) = crate::settings::keypad(desk)?;
        (card.metric, card.tolerance) = (metric, Some(tolerance));
    }
    Ok(WalkView {
        survey: survey.to_string(),
        label: picture.label().to_owned(),
        position: here.map_or(0, |i| i as u32 + 1),
        wanted: steps.len() as u32,
        answered: steps.iter().filter(|s| s.status == Status::Answered).count() as u32,
        stops: views::walk::stops(desk.say(), picture, &steps),
        taken_out: views::house::taken_out(picture),
        card,
        undo: undo::last(desk, entries, picture),
        money_p80_cents: desk.latest_p80(survey)?.map(Money::cents),
        weighed: kept.next(survey).is_some(),
        demolition: views::demolition::demolition(desk.say(), picture),
    })
}

/// Station and place of a key.
fn place_of(desk: &Desk, key: &str) -> (String, String) {
    let parsed = Key::parse(key);
    let station = desk.catalog.item(parsed.id).map(|i| i.station.clone()).unwrap_or_default();
    let place = parsed.place.unwrap_or(&station).to_owned();
    (station, place)
}

/// Position of the first step that comes after a key in walking order, whether or not the key is among them.
fn after(
    desk: &Desk,
    picture: &Picture,
    steps: &[Step<'_>],
    (key, station, place): (&str, &str, &str),
) -> usize {
    if let Some(found) = steps.iter().position(|s| s.key() == key) {
        return found + 1;
    }
    let all = guide::walk(&desk.catalog, picture);
    let Some(at) = all.iter().position(|s| s.key() == key && s.place == place && s.item.station == station)
    else {
        return 0;
    };
    let earlier: BTreeSet<String> = all[..at].iter().map(Step::key).collect();
    steps.iter().filter(|s| earlier.contains(&s.key())).count()
}

/// Puts a step that does not count now where it belongs, and says where that is.
fn insert<'a>(desk: &'a Desk, picture: &'a Picture, steps: &mut Vec<Step<'a>>, key: &str) -> Option<usize> {
    let step = guide::walk(&desk.catalog, picture).into_iter().find(|s| s.key() == key)?;
    let (station, place) = place_of(desk, key);
    let at = after(desk, picture, steps, (key, &station, &place));
    steps.insert(at, step);
    Some(at)
}

/// Reads a length as the card of an item would take it, and says it in both systems. Nothing is recorded.
///
/// # Errors
/// No such item, or one that takes no length.
pub fn read_length(desk: &Desk, key: &str, text: &str) -> Result<LengthView, Error> {
    let id = Key::parse(key).id;
    let item = desk.catalog.item(id).ok_or_else(|| crate::record::unknown_item(desk, id))?;
    let survey::catalog::AnswerKind::Length { unit, min, .. } = &item.answer else {
        let message = msg!("error-no-length-item", item = &item.id);
        return Err(Error::new(Kind::Input, message).hint(crate::enter::asked(item)));
    };
    let below = crate::enter::below_zero(text.trim(), *min < survey::units::Length::ZERO);
    let parsed = parse_length(below.unwrap_or(text).trim(), (*unit).into());
    Ok(views::walk::length(desk.say(), item, &parsed, below.is_some()))
}

/// The house that was on the screen when the program ended, if one was and is still here.
pub fn left_house(desk: &Desk) -> Result<Option<SurveyId>, Error> {
    let left = desk.store.left_house()?;
    let rows = desk.store.surveys()?;
    Ok(left.filter(|survey| rows.iter().any(|row| row.survey == *survey)))
}

/// No house is on the screen any more.
pub fn leave_house(desk: &mut Desk) -> Result<(), Error> {
    Ok(desk.store.leave_house()?)
}
