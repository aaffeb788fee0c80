//! Demolition is declared: the walk is over on every tablet, what is sealed afterwards is never judged, and a slip of the
//! finger can be withdrawn.

use std::path::Path;

use serde_json::{Value, json};

use super::steps::{
    CLASH, HOUSE, NOT_TAKEN, NOT_THERE, a_house, condition, entries, json as ask, photo, record, refuses,
    row, seal,
};
use crate::support::{run, sample_photo};

/// Every act of a walk, as somebody would try it.
fn acts(photo: &str, digest: &str) -> Vec<Vec<String>> {
    let lines: [&[&str]; 9] = [
        &["record", HOUSE, "bulkhead-fitted", "register"],
        &["record", HOUSE, "stub-height", "23"],
        &["note", HOUSE, "wet behind the sink"],
        &["photo", HOUSE, photo, "--caption", "the open wall"],
        &["photo", "mark", HOUSE, digest, "--ring", "10,20", "30,40"],
        &["place", HOUSE, "bulkhead", "Soffit over the range"],
        &["order", HOUSE, "gas", "--before", "sink"],
        &["undo", HOUSE],
        &["next", HOUSE],
    ];
    lines.iter().map(|line| line.iter().map(|word| (*word).to_owned()).collect()).collect()
}

/// What a forecast says, but for when it was made.
fn assessed(dir: &Path) -> Value {
    let mut told = ask(dir, &["assess", HOUSE]);
    told.as_object_mut().unwrap().remove("made_at");
    told
}

fn receive(dir: &Path) -> Value {
    ask(dir, &["receive", seal(dir).to_str().unwrap()])
}

#[test]
fn once_it_is_declared_every_act_of_the_walk_is_refused_and_the_forecast_stays_as_it_was() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["record", HOUSE, "sink-mount", "apron-front", "--photo", &photo()]);
    let digest = survey::Digest::of(&std::fs::read(sample_photo()).unwrap()).to_string();
    let before = assessed(dir);
    let told = run(dir, &["demolition", HOUSE, "--reason", "north wall, from the pantry"]);
    assert!(told.contains("a finding"), "{told}");
    let held = entries(dir);

    let other = dir.join("other.jpg");
    let mut bytes = std::fs::read(sample_photo()).unwrap();
    bytes.extend_from_slice(b"another photograph");
    std::fs::write(&other, bytes).unwrap();
    for act in acts(other.to_str().unwrap(), &digest) {
        let words: Vec<&str> = act.iter().map(String::as_str).collect();
        let said = refuses(dir, &words, CLASH, &["R. Ames declared demolition", "underlath finding"]);
        assert!(said.contains("--withdraw"), "it says how a slip is mended: {said}");
    }
    for verb in ["leave", "suppose"] {
        let mut words = vec![verb, HOUSE];
        words.extend(if verb == "suppose" { &["--answer", "year-built", "1931"][..] } else { &[] });
        refuses(dir, &words, CLASH, &["declared demolition"]);
    }
    assert_eq!(entries(dir), held, "nothing was recorded");
    assert_eq!(assessed(dir), before, "evidence, log and every number");
    refuses(dir, &["demolition", HOUSE], CLASH, &["R. Ames has declared demolition"]);

    let shown = run(dir, &["show", HOUSE]);
    assert!(shown.contains("north wall, from the pantry") && shown.contains("The walk is over"), "{shown}");
    let spanish = run(dir, &["show", HOUSE, "--language", "es"]);
    assert!(spanish.contains("declaró la demolición"), "{spanish}");
    assert_eq!(ask(dir, &["show"])[0]["demolition"], json!(true));
    assert!(run(dir, &["assess", HOUSE]).contains("never judged"));
}

#[test]
fn a_slip_of_the_finger_is_withdrawn_with_a_reason_until_the_house_is_sealed() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    refuses(
        dir,
        &["demolition", HOUSE, "--withdraw", "the wrong house"],
        NOT_THERE,
        &["nobody has declared"],
    );
    run(dir, &["demolition", HOUSE]);
    refuses(dir, &["demolition", HOUSE, "--withdraw", "  "], NOT_TAKEN, &["reason"]);
    let told = run(dir, &["demolition", HOUSE, "--withdraw", "the wrong house"]);
    assert!(told.contains("the walk goes on"), "{told}");
    record(dir, "bulkhead-fitted", &["register"]);
    // Both stay in the record, and undo goes back through the walk alone.
    run(dir, &["undo", HOUSE]);
    assert_eq!(entries(dir), 9);
    assert!(run(dir, &["show", HOUSE]).contains("withdrawn by R. Ames"));

    run(dir, &["demolition", HOUSE]);
    let packet = seal(dir);
    refuses(dir, &["demolition", HOUSE, "--withdraw", "after all"], CLASH, &["was sealed after"]);
    let packet = packet::open(&packet).unwrap();
    assert!(survey::model::fold(packet.entries()).demolition.is_some(), "the packet carries it");
}

