//! Every statement that would touch what is recorded, one by one, on the bare file without our program between.

use std::path::Path;

use rusqlite::Connection;

use crate::support::*;

/// Everything in the two tables that only grow, in order.
fn content(conn: &Connection) -> Vec<Vec<rusqlite::types::Value>> {
    let mut all = Vec::new();
    for sql in [
        "SELECT survey, device, seq, id, lamport, prev, hash, line FROM entry",
        "SELECT survey, n, digest, catalog, engine, position, made_at, bytes FROM forecast",
        "SELECT only_row, id, created_at FROM device",
    ] {
        let mut statement = conn.prepare(sql).unwrap();
        let width = statement.column_count();
        let mut rows = statement.query([]).unwrap();
        while let Some(row) = rows.next().unwrap() {
            all.push((0..width).map(|i| row.get(i).unwrap()).collect());
        }
    }
    all
}

fn prepared() -> (tempfile::TempDir, Vec<Vec<rusqlite::types::Value>>) {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    fill(&mut store, house(1), 5);
    fill(&mut store, house(2), 3);
    for bytes in [b"one".to_vec(), b"two".to_vec()] {
        let digest = survey::Digest::of(b"catalog");
        store.put_forecast(house(1), &store::Forecast::new(digest, "e 1", 5, stamp(9), bytes)).unwrap();
    }
    drop(store);
    let content = content(&Connection::open(database(dir.path())).unwrap());
    assert_eq!(content.len(), 5 + 3 + 2 + 1);
    (dir, content)
}

/// What the schema itself says when it refuses; anything else (a slip in a statement above all) proves nothing.
const REASONS: [&str; 11] = [
    "the log only grows",
    "the log has no holes",
    "a forecast is frozen",
    "this device keeps its id",
    "no such column: ",          // there is no hidden rowid
    "has no column named rowid", // nor can one be given
    "cannot UPDATE generated column",
    "NOT NULL constraint failed: entry",
    "CHECK constraint failed: ",
    "cannot store REAL value",
    "malformed JSON",
];

/// Runs each statement with recursive triggers off and on; each must be refused and leave everything as it was.
fn each_is_refused(dir: &Path, before: &[Vec<rusqlite::types::Value>], statements: &[&str]) {
    for sql in statements {
        for recursive in ["OFF", "ON"] {
            let conn = Connection::open(database(dir)).unwrap();
            conn.execute_batch(&format!("PRAGMA recursive_triggers = {recursive};")).unwrap();
            let error = conn.execute_batch(sql).expect_err(sql).to_string();
            assert!(REASONS.iter().any(|reason| error.contains(reason)), "{sql}\n{error}");
            assert_eq!(content(&conn), before, "recursive triggers {recursive}: {sql}");
        }
    }
}

/// An insert that clashes with the second entry of the first house on one key alone, and follows the chain otherwise.
const SAME_POSITION: &str = "(survey, device, seq, id, lamport, prev, hash, line)
    SELECT survey, device, seq, randomblob(16), lamport, prev, randomblob(32), '{}' FROM entry WHERE seq = 2 LIMIT 1";
const SAME_ID: &str = "(survey, device, seq, id, lamport, prev, hash, line)
    SELECT survey, randomblob(16), 1, id, 99, NULL, randomblob(32), '{}' FROM entry WHERE seq = 2 LIMIT 1";
const SAME_HASH: &str = "(survey, device, seq, id, lamport, prev, hash, line)
    SELECT survey, randomblob(16), 1, randomblob(16), 99, NULL, hash, '{}' FROM entry WHERE seq = 2 LIMIT 1";
const SAME_ROW: &str = "(survey, device, seq, id, lamport, prev, hash, line)
    SELECT survey, device, seq, id, lamport, prev, hash, line FROM entry WHERE seq = 2 LIMIT 1";

