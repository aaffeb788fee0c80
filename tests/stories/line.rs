//! The line between tablet and office, by the built program: paired by a link, packets sent over TLS and killed on their way,
//! a tablet that is revoked, an office that is another one.

use std::io::Cursor;

use courier::talk::Begun;
use courier::wire::Line;
use courier::{Ask, Heard, Link, Place, Sending, recipe};
use serde_json::{Value, json};

use super::steps::{CLASH, HOUSE, NOT_TAKEN, NOT_THERE, a_house, json as told, photo, record, refuses, seal};
use crate::support::line::{invite, killed, paired};
use crate::support::office::open_at;
use crate::support::{Counted, Still, moment, run};

#[test]
fn a_tablet_is_paired_sends_and_is_revoked() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["photo", HOUSE, &photo()]);
    refuses(dir, &["send", HOUSE], NOT_THERE, &["seal it first"]);
    let mut office = paired(dir);
    let office_told = told(dir, &["pair"]);
    assert_eq!(office_told["office"]["firm"], "Hale & Daughter");
    assert_eq!(office_told["office"]["device"], "Tablet 3");

    seal(dir);
    let sent = told(dir, &["send", HOUSE]);
    assert_eq!((&sent["state"], &sent["sent"]), (&json!("acknowledged"), &sent["bytes"]), "{sent}");
    assert!(sent["said"].as_str().unwrap().contains("Hale & Daughter"), "{sent}");
    assert!(dir.join("out/mill-lane-kitchen-1.receipt.jws").is_file());
    assert_eq!(told(dir, &["send", HOUSE])["state"], "acknowledged", "sent again it stays so");
    let (_, inbox) = office.ask("inbox", &json!({}));
    assert_eq!(inbox["packets"].as_array().unwrap().len(), 1);
    assert_eq!(
        (&inbox["packets"][0]["certified"], &inbox["packets"][0]["device"]),
        (&json!(true), &json!("Tablet 3"))
    );
    let (_, tablets) = office.ask("tablets", &json!({}));
    assert_eq!((&tablets[0]["name"], &tablets[0]["pairedBy"]), (&json!("Tablet 3"), &json!("Rosa Ames")));
    assert!(tablets[0]["lastSeen"].is_string() && tablets[0]["revokedAt"].is_null());

    only_what_is_new_travels(dir, &mut office);

    let args = json!({ "id": tablets[0]["id"], "key": true });
    let (status, tablets) = office.ask("revoke-tablet", &args);
    assert_eq!(status, 200, "{tablets}");
    assert!(tablets[0]["revokedAt"].is_string());
    let said = refuses(dir, &["send", HOUSE], CLASH, &["the office says", "“Tablet 3” was revoked"]);
    assert!(said.contains("pair it by the new link"), "{said}");
    let (_, lines) = office.ask("audit", &json!({}));
    let deeds: Vec<&str> =
        lines.as_array().unwrap().iter().rev().map(|l| l["what"].as_str().unwrap()).collect();
    assert_eq!(
        deeds,
        [
            "set-up",
            "wrong-link",
            "key-made",
            "tablet-invited",
            "tablet-paired",
            "packet-received",
            "tablet-revoked",
            "key-revoked"
        ]
    );
    run(dir, &["pair", "--undo"]);
    refuses(dir, &["send", HOUSE], NOT_THERE, &["not paired"]);
    assert!(!dir.join("device/keys/office-token").exists());
}

/// A second packet of the house is told, and the office asks for nothing that came with the first but what lies around.
fn only_what_is_new_travels(dir: &std::path::Path, office: &mut crate::support::office::Open) {
    record(dir, "stub-height", &["18"]);
    let second = std::fs::read(seal(dir)).unwrap();
    let packet = packet::open(&dir.join("out/mill-lane-kitchen-2.zip")).unwrap();
    let places: Vec<Place> =
        packet.photo_places().map(|(sha256, at, bytes)| Place { sha256, at, bytes }).collect();
    assert_eq!(places.len(), 1);
    let made = recipe(&mut Cursor::new(&second), packet.digest(), packet.bytes(), places.clone()).unwrap();
    let token = std::fs::read_to_string(dir.join("device/keys/office-token")).unwrap().trim().to_owned();
    let link: Link = place_of(office);
    let mut line = Line::new(&link.address, link.fingerprint, Some(token), "en").unwrap();
    let sending = Sending::new(made.clone());
    let mut file = std::fs::File::open(dir.join("out/mill-lane-kitchen-2.zip")).unwrap();
    let Heard::Answer(200, body) = line.carry(&sending, &Ask::Begin, &mut file).unwrap() else { panic!() };
    let begun: Begun = serde_json::from_slice(&body).unwrap();
    assert_eq!(begun.missing.len(), made.segments.len() - 1);
    assert!(begun.missing.iter().all(|m| m.sha256 != places[0].sha256), "the photograph is there");
    let (_, underway) = office.ask("arriving", &json!({}));
    assert_eq!((&underway[0]["tablet"], &underway[0]["have"]), (&json!("Tablet 3"), &json!(places[0].bytes)));
}

