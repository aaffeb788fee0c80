//! Taking back on one of two tablets: what another one recorded is never taken back, and a disagreement comes back whole.
#![allow(clippy::unwrap_used, reason = "a test")]

use std::path::Path;

use crate::support::{ask, place, world};
use actions::{Desk, Kit, builtin_catalog, merge};
use serde_json::{Value, json};
use tempfile::tempdir;

fn desk(folder: &Path) -> Desk {
    let mut world = world();
    let mut kit = Kit { clock: &*world.clock, random: &mut *world.random, by: String::new() };
    Desk::open(folder, builtin_catalog().unwrap(), &mut kit).unwrap()
}

/// Brings to one tablet what another has of a house.
fn bring(from: &Path, to: &Path, survey: &str) {
    let from = desk(from);
    let entries = from.store().entries(from.find(survey).unwrap()).unwrap();
    merge(&mut desk(to), &entries).unwrap();
}

fn rivals(walk: &Value) -> Vec<&str> {
    let rivals = walk["card"]["standing"]["rivals"].as_array().unwrap().iter();
    let mut said: Vec<&str> = rivals.map(|r| r["answer"].as_str().unwrap()).collect();
    said.sort_unstable();
    said
}

#[test]
fn a_disagreement_that_was_settled_stands_again_when_that_is_taken_back() {
    let [one, two] = [tempdir().unwrap(), tempdir().unwrap()];
    let (first, second) = (place(one.path()), place(two.path()));
    let start = json!({ "label": "Mill Lane kitchen", "within": null, "planned": ["deep-sink"] });
    let walk = ask(&first, "start-house", start).unwrap();
    let survey = walk["survey"].as_str().unwrap();
    bring(one.path(), two.path(), survey);
    let answer = |value: &str| json!({ "survey": survey, "key": "sink-mount", "answer": [value] });
    ask(&first, "answer", answer("drop-in")).unwrap();
    ask(&second, "answer", answer("undermount")).unwrap();
    bring(two.path(), one.path(), survey);

    let card = json!({ "survey": survey, "key": "sink-mount" });
    let walk = ask(&first, "walk", card.clone()).unwrap();
    assert_eq!(rivals(&walk), ["drop in", "undermount"]);
    ask(&first, "answer", answer("undermount")).unwrap();
    let walk = ask(&first, "walk", card).unwrap();
    assert!(rivals(&walk).is_empty());

    let done = ask(&first, "undo", json!({ "survey": survey })).unwrap();
    assert_eq!(done["walk"]["card"]["standing"]["kind"], "disagreement");
    assert_eq!(rivals(&done["walk"]), ["drop in", "undermount"]);
    // One act was taken back, and the one before it is the next to go.
    assert_eq!(done["walk"]["undo"]["said"], "drop in");
}

#[test]
fn what_another_tablet_answered_since_is_not_taken_back() {
    let [one, two] = [tempdir().unwrap(), tempdir().unwrap()];
    let (first, second) = (place(one.path()), place(two.path()));
    let start = json!({ "label": "Mill Lane kitchen", "within": null, "planned": ["deep-sink"] });
    let walk = ask(&first, "start-house", start).unwrap();
    let survey = walk["survey"].as_str().unwrap();
    let answer = |value: &str| json!({ "survey": survey, "key": "sink-mount", "answer": [value] });
    ask(&first, "answer", answer("drop-in")).unwrap();
    bring(one.path(), two.path(), survey);
    ask(&second, "answer", answer("undermount")).unwrap();
    bring(two.path(), one.path(), survey);
    let refused = ask(&first, "undo", json!({ "survey": survey })).unwrap_err();
    assert_eq!(refused.kind, "conflict", "{refused:?}");
    assert!(refused.message.contains("R. Ames"), "{refused:?}");
    let walk = ask(&first, "walk", json!({ "survey": survey, "key": "sink-mount" })).unwrap();
    assert_eq!(walk["card"]["standing"]["answer"], "undermount");
}
