//! The firm's overlay in the home of the device is what the screens walk by.
#![allow(clippy::unwrap_used, reason = "tests")]

use std::fs;

use crate::support::{ask, place};
use actions::OVERLAY_FOLDER;
use serde_json::json;

#[test]
fn the_overlay_in_the_home_is_what_the_screens_walk_by() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().join(OVERLAY_FOLDER);
    fs::create_dir(&folder).unwrap();
    let question = "In which year was this house put up?";
    let text = format!("[change.item.year-built]\nquestion = \"{question}\"\nreason = \"our own words\"\n");
    fs::write(folder.join("firm.toml"), text).unwrap();
    let place = place(dir.path());
    let start = json!({ "label": "Mill Lane", "year": "1962", "within": 5, "planned": ["deep-sink"] });
    let walk = ask(&place, "start-house", start).unwrap();
    let card = ask(&place, "walk", json!({ "survey": walk["survey"], "key": "year-built" })).unwrap();
    assert!(card.to_string().contains(question), "{card}");
}

#[test]
fn a_fault_of_the_overlay_is_told_with_file_and_line_until_it_is_mended() {
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join(OVERLAY_FOLDER).join("firm.toml");
    fs::create_dir(file.parent().unwrap()).unwrap();
    fs::write(&file, "[change.item.year-bulit]\nwhy = \"because\"\nreason = \"ours\"\n").unwrap();
    let place = place(dir.path());
    let refused = ask(&place, "houses", json!({})).unwrap_err();
    assert_eq!(refused.kind, "input");
    let told = [file.display().to_string() + ":1", "year-built".to_owned()];
    assert!(told.iter().all(|t| refused.message.contains(t)), "{}", refused.message);
    fs::write(&file, "").unwrap();
    assert_eq!(ask(&place, "houses", json!({})).unwrap(), json!([]));
}
