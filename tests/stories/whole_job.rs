//! The whole job, as a person types it: the walk, the assessment, the packet, the office, the findings.

use std::path::Path;

use serde_json::{Value, json};
use survey::log::Body;

use super::steps::{HOUSE, condition, entries, json as ask, photo, record, row, seal};
use crate::support::run;

/// The walk: answers, a photograph, a correction, can't tell, could not reach, the result of a check.
fn walk(dir: &Path) {
    let picture = photo();
    run(dir, &["new", HOUSE, "--contract", "80000", "--days", "30"]);
    record(dir, "planned-work", &["remove-bulkhead", "deep-sink"]);
    record(dir, "year-built", &["1962"]);
    record(dir, "sink-mount", &["apron-front"]);
    record(dir, "bowl-depth", &["10"]);
    record(dir, "disposer-plan", &["yes"]);
    record(dir, "disposer-drop", &["can't tell"]);
    record(dir, "stub-datum", &["finished-floor"]);
    record(dir, "stub-height", &["21", "--photo", &picture]);
    let corrected = record(
        dir,
        "stub-height",
        &["19 3/8", "--tolerance", "1/4 in", "--reason", "tape had slipped", "--photo", &picture],
    );
    assert_eq!(corrected["corrected"], json!(1));
    record(dir, "base-floor", &["--could-not-reach", "full of paint tins"]);
    record(dir, "check-result", &["live-scan shows-it bulkhead-wires"]);
}

#[test]
fn a_correction_hides_the_first_reading_and_both_are_kept() {
    let dir = tempfile::tempdir().unwrap();
    walk(dir.path());
    let shown = row(dir.path(), "stub-height");
    assert_eq!(shown["answer"], "19-3/8\"");
    assert_eq!(shown["tolerance"], "±1/4\"");
    assert_eq!(
        (&shown["kind"], &shown["photos"], &shown["by"]),
        (&json!("answer"), &json!(1), &json!("R. Ames"))
    );
    // The first reading, 21, is in none of its words; the time of day may well hold those figures.
    let mut words = shown.clone();
    words.as_object_mut().unwrap().remove("at");
    assert!(!words.to_string().contains("21"), "{words}");
    assert_eq!(row(dir.path(), "disposer-drop")["kind"], "cant-tell");
    let unreached = row(dir.path(), "base-floor");
    assert_eq!(unreached["kind"], "could-not-reach");
    assert!(unreached["answer"].as_str().unwrap().contains("full of paint tins"));
    let plain = run(dir.path(), &["show", HOUSE]);
    let line = plain.lines().find(|l| l.trim_start().starts_with("stub-height")).unwrap();
    assert!(line.contains("19-3/8\"") && line.contains("[1 photo]") && !line.contains("21"), "{line}");

    let packet = packet::open(&seal(dir.path())).unwrap();
    let readings: Vec<_> = packet
        .entries()
        .iter()
        .filter_map(|e| match &e.body {
            Body::Answer(a) if a.item == "stub-height" => Some((e.id, a.clone())),
            _ => None,
        })
        .collect();
    assert_eq!(readings.len(), 2);
    let (first, second) = (&readings[0], &readings[1]);
    assert_eq!(first.1.entered.as_deref(), Some("21"));
    assert_eq!(second.1.entered.as_deref(), Some("19 3/8"));
    assert_eq!(second.1.corrects, vec![first.0]);
    assert_eq!(second.1.reason.as_deref(), Some("tape had slipped"));
    assert_eq!(first.1.photos, second.1.photos);
    let photos = packet.entries().iter().filter(|e| matches!(e.body, Body::Photo(_))).count();
    assert_eq!(photos, 1, "the same picture for the same item is one photograph");
    // opened, 11 answers, one photograph, sealed
    assert_eq!(entries(dir.path()), 14);
}

