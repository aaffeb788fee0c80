//! What an owner does with the others. Every change of what somebody may do ends their sessions.

use std::net::IpAddr;

use survey::Stamp;

use super::limits::LOCK;
use super::name::{MOST, clean, fold};
use super::{AuditLine, Bits, Deed, People, PeopleError, Person, PersonId, Role, Who, drawn, password};
use crate::repo::{Repo, alone};

/// Somebody new.
#[derive(Clone, Copy)]
pub(crate) struct Newcomer<'a> {
    pub(crate) name: &'a str,
    pub(crate) role: Role,
    pub(crate) password: &'a str,
}

impl People {
    /// Everybody who is here.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn all(&self) -> Result<Vec<Person>, PeopleError> {
        Ok(self.repo().people()?)
    }

    /// Adds somebody.
    ///
    /// # Errors
    /// A name that is taken, a name or password that is not taken.
    pub(crate) fn add(
        &self,
        owner: &Who,
        new: Newcomer<'_>,
        from: IpAddr,
        now: Stamp,
        bits: Bits<'_>,
    ) -> Result<Person, PeopleError> {
        let name = clean(new.name, MOST).ok_or(PeopleError::Name)?;
        self.judge(new.password, &[&name])?;
        let (id, salt) = (PersonId(drawn(bits)), drawn(bits));
        let kept = self.hashing.alone(|| password::keep(new.password, salt))?;
        alone(self.repo().as_mut(), |repo| {
            let folded = fold(&name);
            if repo.person_called(&folded)?.is_some() {
                return Err(PeopleError::NameTaken { name });
            }
            let person = Person {
                id,
                name,
                folded,
                role: new.role,
                since: now,
                removed: None,
                password: Some(kept),
                failures: 0,
                last_failure: 0,
                first_password: true,
                second: None,
            };
            repo.add_person(&person)?;
            let about = format!("{} ({})", person.name, new.role.word());
            repo.add_audit(&AuditLine::by(owner.id, Deed::PersonAdded, Some(about), from, now))?;
            Ok(person)
        })
    }

    /// Gives somebody another role.
    ///
    /// # Errors
    /// Nobody by that number; the last owner.
    pub(crate) fn set_role(
        &self,
        owner: &Who,
        id: PersonId,
        role: Role,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Person, PeopleError> {
        self.change(owner, id, Deed::RoleSet, from, now, |repo, person| {
            if role != Role::Owner {
                not_the_last(repo, person)?;
            }
            if role == Role::Owner || person.role == Role::Owner {
                // Who was named as one of the others is to be named again.
                repo.forget_reader(person.id)?;
            }
            person.role = role;
            Ok(format!("{} ({})", person.name, role.word()))
        })
    }

    /// Lets somebody try again.
    ///
    /// # Errors
    /// Nobody by that number.
    pub(crate) fn unlock(
        &self,
        owner: &Who,
        id: PersonId,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Person, PeopleError> {
        self.change(owner, id, Deed::Unlocked, from, now, |_, person| {
            person.failures = 0;
            Ok(person.name.clone())
        })
    }

    /// Ends every session of somebody and changes nothing else: of a browser that was left open, or of a phone that was lost.
    ///
    /// # Errors
    /// Nobody by that number.
    pub(crate) fn end_sessions(
        &self,
        owner: &Who,
        id: PersonId,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Person, PeopleError> {
        self.change(owner, id, Deed::SessionsEnded, from, now, |_, person| Ok(person.name.clone()))
    }

    /// Takes the second factor from somebody who lost what shows their codes; whoever does it knows them.
    ///
    /// # Errors
    /// Nobody by that number; themselves, who give theirs up by password and code.
    pub(crate) fn lift_second(
        &self,
        owner: &Who,
        id: PersonId,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Person, PeopleError> {
        if id == owner.id {
            return Err(PeopleError::OwnSecond);
        }
        self.change(owner, id, Deed::SecondFactorDropped, from, now, |_, person| {
            person.second = None;
            Ok(person.name.clone())
        })
    }

    /// Takes somebody out. Their name is free again; the audit log goes on naming them.
    ///
    /// # Errors
    /// Nobody by that number; the last owner.
    pub(crate) fn remove(
        &self,
        owner: &Who,
        id: PersonId,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Person, PeopleError> {
        self.change(owner, id, Deed::PersonRemoved, from, now, |repo, person| {
            not_the_last(repo, person)?;
            repo.forget_reader(person.id)?;
            person.removed = Some(now);
            person.password = None;
            person.second = None;
            Ok(person.name.clone())
        })
    }

    /// Gives somebody another password at the machine itself, where whoever can reach the folder could do anything: the way
    /// back for an owner who forgot theirs, or lost what shows their codes. Locks, sessions and the second factor end.
    ///
    /// # Errors
    /// Nobody by that name; a password that is not taken.
    pub fn reset(&self, name: &str, new: &str, now: Stamp, bits: Bits<'_>) -> Result<Person, PeopleError> {
        self.judge(new, &[])?;
        let salt = drawn(bits);
        let kept = self.hashing.alone(|| password::keep(new, salt))?;
        alone(self.repo().as_mut(), |repo| {
            let mut person = repo.person_called(&fold(name))?.ok_or(PeopleError::NoSuchPerson)?;
            person.password = Some(kept);
            person.failures = 0;
            person.first_password = false;
            person.second = None;
            repo.change_person(&person)?;
            repo.end_sessions_of(person.id)?;
            repo.add_audit(&AuditLine {
                n: 0,
                at: now,
                who: None,
                what: Deed::PasswordChanged,
                about: Some(person.name.clone()),
                address: None,
            })?;
            Ok(person)
        })
    }

    /// Lines of the audit log with the names of who did it, the newest first.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn audit(
        &self,
        before: Option<u64>,
        most: u32,
    ) -> Result<Vec<(AuditLine, Option<String>)>, PeopleError> {
        let repo = self.repo();
        named(repo.as_ref(), repo.audit(before, most)?)
    }

    /// The same from a number on, the oldest first.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn audit_after(
        &self,
        after: u64,
        most: u32,
    ) -> Result<Vec<(AuditLine, Option<String>)>, PeopleError> {
        let repo = self.repo();
        named(repo.as_ref(), repo.audit_after(after, most)?)
    }

    /// Changes somebody who is here, and notes it. `act` says about what.
    fn change(
        &self,
        owner: &Who,
        id: PersonId,
        what: Deed,
        from: IpAddr,
        now: Stamp,
        act: impl FnOnce(&mut dyn Repo, &mut Person) -> Result<String, PeopleError>,
    ) -> Result<Person, PeopleError> {
        alone(self.repo().as_mut(), |repo| {
            let person = repo.person(id)?.filter(|p| p.removed.is_none());
            let mut person = person.ok_or(PeopleError::NoSuchPerson)?;
            let about = act(repo, &mut person)?;
            repo.change_person(&person)?;
            if what != Deed::Unlocked {
                repo.end_sessions_of(id)?;
            }
            repo.add_audit(&AuditLine::by(owner.id, what, Some(about), from, now))?;
            Ok(person)
        })
    }
}

impl Person {
    /// True where only an owner lets them in again.
    pub fn is_locked(&self) -> bool {
        self.role != Role::Owner && self.failures >= LOCK
    }
}

/// Lines with the names of who did it; somebody who is gone keeps theirs.
fn named(repo: &dyn Repo, lines: Vec<AuditLine>) -> Result<Vec<(AuditLine, Option<String>)>, PeopleError> {
    let named = |line: AuditLine| {
        let who = line.who.map(|id| repo.person(id)).transpose()?.flatten();
        Ok((line, who.map(|p| p.name)))
    };
    lines.into_iter().map(named).collect()
}

/// An office without an owner could not be mended by anybody.
fn not_the_last(repo: &dyn Repo, person: &Person) -> Result<(), PeopleError> {
    let another = repo.people()?.iter().any(|p| p.role == Role::Owner && p.id != person.id);
    if person.role == Role::Owner && !another { Err(PeopleError::LastOwner) } else { Ok(()) }
}
