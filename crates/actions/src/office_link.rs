//! The office this device hands its packets to: what a link says, what is asked to be paired, what is kept of it.
//!
//! The secret by which the office knows the device lies beside the device's key, in a file that only its owner can read;
//! neither database nor packet holds it. Whoever asks over the network is elsewhere.

use std::path::PathBuf;

use courier::talk::{PairAsk, Paired};
use courier::{Fingerprint, Link, LinkError};
use store::LinkRow;
use views::link_shape::{LinkedOffice, OfficeLink, Pairing};
use words::msg;

use crate::{Desk, Error, Kind, Kit, file_trouble};

/// The secret, in the folder of keys.
const TOKEN_FILE: &str = "office-token";

/// The office, with the secret by which it knows this device.
#[derive(Clone)]
pub struct Office {
    /// Name or address, and port.
    pub address: String,
    /// The certificate it shows.
    pub fingerprint: Fingerprint,
    /// The secret.
    pub token: String,
}

/// Reads a link as somebody pasted it.
///
/// # Errors
/// A text that is no link.
pub fn read_link(text: &str) -> Result<Link, Error> {
    text.parse().map_err(|e: LinkError| {
        let message = match e {
            LinkError::Other => msg!("error-no-link"),
            LinkError::Part(part) => msg!("error-link-part", part = part),
        };
        Error::new(Kind::Input, message).hint(msg!("error-link-hint"))
    })
}

/// The link in a photograph of the office's screen: the first of its QR codes that is one.
///
/// # Errors
/// What is no photograph; a photograph without a code that can be read, or with codes of something else.
pub fn link_in_photo(bytes: &[u8]) -> Result<Link, Error> {
    let mut refused = Error::new(Kind::Input, msg!("error-no-code")).hint(msg!("error-no-code-hint"));
    for code in photo::codes(bytes)? {
        match read_link(&code) {
            Ok(link) => return Ok(link),
            Err(e) => refused = e,
        }
    }
    Err(refused)
}

/// A link for the screens, to be compared by a person.
pub fn link_view(link: &Link) -> Pairing {
    Pairing {
        link: link.to_string(),
        firm: link.firm.clone(),
        address: link.address.clone(),
        fingerprint: link.fingerprint.to_string(),
    }
}

/// What is asked of the office: the code, the device's name, and its key to be certified.
///
/// # Errors
/// A name that is none; a store of secrets that refuses.
pub fn pair_ask(desk: &mut Desk, link: &Link, name: &str, kit: &mut Kit<'_>) -> Result<PairAsk, Error> {
    let request = crate::request(desk, name, kit)?;
    let name = request.claimed().device.clone();
    Ok(PairAsk { code: link.code.clone(), name, request: request.text().to_owned() })
}

/// Keeps what the office answered: certificate and firm's keys as those that come in files, and the secret. What is sent
/// goes to this office from now on.
///
/// # Errors
/// A certificate for another key, or one that the firm's keys did not sign: nothing is kept then.
pub fn paired(desk: &mut Desk, link: &Link, name: &str, answer: &Paired, kit: &Kit<'_>) -> Result<(), Error> {
    crate::accept_certificate(desk, &answer.certificate, &answer.firm_key)?;
    let path = token_path(desk);
    keys::write_secret(&path, format!("{}\n", answer.token).as_bytes())
        .map_err(|e| file_trouble(&path, &e))?;
    desk.store.keep_office_link(&LinkRow {
        firm: answer.firm.clone(),
        address: link.address.clone(),
        fingerprint: link.fingerprint.hex(),
        device: name.trim().to_owned(),
        since: kit.now(),
    })?;
    Ok(())
}

/// The office this device is paired with and the catalog it published, for the screens. `given`: the catalog was named
/// when the program was started.
///
/// # Errors
/// A database that cannot be read.
pub fn office(desk: &Desk, given: bool) -> Result<OfficeLink, Error> {
    let shown = |row: LinkRow| LinkedOffice {
        fingerprint: row.fingerprint.parse::<Fingerprint>().map_or(row.fingerprint, |f| f.to_string()),
        firm: row.firm,
        address: row.address,
        device: row.device,
        since: row.since.to_string(),
    };
    let (catalog, not_taken) = crate::office_catalog::published_view(desk, given)?;
    Ok(OfficeLink { office: desk.store.office_link()?.map(shown), catalog, not_taken })
}

/// Forgets the office and the secret. Certificate and receipts stay: packets are certified and proved as before; so does a
/// catalog that was taken from it.
///
/// # Errors
/// A folder that cannot be written.
pub fn unpair(desk: &mut Desk) -> Result<(), Error> {
    let path = token_path(desk);
    match std::fs::remove_file(&path) {
        Err(e) if e.kind() != std::io::ErrorKind::NotFound => return Err(file_trouble(&path, &e)),
        _ => {}
    }
    Ok(desk.store.forget_office_link()?)
}

/// The office with its secret.
///
/// # Errors
/// A device that is not paired, a secret that cannot be read.
pub fn to_office(desk: &Desk) -> Result<Office, Error> {
    let not_paired =
        || Error::new(Kind::Missing, msg!("error-not-paired")).hint(msg!("error-not-paired-hint"));
    let row = desk.store.office_link()?.ok_or_else(not_paired)?;
    let token = keys::read_secret(&token_path(desk))?.ok_or_else(not_paired)?;
    let token = String::from_utf8(token.to_vec()).map_err(|_| not_paired())?.trim_end().to_owned();
    let fingerprint = row.fingerprint.parse().map_err(|_| not_paired())?;
    Ok(Office { address: row.address, fingerprint, token })
}

fn token_path(desk: &Desk) -> PathBuf {
    desk.store.dir().join(crate::device_key::FOLDER).join(TOKEN_FILE)
}