#[test]
fn what_another_tablet_recorded_later_is_kept_shown_sealed_along_and_counts_for_nothing() {
    let (a, b) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (a, b) = (a.path(), b.path());
    a_house(a);
    run(b, &["merge", seal(a).to_str().unwrap()]);
    let before = ask(a, &["assess", HOUSE]);
    run(a, &["demolition", HOUSE]);
    // The other has not heard of it and walks on; its first entry has the declaration's number, and the id of the device
    // that was there later decides.
    for (item, answer) in
        [("sink-mount", "apron-front"), ("stub-height", "23"), ("bulkhead-fitted", "register")]
    {
        run(b, &["record", HOUSE, item, answer]);
    }
    run(b, &["photo", HOUSE, &photo(), "--item", "stub-height"]);
    let packet = seal(b);
    let said = run(a, &["merge", packet.to_str().unwrap()]);
    assert!(said.contains("counted nowhere"), "{said}");
    let late = ask(a, &["merge", packet.to_str().unwrap()])["set_aside"].as_u64().unwrap();
    assert_eq!(late, 4);

    let shown = ask(a, &["show", HOUSE]);
    assert_eq!(shown["demolition"]["setAside"].as_array().unwrap().len() as u64, late);
    assert_eq!(row(a, "stub-height")["answer"], json!("19-3/8\""), "as it was");
    assert_eq!((row(a, "bulkhead-fitted")["kind"].as_str(), &shown["photos"]), (Some("open"), &json!(0)));
    let after = ask(a, &["assess", HOUSE]);
    for id in ["drain-stub-high", "bulkhead-duct"] {
        assert_eq!(condition(&after, id)["probability"], condition(&before, id)["probability"], "{id}");
    }
    // The readable tables say the same as the log, and the packet loses nothing.
    entries(a);
    let third = seal(a);
    let sealed = packet::open(&third).unwrap();
    assert_eq!(sealed.info().photos.len(), 1);
    let picture = survey::model::fold(sealed.entries());
    assert_eq!((picture.set_aside.len() as u64, picture.photos.len()), (late, 0));
    // The other learns of it from that packet and is closed too.
    run(b, &["merge", third.to_str().unwrap()]);
    refuses(b, &["note", HOUSE, "wet"], CLASH, &["declared demolition"]);
    entries(b);
}

#[test]
fn a_packet_sealed_after_demolition_is_never_judged_and_nor_is_any_that_comes_later() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    receive(dir);
    let first = ask(dir, &["compare", HOUSE])["forecast"].clone();
    run(dir, &["demolition", HOUSE]);
    receive(dir);
    assert_eq!(ask(dir, &["compare", HOUSE])["forecast"], first, "before anything was found");
    let told = run(dir, &["finding", HOUSE, "bulkhead-duct", "found", "--cost", "1350"]);
    assert!(!told.contains("begun with this finding"), "a packet declares it: {told}");
    assert_eq!(ask(dir, &["compare", HOUSE])["forecast"], first);
    let track = ask(dir, &["track"]);
    assert_eq!((&track["all"]["opened"], &track["again"]["opened"]), (&json!(1), &json!(1)));
    let plain = run(dir, &["track"]);
    assert!(plain.contains('0'), "none of the later forecasts came before: {plain}");
}

#[test]
fn a_house_sealed_only_after_demolition_has_no_forecast_to_be_judged_by() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["demolition", HOUSE]);
    receive(dir);
    run(dir, &["finding", HOUSE, "bulkhead-duct", "found", "--cost", "1350"]);
    refuses(dir, &["compare", HOUSE], NOT_THERE, &["before the demolition"]);
    let track = ask(dir, &["track"]);
    assert_eq!(track["left_out"][0]["why"], "no-forecast-in-time");
    assert_eq!(track["all"]["opened"], json!(0));
}

#[test]
fn a_finding_begins_demolition_where_no_packet_declares_it() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    receive(dir);
    let told = run(dir, &["finding", HOUSE, "bulkhead-duct", "not-there"]);
    assert!(told.contains("begun with this finding"), "{told}");
    let told = run(dir, &["finding", HOUSE, "bulkhead-wires", "not-there"]);
    assert!(!told.contains("begun with this finding"), "said once: {told}");
}
