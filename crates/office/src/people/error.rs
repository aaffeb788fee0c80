//! Why somebody is not let in, or is not let do something.

use super::{PersonId, Role, Weak};
use crate::OfficeError;

/// Why the office refuses a person.
#[derive(Debug, thiserror::Error)]
pub enum PeopleError {
    /// No session, or one that ended.
    #[error("nobody is signed in here; sign in")]
    NotSignedIn,
    /// The role does not reach.
    #[error("this needs the role {} or more, and yours is {}", least.word(), role.word())]
    NotAllowed {
        /// What they have.
        role: Role,
        /// What it takes.
        least: Role,
    },
    /// The password is the one an owner chose.
    #[error("this password was chosen by somebody else; choose your own before anything else")]
    FirstPassword,
    /// The firm demands a second factor, and they have none.
    #[error("this office asks everybody for a second factor; set yours up before anything else")]
    SecondFirst,
    /// The firm demands a second factor, so that nobody gives theirs up.
    #[error("this office asks everybody for a second factor; nobody gives theirs up")]
    SecondDemanded,
    /// An owner's own second factor is not lifted by a key.
    #[error("your own second factor is removed by password and code")]
    OwnSecond,
    /// Whoever demands one has one.
    #[error("set up your own second factor before you ask everybody for one")]
    OwnSecondFirst,
    /// The password is right; a code of the second factor is asked for too.
    #[error("the password is right; give the code that your phone shows as well")]
    CodeWanted,
    /// A code that is not good, or was used.
    #[error("this code is not the one of this moment, or was used before")]
    WrongCode,
    /// Nobody began to set a second factor up, or too long ago.
    #[error("setting it up was not begun here, or more than ten minutes ago; begin again")]
    NotBegun,
    /// More was asked in a minute by one browser than a person can.
    #[error("too much was asked in this minute; wait one")]
    TooQuick(PersonId),
    /// The same answer for both, so that it does not tell which.
    #[error("there is nobody here by that name and password")]
    WrongNameOrPassword,
    /// Too many wrong passwords for this name.
    #[error(
        "too many wrong passwords were given for this name; wait a quarter of an hour, or have an owner unlock it"
    )]
    Locked,
    /// Too many attempts from one address.
    #[error("too many attempts came from this address; wait a quarter of an hour")]
    TooMany,
    /// Too many passwords are being looked at.
    #[error("too many people sign in at this moment; try again")]
    Busy,
    /// The one-time link was used, or is another one.
    #[error(
        "this link was used, or is of an earlier start; the office prints a new one when it is started and nobody is here"
    )]
    WrongLink,
    /// A person's name that cannot be kept.
    #[error("give a name of one line, in at most 80 letters")]
    Name,
    /// A firm's name that cannot be kept.
    #[error("give the firm's name, of one line, in at most 120 letters")]
    Firm,
    /// Somebody here has that name.
    #[error("somebody here is called “{name}” already")]
    NameTaken {
        /// The name.
        name: String,
    },
    /// A password that is not taken.
    #[error("this password is not taken: {0:?}")]
    Weak(Weak),
    /// The old password is wrong.
    #[error("this is not the password you have now")]
    WrongOldPassword,
    /// No such person.
    #[error("there is no such person here")]
    NoSuchPerson,
    /// The last owner stays one.
    #[error("this is the last owner; make somebody else an owner first")]
    LastOwner,
    /// No command by that name.
    #[error("there is no command “{0}”")]
    NoSuchCommand(String),
    /// Arguments that are none.
    #[error("the arguments of “{command}” cannot be read: {what}")]
    Arguments {
        /// The command.
        command: String,
        /// What is wrong.
        what: String,
    },
    /// Memory for hashing a password.
    #[error("a password could not be looked at: {0}")]
    Hashing(String),
    /// The office's records.
    #[error(transparent)]
    Office(#[from] OfficeError),
}

impl From<argon2::Error> for PeopleError {
    fn from(e: argon2::Error) -> Self {
        Self::Hashing(e.to_string())
    }
}
