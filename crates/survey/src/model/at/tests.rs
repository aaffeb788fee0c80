use super::*;
use crate::catalog::{Predicate, Test};
use crate::log::{Body, Entry, PlaceNamed};
use crate::model::fold;
use crate::{DeviceId, EntryId, SurveyId};

/// A log of one device.
#[derive(Default)]
struct Log(Vec<Entry>);

impl Log {
    fn push(&mut self, body: Body) {
        let n = self.0.len() as u64 + 1;
        self.0.push(Entry {
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
        });
    }
    fn say(mut self, place: &str, item: &str, option: &str) -> Self {
        self.push(Body::Answer(Answer {
            place: place.into(),
            item: item.into(),
            value: Value::Choice(option.into()),
            tolerance: None,
            entered: None,
            photos: vec![],
            corrects: vec![],
            reason: None,
        }));
        self
    }
    fn place(mut self, station: &str, place: &str, there: bool) -> Self {
        self.push(Body::Place(PlaceNamed {
            station: station.into(),
            place: place.into(),
            label: format!("the {place}"),
            there,
            reason: None,
        }));
        self
    }
    fn picture(&self) -> Picture {
        fold(&self.0)
    }
}

/// Two soffits and two walls, the second wall unanswered; the year is asked once.
fn house() -> Log {
    Log::default()
        .place("bulkhead", "fridge-soffit", true)
        .place("walls", "north-wall", true)
        .say("beforehand", "year", "1962")
        .say("bulkhead", "form", "even")
        .say("fridge-soffit", "form", "stepped")
        .say("bulkhead", "sound", "quiet")
        .say("walls", "face", "plaster")
}

fn value<'p>(picture: &'p Picture, place: Option<&'p str>, item: &str) -> Option<String> {
    match picture.at(place).value(item) {
        Some(Value::Choice(option)) => Some(option.clone()),
        _ => None,
    }
}

#[test]
fn each_place_has_its_own_answers_and_all_share_those_of_the_house() {
    let picture = house().picture();
    let (soffit, fridge) = (Some("bulkhead"), Some("fridge-soffit"));
    let cases = [
        (soffit, "form", Some("even")),
        (fridge, "form", Some("stepped")),
        (soffit, "sound", Some("quiet")),
        (fridge, "sound", None), // never the first soffit's
        (soffit, "year", Some("1962")),
        (fridge, "year", Some("1962")),
        (None, "year", Some("1962")),
        (None, "form", None), // two soffits, two answers: none is picked
        (Some("walls"), "face", Some("plaster")),
        (Some("north-wall"), "face", None),
        (fridge, "face", None), // the other wall is not known
        (None, "nothing", None),
    ];
    for (place, item, expected) in cases {
        assert_eq!(value(&picture, place, item).as_deref(), expected, "{item} at {place:?}");
    }
    let same = house().say("north-wall", "face", "plaster").picture();
    assert_eq!(value(&same, fridge, "face").as_deref(), Some("plaster"), "all walls say the same");
    assert!(same.at(fridge).standing("face").is_none(), "but the answer is no single one");
}

#[test]
fn a_rule_outside_asks_whether_it_holds_at_any_place() {
    let test = |test: Test| Predicate::Item { item: "face".into(), test };
    let plaster = || vec!["plaster".to_owned()];
    let (one, two) = (house().picture(), house().say("north-wall", "face", "drywall").picture());
    let cases = [
        (Test::In(plaster()), Some(true), Some(true)),
        (Test::In(vec!["drywall".into()]), None, Some(true)),
        (Test::In(vec!["brick".into()]), None, Some(false)),
        (Test::NotIn(plaster()), Some(false), Some(false)),
        (Test::NotIn(vec!["brick".into()]), None, Some(true)),
        (Test::Unknown(true), Some(false), Some(false)),
        (Test::Unknown(false), Some(true), Some(true)),
    ];
    for (rule, half_answered, answered) in cases {
        let rule = test(rule);
        assert_eq!(rule.holds(&one), half_answered, "{rule:?}");
        assert_eq!(rule.holds(&two.at(Some("bulkhead"))), answered, "{rule:?} from a soffit");
        let opposite = Predicate::Not(Box::new(rule.clone()));
        assert_eq!(opposite.holds(&two), answered.map(|b| !b), "{opposite:?}");
    }
    let inside = test(Test::In(plaster()));
    assert_eq!(inside.holds(&two.at(Some("walls"))), Some(true));
    assert_eq!(inside.holds(&two.at(Some("north-wall"))), Some(false), "at a wall it means this wall");
}

#[test]
fn a_place_taken_out_keeps_its_record_and_is_seen_no_more_until_it_is_put_back() {
    let out = house().place("bulkhead", "fridge-soffit", false);
    let picture = out.picture();
    assert_eq!(picture.places_of("bulkhead"), ["bulkhead"]);
    assert_eq!(value(&picture, None, "form").as_deref(), Some("even"));
    assert!(picture.answers.contains_key(&("fridge-soffit".to_owned(), "form".to_owned())), "it is kept");
    let back = out.place("bulkhead", "fridge-soffit", true).picture();
    assert_eq!(back.places_of("bulkhead"), ["bulkhead", "fridge-soffit"]);
    assert_eq!(value(&back, Some("fridge-soffit"), "form").as_deref(), Some("stepped"));
}

#[test]
fn the_first_place_can_be_named_but_not_taken_out_and_an_id_belongs_to_one_station() {
    let picture = Log::default()
        .place("bulkhead", "bulkhead", false)
        .place("bulkhead", "fridge-soffit", true)
        .place("walls", "fridge-soffit", true)
        .picture();
    assert_eq!(picture.place("bulkhead").map(|p| (p.label.as_str(), p.there)), Some(("the bulkhead", true)));
    assert_eq!(picture.places_of("bulkhead"), ["bulkhead", "fridge-soffit"]);
    assert_eq!(picture.places_of("walls"), ["walls"]);
    assert_eq!(Picture::default().places_of("bulkhead"), ["bulkhead"]);
}
