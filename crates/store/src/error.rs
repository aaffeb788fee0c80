//! What can go wrong with the store: a kind for the program, a paragraph for the person.

use std::io;
use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;

/// What a caller can react to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ErrorKind {
    /// What was asked for is not there.
    Missing,
    /// It stands in the way of something recorded, or means more than one thing.
    Conflict,
    /// A file does not hold what was written to it.
    Damaged,
    /// No room on the disk.
    Full,
    /// Written by a newer program.
    Newer,
    /// The operating system refused to read or write, or another program holds the file.
    Io,
}

/// An error of the store: what happened, which file, how to mend it.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[error("{what} ({}). {mend}", .place.display())]
pub struct StoreError {
    kind: ErrorKind,
    what: String,
    place: PathBuf,
    mend: String,
}

const DAMAGED: &str = "Nothing was changed in it. Copy the whole folder before anything else; then have every \
     readable entry written out with the verb rescue, set the damaged file aside and take them in again with merge. A packet, a \
     backup or another device of the same house may hold what cannot be read.";

impl StoreError {
    pub(crate) fn new(
        kind: ErrorKind,
        what: impl Into<String>,
        place: &Path,
        mend: impl Into<String>,
    ) -> Self {
        Self { kind, what: what.into(), place: place.to_owned(), mend: mend.into() }
    }
    pub(crate) fn damaged(what: impl Into<String>, place: &Path) -> Self {
        Self::new(ErrorKind::Damaged, what, place, DAMAGED)
    }
    pub(crate) fn full(place: &Path, needed: u64) -> Self {
        let kib = needed.div_ceil(1024).max(4);
        Self::new(
            ErrorKind::Full,
            "The disk is full: the last thing was not recorded",
            place,
            format!("Everything recorded before is kept. Free at least {kib} KiB and record it again."),
        )
    }
    pub(crate) fn from_io(error: &io::Error, doing: &str, place: &Path) -> Self {
        match error.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::full(place, ROOM),
            io::ErrorKind::NotFound => Self::new(
                ErrorKind::Missing,
                format!("Cannot {doing}: there is no such file or folder"),
                place,
                "Check the path; if the file was moved, put it back where it was.",
            ),
            io::ErrorKind::PermissionDenied => Self::new(
                ErrorKind::Io,
                format!("Cannot {doing}: permission denied"),
                place,
                "Nothing recorded was changed. Give yourself the right to read and write this place, or choose another.",
            ),
            _ => Self::new(
                ErrorKind::Io,
                format!("Cannot {doing}: {error}"),
                place,
                "Nothing recorded was changed. See that the disk is connected and writable, and try again.",
            ),
        }
    }
    pub(crate) fn from_sql(error: &rusqlite::Error, place: &Path) -> Self {
        let Some(code) = error.sqlite_error() else {
            // Not from SQLite itself: a column holds something else than was written to it.
            return Self::damaged(format!("The survey database cannot be read: {error}"), place);
        };
        match code.code {
            ErrorCode::DiskFull => Self::full(place, ROOM),
            _ if code.extended_code == rusqlite::ffi::SQLITE_IOERR_SHMSIZE => Self::full(place, ROOM),
            ErrorCode::DatabaseCorrupt => {
                Self::damaged(format!("The survey database is damaged: {error}"), place)
            }
            ErrorCode::NotADatabase => {
                Self::damaged("This is not a survey database, or its beginning is damaged", place)
            }
            ErrorCode::ConstraintViolation => Self::new(
                ErrorKind::Conflict,
                format!("The survey database refused: {error}"),
                place,
                "Nothing was changed.",
            ),
            ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => Self::new(
                ErrorKind::Io,
                "Another program has been writing to the survey database for too long",
                place,
                "Nothing was changed. Close the other program, or wait for it, and try again.",
            ),
            ErrorCode::ReadOnly | ErrorCode::PermissionDenied | ErrorCode::CannotOpen => Self::new(
                ErrorKind::Io,
                format!("The survey database cannot be opened for writing: {error}"),
                place,
                "Nothing was changed. Give yourself the right to write the file and its folder, and try again.",
            ),
            ErrorCode::Unknown => Self::damaged(
                format!("The survey database lacks a table or column it should have: {error}"),
                place,
            ),
            _ => Self::new(
                ErrorKind::Io,
                format!("The survey database could not be read or written: {error}"),
                place,
                "Nothing recorded was changed. See that the disk is connected and healthy, and try again.",
            ),
        }
    }
    /// Says how much room is needed, when that is the trouble.
    pub(crate) fn needing(self, bytes: u64) -> Self {
        if self.kind == ErrorKind::Full { Self::full(&self.place, bytes) } else { self }
    }

    /// What a caller can react to.
    pub fn kind(&self) -> ErrorKind {
        self.kind
    }
    /// What happened, without file and mending.
    pub fn what(&self) -> &str {
        &self.what
    }
    /// The file or folder it happened to.
    pub fn place(&self) -> &Path {
        &self.place
    }
    /// How to mend it, in words.
    pub fn mend(&self) -> &str {
        &self.mend
    }
}

/// Room asked for when nothing better is known: one entry dirties about ten pages of 4 KiB.
const ROOM: u64 = 256 * 1024;

/// Turns errors of SQLite into ours, with the file.
pub(crate) trait SqlAt<T> {
    /// Adds the database file.
    fn at(self, file: &Path) -> Result<T, StoreError>;
}

impl<T> SqlAt<T> for rusqlite::Result<T> {
    fn at(self, file: &Path) -> Result<T, StoreError> {
        self.map_err(|e| StoreError::from_sql(&e, file))
    }
}

/// Turns errors of the operating system into ours, with the file.
pub(crate) trait IoAt<T> {
    /// Adds what was being done (“write the photograph”) and to which file.
    fn doing(self, what: &str, file: &Path) -> Result<T, StoreError>;
}

impl<T> IoAt<T> for io::Result<T> {
    fn doing(self, what: &str, file: &Path) -> Result<T, StoreError> {
        self.map_err(|e| StoreError::from_io(&e, what, file))
    }
}
