//! Tables made from the log for reading: kept up entry by entry, thrown away and made anew when their file changes.

use std::path::Path;

use rusqlite::{Connection, OptionalExtension, Transaction, TransactionBehavior};
use survey::log::{Answer, Body, Entry};
use survey::model::Closing;
use survey::{Digest, EntryId, SurveyId};

use crate::error::{SqlAt, StoreError};
use crate::open::Store;
use crate::read::{COLUMNS, entries_of, entry_of};

/// The tables; running it drops what was there.
pub(crate) const SQL: &str = include_str!("../../../migrations/device/projection.sql");

impl Store {
    /// Throws the readable tables away and makes them anew from the log.
    pub fn rebuild(&mut self) -> Result<(), StoreError> {
        rebuild(&mut self.conn, &self.file)
    }
}

/// Makes the tables when they are not the ones this program knows.
pub(crate) fn ensure(conn: &mut Connection, file: &Path) -> Result<(), StoreError> {
    let names = "SELECT count(*) FROM sqlite_schema WHERE name IN
        ('answer_now', 'now_claim', 'now_correction', 'now_survey', 'now_version')";
    let count: i64 = conn.query_row(names, [], |row| row.get(0)).at(file)?;
    if count == 5 {
        let version = "SELECT sha256 FROM now_version";
        let made_by: Option<String> = conn.query_row(version, [], |row| row.get(0)).optional().at(file)?;
        if made_by.as_deref() == Some(Digest::of(SQL.as_bytes()).hex().as_str()) {
            return Ok(());
        }
    }
    rebuild(conn, file)
}

fn rebuild(conn: &mut Connection, file: &Path) -> Result<(), StoreError> {
    let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate).at(file)?;
    tx.execute_batch(SQL).at(file)?;
    {
        let mut statement =
            tx.prepare(&format!("SELECT {COLUMNS} FROM entry ORDER BY survey, lamport")).at(file)?;
        let mut rows = statement.query([]).at(file)?;
        while let Some(row) = rows.next().at(file)? {
            add(&tx, &entry_of(row, file)?, file)?;
        }
    }
    tx.execute(
        "INSERT INTO now_version (only_row, sha256) VALUES (1, ?1)",
        [Digest::of(SQL.as_bytes()).hex()],
    )
    .at(file)?;
    tx.commit().at(file)
}

/// Adds one entry that stands in the log, in whatever order entries come.
pub(crate) fn add(tx: &Transaction<'_>, entry: &Entry, file: &Path) -> Result<(), StoreError> {
    add_to_house(tx, entry).at(file)?;
    let ends = matches!(entry.body, Body::Demolition(_) | Body::DemolitionWithdrawn(_));
    if ends || ended_by(tx, entry.survey).at(file)?.is_some() {
        return answers_anew(tx, entry.survey, file);
    }
    match &entry.body {
        Body::Answer(answer) => add_answer(tx, entry, answer).at(file),
        _ => Ok(()),
    }
}

/// The entry that declared demolition of a house, if that stands.
pub(crate) fn ended_by(conn: &Connection, survey: SurveyId) -> rusqlite::Result<Option<[u8; 16]>> {
    conn.prepare_cached("SELECT ended_by FROM now_survey WHERE survey = ?1")?
        .query_row([survey.as_bytes()], |row| row.get(0))
        .optional()
        .map(Option::flatten)
}

/// Makes the answers of one house anew: where demolition was declared or a declaration withdrawn, what counts of the log
/// is no longer told by one entry.
fn answers_anew(tx: &Transaction<'_>, survey: SurveyId, file: &Path) -> Result<(), StoreError> {
    for table in ["now_claim", "now_correction"] {
        tx.execute(&format!("DELETE FROM {table} WHERE survey = ?1"), [survey.as_bytes()]).at(file)?;
    }
    let entries = entries_of(tx, survey, file)?;
    let closing = Closing::of(&entries);
    for entry in entries.iter().filter(|entry| !closing.sets_aside(entry)) {
        if let Body::Answer(answer) = &entry.body {
            add_answer(tx, entry, answer).at(file)?;
        }
    }
    let ended_by = closing.declared_by();
    tx.prepare_cached("UPDATE now_survey SET ended_by = ?2 WHERE survey = ?1")
        .and_then(|mut set| set.execute((survey.as_bytes(), ended_by.as_ref().map(EntryId::as_bytes))))
        .at(file)?;
    Ok(())
}

