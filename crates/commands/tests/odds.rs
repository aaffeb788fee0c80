//! Odds and money as the answers stand, as the screens ask for them.
#![allow(clippy::unwrap_used, reason = "a test")]

mod support;

use commands::Place;
use serde_json::{Value, json};
use support::{ask, place, started, survey};
use tempfile::tempdir;

fn of(place: &Place, name: &str, survey: &str) -> Value {
    ask(place, name, json!({ "survey": survey })).unwrap()
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
    assert_eq!(of(&place, "house", &survey)["assessment"], Value::Null);
    let frozen = of(&place, "assess", &survey)["assessment"].clone();
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
    assert_eq!(
        of(&place, "house", &survey)["assessment"]["money"]["p80Cents"],
        money["p80Cents"],
        "frozen stays"
    );
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
