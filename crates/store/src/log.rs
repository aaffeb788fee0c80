//! Writing the log: this device's own entries, and streams of other devices.
//!
//! Each call is one transaction, committed with an fsync of the write-ahead log before it returns.

use std::collections::BTreeMap;
use std::path::Path;

use rusqlite::{Connection, OptionalExtension, Transaction, TransactionBehavior};
use survey::log::Entry;
use survey::{DeviceId, Digest, SurveyId};

use crate::error::{ErrorKind, SqlAt, StoreError};
use crate::open::Store;
use crate::projection;
use crate::read::{COLUMNS, entry_of};
use survey::{Phrase, Said, say};

/// Highest Lamport number taken in from elsewhere. No survey comes near it; without a limit one bad stream could
/// leave no room for the next number.
const LAMPORT_LIMIT: u64 = 1 << 40;

/// Pages written for one entry, at the outside: four b-trees of the log, three of the projection, each with a split.
const BYTES_PER_ENTRY: u64 = 14 * 4096;

/// What this device's next entry of a survey must carry.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Next {
    /// The house.
    pub survey: SurveyId,
    /// This device.
    pub device: DeviceId,
    /// Position in this device's stream, from 1.
    pub seq: u64,
    /// Lamport number: one more than the highest seen in this survey.
    pub lamport: u64,
    /// Hash of this device's previous entry; none before the first.
    pub prev: Option<Digest>,
}

/// What an import brought.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Imported {
    /// Entries that were new here.
    pub new: u64,
    /// Entries that were here already, byte for byte.
    pub known: u64,
}

impl Store {
    /// What this device's next entry of `survey` must carry. Another process may take the place meanwhile: use
    /// [`Store::append_with`] where that matters.
    pub fn next(&self, survey: SurveyId) -> Result<Next, StoreError> {
        next(&self.conn, survey, self.device).at(&self.file)
    }

    /// Appends entries of this device, all or none; they are on the disk when this returns.
    ///
    /// Errors: `Conflict` when an entry is another device's or does not follow from what stands; `WalkEnded` when it is one
    /// of the walk and demolition was declared; `Full`; `Io`.
    pub fn append(&mut self, entries: &[Entry]) -> Result<(), StoreError> {
        let (device, file) = (self.device, self.file.clone());
        self.write(entries.len() as u64, |tx| {
            let mut expected: BTreeMap<SurveyId, Next> = BTreeMap::new();
            for entry in entries {
                let want = match expected.get(&entry.survey) {
                    Some(want) => *want,
                    None => next(tx, entry.survey, device).at(&file)?,
                };
                let hash = insert_own(tx, entry, &want, &file)?;
                let after = Next { seq: want.seq + 1, lamport: want.lamport + 1, prev: Some(hash), ..want };
                expected.insert(entry.survey, after);
            }
            Ok(())
        })
    }

    /// Reads what must come next, has `build` make the entry, and appends it, all under one write lock, so that two
    /// processes on one store cannot take the same position. Returns the entry as recorded.
    pub fn append_with(
        &mut self,
        survey: SurveyId,
        build: impl FnMut(Next) -> Entry,
    ) -> Result<Entry, StoreError> {
        self.append_and(survey, build, |_| Ok(()))
    }

