//! Damaged records: said which file, nothing else touched, what is readable comes out.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde_json::Value;
use survey::Digest;

use super::steps::{CLASH, DAMAGED, HOUSE, NOT_THERE, a_house, entries, json, photo, record, refuses, row};
use crate::support::run;

fn database(dir: &Path) -> PathBuf {
    dir.join("device/underlath.sqlite")
}

/// Every file of the device with the digest of its bytes.
fn files(dir: &Path) -> BTreeMap<PathBuf, Digest> {
    let (mut found, mut open) = (BTreeMap::new(), vec![dir.join("device")]);
    while let Some(folder) = open.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                found.insert(path.clone(), Digest::of(&std::fs::read(path).unwrap()));
            }
        }
    }
    found
}

#[test]
fn a_corrupt_database_is_refused_untouched_and_its_entries_are_rescued() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    let picture = photo();
    record(dir.path(), "stub-height", &["19 1/4", "--photo", &picture]);
    let recorded = entries(dir.path());
    assert_eq!(recorded, 7);
    let file = database(dir.path());
    assert!(!file.with_extension("sqlite-wal").exists(), "closed properly, all is in the one file");
    let mut bytes = std::fs::read(&file).unwrap();
    bytes[..200].fill(0xA5);
    std::fs::write(&file, &bytes).unwrap();
    let damaged = files(dir.path());
    assert!(damaged.len() >= 3, "database, lock, photograph: {damaged:?}");

    let words = ["underlath.sqlite", "Nothing was changed", "rescue"];
    for args in [
        &["show"][..],
        &["check"],
        &["record", HOUSE, "year-built", "1950"],
        &["photo", HOUSE, &picture],
        &["assess", HOUSE],
        &["seal", HOUSE],
        &["new", "Other house"],
    ] {
        refuses(dir.path(), args, DAMAGED, &words);
    }
    assert_eq!(files(dir.path()), damaged, "a refusal touches no file");

    let rescued = json(dir.path(), &["rescue", "saved.jsonl"]);
    assert_eq!(rescued["saved"].as_u64(), Some(recorded));
    assert_eq!(files(dir.path()), damaged, "rescuing touches no file");
    let text = std::fs::read_to_string(dir.path().join("saved.jsonl")).unwrap();
    let lines: Vec<Value> = text.lines().map(|l| serde_json::from_str(l).unwrap()).collect();
    assert_eq!(lines.len() as u64, recorded);
    let readings: Vec<&Value> = lines.iter().filter(|e| e["body"]["item"] == "stub-height").collect();
    assert!(readings.iter().any(|e| e["body"]["entered"] == "19 3/8"), "{readings:?}");
    assert!(readings.iter().any(|e| e["body"]["entered"] == "19 1/4"), "{readings:?}");
    refuses(dir.path(), &["rescue", "saved.jsonl"], CLASH, &["saved.jsonl", "another name"]);

    // Set aside, the device begins anew, takes the rescued entries in, and its photographs are still there.
    std::fs::rename(&file, dir.path().join("damaged.sqlite")).unwrap();
    run(dir.path(), &["show"]);
    let taken: Vec<survey::log::Entry> =
        text.lines().map(|l| survey::log::Entry::from_bytes(l.as_bytes()).unwrap()).collect();
    let now = crate::support::moment();
    let mut store =
        store::Store::open(&dir.path().join("device"), now, survey::DeviceId::new(0, &[9; 10])).unwrap();
    assert_eq!(store.import(&taken).unwrap().new, recorded);
    drop(store);
    assert_eq!(entries(dir.path()), recorded);
    assert_eq!(row(dir.path(), "stub-height")["answer"], "19-1/4\"");
}

#[test]
fn a_database_cut_to_nothing_is_damaged_and_never_replaced_by_a_fresh_one() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    std::fs::write(database(dir.path()), b"").unwrap();
    for args in [&["show"][..], &["new", "Other house"]] {
        refuses(dir.path(), args, DAMAGED, &["underlath.sqlite", "empty"]);
    }
    assert_eq!(database(dir.path()).metadata().unwrap().len(), 0);
}

#[test]
fn a_damaged_photograph_is_found_by_check_and_cannot_be_sealed() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    record(dir.path(), "stub-height", &["19 1/4", "--photo", &photo()]);
    let (path, _) =
        files(dir.path()).into_iter().find(|(p, _)| p.to_string_lossy().contains("blobs")).unwrap();
    let mut bytes = std::fs::read(&path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    std::fs::set_permissions(&path, std::os::unix::fs::PermissionsExt::from_mode(0o600)).unwrap();
    std::fs::write(&path, &bytes).unwrap();
    refuses(dir.path(), &["check"], DAMAGED, &["1 problem", "device", "rescue"]);
    let sum = path.file_name().unwrap().to_string_lossy().into_owned();
    let told = refuses(dir.path(), &["seal", HOUSE, "--into", "out"], DAMAGED, &["photograph"]);
    assert!(told.contains(&sum[..8]), "{sum}: {told}");
    let left = std::fs::read_dir(dir.path().join("out")).unwrap().count();
    assert_eq!(left, 0, "no half packet stays");
    assert_eq!(row(dir.path(), "stub-height")["answer"], "19-1/4\"");
}

#[test]
fn there_is_nothing_to_rescue_where_nothing_was_recorded() {
    let dir = tempfile::tempdir().unwrap();
    refuses(dir.path(), &["rescue", "saved.jsonl"], NOT_THERE, &["underlath.sqlite", "no survey database"]);
    assert!(!dir.path().join("saved.jsonl").exists());
}
