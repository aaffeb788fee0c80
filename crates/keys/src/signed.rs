//! Records with a signature, as they lie in files.

use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::jws::{parts, sign};
use crate::text::{from_json, to_json};
use crate::{FirmKeys, KeyError, PublicKey, Signer, Thumbprint};

/// What can be signed as a text of its own.
pub trait Record: Serialize + DeserializeOwned {
    /// Its `typ`: no text of one kind is taken for another.
    const TYPE: &'static str;
    /// What must hold between its members.
    ///
    /// # Errors
    /// [`KeyError::Contents`].
    fn check(&self) -> Result<(), KeyError>;
}

/// A record as it was read, with its text. Its spelling and contents were checked; **who signed it was not** until one
/// of the `by_…` says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signed<T> {
    text: String,
    kid: Thumbprint,
    record: T,
}

impl<T: Record> Signed<T> {
    /// Signs a record.
    ///
    /// # Errors
    /// Contents that do not hold together; what the signer refuses with.
    pub fn new(record: T, signer: &dyn Signer) -> Result<Self, KeyError> {
        record.check()?;
        let text = sign(T::TYPE, &to_json(&record)?, signer)?;
        Ok(Self { text, kid: signer.public().thumbprint(), record })
    }
    /// Reads a text, with or without one line end after it.
    ///
    /// # Errors
    /// Anything not spelled as [`Self::new`] spells it.
    pub fn read(text: &str) -> Result<Self, KeyError> {
        let text = text.strip_suffix('\n').unwrap_or(text);
        let parts = parts(text, Some(T::TYPE))?;
        let record: T = from_json(&parts.payload)?;
        record.check()?;
        Ok(Self { text: text.to_owned(), kid: parts.kid, record })
    }
    /// The record, if this key signed it.
    ///
    /// # Errors
    /// Another key, a signature that does not hold.
    pub fn by_key(&self, key: &PublicKey) -> Result<&T, KeyError> {
        let parts = parts(&self.text, Some(T::TYPE))?;
        parts.check(&parts.payload, key)?;
        Ok(&self.record)
    }
    /// The record, if one of the firm's keys signed it.
    ///
    /// # Errors
    /// As [`Self::by_key`].
    pub fn by_firm(&self, firm: &FirmKeys) -> Result<&T, KeyError> {
        let key = firm.key(&self.kid).ok_or_else(|| KeyError::NotTheFirms(self.kid.to_string()))?;
        self.by_key(key)
    }
    /// The compact text, without a line end.
    pub fn text(&self) -> &str {
        &self.text
    }
    /// The key that is said to have signed.
    pub fn kid(&self) -> Thumbprint {
        self.kid
    }
    /// What it claims, whoever signed.
    pub fn claimed(&self) -> &T {
        &self.record
    }
}
