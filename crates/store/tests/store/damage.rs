//! Damaged files: a clear error, never a panic, and what is readable comes out.

use std::collections::BTreeSet;
use std::path::Path;

use store::{ErrorKind, Store, rescue, set_aside};
use survey::log::Entry;

use crate::support::*;

const PAGE: usize = 4096;

/// A store with two houses, closed, and its file.
fn whole() -> (tempfile::TempDir, Vec<u8>, Vec<Entry>) {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    fill(&mut store, house(1), 120);
    fill(&mut store, house(2), 60);
    let mut entries = store.entries(house(1)).unwrap();
    entries.extend(store.entries(house(2)).unwrap());
    drop(store);
    assert!(!dir.path().join("underlath.sqlite-wal").exists());
    let bytes = std::fs::read(database(dir.path())).unwrap();
    assert!(entries.iter().any(|e| e.to_bytes().len() > PAGE), "some lines go over several pages");
    (dir, bytes, entries)
}

/// Opens, reads and checks; any error must be one of the kinds for damage. True when damage was noticed.
fn use_it(dir: &Path) -> bool {
    let may_be = |e: store::StoreError| {
        assert!(matches!(e.kind(), ErrorKind::Damaged | ErrorKind::Conflict | ErrorKind::Newer), "{e}");
        assert!(said(&e).contains("underlath.sqlite") && said(&e).len() > 60, "{e}");
    };
    let mut store = match Store::open(dir, stamp(0), device(1)) {
        Ok(store) => store,
        Err(e) => {
            return {
                may_be(e);
                true
            };
        }
    };
    let mut noticed = false;
    for survey in [house(1), house(2)] {
        if let Err(e) = store.entries(survey) {
            may_be(e);
            noticed = true;
        }
        let _ = store.append_with(survey, |next| entry(next, note("on a damaged file"))).map_err(may_be);
        let _ = store.latest_forecast(survey).map_err(may_be);
    }
    let _ = store.surveys().map_err(may_be);
    let _ = store.find_survey("House 161");
    noticed | !store.check().is_whole()
}

fn rescued(dir: &Path) -> Vec<Entry> {
    let out = dir.join("rescued.jsonl");
    let _ = std::fs::remove_file(&out);
    let report = rescue(dir, &out).unwrap();
    assert!(!dir.join("rescued.jsonl.work").exists());
    let text = std::fs::read(&out).unwrap();
    let entries: Vec<Entry> = text
        .split(|b| *b == b'\n')
        .filter(|l| !l.is_empty())
        .map(|l| Entry::from_bytes(l).unwrap())
        .collect();
    assert_eq!(report.entries, entries.len() as u64);
    assert_eq!(report.surveys.values().sum::<u64>(), report.entries);
    entries
}

#[test]
fn everything_comes_out_of_a_file_without_a_readable_beginning() {
    let (dir, bytes, entries) = whole();
    for zeroed in [100, PAGE] {
        let mut damaged = bytes.clone();
        damaged[..zeroed].fill(0);
        std::fs::write(database(dir.path()), &damaged).unwrap();
        let error = Store::open(dir.path(), stamp(0), device(1)).unwrap_err();
        assert_eq!(error.kind(), ErrorKind::Damaged, "{error}");
        assert!(said(&error).contains("rescue"), "{error}");
        assert_eq!(rescued(dir.path()), entries);
        assert_eq!(std::fs::read(database(dir.path())).unwrap(), damaged, "the damaged file is left alone");
    }
}

#[test]
fn an_empty_file_a_text_and_a_shortened_file_are_named_as_damaged() {
    let (dir, bytes, entries) = whole();
    let originals: BTreeSet<Vec<u8>> = entries.iter().map(Entry::to_bytes).collect();
    std::fs::write(database(dir.path()), b"").unwrap();
    let error = Store::open(dir.path(), stamp(0), device(1)).unwrap_err();
    assert!(error.kind() == ErrorKind::Damaged && said(&error).contains("is empty"), "{error}");
    assert_eq!(rescued(dir.path()), []);
    std::fs::write(database(dir.path()), "Dear Sir, ".repeat(1000)).unwrap();
    let error = Store::open(dir.path(), stamp(0), device(1)).unwrap_err();
    assert!(error.kind() == ErrorKind::Damaged && said(&error).contains("not a survey database"), "{error}");
    let mut last = 0;
    for length in
        [1, 50, 99, 100, 1000, PAGE, PAGE + 7, 5 * PAGE, 20 * PAGE + 3, bytes.len() - PAGE, bytes.len() - 1]
    {
        std::fs::write(database(dir.path()), &bytes[..length]).unwrap();
        let out = rescued(dir.path());
        assert!(out.len() >= last, "a longer rest gives no less: {length}");
        assert!(out.iter().all(|e| originals.contains(&e.to_bytes())));
        last = out.len();
        assert!(use_it(dir.path()), "cut at {length}");
        let _ = std::fs::remove_file(dir.path().join("underlath.sqlite-wal"));
        let _ = std::fs::remove_file(dir.path().join("underlath.sqlite-shm"));
    }
    assert!(last > 100, "nearly everything is in the longest rest");
}