/// Where the office is; the code is none.
fn place_of(office: &crate::support::office::Open) -> Link {
    Link {
        address: format!("127.0.0.1:{}", office.port),
        fingerprint: office.fingerprint.parse().unwrap(),
        code: "0".repeat(48),
        firm: "Hale".to_owned(),
    }
}

#[test]
fn a_link_that_was_used_or_names_another_certificate_pairs_nobody() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let mut office = paired(dir);
    let link = invite(&mut office);
    let sum = link.split("sum=").nth(1).unwrap()[..64].to_owned();
    let other: String = sum.chars().map(|c| if c == '0' { '1' } else { '0' }).collect();
    let home = ["--home", "another"];
    let pairs = |link: &str| {
        [home.as_slice(), &["pair", link, "--name", "Tablet 4"]]
            .concat()
            .into_iter()
            .map(str::to_owned)
            .collect::<Vec<_>>()
    };
    let with = |link: &str, code: i32, words: &[&str]| {
        let args = pairs(link);
        refuses(dir, &args.iter().map(String::as_str).collect::<Vec<_>>(), code, words);
    };
    with(&link.replace(&sum, &other), CLASH, &["somebody else answers", "nothing was sent"]);
    with("https://office.example", NOT_TAKEN, &["no link of an office"]);
    with(&link.replace("code=", "code=x"), NOT_TAKEN, &["the office says", "this invitation was used"]);
    run(dir, &["--home", "another", "pair", &link, "--name", "Tablet 4"]);
    with(&link, NOT_TAKEN, &["this invitation was used", "works once"]);
    let (_, tablets) = office.ask("tablets", &json!({}));
    let names: Vec<&Value> = tablets.as_array().unwrap().iter().map(|t| &t["name"]).collect();
    assert_eq!(names, ["Tablet 3", "Tablet 4"]);
}

/// The screens' way: sent in the background, waiting while the office is down, acknowledged once it is back.
#[test]
fn the_screens_send_in_the_background_and_wait_for_an_office_that_is_down() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let mut office = paired(dir);
    let (port, packet) = (office.port, seal(dir));
    let digest = packet::open(&packet).unwrap().digest().to_string();
    office.child.kill().unwrap();
    office.child.wait().unwrap();
    let world = commands::World {
        clock: Box::new(Still(moment())),
        random: Box::new(Counted(7)),
        by: "R. Ames".to_owned(),
        downloads: None,
    };
    let place = commands::Place::new(Some(dir.join("device")), world);
    let ask = |name: &str, args: Value| place.ask("en", name, args).unwrap();
    assert_eq!(ask("office", json!({}))["office"]["device"], "Tablet 3");
    let sending = json!({ "survey": HOUSE, "packet": digest });
    assert_eq!(ask("send", sending.clone())[0]["packet"], digest);
    let until = |state: &str| {
        for _ in 0..600 {
            let one = ask("sending", json!({}))[0].clone();
            if one["state"] == state {
                return one;
            }
            std::thread::sleep(std::time::Duration::from_millis(100));
        }
        panic!("it never came to be {state}: {}", ask("sending", json!({})));
    };
    assert!(until("waiting")["said"].as_str().is_some_and(|said| said.contains("does not answer")));
    let mut office = open_at(dir, port);
    office.sign_in();
    ask("send", sending.clone());
    let one = until("acknowledged");
    assert_eq!((&one["sent"], &one["bytes"]), (&one["bytes"], &json!(packet.metadata().unwrap().len())));
    assert!(dir.join("out/mill-lane-kitchen-1.receipt.jws").is_file());
    assert_eq!(ask("send", sending)[0]["state"], "acknowledged");
    let refused = place.ask("es", "send", json!({ "survey": HOUSE, "packet": "0".repeat(64) })).unwrap_err();
    assert_eq!(refused.kind, "missing");
    let link = invite(&mut office);
    let read = ask("read-link", json!({ "link": link }));
    assert_eq!(
        (&read["firm"], &read["fingerprint"]),
        (&json!("Hale & Daughter"), &json!(office.fingerprint))
    );
    assert_eq!(ask("unpair", json!({}))["office"], Value::Null);
    assert_eq!(ask("sending", json!({}))[0]["state"], "acknowledged", "what was sent stays told");
}

#[test]
fn killed_twenty_times_on_both_sides_everything_acknowledged_is_there_once() {
    let dir = tempfile::tempdir().unwrap();
    assert_eq!(killed(dir.path(), 20), 5);
}
