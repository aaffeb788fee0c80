//! States of the key register and published versions of the catalog in SQLite.

use courier::talk::{Published, Text};
use rusqlite::params;
use survey::Digest;

use super::Sqlite;
use crate::OfficeError;
use crate::repo::{CatalogRows, RegisterRows};

impl RegisterRows for Sqlite {
    fn register(&self) -> Result<Option<String>, OfficeError> {
        self.one("SELECT body FROM register ORDER BY n DESC LIMIT 1", [], |r| r.get(0))
    }
    fn add_register(&mut self, state: &str) -> Result<(), OfficeError> {
        let sql = "INSERT INTO register (n, body) SELECT COALESCE(MAX(n), 0) + 1, ?1 FROM register";
        self.run(sql, [state]).map(drop)
    }
}

impl CatalogRows for Sqlite {
    fn published(&self) -> Result<Option<Published>, OfficeError> {
        let sql = "SELECT version, files FROM catalog_version ORDER BY number DESC LIMIT 1";
        let row: Option<(String, String)> = self.one(sql, [], |r| Ok((r.get(0)?, r.get(1)?)))?;
        let Some((version, files)) = row else { return Ok(None) };
        let files: Vec<Text> = serde_json::from_str(&files).map_err(|e| self.damaged(e.to_string()))?;
        Ok(Some(Published { version, files }))
    }
    fn published_number(&self, digest: Digest) -> Result<Option<u64>, OfficeError> {
        let sql = "SELECT number, version FROM catalog_version ORDER BY number DESC";
        let all: Vec<(i64, String)> = self.all(sql, [], |r| Ok((r.get(0)?, r.get(1)?)))?;
        let its = all.into_iter().find(|(_, version)| Digest::of(version.as_bytes()) == digest);
        Ok(its.map(|(number, _)| number.unsigned_abs()))
    }
    fn add_published(&mut self, number: u64, version: &Published) -> Result<(), OfficeError> {
        let files = serde_json::to_string(&version.files).map_err(|e| self.damaged(e.to_string()))?;
        let sql = "INSERT INTO catalog_version (number, version, files) VALUES (?1, ?2, ?3)";
        // A number the column cannot hold is negative there, which it refuses.
        self.run(sql, params![number.cast_signed(), version.version, files]).map(drop)
    }
}
