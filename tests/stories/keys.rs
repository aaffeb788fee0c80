//! A tablet and an office, paired by files: sealed, received, receipted, rotated, revoked.

use std::path::Path;

use serde_json::{Value, json};
use tempfile::TempDir;

use super::steps::{CLASH, DAMAGED, HOUSE, NOT_TAKEN, NOT_THERE, a_house, json as ask, refuses, seal};
use crate::support::{refused, run};

/// The office has a key, the tablet its certificate.
fn paired(dir: &Path) {
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    run(dir, &["keys", "public", "--into", "firm.json"]);
    certified(dir, "1");
}

/// The same in a folder of its own, with a house on the tablet.
fn paired_with_a_house() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    a_house(folder.path());
    paired(folder.path());
    folder
}

/// The tablet asks with its key as it is and takes the certificate in.
fn certified(dir: &Path, name: &str) {
    let (request, certificate) = (format!("{name}-request.jws"), format!("{name}.jws"));
    run(dir, &["keys", "request", "--into", &request, "--name", "Tablet 3"]);
    run(dir, &["keys", "certify", &request, "--into", &certificate]);
    run(dir, &["keys", "accept", &certificate, "--firm", "firm.json"]);
}

/// Outcome and reason of each claim, in their order.
fn claims(verified: &Value) -> Vec<String> {
    let one = |claim: &Value| match claim["reason"].as_str() {
        Some(reason) => reason.to_owned(),
        None => claim["outcome"].as_str().unwrap().to_owned(),
    };
    verified["seal"]["claims"].as_array().unwrap().iter().map(one).collect()
}

#[test]
fn a_packet_is_sealed_certified_received_and_verified_with_its_papers_alone() {
    let dir = paired_with_a_house();
    let dir = dir.path();
    let packet = seal(dir);
    let packet = packet.to_str().unwrap();
    let received = ask(dir, &["receive", packet]);
    assert_eq!((&received["first_time"], &received["serial"]), (&json!(true), &json!(1)));
    let receipt = received["signed"].as_str().unwrap().to_owned();
    let kept = ask(dir, &["receipt", &receipt])["kept"].as_str().unwrap().to_owned();
    assert!(kept.ends_with("-1.receipt.jws"), "{kept}");
    // Received once more: the same receipt, byte for byte.
    let before = std::fs::read(&receipt).unwrap();
    assert_eq!(ask(dir, &["receive", packet])["signed"], json!(receipt));
    assert_eq!(std::fs::read(&receipt).unwrap(), before);

    // Somewhere else, with the files alone.
    let alone = tempfile::tempdir().unwrap();
    for (from, to) in [(packet, "p.zip"), (kept.as_str(), "r.jws")] {
        std::fs::copy(dir.join(from), alone.path().join(to)).unwrap();
    }
    std::fs::copy(dir.join("firm.json"), alone.path().join("firm.json")).unwrap();
    let open = ask(alone.path(), &["verify", "p.zip"]);
    assert_eq!(claims(&open), ["not-checked"; 4]);
    let all = ask(alone.path(), &["verify", "p.zip", "--firm", "firm.json", "--receipt", "r.jws"]);
    assert_eq!(claims(&all), ["holds", "holds", "holds", "not-checked"]);
    let words = run(alone.path(), &["verify", "p.zip", "--firm", "firm.json", "--receipt", "r.jws"]);
    for said in [
        "the seal holds",
        "certified by Hale & Daughter (no. 1) as “Tablet 3”",
        "received by the office on",
        "not checked: whether the key was revoked",
    ] {
        assert!(words.contains(said), "“{said}” is missing in: {words}");
    }
    let spanish = run(alone.path(), &["verify", "p.zip", "--firm", "firm.json", "--language", "es"]);
    assert!(spanish.contains("esa llave está certificada por Hale & Daughter (núm. 1)"), "{spanish}");
    assert!(!alone.path().join("device").exists(), "verifying makes no records");
}

