//! The office over the network, by the built program: set up by the printed link, packets posted over TLS, killed while they
//! come; then backed up and restored.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::time::Duration;

use serde_json::{Value, json};

use super::steps::{CLASH, DAMAGED, NOT_THERE, a_house, json as told, refuses, seal};
use crate::support::office::{Open, open};
use crate::support::run;

#[test]
fn an_office_is_set_up_by_its_link_takes_packets_in_and_comes_back_from_its_backup() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let packet = std::fs::read(seal(dir)).unwrap();
    let mut office = open(dir);
    let (status, no) = office.packet(&packet);
    assert_eq!((status, &no["kind"]), (401, &json!("signed-out")), "{no}");
    assert!(no["message"].as_str().unwrap().contains("navegador"), "it is said in Spanish: {no}");
    office.set_up();
    let clash = refuses(dir, &["office", "--address", "127.0.0.1:0"], CLASH, &["another program serves"]);
    assert!(clash.contains("office"), "{clash}");

    const FIRST: &str = "entregada en la mano";
    const OWN: &str = "tres tejas rotas y un gato";
    let estimator = json!({ "name": "Luis Pardo", "role": "estimator", "password": FIRST });
    assert_eq!(office.ask("add-person", &estimator).0, 200);
    let (status, receipt) = office.packet(&packet);
    assert_eq!(status, 200, "{receipt}");
    let again = office.packet(&packet);
    assert_eq!(again.0, 200, "once however often it comes: {}", again.1);
    let (status, no) = office.packet(b"no packet");
    assert!(status >= 400 && no["message"].as_str().is_some_and(|m| !m.is_empty()), "{status} {no}");
    assert_eq!(std::fs::read_dir(dir.join("office/coming")).unwrap().count(), 0);

    let owner = office.cookie.clone();
    let luis = json!({ "name": "Luis Pardo", "password": OWN });
    office.cookie.clear();
    assert_eq!(office.ask("sign-in", &json!({ "name": "Luis Pardo", "password": FIRST })).0, 200);
    let (status, no) = office.ask("inbox", &json!({}));
    assert_eq!((status, &no["kind"]), (403, &json!("role")), "before they chose their own: {no}");
    assert_eq!(office.ask("change-password", &json!({ "old": FIRST, "new": OWN })).0, 200);
    assert_eq!(office.ask("inbox", &json!({})).0, 200);
    let (status, no) = office.packet(&packet);
    assert_eq!((status, &no["kind"]), (403, &json!("role")), "{no}");
    assert_eq!(office.ask("people", &json!({})).0, 403);
    office.cookie = owner;
    let (_, lines) = office.ask("audit", &json!({}));
    let deeds: Vec<&str> =
        lines.as_array().unwrap().iter().rev().map(|l| l["what"].as_str().unwrap()).collect();
    let expected =
        // The link was tried again once it was used up; a second refusal within a minute is not noted again.
        [
            "set-up",
            "wrong-link",
            "person-added",
            "packet-received",
            "packet-refused",
            "signed-in",
            "password-changed",
            "not-allowed",
        ];
    assert_eq!(deeds, expected);

    // What lies in the office and cannot be read is told without its reason, and noted with it and with what was asked for.
    let survey = receipt["survey"].clone();
    let kept =
        walked(&dir.join("office")).into_iter().find(|path| path.extension().is_some_and(|e| e == "zip"));
    let (kept, whole) = (kept.unwrap(), packet.clone());
    std::fs::write(&kept, b"no packet any more").unwrap();
    let (status, no) = office.ask("house", &json!({ "survey": survey }));
    assert!(status >= 400 && no["kind"] == "damaged", "{status} {no}");
    let reason = ["office/", ".zip", "central directory", &dir.display().to_string()];
    assert!(!reason.iter().any(|part| no.to_string().contains(part)), "told without its reason: {no}");
    std::fs::write(&kept, whole).unwrap();
    let (_, lines) = office.ask("audit", &json!({}));
    assert_eq!(lines[0]["what"], "fault", "{lines}");
    assert!(lines[0]["about"].as_str().unwrap().starts_with("house: "), "{lines}");
    assert_eq!(office.ask("house", &json!({ "survey": survey })).0, 200);

    // The same lines at the machine, the oldest first, each on a line of its own, and only those after a number.
    let printed = |after: &str| -> Vec<Value> {
        let out = run(dir, &["office", "log", "--after", after]);
        out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
    };
    let all: Vec<Value> = lines.as_array().unwrap().iter().rev().cloned().collect();
    assert_eq!(printed("0"), all);
    assert_eq!(printed("2"), all[2..]);
    assert_eq!(printed("99999"), Vec::<Value>::new());

    // A wrong name and a wrong password are answered alike, at every count; an owner unlocks.
    let guess = |office: &mut Open, name: &str| {
        office.cookie.clear();
        let mut told: Vec<(u16, Value)> = Vec::new();
        for _ in 0..6 {
            told.push(office.ask("sign-in", &json!({ "name": name, "password": "not the right password" })));
        }
        told
    };
    let owner = std::mem::take(&mut office.cookie);
    let known = guess(&mut office, "Luis Pardo");
    assert_eq!(known, guess(&mut office, "Nobody Here"));
    assert_eq!(known.iter().map(|(status, _)| *status).collect::<Vec<_>>(), [400, 400, 400, 400, 400, 409]);
    assert_eq!(known[5].1["kind"], "conflict");
    assert_eq!(office.ask("sign-in", &luis).0, 409, "the right one must wait too");
    office.cookie = owner;
    let (_, people) = office.ask("people", &json!({}));
    let id = people.as_array().unwrap().iter().find(|p| p["name"] == "Luis Pardo").unwrap()["id"].clone();
    assert_eq!(office.ask("unlock", &json!({ "id": id })).0, 200);
    let owner = std::mem::take(&mut office.cookie);
    assert_eq!(office.ask("sign-in", &luis).0, 200);
    office.cookie = owner;

    // Backed up while it is open, restored elsewhere, and the same office.
    let held = told(dir, &["office", "backup", "office.tar"]);
    assert!(held["files"].as_u64().unwrap() >= 4, "{held}");
    refuses(dir, &["office", "backup", "office.tar"], CLASH, &["office.tar"]);
    refuses(dir, &["office", "restore", "office.tar"], CLASH, &["not empty"]);
    refuses(dir, &["office", "restore", "nowhere.tar"], NOT_THERE, &["nowhere.tar"]);
    std::fs::write(dir.join("cut.tar"), &std::fs::read(dir.join("office.tar")).unwrap()[..2_000]).unwrap();
    refuses(
        dir,
        &["office", "restore", "cut.tar", "--office", "cut"],
        DAMAGED,
        &["cut.tar", "Nothing was restored"],
    );
    run(dir, &["office", "restore", "office.tar", "--office", "elsewhere/office"]);
    let shown =
        |office: &str| run(dir, &["receive", "out/mill-lane-kitchen-1.zip", "--office", office, "--json"]);
    let parsed = |text: &str| serde_json::from_str::<Value>(text).unwrap();
    let (here, there) = (parsed(&shown("office")), parsed(&shown("elsewhere/office")));
    assert_eq!((&here["first_time"], &there["first_time"]), (&json!(false), &json!(false)));
    assert_eq!(here["received_at"], there["received_at"]);
    let mut restored = open(&dir.join("elsewhere"));
    assert_eq!(restored.token, None, "its people came along");
    restored.cookie = office.cookie.clone();
    let (_, session) = restored.ask("session", &json!({}));
    assert_eq!(session["person"], Value::Null, "a backup signs nobody in");
    restored.cookie.clear();
    restored.sign_in();
}