#[test]
fn no_insert_that_clashes_with_an_entry_is_accepted() {
    let (dir, before) = prepared();
    for clash in [SAME_POSITION, SAME_ID, SAME_HASH, SAME_ROW] {
        for verb in [
            "INSERT INTO",
            "INSERT OR REPLACE INTO",
            "INSERT OR IGNORE INTO",
            "INSERT OR ABORT INTO",
            "INSERT OR FAIL INTO",
            "INSERT OR ROLLBACK INTO",
            "REPLACE INTO",
        ] {
            each_is_refused(dir.path(), &before, &[&format!("{verb} entry {clash}")]);
        }
        for upsert in [
            "ON CONFLICT DO NOTHING",
            "ON CONFLICT (survey, device, seq) DO UPDATE SET line = '{\"v\":2}'",
            "ON CONFLICT (id) DO UPDATE SET line = '{\"v\":2}'",
            "ON CONFLICT (hash) DO UPDATE SET line = '{\"v\":2}'",
            "ON CONFLICT DO UPDATE SET line = excluded.line",
        ] {
            let sql = format!("INSERT INTO entry {clash} {upsert}");
            each_is_refused(dir.path(), &before, &[&sql]);
        }
    }
}

#[test]
fn without_the_guards_the_same_statements_would_change_the_log() {
    let spoils = |guard: &str, sql: &str| {
        let (dir, before) = prepared();
        let conn = Connection::open(database(dir.path())).unwrap();
        conn.execute_batch(&format!("DROP TRIGGER {guard};")).unwrap();
        conn.execute_batch(sql).unwrap();
        assert_ne!(content(&conn), before, "{sql}");
    };
    for clash in [SAME_POSITION, SAME_ID, SAME_HASH] {
        let with = |verb: &str| format!("{verb} entry {clash}");
        spoils("entry_is_never_replaced", &with("INSERT OR REPLACE INTO"));
        spoils("entry_is_never_replaced", &with("REPLACE INTO"));
    }
    spoils("entry_is_never_changed", "UPDATE OR REPLACE entry SET seq = 2 WHERE seq = 3");
    spoils("entry_is_never_changed", "UPDATE entry SET line = '{}'");
    spoils("entry_is_never_deleted", "DELETE FROM entry");
}

#[test]
fn no_update_of_an_entry_is_accepted() {
    let (dir, before) = prepared();
    each_is_refused(
        dir.path(),
        &before,
        &[
            "UPDATE entry SET line = '{}'",
            "UPDATE entry SET line = line",
            "UPDATE entry SET hash = randomblob(32) WHERE seq = 1",
            "UPDATE entry SET seq = seq + 10",
            "UPDATE entry SET lamport = 1 WHERE lamport = 3",
            "UPDATE OR REPLACE entry SET seq = 2 WHERE seq = 3",
            "UPDATE OR REPLACE entry SET id = (SELECT id FROM entry WHERE seq = 1) WHERE seq = 2",
            "UPDATE OR IGNORE entry SET line = '{}'",
            "UPDATE OR ABORT entry SET line = '{}'",
            "UPDATE OR FAIL entry SET line = '{}'",
            "UPDATE OR ROLLBACK entry SET line = '{}'",
            "UPDATE entry SET line = '{}' FROM device WHERE entry.seq = 1",
            "UPDATE entry SET place = 'attic'",
            "WITH two AS (SELECT 2 AS n) UPDATE entry SET line = '{}' WHERE seq IN (SELECT n FROM two) RETURNING seq",
        ],
    );
}

#[test]
fn no_deletion_of_an_entry_is_accepted() {
    let (dir, before) = prepared();
    each_is_refused(
        dir.path(),
        &before,
        &[
            "DELETE FROM entry",
            "DELETE FROM entry WHERE seq = 3",
            "DELETE FROM entry WHERE seq = (SELECT max(seq) FROM entry)",
            "DELETE FROM entry WHERE rowid = 1",
            "DELETE FROM entry WHERE _rowid_ = 1",
            "DELETE FROM entry WHERE oid = 1",
            "DELETE FROM entry WHERE true RETURNING seq",
            "INSERT OR REPLACE INTO entry (rowid, survey) VALUES (1, zeroblob(16))",
            "PRAGMA ignore_check_constraints = ON; DELETE FROM entry",
            "PRAGMA foreign_keys = OFF; DELETE FROM entry",
            "PRAGMA defer_foreign_keys = ON; DELETE FROM entry",
            "BEGIN; DELETE FROM entry; COMMIT",
            "SAVEPOINT a; DELETE FROM entry; RELEASE a",
        ],
    );
}

