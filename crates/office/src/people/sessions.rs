//! The browsers in which somebody is signed in, for themselves.

use std::net::IpAddr;

use survey::Stamp;

use super::{AuditLine, Deed, People, PeopleError, Session, Who, hex, lives};
use crate::repo::alone;

impl People {
    /// The sessions of whoever is signed in that have not ended, in the order they began.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub(crate) fn own_sessions(&self, who: &Who, now: Stamp) -> Result<Vec<Session>, PeopleError> {
        let mut all = self.repo().sessions_of(who.id)?;
        all.retain(|one| lives(one, now.unix_ms()));
        Ok(all)
    }

    /// Ends one of them, or all but the one that asks, by the password once more.
    ///
    /// # Errors
    /// A wrong password, which counts like one at the door.
    pub(crate) fn end_own(
        &self,
        who: &Who,
        (which, password): (Option<&str>, &str),
        from: IpAddr,
        now: Stamp,
    ) -> Result<(), PeopleError> {
        let known = self.themselves(who, password, from, now)?;
        // It asks for no code, so that it makes no wrong code forgotten either.
        self.take_back(&known, from)?;
        alone(self.repo().as_mut(), |repo| {
            let all = repo.sessions_of(who.id)?.into_iter().filter(|one| one.hash != who.session);
            let meant: Vec<Session> =
                all.filter(|one| which.is_none_or(|which| one.handle() == which)).collect();
            for one in &meant {
                repo.end_session(&one.hash)?;
            }
            if !meant.is_empty() {
                let about = Some(who.name.clone());
                repo.add_audit(&AuditLine::by(who.id, Deed::SessionsEnded, about, from, now))?;
            }
            Ok(())
        })
    }
}

impl Session {
    /// By what its person names it: a part of the hash of its secret, from which nothing can be signed in.
    pub(crate) fn handle(&self) -> String {
        hex(&self.hash[..8])
    }
}
