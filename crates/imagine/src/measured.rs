//! Measured inputs of trade calculations that stand in for a condition's odds.
//!
//! A clue can hold beside a condition whatever the tape says; a measurement cannot. So the inputs of a calculation are
//! drawn together and taken with the probability the calculation gives to what is there: P where the condition is
//! there, 1 − P where it is not. Then, among houses that measure alike, the share with the condition is P, as far as
//! the catalog's prior and its lengths agree. Clues that the calculation replaces and that hang on no other condition
//! are read off the lengths.

use std::collections::BTreeMap;

use assessment::{Calculated, Scope, calculate};
use survey::catalog::{Catalog, Condition, MeasuredBy};
use survey::log::{Answer, Value};
use survey::model::{Claim, Picture, Standing};
use survey::{DeviceId, EntryId, Key, Stamp};

use crate::ground::Ground;
use crate::speak::{Facts, Spoken};
use crate::stream::Stream;
use crate::suspect;

/// Most draws of the inputs.
const TRIES: u32 = 200;

/// A condition that a calculation can measure, and whether it is there.
#[derive(Clone, Copy)]
pub(crate) struct Measurable<'a> {
    pub(crate) condition: &'a Condition,
    pub(crate) by: &'a MeasuredBy,
    pub(crate) present: bool,
}

/// Puts the question of an item, the clues named left open, some facts being known.
pub(crate) type Ask<'a> = dyn Fn(&str, &[String], &Facts, &mut Stream) -> Option<Spoken> + 'a;

/// Groups of conditions whose calculations share an input that is not known yet.
pub(crate) fn groups<'a>(all: &[Measurable<'a>], facts: &Facts) -> Vec<Vec<Measurable<'a>>> {
    let open = |m: &Measurable<'_>, item: &String| m.by.inputs.contains(item) && !facts.contains_key(item);
    let share = |a: &Measurable<'_>, b: &Measurable<'_>| a.by.inputs.iter().any(|i| open(a, i) && open(b, i));
    let mut groups: Vec<Vec<Measurable<'a>>> = Vec::new();
    for one in all {
        let (touching, mut rest): (Vec<_>, Vec<_>) =
            groups.into_iter().partition(|group| group.iter().any(|other| share(one, other)));
        let mut merged: Vec<Measurable<'a>> = touching.into_iter().flatten().collect();
        merged.push(*one);
        rest.push(merged);
        groups = rest;
    }
    groups
}

/// Draws the inputs of a group's calculations.
pub(crate) fn draw(
    ask: &Ask<'_>,
    truth: &Catalog,
    walk: &Catalog,
    group: &[Measurable<'_>],
    facts: &Facts,
    stream: &mut Stream,
) -> BTreeMap<String, Spoken> {
    let read_off = |m: &Measurable<'_>| -> Vec<String> {
        let alone = |c: &&String| Ground::hangs_on_only(truth, c, &m.condition.id);
        m.by.replaces_clues.iter().filter(alone).cloned().collect()
    };
    let free: Vec<String> = group.iter().flat_map(read_off).collect();
    let wanted = |item: &str| group.iter().any(|m| m.by.inputs.iter().any(|i| i == item));
    let items: Vec<&str> =
        walk.items.iter().map(|i| i.id.as_str()).filter(|i| wanted(i) && !facts.contains_key(*i)).collect();
    let mut best: (f64, BTreeMap<String, Spoken>) = (-1.0, BTreeMap::new());
    for _ in 0..TRIES {
        let mut with = facts.clone();
        let mut drawn: BTreeMap<String, Spoken> = BTreeMap::new();
        for item in &items {
            if let Some(spoken) = ask(item, &free, &with, stream) {
                with.insert((*item).to_owned(), spoken.value.clone());
                drawn.insert((*item).to_owned(), spoken);
            }
        }
        let weight = |m: &Measurable<'_>| {
            let p = probability(truth, walk, m, &with, &drawn);
            if m.present { p } else { 1.0 - p }
        };
        let weight: f64 = group.iter().map(weight).product();
        if stream.chance(weight) {
            return drawn;
        }
        if weight > best.0 {
            best = (weight, drawn);
        }
    }
    best.1
}

/// What the calculation gives, or, where it says nothing, the prior with the clues it would replace.
fn probability(
    truth: &Catalog,
    walk: &Catalog,
    Measurable { condition, by, .. }: &Measurable<'_>,
    facts: &Facts,
    drawn: &BTreeMap<String, Spoken>,
) -> f64 {
    let inputs = by.inputs.iter().filter_map(|i| {
        let tolerance = drawn.get(i).and_then(|s| s.tolerance);
        Some((i.as_str(), facts.get(i)?.clone(), tolerance))
    });
    let picture = picture(walk, inputs);
    let measured = calculate(walk, &picture, &Scope::one_of_each(walk, &[*condition]));
    match measured.iter().find_map(Calculated::measured) {
        Some(measured) => measured.p,
        None => {
            let replaced = |clue: &str| by.replaces_clues.iter().any(|c| c == clue);
            suspect::probability(suspect::odds(truth, condition, facts, replaced))
        }
    }
}

/// A folded picture of some answers by their keys, as the log would give it.
pub(crate) fn picture<'a>(
    walk: &Catalog,
    answers: impl Iterator<Item = (&'a str, Value, Option<survey::units::Length>)>,
) -> Picture {
    let mut picture = Picture::default();
    for (item, value, tolerance) in answers {
        let key = Key::parse(item);
        // Of a catalog that is gone through place by place the key is the id of an item of its own.
        let (id, place) = if walk.item(item).is_some() { (item, None) } else { (key.id, key.place) };
        let station = walk.item(id).map(|i| i.station.as_str()).unwrap_or_default();
        let (item, place) = (id, place.unwrap_or(station).to_owned());
        let answer = Answer {
            place: place.clone(),
            item: item.to_owned(),
            value,
            tolerance,
            entered: None,
            photos: Vec::new(),
            corrects: Vec::new(),
            reason: None,
        };
        let Ok(at) = Stamp::new(0, 0) else { continue };
        let claim = Claim {
            id: EntryId::from_bytes([0; 16]),
            by: String::new(),
            at,
            device: DeviceId::from_bytes([0; 16]),
            answer,
        };
        picture.answers.insert((place, item.to_owned()), Standing { claims: vec![claim], corrected: 0 });
    }
    picture
}
