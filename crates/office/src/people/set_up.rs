//! The first owner: whoever opens the link that is printed where the office runs, once, while nobody is here.

use std::net::IpAddr;
use std::sync::PoisonError;

use subtle::ConstantTimeEq as _;
use survey::Stamp;

use super::name::{MOST, MOST_OF_FIRM, clean, fold};
use super::sign_in::begin;
use super::{AuditLine, Bits, Deed, People, PeopleError, Person, PersonId, Role, Who};
use super::{drawn, hex, password, sha256, unhex};
use crate::repo::alone;

/// What the first owner says.
#[derive(Clone, Copy)]
pub(crate) struct First<'a> {
    /// The token of the link.
    pub(crate) token: &'a str,
    /// Name of the firm.
    pub(crate) firm: &'a str,
    /// Their name.
    pub(crate) name: &'a str,
    /// Their password.
    pub(crate) password: &'a str,
}

impl People {
    /// True once there is somebody.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn is_set_up(&self) -> Result<bool, PeopleError> {
        Ok(!self.repo().people()?.is_empty())
    }

    /// A token for the one-time link, while there is nobody; the one before is worth nothing then.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn one_time_token(&self, bits: Bits<'_>) -> Result<Option<String>, PeopleError> {
        if self.is_set_up()? {
            return Ok(None);
        }
        let token: [u8; 32] = drawn(bits);
        *self.link.lock().unwrap_or_else(PoisonError::into_inner) = Some(sha256(&token));
        Ok(Some(hex(&token)))
    }

    /// Takes the token for the first owner, who is signed in by it.
    ///
    /// # Errors
    /// A wrong or used token, names or a password that are not taken: the token is kept then.
    pub(crate) fn set_up(
        &self,
        first: First<'_>,
        from: IpAddr,
        now: Stamp,
        bits: Bits<'_>,
    ) -> Result<(Who, String), PeopleError> {
        let wrong = || {
            self.turn_away(Deed::WrongLink, (None, None), from, now);
            PeopleError::WrongLink
        };
        self.count_address(from, now)?;
        let given = unhex::<32>(first.token).map(|token| sha256(&token)).ok_or_else(wrong)?;
        let fits = |kept: &Option<[u8; 32]>| kept.is_some_and(|kept| kept.ct_eq(&given).into());
        if !fits(&self.link.lock().unwrap_or_else(PoisonError::into_inner)) {
            return Err(wrong());
        }
        self.was_right(from);
        let firm = clean(first.firm, MOST_OF_FIRM).ok_or(PeopleError::Firm)?;
        let name = clean(first.name, MOST).ok_or(PeopleError::Name)?;
        self.judge(first.password, &[&firm, &name])?;
        let (id, salt) = (PersonId(drawn(bits)), drawn(bits));
        let kept = self.hashing.alone(|| password::keep(first.password, salt))?;
        // Held until the owner is kept: of two who have the link one comes first.
        let mut link = self.link.lock().unwrap_or_else(PoisonError::into_inner);
        if !fits(&link) {
            return Err(PeopleError::WrongLink);
        }
        let begun = alone(self.repo().as_mut(), |repo| {
            if !repo.people()?.is_empty() {
                return Err(PeopleError::WrongLink);
            }
            let folded = fold(&name);
            let person = Person {
                id,
                name,
                folded,
                role: Role::Owner,
                since: now,
                removed: None,
                password: Some(kept),
                failures: 0,
                last_failure: 0,
                first_password: false,
                second: None,
            };
            repo.set_firm(&firm)?;
            repo.add_person(&person)?;
            repo.add_audit(&AuditLine::by(id, Deed::SetUp, Some(firm), from, now))?;
            begin(repo, &person, (from, now), bits)
        })?;
        *link = None;
        Ok(begun)
    }
}
