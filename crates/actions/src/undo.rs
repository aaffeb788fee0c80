//! Taking back the last acts of this device: by entries that correct, so that nothing is erased.
//!
//! What can be taken back is read from the log itself: answers, places, orders of the walk, remarks and photographs of
//! this device, the last first, less those that were taken back already. The original of a photograph stays on the
//! device.

use std::collections::BTreeSet;

use survey::log::{Answer, Body, Entry, PlaceNamed, TakenBack as Back, Value, WalkOrder};
use survey::model::Picture;
use survey::{EntryId, SurveyId};
use views::demolition::{Act, act as act_words};
use views::walk_shape::ActView;
use words::msg;

use crate::{Desk, Error, Kind, Kit};

/// The reason of an entry that takes an act back.
const TAKEN_BACK: &str = "taken back";
/// The reason of an entry that puts a second claim back beside the first.
const PUT_BACK: &str = "put back";
/// Acts that can be taken back.
const MOST: usize = 50;

/// What was taken back.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenBack {
    /// Key of the item; none for a place, an order of the walk, and what was said or shown of no item.
    pub key: Option<String>,
    /// What it was about, in words: the question, the place, the house.
    pub what: String,
    /// What stood and was taken back, in words.
    pub said: String,
    /// The entries that do it.
    pub entries: Vec<Entry>,
}

/// The acts that can be taken back, oldest first.
fn acts<'e>(desk: &Desk, entries: &'e [Entry]) -> Vec<&'e Entry> {
    let device = desk.store.device();
    let mut own: Vec<&Entry> = entries.iter().filter(|e| e.device == device).collect();
    own.sort_by_key(|e| e.seq);
    let back = |e: &Entry| match &e.body {
        Body::TakenBack(back) => Some(back.entry),
        _ => None,
    };
    let back: BTreeSet<EntryId> = entries.iter().filter_map(back).collect();
    let mut acts: Vec<&Entry> = Vec::new();
    for entry in own {
        let (reason, is_act) = match &entry.body {
            Body::Note(_) | Body::Photo(_) => (None, !back.contains(&entry.id)),
            Body::Answer(answer) => (answer.reason.as_deref(), true),
            Body::Place(named) => (named.reason.as_deref(), true),
            Body::Order(order) => (order.reason.as_deref(), true),
            _ => (None, false),
        };
        match reason {
            Some(TAKEN_BACK) if acts.last().is_some_and(|last| same_thing(last, entry)) => drop(acts.pop()),
            Some(TAKEN_BACK | PUT_BACK) => {}
            _ if is_act => acts.push(entry),
            _ => {}
        }
    }
    let old = acts.len().saturating_sub(MOST);
    acts.split_off(old)
}

/// True when both are about one item at one place, about one place, or about the order of the walk.
fn same_thing(one: &Entry, other: &Entry) -> bool {
    match (&one.body, &other.body) {
        (Body::Answer(a), Body::Answer(b)) => a.item == b.item,
        (Body::Place(a), Body::Place(b)) => a.place == b.place,
        (Body::Order(_), Body::Order(_)) => true,
        _ => false,
    }
}

/// The last act, as a screen offers to take it back.
pub(crate) fn last(desk: &Desk, entries: &[Entry], picture: &Picture) -> Option<ActView> {
    if picture.demolition.is_some() {
        return None; // what the walk recorded stands as it was
    }
    let acts = acts(desk, entries);
    let act = acts.last()?;
    let Act { key, what, said } = act_words(desk.say(), picture, &act.body)?;
    Some(ActView { key, what, said, left: acts.len() as u32 })
}

