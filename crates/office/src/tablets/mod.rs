//! Tablets that hand their packets over by themselves: invited by an owner, paired by a code that works once, known by a
//! secret from then on, revoked when they are lost.
//!
//! Clock and random bits are handed in. A code is counted before it is looked at, so that no number of guesses at once gets
//! more than its share.
//!
//! | what | how much |
//! | --- | --- |
//! | an invitation | 10 minutes, one tablet, 5 wrong codes that name it (our own choice, no source) |
//! | pairings tried from an address | 30 in 15 minutes, as many as passwords |
//! | a secret | 256 random bits, kept as its SHA-256 |

mod error;
mod kinds;
#[cfg(test)]
mod tests;

use std::net::IpAddr;
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

use courier::talk::Published;
use keys::{Request, Thumbprint};
use survey::{Digest, Stamp};

use crate::people::limits::Addresses;
use crate::people::name::clean;
use crate::people::{AuditLine, Bits, Deed, PeopleError, Who, drawn, hex, sha256, unhex};
use crate::repo::{self, Known, Repo, alone};
use crate::{Desk, OfficeError, Revocable};

pub use error::TabletError;
pub use kinds::{Holds, Invitation, Invited, Paired, Tablet, TabletId};

/// Ten minutes.
pub const INVITED_MS: i64 = 10 * 60 * 1000;
/// Wrong codes that end an invitation.
pub const MOST_WRONG: u32 = 5;
/// Letters of a tablet's name.
const MOST_NAME: usize = 120;
/// How long a certificate is for, as `keys certify` gives it.
const CERTIFIED_DAYS: u32 = 730;
/// Not every request writes when it was.
const SEEN_EVERY_MS: i64 = 60 * 1000;

/// The tablets of one office.
pub struct Tablets {
    repo: Mutex<Box<dyn Repo>>,
    addresses: Mutex<Addresses>,
}

impl Tablets {
    /// The tablets in these records.
    pub fn new(repo: Box<dyn Repo>) -> Self {
        Self { repo: Mutex::new(repo), addresses: Mutex::default() }
    }
    /// The tablets of the office in this folder.
    ///
    /// # Errors
    /// A database that cannot be used.
    pub fn open(dir: &Path) -> Result<Self, OfficeError> {
        Ok(Self::new(repo::in_folder(dir)?))
    }

