//! The office vouches for a device's key.

use serde::{Deserialize, Serialize};
use survey::Stamp;

use crate::{KeyError, PublicKey, Record};

/// Number of a certificate among the firm's, from 1.
pub type Serial = u64;

/// What the office signs of a device. Written as JSON with these members in this order.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Certificate {
    /// The device's public key.
    pub key: PublicKey,
    /// What the device is called at the office.
    pub device: String,
    /// Name of the firm.
    pub firm: String,
    /// Number among the firm's certificates.
    pub serial: Serial,
    /// From when.
    pub not_before: Stamp,
    /// Until when, the moment itself included.
    pub not_after: Stamp,
}

impl Record for Certificate {
    const TYPE: &'static str = "underlath-certificate+jws";
    fn check(&self) -> Result<(), KeyError> {
        name(&self.device)?;
        name(&self.firm)?;
        if self.serial == 0 {
            return Err(KeyError::Contents("a certificate is numbered from 1"));
        }
        if self.not_after.unix_ms() < self.not_before.unix_ms() {
            return Err(KeyError::Contents("a certificate ends before it begins"));
        }
        Ok(())
    }
}

/// A name is one line, not empty, not endless.
pub(crate) fn name(text: &str) -> Result<(), KeyError> {
    if text.trim().is_empty() || text.trim() != text {
        return Err(KeyError::Contents("a name is empty, or begins or ends with a space"));
    }
    if text.chars().count() > 120 || text.chars().any(char::is_control) {
        return Err(KeyError::Contents("a name is longer than 120 letters or than one line"));
    }
    Ok(())
}
