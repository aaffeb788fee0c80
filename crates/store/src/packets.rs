//! Packets sealed on this device: where each lies and its sum. Kept beside the log, so that the next packet of a house
//! can name the one before and a file that changed is noticed.

use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};

use rusqlite::Connection;
use rusqlite::types::Type;
use survey::{Digest, Stamp, SurveyId};

use crate::blobs::sum;
use crate::check::CheckReport;
use crate::error::{ErrorKind, IoAt, SqlAt, StoreError};
use crate::files::private_dir;
use crate::open::Store;
use survey::Phrase;

/// Name of the folder of packets beside the database.
pub const PACKETS: &str = "packets";

/// A packet as it was sealed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct KeptPacket {
    /// The house.
    pub survey: SurveyId,
    /// Its number among the house's packets, from 1.
    pub number: u32,
    /// Where it lies: a whole path.
    pub path: PathBuf,
    /// SHA-256 of the file.
    pub digest: Digest,
    /// Its length in bytes.
    pub bytes: u64,
    /// Files inside.
    pub files: u64,
    /// Photographs inside.
    pub photos: u32,
    /// Entries of the log inside.
    pub entries: u64,
    /// True when it holds pages to read.
    pub pages: bool,
    /// When it was sealed.
    pub sealed_at: Stamp,
    /// Who of the household signed the page in it.
    pub signed_by: Option<String>,
}

const COLUMNS: &str =
    "survey, number, file, digest, bytes, files, photos, entries, pages, sealed_at, signed_by";

impl Store {
    /// The folder of packets, made on first use; nobody else on the machine may read it.
    ///
    /// # Errors
    /// A disk that is full or cannot be written.
    pub fn packets_dir(&self) -> Result<PathBuf, StoreError> {
        let dir = self.dir.join(PACKETS);
        private_dir(&dir).doing(Phrase("store-make-packets-folder"), &dir)?;
        Ok(dir)
    }

    /// Notes a packet that was sealed. One of the same number is replaced: its sealing was repeated.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn keep_packet(&mut self, packet: &KeptPacket) -> Result<(), StoreError> {
        // A folder that moves as a whole (a restored backup) still finds what lies in it.
        let here = self.dir.join(PACKETS);
        let inside = packet.path.strip_prefix(&here).ok();
        let file = inside.unwrap_or(&packet.path).to_string_lossy();
        let sql = format!(
            "INSERT OR REPLACE INTO packet ({COLUMNS}) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)"
        );
        let row = (
            packet.survey.as_bytes(),
            packet.number,
            file,
            packet.digest.as_bytes(),
            packet.bytes.cast_signed(),
            packet.files.cast_signed(),
            packet.photos,
            packet.entries.cast_signed(),
            packet.pages,
            packet.sealed_at.to_string(),
            &packet.signed_by,
        );
        self.conn.execute(&sql, row).at(&self.file)?;
        Ok(())
    }

    /// The packets of a house, the first one first.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn packets(&self, survey: SurveyId) -> Result<Vec<KeptPacket>, StoreError> {
        kept(&self.conn, &self.dir, Some(survey)).at(&self.file)
    }

    /// Reads every packet that is noted and compares it with its sum. One that was moved away is no fault.
    pub(crate) fn check_packets(&self, conn: &Connection, report: &mut CheckReport) {
        for packet in report.note(kept(conn, &self.dir, None).at(&self.file)).unwrap_or_default() {
            match File::open(&packet.path).and_then(|mut file| sum(&mut file)) {
                Ok(found) if found == (packet.digest, packet.bytes) => report.packets += 1,
                Err(e) if e.kind() == io::ErrorKind::NotFound => {}
                Ok(_) => report.problems.push(changed(&packet.path)),
                Err(e) => {
                    report.note::<()>(Err(e).doing(Phrase("store-read-packet"), &packet.path));
                }
            }
        }
    }
}

fn changed(path: &Path) -> StoreError {
    StoreError::new(
        ErrorKind::Damaged,
        Phrase("store-packet-changed"),
        path,
        Phrase("store-packet-changed-mend"),
    )
}

