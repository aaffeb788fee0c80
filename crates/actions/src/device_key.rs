//! The key this device seals with, and what the firm's office says of it.
//!
//! The secret lies where the desk was told to keep it, by default in a file that only its owner can read. Certificate and
//! public keys of the firm are files beside it, exactly as the office wrote them.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

use keys::{Certificate, FirmKeys, KeyError, PublicKey, Receipt, Request, SecretKey, Signed, Signer as _};
use survey::Stamp;
use words::{Message, msg};

use crate::{Desk, Error, Kind, Kit, file_trouble};

/// Folder of keys in the folder of the device.
pub(crate) const FOLDER: &str = "keys";
/// Name of the secret in its store.
const DEVICE: &str = "device";
/// The certificate, in that folder.
pub const CERTIFICATE_FILE: &str = "device-certificate.jws";
/// The firm's public keys, in that folder.
pub const FIRM_FILE: &str = "firm-keys.json";
/// No file of these is longer.
const MOST: u64 = 4 << 20;

/// The device's key as it stands, without its secret.
#[derive(Clone, Debug, PartialEq)]
pub struct DeviceKey {
    /// The public key; none until the device sealed or asked for the first time.
    pub key: Option<PublicKey>,
    /// Where the secret is kept.
    pub kept: String,
    /// The certificate for this very key, if the office gave one.
    pub certificate: Option<Signed<Certificate>>,
    /// The firm's public keys, if they were taken in.
    pub firm: Option<FirmKeys>,
}

/// The device's key and what is known of it; nothing is made.
///
/// # Errors
/// A secret that others can read, files that cannot be read.
pub fn device_key(desk: &Desk) -> Result<DeviceKey, Error> {
    about(desk, desk.secrets.load(DEVICE)?.map(|secret| *secret.public()))
}

/// What is to be known of the certificate before sealing: that it runs out soon, or has. A key that cannot be used is said
/// where it is used.
pub(crate) fn warning(desk: &Desk, now: Stamp) -> Option<Message> {
    let certificate = device_key(desk).ok()?.certificate?;
    crate::key_words::certificate_ends(certificate.claimed(), now)
}

/// What is known of this key.
fn about(desk: &Desk, key: Option<PublicKey>) -> Result<DeviceKey, Error> {
    let certificate = match (key, text(&path(desk, CERTIFICATE_FILE))?) {
        (Some(key), Some(text)) => {
            let signed =
                Signed::<Certificate>::read(&text).map_err(|e| damaged(desk, CERTIFICATE_FILE, &e))?;
            (signed.claimed().key == key).then_some(signed)
        }
        _ => None,
    };
    let firm = text(&path(desk, FIRM_FILE))?
        .map(|text| FirmKeys::read(text.as_bytes()).map_err(|e| damaged(desk, FIRM_FILE, &e)))
        .transpose()?;
    Ok(DeviceKey { key, kept: desk.secrets.place(DEVICE), certificate, firm })
}

/// The secret, made on first need, and the certificate for it.
pub(crate) fn sealing_key(
    desk: &Desk,
    kit: &mut Kit<'_>,
) -> Result<(SecretKey, Option<Signed<Certificate>>), Error> {
    let secret = match desk.secrets.load(DEVICE)? {
        Some(secret) => secret,
        None => make(desk, kit)?,
    };
    let certificate = about(desk, Some(*secret.public()))?.certificate;
    Ok((secret, certificate))
}

/// The secret as it stands, to sign with.
pub(crate) fn secret(desk: &Desk) -> Result<SecretKey, Error> {
    desk.secrets.load(DEVICE)?.ok_or_else(|| {
        Error::new(Kind::Missing, msg!("error-no-device-key", path = desk.secrets.place(DEVICE)))
    })
}

fn make(desk: &Desk, kit: &mut Kit<'_>) -> Result<SecretKey, Error> {
    let secret = SecretKey::from_random(kit.random.thirty_two())?;
    desk.secrets.keep(DEVICE, &secret)?;
    Ok(secret)
}

/// Makes a new key; the one before it seals nothing more. Packets it sealed stay verifiable: each carries what it was
/// sealed under. The office has to certify the new one.
///
/// # Errors
/// A store of secrets that refuses.
pub fn new_device_key(desk: &mut Desk, kit: &mut Kit<'_>) -> Result<PublicKey, Error> {
    Ok(*make(desk, kit)?.public())
}

/// What the office certifies: the public key and what the device is called, signed by the key itself. Made on first
/// need.
///
/// # Errors
/// A name that is none; a store of secrets that refuses.
pub fn request(desk: &mut Desk, name: &str, kit: &mut Kit<'_>) -> Result<Signed<Request>, Error> {
    let (secret, _) = sealing_key(desk, kit)?;
    Ok(Request::of(name.trim(), kit.now(), &secret)?)
}