    /// Every tablet that was ever paired, the first one first, with the name of who invited it.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn all(&self) -> Result<Vec<(Tablet, Option<String>)>, TabletError> {
        let repo = self.repo();
        let named = |tablet: Tablet| {
            let by = repo.person(tablet.paired_by)?.map(|person| person.name);
            Ok((tablet, by))
        };
        repo.tablets()?.into_iter().map(named).collect()
    }

    /// Invites one tablet. Invitations that ran out are swept.
    ///
    /// # Errors
    /// An office that has no key to certify a tablet with; a database that cannot be written.
    pub fn invite(
        &self,
        desk: &Desk,
        owner: &Who,
        from: IpAddr,
        now: Stamp,
        bits: Bits<'_>,
    ) -> Result<Invited, TabletError> {
        if desk.secret_if_any()?.is_none() {
            return Err(OfficeError::NoKey { path: desk.secret_place() }.into());
        }
        let (name, secret): ([u8; 8], [u8; 16]) = (drawn(bits), drawn(bits));
        let code = [name.as_slice(), &secret].concat();
        let until = now.unix_ms() + INVITED_MS;
        let invitation = Invitation { name, hash: sha256(&code), made_by: owner.id, until, wrong: 0 };
        alone(self.repo().as_mut(), |repo| {
            repo.end_invitations_before(now.unix_ms())?;
            repo.add_invitation(&invitation)?;
            repo.add_audit(&AuditLine::by(owner.id, Deed::TabletInvited, None, from, now))?;
            Ok::<_, TabletError>(())
        })?;
        Ok(Invited { code: hex(&code), until: Stamp::new(until, now.offset_min()).unwrap_or(now) })
    }

    /// Pairs the tablet that holds the code of an invitation: certifies its key and gives it a secret.
    ///
    /// # Errors
    /// A code that is wrong, used or too old; a name or request that is none; a key that is revoked.
    pub fn pair(
        &self,
        desk: &mut Desk,
        (code, name, request): (&str, &str, &str),
        from: IpAddr,
        now: Stamp,
        bits: Bits<'_>,
    ) -> Result<Paired, TabletError> {
        let name = clean(name, MOST_NAME).ok_or(TabletError::Name)?;
        let read = Request::read(request).map_err(OfficeError::from)?;
        self.addresses().attempt(from, now.unix_ms()).map_err(|_| TabletError::TooMany)?;
        let invitation = self.take(code, now)?;
        self.addresses().right(from);
        let (id, token): ([u8; 16], [u8; 32]) = (drawn(bits), drawn(bits));
        let given = desk.certify(request, now, CERTIFIED_DAYS).and_then(|certificate| {
            let register = desk.register()?;
            Ok((certificate, register))
        });
        let (certificate, register) = match given {
            Ok(given) => given,
            Err(e) => {
                // It was the office's trouble or the tablet's, not the code's.
                self.repo().add_invitation(&invitation)?;
                return Err(e.into());
            }
        };
        let tablet = Tablet {
            id: TabletId(id),
            name,
            hash: sha256(&token),
            key: read.key.thumbprint().to_string(),
            paired_at: now,
            paired_by: invitation.made_by,
            last_seen: None,
            revoked_at: None,
            holds: None,
            handed: None,
        };
        alone(self.repo().as_mut(), |repo| {
            repo.add_tablet(&tablet)?;
            let about = Some(format!("{} ({})", tablet.name, tablet.key));
            repo.add_audit(&AuditLine { about, ..AuditLine::of(Deed::TabletPaired, from, now) })?;
            Ok::<_, TabletError>(())
        })?;
        Ok(Paired {
            token: hex(&token),
            firm: register.firm.clone(),
            certificate: certificate.text().to_owned(),
            firm_keys: register.keys.to_text(),
            tablet,
        })
    }

    /// Uses an invitation up, if the code is its own. The attempt is counted first.
    fn take(&self, code: &str, now: Stamp) -> Result<Invitation, TabletError> {
        let code: [u8; 24] = unhex(code).ok_or(TabletError::WrongCode)?;
        let name: [u8; 8] = std::array::from_fn(|n| code[n]);
        alone(self.repo().as_mut(), |repo| {
            let Some(mut there) = repo.invitation(&name)? else { return Ok(None) };
            repo.end_invitation(&name)?;
            // By whole hashes: how long it takes tells nothing of the code.
            if there.until > now.unix_ms() && there.hash == sha256(&code) {
                return Ok(Some(there));
            }
            there.wrong += 1;
            if there.until > now.unix_ms() && there.wrong < MOST_WRONG {
                repo.add_invitation(&there)?;
            }
            Ok::<_, TabletError>(None)
        })?
        .ok_or(TabletError::WrongCode)
    }

    /// The tablet that holds this secret.
    ///
    /// # Errors
    /// None by that secret, or one that was revoked.
    pub fn who(&self, token: Option<&str>, now: Stamp) -> Result<Tablet, TabletError> {
        let hash = token.and_then(unhex::<32>).map(|token| sha256(&token)).ok_or(TabletError::NotPaired)?;
        let mut repo = self.repo();
        let mut tablet = repo.tablet_of(&hash)?.ok_or(TabletError::NotPaired)?;
        if let Some(since) = tablet.revoked_at {
            return Err(TabletError::Revoked { name: tablet.name, since });
        }
        let stale =
            tablet.last_seen.is_none_or(|seen| (now.unix_ms() - seen.unix_ms()).abs() >= SEEN_EVERY_MS);
        if stale {
            tablet.last_seen = Some(now);
            repo.change_tablet(&tablet)?;
        }
        Ok(tablet)
    }

    /// The catalog that was published last, for a tablet that has the one of this digest; none where it is that one, or none
    /// was published. What the tablet has is kept.
    ///
    /// # Errors
    /// A database that cannot be used.
    pub fn catalog(&self, tablet: &Tablet, have: Option<Digest>) -> Result<Option<Published>, TabletError> {
        let mut repo = self.repo();
        let last = repo.published()?.filter(|last| have != Some(last.digest()));
        let number = |digest| repo.published_number(digest);
        let holds = match have.map(number) {
            None => Holds::Nothing,
            Some(known) => known?.map_or(Holds::Another, Holds::Version),
        };
        let handed = last.as_ref().map(|last| number(last.digest())).transpose()?.flatten();
        if (tablet.holds, tablet.handed) != (Some(holds), handed) {
            repo.change_tablet(&Tablet { holds: Some(holds), handed, ..tablet.clone() })?;
        }
        Ok(last)
    }

    /// Takes a tablet's secret from it, and its key as well where that is asked for. Doing it again changes nothing.
    ///
    /// # Errors
    /// No tablet by that number; a key that cannot be revoked: the secret is revoked then all the same.
    pub fn revoke(
        &self,
        desk: &mut Desk,
        owner: &Who,
        (id, key): (TabletId, bool),
        from: IpAddr,
        now: Stamp,
    ) -> Result<(), TabletError> {
        let tablet = alone(self.repo().as_mut(), |repo| {
            let mut tablet = repo.tablet(id)?.ok_or(TabletError::NoSuchTablet)?;
            if tablet.revoked_at.is_none() {
                tablet.revoked_at = Some(now);
                repo.change_tablet(&tablet)?;
                let about = Some(format!("{} ({})", tablet.name, tablet.key));
                repo.add_audit(&AuditLine::by(owner.id, Deed::TabletRevoked, about, from, now))?;
            }
            Ok::<_, TabletError>(tablet)
        })?;
        if !key {
            return Ok(());
        }
        let thumbprint: Thumbprint = tablet.key.parse().map_err(OfficeError::from)?;
        if desk
            .register()?
            .revocations()?
            .is_some_and(|list| list.claimed().revoked.iter().any(|one| one.key == Some(thumbprint)))
        {
            return Ok(());
        }
        desk.revoke(Revocable::Key(thumbprint), now, &tablet.name, now)?;
        let about = Some(format!("{} ({})", tablet.name, tablet.key));
        self.repo().add_audit(&AuditLine::by(owner.id, Deed::KeyRevoked, about, from, now))?;
        Ok(())
    }

    /// Notes a packet that a tablet handed over.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn received(
        &self,
        tablet: &Tablet,
        about: &str,
        from: IpAddr,
        now: Stamp,
    ) -> Result<(), TabletError> {
        let about = Some(format!("{about} ({})", tablet.name));
        self.repo().add_audit(&AuditLine { about, ..AuditLine::of(Deed::PacketReceived, from, now) })?;
        Ok(())
    }

    /// Where bytes of this digest lie in a packet that was received.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn known(&self, digest: Digest) -> Result<Option<Known>, OfficeError> {
        self.repo().known(digest)
    }

    /// They do not lie there any more.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn lost(&self, digest: Digest) -> Result<(), OfficeError> {
        self.repo().forget_known(digest)
    }

    fn repo(&self) -> MutexGuard<'_, Box<dyn Repo>> {
        // A panic left no transaction open: whoever began one rolls it back.
        self.repo.lock().unwrap_or_else(PoisonError::into_inner)
    }
    fn addresses(&self) -> MutexGuard<'_, Addresses> {
        self.addresses.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl From<PeopleError> for TabletError {
    fn from(e: PeopleError) -> Self {
        Self::People(Box::new(e))
    }
}
