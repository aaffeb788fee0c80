//! The office's own key, the devices it certified, what it revoked: kept in its database, every state of it.
//!
//! The secret lies in a store of its own. Public things only stand in the register. The new public key is noted before its
//! secret is kept: a crash in between leaves a key in the register that signed nothing, and the old one signs on. A secret
//! without a register is therefore never made here: it says that the database is not the one it was, and nothing is taken
//! in or certified until that is restored, because who was revoked stands in it.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use keys::{
    Certificate, FirmKeys, KeyError, KeyFiles, KeyStore, Record, Request, Revocations, Revoked, SecretKey,
    Serial, Signed, Signer as _, Thumbprint,
};
use serde::{Deserialize, Serialize};
use survey::Stamp;

use crate::repo::alone;
use crate::{Desk, OfficeError};

/// Name of the secret in its store.
const OFFICE: &str = "office";
/// Where the register was kept before it stood in the database.
const FORMER: &str = "register.json";
/// A day in milliseconds.
const DAY: i64 = 24 * 60 * 60 * 1000;

/// What the office knows of keys, secrets aside.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Register {
    /// Name of the firm; empty until the office made a key.
    pub firm: String,
    /// The office's public keys, the newest last.
    pub keys: FirmKeys,
    /// Every certificate, by serial number from 1, as it was written.
    certificates: Vec<String>,
    /// The revocation list as it stands.
    revocations: Option<String>,
}

impl Register {
    /// Every certificate that was given, in the order of the serial numbers.
    ///
    /// # Errors
    /// A register that was edited.
    pub fn certificates(&self) -> Result<Vec<Certificate>, OfficeError> {
        self.certificates.iter().map(|text| self.ours(text)).collect()
    }
    /// The revocation list, if anything was ever revoked.
    ///
    /// # Errors
    /// A register that was edited.
    pub fn revocations(&self) -> Result<Option<Signed<Revocations>>, OfficeError> {
        let Some(text) = &self.revocations else { return Ok(None) };
        self.ours::<Revocations>(text)?;
        Ok(Some(Signed::read(text)?))
    }
    fn ours<T: Record + Clone>(&self, text: &str) -> Result<T, OfficeError> {
        Ok(Signed::<T>::read(text)?.by_firm(&self.keys)?.clone())
    }
}

impl Desk {
    /// Keeps the office's secret key elsewhere than in a file of its folder from now on.
    pub fn keep_secrets_in(&mut self, secrets: Box<dyn KeyStore + Send>) {
        self.secrets = secrets;
    }
    /// The register; empty until the office made a key.
    ///
    /// # Errors
    /// A database that cannot be read, or one that is not the one in which this office's key was noted.
    pub fn register(&self) -> Result<Register, OfficeError> {
        match self.latest()? {
            Some(register) => Ok(register),
            None if self.secret_if_any()?.is_some() => Err(OfficeError::RegisterLost {
                path: self.repo.place().to_owned(),
                secret: self.secret_place(),
            }),
            None => Ok(Register::default()),
        }
    }
    /// The register as it was written last.
    fn latest(&self) -> Result<Option<Register>, OfficeError> {
        let body = self.repo.register()?;
        body.map(|body| serde_json::from_str(&body).map_err(|e| self.damaged(e.to_string()))).transpose()
    }
    /// Takes in the register of an office that kept it in a file. The file stays as it is.
    pub(crate) fn adopt_register(&mut self) -> Result<(), OfficeError> {
        let path = self.keys_folder().join(FORMER);
        if self.latest()?.is_some() {
            return Ok(());
        }
        let bytes = match fs::read(&path) {
            Ok(bytes) => bytes,
            Err(e) if e.kind() == ErrorKind::NotFound => return Ok(()),
            Err(e) => return Err(crate::desk::file_error(&path, &e)),
        };
        let register: Register =
            serde_json::from_slice(&bytes).map_err(|e| OfficeError::File { path, what: e.to_string() })?;
        alone(self, |desk| match desk.latest()? {
            Some(_) => Ok(()), // another program took it in meanwhile, and may have written since
            None => desk.note(&register),
        })
    }
    /// Where the office's secret is kept.
    pub fn secret_place(&self) -> String {
        self.secrets.place(OFFICE)
    }
    /// Makes the office's key from 32 random bytes, or a new one beside those it had. Without a name the firm keeps its
    /// own.
    ///
    /// # Errors
    /// No name of a firm, a store of secrets that refuses.
    pub fn make_key(&mut self, firm: Option<&str>, random: [u8; 32]) -> Result<Register, OfficeError> {
        let secret = SecretKey::from_random(random)?;
        let register = self.next_state(|desk| {
            let register = desk.with_key(firm, &secret)?;
            Ok((register.clone(), register))
        })?;
        // Only now: see above.
        self.secrets.keep(OFFICE, &secret)?;
        Ok(register)
    }

