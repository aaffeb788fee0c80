//! Takes every readable entry out of a damaged database, as JSON lines.
//!
//! Works on a copy and never writes to the damaged file. Two ways are taken and joined: SQLite reads as far as it
//! can, and the bytes of the file and of its write-ahead log are searched page by page, which needs neither tables
//! nor indexes to be whole. Only lines that fit the hash stored beside them count. Lines written but never
//! acknowledged (the process was killed while writing) may come out too.
//!
//! Limits: the database is read into memory; forecasts are not taken out, they can be made again from the log.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

use rusqlite::Connection;
use survey::log::{Entry, check_chain};
use survey::{DeviceId, Stamp, SurveyId};

use crate::error::{ErrorKind, IoAt, StoreError};
use crate::files::{private_dir, private_file, sync_dir, with_ending};
use crate::open::{DATABASE, connect};
use crate::read::{COLUMNS, entry_of};
use survey::{Phrase, Said, say};

mod pages;

/// Survey, device and position: where an entry stands.
type Place = (SurveyId, DeviceId, u64);

/// What a rescue brought.
#[derive(Clone, PartialEq, Debug)]
pub struct RescueReport {
    /// The file with one entry per line, sorted by survey and log order.
    pub out: PathBuf,
    /// Entries written out.
    pub entries: u64,
    /// Entries of each survey.
    pub surveys: BTreeMap<SurveyId, u64>,
    /// What is known to be missing or bent, in words. Entries lost at the end of a stream leave no trace here.
    pub missing: Vec<Said>,
}

/// Writes every readable entry of the store in `dir` to the new file `out`.
///
/// Errors: `Missing` when there is no database; `Conflict` when `out` exists; `Full`, `Io` for the new file.
pub fn rescue(dir: &Path, out: &Path) -> Result<RescueReport, StoreError> {
    let file = dir.join(DATABASE);
    let wal = with_ending(&file, "-wal");
    if !file.exists() && !wal.exists() {
        return Err(StoreError::new(
            ErrorKind::Missing,
            Phrase("store-no-database"),
            &file,
            Phrase("store-no-database-mend"),
        ));
    }
    let target = private_file(out).map_err(|e| match e.kind() {
        std::io::ErrorKind::AlreadyExists => StoreError::new(
            ErrorKind::Conflict,
            Phrase("store-file-there"),
            out,
            Phrase("store-file-there-mend"),
        ),
        _ => StoreError::from_io(&e, Phrase("store-make-rescued"), out),
    })?;
    let bytes = |path: &Path| if path.exists() { std::fs::read(path) } else { Ok(Vec::new()) };
    let database = bytes(&file).doing(Phrase("store-read-damaged"), &file)?;
    let log = bytes(&wal).doing(Phrase("store-read-ahead"), &wal)?;

    let mut found = Found::default();
    through_sqlite(&database, &log, out, &mut found)?;
    pages::search(&database, &log, &mut found);
    found.write(target, out)
}

/// Renames a damaged database (with its write-ahead log) so that a new store can be made in its place. Returns the
/// new name. The photographs stay where they are.
pub fn set_aside(dir: &Path, now: Stamp) -> Result<PathBuf, StoreError> {
    let file = dir.join(DATABASE);
    let (year, month, day, hour, minute, second) = now.wall();
    let name =
        format!("underlath-damaged-{year:04}{month:02}{day:02}-{hour:02}{minute:02}{second:02}.sqlite");
    let aside = dir.join(name);
    for ending in ["", "-wal", "-shm"] {
        let (from, to) = (with_ending(&file, ending), with_ending(&aside, ending));
        if to.exists() {
            return Err(StoreError::new(
                ErrorKind::Conflict,
                Phrase("store-aside-there"),
                &to,
                Phrase("store-aside-there-mend"),
            ));
        }
        if from.exists() {
            std::fs::rename(&from, &to).doing(Phrase("store-set-aside"), &from)?;
        }
    }
    sync_dir(dir).doing(Phrase("store-write-surveys-folder"), dir)?;
    Ok(aside)
}

/// Entries found so far; the first found at a place stays.
#[derive(Default)]
struct Found {
    entries: BTreeMap<Place, Entry>,
    bent: BTreeSet<Place>,
    rivals: BTreeSet<Place>,
}

