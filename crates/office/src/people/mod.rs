//! Who may come to the office over the network: accounts, sessions, what is noted of them.
//!
//! Clock and random bits are handed in. Passwords are hashed with nothing locked, one after the other. A wrong password is
//! counted before it is looked at, so that no number of guesses at once gets more than its share.
//!
//! | what | how much | from |
//! | --- | --- | --- |
//! | a session not used | ends after an hour | OWASP ASVS 5.0, 7.3.1 asks for a limit; the hour is ours |
//! | a session | ends after 12 hours | 7.3.2, likewise: a day of work |
//! | wrong passwords for a name | 5 free, then 1, 2, 4 … 15 minutes between two | 6.3.1, likewise |
//! | the tenth | locks the account until an owner unlocks it; an owner's is never locked | so that the last owner gets in |
//! | wrong codes of a second factor | count like wrong passwords, and each code is good once | RFC 6238, 5.2; OWASP ASVS 5.0, 6.5.1 |
//! | what a browser may ask | 3,000 times a minute | ours: far above what screens with hundreds of pictures ask |
//! | attempts from an address | 30 in 15 minutes | ours; an office behind one address has fewer slips |

mod ask;
mod closed;
mod error;
mod kinds;
pub(crate) mod limits;
pub(crate) mod name;
mod password;
mod second;
mod sessions;
mod set_up;
mod sign_in;
mod staff;
#[cfg(test)]
mod tests;

use std::net::IpAddr;
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

use sha2::{Digest as _, Sha256};
use survey::Stamp;

use crate::repo::{self, Repo};

pub use ask::{Answered, Call, Cookie};
pub use closed::Sight;
pub use error::PeopleError;
pub use kinds::{AuditLine, Deed, Kept, Person, PersonId, Role, Second, Session};
pub use password::{FEWEST as FEWEST_LETTERS, MOST as MOST_LETTERS, Weak};

pub(crate) use kinds::unhex;

/// An hour without a request ends a session.
pub const IDLE_MS: i64 = 60 * 60 * 1000;
/// Twelve hours end it in any case; the cookie lives no longer.
pub const WHOLE_MS: i64 = 12 * 60 * 60 * 1000;
/// How stale the moment of the last use may be: not every request writes.
const SEEN_EVERY_MS: i64 = 60 * 1000;

/// Draws random bits.
pub type Bits<'b> = &'b mut dyn FnMut(&mut [u8]);

/// The people of one office.
pub struct People {
    repo: Mutex<Box<dyn Repo>>,
    strangers: Mutex<limits::Strangers>,
    addresses: Mutex<limits::Addresses>,
    hashing: limits::Hashing,
    away: Mutex<limits::TurnedAway>,
    asked: Mutex<limits::Asked>,
    /// Second factors that are being set up.
    begun: Mutex<second::Begun>,
    /// Hash of the one-time link, while nobody is here.
    link: Mutex<Option<[u8; 32]>>,
}

/// Who asks, and from where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Who {
    /// Their number.
    pub id: PersonId,
    /// Their name.
    pub name: String,
    /// What they may do.
    pub role: Role,
    /// True while their password is the one an owner chose for them.
    pub first_password: bool,
    /// True where they have a second factor.
    pub second: bool,
    /// True while the firm demands a second factor that they have not set up.
    pub second_wanted: bool,
    /// The hash of their session's secret.
    pub(crate) session: [u8; 32],
}

impl People {
    /// The people in these records.
    pub fn new(repo: Box<dyn Repo>) -> Self {
        Self {
            repo: Mutex::new(repo),
            strangers: Mutex::default(),
            addresses: Mutex::default(),
            hashing: limits::Hashing::default(),
            away: Mutex::default(),
            asked: Mutex::default(),
            begun: Mutex::default(),
            link: Mutex::new(None),
        }
    }
    /// The people of the office in this folder.
    ///
    /// # Errors
    /// A database that cannot be used.
    pub fn open(dir: &Path) -> Result<Self, PeopleError> {
        Ok(Self::new(repo::in_folder(dir)?))
    }

    /// Whoever holds the secret of a session that has not ended.
    ///
    /// # Errors
    /// No session by that secret, or one that ended; somebody who asks more than a person can.
    pub fn who(&self, secret: Option<&str>, now: Stamp) -> Result<Who, PeopleError> {
        let hash = secret.and_then(unhex::<32>).map(|s| sha256(&s)).ok_or(PeopleError::NotSignedIn)?;
        let now = now.unix_ms();
        let mut repo = self.repo();
        let session = repo.session(&hash)?.ok_or(PeopleError::NotSignedIn)?;
        if !lives(&session, now) {
            repo.end_session(&hash)?;
            return Err(PeopleError::NotSignedIn);
        }
        let person = repo.person(session.person)?.filter(|p| p.removed.is_none());
        let person = person.ok_or(PeopleError::NotSignedIn)?;
        if now - session.seen >= SEEN_EVERY_MS {
            repo.see_session(&hash, now)?;
        }
        let mut asked = self.asked.lock().unwrap_or_else(PoisonError::into_inner);
        if !asked.once_more(hash, now) {
            return Err(PeopleError::TooQuick(person.id));
        }
        Who::of(repo.as_ref(), person, hash)
    }

