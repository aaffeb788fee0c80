use super::*;

const FIRST: Migration = Migration { number: 1, name: "first", sql: "CREATE TABLE a (x INTEGER) STRICT;" };
const SECOND: Migration = Migration { number: 2, name: "second", sql: "ALTER TABLE a ADD COLUMN y INTEGER;" };

fn now() -> Stamp {
    "2026-04-12T09:30:00.000-05:00".parse().unwrap()
}

fn run_on(conn: &mut Connection, steps: &[Migration]) -> Result<(), StoreError> {
    run(conn, steps, now(), Path::new("test.sqlite"))
}

fn tables(conn: &Connection) -> i64 {
    conn.query_row("SELECT count(*) FROM sqlite_schema WHERE type = 'table'", [], |row| row.get(0)).unwrap()
}

#[test]
fn steps_are_applied_once_in_order_and_recorded_with_digest_and_time() {
    let mut conn = Connection::open_in_memory().unwrap();
    run_on(&mut conn, &[FIRST]).unwrap();
    run_on(&mut conn, &[FIRST, SECOND]).unwrap();
    run_on(&mut conn, &[FIRST, SECOND]).unwrap();
    conn.execute("INSERT INTO a (x, y) VALUES (1, 2)", []).unwrap();
    let row: (i64, String, String, String) = conn
        .query_row("SELECT number, name, sha256, applied_at FROM migration WHERE number = 2", [], |row| {
            Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?))
        })
        .unwrap();
    let digest = Digest::of(SECOND.sql.as_bytes()).hex();
    assert_eq!(row, (2, "second".into(), digest, "2026-04-12T09:30:00.000-05:00".into()));
}

#[test]
fn a_step_that_fails_halfway_leaves_nothing() {
    let mut conn = Connection::open_in_memory().unwrap();
    run_on(&mut conn, &[FIRST]).unwrap();
    let half =
        Migration { number: 2, name: "half", sql: "CREATE TABLE b (x INTEGER); CREATE TABLE a (x INTEGER);" };
    assert!(run_on(&mut conn, &[FIRST, half]).is_err());
    assert_eq!(tables(&conn), 2, "`a` and `migration`, not `b`");
    run_on(&mut conn, &[FIRST, SECOND]).unwrap();
}

#[test]
fn a_database_of_a_newer_program_is_refused_and_left_alone() {
    let mut conn = Connection::open_in_memory().unwrap();
    run_on(&mut conn, &[FIRST, SECOND]).unwrap();
    let error = run_on(&mut conn, &[FIRST]).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::Newer);
    assert!(error.to_string().contains("store-form-newer-mend"), "{error}");
}

#[test]
fn a_database_made_by_another_text_of_the_same_step_is_refused() {
    let mut conn = Connection::open_in_memory().unwrap();
    run_on(&mut conn, &[FIRST]).unwrap();
    let edited = Migration { sql: "CREATE TABLE a (x INTEGER) STRICT; ", ..FIRST };
    let error = run_on(&mut conn, &[edited, SECOND]).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::Conflict);
    assert!(error.to_string().contains("store-step-other"), "{error}");
    assert_eq!(tables(&conn), 2);
}

#[test]
fn the_numbers_have_no_holes_and_released_files_are_as_they_were_released() {
    for (place, step) in MIGRATIONS.iter().enumerate() {
        assert_eq!(step.number as usize, place + 1, "{}", step.name);
    }
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../migrations");
    let released = std::fs::read_to_string(folder.join("RELEASED.sha256")).unwrap();
    for line in released.lines() {
        let (digest, name) = line.split_once("  ").expect("lines as sha256sum writes them");
        let bytes = std::fs::read(folder.join(name)).unwrap();
        assert_eq!(
            Digest::of(&bytes).hex(),
            digest,
            "{name} was released and must not change; add a new file"
        );
    }
    for step in MIGRATIONS {
        let name = format!("device/{:04}_{}.sql", step.number, step.name);
        assert_eq!(std::fs::read_to_string(folder.join(&name)).unwrap(), step.sql, "{name}");
        assert!(released.contains(&name), "{name} is not in RELEASED.sha256");
    }
}