    /// The same with other work before it in the same transaction.
    pub(crate) fn append_and(
        &mut self,
        survey: SurveyId,
        mut build: impl FnMut(Next) -> Entry,
        before: impl FnOnce(&Transaction<'_>) -> Result<(), StoreError>,
    ) -> Result<Entry, StoreError> {
        let (device, file) = (self.device, self.file.clone());
        self.write(1, |tx| {
            before(tx)?;
            let want = next(tx, survey, device).at(&file)?;
            let entry = build(want);
            insert_own(tx, &entry, &want, &file)?;
            Ok(entry)
        })
    }

    /// Whether the walk of a house still takes entries. Asked before work that an entry would come after; every append asks
    /// too, in its own transaction.
    ///
    /// # Errors
    /// `WalkEnded` when demolition was declared.
    pub fn still_walked(&self, survey: SurveyId) -> Result<(), StoreError> {
        still_walked(&self.conn, survey, &self.file)
    }

    /// Takes in entries recorded elsewhere, in any order, all or none. What is here already is left as it is. What a walk
    /// recorded elsewhere after demolition was declared is taken in too: whoever reads the log sets it aside.
    ///
    /// Errors: `Conflict` when other bytes stand at an entry's position or under its id; `Damaged` when a stream has
    /// a hole or does not follow from itself; `Full`; `Io`.
    pub fn import(&mut self, entries: &[Entry]) -> Result<Imported, StoreError> {
        let file = self.file.clone();
        let mut sorted: Vec<&Entry> = entries.iter().collect();
        sorted.sort_by_key(|e| (e.survey, e.device, e.seq));
        self.write(entries.len() as u64, |tx| {
            let mut count = Imported::default();
            let mut head: Option<(SurveyId, DeviceId, u64, Option<Digest>)> = None;
            for entry in sorted {
                let line = entry.to_bytes();
                let hash = Digest::of(&line);
                if is_known(tx, entry, hash, &file)? {
                    count.known += 1;
                    continue;
                }
                let (seq, prev) = match head {
                    Some((survey, device, seq, prev)) if (survey, device) == (entry.survey, entry.device) => {
                        (seq, prev)
                    }
                    _ => {
                        let next = next(tx, entry.survey, entry.device).at(&file)?;
                        (next.seq, next.prev)
                    }
                };
                check_foreign(entry, seq, prev, &file)?;
                insert(tx, entry, &line, hash, &file)?;
                head = Some((entry.survey, entry.device, seq + 1, Some(hash)));
                count.new += 1;
            }
            Ok(count)
        })
    }

    /// Runs `work` in one transaction that holds the write lock from its start.
    pub(crate) fn write<T>(
        &mut self,
        entries: u64,
        work: impl FnOnce(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let file = &self.file;
        let done = || {
            let tx = self.conn.transaction_with_behavior(TransactionBehavior::Immediate).at(file)?;
            let value = work(&tx)?;
            tx.commit().at(file)?;
            Ok(value)
        };
        done().map_err(|e: StoreError| e.needing(65_536 + entries * BYTES_PER_ENTRY))
    }
}

/// Position, Lamport number and previous hash that come next in one stream.
fn next(conn: &Connection, survey: SurveyId, device: DeviceId) -> rusqlite::Result<Next> {
    let head: Option<(i64, [u8; 32])> = conn
        .prepare_cached(
            "SELECT seq, hash FROM entry WHERE survey = ?1 AND device = ?2 ORDER BY seq DESC LIMIT 1",
        )?
        .query_row((survey.as_bytes(), device.as_bytes()), |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    let highest: i64 = conn
        .prepare_cached("SELECT coalesce(max(lamport), 0) FROM entry WHERE survey = ?1")?
        .query_row([survey.as_bytes()], |row| row.get(0))?;
    Ok(Next {
        survey,
        device,
        seq: head.map_or(1, |(seq, _)| seq.unsigned_abs() + 1),
        lamport: highest.unsigned_abs() + 1,
        prev: head.map(|(_, hash)| Digest::from_bytes(hash)),
    })
}

fn still_walked(conn: &Connection, survey: SurveyId, file: &Path) -> Result<(), StoreError> {
    let Some(id) = projection::ended_by(conn, survey).at(file)? else { return Ok(()) };
    let sql = format!("SELECT {COLUMNS} FROM entry WHERE id = ?1");
    let mut statement = conn.prepare_cached(&sql).at(file)?;
    let mut rows = statement.query([id]).at(file)?;
    let (by, when) = match rows.next().at(file)? {
        Some(row) => {
            let declared = entry_of(row, file)?;
            (declared.by, declared.at.minute_text())
        }
        None => Default::default(), // the table of houses is stale, which a check says
    };
    let what = say!("store-walk-ended", by = by, at = when);
    Err(StoreError::new(ErrorKind::WalkEnded, what, file, Phrase("store-walk-ended-mend")))
}

/// Inserts an entry of this device, which must carry exactly what comes next.
fn insert_own(tx: &Transaction<'_>, entry: &Entry, want: &Next, file: &Path) -> Result<Digest, StoreError> {
    let wrong = if entry.device != want.device {
        say!(
            "store-own-device",
            entry = entry.id.to_string(),
            found = entry.device.to_string(),
            wanted = want.device.to_string()
        )
    } else if entry.survey != want.survey {
        say!(
            "store-own-survey",
            entry = entry.id.to_string(),
            found = entry.survey.to_string(),
            wanted = want.survey.to_string()
        )
    } else if entry.v != entry.body.form() {
        say!(
            "store-own-form",
            entry = entry.id.to_string(),
            found = entry.v.to_string(),
            wanted = entry.body.form().to_string()
        )
    } else if entry.seq != want.seq {
        say!(
            "store-own-position",
            entry = entry.id.to_string(),
            found = entry.seq.to_string(),
            wanted = want.seq.to_string()
        )
    } else if entry.lamport != want.lamport {
        say!(
            "store-own-lamport",
            entry = entry.id.to_string(),
            found = entry.lamport.to_string(),
            wanted = want.lamport.to_string()
        )
    } else if entry.prev != want.prev {
        say!("store-own-hash", entry = entry.id.to_string())
    } else {
        if entry.body.is_of_walk() {
            still_walked(tx, entry.survey, file)?;
        }
        let line = entry.to_bytes();
        let hash = Digest::of(&line);
        insert(tx, entry, &line, hash, file)?;
        return Ok(hash);
    };
    Err(StoreError::new(ErrorKind::Conflict, wrong, file, Phrase("store-own-mend")))
}

/// True when exactly these bytes stand at the entry's position; an error when others do.
fn is_known(tx: &Transaction<'_>, entry: &Entry, hash: Digest, file: &Path) -> Result<bool, StoreError> {
    let seq = i64::try_from(entry.seq).unwrap_or(0); // too large a position is refused afterwards
    let standing: Option<[u8; 32]> = tx
        .prepare_cached("SELECT hash FROM entry WHERE survey = ?1 AND device = ?2 AND seq = ?3")
        .at(file)?
        .query_row((entry.survey.as_bytes(), entry.device.as_bytes(), seq), |row| row.get(0))
        .optional()
        .at(file)?;
    match standing {
        Some(standing) if standing == *hash.as_bytes() => return Ok(true),
        Some(_) => {
            return Err(conflict(
                say!("store-other-content", n = entry.seq.to_string(), device = entry.device.to_string()),
                file,
            ));
        }
        None => {}
    }
    let elsewhere = tx
        .prepare_cached("SELECT 1 FROM entry WHERE id = ?1")
        .at(file)?
        .exists([entry.id.as_bytes()])
        .at(file)?;
    if elsewhere {
        return Err(conflict(say!("store-other-position", entry = entry.id.to_string()), file));
    }
    Ok(false)
}

fn conflict(what: Said, file: &Path) -> StoreError {
    StoreError::new(ErrorKind::Conflict, what, file, Phrase("store-conflict-mend"))
}

fn check_foreign(entry: &Entry, seq: u64, prev: Option<Digest>, file: &Path) -> Result<(), StoreError> {
    let (id, device) = (entry.id.to_string(), entry.device.to_string());
    let what = if entry.v != entry.body.form() {
        let (found, known) = (entry.v.to_string(), entry.body.form().to_string());
        say!("store-foreign-form", entry = id, device = device, found = found, known = known)
    } else if entry.lamport == 0 || entry.lamport > LAMPORT_LIMIT {
        say!("store-foreign-lamport", entry = id, device = device, found = entry.lamport.to_string())
    } else if entry.seq != seq {
        let (found, next) = (entry.seq.to_string(), seq.to_string());
        say!("store-foreign-gap", entry = id, device = device, found = found, next = next)
    } else if entry.prev != prev {
        say!("store-foreign-broken", entry = id, device = device)
    } else {
        return Ok(());
    };
    Err(StoreError::new(ErrorKind::Damaged, what, file, Phrase("store-foreign-mend")))
}

fn insert(
    tx: &Transaction<'_>,
    entry: &Entry,
    line: &[u8],
    hash: Digest,
    file: &Path,
) -> Result<(), StoreError> {
    let text = std::str::from_utf8(line)
        .map_err(|_| StoreError::damaged(say!("store-entry-no-text", entry = entry.id.to_string()), file))?;
    let number = |n: u64| {
        i64::try_from(n)
            .map_err(|_| StoreError::damaged(say!("store-entry-beyond", entry = entry.id.to_string()), file))
    };
    tx.prepare_cached(
        "INSERT INTO entry (survey, device, seq, id, lamport, prev, hash, line)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
    )
    .at(file)?
    .execute((
        entry.survey.as_bytes(),
        entry.device.as_bytes(),
        number(entry.seq)?,
        entry.id.as_bytes(),
        number(entry.lamport)?,
        entry.prev.as_ref().map(|p| p.as_bytes()),
        hash.as_bytes(),
        text,
    ))
    .at(file)?;
    projection::add(tx, entry, file)
}
