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
    /// Errors: `Conflict` when an entry is another device's or does not follow from what stands; `Full`; `Io`.
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

    /// Takes in entries recorded elsewhere, in any order, all or none. What is here already is left as it is.
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

/// Inserts an entry of this device, which must carry exactly what comes next.
fn insert_own(tx: &Transaction<'_>, entry: &Entry, want: &Next, file: &Path) -> Result<Digest, StoreError> {
    let wrong = if entry.device != want.device {
        format!("is of device {}, and this store belongs to device {}", entry.device, want.device)
    } else if entry.survey != want.survey {
        format!("is of survey {}, not of survey {}", entry.survey, want.survey)
    } else if entry.v != Entry::VERSION {
        format!("has form {}, and form {} is written here", entry.v, Entry::VERSION)
    } else if entry.seq != want.seq {
        format!("has position {} where {} comes next", entry.seq, want.seq)
    } else if entry.lamport != want.lamport {
        format!("has Lamport number {} where {} comes next", entry.lamport, want.lamport)
    } else if entry.prev != want.prev {
        "does not name the hash of the entry before it".to_owned()
    } else {
        let line = entry.to_bytes();
        let hash = Digest::of(&line);
        insert(tx, entry, &line, hash, file)?;
        return Ok(hash);
    };
    Err(StoreError::new(
        ErrorKind::Conflict,
        format!("Entry {} {wrong}", entry.id),
        file,
        "Nothing was recorded. Another program may have recorded in between: read the survey again and record once more.",
    ))
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
                format!("Entry {} of device {} stands here with other content", entry.seq, entry.device),
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
        return Err(conflict(format!("Entry {} stands here at another position", entry.id), file));
    }
    Ok(false)
}

fn conflict(what: String, file: &Path) -> StoreError {
    StoreError::new(
        ErrorKind::Conflict,
        what,
        file,
        "Nothing was taken in. Two stores have recorded as one device, for example after a backup was put back or a \
         folder was copied: keep both, and ask the office to compare them.",
    )
}

fn check_foreign(entry: &Entry, seq: u64, prev: Option<Digest>, file: &Path) -> Result<(), StoreError> {
    let what = if entry.v != Entry::VERSION {
        format!("has form {}, and this program knows form {}", entry.v, Entry::VERSION)
    } else if entry.lamport == 0 || entry.lamport > LAMPORT_LIMIT {
        format!("has Lamport number {}, which no survey reaches", entry.lamport)
    } else if entry.seq != seq {
        format!("stands at position {} where {seq} is the next: entries between them are missing", entry.seq)
    } else if entry.prev != prev {
        "does not follow from the entry before it: one of them was changed".to_owned()
    } else {
        return Ok(());
    };
    Err(StoreError::new(
        ErrorKind::Damaged,
        format!("Entry {} of device {} {what}", entry.id, entry.device),
        file,
        "Nothing was taken in. Get the whole log from the device again, or from another packet of the same house.",
    ))
}

fn insert(
    tx: &Transaction<'_>,
    entry: &Entry,
    line: &[u8],
    hash: Digest,
    file: &Path,
) -> Result<(), StoreError> {
    let text = std::str::from_utf8(line)
        .map_err(|_| StoreError::damaged(format!("Entry {} cannot be written as text", entry.id), file))?;
    let number = |n: u64| {
        i64::try_from(n)
            .map_err(|_| StoreError::damaged(format!("Entry {} counts beyond any survey", entry.id), file))
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
    projection::add(tx, entry).at(file)
}
