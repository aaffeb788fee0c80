//! The order of the walk, through the command line: moved, kept, sealed along, the same on another tablet.

use std::path::Path;

use serde_json::Value;

use crate::support::{refused, run, underlath};

const HOUSE: &str = "Mill Lane";

fn stops(dir: &Path) -> Vec<String> {
    let told: Value = serde_json::from_str(&run(dir, &["--json", "order", HOUSE])).unwrap();
    let stops = told["stops"].as_array().unwrap();
    stops.iter().map(|s| s["place"].as_str().unwrap().to_owned()).collect()
}

fn place_of(stops: &[String], stop: &str) -> usize {
    stops.iter().position(|s| s == stop).unwrap()
}

/// Everything an assessment says but when, and of which log.
fn assessed(dir: &Path) -> Value {
    let mut told: Value = serde_json::from_str(&run(dir, &["--json", "assess", HOUSE])).unwrap();
    for part in ["log", "made_at"] {
        told.as_object_mut().unwrap().remove(part);
    }
    told
}

#[test]
fn a_stop_moved_is_asked_first_sealed_along_and_moves_no_odds() {
    let (a, b) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (a, b) = (a.path(), b.path());
    run(a, &["new", HOUSE]);
    run(a, &["record", HOUSE, "planned-work", "remove-bulkhead", "deep-sink"]);
    run(a, &["place", HOUSE, "bulkhead", "Soffit over the fridge"]);
    let (listed, odds) = (stops(a), assessed(a));
    assert_eq!(listed.first().map(String::as_str), Some("plan"));

    let words = run(a, &["order", HOUSE, "Soffit over the fridge", "--before", "beforehand"]);
    assert!(words.lines().nth(1).unwrap().contains("Soffit over the fridge"), "{words}");
    let moved = stops(a);
    assert_eq!(moved[1], "over-fridge-soffit");
    assert!(place_of(&moved, "bulkhead") > 1, "only the one that was named");
    let asked = run(a, &["next", HOUSE, "--most", "200"]);
    let first = asked.lines().find(|l| l.trim_start().starts_with("bulkhead-form")).unwrap();
    assert!(first.contains("over-fridge-soffit"), "{asked}");
    let show = run(a, &["show", HOUSE]);
    let at = |what: &str| show.find(what).unwrap_or_else(|| panic!("no {what} in {show}"));
    assert!(at("Soffit over the fridge") < at("stub-height"), "{show}");
    assert_eq!(assessed(a), odds, "in whatever order the house is walked");

    run(a, &["order", HOUSE, "gas", "--after", "over-fridge-soffit"]);
    run(a, &["order", HOUSE, "floor", "--earlier"]);
    let there = stops(a);
    assert_eq!(there[2], "gas");
    assert!(place_of(&there, "floor") < place_of(&moved, "floor") + 1);
    run(a, &["seal", HOUSE, "--into", a.to_str().unwrap()]);
    run(b, &["merge", a.join("mill-lane-1.zip").to_str().unwrap()]);
    assert_eq!(stops(b), there);
    run(b, &["order", HOUSE, "--as-listed"]);
    assert_eq!(stops(b), listed);
}

#[test]
fn an_order_that_cannot_be_is_said_and_nothing_is_recorded() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    run(dir, &["new", HOUSE]);
    for (args, code, word) in [
        (vec!["plan", "--later"], 4, "starts with what is planned"),
        (vec!["sink", "--before", "plan"], 4, "starts with what is planned"),
        (vec!["leaving", "--later"], 4, "last stop"),
        (vec!["sink", "--after", "talk"], 4, "there already"),
        (vec!["sink", "--before", "sink"], 4, "there already"),
        (vec!["sinc", "--earlier"], 3, "sink"),
        (vec!["sink", "--before", "nowhere"], 3, "nowhere"),
        (vec!["--as-listed"], 4, "already"),
    ] {
        let all: Vec<&str> = ["order", HOUSE].into_iter().chain(args).collect();
        let (found, words) = refused(dir, &all);
        assert!(found == code && words.contains(word), "{all:?}: {found} {words}");
    }
    // Where to is told with the usage.
    let nowhere = underlath(dir).args(["order", HOUSE, "sink"]).output().unwrap();
    let words = String::from_utf8_lossy(&nowhere.stderr).into_owned();
    assert!(nowhere.status.code() == Some(2) && words.contains("--earlier"), "{words}");
    assert!(stops(dir).starts_with(&["plan".to_owned(), "beforehand".to_owned()]));
}
