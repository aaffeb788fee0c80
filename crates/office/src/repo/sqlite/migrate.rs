//! Opening the desk's database: settings and migrations, forward only, each in one transaction.

use std::path::Path;

use rusqlite::{Connection, TransactionBehavior};

use crate::OfficeError;

const MIGRATIONS: [&str; 10] = [
    include_str!("../../../../../migrations/office/sqlite/0001_desk.sql"),
    include_str!("../../../../../migrations/office/sqlite/0002_register.sql"),
    include_str!("../../../../../migrations/office/sqlite/0003_people.sql"),
    include_str!("../../../../../migrations/office/sqlite/0004_tablets.sql"),
    include_str!("../../../../../migrations/office/sqlite/0005_catalog.sql"),
    include_str!("../../../../../migrations/office/sqlite/0006_demolition.sql"),
    include_str!("../../../../../migrations/office/sqlite/0007_numbers_on_tablets.sql"),
    include_str!("../../../../../migrations/office/sqlite/0008_first_passwords.sql"),
    include_str!("../../../../../migrations/office/sqlite/0009_second_factors.sql"),
    include_str!("../../../../../migrations/office/sqlite/0010_closed_houses.sql"),
];
/// "ULOF" in the file's header tells our database from another program's.
const APPLICATION_ID: i64 = 0x554C_4F46;

pub(crate) fn open(path: &Path) -> Result<Connection, OfficeError> {
    let database = |e: rusqlite::Error| OfficeError::Database { path: path.to_owned(), what: e.to_string() };
    let mut conn = Connection::open(path).map_err(database)?;
    conn.busy_timeout(std::time::Duration::from_secs(10)).map_err(database)?;
    let number = |conn: &Connection, name: &str| -> Result<i64, OfficeError> {
        conn.query_row(&format!("PRAGMA {name}"), [], |r| r.get(0)).map_err(database)
    };
    let version = number(&conn, "user_version")?;
    let ours = number(&conn, "application_id")?;
    if (version != 0 || ours != 0) && ours != APPLICATION_ID {
        let what = "it belongs to another program".to_owned();
        return Err(OfficeError::Database { path: path.to_owned(), what });
    }
    if version > MIGRATIONS.len() as i64 {
        return Err(OfficeError::Newer { path: path.to_owned() });
    }
    conn.execute_batch("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;")
        .map_err(database)?;
    for (n, sql) in (1i64..).zip(MIGRATIONS).skip(version as usize) {
        let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate).map_err(database)?;
        let now: i64 = tx.query_row("PRAGMA user_version", [], |r| r.get(0)).map_err(database)?;
        if now < n {
            tx.execute_batch(sql).map_err(database)?;
            tx.execute_batch(&format!(
                "PRAGMA application_id = {APPLICATION_ID}; PRAGMA user_version = {n};"
            ))
            .map_err(database)?;
        }
        tx.commit().map_err(database)?;
    }
    Ok(conn)
}
