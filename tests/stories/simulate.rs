//! Invented houses as a person meets them: lines for a script, a device to open, an office to compare at.

use serde_json::Value;

use super::steps::{CLASH, NOT_TAKEN, NOT_THERE, json, refuses};
use crate::support::run;

fn lines(dir: &std::path::Path, args: &[&str]) -> Vec<Value> {
    let all: Vec<&str> = ["--json", "simulate"].into_iter().chain(args.iter().copied()).collect();
    run(dir, &all).lines().map(|l| serde_json::from_str(l).unwrap()).collect()
}

#[test]
fn a_script_gets_one_house_a_line_and_the_same_ones_again() {
    let dir = tempfile::tempdir().unwrap();
    let three = lines(dir.path(), &["--houses", "3", "--seed", "5"]);
    assert_eq!(three.len(), 3);
    for (n, house) in (1..).zip(&three) {
        assert_eq!(house["invented"], true);
        assert_eq!(house["label"], format!("Invented house 5-{n}"));
        assert!(house["note"].as_str().unwrap().contains("made up by chance"));
        assert!(house["conditions"].as_object().unwrap().len() > 20);
    }
    assert_eq!(lines(dir.path(), &["--houses", "2", "--seed", "5"]), three[..2]);
    assert_ne!(lines(dir.path(), &["--houses", "1", "--seed", "6"]), three[..1]);
    assert!(!dir.path().join("device").exists(), "nothing was kept");
    let told = run(dir.path(), &["simulate", "--houses", "5", "--seed", "5"]);
    assert!(told.contains("5 invented houses of seed 5") && told.contains("P50, P80, P90"), "{told}");
}

#[test]
fn a_device_with_invented_houses_opens_like_any_other_and_its_office_compares() {
    let dir = tempfile::tempdir().unwrap();
    let made = json(dir.path(), &["simulate", "--houses", "2", "--seed", "5", "--into", ".", "--sealed"]);
    assert_eq!((made["houses"].as_u64(), made["device"].as_str()), (Some(2), Some("./device")));
    let check = json(dir.path(), &["check"]);
    assert_eq!(check["problems"], serde_json::json!([]));
    assert_eq!(check["entries"], made["entries"]);
    let house = "Invented house 5-2";
    let houses = std::fs::read_to_string(dir.path().join("houses.jsonl")).unwrap();
    let truth: Value = serde_json::from_str(houses.lines().nth(1).unwrap()).unwrap();
    // Every answer stands in the log as it was drawn.
    let view = json(dir.path(), &["show", house]);
    let rows: usize =
        view["stations"].as_array().unwrap().iter().map(|s| s["rows"].as_array().unwrap().len()).sum();
    assert_eq!(rows, truth["walk"].as_array().unwrap().len());
    let shown = run(dir.path(), &["show", house]);
    assert!(shown.contains("An invented house: number 2 of seed 5"), "{shown}");
    // The forecast is held against what was found.
    let compared = json(dir.path(), &["compare", house]);
    let found = truth["findings"].as_array().unwrap();
    let outcome = |id: &str| found.iter().find(|f| f["condition"] == id).map(|f| f["outcome"].clone());
    for row in compared["rows"].as_array().unwrap() {
        assert_eq!(Some(row["outcome"].clone()), outcome(row["condition"].as_str().unwrap()), "{row}");
    }
    // Recording goes on as in any house.
    run(dir.path(), &["record", house, "wall-face", "drywall"]);

    // The folder is the simulation's, and made anew.
    let again = json(dir.path(), &["simulate", "--houses", "1", "--seed", "9", "--into", "."]);
    assert_eq!(again["houses"], 1);
    let card = json(dir.path(), &["show"]);
    assert_eq!(card.as_array().unwrap().len(), 1);
}

#[test]
fn a_truth_that_disagrees_is_drawn_written_down_and_taken_again_from_its_file() {
    let dir = tempfile::tempdir().unwrap();
    json(dir.path(), &["simulate", "--houses", "2", "--seed", "5", "--wrong-by", "2", "--into", "wrong"]);
    let kept = std::fs::read_to_string(dir.path().join("wrong/houses.jsonl")).unwrap();
    let again = lines(dir.path(), &["--houses", "2", "--seed", "5", "--truth", "wrong/truth.toml"]);
    let kept: Vec<Value> = kept.lines().map(|l| serde_json::from_str(l).unwrap()).collect();
    assert_eq!(kept, again);
    assert_ne!(kept, lines(dir.path(), &["--houses", "2", "--seed", "5"]));
    // The folder of another catalog, here a copy with one number changed.
    let other = dir.path().join("other");
    crate::support::copy_folder(&crate::support::root().join("catalog"), &other);
    let file = other.join("conditions/structure.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    std::fs::write(&file, text.replacen("to-1939 = 0.4\n", "to-1939 = 0.6\n", 1)).unwrap();
    let drawn = lines(dir.path(), &["--houses", "1", "--seed", "5", "--truth", "other"]);
    assert_ne!(drawn[0]["note"], again[0]["note"]);
}

#[test]
fn drawn_photographs_load_a_device_and_no_two_are_alike() {
    let dir = tempfile::tempdir().unwrap();
    let made =
        json(dir.path(), &["simulate", "--houses", "2", "--seed", "5", "--into", ".", "--photographs", "3"]);
    assert_eq!(made["photographs"], 6);
    let check = json(dir.path(), &["check"]);
    assert_eq!((&check["problems"], &check["entries"]), (&serde_json::json!([]), &made["entries"]));
    assert_eq!(check["photos"], 6, "{check}");
    let cards = json(dir.path(), &["show"]);
    let photos: Vec<&Value> = cards.as_array().unwrap().iter().map(|card| &card["photos"]).collect();
    assert_eq!(photos, [3, 3]);
}

#[test]
fn what_cannot_be_simulated_is_refused_and_a_folder_of_somebody_else_is_left_alone() {
    let dir = tempfile::tempdir().unwrap();
    let here = dir.path();
    refuses(here, &["simulate", "--truth", "nowhere"], NOT_THERE, &["nowhere"]);
    std::fs::write(here.join("factors.toml"), "[odds]\nfloor-sagg = 2.0\n").unwrap();
    refuses(here, &["simulate", "--truth", "factors.toml"], NOT_TAKEN, &["floor-sagg", "floor-sag"]);
    refuses(here, &["simulate", "--wrong-by", "1000"], NOT_TAKEN, &["between 0.01 and 100"]);
    std::fs::write(here.join("habits.toml"), "plan = 3").unwrap();
    refuses(here, &["simulate", "--habits", "habits.toml"], NOT_TAKEN, &["habits", "line 1"]);
    let others = here.join("others");
    std::fs::create_dir(&others).unwrap();
    std::fs::write(others.join("letter.txt"), "mine").unwrap();
    refuses(here, &["simulate", "--into", "others"], CLASH, &["others", "did not make", "--into"]);
    assert_eq!(std::fs::read_to_string(others.join("letter.txt")).unwrap(), "mine");
}
