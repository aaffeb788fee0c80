//! What is kept of the office's key: the states of its register, and the versions of the catalog it signed.
//!
//! Both only grow, and the last one counts. What they say is the desk's to read and to write.

use courier::talk::Published;
use survey::Digest;

use crate::OfficeError;

/// States of the key register. Each error is one of the place where they lie.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait RegisterRows {
    /// The last state, as it was added; none while there is none.
    fn register(&self) -> Result<Option<String>, OfficeError>;
    /// Adds the next state, a text that is JSON.
    fn add_register(&mut self, state: &str) -> Result<(), OfficeError>;
}

/// Versions of the catalog that were published. Each error is one of the place where they lie.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait CatalogRows {
    /// The version of the highest number, as it was added; none while there is none.
    fn published(&self) -> Result<Option<Published>, OfficeError>;
    /// The number of the version of this digest; none where it is none of these.
    fn published_number(&self, digest: Digest) -> Result<Option<u64>, OfficeError>;
    /// Adds a version. Its number, from 1, is higher than any that is here, or it is refused.
    fn add_published(&mut self, number: u64, version: &Published) -> Result<(), OfficeError>;
}
