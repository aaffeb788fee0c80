//! Reading the log and the list of surveys.

use std::path::Path;

use rusqlite::{Connection, Row};
use survey::log::{Entry, EntryError};
use survey::{DeviceId, Digest, Stamp, SurveyId};

use crate::error::{ErrorKind, SqlAt, StoreError};
use crate::open::Store;
use survey::{Phrase, Said, say};

/// What [`entry_of`] reads, in its order.
pub(crate) const COLUMNS: &str = "hash, line, survey, device, seq, id, lamport, prev";

/// One survey in the list on the first screen.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SurveyRow {
    /// The house.
    pub survey: SurveyId,
    /// Its name for people; empty while its opening has not arrived.
    pub label: String,
    /// Latest wall time recorded.
    pub last_touched: Stamp,
    /// Entries in the log.
    pub entries: u64,
}

/// What tells whether the log of a house is still as it was read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct LogMark {
    /// Changes with every change that another process, or another opener of this one, makes to the file
    /// (SQLite, `PRAGMA data_version`).
    pub others: i64,
    /// Entries there. What was recorded is never changed or taken out, so their number tells of our own.
    pub entries: u64,
}

/// The columns of a row of the list.
pub(crate) const LIST: &str = "now_survey.survey, coalesce(now_survey.label, ''), now_survey.last_ms, \
                               now_survey.last_offset, now_survey.entries";

/// A row of the list.
pub(crate) fn survey_row(row: &Row<'_>, file: &Path) -> Result<SurveyRow, StoreError> {
    let last_touched = Stamp::new(row.get(2).at(file)?, row.get(3).at(file)?);
    Ok(SurveyRow {
        survey: SurveyId::from_bytes(row.get(0).at(file)?),
        label: row.get(1).at(file)?,
        last_touched: last_touched
            .map_err(|e| StoreError::damaged(say!("store-in-list", said = e.to_string()), file))?,
        entries: row.get::<_, i64>(4).at(file)?.unsigned_abs(),
    })
}

impl Store {
    /// Every entry of a survey in log order (Lamport number, device, position); none for an unknown survey.
    ///
    /// Errors: `Damaged` when a line was changed since it was written; `Newer` when a newer program wrote one.
    pub fn entries(&self, survey: SurveyId) -> Result<Vec<Entry>, StoreError> {
        entries_of(&self.conn, survey, &self.file)
    }

    /// Tells whether the log of a survey is still as it was read: as long as this comes back the same. Quick, whatever the
    /// log holds.
    pub fn log_mark(&self, survey: SurveyId) -> Result<LogMark, StoreError> {
        let others = self.conn.pragma_query_value(None, "data_version", |row| row.get(0)).at(&self.file)?;
        let mut statement =
            self.conn.prepare_cached("SELECT count(*) FROM entry WHERE survey = ?1").at(&self.file)?;
        let entries: i64 = statement.query_row([survey.as_bytes()], |row| row.get(0)).at(&self.file)?;
        Ok(LogMark { others, entries: entries.unsigned_abs() })
    }

    /// All surveys, the last touched first.
    pub fn surveys(&self) -> Result<Vec<SurveyRow>, StoreError> {
        let sql = format!("SELECT {LIST} FROM now_survey ORDER BY last_ms DESC, survey");
        let mut statement = self.conn.prepare_cached(&sql).at(&self.file)?;
        let mut rows = statement.query([]).at(&self.file)?;
        let mut surveys = Vec::new();
        while let Some(row) = rows.next().at(&self.file)? {
            surveys.push(survey_row(row, &self.file)?);
        }
        Ok(surveys)
    }

