//! Several of a kind, through the command line: two soffits, a wall more, two tablets that add the same place.

use std::path::Path;

use serde_json::Value;

use crate::support::{refused, run};

const HOUSE: &str = "Mill Lane";
const FRIDGE: &str = "over-fridge-soffit";

fn two_soffits(dir: &Path) {
    run(dir, &["new", HOUSE]);
    run(dir, &["record", HOUSE, "planned-work", "remove-bulkhead"]);
    run(dir, &["record", HOUSE, "heat-kind", "ducts"]);
    let added = run(dir, &["place", HOUSE, "bulkhead", "Soffit over the fridge"]);
    assert!(added.starts_with(FRIDGE), "{added}");
}

fn assessed(dir: &Path) -> Value {
    serde_json::from_str(&run(dir, &["--json", "assess", HOUSE])).unwrap()
}

fn condition<'f>(forecast: &'f Value, key: &str) -> Option<&'f Value> {
    forecast["conditions"].as_array().unwrap().iter().find(|c| c["id"] == key)
}

fn odds(forecast: &Value, key: &str) -> f64 {
    condition(forecast, key).unwrap_or_else(|| panic!("no {key}"))["probability"].as_f64().unwrap()
}

#[test]
fn two_soffits_answered_differently_have_different_odds_and_what_the_attic_shows_raises_both() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    two_soffits(dir);
    let (duct, fridge) = ("bulkhead-duct", format!("bulkhead-duct@{FRIDGE}"));
    let before = assessed(dir);
    assert_eq!(odds(&before, duct), odds(&before, &fridge));
    assert_eq!(condition(&before, &fridge).unwrap()["place"]["label"], "Soffit over the fridge");
    assert_eq!(condition(&before, duct).unwrap()["place"]["label"], "First soffit");

    let (code, words) = refused(dir, &["record", HOUSE, "bulkhead-fitted", "register"]);
    assert!(code == 2 && words.contains("bulkhead (First soffit)") && words.contains(FRIDGE), "{words}");
    run(dir, &["record", HOUSE, "bulkhead-fitted", "register", "--place", FRIDGE]);
    run(dir, &["record", HOUSE, "bulkhead-fitted", "none", "--place", "bulkhead"]);
    let answered = assessed(dir);
    assert!(odds(&answered, &fridge) > odds(&before, &fridge) + 0.3);
    assert!(odds(&answered, duct) < odds(&before, duct));
    let because = &condition(&answered, &fridge).unwrap()["because"][0];
    assert_eq!(because["item"], "bulkhead-fitted");
    assert_eq!(because["place"]["id"], FRIDGE);
    assert!(run(dir, &["show", HOUSE]).contains("Soffit over the fridge"));
    assert!(run(dir, &["next", HOUSE]).contains("Soffit over the fridge"));

    run(dir, &["record", HOUSE, "drops-seen", "duct"]);
    let dropping = assessed(dir);
    assert!(odds(&dropping, duct) > odds(&answered, duct), "what the attic shows speaks of both");
}

#[test]
fn a_place_taken_out_keeps_its_record_and_leaves_the_odds_until_it_is_put_back() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    two_soffits(dir);
    let key = format!("bulkhead-duct@{FRIDGE}");
    run(dir, &["record", HOUSE, "bulkhead-fitted", "register", "--place", FRIDGE]);
    let there = odds(&assessed(dir), &key);
    let out = run(dir, &["place", HOUSE, FRIDGE, "--remove", "--reason", "it stays"]);
    assert!(out.contains("taken out; 1 answer kept"), "{out}");
    let without = assessed(dir);
    assert!(condition(&without, &key).is_none() && without["places"].as_array().unwrap().is_empty());
    assert!(run(dir, &["show", HOUSE]).contains("Taken out, with what was recorded there"));
    let (code, words) = refused(dir, &["record", HOUSE, "bulkhead-fitted", "none", "--place", FRIDGE]);
    assert!(code == 4 && words.contains("was taken out"), "{words}");
    let back = run(dir, &["place", HOUSE, "bulkhead", "Soffit over the fridge"]);
    assert!(back.contains("there again, with 1 answer"), "{back}");
    assert_eq!(odds(&assessed(dir), &key), there);
    let (code, _) = refused(dir, &["place", HOUSE, "bulkhead", "--remove"]);
    assert_eq!(code, 4, "the first stays");
}

