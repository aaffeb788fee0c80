//! The firm's public keys: a JSON Web Key Set (RFC 7517, section 5).
//!
//! An office key is changed by adding the new one to this file: what the old one signed stays verifiable as long as
//! the old one is in it, and taking one out takes all it signed with it.

use serde::{Deserialize, Serialize};

use crate::{KeyError, PublicKey, Thumbprint};

/// Most keys in one file (our own choice: a firm changes its key a few times in a lifetime).
const MOST: usize = 1000;

/// Public keys of one firm's office, the newest last.
#[derive(Clone, Debug, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FirmKeys {
    keys: Vec<PublicKey>,
}

impl FirmKeys {
    /// A file with these keys; a key comes once.
    pub fn new(keys: impl IntoIterator<Item = PublicKey>) -> Self {
        let mut all = Self::default();
        keys.into_iter().for_each(|key| all.add(key));
        all
    }
    /// Adds a key, unless it is there.
    pub fn add(&mut self, key: PublicKey) {
        if !self.keys.contains(&key) {
            self.keys.push(key);
        }
    }
    /// Reads a file: a key set, or one key alone.
    ///
    /// # Errors
    /// What is neither, an empty set, a secret key handed in by mistake.
    pub fn read(text: &[u8]) -> Result<Self, KeyError> {
        let one = PublicKey::from_jwk(text.strip_suffix(b"\n").unwrap_or(text));
        let keys: Self = match one {
            Ok(key) => Self::new([key]),
            Err(_) => serde_json::from_slice(text).map_err(|e| KeyError::Key(e.to_string()))?,
        };
        match keys.keys.len() {
            0 => Err(KeyError::Key("it holds no key".to_owned())),
            n if n > MOST => Err(KeyError::TooLong),
            _ => Ok(Self::new(keys.keys)),
        }
    }
    /// The file, with a line end.
    pub fn to_text(&self) -> String {
        let keys: Vec<String> = self.keys.iter().map(PublicKey::to_jwk).collect();
        format!("{{\"keys\":[\n{}\n]}}\n", keys.join(",\n"))
    }
    /// The key of this name.
    pub fn key(&self, name: &Thumbprint) -> Option<&PublicKey> {
        self.keys.iter().find(|key| key.thumbprint() == *name)
    }
    /// All keys, the newest last.
    pub fn keys(&self) -> &[PublicKey] {
        &self.keys
    }
}
