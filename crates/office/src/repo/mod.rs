//! Where the office's records lie: what may be read and written, in plain data, without a word of SQL.
//!
//! Everything above speaks to [`Repo`]; `sqlite` is the one adapter. `tests/repo_behaviour.rs` says what any other would have
//! to do. Writes hold between [`Repo::begin`] and [`Repo::commit`], which keeps every other writer out.

mod people;
mod sqlite;
mod tablets;

use std::path::Path;

use survey::Stamp;

use crate::OfficeError;

pub use people::PeopleRows;
pub use sqlite::Sqlite;
pub use tablets::{Known, TabletRows};

/// The records of one office. Each error is one of the place where they lie.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait Repo: PeopleRows + TabletRows + Send {
    /// Begins to write: nobody else writes until [`commit`](Self::commit) or [`roll_back`](Self::roll_back).
    fn begin(&mut self) -> Result<(), OfficeError>;
    /// Keeps what was written since [`begin`](Self::begin); it is on the disk when this returns.
    fn commit(&mut self) -> Result<(), OfficeError>;
    /// Forgets it.
    fn roll_back(&mut self) -> Result<(), OfficeError>;

    /// Reads everything once and says what is damaged.
    fn check(&self) -> Result<(), OfficeError>;
    /// Writes a copy of everything into a new file, while others go on.
    fn copy_into(&self, file: &Path) -> Result<(), OfficeError>;
}

/// Writes as one: all of it is kept, or none. What is read inside is not changed by anybody else meanwhile.
pub(crate) fn alone<T, E: From<OfficeError>>(
    repo: &mut dyn Repo,
    act: impl FnOnce(&mut dyn Repo) -> Result<T, E>,
) -> Result<T, E> {
    repo.begin()?;
    let mut open = Open { repo, kept: false };
    let done = act(open.repo)?;
    open.repo.commit()?;
    open.kept = true;
    Ok(done)
}

/// Rolls back on every way out but the good one, a panic among them.
struct Open<'r> {
    repo: &'r mut dyn Repo,
    kept: bool,
}

impl Drop for Open<'_> {
    fn drop(&mut self) {
        if !self.kept {
            let _ = self.repo.roll_back(); // what went wrong before is the error to tell
        }
    }
}

/// A moment as it is kept in a column.
pub(crate) fn stamp(text: &str) -> Result<Stamp, String> {
    text.parse().map_err(|e: survey::stamp::StampError| e.to_string())
}
