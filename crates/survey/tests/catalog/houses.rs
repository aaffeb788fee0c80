//! Three invented houses: the clues, the context and the scope that a separate program (in Python) read from the
//! same answers.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;
use survey::catalog::{AnswerKind, Catalog, builtin};
use survey::log::Value;
use survey::units::Quantity;

#[derive(Deserialize)]
struct File {
    houses: Vec<House>,
}

#[derive(Deserialize)]
struct House {
    id: String,
    answers: BTreeMap<String, serde_json::Value>,
    clues_true: Vec<String>,
    context: BTreeMap<String, String>,
    in_scope: BTreeSet<String>,
}

fn houses() -> Vec<House> {
    serde_json::from_str::<File>(include_str!("../data/houses.json")).unwrap().houses
}

fn answers(catalog: &Catalog, house: &House) -> BTreeMap<String, Value> {
    let value = |item: &str, json: &serde_json::Value| match (&catalog.item(item).unwrap().answer, json) {
        (AnswerKind::Length { unit, .. }, serde_json::Value::Number(n)) => {
            Value::Length(unit.length(n.as_f64().unwrap()).unwrap())
        }
        (AnswerKind::Number { unit, .. }, serde_json::Value::Number(n)) => {
            Value::Number(Quantity::parse(&n.to_string(), unit).unwrap())
        }
        (_, serde_json::Value::String(option)) => Value::Choice(option.clone()),
        (_, serde_json::Value::Array(list)) => {
            Value::choices(list.iter().map(|o| o.as_str().unwrap().to_owned()).collect())
        }
        other => panic!("{item}: {other:?}"),
    };
    house.answers.iter().map(|(item, json)| (item.clone(), value(item, json))).collect()
}

#[test]
fn every_answer_fits_its_item_and_none_is_given_to_a_skipped_one() {
    let catalog = builtin().unwrap();
    for house in houses() {
        let answers = answers(&catalog, &house);
        for (item, value) in &answers {
            let item = catalog.check_answer(item, value).unwrap_or_else(|e| panic!("{}: {e}", house.id));
            assert!(!item.skipped(&answers), "{}: {}", house.id, item.id);
        }
        let new = [
            "in-base-price",
            "sink-shell",
            "dishwasher-plan",
            "stub-datum",
            "cabinet-toe-kick",
            "cabinet-floor-thick",
            "gas-trunk-size",
        ];
        for item in catalog.items.iter().filter(|i| !new.contains(&i.id.as_str())) {
            let unasked = item.skipped(&answers) || item.second_look;
            assert!(unasked || answers.contains_key(&item.id), "{}: {} is open", house.id, item.id);
        }
    }
}

#[test]
fn the_same_clues_are_true() {
    let catalog = builtin().unwrap();
    for house in houses() {
        let answers = answers(&catalog, &house);
        let found: Vec<&str> = catalog.clues_true(&answers).into_iter().collect();
        assert_eq!(found, house.clues_true, "{}", house.id);
    }
}

#[test]
fn the_same_context_is_read() {
    let catalog = builtin().unwrap();
    for house in houses() {
        let answers = answers(&catalog, &house);
        let found: BTreeMap<String, String> =
            catalog.context(&answers).into_iter().map(|(f, l)| (f.to_owned(), l.to_owned())).collect();
        assert_eq!(found, house.context, "{}", house.id);
    }
}

#[test]
fn the_same_conditions_are_in_scope() {
    let catalog = builtin().unwrap();
    for house in houses() {
        let answers = answers(&catalog, &house);
        let found: BTreeSet<String> = catalog.in_scope(&answers).map(|c| c.id.clone()).collect();
        assert_eq!(found, house.in_scope, "{}", house.id);
    }
}

#[test]
fn a_reading_from_the_cabinet_floor_cannot_speak_against_a_high_stub() {
    let catalog = builtin().unwrap();
    let clue = catalog.clue("stub-high").unwrap();
    let inches = |x: f64| Value::Length(survey::units::Length::from_inches(x).unwrap());
    let with = |height: f64, datum: &str| {
        BTreeMap::from([
            ("stub-height".to_owned(), inches(height)),
            ("stub-datum".to_owned(), Value::Choice(datum.to_owned())),
        ])
    };
    assert_eq!(clue.state(&with(12.0, "finished-floor")), Some(false));
    assert_eq!(clue.state(&with(12.0, "cabinet-floor")), None);
    assert_eq!(clue.state(&with(17.0, "cabinet-floor")), Some(true));
    assert_eq!(clue.state(&with(16.9375, "finished-floor")), Some(false));
}
