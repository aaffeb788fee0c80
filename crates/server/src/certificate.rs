//! The certificate the office shows: one that was given, or one made here.

use std::net::IpAddr;
use std::sync::Arc;

use rcgen::{
    CertificateParams, DistinguishedName, DnType, ExtendedKeyUsagePurpose, KeyPair, KeyUsagePurpose,
};
use rustls::ServerConfig;
use rustls::crypto::ring;
use rustls::pki_types::pem::PemObject as _;
use rustls::pki_types::{CertificateDer, PrivateKeyDer, ServerName};
use rustls::server::ParsedCertificate;
use sha2::{Digest as _, Sha256};
use time::OffsetDateTime;

/// A day in milliseconds.
const DAY_MS: i64 = 24 * 60 * 60 * 1000;
/// How long a certificate made here is valid: no system takes one that is valid for more than 825 days (Apple, HT210176).
const VALID_DAYS: i64 = 800;

/// Why a certificate cannot be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum IdentityError {
    /// The file of certificates holds none that can be read.
    Certificate(String),
    /// The file of the key holds none that can be read.
    Key(String),
    /// They do not belong together, or are of a kind that TLS does not take.
    Both(String),
}

/// A certificate with its key.
#[derive(Clone)]
pub struct Identity {
    config: Arc<ServerConfig>,
    leaf: CertificateDer<'static>,
}

/// A certificate that was made here.
#[derive(Clone)]
pub struct Made {
    /// The certificate in PEM.
    pub certificate: String,
    /// Its secret key in PEM.
    pub key: String,
    /// The Unix millisecond from which on it is no longer valid.
    pub until_ms: i64,
}

impl Identity {
    /// A certificate and those that vouch for it, in PEM, with the key of the first.
    ///
    /// # Errors
    /// Files that cannot be read or do not belong together.
    pub fn from_pem(certificates: &[u8], key: &[u8]) -> Result<Self, IdentityError> {
        let chain: Vec<CertificateDer<'static>> = CertificateDer::pem_slice_iter(certificates)
            .collect::<Result<_, _>>()
            .map_err(|e| IdentityError::Certificate(e.to_string()))?;
        let Some(leaf) = chain.first().cloned() else {
            return Err(IdentityError::Certificate("BEGIN CERTIFICATE".to_owned()));
        };
        let key = PrivateKeyDer::from_pem_slice(key).map_err(|e| IdentityError::Key(e.to_string()))?;
        let both = |e: rustls::Error| IdentityError::Both(e.to_string());
        let mut config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
            .with_safe_default_protocol_versions()
            .map_err(both)?
            .with_no_client_auth()
            .with_single_cert(chain, key)
            .map_err(both)?;
        config.alpn_protocols = vec![b"http/1.1".to_vec()];
        ParsedCertificate::try_from(&leaf).map_err(both)?;
        Ok(Self { config: Arc::new(config), leaf })
    }

    /// SHA-256 of the certificate, as browsers show it.
    pub fn fingerprint(&self) -> String {
        let bytes = Sha256::digest(&self.leaf);
        bytes.iter().map(|byte| format!("{byte:02X}")).collect::<Vec<_>>().join(":")
    }

    /// True where the certificate is for this name or address.
    pub fn is_for(&self, name: &str) -> bool {
        let (Ok(name), Ok(leaf)) = (ServerName::try_from(name), ParsedCertificate::try_from(&self.leaf))
        else {
            return false;
        };
        rustls::client::verify_server_name(&leaf, &name).is_ok()
    }

    pub(crate) fn config(&self) -> Arc<ServerConfig> {
        Arc::clone(&self.config)
    }
}

/// Makes a certificate that vouches for itself, for these names and addresses, from now on. Its key is drawn by `ring`, which
/// takes its random bits from the system.
///
/// # Errors
/// A name that cannot stand in a certificate.
pub fn make(names: &[String], addresses: &[IpAddr], now_ms: i64) -> Result<Made, String> {
    let all: Vec<String> =
        names.iter().cloned().chain(addresses.iter().map(std::string::ToString::to_string)).collect();
    let moment =
        |ms: i64| OffsetDateTime::from_unix_timestamp(ms.div_euclid(1000)).map_err(|e| e.to_string());
    let until_ms = now_ms + VALID_DAYS * DAY_MS;
    let made = || -> Result<(String, String), rcgen::Error> {
        let key = KeyPair::generate()?;
        let mut params = CertificateParams::new(all)?;
        params.distinguished_name = DistinguishedName::new();
        params.distinguished_name.push(DnType::CommonName, "Underlath office");
        params.key_usages = vec![KeyUsagePurpose::DigitalSignature];
        params.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
        // A day back: the clocks of those who look at it may be late.
        params.not_before = moment(now_ms - DAY_MS).unwrap_or(OffsetDateTime::UNIX_EPOCH);
        params.not_after = moment(until_ms).unwrap_or(OffsetDateTime::UNIX_EPOCH);
        Ok((params.self_signed(&key)?.pem(), key.serialize_pem()))
    };
    let (certificate, key) = made().map_err(|e| e.to_string())?;
    Ok(Made { certificate, key, until_ms })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn made() -> Made {
        let names = ["localhost", "office.example"].map(str::to_owned);
        make(&names, &["192.0.2.7".parse().unwrap()], 1_775_000_000_000).unwrap()
    }

    #[test]
    fn a_certificate_made_here_is_for_the_names_it_was_made_for() {
        let made = made();
        let identity = Identity::from_pem(made.certificate.as_bytes(), made.key.as_bytes()).unwrap();
        for (name, told) in [
            ("localhost", true),
            ("office.example", true),
            ("OFFICE.example", true),
            ("192.0.2.7", true),
            ("192.0.2.8", false),
            ("example", false),
            ("rebound.example", false),
            ("", false),
            ("a b", false),
        ] {
            assert_eq!(identity.is_for(name), told, "{name}");
        }
        let print = identity.fingerprint();
        assert_eq!((print.len(), print.matches(':').count()), (95, 31), "{print}");
        assert_eq!(made.until_ms, 1_775_000_000_000 + 800 * DAY_MS);
    }

    #[test]
    fn what_is_no_certificate_or_no_key_of_it_is_refused_with_the_reason() {
        let (one, other) = (made(), made());
        let told = |c: &str, k: &str| Identity::from_pem(c.as_bytes(), k.as_bytes()).err();
        assert!(matches!(told("", &one.key), Some(IdentityError::Certificate(_))));
        assert!(matches!(told(&one.key, &one.key), Some(IdentityError::Certificate(_))));
        assert!(matches!(told(&one.certificate, ""), Some(IdentityError::Key(_))));
        assert!(matches!(told(&one.certificate, &other.key), Some(IdentityError::Both(_))));
        assert!(told(&one.certificate, &one.key).is_none());
    }

    #[test]
    fn a_name_that_cannot_stand_in_a_certificate_is_refused() {
        assert!(make(&["ñandú".to_owned()], &[], 0).is_err());
    }
}
