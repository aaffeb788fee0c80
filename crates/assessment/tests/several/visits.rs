//! One visit that serves several places is one look: offered once, weighed as a whole, its minutes counted once.

use assessment::decision::LossRules;
use assessment::forecast::Look;
use assessment::promise::{Promised, Terms, promise};
use assessment::{ClueTables, Live, Request};
use survey::catalog::{Catalog, Serves};
use survey::log::{CheckOutcome, CheckResult, Value};
use survey::model::Picture;
use survey::units::Money;

use crate::support::{CATALOG, House, TABLES};

fn request<'a>(catalog: &'a Catalog, tables: &'a ClueTables, picture: &'a Picture) -> Request<'a> {
    let survey = picture.survey.unwrap();
    Request { survey, picture, catalog, tables, rules: LossRules::of(catalog) }
}

fn looks(catalog: &Catalog, picture: &Picture, check: &str) -> Vec<Look> {
    let mut live = Live::default();
    let mut odds = live.odds(&request(catalog, &TABLES, picture)).unwrap();
    let all = odds.looks(&mut || true).unwrap().unwrap();
    all.into_iter().filter(|look| look.check == check).collect()
}

/// Three walls to take out, two soffits.
fn house() -> House {
    House::planned(&["remove-wall", "remove-bulkhead", "new-floor"])
        .place("walls", "hall-wall")
        .place("walls", "dining-wall")
        .place("bulkhead", "fridge-soffit")
}

/// The catalog as if every check were made place by place.
fn place_by_place() -> Catalog {
    let mut catalog = CATALOG.clone();
    catalog.checks.values_mut().for_each(|check| check.serves = Serves::Place);
    catalog
}

#[test]
fn one_way_down_to_the_basement_serves_all_walls() {
    let picture = house().picture();
    let once = looks(&CATALOG, &picture, "look-from-below");
    let [look] = once.as_slice() else { panic!("{} looks", once.len()) };
    let places: Vec<&str> = look.serves.iter().map(|p| p.id.as_str()).collect();
    assert!(["walls", "hall-wall", "dining-wall"].iter().all(|p| places.contains(p)), "{places:?}");
    assert_eq!(look.place, None);
    let apart = looks(&place_by_place(), &picture, "look-from-below");
    assert!(apart.len() >= 4, "the house and each wall: {}", apart.len());
    for one in &apart {
        assert!(one.serves.is_empty());
        assert_eq!((one.minutes, one.cost), (look.minutes, look.cost), "the minutes of one visit");
        assert!(look.value >= one.value && look.net_per_minute >= one.net_per_minute);
        assert!(one.conditions.iter().all(|key| look.conditions.contains(key)), "{one:?}");
    }
    let most = apart.iter().map(|l| l.value).max().unwrap();
    assert!(look.value > most, "walls of a kind add to one another: {} {most}", look.value);
}

#[test]
fn what_is_seen_from_the_room_is_looked_at_place_by_place() {
    let picture = house().picture();
    let mut live = Live::default();
    let all = live.odds(&request(&CATALOG, &TABLES, &picture)).unwrap().looks(&mut || true).unwrap().unwrap();
    let places = |check: &str| -> Vec<&str> {
        let of_check = all.iter().filter(|l| l.check == check);
        of_check.filter_map(|l| Some(l.place.as_ref()?.id.as_str())).collect()
    };
    let both = |check: &&String| ["bulkhead", "fridge-soffit"].iter().all(|p| places(check).contains(p));
    let apart: Vec<&String> = CATALOG.checks.keys().filter(both).collect();
    assert!(!apart.is_empty());
    assert!(apart.iter().all(|check| CATALOG.checks[*check].serves == Serves::Place), "{apart:?}");
    for look in &all {
        let house = CATALOG.checks[&look.check].serves == Serves::House;
        assert!(if house { look.place.is_none() } else { look.serves.is_empty() }, "{look:?}");
    }
}

#[test]
fn a_house_with_one_of_each_has_the_looks_it_had() {
    let picture = House::planned(&["remove-wall", "remove-bulkhead", "new-floor"]).picture();
    let all = |catalog: &Catalog| {
        let mut live = Live::default();
        live.odds(&request(catalog, &TABLES, &picture)).unwrap().looks(&mut || true).unwrap().unwrap()
    };
    let found = all(&CATALOG);
    assert!(found.iter().all(|l| l.serves.is_empty() && l.place.is_none()));
    assert_eq!(found, all(&place_by_place()));
}

#[test]
fn what_was_looked_at_in_one_place_is_still_offered_for_the_others() {
    let before = looks(&CATALOG, &house().picture(), "look-from-below").remove(0);
    let (walls, rest): (Vec<String>, Vec<String>) =
        before.conditions.iter().cloned().partition(|key| key.ends_with("@hall-wall"));
    assert!(!walls.is_empty() && !rest.is_empty());
    let result = |conditions: &[String]| {
        Value::Checks(vec![CheckResult {
            check: "look-from-below".into(),
            conditions: conditions.to_vec(),
            result: CheckOutcome::ShowsNot,
        }])
    };
    let seen = house().say("check-result", result(&walls)).picture();
    let after = looks(&CATALOG, &seen, "look-from-below").remove(0);
    // Ducts of one wall hang together with those of the next: told of still, looked at no more.
    assert!(after.conditions.iter().filter(|key| walls.contains(key)).count() < walls.len());
    assert!(after.serves.iter().any(|p| p.id == "dining-wall"), "{:?}", after.serves);
    assert!(after.value < before.value);
}

#[test]
fn a_promise_counts_a_check_once_for_the_house_or_once_for_each_place() {
    let picture = house().picture();
    let request = request(&CATALOG, &TABLES, &picture);
    let cover = ["bulkhead-duct".to_owned(), "bulkhead-duct@fridge-soffit".to_owned()];
    let promised = Promised {
        cover: &cover,
        cap: Money::from_dollars(4_000),
        under: Some(Money::from_dollars(1)),
        terms: Terms::of(&CATALOG),
    };
    let plan = promise(&request, &promised).unwrap().under.unwrap();
    assert!(!plan.checks.is_empty());
    let minutes = |part: &assessment::promise::Part| {
        let check = &CATALOG.checks[&part.check];
        let visits = match check.serves {
            Serves::House => 1,
            Serves::Place => part.reads.len(),
        };
        visits as f64 * check.minutes.likely
    };
    assert!((plan.minutes - plan.checks.iter().map(minutes).sum::<f64>()).abs() < 0.01, "{plan:?}");
}