#[test]
fn a_lost_tablet_is_revoked_and_only_what_the_office_had_before_still_holds() {
    let dir = paired_with_a_house();
    let dir = dir.path();
    let packet = seal(dir);
    let packet = packet.to_str().unwrap();
    let receipt = ask(dir, &["receive", packet])["signed"].as_str().unwrap().to_owned();
    run(dir, &["keys", "revoke", "--serial", "1", "--why", "left in a cab"]);
    run(dir, &["keys", "revoked", "--into", "revoked.jws"]);
    let papers = ["verify", packet, "--firm", "firm.json", "--revoked", "revoked.jws"];
    refuses(dir, &papers, CLASH, &["revoked-unproven", "left in a cab", "only a receipt could show"]);
    let with = [&papers[..], &["--receipt", &receipt]].concat();
    assert_eq!(claims(&ask(dir, &with)), ["holds"; 4]);
    // What it seals from now on is not taken, and nothing is received.
    let later = ask(dir, &["seal", HOUSE, "--into", "."])["packet"].as_str().unwrap().to_owned();
    refuses(dir, &["receive", &later], CLASH, &["was not taken", "left in a cab"]);
    refuses(
        dir,
        &["verify", &later, "--firm", "firm.json", "--revoked", "revoked.jws"],
        CLASH,
        &["(revoked)"],
    );
    // Nor without the certificate that was named, nor after a new one for the same key.
    run(dir, &["keys", "request", "--into", "again.jws", "--name", "Tablet 3"]);
    refuses(dir, &["keys", "certify", "again.jws", "--into", "again-3.jws"], CLASH, &["revoked"]);
    std::fs::remove_file(dir.join("device/keys/device-certificate.jws")).unwrap();
    let bare = ask(dir, &["seal", HOUSE, "--into", "."])["packet"].as_str().unwrap().to_owned();
    refuses(dir, &["receive", &bare], CLASH, &["was not taken", "left in a cab"]);
    // A receipt is for its packet alone.
    let other = ["verify", &later, "--firm", "firm.json", "--receipt", &receipt];
    refuses(dir, &other, CLASH, &["receipt-of-another-packet"]);
}

#[test]
fn after_tablet_and_office_changed_their_keys_old_packets_hold_and_new_ones_are_taken() {
    let dir = paired_with_a_house();
    let dir = dir.path();
    let old = seal(dir);
    let first = ask(dir, &["keys", "show"]);
    let new = ask(dir, &["keys", "new"]);
    assert_ne!(first["key"], new);
    assert_eq!(
        ask(dir, &["keys", "show"])["certificate"],
        Value::Null,
        "the old certificate is not for the new key"
    );
    refuses(
        dir,
        &["keys", "accept", "1.jws", "--firm", "firm.json"],
        CLASH,
        &["the certificate is for the key"],
    );
    run(dir, &["keys", "new-office"]);
    run(dir, &["keys", "public", "--into", "firm-2.json"]);
    std::fs::copy(dir.join("firm-2.json"), dir.join("firm.json")).unwrap();
    certified(dir, "2");
    let sealed = ask(dir, &["seal", HOUSE, "--into", "."]);
    assert_eq!((&sealed["key"], &sealed["certificate"]["serial"]), (&new, &json!(2)));
    for packet in [old.to_str().unwrap(), sealed["packet"].as_str().unwrap()] {
        let all = ask(dir, &["verify", packet, "--firm", "firm.json"]);
        assert_eq!(claims(&all)[..2], ["holds", "holds"]);
        assert_eq!(ask(dir, &["receive", packet])["first_time"], true);
    }
    assert_eq!(ask(dir, &["keys", "office"])["keys"].as_array().unwrap().len(), 2);
}

#[test]
fn a_packet_nobody_vouched_for_is_taken_and_said_to_be_one() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let packet = seal(dir);
    let packet = packet.to_str().unwrap();
    let words = run(dir, &["receive", packet]);
    assert!(words.contains("which no firm vouched for") && words.contains("no signed receipt"), "{words}");
    // Once the office has a key, the same packet gets its receipt, of the time it came first.
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    run(dir, &["keys", "public", "--into", "firm.json"]);
    let receipt = ask(dir, &["receive", packet])["signed"].as_str().unwrap().to_owned();
    let papers = ["verify", packet, "--firm", "firm.json", "--receipt", &receipt];
    refuses(dir, &papers, CLASH, &["no-certificate", "no firm vouched for the key"]);
}