#[test]
fn an_entry_that_does_not_follow_is_refused_by_the_schema_itself() {
    let (dir, before) = prepared();
    let next = "INSERT INTO entry (survey, device, seq, id, lamport, prev, hash, line)
                SELECT survey, device, seq + $step, randomblob(16), 99, $prev, randomblob(32), $line FROM entry
                WHERE survey = (SELECT min(survey) FROM entry) ORDER BY seq DESC LIMIT 1";
    let with = |step: &str, prev: &str, line: &str| {
        next.replace("$step", step).replace("$prev", prev).replace("$line", line)
    };
    each_is_refused(
        dir.path(),
        &before,
        &[
            &with("2", "hash", "'{}'"),
            &with("1", "randomblob(32)", "'{}'"),
            &with("1", "NULL", "'{}'"),
            &with("1", "hash", "'not JSON'"),
            &with("1", "hash", "NULL"),
            &with("0.5", "hash", "'{}'"),
        ],
    );
    // The same statement without a fault is accepted, so the refusals above are for their faults.
    let conn = Connection::open(database(dir.path())).unwrap();
    assert_eq!(conn.execute(&with("1", "hash", "'{}'"), []).unwrap(), 1);
}

#[test]
fn forecasts_and_the_device_are_as_firm_as_the_log() {
    let (dir, before) = prepared();
    let same = "(survey, n, digest, catalog, engine, position, made_at, bytes)
                SELECT survey, n, randomblob(32), catalog, engine, position, made_at, x'00' FROM forecast WHERE n = 1";
    let far = same.replace("SELECT survey, n,", "SELECT survey, n + 5,");
    let device = "device (only_row, id, name, created_at) VALUES (1, randomblob(16), '', '')";
    for statement in [
        "UPDATE forecast SET bytes = x'00'",
        "UPDATE OR REPLACE forecast SET n = 1 WHERE n = 2",
        "UPDATE OR IGNORE forecast SET engine = ''",
        "DELETE FROM forecast",
        "DELETE FROM forecast WHERE n = 2",
        "DELETE FROM forecast WHERE rowid = 1",
        &format!("INSERT INTO forecast {same}"),
        &format!("INSERT OR REPLACE INTO forecast {same}"),
        &format!("INSERT OR IGNORE INTO forecast {same}"),
        &format!("REPLACE INTO forecast {same}"),
        &format!("INSERT INTO forecast {same} ON CONFLICT DO NOTHING"),
        &format!("INSERT INTO forecast {same} ON CONFLICT (survey, n) DO UPDATE SET bytes = excluded.bytes"),
        &format!("INSERT INTO forecast {far}"),
        "DELETE FROM device",
        "UPDATE device SET id = randomblob(16)",
        "UPDATE OR REPLACE device SET created_at = ''",
        &format!("INSERT INTO {device}"),
        &format!("INSERT OR REPLACE INTO {device}"),
        &format!("REPLACE INTO {device}"),
        &format!("INSERT INTO {device} ON CONFLICT (only_row) DO UPDATE SET id = excluded.id"),
        "INSERT INTO device (only_row, id, name, created_at) VALUES (2, randomblob(16), '', '')",
    ] {
        each_is_refused(dir.path(), &before, &[statement]);
    }
}

#[test]
fn the_columns_for_reading_say_what_the_line_says() {
    let (dir, _) = prepared();
    let conn = Connection::open(database(dir.path())).unwrap();
    let row: Vec<String> = conn
        .query_row(
            "SELECT at, by_whom, kind, place, item, value, unit, tolerance, entered, photos, corrects
             FROM entry WHERE seq = 2 AND survey = (SELECT min(survey) FROM entry)",
            [],
            |row| {
                (0..11).map(|i| row.get::<_, rusqlite::types::Value>(i).map(|v| format!("{v:?}"))).collect()
            },
        )
        .unwrap();
    let expected = [
        r#"Text("2026-04-12T08:20:02.000-05:00")"#,
        r#"Text("surveyor 1")"#,
        r#"Text("answer")"#,
        r#"Text("kitchen")"#,
        r#"Text("item-1")"#,
        r#"Text("{\"length\":3175}")"#,
        r#"Text("um/8")"#,
        "Integer(12700)",
        r#"Text("1/64 in")"#,
        r#"Text("[]")"#,
        r#"Text("[]")"#,
    ];
    assert_eq!(row, expected);
}
