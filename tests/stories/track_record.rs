//! The office's track record and what its houses teach, as a person asks for them.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use super::steps::{CLASH, HOUSE, NOT_THERE, a_house, condition, json as ask, record, refuses, seal};
use crate::support::run;

fn receive(dir: &Path) {
    let packet = seal(dir);
    run(dir, &["receive", packet.to_str().unwrap()]);
}

/// P of a condition in the first packet's forecast, a second packet that knows more, findings, a third packet.
fn sealed_three_times(dir: &Path) -> [f64; 2] {
    a_house(dir);
    receive(dir);
    let first = ask(dir, &["compare", HOUSE]);
    let p = |id: &str| {
        let rows = first["rows"].as_array().unwrap();
        rows.iter().find(|r| r["condition"] == id).unwrap()["probability"].as_f64().unwrap()
    };
    let judged = [p("bulkhead-duct"), p("bulkhead-wires")];
    record(dir, "bulkhead-fitted", &["register"]);
    receive(dir);
    run(dir, &["finding", HOUSE, "bulkhead-duct", "found", "--cost", "1350", "--days", "1.5"]);
    run(dir, &["finding", HOUSE, "bulkhead-wires", "not-there"]);
    run(dir, &["finding", HOUSE, "bulkhead-drain", "not-opened"]);
    record(dir, "year-built", &["1931"]);
    receive(dir);
    judged
}

#[test]
fn a_house_is_judged_by_its_first_forecast_in_time_and_later_ones_stand_apart() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let [duct, wires] = sealed_three_times(dir);
    // The second packet moved the odds, or the test says nothing.
    let now = ask(dir, &["assess", HOUSE]);
    assert!((condition(&now, "bulkhead-duct")["probability"].as_f64().unwrap() - duct).abs() > 0.05);
    // Another house without a finding.
    run(dir, &["new", "Elm Street bath"]);
    run(dir, &["record", "Elm Street bath", "planned-work", "new-floor"]);
    let sealed = ask(dir, &["seal", "Elm Street bath", "--into", "out"]);
    run(dir, &["receive", dir.join(sealed["packet"].as_str().unwrap()).to_str().unwrap()]);

    let told = ask(dir, &["track", "--split", "condition"]);
    let all = &told["all"];
    assert_eq!((&all["opened"], &all["found"], &all["not_opened"]), (&json!(2), &json!(1), &json!(1)));
    assert_eq!(all["small"], json!(true));
    let by_hand = ((1.0 - duct) * (1.0 - duct) + wires * wires) / 2.0;
    let brier = all["scores"]["brier"].as_f64().unwrap();
    assert!((brier - by_hand).abs() < 1e-12, "{brier} {by_hand}");
    // Not everything is entered yet, so no sum is judged.
    assert_eq!(all["money"]["in_part"], Value::Null);
    let group = |name: &str| {
        let groups = told["groups"].as_array().unwrap();
        groups.iter().find(|g| g["name"] == name).unwrap()["record"].clone()
    };
    assert_eq!(group("bulkhead-drain")["not_opened"], json!(1));
    assert_eq!(group("bulkhead-drain")["scores"], Value::Null);
    assert_eq!(told["left_out"][0]["why"], "no-findings");
    assert_eq!(told["again"]["opened"], json!(2));
    assert_ne!(told["again"]["scores"]["brier"], all["scores"]["brier"]);

    for (by, name) in [("surveyor", "R. Ames"), ("era", "1960-1964"), ("scope", "deep-sink")] {
        let told = ask(dir, &["track", "--split", by]);
        let names: Vec<&str> =
            told["groups"].as_array().unwrap().iter().map(|g| g["name"].as_str().unwrap()).collect();
        assert!(names.contains(&name), "{by}: {names:?}");
    }
    let plain = run(dir, &["track", "--split", "scope", "--drawing", "record.svg"]);
    assert!(plain.contains("2 places opened, 1 found") && plain.contains("small numbers"), "{plain}");
    assert!(fs::read_to_string(dir.join("record.svg")).unwrap().starts_with("<svg"));
    let spanish = run(dir, &["track", "--language", "es"]);
    assert!(spanish.contains("2 lugares abiertos, 1 hallados"), "{spanish}");
}

#[test]
fn lines_that_houses_teach_are_taken_over_by_name_and_those_houses_are_not_counted_twice() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    sealed_three_times(dir);
    let before = ask(dir, &["track"]);
    let taught = ask(dir, &["learn"]);
    assert_eq!(taught["houses"].as_array().unwrap().len(), 1);
    assert_eq!(taught["held_out"], Value::Null, "one house cannot be held out");
    let lines = taught["lines"].as_array().unwrap();
    let duct = lines.iter().find(|l| l["id"] == "bulkhead-duct/prior").unwrap();
    assert_eq!((&duct["opened"], &duct["small"]), (&json!(1), &json!(true)));
    for n in duct["numbers"].as_array().unwrap() {
        assert!(n["new"].as_f64() > n["old"].as_f64(), "it was found: {n}");
    }
    let plain = run(dir, &["learn"]);
    assert!(plain.contains("bulkhead-duct/prior") && plain.contains("Nothing is changed"), "{plain}");
    refuses(
        dir,
        &["learn", "--accept", "bulkhead-duct/priors"],
        NOT_THERE,
        &["Did you mean “bulkhead-duct/prior”?"],
    );
    let overlay = dir.join("device/overlay/learned.toml");
    assert!(!overlay.exists());

    run(dir, &["learn", "--accept", "bulkhead-duct/prior"]);
    let text = fs::read_to_string(&overlay).unwrap();
    assert!(
        text.contains("[change.condition.bulkhead-duct.prior]") && !text.contains("bulkhead-wires"),
        "{text}"
    );
    let diff = run(dir, &["catalog", "diff"]);
    assert!(diff.contains("learned from 1 reviewed houses"), "{diff}");
    // Its weight stands in the numbers: the house teaches them no second time.
    assert_eq!(ask(dir, &["learn"])["houses"], json!([]));
    refuses(dir, &["learn", "--accept", "bulkhead-duct/prior"], NOT_THERE, &["no house to learn from"]);
    // The record stays: that forecast was made before anything was learned.
    assert_eq!(ask(dir, &["track"])["all"], before["all"]);

    // A number that the firm wrote in another file is not written twice.
    fs::rename(&overlay, dir.join("device/overlay/firm.toml")).unwrap();
    fs::remove_dir_all(dir.join("office/learned")).unwrap();
    refuses(dir, &["learn", "--accept", "bulkhead-duct/prior"], CLASH, &["firm.toml", "leave this line"]);
}
