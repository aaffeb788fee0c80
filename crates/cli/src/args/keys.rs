//! What can be typed after `keys`.

use std::path::PathBuf;

use clap::{Args as ClapArgs, Subcommand};

/// Keys.
#[derive(ClapArgs, Debug)]
pub struct OfKeys {
    /// What to do
    #[command(subcommand)]
    pub what: KeysVerb,
}

/// The verbs of keys.
#[derive(Subcommand, Debug)]
pub enum KeysVerb {
    /// Show the key of this device, and whether a firm vouches for it
    Show,
    /// Make a new key for this device; packets sealed before stay verifiable
    New,
    /// Write this device's request to be certified, for the office
    Request(KeysRequest),
    /// Take in the office's certificate for this device
    Accept(KeysAccept),
    /// At the office: show its key, the devices it certified and what is revoked
    Office,
    /// At the office: make its key, or a new one beside those it had
    NewOffice(KeysNewOffice),
    /// At the office: certify a device
    Certify(KeysCertify),
    /// At the office: revoke a certificate or a key
    Revoke(KeysRevoke),
    /// At the office: write out the firm's public keys
    Public(KeysInto),
    /// At the office: write out the revocation list
    Revoked(KeysInto),
}

/// A request.
#[derive(ClapArgs, Debug)]
pub struct KeysRequest {
    /// File the request is written to
    #[arg(long, value_name = "FILE")]
    pub into: PathBuf,
    /// What the device is called at the office [default: the name in its settings]
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
}

/// A certificate to take in.
#[derive(ClapArgs, Debug)]
pub struct KeysAccept {
    /// The certificate file
    pub file: PathBuf,
    /// The firm's public keys, as its office wrote them out
    #[arg(long, value_name = "FILE")]
    pub firm: PathBuf,
}

/// An office key.
#[derive(ClapArgs, Debug)]
pub struct KeysNewOffice {
    /// The firm's name; a new key keeps the name there was
    #[arg(long, value_name = "NAME")]
    pub firm: Option<String>,
}

/// A device to certify.
#[derive(ClapArgs, Debug)]
pub struct KeysCertify {
    /// The device's request
    pub request: PathBuf,
    /// File the certificate is written to
    #[arg(long, value_name = "FILE")]
    pub into: PathBuf,
    /// For how many days, from now on
    #[arg(long, value_name = "DAYS", default_value_t = 730, value_parser = clap::value_parser!(u32).range(1..=36_500))]
    pub days: u32,
}

/// What to revoke.
#[derive(ClapArgs, Debug)]
#[command(group = clap::ArgGroup::new("revoked").required(true))]
pub struct KeysRevoke {
    /// The certificate of this number
    #[arg(long, value_name = "N", group = "revoked")]
    pub serial: Option<u64>,
    /// Every certificate of this key
    #[arg(long, value_name = "THUMBPRINT", group = "revoked", allow_hyphen_values = true)]
    pub key: Option<String>,
    /// Since when nothing it seals counts, like 2026-04-14T09:30:00-05:00 [default: now]
    #[arg(long, value_name = "TIME")]
    pub since: Option<String>,
    /// Why, in words
    #[arg(long, value_name = "WORDS")]
    pub why: String,
}

/// A file to write.
#[derive(ClapArgs, Debug)]
pub struct KeysInto {
    /// File it is written to
    #[arg(long, value_name = "FILE")]
    pub into: PathBuf,
}
