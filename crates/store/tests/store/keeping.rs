//! Recording, reopening, finding.

use store::{ErrorKind, Store};
use survey::model::fold;

use crate::support::*;

#[test]
fn a_new_store_keeps_its_device_and_only_its_owner_can_read_it() {
    let dir = tempfile::tempdir().unwrap();
    let at = dir.path().join("deep/inside");
    let store = Store::open(&at, stamp(0), device(7)).unwrap();
    assert_eq!(store.device(), device(7));
    drop(store);
    let mut store = Store::open(&at, stamp(1), device(8)).unwrap();
    assert_eq!(store.device(), device(7), "the fresh id is for new stores only");
    assert_eq!(store.device_name().unwrap(), "");
    store.name_device("the tablet with the cracked corner").unwrap();
    record(&mut store, house(1), opened("Alder Street"));
    drop(store);
    assert_eq!(open(&at, 9).device_name().unwrap(), "the tablet with the cracked corner");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let store = open(&at, 9);
        let mode = |p: &std::path::Path| p.metadata().unwrap().permissions().mode() & 0o777;
        assert_eq!(mode(&at), 0o700);
        assert_eq!(mode(&at.join("blobs")), 0o700);
        for name in ["underlath.sqlite", "underlath.sqlite-wal", "underlath.sqlite-shm", "underlath.lock"] {
            assert_eq!(mode(&at.join(name)), 0o600, "{name}");
        }
        let digest = store.blobs().put(b"a photograph").unwrap();
        assert_eq!(mode(&store.blobs().path(digest)), 0o600);
    }
}

#[test]
fn what_was_recorded_is_there_after_reopening_in_log_order() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    let mut written = Vec::new();
    for i in 0..40 {
        written.push(record(&mut store, house(1), answer("stub-height", i, &[])));
    }
    drop(store);
    let store = open(dir.path(), 1);
    assert_eq!(store.entries(house(1)).unwrap(), written);
    assert_eq!(store.entries(house(2)).unwrap(), []);
    let next = store.next(house(1)).unwrap();
    assert_eq!((next.seq, next.lamport, next.prev), (41, 41, Some(written[39].hash())));
    let next = store.next(house(2)).unwrap();
    assert_eq!((next.seq, next.lamport, next.prev), (1, 1, None));
    assert!(store.check().is_whole(), "{:?}", store.check().problems);
}

#[test]
fn several_entries_are_recorded_all_or_none() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    let first = entry(store.next(house(1)).unwrap(), opened("Alder Street"));
    let mut next = store.next(house(1)).unwrap();
    (next.seq, next.lamport, next.prev) = (2, 2, Some(first.hash()));
    let second = entry(next, answer("stub-height", 1240, &[]));
    let other_house = entry(store.next(house(2)).unwrap(), opened("Heron Court"));
    store.append(&[first.clone(), other_house.clone(), second.clone()]).unwrap();
    assert_eq!(store.entries(house(1)).unwrap(), [first, second.clone()]);
    assert_eq!(store.entries(house(2)).unwrap(), [other_house]);

    let good = entry(store.next(house(1)).unwrap(), note("good"));
    let mut bad = entry(store.next(house(1)).unwrap(), note("same place"));
    bad.id = entry_id(&store.next(house(1)).unwrap(), 9);
    let error = store.append(&[good, bad]).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::Conflict);
    assert_eq!(store.entries(house(1)).unwrap().len(), 2);
}

#[test]
fn an_entry_that_does_not_follow_is_refused_in_words() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    record(&mut store, house(1), opened("Alder Street"));
    let fits = entry(store.next(house(1)).unwrap(), note("fits"));
    let change = |f: &dyn Fn(&mut survey::log::Entry)| {
        let mut entry = fits.clone();
        f(&mut entry);
        entry
    };
    for (bad, word) in [
        (change(&|e| e.device = device(2)), "belongs to device"),
        (change(&|e| e.seq = 3), "position 3 where 2"),
        (change(&|e| e.seq = 1), "position 1 where 2"),
        (change(&|e| e.seq = u64::MAX), "position"),
        (change(&|e| e.lamport = 9), "Lamport number 9 where 2"),
        (change(&|e| e.lamport = 1), "Lamport number 1 where 2"),
        (change(&|e| e.prev = None), "hash of the entry before"),
        (change(&|e| e.prev = Some(survey::Digest::of(b"x"))), "hash of the entry before"),
        (change(&|e| e.v = 2), "form 2"),
    ] {
        let error = store.append(std::slice::from_ref(&bad)).unwrap_err();
        assert_eq!(error.kind(), ErrorKind::Conflict, "{error}");
        assert!(said(&error).contains(word) && said(&error).contains("underlath.sqlite"), "{error}");
        let error = store.append_with(house(1), |_| bad.clone()).unwrap_err();
        assert!(said(&error).contains(word), "{error}");
    }
    let error = store.append_with(house(2), |_| fits.clone()).unwrap_err();
    assert!(said(&error).contains("not of survey"), "{error}");
    assert_eq!(store.entries(house(1)).unwrap().len(), 1);
    store.append(&[fits]).unwrap();
}

