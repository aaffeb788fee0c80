//! Why a tablet is not let in.

use survey::Stamp;

use crate::OfficeError;
use crate::people::PeopleError;

/// Why the office refuses a tablet.
#[derive(Debug, thiserror::Error)]
pub enum TabletError {
    /// No secret of a tablet.
    #[error("this tablet is not paired with this office; pair it anew")]
    NotPaired,
    /// A tablet that was revoked.
    #[error(
        "“{name}” was revoked at this office ({since}); it may send nothing more. Ask the office to pair it anew"
    )]
    Revoked {
        /// What it is called.
        name: String,
        /// Since when.
        since: Stamp,
    },
    /// A code that is wrong, used or too old: one answer, so that it does not tell which.
    #[error("this invitation was used, is too old, or is another one; have the office make a new one")]
    WrongCode,
    /// Too many attempts from one address.
    #[error("too many attempts came from this address; wait a quarter of an hour")]
    TooMany,
    /// A name that cannot be kept.
    #[error("give the tablet a name of one line, in at most 120 letters")]
    Name,
    /// No tablet by that number.
    #[error("there is no such tablet here")]
    NoSuchTablet,
    /// What is refused to people.
    #[error(transparent)]
    People(Box<PeopleError>),
    /// The office's records.
    #[error(transparent)]
    Office(#[from] OfficeError),
}