/// What is told of the house as a whole.
fn add_to_house(tx: &Transaction<'_>, entry: &Entry) -> rusqlite::Result<()> {
    tx.prepare_cached(
        "INSERT INTO now_survey (survey, last_ms, last_offset, entries) VALUES (?1, ?2, ?3, 1)
         ON CONFLICT (survey) DO UPDATE SET
           entries = entries + 1,
           last_ms = iif((?2, ?3) > (last_ms, last_offset), ?2, last_ms),
           last_offset = iif((?2, ?3) > (last_ms, last_offset), ?3, last_offset)",
    )?
    .execute((entry.survey.as_bytes(), entry.at.unix_ms(), entry.at.offset_min()))?;
    if let Body::Opened(opened) = &entry.body {
        tx.prepare_cached(
            "UPDATE now_survey SET label = ?2, opened_lamport = ?3, opened_device = ?4, opened_seq = ?5
             WHERE survey = ?1 AND (opened_lamport IS NULL
               OR (?3, ?4, ?5) < (opened_lamport, opened_device, opened_seq))",
        )?
        .execute((
            entry.survey.as_bytes(),
            &opened.label,
            entry.lamport.cast_signed(), // was inserted as such
            entry.device.as_bytes(),
            entry.seq.cast_signed(),
        ))?;
    }
    Ok(())
}

fn add_answer(tx: &Transaction<'_>, entry: &Entry, answer: &Answer) -> rusqlite::Result<()> {
    for corrected in answer.corrects.iter().filter(|id| **id != entry.id) {
        tx.prepare_cached(
            "INSERT OR IGNORE INTO now_correction (survey, corrected, by_entry) VALUES (?1, ?2, ?3)",
        )?
        .execute((entry.survey.as_bytes(), corrected.as_bytes(), entry.id.as_bytes()))?;
        take_claim_away(tx, entry, *corrected)?;
    }
    let corrected_already = tx
        .prepare_cached("SELECT 1 FROM now_correction WHERE survey = ?1 AND corrected = ?2")?
        .exists((entry.survey.as_bytes(), entry.id.as_bytes()))?;
    if corrected_already {
        return Ok(());
    }
    tx.prepare_cached(
        "INSERT INTO now_claim
           (survey, place, item, lamport, device, seq, id, at, by_whom, value, tolerance, entered)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12)",
    )?
    .execute((
        entry.survey.as_bytes(),
        &answer.place,
        &answer.item,
        entry.lamport.cast_signed(),
        entry.device.as_bytes(),
        entry.seq.cast_signed(),
        entry.id.as_bytes(),
        entry.at.to_string(),
        &entry.by,
        value_text(answer),
        tolerance(answer),
        &answer.entered,
    ))?;
    Ok(())
}

fn take_claim_away(tx: &Transaction<'_>, by: &Entry, corrected: EntryId) -> rusqlite::Result<()> {
    tx.prepare_cached(
        "DELETE FROM now_claim WHERE survey = ?1 AND (place, item, lamport, device, seq) =
           (SELECT place, item, lamport, device, seq FROM entry WHERE id = ?2 AND survey = ?1)",
    )?
    .execute((by.survey.as_bytes(), corrected.as_bytes()))?;
    Ok(())
}

/// The value as JSON.
pub(crate) fn value_text(answer: &Answer) -> String {
    serde_json::to_string(&answer.value).unwrap_or_default() // plain data: always serializes
}

/// The tolerance in eighths of a micrometer.
pub(crate) fn tolerance(answer: &Answer) -> Option<i64> {
    answer.tolerance.map(|t| t.eighth_um())
}
