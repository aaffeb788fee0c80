//! Packets laid into a folder, by the built program.

use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::time::{Duration, Instant};

use serde_json::json;

use super::steps::{HOUSE, NOT_TAKEN, NOT_THERE, a_house, refuses, seal};
use crate::support::office::{Open, open_with};
use crate::support::run;

/// Waits until it is so.
pub(super) fn until(what: &str, mut so: impl FnMut() -> bool) {
    let begun = Instant::now();
    while !so() {
        assert!(begun.elapsed() < Duration::from_secs(60), "it never came to be: {what}");
        std::thread::sleep(Duration::from_millis(100));
    }
}

pub(super) fn list(dir: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(dir) else { return Vec::new() };
    let mut names: Vec<String> =
        entries.map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

fn packets(office: &mut Open) -> usize {
    office.ask("inbox", &json!({})).1["packets"].as_array().unwrap().len()
}

#[test]
fn packets_laid_into_a_folder_are_received_once_and_set_aside_whatever_they_are() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let packet = seal(dir);
    let bytes = fs::read(&packet).unwrap();
    let laid = dir.join("laid");
    let watches = |folder| ["office", "--address", "127.0.0.1:0", "--watch", folder];
    refuses(dir, &watches("laid"), NOT_THERE, &["there is no folder laid to watch"]);
    refuses(dir, &watches("office/packets"), NOT_TAKEN, &["cannot be watched"]);
    refuses(dir, &watches("."), NOT_TAKEN, &["cannot be watched"]);
    fs::create_dir(&laid).unwrap();
    // Before the office is there, and twice.
    fs::write(laid.join("first.zip"), &bytes).unwrap();
    fs::write(laid.join("second.zip"), &bytes).unwrap();
    let mut office = open_with(dir, 0, &["--watch", "laid"]);
    office.set_up();
    // One that is written slowly, with a pause longer than the folder is looked at.
    let mut slow = fs::File::create(laid.join("slow.zip")).unwrap();
    slow.write_all(&bytes[..bytes.len() / 2]).unwrap();
    slow.sync_all().unwrap();
    until("both are received", || list(&laid.join("received")) == ["first.zip", "second.zip"]);
    assert_eq!(packets(&mut office), 1);
    assert!(laid.join("slow.zip").is_file(), "what is half there is waited for");
    slow.write_all(&bytes[bytes.len() / 2..]).unwrap();
    slow.sync_all().unwrap();
    until("the slow one", || list(&laid.join("received")).len() == 3);
    assert_eq!((packets(&mut office), list(&laid)), (1, vec!["received".to_owned()]));

    // Killed and started again; the office has a key by now, and vouches for nobody.
    drop(office);
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    run(dir, &["record", HOUSE, "stub-height", "18"]);
    fs::copy(seal(dir), laid.join("first.zip")).unwrap();
    let mut office = open_with(dir, 0, &["--watch", "laid"]);
    office.sign_in();
    until("it is refused", || list(&laid.join("refused")) == ["first.zip", "first.zip.why.txt"]);
    let why = fs::read_to_string(laid.join("refused/first.zip.why.txt")).unwrap();
    let inbox = office.ask("inbox", &json!({})).1;
    assert_eq!((&inbox["refused"][0]["name"], &inbox["refusedInAll"]), (&json!("first.zip"), &json!(1)));
    assert_eq!(inbox["refused"][0]["why"], json!(why.trim()), "the inbox tells it too");
    assert!(why.contains("no certificate of this office vouches"), "{why}");
    assert_eq!(fs::read(laid.join("received/first.zip")).unwrap(), bytes, "nothing was written over");
    let (_, lines) = office.ask("audit", &json!({}));
    let deeds: Vec<(&str, &str)> = lines
        .as_array()
        .unwrap()
        .iter()
        .filter(|l| l["what"].as_str().unwrap().starts_with("packet"))
        .map(|l| (l["what"].as_str().unwrap(), l["about"].as_str().unwrap()))
        .collect();
    assert_eq!((deeds.len(), deeds[0].0, deeds[1].0), (2, "packet-refused", "packet-received"), "{deeds:?}");
    assert!(deeds[0].1.starts_with("first.zip: ") && deeds[1].1.contains("Mill Lane kitchen 1"), "{deeds:?}");
    assert!(lines.as_array().unwrap().iter().all(|l| l["what"] != "packet-refused" || l["who"].is_null()));
}
