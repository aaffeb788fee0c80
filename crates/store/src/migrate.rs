//! Brings a database to the newest form: numbered SQL files, each in one transaction with the row that records it.

use std::path::Path;

use rusqlite::{Connection, TransactionBehavior};
use survey::{Digest, Stamp};

use crate::error::{ErrorKind, SqlAt, StoreError};
use survey::{Phrase, say};

/// One step, embedded when the program is built.
#[derive(Clone, Copy)]
pub(crate) struct Migration {
    /// From 1, without holes.
    pub(crate) number: u32,
    /// File name without number and ending.
    pub(crate) name: &'static str,
    /// The file.
    pub(crate) sql: &'static str,
}

/// The steps of the device's database.
pub(crate) const MIGRATIONS: &[Migration] = &[
    Migration {
        number: 1,
        name: "observation_log",
        sql: include_str!("../../../migrations/device/0001_observation_log.sql"),
    },
    Migration {
        number: 2,
        name: "where_left",
        sql: include_str!("../../../migrations/device/0002_where_left.sql"),
    },
    Migration {
        number: 3,
        name: "previews",
        sql: include_str!("../../../migrations/device/0003_previews.sql"),
    },
    Migration {
        number: 4,
        name: "packets",
        sql: include_str!("../../../migrations/device/0004_packets.sql"),
    },
    Migration {
        number: 5,
        name: "household_signature",
        sql: include_str!("../../../migrations/device/0005_household_signature.sql"),
    },
    Migration {
        number: 6,
        name: "office_link",
        sql: include_str!("../../../migrations/device/0006_office_link.sql"),
    },
];

const BOOK: &str = "
CREATE TABLE IF NOT EXISTS migration (
  number     INTEGER NOT NULL PRIMARY KEY CHECK (number >= 1),
  name       TEXT    NOT NULL,
  sha256     TEXT    NOT NULL CHECK (length(sha256) = 64),
  applied_at TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
";

/// Applies what is missing; refuses a database this program does not know.
pub(crate) fn run(
    conn: &mut Connection,
    steps: &[Migration],
    now: Stamp,
    file: &Path,
) -> Result<(), StoreError> {
    let mut applied = recorded(conn, file)?;
    compare(&applied, steps, file)?;
    while let Some(step) = steps.get(applied.len()) {
        let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate).at(file)?;
        // Another process may have been quicker while we waited for the lock.
        applied = recorded(&tx, file)?;
        compare(&applied, steps, file)?;
        if applied.len() < step.number as usize {
            tx.execute_batch(BOOK).at(file)?;
            tx.execute_batch(step.sql).at(file)?;
            let digest = Digest::of(step.sql.as_bytes()).hex();
            tx.execute(
                "INSERT INTO migration (number, name, sha256, applied_at) VALUES (?1, ?2, ?3, ?4)",
                (step.number, step.name, &digest, now.to_string()),
            )
            .at(file)?;
            applied.push((i64::from(step.number), digest));
        }
        tx.commit().at(file)?;
    }
    Ok(())
}

/// Number and digest of each applied step, in order.
fn recorded(conn: &Connection, file: &Path) -> Result<Vec<(i64, String)>, StoreError> {
    let book = "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'migration'";
    if conn.query_row(book, [], |row| row.get::<_, i64>(0)).at(file)? == 0 {
        return Ok(Vec::new());
    }
    let mut statement = conn.prepare("SELECT number, sha256 FROM migration ORDER BY number").at(file)?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?))).at(file)?;
    rows.collect::<rusqlite::Result<_>>().at(file)
}

fn compare(applied: &[(i64, String)], steps: &[Migration], file: &Path) -> Result<(), StoreError> {
    for (place, (number, digest)) in applied.iter().enumerate() {
        let Some(step) = steps.get(place) else {
            return Err(StoreError::new(
                ErrorKind::Newer,
                say!("store-form-newer", number = number.to_string(), known = steps.len()),
                file,
                Phrase("store-form-newer-mend"),
            ));
        };
        if *number != i64::from(step.number) {
            return Err(StoreError::damaged(
                say!("store-step-astray", number = number.to_string(), wanted = step.number),
                file,
            ));
        }
        if *digest != Digest::of(step.sql.as_bytes()).hex() {
            return Err(StoreError::new(
                ErrorKind::Conflict,
                say!("store-step-other", number = number.to_string(), name = step.name),
                file,
                Phrase("store-step-other-mend"),
            ));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests;
