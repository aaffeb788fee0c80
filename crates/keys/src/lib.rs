//! Who sealed a packet, who vouched for that device, when the office had it.
//!
//! Ed25519 keys (RFC 8032) as JSON Web Keys (RFC 7517, RFC 8037), named by their thumbprint (RFC 7638); signatures as
//! compact JSON Web Signatures (RFC 7515), that over a packet detached (its appendix F). Everything signed has one
//! spelling, and whatever is spelled otherwise is refused, so that nobody can give a signature another form.
//!
//! Signing goes through [`Signer`], so that nothing above knows where a secret lies; [`KeyStore`] keeps secrets, and
//! [`KeyFiles`] is the store in files. Neither clock nor random bits are asked for here: both are handed in.

mod catalog;
mod certificate;
mod error;
mod files;
mod firm;
mod jwk;
mod jws;
mod receipt;
mod request;
mod revocations;
mod signed;
mod text;
mod verdict;

pub use catalog::{CatalogFile, CatalogVersion, is_overlay_file};
pub use certificate::{Certificate, Serial};
pub use error::KeyError;
pub use files::{KeyFiles, KeyStore, read_secret, write_secret, write_whole};
pub use firm::FirmKeys;
pub use jwk::{PublicKey, SecretKey, Signer, Thumbprint};
pub use jws::{sign_seal, verify_seal};
pub use receipt::Receipt;
pub use request::Request;
pub use revocations::{Revocations, Revoked};
pub use signed::{Record, Signed};
pub use verdict::{CLOCKS_APART_MS, Claim, Evidence, Fault, Said, SealedBy, judge};
