//! Check, rebuild and backup.

use rusqlite::Connection;
use store::{ErrorKind, Store};
use survey::log::{Body, PhotoTaken};
use survey::model::fold;

use crate::support::*;

fn photo(digest: survey::Digest, bytes: u64) -> Body {
    Body::Photo(PhotoTaken {
        place: Some("kitchen".into()),
        item: None,
        digest,
        name: "IMG_0001.JPG".into(),
        bytes,
        width: 4,
        height: 3,
        orientation: 1,
        taken: None,
        taken_local: None,
        complaints: vec![],
        caption: None,
    })
}

fn problems(store: &Store) -> Vec<String> {
    store.check().problems.iter().map(said).collect()
}

type Rows = Vec<Vec<rusqlite::types::Value>>;
fn projection(dir: &std::path::Path) -> Vec<Rows> {
    let conn = Connection::open(database(dir)).unwrap();
    ["now_survey", "now_correction", "now_claim", "answer_now"]
        .iter()
        .map(|table| {
            let mut statement = conn.prepare(&format!("SELECT * FROM {table} ORDER BY 1, 2, 3")).unwrap();
            let width = statement.column_count();
            let rows = statement.query_map([], |row| (0..width).map(|i| row.get(i)).collect()).unwrap();
            rows.collect::<rusqlite::Result<_>>().unwrap()
        })
        .collect()
}

#[test]
fn the_readable_tables_made_anew_are_the_same() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    fill(&mut store, house(1), 60);
    fill(&mut store, house(2), 20);
    let kept_up = projection(dir.path());
    assert!(kept_up.iter().all(|table| !table.is_empty()));
    store.rebuild().unwrap();
    assert_eq!(projection(dir.path()), kept_up);
    drop(store);
    // Dropped behind our back: made anew when the store is opened.
    Connection::open(database(dir.path()))
        .unwrap()
        .execute_batch(
            "DROP VIEW answer_now; DROP TABLE now_claim; DROP TABLE now_correction; DROP TABLE now_survey;",
        )
        .unwrap();
    let store = open(dir.path(), 1);
    assert_eq!(projection(dir.path()), kept_up);
    assert_eq!(problems(&store), [""; 0]);
}

#[test]
fn the_view_of_answers_agrees_with_the_fold() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    fill(&mut store, house(1), 60);
    let picture = fold(&store.entries(house(1)).unwrap());
    let conn = Connection::open(database(dir.path())).unwrap();
    let mut statement =
        conn.prepare("SELECT place, item, id, claims, disagrees FROM answer_now ORDER BY 1, 2").unwrap();
    let rows: Vec<(String, String, [u8; 16], usize, bool)> = statement
        .query_map([], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?, r.get::<_, i64>(3)? as usize, r.get(4)?)))
        .unwrap()
        .collect::<rusqlite::Result<_>>()
        .unwrap();
    let folded: Vec<_> = picture
        .answers
        .iter()
        .map(|((place, item), s)| {
            (place.clone(), item.clone(), *s.leading().id.as_bytes(), s.claims.len(), s.disagrees())
        })
        .collect();
    assert_eq!(rows, folded);
}

