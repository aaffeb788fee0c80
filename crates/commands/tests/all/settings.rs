//! The settings of a device, as the screens read and set them.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use std::fs;

use crate::support::{ask, place, world};
use actions::CatalogFiles;
use commands::{Place, Refused};
use serde_json::{Value, json};
use tempfile::tempdir;

fn set(place: &Place, setting: &str, value: &str) -> Result<Value, Refused> {
    ask(place, "set", json!({ "setting": setting, "value": value }))
}

fn codes(settings: &Value, family: &str) -> Value {
    let all = settings["codes"].as_array().unwrap();
    all.iter().find(|one| one["family"] == family).unwrap().clone()
}

#[test]
fn what_is_set_is_there_when_the_program_starts_again_and_nothing_goes_back() {
    let folder = tempdir().unwrap();
    let first = place(folder.path());
    let fresh = ask(&first, "settings", json!({})).unwrap();
    let kept = |s: &Value| {
        ["firm", "by", "device", "language", "light", "metric", "tolerance"].map(|n| s[n].clone())
    };
    let empty = [json!(""), json!(""), json!(""), Value::Null, Value::Null, json!(false), json!("1/8\"")];
    assert_eq!(kept(&fresh), empty);
    for (setting, value) in [
        ("firm", " Hale & Daughter "),
        ("by", "Rosa Lind"),
        ("device", "tablet with the cracked corner"),
        ("language", "es"),
        ("light", "dark"),
        ("unit", "mm"),
        ("tolerance", "1/4\""),
    ] {
        set(&first, setting, value).unwrap();
    }
    drop(first);
    let second = place(folder.path());
    let screens = ask(&second, "screens", json!({})).unwrap();
    assert_eq!(screens, json!({ "language": "es", "light": "dark" }), "what the screens begin with");
    let there = kept(&ask(&second, "settings", json!({})).unwrap());
    let tablet = "tablet with the cracked corner";
    assert_eq!(
        there,
        [
            json!("Hale & Daughter"),
            json!("Rosa Lind"),
            json!(tablet),
            json!("es"),
            json!("dark"),
            json!(true),
            json!("1/4\"")
        ]
    );
    for setting in ["firm", "address", "by", "device", "language", "light", "unit", "tolerance"] {
        set(&second, setting, "").unwrap();
    }
    assert_eq!(kept(&ask(&second, "settings", json!({})).unwrap()), empty);
}

#[test]
fn a_setting_there_is_none_of_and_a_value_it_cannot_have_change_nothing() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let before = ask(&place, "settings", json!({})).unwrap();
    for (setting, value, kind) in [
        ("language", "fr", "input"),
        ("light", "bright", "input"),
        ("unit", "cubit", "input"),
        ("tolerance", "1/3\"", "input"),
        ("firm", &"long ".repeat(40), "input"),
        ("by", "two\nlines", "input"),
        ("color", "red", "missing"),
        ("codes-cooking", "upc-2012", "input"),
        ("codes-plumbing", "upc-2102", "missing"),
        ("codes-plumbing", "nec-2023", "missing"),
    ] {
        let refused = set(&place, setting, value).unwrap_err();
        assert_eq!(refused.kind, kind, "{setting} {value}: {refused:?}");
        assert!(refused.hint.is_some(), "{setting} {value}: {refused:?}");
    }
    assert_eq!(ask(&place, "settings", json!({})).unwrap(), before);
    assert!(!folder.path().join("overlay").exists());
}

#[test]
fn the_keypad_of_a_new_house_begins_as_it_is_set_and_then_as_it_was_left() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    set(&place, "unit", "mm").unwrap();
    set(&place, "tolerance", "1/4\"").unwrap();
    let new =
        json!({ "label": "Mill Lane kitchen", "within": 0, "planned": ["deep-sink"], "by": "Rosa Lind" });
    let survey = ask(&place, "start-house", new).unwrap()["survey"].clone();
    let card =
        |key: &str| ask(&place, "walk", json!({ "survey": survey, "key": key })).unwrap()["card"].clone();
    let first = card("bowl-depth");
    assert_eq!((&first["metric"], &first["tolerance"]), (&json!(true), &json!("1/4\"")));
    let answer = json!({ "survey": survey, "key": "bowl-depth", "answer": ["10\""], "tolerance": "1/16 in" });
    ask(&place, "answer", answer).unwrap();
    let next = card("stub-height");
    assert_eq!((&next["metric"], &next["tolerance"]), (&json!(false), &json!("1/16\"")));
}

#[test]
fn a_chosen_book_is_in_the_catalog_its_digest_and_the_next_program_and_can_be_opened_again() {
    let folder = tempdir().unwrap();
    let first = place(folder.path());
    let before = ask(&first, "settings", json!({})).unwrap();
    let plumbing = codes(&before, "plumbing");
    assert_eq!((&plumbing["chosen"], &plumbing["fixed"]), (&Value::Null, &json!(false)));
    assert_eq!(codes(&before, "gas")["fixed"], json!(true), "there is one book of it");
    let after = set(&first, "codes-plumbing", "upc-2012").unwrap();
    set(&first, "codes-electrical", "nec-2023").unwrap();
    assert_eq!(codes(&after, "plumbing")["chosen"], "upc-2012");
    assert_ne!(after["catalog"], before["catalog"], "another catalog has another digest");
    drop(first);
    let second = place(folder.path());
    let there = ask(&second, "settings", json!({})).unwrap();
    assert_eq!(codes(&there, "plumbing")["chosen"], "upc-2012");
    assert_eq!(codes(&there, "electrical")["chosen"], "nec-2023");
    set(&second, "codes-plumbing", "").unwrap();
    let open = set(&second, "codes-electrical", "").unwrap();
    assert_eq!(open["catalog"], before["catalog"]);
    assert_eq!(fs::read_dir(folder.path().join("overlay")).unwrap().count(), 0);
}

#[test]
fn what_the_firms_catalog_says_or_the_start_named_is_not_chosen_here() {
    let folder = tempdir().unwrap();
    let overlay = folder.path().join("overlay");
    fs::create_dir(&overlay).unwrap();
    let firm = "basis = \"firm\"\nreason = \"the county\"\n\n[change.adopted]\nplumbing = \"ipc-2021\"\n";
    fs::write(overlay.join("firm.toml"), firm).unwrap();
    let first = place(folder.path());
    let there = ask(&first, "settings", json!({})).unwrap();
    assert_eq!(codes(&there, "plumbing")["fixed"], json!(true));
    assert_eq!(set(&first, "codes-plumbing", "upc-2012").unwrap_err().kind, "conflict");
    // What it leaves open may be chosen beside it.
    let both = set(&first, "codes-electrical", "nec-2020").unwrap();
    assert_eq!(codes(&both, "plumbing")["chosen"], "ipc-2021");
    assert_eq!(codes(&both, "electrical")["chosen"], "nec-2020");
    let other = tempdir().unwrap();
    let named = Place::new(Some(other.path().to_owned()), world()).by_catalog(CatalogFiles::default());
    assert!(codes(&ask(&named, "settings", json!({})).unwrap(), "electrical")["fixed"].as_bool().unwrap());
    assert_eq!(set(&named, "codes-electrical", "nec-2020").unwrap_err().kind, "conflict");
}
