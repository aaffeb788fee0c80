//! A tablet and an office, paired by files: sealed, received, receipted, rotated, revoked.

use std::path::Path;

use serde_json::{Value, json};
use tempfile::TempDir;

use office::OfficeError;

use super::office::Office;
use super::steps::{CLASH, DAMAGED, HOUSE, NOT_TAKEN, NOT_THERE, a_house, json as ask, refuses, seal};
use crate::support::{refused, run, run_typing};

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
fn an_office_with_a_key_takes_a_packet_nobody_vouches_for_only_where_it_is_asked_to() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    run(dir, &["keys", "public", "--into", "firm.json"]);
    let bare = seal(dir);
    let bare = bare.to_str().unwrap();
    refuses(dir, &["receive", bare], CLASH, &["was not taken", "no certificate", "--uncertified"]);
    let received = ask(dir, &["receive", bare, "--uncertified"]);
    assert_eq!((&received["first_time"], &received["serial"]), (&json!(true), &Value::Null));
    // Here once, it is here.
    assert_eq!(ask(dir, &["receive", bare])["first_time"], false);
    let judged = |dir: &Path| ask(dir, &["compare", HOUSE])["forecast"].clone();
    let unvouched = judged(dir);
    // The tablet is certified and seals again; its packet is the one the house is judged by, then and after a later bare one.
    certified(dir, "1");
    let sealed = ask(dir, &["seal", HOUSE, "--into", "."])["packet"].as_str().unwrap().to_owned();
    assert_eq!(ask(dir, &["receive", &sealed])["serial"], 1);
    let vouched = judged(dir);
    assert_ne!(vouched, unvouched);
    std::fs::remove_file(dir.join("device/keys/device-certificate.jws")).unwrap();
    run(dir, &["record", HOUSE, "bowl-depth", "9"]);
    let later = ask(dir, &["seal", HOUSE, "--into", "."])["packet"].as_str().unwrap().to_owned();
    ask(dir, &["receive", &later, "--uncertified"]);
    assert_eq!(judged(dir), vouched);
}

#[test]
fn an_office_whose_database_is_not_the_one_that_knew_its_key_takes_nothing_until_it_is_restored() {
    let dir = paired_with_a_house();
    let dir = dir.path();
    let packet = seal(dir);
    let packet = packet.to_str().unwrap();
    for file in ["office.sqlite", "office.sqlite-wal", "office.sqlite-shm"] {
        let kept = dir.join("office").join(file);
        if kept.exists() {
            std::fs::rename(&kept, dir.join(file)).unwrap();
        }
    }
    for args in [
        &["receive", packet][..],
        &["keys", "office"],
        &["keys", "new-office", "--firm", "Hale & Daughter"],
        &["keys", "certify", "1-request.jws", "--into", "x.jws"],
    ] {
        refuses(dir, args, DAMAGED, &["knows nothing of it", "restore the database from the last backup"]);
    }
    assert!(!dir.join("x.jws").exists(), "nothing is left behind");
    for file in ["office.sqlite", "office.sqlite-wal", "office.sqlite-shm"] {
        let (kept, here) = (dir.join(file), dir.join("office").join(file));
        let _ = std::fs::remove_file(&here);
        if kept.exists() {
            std::fs::rename(&kept, &here).unwrap();
        }
    }
    assert_eq!(ask(dir, &["receive", packet])["serial"], 1);
}

#[test]
fn a_register_that_was_kept_in_a_file_is_taken_into_the_database_once() {
    let dir = paired_with_a_house();
    let dir = dir.path();
    let before = ask(dir, &["keys", "office"]);
    // As an office of the version before left it: a database of that time beside the file.
    let database = dir.join("office/office.sqlite");
    let conn = rusqlite::Connection::open(&database).unwrap();
    let body: String =
        conn.query_row("SELECT body FROM register ORDER BY n DESC LIMIT 1", [], |r| r.get(0)).unwrap();
    drop(conn);
    for file in ["office.sqlite", "office.sqlite-wal", "office.sqlite-shm"] {
        let _ = std::fs::remove_file(dir.join("office").join(file));
    }
    let file = dir.join("office/keys/register.json");
    std::fs::write(&file, body).unwrap();
    assert_eq!(ask(dir, &["keys", "office"]), before);
    std::fs::write(&file, "{").unwrap();
    assert_eq!(ask(dir, &["keys", "office"]), before, "it is not read again");
}

