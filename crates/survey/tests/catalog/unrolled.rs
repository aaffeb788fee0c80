//! A catalog written out place by place says of each place what the catalog itself says there.

use std::collections::BTreeMap;

use survey::catalog::{AnswerKind, Catalog, Item, MorePlace, builtin};
use survey::log::{Answer, Body, Entry, PlaceNamed, Value};
use survey::model::{Picture, fold};
use survey::units::{Length, Quantity};
use survey::{DeviceId, EntryId, Key, SurveyId};

/// Numbers that look random and are the same every time.
struct Dice(u64);

impl Dice {
    fn below(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % n.max(1)
    }
}

fn some_answer(item: &Item, dice: &mut Dice) -> Value {
    if dice.below(8) == 0 {
        return Value::CantTell;
    }
    let mut option = |options: &[survey::catalog::Choice]| options[dice.below(options.len())].id.clone();
    match &item.answer {
        AnswerKind::Choice { options } => Value::Choice(option(options)),
        AnswerKind::Choices { options, .. } => Value::choices(vec![option(options), option(options)]),
        AnswerKind::Length { min, max, .. } => {
            let (min, max) = (min.eighth_um(), max.eighth_um());
            Value::Length(Length::from_eighth_um(min + (max - min) / 16 * dice.below(17) as i64))
        }
        AnswerKind::Number { unit, min_milli, max_milli, .. } => {
            let milli = min_milli + (max_milli - min_milli) / 16 * dice.below(17) as i64;
            Value::Number(Quantity { milli, unit: unit.clone() })
        }
        AnswerKind::Checks => Value::CantTell,
    }
}

fn entry(n: u64, body: Body) -> Entry {
    Entry {
        v: 1,
        id: EntryId::new(n, &[1; 10]),
        survey: SurveyId::new(1, &[9; 10]),
        device: DeviceId::new(1, &[1; 10]),
        seq: n,
        lamport: n,
        at: "2026-04-12T09:30:00.000-05:00".parse().unwrap(),
        by: "R. Ames".into(),
        prev: None,
        body,
    }
}

/// A house with added places and some answers: as its log shows it, and by key.
fn house(catalog: &Catalog, more: &[MorePlace], dice: &mut Dice) -> (Picture, BTreeMap<String, Value>) {
    let mut entries = Vec::new();
    let mut put = |body: Body| entries.push(entry(entries.len() as u64 + 1, body));
    for MorePlace { station, place, label } in more {
        let (station, place, label) = (station.clone(), place.clone(), label.clone());
        put(Body::Place(PlaceNamed { station, place, label, there: true, reason: None }));
    }
    let mut facts = BTreeMap::new();
    for item in catalog.items.iter().filter(|i| !matches!(i.answer, AnswerKind::Checks)) {
        let added = more.iter().filter(|p| p.station == item.station).map(|p| p.place.as_str());
        for place in std::iter::once(item.station.as_str()).chain(added) {
            if dice.below(3) == 0 {
                continue;
            }
            let value = some_answer(item, dice);
            facts.insert(item.key_at(place), value.clone());
            put(Body::Answer(Answer {
                place: place.to_owned(),
                item: item.id.clone(),
                value,
                tolerance: None,
                entered: None,
                photos: vec![],
                corrects: vec![],
                reason: None,
            }));
        }
    }
    (fold(&entries), facts)
}

fn more(station: &str, place: &str) -> MorePlace {
    MorePlace { station: station.into(), place: place.into(), label: format!("The {place}") }
}

#[test]
fn rules_clues_scope_and_costs_are_the_same_at_every_place() {
    let catalog = builtin().unwrap();
    let places = [
        more("walls", "hall-wall"),
        more("bulkhead", "fridge-soffit"),
        more("walls", "den-wall"),
        more("bath", "upper-bath"),
    ];
    let written = catalog.place_by_place(&places);
    let (mut skipped, mut scopes, mut clues) = (0, 0, 0);
    for seed in 0..60 {
        let (picture, facts) = house(&catalog, &places, &mut Dice(seed));
        let at = |key: &str, station: Option<&str>| {
            let place = Key::parse(key).place.map(str::to_owned).or_else(|| station.map(str::to_owned));
            (Key::parse(key).id.to_owned(), place)
        };
        for item in &written.items {
            let (id, place) = at(&item.id, None);
            let own = catalog.item(&id).unwrap();
            let place = place.or_else(|| own.at_each.then(|| own.station.clone()));
            let here = picture.at(place.as_deref());
            assert_eq!(item.skipped(&facts), own.skipped(&here), "{} of {seed}", item.id);
            assert_eq!(item.in_first_walk(&facts), own.in_first_walk(&here), "{} of {seed}", item.id);
            assert_eq!(item.station, place.unwrap_or_else(|| own.station.clone()));
            skipped += u32::from(item.skipped(&facts));
        }
        for condition in &written.conditions {
            let own = catalog.condition_of(&condition.id).unwrap();
            let (_, place) = at(&condition.id, own.place.as_deref());
            let here = picture.at(place.as_deref());
            assert_eq!(condition.applies(&facts), own.applies(&here), "{} of {seed}", condition.id);
            assert_eq!(condition.cost_in(&facts), own.cost_in(&here), "{} of {seed}", condition.id);
            assert_eq!(condition.gate(&facts), own.gate(&here), "{} of {seed}", condition.id);
            scopes += u32::from(condition.applies(&facts) == Some(false));
        }
        for clue in written.clues.values() {
            let (id, place) = at(&clue.id, None);
            let own = catalog.clue(&id).unwrap();
            let item = catalog.item(&own.item).unwrap();
            let place = place.or_else(|| item.at_each.then(|| item.station.clone()));
            assert_eq!(clue.state(&facts), own.state(&picture.at(place.as_deref())), "{} of {seed}", clue.id);
            clues += u32::from(clue.state(&facts) == Some(true));
        }
    }
    assert!(skipped > 100 && scopes > 100 && clues > 100, "{skipped} {scopes} {clues}");
}

#[test]
fn places_stand_after_those_of_their_kind_and_a_house_with_one_of_each_keeps_its_catalog() {
    let catalog = builtin().unwrap();
    let written = catalog.place_by_place(&[more("walls", "hall-wall"), more("walls", "den-wall")]);
    let stations: Vec<&str> = written.stations.iter().map(|s| s.id.as_str()).collect();
    let walls = stations.iter().position(|s| *s == "walls").unwrap();
    assert_eq!(stations[walls..walls + 3], ["walls", "hall-wall", "den-wall"]);
    let of_items: Vec<&str> = written.items.iter().map(|i| i.station.as_str()).collect();
    let mut runs = of_items.clone();
    runs.dedup();
    assert_eq!(runs.len(), stations.len(), "each station's items stand together: {runs:?}");
    assert!(written.stations.iter().all(|s| s.each.is_none()) && written.items.iter().all(|i| !i.at_each));
    let house_only = |id: &str| !id.contains('@');
    let same: Vec<&str> =
        written.conditions.iter().map(|c| c.id.as_str()).filter(|id| house_only(id)).collect();
    assert_eq!(same, catalog.conditions.iter().map(|c| c.id.as_str()).collect::<Vec<_>>());
    let alone = catalog.place_by_place(&[]);
    assert_eq!((&alone.conditions, &alone.clues), (&catalog.conditions, &catalog.clues));
    for (one, other) in alone.items.iter().zip(&catalog.items) {
        assert_eq!((&one.id, &one.skip_if, &one.promote_if), (&other.id, &other.skip_if, &other.promote_if));
    }
}
