//! The office's records in SQLite. No word of SQL and no type of `rusqlite` leaves this folder.

mod arrivals;
mod keys;
mod migrate;
mod people;
mod tablets;

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OptionalExtension as _, Params, Row};

use super::Repo;
use crate::OfficeError;

/// A database file.
pub struct Sqlite {
    conn: Connection,
    path: PathBuf,
}

impl Sqlite {
    /// Opens the database in this file, making it on first use and bringing it to the form of this program.
    ///
    /// # Errors
    /// A file of another or a newer program, and what SQLite refuses with.
    pub fn open(path: &Path) -> Result<Self, OfficeError> {
        Ok(Self { conn: migrate::open(path)?, path: path.to_owned() })
    }

    fn fail(&self, e: &rusqlite::Error) -> OfficeError {
        self.damaged(e.to_string())
    }
    fn damaged(&self, what: String) -> OfficeError {
        OfficeError::Database { path: self.path.clone(), what }
    }
    fn run(&self, sql: &str, with: impl Params) -> Result<usize, OfficeError> {
        self.conn.prepare_cached(sql).and_then(|mut s| s.execute(with)).map_err(|e| self.fail(&e))
    }
    fn one<T>(
        &self,
        sql: &str,
        with: impl Params,
        read: impl FnOnce(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Option<T>, OfficeError> {
        self.conn
            .prepare_cached(sql)
            .and_then(|mut s| s.query_row(with, read).optional())
            .map_err(|e| self.fail(&e))
    }
    fn all<T>(
        &self,
        sql: &str,
        with: impl Params,
        read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Vec<T>, OfficeError> {
        let mut rows = self.conn.prepare_cached(sql).map_err(|e| self.fail(&e))?;
        rows.query_map(with, read).and_then(Iterator::collect).map_err(|e| self.fail(&e))
    }
}

impl Repo for Sqlite {
    fn begin(&mut self) -> Result<(), OfficeError> {
        self.conn.execute_batch("BEGIN IMMEDIATE").map_err(|e| self.fail(&e))
    }
    fn commit(&mut self) -> Result<(), OfficeError> {
        self.conn.execute_batch("COMMIT").map_err(|e| self.fail(&e))
    }
    fn roll_back(&mut self) -> Result<(), OfficeError> {
        self.conn.execute_batch("ROLLBACK").map_err(|e| self.fail(&e))
    }

    fn place(&self) -> &Path {
        &self.path
    }
    fn check(&self) -> Result<(), OfficeError> {
        let told = self.all("PRAGMA integrity_check", [], |r| r.get::<_, String>(0))?;
        let loose = self.all("PRAGMA foreign_key_check", [], |r| r.get::<_, String>(0))?;
        match told.iter().find(|line| *line != "ok").or(loose.first()) {
            Some(what) => Err(self.damaged(what.clone())),
            None => Ok(()),
        }
    }
    fn copy_into(&self, file: &Path) -> Result<(), OfficeError> {
        // A name that is no Unicode cannot be told to SQLite; the folder of a copy is ours.
        self.run("VACUUM INTO ?1", [file.to_string_lossy()]).map(drop)
    }
}

/// A column of text, read further.
fn text<T>(r: &Row<'_>, at: usize, read: impl FnOnce(&str) -> Result<T, String>) -> rusqlite::Result<T> {
    let text: String = r.get(at)?;
    read(&text)
        .map_err(|e| rusqlite::Error::FromSqlConversionFailure(at, rusqlite::types::Type::Text, e.into()))
}

fn maybe<T>(
    r: &Row<'_>,
    at: usize,
    read: impl FnOnce(&str) -> Result<T, String>,
) -> rusqlite::Result<Option<T>> {
    match r.get_ref(at)?.as_str_or_null()? {
        None => Ok(None),
        Some(_) => text(r, at, read).map(Some),
    }
}
