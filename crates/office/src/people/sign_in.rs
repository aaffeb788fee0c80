//! Signing in and out, and another password.

use std::net::IpAddr;
use std::sync::PoisonError;

use survey::Stamp;

use super::limits::{LOCK, Standing, standing};
use super::name::fold;
use super::second::use_up;
use super::{AuditLine, Bits, Deed, IDLE_MS, People, PeopleError, Person, Second, Session, Who};
use super::{WHOLE_MS, drawn, hex, password, sha256};
use crate::repo::{Repo, alone};

/// Somebody whose password was right.
#[derive(Clone, Debug)]
pub(crate) struct Known {
    /// Who, with this attempt counted as if it had been wrong.
    pub(crate) person: Person,
    /// Their wrong attempts before it, and the moment of the last.
    before: (u32, i64),
}

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
        let known = self.known(&fold(name), given, from, now)?;
        let known = known.ok_or(PeopleError::WrongNameOrPassword)?;
        let shown = self.code(&known, code, from, now)?;
        // Kept by what was thought enough when it was chosen: from now on by what is today.
        let anew = if known.person.password.as_ref().is_some_and(password::is_dated) {
            let salt = drawn(bits);
            Some(self.hashing.alone(|| password::keep(given, salt))?)
        } else {
            None
        };
        alone(self.repo().as_mut(), |repo| {
            let mut person = right(repo, &known, shown)?;
            if let Some(kept) = anew {
                person.password = Some(kept);
                repo.change_person(&person)?;
            }
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

    /// Gives somebody another password, by the old one and a code where they have a second factor. All their sessions end;
    /// this browser gets a new one.
    ///
    /// # Errors
    /// A wrong old password or code, which counts like one at the door; a new one that is not taken.
    pub fn change_password(
        &self,
        who: &Who,
        (old, code): (&str, Option<&str>),
        new: &str,
        from: IpAddr,
        now: Stamp,
        bits: Bits<'_>,
    ) -> Result<(Who, String), PeopleError> {
        self.judge(new, &[&who.name])?;
        let known = self.themselves(who, old, from, now)?;
        let shown = self.code(&known, code, from, now)?;
        let salt = drawn(bits);
        let kept = self.hashing.alone(|| password::keep(new, salt))?;
        alone(self.repo().as_mut(), |repo| {
            let mut person = right(repo, &known, shown)?;
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
    ) -> Result<Known, PeopleError> {
        let known = self.known(&fold(&who.name), given, from, now)?.filter(|k| k.person.id == who.id);
        known.ok_or(PeopleError::WrongOldPassword)
    }

    /// Takes the attempt of somebody back whose password was right: they stand as they did before it.
    pub(crate) fn take_back(&self, known: &Known, from: IpAddr) -> Result<(), PeopleError> {
        self.was_right(from);
        alone(self.repo().as_mut(), |repo| {
            let person = repo.person(known.person.id)?.filter(|p| p.removed.is_none());
            let Some(mut person) = person else { return Ok(()) };
            let counted = (known.person.failures, known.person.last_failure);
            if (person.failures, person.last_failure) == counted {
                (person.failures, person.last_failure) = known.before;
            } else {
                person.failures = person.failures.saturating_sub(1);
            }
            Ok(repo.change_person(&person)?)
        })
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
        counted.inspect_err(|_| {
            self.turn_away(Deed::HadToWait, (None, None), from, now);
        })
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
    ) -> Result<Option<Known>, PeopleError> {
        self.count_address(from, now)?;
        let known = self.count(folded, now.unix_ms()).inspect_err(|e| {
            if matches!(e, PeopleError::Locked) {
                // Without the name: who is refused unread may have typed anything for one.
                self.turn_away(Deed::HadToWait, (None, None), from, now);
            }
        })?;
        let kept = known.as_ref().and_then(|k| k.person.password.as_ref());
        if self.hashing.alone(|| password::is_right(given, kept))? {
            return Ok(known);
        }
        let person = known.map(|known| known.person);
        // What was typed for a name is not noted: people type passwords there. That somebody tried is, whoever it was.
        let about = person.as_ref().map(|p| p.name.clone());
        let line = |what| AuditLine { about: about.clone(), ..AuditLine::of(what, from, now) };
        let mut repo = self.repo();
        repo.add_audit(&line(Deed::WrongPassword))?;
        if person.is_some_and(|p| p.failures == LOCK && p.is_locked()) {
            repo.add_audit(&line(Deed::Locked))?;
        }
        Ok(None)
    }

    /// Counts an attempt for a name as if it were wrong, if it may be tried at all.
    fn count(&self, folded: &str, now: i64) -> Result<Option<Known>, PeopleError> {
        let mut repo = self.repo();
        let found = alone(repo.as_mut(), |repo| {
            let Some(mut person) = repo.person_called(folded)? else { return Ok(None) };
            let before = (person.failures, person.last_failure);
            let stood = standing(person.role, person.failures, person.last_failure, now);
            if stood == Standing::Open {
                person.failures = person.failures.saturating_add(1);
                person.last_failure = now;
                repo.change_person(&person)?;
            }
            Ok::<_, PeopleError>(Some((Known { person, before }, stood)))
        })?;
        drop(repo);
        let (known, stood) = match found {
            Some((known, stood)) => (Some(known), stood),
            None => {
                let mut strangers = self.strangers.lock().unwrap_or_else(PoisonError::into_inner);
                (None, strangers.attempt(sha256(folded.as_bytes()), now))
            }
        };
        if stood == Standing::Open { Ok(known) } else { Err(PeopleError::Locked) }
    }
}

/// Password and code were right: what was counted is forgotten. Whoever was changed meanwhile is taken as they are now.
pub(crate) fn right(
    repo: &mut dyn Repo,
    known: &Known,
    shown: Option<Second>,
) -> Result<Person, PeopleError> {
    let now = repo.person(known.person.id)?;
    let now = now.filter(|p| p.removed.is_none() && p.password == known.person.password);
    let mut now = now.ok_or(PeopleError::WrongNameOrPassword)?;
    use_up(&mut now, shown)?;
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
