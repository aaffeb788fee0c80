//! The trade calculations of a house as the screens ask them.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test may stop, and is told to rewrite by name"
)]

use crate::support::{ask, place};
use commands::Place;
use serde_json::{Value, json};
use tempfile::tempdir;

/// A kitchen with what the calculations need of it, but the panel's appliances.
fn measured(place: &Place) -> String {
    let start = json!({ "label": "Alder Street kitchen", "year": "1962", "within": 0,
        "planned": ["deep-sink", "new-floor", "gas-range", "open-wall", "add-circuits"], "by": "Rosa Lind" });
    let walk = ask(place, "start-house", start).unwrap();
    let survey = walk["survey"].as_str().unwrap().to_owned();
    for (key, answer, tolerance) in [
        ("sink-mount", "apron-front", None),
        ("bowl-depth", "10", Some("1/8")),
        ("disposer-plan", "yes", None),
        ("stub-datum", "finished-floor", None),
        ("stub-height", "19 3/8", Some("1/8")),
        ("gas-pipe-kind", "black-steel", None),
        ("gas-run-length", "60 ft", Some("1 ft")),
        ("gas-trunk-size", "three-quarter", None),
        ("gas-load", "200", None),
        ("gas-planned", "65", None),
        ("floor-area", "1800", None),
        ("home-work", "tue", None),
    ] {
        let args =
            json!({ "survey": survey, "key": key, "answer": [answer], "tolerance": tolerance, "sure": true });
        ask(place, "answer", args).unwrap();
    }
    survey
}

fn fit(place: &Place, survey: &str, key: &str, typed: Value) -> Value {
    ask(place, "fit", json!({ "survey": survey, "key": key, "typed": typed })).unwrap()
}

/// A hole for a drain and one for a box in one wall.
fn holes() -> Value {
    json!([
        ["year", "1962"],
        ["hole", "plumbing, kitchen, wall, sink wall, 20, 10, 12, 14"],
        ["hole", "electrical, kitchen, wall, sink wall, 60, 40, 8, 8"],
        ["plane", "kitchen, wall, sink wall, 120, 96"],
    ])
}

#[test]
fn every_calculation_is_listed_once_under_its_trade_with_what_the_house_says() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let survey = measured(&place);
    let list = ask(&place, "fits", json!({ "survey": survey })).unwrap();
    let rows: Vec<&Value> =
        list["trades"].as_array().unwrap().iter().flat_map(|t| t["fits"].as_array().unwrap()).collect();
    let listed: Vec<&str> = rows.iter().map(|r| r["key"].as_str().unwrap()).collect();
    let apart: std::collections::BTreeSet<&str> = listed.iter().copied().collect();
    assert!(listed.len() >= 22 && apart.len() == listed.len(), "{listed:?}");
    let of = |word: &str| rows.iter().find(|r| r["key"] == word).unwrap();
    assert_eq!(of("sink-drain")["standing"], "beyond");
    assert_eq!(of("panel-load")["standing"], "cannot-say");
    assert_eq!((&of("stud-hole")["standing"], &of("stud-hole")["fromWalk"]), (&Value::Null, &json!(false)));
    // Nobody was asked for wishes yet; the list says what the calculation would answer.
    assert_eq!((&of("wishes")["standing"], &of("wishes")["fromWalk"]), (&Value::Null, &json!(true)));
}

#[test]
fn a_result_says_what_it_was_read_from_and_what_is_missing_is_a_card_of_the_walk() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let survey = measured(&place);
    let sink = fit(&place, &survey, "sink-drain", Value::Null);
    assert_eq!((&sink["result"]["standing"], &sink["byHand"]), (&json!("beyond"), &json!(false)));
    assert!(sink["result"]["drawing"]["beside"].as_str().unwrap().starts_with("<svg"));
    let inputs = sink["inputs"].as_array().unwrap();
    let of = |key: &str| inputs.iter().find(|i| i["key"] == key).unwrap();
    assert_eq!(of("stub-height")["answer"], "19-3/8\"");
    assert_eq!(of("stub-height")["tolerance"], "±1/8\"");
    assert_eq!(of("stub-height")["by"], "Rosa Lind");
    assert_eq!(of("counter-height")["answer"], Value::Null);
    for input in inputs {
        let card = ask(&place, "walk", json!({ "survey": survey, "key": input["key"] })).unwrap();
        assert_eq!(card["card"]["key"], input["key"]);
    }
    let field = |fit: &Value, name: &str| {
        let fields = fit["fields"].as_array().unwrap();
        fields.iter().find(|f| f["name"] == name).unwrap()["given"].clone()
    };
    assert_eq!(field(&sink, "stub-height"), "19-3/8\" ± 1/8\"");
    assert_eq!(field(&sink, "disposer-plan"), "yes");
}

