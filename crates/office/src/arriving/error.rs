//! Why something that comes is not taken.

use std::io;
use std::path::{Path, PathBuf};

use courier::talk::Missing;

/// Why a piece or a packet is not taken.
#[derive(Debug, thiserror::Error)]
pub enum ArrivingError {
    /// Its recipe was never told, or was swept.
    #[error("this packet was not begun here, or was given up; begin it again")]
    NotBegun,
    /// A segment that is not in the recipe, or not of that length, or a piece that leaves it.
    #[error("this piece is not of the packet as it was told")]
    NotInRecipe,
    /// A piece that does not begin where the last one ended.
    #[error("{have} bytes of this segment are here")]
    NotNext {
        /// How much is here.
        have: u64,
    },
    /// Not all is here.
    #[error("{} segments of the packet are missing", .0.len())]
    Missing(Vec<Missing>),
    /// The segments are together another file.
    #[error("what came is another file than was told; send the packet again")]
    Another,
    /// Too many that are not whole.
    #[error("too many packets are underway and not whole; finish one of them first")]
    TooMany,
    /// No room.
    #[error("the office's disk has no room for this packet")]
    Full,
    /// A file.
    #[error("{path}: {what}")]
    File {
        /// Which.
        path: PathBuf,
        /// What the system says.
        what: String,
    },
}

impl ArrivingError {
    pub(crate) fn at(path: &Path, e: &io::Error) -> Self {
        match e.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::Full,
            _ => Self::File { path: path.to_owned(), what: e.to_string() },
        }
    }
}