impl Found {
    fn whole(&mut self, entry: Entry) {
        let place = (entry.survey, entry.device, entry.seq);
        match self.entries.get(&place) {
            None => drop(self.entries.insert(place, entry)),
            Some(there) if *there != entry => drop(self.rivals.insert(place)),
            Some(_) => {}
        }
    }
    fn bent(&mut self, entry: &Entry) {
        self.bent.insert((entry.survey, entry.device, entry.seq));
    }

    fn write(self, target: std::fs::File, out: &Path) -> Result<RescueReport, StoreError> {
        let missing = self.missing();
        let mut surveys = BTreeMap::new();
        let mut sorted: Vec<Entry> = self.entries.into_values().collect();
        sorted.sort_by_key(|e| (e.survey, e.order()));
        let mut writer = BufWriter::new(target);
        for entry in &sorted {
            let mut line = entry.to_bytes();
            line.push(b'\n');
            writer.write_all(&line).doing(Phrase("store-write-rescued"), out)?;
            *surveys.entry(entry.survey).or_insert(0) += 1;
        }
        let file = writer
            .into_inner()
            .map_err(|e| StoreError::from_io(e.error(), Phrase("store-write-rescued"), out))?;
        file.sync_all().doing(Phrase("store-write-rescued"), out)?;
        Ok(RescueReport { out: out.to_owned(), entries: sorted.len() as u64, surveys, missing })
    }

    fn missing(&self) -> Vec<Said> {
        let mut words = Vec::new();
        let mut streams: BTreeMap<(SurveyId, DeviceId), Vec<&Entry>> = BTreeMap::new();
        for ((survey, device, _), entry) in &self.entries {
            streams.entry((*survey, *device)).or_default().push(entry);
        }
        for ((survey, device), stream) in &streams {
            let mut expected = 1;
            for entry in stream {
                if entry.seq > expected {
                    let last = entry.seq - 1;
                    let (survey, device) = (survey.to_string(), device.to_string());
                    words.push(if last == expected {
                        say!("store-lost-one", survey = survey, device = device, n = last.to_string())
                    } else {
                        let (first, last) = (expected.to_string(), last.to_string());
                        say!(
                            "store-lost-several",
                            survey = survey,
                            device = device,
                            first = first,
                            last = last
                        )
                    });
                }
                expected = entry.seq + 1;
            }
            if stream.len() as u64 == expected - 1
                && let Err(e) = check_chain(stream.iter().copied())
            {
                words.push(say!("store-lost-chain", survey = survey.to_string(), said = e.said()));
            }
        }
        for (survey, device, seq) in self.bent.iter().filter(|place| !self.entries.contains_key(place)) {
            let (survey, device) = (survey.to_string(), device.to_string());
            words.push(say!("store-lost-bent", survey = survey, device = device, n = seq.to_string()));
        }
        for (survey, device, seq) in &self.rivals {
            let (survey, device) = (survey.to_string(), device.to_string());
            words.push(say!("store-lost-twice", survey = survey, device = device, n = seq.to_string()));
        }
        words
    }
}

/// Lets SQLite read what it can from copies beside `out`.
fn through_sqlite(database: &[u8], log: &[u8], out: &Path, found: &mut Found) -> Result<(), StoreError> {
    let work = with_ending(out, ".work");
    private_dir(&work).doing(Phrase("store-make-work-folder"), &work)?;
    let copy = work.join(DATABASE);
    let copied = || -> std::io::Result<()> {
        for (path, bytes) in [(&copy, database), (&with_ending(&copy, "-wal"), log)] {
            if !bytes.is_empty() {
                std::fs::write(path, bytes)?;
            }
        }
        Ok(())
    };
    let copied = copied().doing(Phrase("store-copy-damaged"), &copy);
    if copied.is_ok()
        && let Ok(conn) = connect(&copy)
    {
        // From both ends: a damaged page in the middle stops each of them.
        for order in ["", "DESC"] {
            let _ = read_rows(&conn, order, &copy, found);
        }
    }
    std::fs::remove_dir_all(&work).doing(Phrase("store-remove-work-folder"), &work)?;
    copied
}

fn read_rows(conn: &Connection, order: &str, file: &Path, found: &mut Found) -> rusqlite::Result<()> {
    let sql = format!("SELECT {COLUMNS} FROM entry ORDER BY survey {order}, device {order}, seq {order}");
    let mut statement = conn.prepare(&sql)?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        if let Ok(entry) = entry_of(row, file) {
            found.whole(entry);
        }
    }
    Ok(())
}