#[test]
fn a_flipped_byte_anywhere_is_survived_and_costs_one_entry_at_most() {
    let (_keep, bytes, entries) = whole();
    let originals: BTreeSet<Vec<u8>> = entries.iter().map(Entry::to_bytes).collect();
    let pages = bytes.len() / PAGE;
    let mut dice = Dice(2026);
    let mut unnoticed = 0;
    for round in 0..150 {
        let dir = tempfile::tempdir().unwrap();
        let mut damaged = bytes.clone();
        // Every page is hit at least once.
        let page = if round < pages { round } else { dice.below(pages as u64) as usize };
        let at = page * PAGE + dice.below(PAGE as u64) as usize;
        damaged[at] ^= 1 << dice.below(8);
        std::fs::write(database(dir.path()), &damaged).unwrap();
        let out = rescued(dir.path());
        assert!(out.iter().all(|e| originals.contains(&e.to_bytes())), "byte {at}: something else came out");
        assert!(out.len() + 1 >= entries.len(), "byte {at}: {} of {} came out", out.len(), entries.len());
        unnoticed += u32::from(!use_it(dir.path()));
    }
    // A byte in unused space changes nothing.
    assert!(unnoticed < 150, "no damage was ever noticed");
}

#[test]
fn whole_pages_of_rubbish_are_survived() {
    let (_keep, bytes, entries) = whole();
    let originals: BTreeSet<Vec<u8>> = entries.iter().map(Entry::to_bytes).collect();
    let mut dice = Dice(7);
    for round in 0..40 {
        let dir = tempfile::tempdir().unwrap();
        let mut damaged = bytes.clone();
        for _ in 0..=dice.below(4) {
            let page = dice.below((bytes.len() / PAGE) as u64) as usize * PAGE;
            damaged[page..page + PAGE].fill_with(|| dice.below(256) as u8);
        }
        std::fs::write(database(dir.path()), &damaged).unwrap();
        let out = rescued(dir.path());
        assert!(out.iter().all(|e| originals.contains(&e.to_bytes())), "round {round}");
        assert!(out.len() * 2 > entries.len(), "round {round}: only {} came out", out.len());
        use_it(dir.path());
    }
}

#[test]
fn entries_that_are_only_in_the_write_ahead_log_come_out_too() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    fill(&mut store, house(1), 40);
    let entries = store.entries(house(1)).unwrap();
    // As after a crash: copied while open, so nothing was moved into the database yet.
    let copy = tempfile::tempdir().unwrap();
    for name in ["underlath.sqlite", "underlath.sqlite-wal"] {
        std::fs::copy(dir.path().join(name), copy.path().join(name)).unwrap();
    }
    assert_eq!(rescued(copy.path()), entries);
    std::fs::write(database(copy.path()), b"").unwrap();
    assert_eq!(rescued(copy.path()), entries, "from the write-ahead log alone");
}

#[test]
fn after_a_rescue_the_survey_goes_on_in_a_new_store() {
    let (dir, bytes, entries) = whole();
    let mut damaged = bytes.clone();
    damaged[..PAGE].fill(0xFF);
    std::fs::write(database(dir.path()), &damaged).unwrap();
    let out = rescued(dir.path());
    let error = rescue(dir.path(), &dir.path().join("rescued.jsonl")).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::Conflict, "an earlier rescue is not overwritten");
    let aside = set_aside(dir.path(), stamp(0)).unwrap();
    assert_eq!(std::fs::read(aside).unwrap(), damaged, "a copy is kept");
    let mut store = Store::open(dir.path(), stamp(1), device(5)).unwrap();
    assert_eq!(store.import(&out).unwrap().new, entries.len() as u64);
    record(&mut store, house(1), note("going on"));
    assert!(store.check().is_whole(), "{:?}", store.check().problems);
    assert_eq!(store.device(), device(5), "a new device, so that no position is taken twice");
}

#[test]
fn a_rescue_says_which_entries_are_missing() {
    let (dir, bytes, entries) = whole();
    // Spoil one line in every copy of it: the fifth of the first house.
    let line = entries[4].to_bytes();
    let mut damaged = bytes.clone();
    let mut hits = 0;
    for at in 0..damaged.len() - line.len() {
        if damaged[at..].starts_with(&line) {
            damaged[at + line.len() - 20] ^= 1;
            hits += 1;
        }
    }
    assert!(hits > 0);
    std::fs::write(database(dir.path()), &damaged).unwrap();
    let report = rescue(dir.path(), &dir.path().join("out.jsonl")).unwrap();
    assert_eq!(report.entries, entries.len() as u64 - 1);
    let english = words::Words::of(words::Language::En);
    let missing: Vec<String> = report.missing.iter().map(|line| english.text(line)).collect();
    assert!(missing.iter().any(|line| line.contains("entry 5 cannot be read")), "{missing:?}");
    let missing = rescue(&dir.path().join("nowhere"), &dir.path().join("x")).unwrap_err();
    assert_eq!(missing.kind(), ErrorKind::Missing);
}

#[test]
fn a_write_ahead_log_without_its_database_is_not_taken_for_a_new_store() {
    let dir = tempfile::tempdir().unwrap();
    std::fs::write(dir.path().join("underlath.sqlite-wal"), b"left").unwrap();
    let error = Store::open(dir.path(), stamp(0), device(1)).unwrap_err();
    assert!(error.kind() == ErrorKind::Damaged && said(&error).contains("is gone"), "{error}");
}