#[test]
fn the_assessment_rests_on_the_answers_and_leaves_out_what_is_not_known() {
    let dir = tempfile::tempdir().unwrap();
    walk(dir.path());
    let forecast = ask(dir.path(), &["assess", HOUSE]);
    let not_known: Vec<(&str, &str)> = forecast["not_known"]
        .as_array()
        .unwrap()
        .iter()
        .map(|n| (n["item"].as_str().unwrap(), n["why"].as_str().unwrap()))
        .collect();
    assert_eq!(
        not_known,
        vec![("disposer-drop", "can't tell"), ("base-floor", "could not reach: full of paint tins")]
    );
    let used = forecast["evidence"].as_array().unwrap();
    assert!(used.contains(&json!("year-built")) && used.contains(&json!("check-result")), "{used:?}");
    assert!(!used.contains(&json!("base-floor")) && !used.contains(&json!("disposer-drop")));

    let wires = condition(&forecast, "bulkhead-wires");
    assert!(wires["probability"].as_f64() > wires["era_base"].as_f64(), "the scanner showed it: {wires}");
    let because = wires["because"].as_array().unwrap();
    let check = because.iter().find(|r| r["item"] == "check-result").unwrap();
    assert!(check["decibans"].as_f64().unwrap() > 0.0);
    assert!(wires["caution"].as_str().unwrap().contains("licensed electrician"));

    let calculations = forecast["calculations"].as_array().unwrap();
    let drain = calculations.iter().find(|c| c["word"] == "sink-drain").unwrap();
    assert_eq!(drain["condition"], "drain-stub-high");
    assert!(
        drain["sentence"].as_str().unwrap().contains("19-3/8\""),
        "the corrected reading: {}",
        drain["sentence"]
    );
    assert!(drain["limits"].to_string().contains("IPC"), "{}", drain["limits"]);
    assert!(!drain["assumed"].as_array().unwrap().is_empty(), "the disposer's drop was not known");
    assert!(drain["picture"]["sink"]["stub"].as_f64() == Some(19.375), "{}", drain["picture"]);
    let stub = condition(&forecast, "drain-stub-high");
    assert_eq!(stub["measured_by"], "sink-drain");
    assert_eq!(stub["because"][0]["item"], "stub-height");

    let money = |key: &str| forecast["money"][key].as_i64().unwrap();
    assert!(0 < money("p50") && money("p50") < money("p80") && money("p80") < money("p90"));
    assert_eq!(forecast["contract"], json!(8_000_000));
    let sum: f64 = forecast["conditions"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|c| c["in_base_price"] == json!(false))
        .map(|c| c["probability"].as_f64().unwrap() * c["p_cost"].as_f64().unwrap())
        .sum();
    assert!(sum > 0.5, "an unsurveyed house of 1962 holds surprises: {sum}");
}

#[test]
fn what_is_next_names_open_items_and_looks_worth_their_minutes() {
    let dir = tempfile::tempdir().unwrap();
    walk(dir.path());
    let before = ask(dir.path(), &["next", HOUSE]);
    let asked: Vec<&str> =
        before["ask"].as_array().unwrap().iter().map(|a| a["item"].as_str().unwrap()).collect();
    assert!(
        !asked.is_empty() && !asked.contains(&"year-built") && !asked.contains(&"disposer-drop"),
        "{asked:?}"
    );
    let looks = before["look"].as_array().unwrap();
    assert!(!looks.is_empty());
    let worth: Vec<i64> = looks.iter().map(|l| l["net_per_minute"].as_i64().unwrap()).collect();
    assert!(worth.windows(2).all(|w| w[0] >= w[1]), "best first: {worth:?}");
    assert!(worth[0] > 0);
    let answer = record(dir.path(), asked[0], &["can't tell"]);
    assert_eq!(answer["corrected"], json!(0));
    let after = ask(dir.path(), &["next", HOUSE]);
    assert_ne!(after["ask"][0]["item"], before["ask"][0]["item"], "an answered item is not asked again");
}

