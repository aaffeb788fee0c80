//! Where the office's records lie: what may be read and written, in plain data, without a word of SQL.
//!
//! Everything above speaks to [`Repo`]; `sqlite` is the one adapter. `tests/repo_behaviour.rs` says what any other would have
//! to do. Writes hold between [`Repo::begin`] and [`Repo::commit`], which keeps every other writer out.

mod arrivals;
mod keys;
mod people;
mod sqlite;
mod tablets;

use std::path::Path;

use survey::Stamp;

use crate::OfficeError;

pub use arrivals::{Entered, FindingRows, PacketRows, Received};
pub use keys::{CatalogRows, RegisterRows};
pub use people::PeopleRows;
pub use sqlite::Sqlite;
pub use tablets::{Known, TabletRows};

/// Name of the database in the office's folder.
pub(crate) const DATABASE: &str = "office.sqlite";

/// The records of the office in this folder.
pub(crate) fn in_folder(dir: &Path) -> Result<Box<dyn Repo>, OfficeError> {
    Ok(Box::new(Sqlite::open(&dir.join(DATABASE))?))
}

/// The records of one office. Each error is one of the place where they lie.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait Repo:
    PacketRows + FindingRows + RegisterRows + CatalogRows + PeopleRows + TabletRows + Send
{
    /// Begins to write: nobody else writes until [`commit`](Self::commit) or [`roll_back`](Self::roll_back).
    fn begin(&mut self) -> Result<(), OfficeError>;
    /// Keeps what was written since [`begin`](Self::begin); it is on the disk when this returns.
    fn commit(&mut self) -> Result<(), OfficeError>;
    /// Forgets it.
    fn roll_back(&mut self) -> Result<(), OfficeError>;

    /// Where they lie, as an error names it.
    fn place(&self) -> &Path;
    /// Reads everything once and says what is damaged.
    fn check(&self) -> Result<(), OfficeError>;
    /// Writes a copy of everything into a new file, while others go on. A copy is a file that [`Sqlite`] opens, wherever
    /// the records lie.
    fn copy_into(&self, file: &Path) -> Result<(), OfficeError>;
}

/// Whoever writes in the records of an office: the records themselves, or what holds them.
pub(crate) trait Holds {
    /// The records.
    fn held(&mut self) -> &mut dyn Repo;
}

impl Holds for dyn Repo + '_ {
    fn held(&mut self) -> &mut dyn Repo {
        self
    }
}

/// Writes as one: all of it is kept, or none. What is read inside is not changed by anybody else meanwhile.
pub(crate) fn alone<H: Holds + ?Sized, T, E: From<OfficeError>>(
    holder: &mut H,
    act: impl FnOnce(&mut H) -> Result<T, E>,
) -> Result<T, E> {
    holder.held().begin()?;
    let mut open = Open { holder, kept: false };
    let done = act(open.holder)?;
    open.holder.held().commit()?;
    open.kept = true;
    Ok(done)
}

/// Rolls back on every way out but the good one, a panic among them.
struct Open<'h, H: Holds + ?Sized> {
    holder: &'h mut H,
    kept: bool,
}

impl<H: Holds + ?Sized> Drop for Open<'_, H> {
    fn drop(&mut self) {
        if !self.kept {
            let _ = self.holder.held().roll_back(); // what went wrong before is the error to tell
        }
    }
}

/// A moment as it is kept in a column.
pub(crate) fn stamp(text: &str) -> Result<Stamp, String> {
    text.parse().map_err(|e: survey::stamp::StampError| e.to_string())
}

#[cfg(test)]
mod tests {
    use std::panic::{AssertUnwindSafe, catch_unwind};

    use super::*;

    #[test]
    fn an_error_and_a_panic_inside_leave_nothing_and_keep_nobody_out() {
        let dir = tempfile::tempdir().unwrap();
        let (mut repo, mut other) = (in_folder(dir.path()).unwrap(), in_folder(dir.path()).unwrap());
        let mut next_writes = |repo: &mut dyn Repo, state: &str| {
            assert_eq!(repo.firm().unwrap(), None);
            for (who, state) in [(repo, format!("[{state}, 1]")), (other.as_mut(), format!("[{state}, 2]"))] {
                alone(who, |who| who.add_register(&state)).unwrap();
                assert_eq!(who.register().unwrap(), Some(state));
            }
        };

        let failed: Result<(), OfficeError> = alone(repo.as_mut(), |repo| {
            repo.set_firm("Hale")?;
            assert_eq!(repo.firm()?.as_deref(), Some("Hale"));
            Err(OfficeError::NoFirm)
        });
        assert!(matches!(failed, Err(OfficeError::NoFirm)), "{failed:?}");
        next_writes(repo.as_mut(), "1");

        let refused = alone(repo.as_mut(), |repo| {
            repo.set_firm("Hale")?;
            repo.add_register("no JSON")
        });
        assert!(matches!(refused, Err(OfficeError::Database { .. })), "{refused:?}");
        next_writes(repo.as_mut(), "2");

        let stopped = catch_unwind(AssertUnwindSafe(|| {
            alone(repo.as_mut(), |repo| -> Result<(), OfficeError> {
                repo.set_firm("Hale")?;
                panic!("inside");
            })
        }));
        assert_eq!(stopped.unwrap_err().downcast_ref(), Some(&"inside"));
        next_writes(repo.as_mut(), "3");

        alone(repo.as_mut(), |repo| repo.set_firm("Hale")).unwrap();
        assert_eq!(other.firm().unwrap().as_deref(), Some("Hale"));
    }
}
