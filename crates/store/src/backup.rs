//! A copy of the store in another folder, which is itself a store and can be opened as one.
//!
//! Two stores must never record as one device: a backup is opened when the original is gone, not beside it.

use std::fs::File;
use std::path::Path;
use std::time::Duration;

use rusqlite::backup::Backup;
use rusqlite::{Connection, OptionalExtension};

use crate::blobs::Blobs;
use crate::error::{ErrorKind, IoAt, SqlAt, StoreError};
use crate::files::{private_dir, private_file, remove_if_there, sync_dir, with_ending};
use crate::open::{DATABASE, Store, connect};
use survey::Phrase;

/// Pages copied under one lock; whoever wants to record waits for no more than these.
const PAGES_AT_ONCE: i32 = 512;

impl Store {
    /// Copies database and photographs into the folder `to`, through SQLite's backup interface, while others may go
    /// on recording. An earlier backup of the same store is brought up to date; photographs it has are not copied again.
    ///
    /// Errors: `Conflict` when `to` is this store's own folder, or holds another device's store or entries this one
    /// does not have; `Damaged` when a photograph here is; `Full`; `Io`.
    pub fn backup(&self, to: &Path) -> Result<(), StoreError> {
        private_dir(to).doing(Phrase("store-make-backup-folder"), to)?;
        let same = |a: &Path, b: &Path| Some(a.canonicalize().ok()? == b.canonicalize().ok()?);
        if same(to, &self.dir) == Some(true) {
            return Err(refuse(Phrase("store-backup-itself"), to));
        }
        let target = to.join(DATABASE);
        if target.exists() {
            self.may_replace(&target)?;
        }
        let size = self.file.metadata().doing(Phrase("store-read-database"), &self.file)?.len();
        let fresh = with_ending(&target, ".new");
        remove_if_there(&fresh).doing(Phrase("store-remove-half-backup"), &fresh)?;
        private_file(&fresh).doing(Phrase("store-make-backup"), &fresh)?;
        let copied = self.copy_into(&fresh).and_then(|()| self.copy_photos(to)).and_then(|()| {
            std::fs::rename(&fresh, &target).doing(Phrase("store-name-backup"), &target)?;
            sync_dir(to).doing(Phrase("store-write-backup-folder"), to)
        });
        if copied.is_err() {
            let _ = remove_if_there(&fresh);
        }
        copied.map_err(|e| e.needing(size + (1 << 20)))
    }

    fn copy_into(&self, fresh: &Path) -> Result<(), StoreError> {
        let mut copy = Connection::open(fresh).at(fresh)?;
        Backup::new(&self.conn, &mut copy)
            .and_then(|b| b.run_to_completion(PAGES_AT_ONCE, Duration::ZERO, None))
            .at(fresh)?;
        copy.close().map_err(|(_, e)| StoreError::from_sql(&e, fresh))?;
        File::open(fresh).and_then(|f| f.sync_all()).doing(Phrase("store-write-backup"), fresh)
    }

    /// After the database, so that every photograph the copied log names has been kept by then.
    fn copy_photos(&self, to: &Path) -> Result<(), StoreError> {
        copy_blobs(&self.blobs, &Blobs::in_dir(to)?)?;
        copy_blobs(&self.previews, &Blobs::previews_in_dir(to)?)
    }

    /// Refuses to overwrite a store that is not an earlier copy of this one.
    fn may_replace(&self, target: &Path) -> Result<(), StoreError> {
        let other = connect(target)?;
        let device: Option<[u8; 16]> =
            other.query_row("SELECT id FROM device", [], |row| row.get(0)).optional().at(target)?;
        if device.as_ref() != Some(self.device.as_bytes()) {
            return Err(refuse(Phrase("store-backup-other"), target));
        }
        let mut heads = other
            .prepare("SELECT e.survey, e.device, e.seq, e.hash FROM entry e JOIN
               (SELECT survey, device, max(seq) AS seq FROM entry GROUP BY survey, device) USING (survey, device, seq)")
            .at(target)?;
        let mut rows = heads.query([]).at(target)?;
        while let Some(row) = rows.next().at(target)? {
            let head: ([u8; 16], [u8; 16], i64, [u8; 32]) = row.try_into().at(target)?;
            let here = self
                .conn
                .prepare_cached(
                    "SELECT 1 FROM entry WHERE survey = ?1 AND device = ?2 AND seq = ?3 AND hash = ?4",
                )
                .and_then(|mut s| s.exists(head))
                .at(&self.file)?;
            if !here {
                return Err(refuse(Phrase("store-backup-ahead"), target));
            }
        }
        drop(rows);
        drop(heads);
        other.close().map_err(|(_, e)| StoreError::from_sql(&e, target))?;
        if with_ending(target, "-wal").exists() {
            return Err(refuse(Phrase("store-backup-open"), target));
        }
        Ok(())
    }
}

fn copy_blobs(here: &Blobs, there: &Blobs) -> Result<(), StoreError> {
    for digest in here.list()?.0 {
        if there.has(digest) {
            continue;
        }
        let (copied, _) = there.put_reader(&mut here.open(digest)?)?;
        if copied != digest {
            let stray = there.path(copied);
            let _ = remove_if_there(&stray);
            here.verify(digest)?; // says what is wrong with it
        }
    }
    Ok(())
}

fn refuse(what: Phrase, place: &Path) -> StoreError {
    StoreError::new(ErrorKind::Conflict, what, place, Phrase("store-backup-mend"))
}