#[test]
fn the_packet_is_received_once_and_each_finding_stands_beside_its_forecast() {
    let dir = tempfile::tempdir().unwrap();
    walk(dir.path());
    let assessed = ask(dir.path(), &["assess", HOUSE]);
    let path = seal(dir.path());
    let packet = path.to_str().unwrap();
    let verified = ask(dir.path(), &["verify", packet]);
    assert_eq!((&verified["whole"], &verified["packet"]["label"]), (&json!(true), &json!(HOUSE)));
    let sealed: Value = serde_json::from_slice(packet::open(&path).unwrap().assessment()).unwrap();
    assert_eq!(sealed["conditions"], assessed["conditions"], "sealing assesses the same log");
    assert_eq!(sealed["money"], assessed["money"]);

    let first = ask(dir.path(), &["receive", packet]);
    let second = ask(dir.path(), &["receive", packet]);
    assert_eq!((&first["first_time"], &second["first_time"]), (&json!(true), &json!(false)));
    assert_eq!(first["received_at"], second["received_at"]);
    assert_eq!(first["digest"], verified["sha256"]);
    let copies = std::fs::read_dir(dir.path().join("office/packets")).unwrap().count();
    assert_eq!(copies, 1);

    let found = ["--cost", "1350", "--days", "1.5", "--note", "tee lowered 5 in", "--photo", &photo()];
    let args: Vec<&str> =
        ["finding", HOUSE, "drain-stub-high", "found"].into_iter().chain(found.iter().copied()).collect();
    let entered = ask(dir.path(), &args);
    assert!(entered["finding"]["photo"].is_string());
    ask(dir.path(), &["finding", HOUSE, "bulkhead-duct", "not-there"]);
    ask(dir.path(), &["finding", HOUSE, "bulkhead-wires", "not-opened"]);

    let comparison = ask(dir.path(), &["compare", HOUSE]);
    let rows = comparison["rows"].as_array().unwrap();
    let forecast = sealed["conditions"].as_array().unwrap();
    assert_eq!(rows.len(), forecast.len());
    for (row, c) in rows.iter().zip(forecast) {
        assert_eq!((&row["condition"], &row["probability"]), (&c["id"], &c["probability"]));
        assert_eq!(row["era_base"], c["era_base"]);
    }
    let row = |id: &str| rows.iter().find(|r| r["condition"] == id).unwrap();
    let drain = row("drain-stub-high");
    assert_eq!((&drain["outcome"], &drain["cost"]), (&json!("found"), &json!(135_000)));
    assert_eq!(drain["note"], "tee lowered 5 in");
    assert_eq!(row("bulkhead-duct")["outcome"], "not-there");
    assert_eq!(row("bulkhead-wires")["outcome"], "not-opened");
    assert_eq!(row("bulkhead-beam")["outcome"], Value::Null);

    // Two were opened. What was not opened, however likely, is in no score.
    let (hit, absent) =
        (drain["probability"].as_f64().unwrap(), row("bulkhead-duct")["probability"].as_f64().unwrap());
    let brier = ((1.0 - hit).powi(2) + absent.powi(2)) / 2.0;
    let log = -(hit.ln() + (1.0 - absent).ln()) / 2.0;
    let scores = &comparison["scores"];
    assert_eq!((&scores["n"], &scores["found"]), (&json!(2), &json!(1)));
    assert!((scores["brier"].as_f64().unwrap() - brier).abs() < 1e-6, "{scores} {brier}");
    assert!((scores["log_score"].as_f64().unwrap() - log).abs() < 1e-5, "{scores} {log}");
    assert_eq!(comparison["open"].as_u64(), Some(rows.len() as u64 - 3));
    assert_eq!(comparison["not_opened"].as_u64(), Some(rows.len() as u64 - 2));
    assert_eq!(
        (&comparison["money"]["actual"], &comparison["money_late"]),
        (&json!(135_000), &json!(135_000))
    );
    assert_eq!(comparison["money"]["p80"], sealed["money"]["p80"]);
    assert_eq!(comparison["days"]["actual"], json!(1.5));
    let plain = run(dir.path(), &["compare", HOUSE]);
    assert!(plain.contains("2 opened, 1 found") && plain.contains("tee lowered 5 in"), "{plain}");
}

#[test]
fn a_second_sealing_is_a_second_packet_and_the_first_stays() {
    let dir = tempfile::tempdir().unwrap();
    walk(dir.path());
    let first = seal(dir.path());
    let bytes = std::fs::read(&first).unwrap();
    record(dir.path(), "year-built", &["1958"]);
    let second = seal(dir.path());
    assert_ne!(first, second);
    assert_eq!(std::fs::read(&first).unwrap(), bytes);
    for (path, number) in [(&first, 1), (&second, 2)] {
        assert_eq!(ask(dir.path(), &["receive", path.to_str().unwrap()])["number"], json!(number));
    }
    // Judged by the last forecast received before the first finding.
    ask(dir.path(), &["finding", HOUSE, "bulkhead-duct", "not-there"]);
    let judged = ask(dir.path(), &["compare", HOUSE])["forecast"].clone();
    let sealed = packet::open(&second).unwrap();
    assert_eq!(judged, json!(survey::Digest::of(sealed.assessment()).to_string()));
}