#[test]
fn findings_and_comparison_know_each_place_and_no_other() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    two_soffits(dir);
    let key = format!("bulkhead-duct@{FRIDGE}");
    run(dir, &["seal", HOUSE, "--into", "."]);
    run(dir, &["receive", "mill-lane-1.zip"]);
    run(dir, &["finding", HOUSE, &key, "found", "--cost", "900", "--days", "1"]);
    run(dir, &["finding", HOUSE, "bulkhead-duct@bulkhead", "not-there"]);
    for (wrong, words) in
        [("bulkhead-duct@over-frige-soffit", FRIDGE), ("drain-stub-high@sink", "without a place")]
    {
        let (code, said) = refused(dir, &["finding", HOUSE, wrong, "not-there"]);
        assert!(code == 2 && said.contains(words), "{said}");
    }
    let comparison: Value = serde_json::from_str(&run(dir, &["--json", "compare", HOUSE])).unwrap();
    let outcome = |key: &str| {
        let rows = comparison["rows"].as_array().unwrap();
        rows.iter().find(|r| r["condition"] == key).unwrap()["outcome"].clone()
    };
    assert_eq!((outcome(&key), outcome("bulkhead-duct")), ("found".into(), "not-there".into()));
}

#[test]
fn two_tablets_that_add_the_same_soffit_have_added_one() {
    let (a, b) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (a, b) = (a.path(), b.path());
    run(a, &["new", HOUSE]);
    run(a, &["record", HOUSE, "planned-work", "remove-bulkhead"]);
    run(a, &["seal", HOUSE, "--into", "."]);
    run(b, &["merge", a.join("mill-lane-1.zip").to_str().unwrap()]);
    for (dir, answer) in [(a, "register"), (b, "lights")] {
        run(dir, &["place", HOUSE, "bulkhead", "Soffit over the fridge"]);
        run(dir, &["record", HOUSE, "bulkhead-fitted", answer, "--place", FRIDGE]);
    }
    run(b, &["place", HOUSE, "bulkhead", "Soffit over the door"]);
    run(b, &["seal", HOUSE, "--into", "."]);
    let packet = std::fs::read_dir(b)
        .unwrap()
        .map(|e| e.unwrap().path())
        .find(|p| p.extension().is_some_and(|e| e == "zip"));
    run(a, &["merge", packet.unwrap().to_str().unwrap()]);
    let places: Value = serde_json::from_str(&run(a, &["--json", "place", HOUSE])).unwrap();
    let soffits: Vec<&str> = places
        .as_array()
        .unwrap()
        .iter()
        .filter(|p| p["station"] == "bulkhead")
        .map(|p| p["id"].as_str().unwrap())
        .collect();
    assert_eq!(soffits, ["bulkhead", FRIDGE, "over-door-soffit"]);
    assert!(run(a, &["show", HOUSE]).contains('≠'), "their answers about it disagree, and both are kept");
}

#[test]
fn one_visit_is_offered_once_says_what_it_serves_and_is_recorded_place_by_place() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    run(dir, &["new", HOUSE]);
    run(dir, &["record", HOUSE, "planned-work", "remove-wall", "new-floor"]);
    run(dir, &["place", HOUSE, "walls", "Wall to the hall"]);
    let below = || -> Vec<Value> {
        let next: Value = serde_json::from_str(&run(dir, &["--json", "next", HOUSE])).unwrap();
        let looks = next["look"].as_array().unwrap().iter();
        looks.filter(|l| l["check"] == "look-from-below").cloned().collect()
    };
    let offered = below();
    assert_eq!(offered.len(), 1, "{offered:?}");
    let serves: Vec<&str> =
        offered[0]["serves"].as_array().unwrap().iter().map(|p| p["label"].as_str().unwrap()).collect();
    assert_eq!(serves, ["First wall", "Wall to the hall"]);
    let words = run(dir, &["next", HOUSE]);
    assert!(words.contains("One time serves First wall") && words.contains("Wall to the hall"), "{words}");
    let words = run(dir, &["--language", "es", "next", HOUSE]);
    assert!(words.contains("Una sola vez sirve para"), "{words}");

    let keys: Vec<&str> =
        offered[0]["conditions"].as_array().unwrap().iter().map(|k| k.as_str().unwrap()).collect();
    let (hall, rest): (Vec<&str>, Vec<&str>) = keys.into_iter().partition(|k| k.ends_with("@to-hall-wall"));
    assert!(!hall.is_empty(), "{rest:?}");
    let before = assessed(dir);
    let shown = format!("look-from-below shows-it {}", hall[0]);
    let not = format!("look-from-below shows-not {}", hall[0].split('@').next().unwrap());
    run(dir, &["record", HOUSE, "check-result", &shown, &not]);
    let after = assessed(dir);
    assert!(odds(&after, hall[0]) > odds(&before, hall[0]));
    let first = hall[0].split('@').next().unwrap();
    assert!(odds(&after, first) < odds(&before, first));
}
