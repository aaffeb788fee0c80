//! Looks whether everything is as it was written: file, schema, every entry, every chain, tables, forecasts, photographs.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use rusqlite::Connection;
use survey::log::{Body, Entry, check_chain};
use survey::model::fold;
use survey::{DeviceId, SurveyId};

use crate::error::{ErrorKind, SqlAt, StoreError};
use crate::migrate::{self, MIGRATIONS};
use crate::open::Store;
use crate::read::{COLUMNS, entry_of};
use crate::{Forecast, forecast, projection};
use survey::{Phrase, Said, say};

mod tables;

/// What was looked at, and what is wrong.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct CheckReport {
    /// Surveys in the log.
    pub surveys: u64,
    /// Entries that are whole.
    pub entries: u64,
    /// Forecasts that are whole.
    pub forecasts: u64,
    /// Photographs that are whole.
    pub photos: u64,
    /// Small pictures made of photographs that are whole.
    pub previews: u64,
    /// Packets that lie where they were written, whole.
    pub packets: u64,
    /// Files among the small pictures that no photograph has: left by a crash, taken away by sweeping.
    pub leftover_previews: u64,
    /// Everything that is not as it should be; each says what, where, and how to mend it.
    pub problems: Vec<StoreError>,
}

impl CheckReport {
    /// True when nothing is wrong.
    pub fn is_whole(&self) -> bool {
        self.problems.is_empty()
    }
    pub(crate) fn note<T>(&mut self, result: Result<T, StoreError>) -> Option<T> {
        result.map_err(|problem| self.problems.push(problem)).ok()
    }
}

impl Store {
    /// Looks at everything, changes nothing. Reads every photograph, so it takes as long as reading them does.
    pub fn check(&self) -> CheckReport {
        let mut report = CheckReport::default();
        // One read transaction, so that another process writing meanwhile does not look like damage.
        let Some(tx) = report.note(self.conn.unchecked_transaction().at(&self.file)) else { return report };
        check_file(&tx, &self.file, &mut report);
        let schema = check_schema(&tx, &self.file);
        report.note(schema);
        let entries = check_entries(&tx, &self.file, &mut report);
        let by_survey = by_survey(&entries);
        report.surveys = by_survey.len() as u64;
        let pictures = by_survey.iter().map(|(id, list)| (*id, fold(list.iter().copied()))).collect();
        let same = tables::compare(&tx, &pictures, &entries, &self.file);
        report.note(same);
        check_forecasts(&tx, &self.file, &mut report);
        self.check_photos(&entries, &mut report);
        self.check_previews(&tx, &mut report);
        self.check_packets(&tx, &mut report);
        report
    }

    fn check_photos(&self, entries: &[Entry], report: &mut CheckReport) {
        let mut sizes = BTreeMap::new();
        let mut wanted = BTreeSet::new();
        for entry in entries {
            match &entry.body {
                Body::Photo(photo) => {
                    wanted.insert(photo.digest);
                    sizes.insert(photo.digest, photo.bytes);
                }
                Body::Answer(answer) => wanted.extend(answer.photos.iter().copied()),
                _ => {}
            }
        }
        let Some((kept, strangers)) = report.note(self.blobs.list()) else { return };
        for stranger in strangers {
            report.problems.push(StoreError::new(
                ErrorKind::Conflict,
                Phrase("store-stranger"),
                &stranger,
                Phrase("store-stranger-mend"),
            ));
        }
        wanted.extend(kept);
        for digest in wanted {
            let Some(found) = report.note(self.blobs.verify(digest)) else { continue };
            match sizes.get(&digest) {
                Some(said) if *said != found => report.problems.push(StoreError::new(
                    ErrorKind::Conflict,
                    say!(
                        "store-photo-size",
                        photo = digest.short(),
                        said = said.to_string(),
                        found = found.to_string()
                    ),
                    &self.blobs.path(digest),
                    Phrase("store-photo-size-mend"),
                )),
                _ => report.photos += 1,
            }
        }
    }
}

/// SQLite's own look at the file.
fn check_file(conn: &Connection, file: &Path, report: &mut CheckReport) {
    let lines = || -> rusqlite::Result<Vec<String>> {
        let mut statement = conn.prepare("PRAGMA integrity_check(20)")?;
        let rows = statement.query_map([], |row| row.get(0))?;
        rows.collect()
    };
    let Some(lines) = report.note(lines().at(file)) else { return };
    for line in lines.into_iter().filter(|line| line != "ok") {
        report.problems.push(StoreError::damaged(say!("store-sqlite-damaged", said = line), file));
    }
}