    /// The same, if their role is at least this one, their password their own, and their second factor set up where one is
    /// demanded. Whoever asks for more than their role is noted, with what they asked for.
    ///
    /// # Errors
    /// Nobody signed in, somebody with less of a role, with the password an owner chose, or without a second factor.
    pub fn allow(
        &self,
        secret: Option<&str>,
        least: Role,
        (asked, from): (&str, IpAddr),
        now: Stamp,
    ) -> Result<Who, PeopleError> {
        let who = self.who(secret, now).inspect_err(|e| {
            if let PeopleError::TooQuick(who) = e {
                self.turn_away(Deed::HadToWait, (Some(*who), Some(asked.to_owned())), from, now);
            }
        })?;
        if who.first_password {
            return Err(PeopleError::FirstPassword);
        }
        if who.second_wanted {
            return Err(PeopleError::SecondFirst);
        }
        if who.role < least {
            self.turn_away(Deed::NotAllowed, (Some(who.id), Some(asked.to_owned())), from, now);
            return Err(PeopleError::NotAllowed { role: who.role, least });
        }
        Ok(who)
    }

    /// Notes that somebody was turned away, or that something failed while they asked, if the log has room for it. A line
    /// that cannot be written is left out: they are turned away all the same, and false says so.
    pub fn turn_away(
        &self,
        what: Deed,
        (who, about): (Option<PersonId>, Option<String>),
        from: IpAddr,
        now: Stamp,
    ) -> bool {
        let noted = {
            let mut away = self.away.lock().unwrap_or_else(PoisonError::into_inner);
            // What failed and what was refused is told apart, so that one hides no other.
            let which = about
                .as_deref()
                .filter(|_| matches!(what, Deed::Fault | Deed::PacketRefused))
                .map(|about| sha256(about.as_bytes()));
            away.noted((what, which), from, now.unix_ms())
        };
        !noted || self.repo().add_audit(&AuditLine { who, about, ..AuditLine::of(what, from, now) }).is_ok()
    }

    /// Notes what somebody did elsewhere in the office.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn note(
        &self,
        who: &Who,
        what: Deed,
        about: String,
        from: IpAddr,
        now: Stamp,
    ) -> Result<(), PeopleError> {
        let line = AuditLine { who: Some(who.id), about: Some(about), ..AuditLine::of(what, from, now) };
        self.repo().add_audit(&line)?;
        Ok(())
    }

    /// Notes what came about without anybody who is known: by the machine itself.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn note_here(&self, what: Deed, about: String, now: Stamp) -> Result<(), PeopleError> {
        self.repo().add_audit(&AuditLine {
            n: 0,
            at: now,
            who: None,
            what,
            about: Some(about),
            address: None,
        })?;
        Ok(())
    }

    /// True where nobody gets on with a password alone.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn second_demanded(&self) -> Result<bool, PeopleError> {
        Ok(self.repo().second_demanded()?)
    }

    /// Name of the firm, once somebody set the office up.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn firm(&self) -> Result<Option<String>, PeopleError> {
        Ok(self.repo().firm()?)
    }

    fn repo(&self) -> MutexGuard<'_, Box<dyn Repo>> {
        // A panic left no transaction open: whoever began one rolls it back.
        self.repo.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Who {
    /// A person, as whoever holds the session of this hash.
    fn of(repo: &dyn Repo, person: Person, session: [u8; 32]) -> Result<Self, PeopleError> {
        let second = person.second.is_some();
        Ok(Self {
            id: person.id,
            name: person.name,
            role: person.role,
            first_password: person.first_password,
            second,
            second_wanted: !second && repo.second_demanded()?,
            session,
        })
    }
}

impl AuditLine {
    /// A line about nobody yet.
    pub(crate) fn of(what: Deed, from: IpAddr, now: Stamp) -> Self {
        Self { n: 0, at: now, who: None, what, about: None, address: Some(from) }
    }
    /// A line about what somebody did.
    pub(crate) fn by(who: PersonId, what: Deed, about: Option<String>, from: IpAddr, now: Stamp) -> Self {
        Self { who: Some(who), about, ..Self::of(what, from, now) }
    }
}

/// A clock that was set back ends no session; one that was set forward by mistake ends them all, which is the safe side.
fn lives(session: &Session, now: i64) -> bool {
    now - session.started < WHOLE_MS && now - session.seen < IDLE_MS
}

pub(crate) fn sha256(bytes: &[u8]) -> [u8; 32] {
    Sha256::digest(bytes).into()
}

pub(crate) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

pub(crate) fn drawn<const N: usize>(bits: Bits<'_>) -> [u8; N] {
    let mut bytes = [0; N];
    bits(&mut bytes);
    bytes
}