#[test]
fn a_certificate_that_cannot_be_written_uses_up_no_number() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    run(dir, &["keys", "request", "--into", "r.jws", "--name", "Tablet 3"]);
    std::fs::write(dir.join("there.jws"), "something else").unwrap();
    refuses(dir, &["keys", "certify", "r.jws", "--into", "there.jws"], CLASH, &["already there"]);
    refuses(dir, &["keys", "certify", "r.jws", "--into", "none/x.jws"], NOT_THERE, &["none/x.jws"]);
    assert_eq!(ask(dir, &["keys", "certify", "r.jws", "--into", "1.jws"])["serial"], 1);
    assert_eq!(std::fs::read(dir.join("there.jws")).unwrap(), b"something else");
}

#[test]
fn a_certificate_that_runs_out_is_told_where_the_house_is_sealed() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    run(dir, &["keys", "public", "--into", "firm.json"]);
    run(dir, &["keys", "request", "--into", "r.jws", "--name", "Tablet 3"]);
    let told = |days: &str| {
        let file = format!("{days}.jws");
        run(dir, &["keys", "certify", "r.jws", "--into", &file, "--days", days]);
        run(dir, &["keys", "accept", &file, "--firm", "firm.json"]);
        run(dir, &["seal", HOUSE, "--into", "."])
    };
    assert!(!told("365").contains("runs out"));
    assert!(told("9").contains("certificate no. 2 runs out on"));
}

#[test]
fn the_household_reads_its_page_at_the_terminal_and_signs_with_its_name() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let args = ["seal", HOUSE, "--into", ".", "--household", "es", "--household-signs", "--json"];
    // A name that cannot be one is asked for again.
    let long = "a".repeat(130);
    let (sealed, asked) = run_typing(dir, &args, &format!("{long}\n Ada Alder \n"));
    assert!(asked.contains("Nadie puede ver") && asked.contains("He leído esta página."), "{asked}");
    assert_eq!(asked.matches("He leído esta página.").count(), 2);
    let sealed: Value = serde_json::from_str(&sealed).unwrap();
    let packet = sealed["packet"].as_str().unwrap();
    let words = run(dir, &["verify", packet]);
    assert!(words.contains("the household signed household.pdf: Ada Alder"), "{words}");
    let verified = ask(dir, &["verify", packet, "--signature", "drawn.svg"]);
    assert_eq!(verified["household"]["name"], "Ada Alder");
    assert_eq!(verified["seal"]["unchecked"], json!(["certified", "valid", "received", "not-revoked"]));
    assert!(std::fs::read_to_string(dir.join("drawn.svg")).unwrap().contains("<path d=\"\""));
    let (sealed, _) = run_typing(dir, &args, "\n");
    let sealed: Value = serde_json::from_str(&sealed).unwrap();
    let bare = sealed["packet"].as_str().unwrap();
    assert_eq!(ask(dir, &["verify", bare])["household"], Value::Null);
    refuses(dir, &["verify", bare, "--signature", "none.svg"], NOT_THERE, &["no household signed it"]);

    // The office shows either packet of the house, the last one first, and whose name stands in which.
    let mut office = Office::new();
    let [signed, last] = [packet, bare].map(|file| {
        let line = office.receive_file(&dir.join(file), "2026-03-03T14:12:00-05:00");
        (line["survey"].clone(), line["packet"].clone())
    });
    assert_eq!(signed.0, last.0);
    let shown = office.ask("house", json!({ "survey": signed.0 })).unwrap();
    assert_eq!((&shown["packet"], &shown["signature"]), (&last.1, &Value::Null));
    let shown = office.ask("house", json!({ "survey": signed.0, "packet": signed.1 })).unwrap();
    assert_eq!((&shown["packet"], &shown["signature"]["name"]), (&signed.1, &json!("Ada Alder")));
    assert_eq!(
        (&shown["signature"]["said"], &shown["signature"]["drawn"]),
        (&json!("He leído esta página. Firmarla no acepta ningún precio."), &Value::Null)
    );
    for other in ["0".repeat(64), "no digest".to_owned()] {
        let refused = office.ask("house", json!({ "survey": signed.0, "packet": other })).unwrap_err();
        assert!(matches!(refused, OfficeError::NoPacket { .. }), "{refused}");
    }
}

#[test]
fn two_houses_whose_labels_differ_by_a_dot_are_sealed_into_one_folder() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    for label in ["Elm St 3", "Elm St. 3"] {
        run(dir, &["new", label, "--contract", "80000"]);
    }
    let sealed: Vec<String> = ["Elm St 3", "Elm St. 3"]
        .map(|label| ask(dir, &["seal", label, "--into", "out"])["packet"].as_str().unwrap().to_owned())
        .into();
    assert!(sealed[0].ends_with("elm-st-3-1.zip"), "{sealed:?}");
    let with_id = sealed[1].strip_prefix("out/elm-st-3-").and_then(|rest| rest.strip_suffix("-1.zip"));
    assert_eq!(with_id.map(str::len), Some(36), "{sealed:?}");
    for packet in &sealed {
        run(dir, &["verify", packet]);
    }
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
