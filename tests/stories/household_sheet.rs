//! The household's sheet: made before the visit, filled in, back as a file, recorded, and completed at the table.
//! The page itself is filled in by a browser in `ui/e2e/sheet.mjs`; here the file is written as the page writes it.

use std::path::Path;

use serde_json::{Value, json};

use super::steps::{self, CLASH, HOUSE, NOT_TAKEN, NOT_THERE, entries, record, row};
use crate::support::run;

fn answers(dir: &Path, args: &[&str]) -> Value {
    let all: Vec<&str> = ["sheet-answers", HOUSE].into_iter().chain(args.iter().copied()).collect();
    steps::json(dir, &all)
}

/// A house with a plan, and its sheet; what the page knows of itself.
fn sheet(dir: &Path) -> (String, String) {
    run(dir, &["new", HOUSE, "--contract", "80000"]);
    record(dir, "planned-work", &["deep-sink", "add-circuits"]);
    let told = run(dir, &["sheet", HOUSE, "--into", "mill.html", "--firm", "Hale & Daughter"]);
    assert!(told.contains("answers-mill-lane-kitchen.json"), "{told}");
    let page = std::fs::read_to_string(dir.join("mill.html")).unwrap();
    let data = |name: &str| {
        let from = format!("data-{name}=\"");
        page.split(&from).nth(1).and_then(|rest| rest.split('"').next()).unwrap().to_owned()
    };
    (data("survey"), data("catalog"))
}

fn file(dir: &Path, name: &str, (survey, catalog): &(String, String), given: &[(&str, Value)]) -> String {
    let one = |(item, is): &(&str, Value)| match is {
        Value::Null => json!({ "item": item, "words": "we will tell you" }),
        is => json!({ "item": item, "is": is }),
    };
    let file = json!({
        "form": "underlath household answers", "v": 1, "survey": survey, "catalog": catalog, "language": "en",
        "filled-on": "2026-04-10", "filled-by": "Dana", "remark": null,
        "answers": given.iter().map(one).collect::<Vec<_>>(),
    });
    std::fs::write(dir.join(name), file.to_string()).unwrap();
    name.to_owned()
}

#[test]
fn a_sheet_comes_back_as_answers_said_by_the_household_once_however_often_it_is_read() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let ids = sheet(dir);
    let given = [
        ("year-built", json!({ "number": "1962" })),
        ("gas-meter", json!("unsure")),
        ("who-home", json!({ "choices": ["child-under-6"] })),
        ("parking", Value::Null),
    ];
    let file = file(dir, "back.json", &ids, &given);
    let taken = answers(dir, &[&file]);
    assert_eq!(taken["by"], "household (Dana)");
    let items: Vec<&str> =
        taken["recorded"].as_array().unwrap().iter().map(|a| a["item"].as_str().unwrap()).collect();
    assert_eq!((items, &taken["remarks"]), (vec!["year-built", "gas-meter", "who-home"], &json!(1)));
    let at_the_table = taken["at_the_table"].to_string();
    assert!(at_the_table.contains("gas-meter") && at_the_table.contains("water-from"), "{at_the_table}");
    assert!(!at_the_table.contains("year-built"));

    assert_eq!(
        (row(dir, "year-built")["answer"].clone(), row(dir, "year-built")["by"].clone()),
        (json!("1962"), json!("household (Dana)"))
    );
    let before = entries(dir);
    let again = answers(dir, &[&file]);
    assert_eq!((&again["recorded"], &again["known"]), (&json!([]), &json!(4)));
    assert_eq!(entries(dir), before, "nothing was recorded twice");

    // The estimator's later answer corrects the household's, and the old file does not bring it back.
    record(dir, "year-built", &["1958"]);
    assert_eq!(answers(dir, &[&file])["recorded"], json!([]));
    let year = row(dir, "year-built");
    assert_eq!((&year["answer"], &year["by"]), (&json!("1958"), &json!("R. Ames")));
    // It counts: the assessment reads it like any other answer.
    let assessed = steps::json(dir, &["assess", HOUSE]);
    assert!(
        assessed["evidence"].as_array().unwrap().contains(&json!("year-built")),
        "{}",
        assessed["evidence"]
    );
}

