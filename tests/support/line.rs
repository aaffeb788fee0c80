//! A tablet and its office that are killed while packets travel between them.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Stdio;
use std::time::Duration;

use serde_json::{Value, json};

use super::office::{Open, open, open_at};
use super::{run, sample_photo, underlath};

const HOUSE: &str = "Mill Lane kitchen";

/// An office with an owner, and a tablet that is paired with it. Its key is made by the first invitation.
pub fn paired(dir: &Path) -> Open {
    let mut office = open(dir);
    office.set_up();
    let link = invite(&mut office);
    run(dir, &["pair", &link, "--name", "Tablet 3"]);
    office
}

/// The link of a new invitation.
pub fn invite(office: &mut Open) -> String {
    let port = office.port;
    invite_by(office, port)
}

/// The same, for a tablet that reaches the office by another port.
pub fn invite_by(office: &mut Open, port: u16) -> String {
    let address = format!("127.0.0.1:{port}");
    let (status, invited) = office.ask("invite-tablet", &json!({ "address": address }));
    assert_eq!(status, 200, "{invited}");
    invited["link"].as_str().unwrap().to_owned()
}

fn kill(id: u32) {
    let killed = std::process::Command::new("kill").args(["-KILL", &id.to_string()]).status().unwrap();
    assert!(killed.success());
}

/// Kills office or sender so many times while packets are sent. At the end everything is sent, is there once and whole, and
/// is what the tablet's own list says. Gives how many packets there were.
pub fn killed(dir: &Path, kills: u32) -> usize {
    let mut office = paired(dir);
    let port = office.port;
    let mut state = 7u64;
    // A small deterministic sequence, so that a failure can be repeated as far as the machine lets it.
    let mut next = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        state >> 33
    };
    run(dir, &["new", HOUSE, "--contract", "80000", "--days", "30"]);
    run(dir, &["record", HOUSE, "planned-work", "deep-sink"]);
    run(dir, &["photo", HOUSE, sample_photo().to_str().unwrap()]);
    let (mut sealed, mut acknowledged, mut broken) = (BTreeSet::new(), BTreeSet::new(), 0);
    for n in 0..kills {
        if n % 4 == 0 {
            run(dir, &["record", HOUSE, "stub-height", &format!("{}", 12 + n % 9)]);
            let told: Value = parsed(&run(dir, &["seal", HOUSE, "--into", "out", "--json"]));
            let file = dir.join(told["packet"].as_str().unwrap());
            sealed.insert(packet::open(&file).unwrap().digest().to_string());
        }
        let mut sender = underlath(dir)
            .args(["send", HOUSE, "--json"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(Duration::from_millis(next() % 400));
        let of_office = next() % 2 == 0;
        if of_office {
            kill(office.child.id());
            office.child.wait().unwrap();
            let cookie = office.cookie.clone();
            office = open_at(dir, port);
            office.cookie = cookie;
        } else {
            // It may have ended by then, which is as good.
            let _ = sender.kill();
        }
        let output = sender.wait_with_output().unwrap();
        if output.status.success() {
            let one = parsed(&String::from_utf8_lossy(&output.stdout));
            assert_eq!(one["state"], "acknowledged", "{one}");
            acknowledged.insert(one["packet"].as_str().unwrap().to_owned());
        } else {
            broken += 1;
        }
    }
    assert!(broken > 0, "nothing was ever broken off");
    for number in 1..=sealed.len() {
        let one = parsed(&run(dir, &["send", HOUSE, "--number", &number.to_string(), "--json"]));
        assert_eq!(one["state"], "acknowledged", "{one}");
        acknowledged.insert(one["packet"].as_str().unwrap().to_owned());
    }
    assert_eq!(acknowledged, sealed);
    let desk = office::Desk::open(&dir.join("office")).unwrap();
    let kept: Vec<String> = desk.packets().unwrap().iter().map(|p| p.digest.to_string()).collect();
    assert_eq!(kept.iter().cloned().collect::<BTreeSet<_>>(), sealed, "all of them, and nothing else");
    assert_eq!(kept.len(), sealed.len(), "nothing is there twice");
    for packet in desk.packets().unwrap() {
        let opened = packet::open(&desk.packet_path(packet.digest)).unwrap();
        assert_eq!(opened.digest(), packet.digest, "every file is whole");
        let receipt = std::fs::read_to_string(desk.receipt_path(packet.digest)).unwrap();
        let own = dir.join(format!("out/mill-lane-kitchen-{}.receipt.jws", packet.number));
        assert_eq!(std::fs::read_to_string(own).unwrap(), receipt, "the tablet keeps the office's receipt");
    }
    let (_, underway) = office.ask("arriving", &json!({}));
    assert_eq!(underway, json!([]), "nothing is left half there");
    sealed.len()
}

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|e| panic!("{e}: {text}"))
}
