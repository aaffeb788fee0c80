//! Signing in and out, and another password.

use std::net::IpAddr;
use std::sync::PoisonError;

use survey::Stamp;

use super::limits::{LOCK, Standing, standing};
use super::name::fold;
use super::second::used;
use super::{AuditLine, Bits, Deed, IDLE_MS, People, PeopleError, Person, Role, Session, Who};
use super::{WHOLE_MS, drawn, hex, password, sha256};
use crate::repo::{Repo, alone};

impl People {
    /// Signs somebody in: a new session, its secret, and the one of this browser before ended. Whoever has a second factor
    /// gives its code beside the password; without one they are asked for it.
    ///
    /// # Errors
    /// One and the same for a wrong name and a wrong password; too many of them; a code that is missing or wrong.
    pub fn sign_in(
        &self,
        name: &str,
        (given, code): (&str, Option<&str>),
        before: Option<&Who>,
        from: IpAddr,
        now: Stamp,
        bits: Bits<'_>,
    ) -> Result<(Who, String), PeopleError> {
        let person = self.known(&fold(name), given, from, now)?;
        let person = person.ok_or(PeopleError::WrongNameOrPassword)?;
        let step = self.code(&person, code, from, now)?;
        alone(self.repo().as_mut(), |repo| {
            let person = right(repo, &person)?;
            let person = used(repo, person, step)?;
            if let Some(before) = before {
                repo.end_session(&before.session)?;
            }
            let begun = begin(repo, &person, (from, now), bits)?;
            repo.add_audit(&AuditLine::by(person.id, Deed::SignedIn, None, from, now))?;
            Ok(begun)
        })
    }

