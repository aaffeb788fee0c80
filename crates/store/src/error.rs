//! What can go wrong with the store: a kind for the program, a paragraph for the person.

use std::io;
use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;
use survey::{Message, Phrase, Said, msg, say};

/// What a caller can react to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ErrorKind {
    /// What was asked for is not there.
    Missing,
    /// It stands in the way of something recorded, or means more than one thing.
    Conflict,
    /// Demolition of the house was declared: the log takes no entries of its walk any more.
    WalkEnded,
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
/// [`Self::message`] says it; `Display` only names the messages.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[error("{what} ({}). {mend}", .place.display())]
pub struct StoreError {
    kind: ErrorKind,
    // Boxed, so that a result stays small where all goes well.
    what: Box<Said>,
    place: PathBuf,
    mend: Box<Said>,
}

impl StoreError {
    pub(crate) fn new(kind: ErrorKind, what: impl Into<Said>, place: &Path, mend: impl Into<Said>) -> Self {
        Self { kind, what: Box::new(what.into()), place: place.to_owned(), mend: Box::new(mend.into()) }
    }
    pub(crate) fn damaged(what: impl Into<Said>, place: &Path) -> Self {
        Self::new(ErrorKind::Damaged, what, place, Phrase("store-damaged-mend"))
    }
    pub(crate) fn full(place: &Path, needed: u64) -> Self {
        let kib = needed.div_ceil(1024).max(4);
        Self::new(
            ErrorKind::Full,
            Phrase("store-full"),
            place,
            say!("store-full-mend", kib = kib.to_string()),
        )
    }
    pub(crate) fn from_io(error: &io::Error, doing: Phrase, place: &Path) -> Self {
        match error.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::full(place, ROOM),
            io::ErrorKind::NotFound => Self::new(
                ErrorKind::Missing,
                say!("store-no-file", doing = doing),
                place,
                Phrase("store-no-file-mend"),
            ),
            io::ErrorKind::PermissionDenied => Self::new(
                ErrorKind::Io,
                say!("store-denied", doing = doing),
                place,
                Phrase("store-denied-mend"),
            ),
            _ => Self::new(
                ErrorKind::Io,
                say!("store-io", doing = doing, said = error.to_string()),
                place,
                Phrase("store-io-mend"),
            ),
        }
    }
    pub(crate) fn from_sql(error: &rusqlite::Error, place: &Path) -> Self {
        let Some(code) = error.sqlite_error() else {
            // Not from SQLite itself: a column holds something else than was written to it.
            return Self::damaged(say!("store-sql-unread", said = error.to_string()), place);
        };
        match code.code {
            ErrorCode::DiskFull => Self::full(place, ROOM),
            _ if code.extended_code == rusqlite::ffi::SQLITE_IOERR_SHMSIZE => Self::full(place, ROOM),
            ErrorCode::DatabaseCorrupt => {
                Self::damaged(say!("store-sql-damaged", said = error.to_string()), place)
            }
            ErrorCode::NotADatabase => Self::damaged(Phrase("store-not-ours"), place),
            ErrorCode::ConstraintViolation => Self::new(
                ErrorKind::Conflict,
                say!("store-sql-refused", said = error.to_string()),
                place,
                Phrase("store-nothing-changed"),
            ),
            ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => {
                Self::new(ErrorKind::Io, Phrase("store-busy"), place, Phrase("store-busy-mend"))
            }
            ErrorCode::ReadOnly | ErrorCode::PermissionDenied | ErrorCode::CannotOpen => Self::new(
                ErrorKind::Io,
                say!("store-sql-no-write", said = error.to_string()),
                place,
                Phrase("store-sql-no-write-mend"),
            ),
            ErrorCode::Unknown => Self::damaged(say!("store-sql-lacks", said = error.to_string()), place),
            _ => Self::new(
                ErrorKind::Io,
                say!("store-sql-io", said = error.to_string()),
                place,
                Phrase("store-sql-io-mend"),
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
    pub fn what(&self) -> &Said {
        &self.what
    }
    /// The file or folder it happened to.
    pub fn place(&self) -> &Path {
        &self.place
    }
    /// How to mend it.
    pub fn mend(&self) -> &Said {
        &self.mend
    }
    /// What happened, which file, how to mend it.
    pub fn message(&self) -> Message {
        let place = self.place.display().to_string();
        msg!("store-error", what = self.what(), place = place, mend = self.mend())
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
    fn doing(self, what: Phrase, file: &Path) -> Result<T, StoreError>;
}

impl<T> IoAt<T> for io::Result<T> {
    fn doing(self, what: Phrase, file: &Path) -> Result<T, StoreError> {
        self.map_err(|e| StoreError::from_io(&e, what, file))
    }
}