/// Every table, index, view and trigger is there, word for word, and no other.
fn check_schema(conn: &Connection, file: &Path) -> Result<(), StoreError> {
    let stamp = survey::Stamp::new(0, 0)
        .map_err(|e| StoreError::damaged(say!("store-no-schema", said = e.to_string()), file))?;
    let mut fresh = Connection::open_in_memory().at(file)?;
    migrate::run(&mut fresh, MIGRATIONS, stamp, file)?;
    fresh.execute_batch(projection::SQL).at(file)?;
    let (wanted, found) = (schema(&fresh).at(file)?, schema(conn).at(file)?);
    let mut wrong: Vec<Said> = Vec::new();
    for (name, sql) in &wanted {
        match found.get(name) {
            None => wrong.push(say!("store-part-missing", name = name)),
            Some(other) if other != sql => wrong.push(say!("store-part-changed", name = name)),
            Some(_) => {}
        }
    }
    wrong.extend(
        found
            .keys()
            .filter(|name| !wanted.contains_key(*name))
            .map(|name| say!("store-part-added", name = name)),
    );
    if wrong.is_empty() {
        return Ok(());
    }
    Err(StoreError::new(
        ErrorKind::Damaged,
        say!("store-altered", parts = wrong),
        file,
        Phrase("store-altered-mend"),
    ))
}

fn schema(conn: &Connection) -> rusqlite::Result<BTreeMap<String, Option<String>>> {
    let sql =
        "SELECT type || ' ' || name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\'";
    let mut statement = conn.prepare(sql)?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    rows.collect()
}

/// Every entry against its hash, its columns and the entry before it; returns those that are whole.
fn check_entries(conn: &Connection, file: &Path, report: &mut CheckReport) -> Vec<Entry> {
    let mut entries = Vec::new();
    let sql = format!("SELECT {COLUMNS} FROM entry ORDER BY survey, device, seq");
    let Some(mut statement) = report.note(conn.prepare(&sql).at(file)) else { return entries };
    let Some(mut rows) = report.note(statement.query([]).at(file)) else { return entries };
    loop {
        match rows.next() {
            Ok(Some(row)) => entries.extend(report.note(entry_of(row, file))),
            Ok(None) => break,
            Err(e) => {
                report.problems.push(StoreError::from_sql(&e, file));
                break;
            }
        }
    }
    report.entries = entries.len() as u64;
    let mut streams: BTreeMap<(SurveyId, DeviceId), Vec<&Entry>> = BTreeMap::new();
    for entry in &entries {
        streams.entry((entry.survey, entry.device)).or_default().push(entry);
    }
    for ((survey, _), stream) in streams {
        if let Err(e) = check_chain(stream) {
            report.problems.push(StoreError::damaged(
                say!("store-in-survey", survey = survey.to_string(), said = e.said()),
                file,
            ));
        }
    }
    entries
}

fn check_forecasts(conn: &Connection, file: &Path, report: &mut CheckReport) {
    let sql = format!("SELECT {}, survey FROM forecast ORDER BY survey, n", forecast::COLUMNS);
    let rows = || -> rusqlite::Result<Vec<([u8; 16], Forecast)>> {
        let mut statement = conn.prepare(&sql)?;
        let rows = statement.query_map([], |row| Ok((row.get(7)?, forecast::forecast_of(row)?)))?;
        rows.collect()
    };
    let Some(rows) = report.note(rows().at(file)) else { return };
    let mut last: Option<([u8; 16], u64)> = None;
    for (survey, forecast) in rows {
        let expected = last.filter(|(of, _)| *of == survey).map_or(1, |(_, n)| n + 1);
        if forecast.n != expected {
            let what = say!(
                "store-forecast-missing",
                n = expected.to_string(),
                survey = SurveyId::from_bytes(survey).to_string()
            );
            report.problems.push(StoreError::damaged(what, file));
        }
        last = Some((survey, forecast.n));
        if report.note(forecast.whole(file)).is_some() {
            report.forecasts += 1;
        }
    }
}

fn by_survey(entries: &[Entry]) -> BTreeMap<SurveyId, Vec<&Entry>> {
    let mut surveys: BTreeMap<SurveyId, Vec<&Entry>> = BTreeMap::new();
    for entry in entries {
        surveys.entry(entry.survey).or_default().push(entry);
    }
    surveys
}