#[test]
fn figures_typed_by_hand_give_what_the_walk_gave_and_record_nothing() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let survey = measured(&place);
    for word in ["sink-drain", "gas-run"] {
        let walked = fit(&place, &survey, word, Value::Null);
        let given: Vec<Value> = walked["fields"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|f| {
                let lines = f["given"].as_str().unwrap().lines();
                lines.map(|line| json!([f["name"], line])).collect::<Vec<_>>()
            })
            .collect();
        let by_hand = fit(&place, &survey, word, json!(given));
        assert_eq!(by_hand["result"]["sentence"], walked["result"]["sentence"], "{word}");
        assert_eq!(by_hand["byHand"], true);
    }
    let lower = json!([
        ["stub-height", "12 ± 1/8"],
        ["stub-datum", "finished-floor"],
        ["bowl-depth", "10"],
        ["disposer-plan", "yes"],
        ["sink-mount", "apron-front"],
        ["sink-shell", ""]
    ]);
    assert_eq!(fit(&place, &survey, "sink-drain", lower)["result"]["standing"], "within");
    let again = fit(&place, &survey, "sink-drain", Value::Null);
    assert_eq!(again["result"]["standing"], "beyond", "what was typed stands nowhere");
    let openings = fit(&place, &survey, "openings", holes());
    assert!(openings["result"]["drawing"].is_object(), "{}", openings["result"]["sentence"]);
    assert_eq!(fit(&place, &survey, "stud-hole", Value::Null)["result"], Value::Null);
}

#[test]
fn what_cannot_be_read_is_said_with_the_field() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let survey = measured(&place);
    let args = json!({ "survey": survey, "key": "sink-drain", "typed": [["stub-height", "a foot or so"]] });
    let refused = ask(&place, "fit", args).unwrap_err();
    assert_eq!(refused.kind, "input");
    assert!(refused.message.contains("stub-height"), "{}", refused.message);
    let args = json!({ "survey": survey, "key": "sink-drian", "typed": null });
    let refused = ask(&place, "fit", args).unwrap_err();
    assert_eq!(refused.kind, "missing");
    assert!(refused.hint.unwrap_or_default().contains("sink-drain"));
}

/// The list and some calculations, for the tests of the screens.
#[test]
fn the_calculations_the_screens_are_tested_with_are_those_the_program_gives() {
    let folder = tempdir().unwrap();
    let place = Place::new(Some(folder.path().to_owned()), crate::support::world_of(2));
    let survey = measured(&place);
    let mut list = ask(&place, "fits", json!({ "survey": survey })).unwrap();
    let mut fits: Vec<Value> =
        ["sink-drain", "gas-run", "panel-load", "outages", "trap-arm", "stud-hole", "openings"]
            .map(|word| fit(&place, &survey, word, Value::Null))
            .into();
    let stud = json!([
        ["lumber", "2x4"],
        ["material", "PVC/ABS DWV"],
        ["size", "1-1/2"],
        ["bearing", "yes"],
        ["crossed", "4"]
    ]);
    let typed = [("stud-hole", stud), ("openings", holes())];
    let mut typed = typed.map(|(word, typed)| fit(&place, &survey, word, typed));
    for view in fits.iter_mut().chain(&mut typed).chain([&mut list]) {
        view["survey"] = json!("");
    }
    let recorded = json!({ "list": list, "fits": fits, "typed": typed });
    let text = format!("{}\n", serde_json::to_string_pretty(&recorded).unwrap());
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../ui/e2e/page/fits.json");
    if std::env::var_os("UPDATE_BINDINGS").is_some() {
        std::fs::write(path, &text).unwrap();
    }
    let committed = std::fs::read_to_string(path).unwrap_or_default();
    assert!(committed == text, "{path} is stale: run UPDATE_BINDINGS=1 cargo test --workspace -p commands");
}
