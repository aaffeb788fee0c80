//! The log of a house is kept between touches; what is shown is what lies on the disk all the same.
#![allow(clippy::unwrap_used, reason = "a test")]

use std::path::Path;

use crate::support::{ask, place, started, survey};
use commands::Place;
use serde_json::{Value, json};
use tempfile::tempdir;

/// What each of two doors shows of a house: one that has been open, and one opened now, which reads everything anew.
fn shows_what_is_there(open: &Place, folder: &Path, survey: &str, after: &str) -> Value {
    let shown = |place: &Place, name: &str| ask(place, name, json!({ "survey": survey })).unwrap();
    let anew = place(folder);
    for name in ["house", "money-now", "walk"] {
        assert_eq!(shown(open, name), shown(&anew, name), "{name} after {after}");
    }
    shown(open, "walk")
}

#[test]
fn every_act_is_shown_as_a_door_opened_afterwards_shows_it() {
    let folder = tempdir().unwrap();
    let open = place(folder.path());
    let survey = survey(&started(&open));
    shows_what_is_there(&open, folder.path(), &survey, "the start");
    let acts = [
        ("answer", json!({ "survey": survey, "key": "bulkhead-under", "answer": ["bath-fixtures"] })),
        ("remark", json!({ "survey": survey, "key": "bulkhead-under", "text": "stained at the corner" })),
        (
            "answer",
            json!({ "survey": survey, "key": "bulkhead-under", "answer": ["beam-line"], "reason": "looked again" }),
        ),
        ("undo", json!({ "survey": survey })),
        ("undo", json!({ "survey": survey })),
        ("assess", json!({ "survey": survey })),
        ("answer", json!({ "survey": survey, "key": "bulkhead-under", "couldNotReach": "locked" })),
        ("assess", json!({ "survey": survey })),
        ("declare-demolition", json!({ "survey": survey, "reason": "walls open" })),
        ("withdraw-demolition", json!({ "survey": survey, "reason": "wrong house" })),
    ];
    let mut before = Value::Null;
    for (name, args) in acts {
        ask(&open, name, args).unwrap();
        let now = shows_what_is_there(&open, folder.path(), &survey, name);
        assert_ne!(now, before, "{name} shows");
        before = now;
    }
}

#[test]
fn what_another_program_records_meanwhile_is_seen_at_once() {
    let folder = tempdir().unwrap();
    let (one, other) = (place(folder.path()), place(folder.path()));
    let survey = survey(&started(&one));
    let answered = |place: &Place| {
        let walk = ask(place, "walk", json!({ "survey": survey })).unwrap();
        walk["answered"].as_u64().unwrap()
    };
    let first = answered(&one);
    assert_eq!(answered(&other), first);
    let answer = |key: &str, option: &str| json!({ "survey": survey, "key": key, "answer": [option] });
    ask(&other, "answer", answer("bulkhead-under", "bath-fixtures")).unwrap();
    assert_eq!(answered(&one), first + 1);
    ask(&one, "answer", answer("sink-mount", "apron-front")).unwrap();
    assert_eq!((answered(&one), answered(&other)), (first + 2, first + 2));
    // The walk ends for both.
    ask(&other, "declare-demolition", json!({ "survey": survey, "reason": "walls open" })).unwrap();
    assert!(ask(&one, "walk", json!({ "survey": survey })).unwrap()["demolition"].is_object());
    assert!(ask(&one, "answer", answer("bulkhead-under", "beam-line")).is_err());
}