/// The packets of one house, or of all.
fn kept(conn: &Connection, dir: &Path, survey: Option<SurveyId>) -> rusqlite::Result<Vec<KeptPacket>> {
    let sql = format!("SELECT {COLUMNS} FROM packet WHERE ?1 IS NULL OR survey = ?1 ORDER BY survey, number");
    let mut statement = conn.prepare_cached(&sql)?;
    let rows = statement.query_map([survey.as_ref().map(SurveyId::as_bytes)], |row| {
        let at: String = row.get(9)?;
        let sealed_at =
            at.parse().map_err(|_| rusqlite::Error::InvalidColumnType(9, "sealed_at".into(), Type::Text))?;
        Ok(KeptPacket {
            survey: SurveyId::from_bytes(row.get(0)?),
            number: row.get(1)?,
            path: dir.join(PACKETS).join(row.get::<_, String>(2)?),
            digest: Digest::from_bytes(row.get(3)?),
            bytes: row.get::<_, i64>(4)?.cast_unsigned(),
            files: row.get::<_, i64>(5)?.cast_unsigned(),
            photos: row.get(6)?,
            entries: row.get::<_, i64>(7)?.cast_unsigned(),
            pages: row.get(8)?,
            sealed_at,
            signed_by: row.get(10)?,
        })
    })?;
    rows.collect()
}

#[cfg(test)]
mod tests {
    use survey::DeviceId;

    use super::*;

    fn open(dir: &Path) -> Store {
        Store::open(dir, now(), DeviceId::new(1, &[7; 10])).unwrap()
    }

    fn now() -> Stamp {
        "2026-04-12T09:30:00.000-05:00".parse().unwrap()
    }

    fn packet(store: &Store, number: u32, name: &str) -> KeptPacket {
        let path = store.packets_dir().unwrap().join(name);
        std::fs::write(&path, name).unwrap();
        KeptPacket {
            survey: SurveyId::new(1, &[9; 10]),
            number,
            digest: Digest::of(name.as_bytes()),
            bytes: name.len() as u64,
            files: 9,
            photos: 2,
            entries: 61,
            pages: true,
            sealed_at: now(),
            signed_by: (number == 2).then(|| "Ada Alder".to_owned()),
            path,
        }
    }

    #[test]
    fn packets_are_found_again_by_house_in_their_order() {
        let dir = tempfile::tempdir().unwrap();
        let mut store = open(dir.path());
        let (one, two) = (packet(&store, 1, "elm-court-1.zip"), packet(&store, 2, "elm-court-2.zip"));
        store.keep_packet(&two).unwrap();
        store.keep_packet(&one).unwrap();
        let other = KeptPacket { survey: SurveyId::new(2, &[9; 10]), ..one.clone() };
        store.keep_packet(&other).unwrap();
        drop(store);
        let store = open(dir.path());
        assert_eq!(store.packets(one.survey).unwrap(), [one, two]);
        assert_eq!(store.packets(other.survey).unwrap(), [other]);
    }

    #[test]
    fn a_folder_that_moves_takes_its_packets_along_and_a_packet_elsewhere_keeps_its_path() {
        let (dir, elsewhere) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let home = dir.path().join("before");
        let mut store = open(&home);
        let inside = packet(&store, 1, "elm-court-1.zip");
        let outside = KeptPacket { number: 2, path: elsewhere.path().join("carried.zip"), ..inside.clone() };
        store.keep_packet(&inside).unwrap();
        store.keep_packet(&outside).unwrap();
        drop(store);
        let moved = dir.path().join("after");
        std::fs::rename(&home, &moved).unwrap();
        let paths: Vec<PathBuf> =
            open(&moved).packets(inside.survey).unwrap().into_iter().map(|p| p.path).collect();
        assert_eq!(paths, [moved.join("packets/elm-court-1.zip"), outside.path]);
    }

    #[test]
    fn a_packet_that_changed_is_a_problem_and_one_that_was_carried_away_is_none() {
        let dir = tempfile::tempdir().unwrap();
        let mut store = open(dir.path());
        for (number, name) in [(1, "whole.zip"), (2, "changed.zip"), (3, "gone.zip")] {
            let one = packet(&store, number, name);
            store.keep_packet(&one).unwrap();
        }
        std::fs::write(dir.path().join("packets/changed.zip"), "changed.zi?").unwrap();
        std::fs::remove_file(dir.path().join("packets/gone.zip")).unwrap();
        let report = store.check();
        assert_eq!(report.packets, 1);
        let [problem] = report.problems.as_slice() else { panic!("{:?}", report.problems) };
        assert_eq!(problem.kind(), ErrorKind::Damaged);
        assert!(problem.to_string().contains("changed.zip"), "{problem}");
    }
}