#[test]
fn what_others_recorded_stands_and_what_the_household_said_before_is_corrected() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let ids = sheet(dir);
    record(dir, "water-from", &["well"]);
    record(dir, "sewer-kind", &["septic"]);
    record(dir, "heat-kind", &["can't tell"]);
    let first = [
        ("water-from", json!({ "choice": "city" })),
        ("sewer-kind", json!("unsure")),
        ("heat-kind", json!({ "choice": "ducts" })),
        ("pets-kept", json!({ "choice": "none" })),
    ];
    let taken = answers(dir, &[&file(dir, "first.json", &ids, &first)]);
    let of = |taken: &Value, item: &str| {
        taken["recorded"].as_array().unwrap().iter().find(|a| a["item"] == item).cloned().unwrap_or_default()
    };
    // Against what was seen: side by side, a disagreement, no evidence until settled.
    assert_eq!(of(&taken, "water-from")["against"], json!([{ "words": "well", "by": "R. Ames" }]));
    assert_eq!(row(dir, "water-from")["kind"], "disagreement");
    // Not sure contradicts nothing.
    assert_eq!(taken["stands"], json!(["sewer-kind"]));
    assert_eq!(row(dir, "sewer-kind")["answer"], "septic");
    // "Can't tell" is a gap, and the household fills it.
    assert_eq!(of(&taken, "heat-kind")["corrected"], 1);
    assert_eq!(row(dir, "heat-kind")["answer"], "ducts");

    // A later sheet corrects the household's own answer and leaves the estimator's alone.
    let second =
        [("pets-kept", json!({ "choice": "can-be-shut-away" })), ("water-from", json!({ "choice": "well" }))];
    let taken = answers(dir, &[&file(dir, "second.json", &ids, &second)]);
    assert_eq!(of(&taken, "pets-kept")["corrected"], 1);
    assert_eq!(row(dir, "pets-kept")["answer"], "can be shut away");
    let water = row(dir, "water-from");
    assert_ne!(water["kind"], "disagreement", "both now say well: {water}");
    assert_eq!(water["answer"], "well");
    // Somebody else may speak for them.
    let third = file(dir, "third.json", &ids, &[("alarms", json!({ "choice": "battery-only" }))]);
    assert_eq!(answers(dir, &[&third, "--by", "Dana Mill, on the phone"])["by"], "Dana Mill, on the phone");
}

#[test]
fn a_file_that_cannot_be_taken_is_refused_in_words_and_nothing_is_recorded() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let ids = sheet(dir);
    run(dir, &["new", "Heron Court"]);
    let before = entries(dir);
    let good = file(dir, "good.json", &ids, &[("year-built", json!({ "number": "1962" }))]);
    let refuses = |args: &[&str], code: i32, words: &[&str]| {
        let all: Vec<&str> = ["sheet-answers"].into_iter().chain(args.iter().copied()).collect();
        steps::refuses(dir, &all, code, words);
    };
    refuses(&["Heron Court", &good], CLASH, &["another house", "nothing was recorded"]);
    refuses(&[HOUSE, "nowhere.json"], NOT_THERE, &["nowhere.json"]);
    let bad = |name: &str, given: &[(&str, Value)]| file(dir, name, &ids, given);
    let item =
        bad("item.json", &[("year-built", json!({ "number": "1962" })), ("year-bilt", json!("unsure"))]);
    refuses(&[HOUSE, &item], NOT_TAKEN, &["year-bilt", "did you mean “year-built”?", "nothing was recorded"]);
    let option = bad("option.json", &[("water-from", json!({ "choice": "river" }))]);
    refuses(&[HOUSE, &option], NOT_TAKEN, &["river", "city, well"]);
    let measured = bad("measured.json", &[("stub-height", json!({ "number": "12" }))]);
    refuses(&[HOUSE, &measured], NOT_TAKEN, &["stub-height", "not asked on a sheet"]);
    std::fs::write(dir.join("torn.json"), &std::fs::read(dir.join("good.json")).unwrap()[..80]).unwrap();
    refuses(&[HOUSE, "torn.json"], NOT_TAKEN, &["cannot be read", "as it was saved"]);
    std::fs::write(dir.join("large.json"), vec![b' '; 300_000]).unwrap();
    refuses(&[HOUSE, "large.json"], NOT_TAKEN, &["more than a sheet's answers ever have"]);
    assert_eq!(entries(dir), before);
}

#[test]
fn a_sheet_of_another_catalog_gives_what_still_fits() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let mut ids = sheet(dir);
    ids.1 = "0".repeat(64);
    let given = [("year-built", json!({ "number": "1962" })), ("wine-cellar", json!({ "choice": "yes" }))];
    let name = file(dir, "older.json", &ids, &given);
    let told = run(dir, &["sheet-answers", HOUSE, &name]);
    for words in
        ["1 answer recorded", "another catalog", "not taken: wine-cellar = yes", "no item “wine-cellar”"]
    {
        assert!(told.contains(words), "“{words}” is missing in: {told}");
    }
}

#[test]
fn a_sheet_is_written_over_an_older_sheet_and_over_nothing_else() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    sheet(dir);
    run(dir, &["sheet", HOUSE, "--into", "mill.html", "--language", "es"]);
    assert!(std::fs::read_to_string(dir.join("mill.html")).unwrap().contains("<html lang=\"es\">"));
    std::fs::write(dir.join("letter.html"), "<!DOCTYPE html><p>Dear Ms. Mill").unwrap();
    steps::refuses(dir, &["sheet", HOUSE, "--into", "letter.html"], CLASH, &["letter.html", "left alone"]);
    assert!(std::fs::read_to_string(dir.join("letter.html")).unwrap().starts_with("<!DOCTYPE html><p>"));
    steps::refuses(dir, &["sheet", "nowhere", "--into", "x.html"], NOT_THERE, &["nowhere"]);
}
