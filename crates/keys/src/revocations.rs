//! Keys the office no longer stands for.

use serde::{Deserialize, Serialize};
use survey::Stamp;

use crate::certificate::name;
use crate::{Certificate, KeyError, Record, Serial, Thumbprint};

/// Most entries of a list (our own choice).
const MOST: usize = 10_000;

/// The list, whole each time; a later one has a higher number.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Revocations {
    /// Number of the list, from 1.
    pub number: u64,
    /// When it was issued.
    pub issued_at: Stamp,
    /// What is revoked, in the order it was.
    pub revoked: Vec<Revoked>,
}

/// One certificate, or every certificate of one key.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Revoked {
    /// The certificate; then no key.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub serial: Option<Serial>,
    /// The key; then no certificate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub key: Option<Thumbprint>,
    /// From when on nothing it sealed counts.
    pub since: Stamp,
    /// Why, in words.
    pub why: String,
}

impl Record for Revocations {
    const TYPE: &'static str = "underlath-revocations+jws";
    fn check(&self) -> Result<(), KeyError> {
        if self.number == 0 || self.revoked.len() > MOST {
            return Err(KeyError::Contents(
                "a revocation list is numbered from 1 and has at most 10,000 lines",
            ));
        }
        for one in &self.revoked {
            name(&one.why)?;
            if one.serial.is_some() == one.key.is_some() {
                return Err(KeyError::Contents(
                    "a line of a revocation list names one certificate or one key",
                ));
            }
        }
        Ok(())
    }
}

impl Revocations {
    /// The earliest line that revokes this certificate.
    pub fn of(&self, certificate: &Certificate) -> Option<&Revoked> {
        let key = certificate.key.thumbprint();
        let meant = |one: &&Revoked| one.serial == Some(certificate.serial) || one.key == Some(key);
        self.revoked.iter().filter(meant).min_by_key(|one| one.since.unix_ms())
    }
}