#[test]
fn two_hands_on_one_store_never_take_the_same_position() {
    let dir = tempfile::tempdir().unwrap();
    open(dir.path(), 1);
    std::thread::scope(|scope| {
        for hand in 0..3 {
            let path = dir.path();
            scope.spawn(move || {
                let mut store = open(path, 1);
                for i in 0..40 {
                    record(&mut store, house(1), answer(&format!("item-{hand}"), i, &[]));
                }
            });
        }
    });
    let store = open(dir.path(), 1);
    let seqs: Vec<u64> = store.entries(house(1)).unwrap().iter().map(|e| e.seq).collect();
    assert_eq!(seqs, (1..=120).collect::<Vec<u64>>());
    assert!(store.check().is_whole(), "{:?}", store.check().problems);
}

#[test]
fn stores_opened_at_the_same_moment_become_one() {
    for _ in 0..5 {
        let dir = tempfile::tempdir().unwrap();
        let devices: Vec<_> = std::thread::scope(|scope| {
            let path = dir.path();
            let open_as = |n| scope.spawn(move || open(path, n).device());
            let hands: Vec<_> = (1..=4).map(open_as).collect();
            hands.into_iter().map(|h| h.join().unwrap()).collect()
        });
        assert!(devices.iter().all(|d| *d == devices[0]), "{devices:?}");
    }
}

#[test]
fn a_survey_is_found_by_label_or_by_the_beginning_of_its_id() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    let error = store.find_survey("Alder Street").unwrap_err();
    assert!(error.kind() == ErrorKind::Missing && said(&error).contains("none yet"), "{error}");
    record(&mut store, house(1), opened("Alder Street"));
    record(&mut store, house(2), opened("Heron Court"));
    record(&mut store, house(3), opened("Heron Court"));
    for text in ["Alder Street", "alder street", " Alder Street ", "a1", "A1A1", &house(1).to_string()] {
        assert_eq!(store.find_survey(text).unwrap().survey, house(1), "{text}");
    }
    for text in ["Heron Court", "a"] {
        let error = store.find_survey(text).unwrap_err();
        assert!(error.kind() == ErrorKind::Conflict && said(&error).contains("a2a2a2a2"), "{error}");
    }
    for text in ["Quarry Bend", "", "ffff"] {
        let error = store.find_survey(text).unwrap_err();
        assert!(error.kind() == ErrorKind::Missing && said(&error).contains("Alder Street"), "{error}");
    }
}

#[test]
fn the_list_shows_label_last_touch_and_entries_without_reading_the_logs() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    fill(&mut store, house(1), 12);
    fill(&mut store, house(2), 30);
    let rows = store.surveys().unwrap();
    let picture = fold(&store.entries(house(2)).unwrap());
    assert_eq!(rows.len(), 2);
    assert_eq!(rows[0].survey, house(2), "the last touched first");
    assert_eq!(rows[0].label, "House 162");
    assert_eq!(Some(rows[0].last_touched), picture.last_touched);
    assert_eq!((rows[0].entries, rows[1].entries), (30, 12));
}

#[test]
fn another_programs_database_is_refused_and_left_alone() {
    let dir = tempfile::tempdir().unwrap();
    let file = database(dir.path());
    rusqlite::Connection::open(&file).unwrap().execute_batch("CREATE TABLE recipes (name TEXT)").unwrap();
    let before = std::fs::read(&file).unwrap();
    let error = Store::open(dir.path(), stamp(0), device(1)).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::Conflict);
    assert!(said(&error).contains("another program"), "{error}");
    assert_eq!(std::fs::read(&file).unwrap(), before);
}

#[test]
fn a_store_of_a_newer_program_is_refused_and_left_alone() {
    let dir = tempfile::tempdir().unwrap();
    open(dir.path(), 1);
    let file = database(dir.path());
    let conn = rusqlite::Connection::open(&file).unwrap();
    conn.execute(
        "INSERT INTO migration (number, name, sha256, applied_at) VALUES (99, 'x', ?1, '')",
        [survey::Digest::of(b"").hex()],
    )
    .unwrap();
    conn.close().unwrap();
    let before = std::fs::read(&file).unwrap();
    let error = Store::open(dir.path(), stamp(0), device(1)).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::Newer);
    assert!(said(&error).contains("newer program"), "{error}");
    assert_eq!(std::fs::read(&file).unwrap(), before);
}
