//! What the screens are answered before there is anything to answer, and when something is wrong.
#![allow(clippy::unwrap_used, reason = "a test")]

use crate::support::{ask, place, world};
use commands::Place;
use serde_json::json;
use tempfile::tempdir;

#[test]
fn a_new_device_has_no_houses() {
    let folder = tempdir().unwrap();
    let place = place(&folder.path().join("records"));
    assert_eq!(ask(&place, "houses", json!({})).unwrap(), json!([]));
    assert_eq!(ask(&place, "left", json!({})).unwrap(), json!({ "survey": null }));
}

#[test]
fn a_house_that_is_not_there_is_refused_as_missing() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    for name in ["house", "walk", "look-next", "leaving", "undo", "assess"] {
        let refused = ask(&place, name, json!({ "survey": "nowhere" })).unwrap_err();
        assert_eq!(refused.kind, "missing", "{name}");
        assert!(refused.message.contains("nowhere"), "{}", refused.message);
    }
}

#[test]
fn without_a_folder_it_says_which_one_to_name() {
    let refused = Place::new(None, world()).ask("en", "houses", json!({})).unwrap_err();
    assert_eq!(refused.kind, "input");
    assert!(refused.hint.unwrap().contains("UNDERLATH_HOME"));
}

#[test]
fn a_damaged_record_is_refused_and_read_again_once_it_is_put_back() {
    let folder = tempdir().unwrap();
    let file = folder.path().join("underlath.sqlite");
    ask(&place(folder.path()), "houses", json!({})).unwrap();
    let whole = std::fs::read(&file).unwrap();

    std::fs::write(&file, b"not a database, but long enough to be looked at as one").unwrap();
    let place = place(folder.path());
    let refused = ask(&place, "houses", json!({})).unwrap_err();
    assert!(["damaged", "conflict"].contains(&refused.kind), "{refused:?}");
    assert!(refused.hint.is_some(), "{refused:?}");

    std::fs::write(&file, whole).unwrap();
    assert_eq!(ask(&place, "houses", json!({})).unwrap(), json!([]));
}

#[test]
fn the_screens_read_kind_message_and_hint() {
    let error = actions::Error::new(actions::Kind::Damaged, "it is torn").hint("put back the copy");
    let told = serde_json::to_value(commands::Refused::new(&error, words::Words::of(words::Language::En)));
    assert_eq!(
        told.unwrap(),
        json!({ "kind": "damaged", "message": "it is torn", "hint": "put back the copy" })
    );
}

#[test]
fn a_refusal_is_said_in_the_language_of_the_screens() {
    let refused = Place::new(None, world()).ask("es", "houses", json!({})).unwrap_err();
    assert_eq!(refused.kind, "input");
    assert_eq!(refused.message, "no hay carpeta para los registros");
}

#[test]
fn a_name_or_arguments_that_are_none_are_refused_by_name() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let refused = ask(&place, "erase", json!({})).unwrap_err();
    assert_eq!((refused.kind, refused.message.contains("erase")), ("missing", true), "{refused:?}");
    for args in [json!({}), json!({ "survey": 3 }), json!({ "survey": "a", "more": 1 }), json!(null)] {
        let refused = ask(&place, "walk", args.clone()).unwrap_err();
        assert_eq!((refused.kind, refused.message.contains("walk")), ("input", true), "{args} {refused:?}");
    }
}

#[test]
fn every_command_has_its_own_name() {
    let mut names: Vec<&str> = commands::COMMANDS.iter().map(|c| c.name).collect();
    names.sort_unstable();
    let all = names.len();
    names.dedup();
    assert_eq!(names.len(), all);
}