/// Every file below a folder.
fn walked(dir: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(dir).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() { all.extend(walked(&path)) } else { all.push(path) }
    }
    all
}

/// The program takes what a system sends to a service it ends.
#[cfg(unix)]
#[test]
fn told_to_end_the_office_ends_orderly() {
    let dir = tempfile::tempdir().unwrap();
    for signal in ["-TERM", "-INT"] {
        let mut office = open(dir.path());
        let id = office.child.id().to_string();
        assert!(std::process::Command::new("kill").args([signal, &id]).status().unwrap().success());
        assert_eq!(office.child.wait().unwrap().code(), Some(0), "{signal}");
    }
}

#[test]
fn killed_twenty_times_while_packets_come_it_loses_and_doubles_nothing_it_acknowledged() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let mut office = open(dir);
    office.set_up();
    let (mut acknowledged, mut state, mut broken) = (BTreeSet::new(), 7u64, 0);
    for n in 1..=20u64 {
        super::steps::record(dir, "stub-height", &[&format!("{}", 12 + n % 9)]);
        let packet = std::fs::read(seal(dir)).unwrap();
        // A small deterministic sequence, so that a failure can be repeated as far as the machine lets it.
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let pause = Duration::from_millis((state >> 33) % 120);
        let answer = std::thread::scope(|scope| {
            let sender = scope.spawn(|| office.try_send("POST /packet", &packet));
            std::thread::sleep(pause);
            let id = office.child.id().to_string();
            assert!(std::process::Command::new("kill").args(["-KILL", &id]).status().unwrap().success());
            sender.join().unwrap()
        });
        match answer {
            Some((200, _, body)) => {
                let receipt: Value = serde_json::from_slice(&body).unwrap();
                acknowledged.insert(receipt["packet"].as_str().unwrap().to_owned());
            }
            Some((status, head, _)) => panic!("{status} {head}"),
            None => broken += 1,
        }
        let cookie = office.cookie.clone();
        office.child.wait().unwrap();
        office = open(dir);
        office.cookie = cookie;
        assert_eq!(office.ask("session", &json!({})).0, 200);
        assert_eq!(
            std::fs::read_dir(dir.join("office/coming")).unwrap().count(),
            0,
            "swept before it answers"
        );
        // What broke off is sent again; what was acknowledged stays as it is.
        if n % 3 == 0 {
            let (status, receipt) = office.packet(&packet);
            assert_eq!(status, 200, "{receipt}");
            acknowledged.insert(receipt["packet"].as_str().unwrap().to_owned());
        }
    }
    assert!(broken > 0 && !acknowledged.is_empty(), "{broken} broken, {} acknowledged", acknowledged.len());
    let desk = office::Desk::open(&dir.join("office")).unwrap();
    let kept: Vec<String> = desk.packets().unwrap().iter().map(|p| p.digest.to_string()).collect();
    let once: BTreeSet<String> = kept.iter().cloned().collect();
    assert_eq!(kept.len(), once.len(), "nothing is there twice");
    assert!(acknowledged.is_subset(&once), "nothing acknowledged is lost");
    for packet in desk.packets().unwrap() {
        let opened = packet::open(&desk.packet_path(packet.digest)).unwrap();
        assert_eq!(opened.digest(), packet.digest, "every file is whole");
    }
    let files = std::fs::read_dir(dir.join("office/packets")).unwrap();
    let zips = files.filter(|f| f.as_ref().unwrap().path().extension().is_some_and(|e| e == "zip")).count();
    assert!(zips >= once.len(), "{zips} files for {} rows", once.len());
}