/// Takes the last act of this device back. What stood before it stands again; both stay in the log.
///
/// # Errors
/// Nothing to take back, somebody else has answered the same since, or demolition was declared.
pub fn undo(desk: &mut Desk, survey: SurveyId, kit: &mut Kit<'_>) -> Result<TakenBack, Error> {
    let (entries, picture) = desk.read(survey)?;
    desk.still_walked(survey)?;
    let acts = acts(desk, &entries);
    let Some(act) = acts.last() else {
        return Err(Error::new(Kind::Missing, msg!("error-no-act")));
    };
    let Act { key, what, said } = act_words(desk.say(), &picture, &act.body).unwrap_or_default();
    let bodies = match &act.body {
        Body::Answer(answer) => answers_back(desk, &entries, &picture, answer)?,
        Body::Place(named) => vec![Body::Place(place_back(&entries, act, named))],
        Body::Note(_) | Body::Photo(_) => {
            vec![Body::TakenBack(Back { entry: act.id, reason: Some(TAKEN_BACK.to_owned()) })]
        }
        Body::Order(order) => vec![Body::Order(order_back(&entries, act, order)?)],
        _ => Vec::new(),
    };
    let entries = desk.append_all(survey, bodies, kit)?;
    Ok(TakenBack { key, what, said, entries })
}

/// The answers that stood before, or none in their place.
fn answers_back(
    desk: &Desk,
    entries: &[Entry],
    picture: &Picture,
    answer: &Answer,
) -> Result<Vec<Body>, Error> {
    let item = desk.catalog.item(&answer.item);
    let here = |place: &str| item.is_none_or(|i| !i.at_each) || place == answer.place;
    let standing = picture.answers.iter().filter(|((place, item), _)| *item == answer.item && here(place));
    let claims: Vec<_> = standing.flat_map(|(_, s)| &s.claims).collect();
    if let Some(other) = claims.iter().find(|c| c.device != desk.store.device()) {
        return Err(Error::new(Kind::Conflict, msg!("error-act-answered-since", by = &other.by))
            .hint(msg!("error-act-answered-since-hint")));
    }
    let corrects: Vec<_> = claims.iter().map(|c| c.id).collect();
    let before = entries.iter().filter(|e| answer.corrects.contains(&e.id));
    let mut back: Vec<Answer> = before
        .filter_map(|e| match &e.body {
            Body::Answer(stood) => Some(stood.clone()),
            _ => None,
        })
        .collect();
    if back.is_empty() {
        back.push(Answer { value: Value::Withdrawn, tolerance: None, entered: None, ..answer.clone() });
    }
    let again = |(n, stood): (usize, Answer)| {
        Body::Answer(Answer {
            corrects: corrects.clone(),
            reason: Some(if n == 0 { TAKEN_BACK } else { PUT_BACK }.to_owned()),
            ..stood
        })
    };
    Ok(back.into_iter().enumerate().map(again).collect())
}

/// The place as it was before an act on it: one that was not there before is not there again, a first place that had no
/// name has none again.
fn place_back(entries: &[Entry], act: &Entry, named: &PlaceNamed) -> PlaceNamed {
    let about = |e: &&Entry| matches!(&e.body, Body::Place(p) if p.place == named.place);
    let before = entries.iter().filter(about).take_while(|e| e.id != act.id).last();
    let before = before.and_then(|e| match &e.body {
        Body::Place(stood) => Some(stood.clone()),
        _ => None,
    });
    let first = named.place == named.station;
    let label = if first { String::new() } else { named.label.clone() };
    let gone = PlaceNamed { there: first, label, ..named.clone() };
    PlaceNamed { reason: Some(TAKEN_BACK.to_owned()), ..before.unwrap_or(gone) }
}

/// The order as it was before an act on it.
fn order_back(entries: &[Entry], act: &Entry, made: &WalkOrder) -> Result<WalkOrder, Error> {
    let orders: Vec<(&Entry, &WalkOrder)> = entries
        .iter()
        .filter_map(|e| match &e.body {
            Body::Order(order) => Some((e, order)),
            _ => None,
        })
        .collect();
    if let Some((last, _)) = orders.last().filter(|(last, _)| last.device != act.device) {
        return Err(Error::new(Kind::Conflict, msg!("error-act-ordered-since", by = &last.by))
            .hint(msg!("error-act-ordered-since-hint")));
    }
    let before = orders.iter().take_while(|(e, _)| e.id != act.id).last();
    Ok(WalkOrder {
        places: before.map(|(_, order)| order.places.clone()).unwrap_or_default(),
        moved: made.moved.clone(),
        reason: Some(TAKEN_BACK.to_owned()),
    })
}