#[test]
fn another_firms_papers_are_refused_by_tablet_office_and_verifier() {
    let dir = paired_with_a_house();
    let dir = dir.path();
    let packet = seal(dir);
    let packet = packet.to_str().unwrap();
    let strangers = ["--office", "strangers"];
    run(dir, &[&["keys", "new-office", "--firm", "Strangers"], &strangers[..]].concat());
    run(dir, &[&["keys", "public", "--into", "strangers.json"], &strangers[..]].concat());
    refuses(
        dir,
        &[&["receive", packet], &strangers[..]].concat(),
        CLASH,
        &["its certificate is not this firm's"],
    );
    refuses(dir, &["verify", packet, "--firm", "strangers.json"], CLASH, &["certificate-not-the-firms"]);
    refuses(dir, &["keys", "accept", "1.jws", "--firm", "strangers.json"], CLASH, &["not among the firm's"]);
}

#[test]
fn what_is_no_key_no_certificate_and_no_name_is_refused_with_how_to_mend_it() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    refuses(dir, &["keys", "office"], NOT_THERE, &["has no key yet", "keys new-office --firm"]);
    refuses(dir, &["keys", "public", "--into", "x"], NOT_THERE, &["has no key yet"]);
    refuses(dir, &["keys", "revoked", "--into", "x"], NOT_THERE, &["revoked nothing"]);
    refuses(dir, &["keys", "new-office"], NOT_TAKEN, &["--firm"]);
    refuses(dir, &["keys", "request", "--into", "x"], NOT_TAKEN, &["--name"]);
    paired(dir);
    refuses(dir, &["keys", "revoke", "--serial", "9", "--why", "lost"], NOT_THERE, &["never certified 9"]);
    refuses(
        dir,
        &["keys", "revoke", "--serial", "1", "--why", "lost", "--since", "May"],
        NOT_TAKEN,
        &["not a time"],
    );
    refuses(dir, &["keys", "certify", "1.jws", "--into", "x"], NOT_TAKEN, &["underlath-certificate"]);
    refuses(
        dir,
        &["keys", "accept", "1-request.jws", "--firm", "firm.json"],
        NOT_TAKEN,
        &["underlath-request"],
    );
    refuses(dir, &["receipt", "1.jws"], NOT_TAKEN, &["underlath-receipt"]);
    refuses(dir, &["keys", "request", "--into", "firm.json", "--name", "T"], CLASH, &["already there"]);
    refuses(dir, &["keys", "accept", "none.jws", "--firm", "firm.json"], NOT_THERE, &["none.jws"]);
    let packet = seal(dir);
    let packet = packet.to_str().unwrap();
    refuses(dir, &["verify", packet, "--firm", packet], NOT_TAKEN, &[]);
    let mut bytes = std::fs::read(packet).unwrap();
    let at = bytes.windows(8).rposition(|w| w == b"seal.jws").unwrap();
    bytes[at] ^= 1;
    std::fs::write(dir.join("bent.zip"), bytes).unwrap();
    refuses(dir, &["verify", "bent.zip"], DAMAGED, &[]);
}

#[cfg(unix)]
#[test]
fn a_secret_that_others_can_read_seals_nothing_and_the_log_does_not_change() {
    use std::os::unix::fs::PermissionsExt as _;
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    seal(dir);
    let before = super::steps::entries(dir);
    let secret = dir.join("device/keys/device.jwk");
    let mode = std::fs::metadata(&secret).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode, 0o600);
    std::fs::set_permissions(&secret, std::fs::Permissions::from_mode(0o640)).unwrap();
    let (_, told) = refused(dir, &["seal", HOUSE, "--into", "."]);
    assert!(told.contains("mode 640") && told.contains("chmod 600"), "{told}");
    assert_eq!(super::steps::entries(dir), before);
}