    /// Ends a session.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn sign_out(&self, who: &Who, from: IpAddr, now: Stamp) -> Result<(), PeopleError> {
        alone(self.repo().as_mut(), |repo| {
            repo.end_session(&who.session)?;
            repo.add_audit(&AuditLine::by(who.id, Deed::SignedOut, None, from, now))?;
            Ok(())
        })
    }

    /// Gives somebody another password. All their sessions end; this browser gets a new one.
    ///
    /// # Errors
    /// A wrong old password, which counts like one at the door; a new one that is not taken.
    pub fn change_password(
        &self,
        who: &Who,
        old: &str,
        new: &str,
        from: IpAddr,
        now: Stamp,
        bits: Bits<'_>,
    ) -> Result<(Who, String), PeopleError> {
        self.judge(new, &[&who.name])?;
        let person = self.themselves(who, old, from, now)?;
        let salt = drawn(bits);
        let kept = self.hashing.alone(|| password::keep(new, salt))?;
        alone(self.repo().as_mut(), |repo| {
            let mut person = right(repo, &person)?;
            person.password = Some(kept);
            person.first_password = false;
            repo.change_person(&person)?;
            repo.end_sessions_of(person.id)?;
            let begun = begin(repo, &person, (from, now), bits)?;
            repo.add_audit(&AuditLine::by(person.id, Deed::PasswordChanged, None, from, now))?;
            Ok(begun)
        })
    }

    /// Whoever is signed in, by their password once more: before they change what they sign in with.
    ///
    /// # Errors
    /// A wrong password, which counts like one at the door.
    pub(crate) fn themselves(
        &self,
        who: &Who,
        given: &str,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Person, PeopleError> {
        let person = self.known(&fold(&who.name), given, from, now)?.filter(|p| p.id == who.id);
        person.ok_or(PeopleError::WrongOldPassword)
    }

    /// Holds a new password against the rules, with all names of this office.
    pub(crate) fn judge(&self, new: &str, more: &[&str]) -> Result<(), PeopleError> {
        let (firm, people) = {
            let repo = self.repo();
            (repo.firm()?, repo.people()?)
        };
        let names = people.iter().map(|p| p.name.as_str()).chain(firm.as_deref());
        let about: Vec<&str> = names.chain(more.iter().copied()).collect();
        password::judge(new, &about).map_err(PeopleError::Weak)
    }

    /// Counts an attempt from an address; one that is refused is noted, without what was tried.
    pub(crate) fn count_address(&self, from: IpAddr, now: Stamp) -> Result<(), PeopleError> {
        let counted = {
            let mut addresses = self.addresses.lock().unwrap_or_else(PoisonError::into_inner);
            addresses.attempt(from, now.unix_ms())
        };
        counted.inspect_err(|_| self.turn_away(Deed::HadToWait, (None, None), from, now))
    }
    /// Takes the attempt back: it was a right one.
    pub(crate) fn was_right(&self, from: IpAddr) {
        self.addresses.lock().unwrap_or_else(PoisonError::into_inner).right(from);
    }

    /// The person of this name, if the password is theirs. The attempt is counted first and hashed then, and hashed even if
    /// there is nobody.
    fn known(
        &self,
        folded: &str,
        given: &str,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Option<Person>, PeopleError> {
        self.count_address(from, now)?;
        let person = self.count(folded, now.unix_ms()).inspect_err(|e| {
            if matches!(e, PeopleError::Locked) {
                // Without the name: who is refused unread may have typed anything for one.
                self.turn_away(Deed::HadToWait, (None, None), from, now);
            }
        })?;
        let kept = person.as_ref().and_then(|p| p.password.as_ref());
        if self.hashing.alone(|| password::is_right(given, kept))? {
            self.was_right(from);
            return Ok(person);
        }
        // What was typed for a name is not noted: people type passwords there. That somebody tried is, whoever it was.
        let about = person.as_ref().map(|p| p.name.clone());
        let line = |what| AuditLine { about: about.clone(), ..AuditLine::of(what, from, now) };
        let mut repo = self.repo();
        repo.add_audit(&line(Deed::WrongPassword))?;
        if person.is_some_and(|p| p.failures == LOCK && p.role != Role::Owner) {
            repo.add_audit(&line(Deed::Locked))?;
        }
        Ok(None)
    }

    /// Counts an attempt for a name as if it were wrong, if it may be tried at all.
    fn count(&self, folded: &str, now: i64) -> Result<Option<Person>, PeopleError> {
        let mut repo = self.repo();
        let found = alone(repo.as_mut(), |repo| {
            let Some(mut person) = repo.person_called(folded)? else { return Ok(None) };
            let stood = standing(person.role, person.failures, person.last_failure, now);
            if stood == Standing::Open {
                person.failures = person.failures.saturating_add(1);
                person.last_failure = now;
                repo.change_person(&person)?;
            }
            Ok::<_, PeopleError>(Some((person, stood)))
        })?;
        drop(repo);
        let (person, stood) = match found {
            Some((person, stood)) => (Some(person), stood),
            None => {
                let mut strangers = self.strangers.lock().unwrap_or_else(PoisonError::into_inner);
                (None, strangers.attempt(sha256(folded.as_bytes()), now))
            }
        };
        if stood == Standing::Open { Ok(person) } else { Err(PeopleError::Locked) }
    }
}

/// The password was right: what was counted is forgotten. Whoever was changed meanwhile is taken as they are now.
pub(crate) fn right(repo: &mut dyn Repo, person: &Person) -> Result<Person, PeopleError> {
    let now = repo.person(person.id)?.filter(|p| p.removed.is_none() && p.password == person.password);
    let mut now = now.ok_or(PeopleError::WrongNameOrPassword)?;
    now.failures = 0;
    repo.change_person(&now)?;
    Ok(now)
}

/// Begins a session, and sweeps those that ended.
pub(crate) fn begin(
    repo: &mut dyn Repo,
    person: &Person,
    (from, now): (IpAddr, Stamp),
    bits: Bits<'_>,
) -> Result<(Who, String), PeopleError> {
    let (secret, now): ([u8; 32], i64) = (drawn(bits), now.unix_ms());
    let hash = sha256(&secret);
    repo.end_sessions_before(now - WHOLE_MS, now - IDLE_MS)?;
    repo.add_session(&Session { hash, person: person.id, started: now, seen: now, from: Some(from) })?;
    Ok((Who::of(repo, person.clone(), hash)?, hex(&secret)))
}