    /// The survey a person means: by its whole id, its exact label, the beginning of its id, or its label in other
    /// upper and lower case; the first of these that fits.
    ///
    /// Errors: `Missing` when none fits, with the surveys there are; `Conflict` when several do.
    pub fn find_survey(&self, text: &str) -> Result<SurveyRow, StoreError> {
        let text = text.trim();
        let surveys = self.surveys()?;
        let lower = text.to_lowercase();
        let fits: [&dyn Fn(&SurveyRow) -> bool; 4] = [
            &|row| row.survey.to_string() == text,
            &|row| !text.is_empty() && row.label == text,
            &|row| !text.is_empty() && row.survey.to_string().starts_with(&lower),
            &|row| !text.is_empty() && row.label.to_lowercase() == lower,
        ];
        for fit in fits {
            let mut found = surveys.iter().filter(|row| fit(row));
            match (found.next(), found.next()) {
                (None, _) => {}
                (Some(row), None) => return Ok(row.clone()),
                (Some(_), Some(_)) => {
                    let meant: Vec<SurveyRow> = surveys.iter().filter(|row| fit(row)).cloned().collect();
                    return Err(StoreError::new(
                        ErrorKind::Conflict,
                        say!("store-several", text = text, n = meant.len(), names = names(&meant)),
                        &self.file,
                        Phrase("store-several-mend"),
                    ));
                }
            }
        }
        let there = if surveys.is_empty() { Phrase("store-none-yet").into() } else { names(&surveys) };
        Err(StoreError::new(
            ErrorKind::Missing,
            say!("store-no-survey", text = text),
            &self.file,
            say!("store-no-survey-mend", there = there),
        ))
    }
}

/// The entries of a survey in log order.
pub(crate) fn entries_of(conn: &Connection, survey: SurveyId, file: &Path) -> Result<Vec<Entry>, StoreError> {
    let sql = format!("SELECT {COLUMNS} FROM entry WHERE survey = ?1 ORDER BY lamport, device, seq");
    let mut statement = conn.prepare_cached(&sql).at(file)?;
    let mut rows = statement.query([survey.as_bytes()]).at(file)?;
    let mut entries = Vec::new();
    while let Some(row) = rows.next().at(file)? {
        entries.push(entry_of(row, file)?);
    }
    Ok(entries)
}

/// "Alder Street (0190f1c2-7b3a…), Heron Court (…)", at most eight.
fn names(surveys: &[SurveyRow]) -> Said {
    let named = |row: &SurveyRow| {
        let id: String = row.survey.to_string().chars().take(23).collect();
        let label =
            if row.label.is_empty() { Phrase("store-no-name").into() } else { Said::from(&row.label) };
        Said::run([label, format!(" ({id}…)").into()])
    };
    let list = Said::List(surveys.iter().take(8).map(named).collect());
    match surveys.len() {
        0..=8 => list,
        all => say!("store-and-more", list = list, n = all - 8),
    }
}

/// Reads one row selected with [`COLUMNS`] and holds it against its own hash and columns.
pub(crate) fn entry_of(row: &Row<'_>, file: &Path) -> Result<Entry, StoreError> {
    let bytes = |column: usize| {
        row.get_ref(column).at(file).and_then(|value| {
            value
                .as_bytes()
                .map_err(|e| StoreError::damaged(say!("store-entry-unread", said = e.to_string()), file))
        })
    };
    let (hash, line) = (bytes(0)?, bytes(1)?);
    let (survey, device, id) = (bytes(2)?, bytes(3)?, bytes(5)?);
    let (seq, lamport): (i64, i64) = (row.get(4).at(file)?, row.get(6).at(file)?);
    let prev: Option<[u8; 32]> = row.get(7).at(file)?;
    let device_text =
        || <[u8; 16]>::try_from(device).map_or("?".to_owned(), |d| DeviceId::from_bytes(d).to_string());
    let which = || say!("store-entry-of", n = seq.to_string(), device = device_text());
    if Digest::of(line).as_bytes() != hash {
        return Err(StoreError::damaged(say!("store-entry-changed", entry = which()), file));
    }
    let entry = Entry::from_bytes(line).map_err(|e| match e {
        EntryError::Newer { .. } => {
            StoreError::new(ErrorKind::Newer, about(which(), e.said()), file, Phrase("store-nothing-changed"))
        }
        _ => StoreError::damaged(about(which(), e.said()), file),
    })?;
    let same = entry.survey.as_bytes() == survey
        && entry.device.as_bytes() == device
        && entry.id.as_bytes() == id
        && entry.seq == seq.unsigned_abs()
        && entry.lamport == lamport.unsigned_abs()
        && entry.prev.map(|p| *p.as_bytes()) == prev;
    if !same {
        return Err(StoreError::damaged(say!("store-entry-astray", entry = which()), file));
    }
    Ok(entry)
}

fn about(what: Said, said: Said) -> Said {
    say!("store-about", what = what, said = said)
}
