//! Odds and money as the answers stand, as the screens ask for them.
#![allow(clippy::unwrap_used, reason = "a test")]

use std::path::Path;

use crate::support::{ask, place, started, survey, world};
use actions::{Desk, Kit};
use commands::Place;
use serde_json::{Value, json};
use survey::catalog::builtin;
use tempfile::tempdir;
use views::assessment_view;

fn of(place: &Place, name: &str, survey: &str) -> Value {
    ask(place, name, json!({ "survey": survey })).unwrap()
}

/// What was frozen last, read from the record beside the screens, as they would be shown it.
fn frozen(folder: &Path, survey: &str) -> Value {
    let mut world = world();
    let mut kit = Kit { clock: world.clock.as_ref(), random: world.random.as_mut(), by: world.by.clone() };
    let desk = Desk::open(folder, builtin().unwrap(), &mut kit).unwrap();
    let forecast = desk.latest(survey.parse().unwrap()).unwrap().unwrap();
    serde_json::to_value(assessment_view(&forecast, desk.say())).unwrap()
}

/// What does not hang on when it was worked out.
fn undated(assessment: &Value) -> Value {
    let mut it = assessment.clone();
    it.as_object_mut().unwrap().remove("madeAt");
    it
}

#[test]
fn what_is_shown_now_is_what_would_be_frozen_now_and_moves_with_an_answer() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let survey = survey(&started(&place));
    let money = of(&place, "money-now", &survey);
    let quick = of(&place, "odds-now", &survey);
    let whole = of(&place, "odds-why", &survey);
    assert_eq!(money["assessment"], Value::Null);
    assert_eq!((&money["p80Cents"], &quick["whole"]), (&quick["p80Cents"], &json!(false)));
    assert_eq!(whole["whole"], true);
    // Nothing was frozen by looking.
    assert_eq!(of(&place, "house", &survey)["frozen"], Value::Null);
    let line = of(&place, "assess", &survey)["frozen"].clone();
    let frozen = frozen(folder.path(), &survey);
    assert_eq!(
        (&line["p80Cents"], &line["catalog"], &line["engine"]),
        (&frozen["money"]["p80Cents"], &frozen["catalog"], &frozen["engine"])
    );
    assert!(undated(&whole["assessment"]) == undated(&frozen));
    // Quick and whole differ only in how it came about.
    let without = |assessment: &Value| {
        let mut it = undated(assessment);
        for condition in it["conditions"].as_array_mut().unwrap() {
            condition["because"] = json!([]);
            condition["path"] = json!([]);
        }
        it
    };
    assert!(without(&quick["assessment"]) == without(&frozen));
    assert!(whole["assessment"]["conditions"].as_array().unwrap().iter().any(|c| c["path"] != json!([])));

    let answer = json!({ "survey": survey, "key": "bulkhead-under", "answer": ["bath-fixtures"] });
    ask(&place, "answer", answer).unwrap();
    let moved = of(&place, "money-now", &survey);
    assert_ne!(moved["p80Cents"], money["p80Cents"]);
    assert_eq!(of(&place, "odds-now", &survey)["p80Cents"], moved["p80Cents"]);
    assert_eq!(of(&place, "house", &survey)["frozen"]["p80Cents"], money["p80Cents"], "frozen stays");
}

#[test]
fn another_house_is_not_shown_the_odds_of_the_one_before() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let one = survey(&started(&place));
    let first = of(&place, "odds-why", &one);
    let other = ask(
        &place,
        "start-house",
        json!({ "label": "Elm Court bath", "year": "1998", "within": 0, "planned": ["bath-remodel"], "by": "Rosa Lind" }),
    )
    .unwrap();
    let other = survey(&other);
    assert!(of(&place, "odds-now", &other)["assessment"]["conditions"] != first["assessment"]["conditions"]);
    assert!(undated(&of(&place, "odds-why", &one)["assessment"]) == undated(&first["assessment"]));
}