/// Takes in the office's certificate with the firm's public keys. Both are kept as they came.
///
/// # Errors
/// A certificate for another key than this device has now, or one that none of the keys signed. Nothing is kept then.
pub fn accept_certificate(desk: &mut Desk, certificate: &str, firm: &str) -> Result<Certificate, Error> {
    let signed = Signed::<Certificate>::read(certificate)?;
    let keys = FirmKeys::read(firm.as_bytes())?;
    let claimed = signed.by_firm(&keys)?.clone();
    let (found, here) = (claimed.key.thumbprint(), *secret(desk)?.public());
    if claimed.key != here {
        let (found, here) = (found.to_string(), here.thumbprint().to_string());
        return Err(Error::new(
            Kind::Conflict,
            msg!("error-certificate-other-key", found = found, here = here),
        )
        .hint(msg!("error-certificate-other-key-hint")));
    }
    keep(&path(desk, FIRM_FILE), keys.to_text().as_bytes())?;
    keep(&path(desk, CERTIFICATE_FILE), format!("{}\n", signed.text()).as_bytes())?;
    Ok(claimed)
}

/// Takes in the office's receipt for a packet that was sealed here and keeps it beside the packet, as the file it gives
/// back.
///
/// # Errors
/// No keys of the firm on this device, a receipt they did not sign, or one for a packet that was not sealed here.
pub fn accept_receipt(desk: &mut Desk, receipt: &str) -> Result<(Receipt, PathBuf), Error> {
    let signed = Signed::<Receipt>::read(receipt)?;
    let firm = device_key(desk)?.firm.ok_or_else(|| {
        Error::new(Kind::Missing, msg!("error-no-firm-keys")).hint(msg!("error-no-firm-keys-hint"))
    })?;
    let receipt = signed.by_firm(&firm)?.clone();
    for row in desk.store.surveys()? {
        for packet in desk.store.packets(row.survey)? {
            if packet.digest == receipt.packet {
                let path = packet.path.with_extension("receipt.jws");
                // The earlier one proves more, should the key be revoked.
                if let Some(there) = earlier(&path, &receipt, &firm)? {
                    return Ok((there, path));
                }
                keep(&path, format!("{}\n", signed.text()).as_bytes())?;
                return Ok((receipt, path));
            }
        }
    }
    let sum = receipt.packet.to_string();
    Err(Error::new(Kind::Missing, msg!("error-receipt-no-packet", sum = sum)))
}

/// The receipt that is kept for the same packet, if it is no later than this one.
fn earlier(path: &Path, receipt: &Receipt, firm: &FirmKeys) -> Result<Option<Receipt>, Error> {
    let kept = text(path)?.and_then(|text| Signed::<Receipt>::read(&text).ok());
    let kept = kept.and_then(|kept| kept.by_firm(firm).ok().cloned());
    let sooner = |kept: &Receipt| {
        kept.packet == receipt.packet && kept.received_at.unix_ms() <= receipt.received_at.unix_ms()
    };
    Ok(kept.filter(sooner))
}

/// A file that was not there, begun and still empty; taken away again unless it is written.
pub struct NewFile {
    path: PathBuf,
    file: File,
    written: bool,
}

/// Begins a file that is not there yet.
///
/// # Errors
/// A file of that name; a folder that cannot be written.
pub fn begin_new(path: &Path) -> Result<NewFile, Error> {
    match OpenOptions::new().write(true).create_new(true).open(path) {
        Ok(file) => Ok(NewFile { path: path.to_owned(), file, written: false }),
        Err(e) if e.kind() == io::ErrorKind::AlreadyExists => Err(file_there(path)),
        Err(e) => Err(file_trouble(path, &e)),
    }
}

impl NewFile {
    /// Writes it and flushes it to the disk.
    ///
    /// # Errors
    /// A disk that is full.
    pub fn write(mut self, bytes: &[u8]) -> Result<(), Error> {
        let written = self.file.write_all(bytes).and_then(|()| self.file.sync_all());
        self.written = written.is_ok();
        written.map_err(|e| file_trouble(&self.path, &e))
    }
}

impl Drop for NewFile {
    fn drop(&mut self) {
        if !self.written {
            let _ = fs::remove_file(&self.path); // half a file would stand in the way next time; the first error is told
        }
    }
}

fn file_there(path: &Path) -> Error {
    let message = msg!("error-file-there", path = path.display().to_string());
    Error::new(Kind::Conflict, message).hint(msg!("error-other-file-hint"))
}

/// Writes a file that is not there yet, or is there with the same bytes.
///
/// # Errors
/// Another file of that name; a folder that cannot be written.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Error> {
    if fs::read(path).is_ok_and(|there| there == bytes) {
        return Ok(());
    }
    begin_new(path)?.write(bytes)
}

fn path(desk: &Desk, name: &str) -> PathBuf {
    desk.store.dir().join(FOLDER).join(name)
}

fn damaged(desk: &Desk, name: &str, e: &KeyError) -> Error {
    let path = path(desk, name).display().to_string();
    Error::new(Kind::Damaged, msg!("error-key-file", path = path, said = crate::key_said(e)))
}

fn text(path: &Path) -> Result<Option<String>, Error> {
    let mut text = String::new();
    match File::open(path).and_then(|file| file.take(MOST).read_to_string(&mut text)) {
        Ok(_) => Ok(Some(text)),
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(e) => Err(file_trouble(path, &e)),
    }
}

fn keep(path: &Path, bytes: &[u8]) -> Result<(), Error> {
    keys::write_whole(path, bytes).map_err(|e| file_trouble(path, &e))
}