#[test]
fn check_finds_what_was_altered_behind_the_guards() {
    let alter = |sql: &str| {
        let dir = tempfile::tempdir().unwrap();
        let mut store = open(dir.path(), 1);
        fill(&mut store, house(1), 20);
        assert_eq!(problems(&store), [""; 0]);
        drop(store);
        Connection::open(database(dir.path())).unwrap().execute_batch(sql).unwrap();
        problems(&open(dir.path(), 1))
    };
    let unguarded = "DROP TRIGGER entry_is_never_changed; DROP TRIGGER entry_is_never_deleted;";
    for (sql, words) in [
        (
            unguarded.to_owned(),
            vec!["entry_is_never_changed is missing", "entry_is_never_deleted is missing"],
        ),
        (
            format!(
                "{unguarded} UPDATE entry SET line = replace(line, 'surveyor 1', 'surveyor 9') WHERE seq = 5;"
            ),
            vec!["Entry 5 of device", "changed after it was recorded", "do not agree with the log"],
        ),
        (
            format!("{unguarded} DELETE FROM entry WHERE seq = 5;"),
            vec!["jumps to entry 6 where entry 5", "do not agree"],
        ),
        (format!("{unguarded} DELETE FROM entry WHERE seq = 20;"), vec!["do not agree with the log"]),
        (
            format!("{unguarded} UPDATE entry SET lamport = 7 WHERE seq = 5;"),
            vec!["where another entry belongs"],
        ),
        ("DROP INDEX entry_order;".into(), vec!["index entry_order is missing"]),
        ("CREATE TABLE recipes (name TEXT);".into(), vec!["table recipes was added"]),
        ("UPDATE now_survey SET label = 'Elsewhere';".into(), vec!["do not agree with the log: the list"]),
        ("DELETE FROM now_claim WHERE seq = 20;".into(), vec!["do not agree with the log: the answers"]),
        ("DELETE FROM now_correction;".into(), vec!["do not agree with the log: the corrections"]),
    ] {
        let found = alter(&sql);
        for word in words {
            assert!(found.iter().any(|line| line.contains(word)), "{sql}\nfound {found:#?}\nwanted {word}");
        }
    }
}

#[test]
fn check_misses_no_photograph() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    let kept = store.blobs().put(b"a photograph").unwrap();
    record(&mut store, house(1), photo(kept, 12));
    let report = store.check();
    assert!(report.is_whole() && report.photos == 1, "{report:?}");
    record(&mut store, house(1), photo(survey::Digest::of(b"elsewhere"), 9));
    std::fs::write(dir.path().join("blobs/holiday.jpg"), b"x").unwrap();
    std::fs::write(store.blobs().path(kept), b"A photograph").unwrap();
    let found = problems(&store);
    assert_eq!(found.len(), 3, "{found:#?}");
    for word in ["is not on this device", "holiday.jpg", "is not the one that was kept"] {
        assert!(found.iter().any(|line| line.contains(word)), "{word}: {found:#?}");
    }
}

#[test]
fn a_backup_is_a_store_and_can_be_brought_up_to_date() {
    let (dir, safe) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let mut store = open(dir.path(), 1);
    fill(&mut store, house(1), 30);
    let kept = store.blobs().put(b"a photograph").unwrap();
    record(&mut store, house(1), photo(kept, 12));
    store.backup(safe.path()).unwrap();
    record(&mut store, house(1), note("after the first backup"));
    store.backup(safe.path()).unwrap();
    let copy = open(safe.path(), 9);
    assert_eq!(copy.device(), device(1));
    assert_eq!(copy.entries(house(1)).unwrap(), store.entries(house(1)).unwrap());
    assert_eq!(copy.surveys().unwrap(), store.surveys().unwrap());
    let report = copy.check();
    assert!(report.is_whole() && report.photos == 1, "{report:?}");
}

#[test]
fn a_backup_never_overwrites_what_is_not_its_own() {
    let (dir, other, ahead) =
        (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let mut store = open(dir.path(), 1);
    fill(&mut store, house(1), 5);
    open(other.path(), 2);
    store.backup(ahead.path()).unwrap();
    record(&mut open(ahead.path(), 1), house(1), note("recorded in the backup"));
    for (place, word) in
        [(dir.path(), "itself"), (other.path(), "another device"), (ahead.path(), "does not have")]
    {
        let error = store.backup(place).unwrap_err();
        assert_eq!(error.kind(), ErrorKind::Conflict, "{error}");
        assert!(said(&error).contains(word), "{error}");
    }
    assert_eq!(open(ahead.path(), 1).entries(house(1)).unwrap().len(), 6);
    assert_eq!(open(other.path(), 3).device(), device(2));
}
