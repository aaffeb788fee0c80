//! Small pictures made of photographs, filed by their SHA-256 in a folder beside the originals, with a row that says of
//! which photograph each is.
//!
//! A preview is written, fsynced and named before the row that names it is committed, all under the write lock, so
//! that a row never names a file that is not there. A crash in between leaves a file that no row names; sweeping takes
//! it away. Sweeping holds the same lock and so never meets a preview that is about to be named. Originals are never
//! swept: they cannot be made again.

use std::collections::BTreeSet;
use std::fs::File;

use rusqlite::{OptionalExtension, Transaction};
use survey::log::Entry;
use survey::{Digest, SurveyId};

use crate::check::CheckReport;
use crate::error::{ErrorKind, IoAt, SqlAt, StoreError};
use crate::files::remove_if_there;
use crate::open::Store;
use crate::{Blobs, Next};
use survey::{Phrase, say};

/// One small picture.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Preview<'a> {
    /// Longer side that was asked for, in pixels: the name by which it is found again.
    pub longest: u32,
    /// Width in pixels.
    pub width: u32,
    /// Height in pixels.
    pub height: u32,
    /// The file.
    pub bytes: &'a [u8],
}

/// What was made of one photograph.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Made<'a> {
    /// SHA-256 of the photograph.
    pub original: Digest,
    /// Its small pictures.
    pub previews: &'a [Preview<'a>],
    /// What was seen of it, as JSON; the store does not know what it means.
    pub seen: &'a str,
}

impl Store {
    /// As [`Store::append_with`], and keeps what was made of the photograph the entry is about: both or neither.
    pub fn append_photo_with(
        &mut self,
        survey: SurveyId,
        made: Option<&Made<'_>>,
        build: impl FnMut(Next) -> Entry,
    ) -> Result<Entry, StoreError> {
        let (previews, file) = (self.previews.clone(), self.file.clone());
        self.append_and(survey, build, |tx| match made {
            Some(made) => keep(tx, &previews, made, &file),
            None => Ok(()),
        })
    }

    /// Keeps what was made of a photograph that stands in the log already.
    pub fn keep_previews(&mut self, made: &Made<'_>) -> Result<(), StoreError> {
        let (previews, file) = (self.previews.clone(), self.file.clone());
        self.write(1, |tx| keep(tx, &previews, made, &file))
    }

    /// Opens a small picture of a photograph; `None` when there is none of that size.
    pub fn preview(&self, original: Digest, longest: u32) -> Result<Option<File>, StoreError> {
        let found: Option<[u8; 32]> = self
            .conn
            .prepare_cached("SELECT digest FROM preview WHERE original = ?1 AND longest = ?2")
            .and_then(|mut s| s.query_row((original.as_bytes(), longest), |row| row.get(0)).optional())
            .at(&self.file)?;
        match found.map(|digest| self.previews.open(Digest::from_bytes(digest))) {
            None => Ok(None),
            Some(Err(e)) if e.kind() == ErrorKind::Missing => Ok(None),
            Some(opened) => opened.map(Some),
        }
    }

    /// What was seen of a photograph, as it was handed in.
    pub fn seen(&self, original: Digest) -> Result<Option<String>, StoreError> {
        self.conn
            .prepare_cached("SELECT seen FROM look WHERE original = ?1")
            .and_then(|mut s| s.query_row([original.as_bytes()], |row| row.get(0)).optional())
            .at(&self.file)
    }

    /// Takes away the files in the folder of previews that no row names; returns how many.
    pub fn sweep_previews(&mut self) -> Result<u64, StoreError> {
        let (previews, file) = (self.previews.clone(), self.file.clone());
        self.write(0, |tx| {
            let named: BTreeSet<Digest> = rows(tx).at(&file)?.into_iter().map(|row| row.digest).collect();
            let mut swept = 0;
            for digest in previews.list()?.0.into_iter().filter(|digest| !named.contains(digest)) {
                let path = previews.path(digest);
                remove_if_there(&path).doing(Phrase("store-remove-stray-preview"), &path)?;
                swept += 1;
            }
            Ok(swept)
        })
    }

    /// The photographs of which a small picture is missing or no longer what was made.
    pub fn without_previews(&self) -> Result<Vec<Digest>, StoreError> {
        let rows = rows(&self.conn).at(&self.file)?;
        let broken = rows.into_iter().filter(|row| self.previews.verify(row.digest).is_err());
        let mut originals: Vec<Digest> = broken.map(|row| row.original).collect();
        originals.dedup();
        Ok(originals)
    }

    /// Reads every preview and holds it against its digest; counts those that no row names.
    pub(crate) fn check_previews(&self, conn: &rusqlite::Connection, report: &mut CheckReport) {
        let Some(rows) = report.note(rows(conn).at(&self.file)) else { return };
        let mut named = BTreeSet::new();
        for row in rows {
            named.insert(row.digest);
            let whole = self.previews.verify(row.digest).is_ok_and(|size| size == row.bytes);
            if whole {
                report.previews += 1;
                continue;
            }
            report.problems.push(StoreError::new(
                ErrorKind::Damaged,
                say!("store-preview-damaged", photo = row.original.short()),
                &self.previews.path(row.digest),
                Phrase("store-preview-damaged-mend"),
            ));
        }
        if let Some((kept, _)) = report.note(self.previews.list()) {
            report.leftover_previews = kept.iter().filter(|digest| !named.contains(*digest)).count() as u64;
        }
    }
}

struct Row {
    original: Digest,
    digest: Digest,
    bytes: u64,
}

fn rows(conn: &rusqlite::Connection) -> rusqlite::Result<Vec<Row>> {
    let mut statement =
        conn.prepare("SELECT original, digest, bytes FROM preview ORDER BY original, longest")?;
    let rows = statement.query_map([], |row| {
        Ok(Row {
            original: Digest::from_bytes(row.get(0)?),
            digest: Digest::from_bytes(row.get(1)?),
            bytes: row.get::<_, i64>(2)?.unsigned_abs(),
        })
    })?;
    rows.collect()
}

/// Files first, rows after, inside the caller's transaction.
fn keep(
    tx: &Transaction<'_>,
    previews: &Blobs,
    made: &Made<'_>,
    file: &std::path::Path,
) -> Result<(), StoreError> {
    for preview in made.previews {
        // One of the right length whose bytes are wrong would be left standing.
        let there = Digest::of(preview.bytes);
        if previews.has(there) && previews.verify(there).is_err() {
            let path = previews.path(there);
            remove_if_there(&path).doing(Phrase("store-remove-preview"), &path)?;
        }
        let digest = previews.put(preview.bytes)?;
        tx.prepare_cached(
            "INSERT OR REPLACE INTO preview (original, longest, digest, bytes, width, height)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
        )
        .and_then(|mut s| {
            s.execute((
                made.original.as_bytes(),
                preview.longest,
                digest.as_bytes(),
                preview.bytes.len() as i64, // a file in memory
                preview.width,
                preview.height,
            ))
        })
        .at(file)?;
    }
    tx.prepare_cached("INSERT OR REPLACE INTO look (original, seen) VALUES (?1, ?2)")
        .and_then(|mut s| s.execute((made.original.as_bytes(), made.seen)))
        .at(file)?;
    Ok(())
}
