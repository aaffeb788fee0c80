//! A device asks to be certified.

use serde::{Deserialize, Serialize};
use survey::Stamp;

use crate::certificate::name;
use crate::{KeyError, PublicKey, Record, Signed, Signer};

/// What a device hands to the office, signed by its own key: whoever wrote it has the secret.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Request {
    /// The device's public key.
    pub key: PublicKey,
    /// What the device is called.
    pub device: String,
    /// When it was written.
    pub at: Stamp,
}

impl Record for Request {
    const TYPE: &'static str = "underlath-request+jws";
    fn check(&self) -> Result<(), KeyError> {
        name(&self.device)
    }
}

impl Request {
    /// Written and signed by the device itself.
    ///
    /// # Errors
    /// A name that is none; what the signer refuses with.
    pub fn of(device: &str, at: Stamp, signer: &dyn Signer) -> Result<Signed<Self>, KeyError> {
        Signed::new(Self { key: *signer.public(), device: device.to_owned(), at }, signer)
    }
    /// Reads a request and checks that the key in it signed it.
    ///
    /// # Errors
    /// As [`Signed::read`] and [`Signed::by_key`].
    pub fn read(text: &str) -> Result<Self, KeyError> {
        let signed = Signed::<Self>::read(text)?;
        signed.by_key(&signed.claimed().key).cloned()
    }
}