    fn with_key(&self, firm: Option<&str>, secret: &SecretKey) -> Result<Register, OfficeError> {
        let mut register = self.register()?;
        if let Some(firm) = firm {
            firm.trim().clone_into(&mut register.firm);
        }
        if register.firm.is_empty() || register.firm.chars().count() > 120 {
            return Err(OfficeError::NoFirm);
        }
        register.keys.add(*secret.public());
        Ok(register)
    }
    /// Certifies a device's key from `from` on for so many days; written down before it is given out.
    ///
    /// # Errors
    /// An office without a key, a request the device did not sign, a key that is revoked.
    pub fn certify(
        &mut self,
        request: &str,
        from: Stamp,
        days: u32,
    ) -> Result<Signed<Certificate>, OfficeError> {
        let request = Request::read(request)?;
        self.next_state(|desk| desk.with_certificate(request, from, days))
    }

    fn with_certificate(
        &self,
        request: Request,
        from: Stamp,
        days: u32,
    ) -> Result<(Register, Signed<Certificate>), OfficeError> {
        let secret = self.secret()?;
        let mut register = self.register()?;
        let key = request.key.thumbprint();
        let revoked = register.revocations()?;
        if revoked.is_some_and(|list| list.claimed().revoked.iter().any(|one| one.key == Some(key))) {
            return Err(OfficeError::KeyRevoked { key: key.to_string() });
        }
        let not_after = Stamp::new(from.unix_ms() + i64::from(days) * DAY, from.offset_min())
            .map_err(|e| OfficeError::Key(KeyError::Payload(e.to_string())))?;
        let certificate = Certificate {
            key: request.key,
            device: request.device,
            firm: register.firm.clone(),
            serial: register.certificates.len() as Serial + 1,
            not_before: from,
            not_after,
        };
        let signed = Signed::new(certificate, &secret)?;
        register.certificates.push(signed.text().to_owned());
        Ok((register, signed))
    }
    /// Revokes a key, named by itself or by one of its certificates; the new list holds all that was revoked before.
    ///
    /// # Errors
    /// A certificate that was never given, an office without a key.
    pub fn revoke(
        &mut self,
        what: Revocable,
        since: Stamp,
        why: &str,
        now: Stamp,
    ) -> Result<Signed<Revocations>, OfficeError> {
        self.next_state(|desk| desk.with_revoked(what, since, why, now))
    }

    fn with_revoked(
        &self,
        what: Revocable,
        since: Stamp,
        why: &str,
        now: Stamp,
    ) -> Result<(Register, Signed<Revocations>), OfficeError> {
        let secret = self.secret()?;
        let mut register = self.register()?;
        let certificates = register.certificates()?;
        let known = match what {
            Revocable::Serial(serial) => certificates.iter().any(|c| c.serial == serial),
            Revocable::Key(key) => certificates.iter().any(|c| c.key.thumbprint() == key),
        };
        if !known {
            return Err(OfficeError::NeverCertified { what: what.to_string() });
        }
        let before = register.revocations()?;
        let (number, mut revoked) =
            before.map_or((0, Vec::new()), |list| (list.claimed().number, list.claimed().revoked.clone()));
        let (serial, key) = match what {
            Revocable::Serial(serial) => (Some(serial), None),
            Revocable::Key(key) => (None, Some(key)),
        };
        let why = why.trim().to_owned();
        revoked.push(Revoked { serial, key, since, why: why.clone() });
        // Whoever has the tablet has its key: an older certificate, or none, must help no more than the one named.
        if let Some(certified) = serial.and_then(|serial| certificates.iter().find(|c| c.serial == serial)) {
            revoked.push(Revoked { serial: None, key: Some(certified.key.thumbprint()), since, why });
        }
        let list = Signed::new(Revocations { number: number + 1, issued_at: now, revoked }, &secret)?;
        register.revocations = Some(list.text().to_owned());
        Ok((register, list))
    }

    /// Makes the next state of the register while nobody else writes, so that two programs never give one
    /// serial number twice, and notes it before anything is given out.
    fn next_state<T>(
        &mut self,
        act: impl FnOnce(&Self) -> Result<(Register, T), OfficeError>,
    ) -> Result<T, OfficeError> {
        alone(self, |desk| {
            let (register, told) = act(desk)?;
            desk.note(&register)?;
            Ok(told)
        })
    }
    fn note(&mut self, register: &Register) -> Result<(), OfficeError> {
        let body = serde_json::to_string(register).map_err(|e| self.damaged(e.to_string()))?;
        self.repo.add_register(&body)
    }
    /// The office's secret, if it made one.
    pub(crate) fn secret_if_any(&self) -> Result<Option<SecretKey>, OfficeError> {
        Ok(self.secrets.load(OFFICE)?)
    }
    fn secret(&self) -> Result<SecretKey, OfficeError> {
        self.secret_if_any()?.ok_or_else(|| OfficeError::NoKey { path: self.secrets.place(OFFICE) })
    }
}

/// The default store of the office's secret.
pub(crate) fn in_files(folder: &Path) -> Box<dyn KeyStore + Send> {
    Box::new(KeyFiles::new(folder))
}

/// What can be revoked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Revocable {
    /// One certificate.
    Serial(Serial),
    /// A key, under whatever certificate.
    Key(Thumbprint),
}

impl std::fmt::Display for Revocable {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Serial(serial) => write!(f, "{serial}"),
            Self::Key(key) => write!(f, "{key}"),
        }
    }
}
