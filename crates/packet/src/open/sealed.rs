//! Whether the seal holds, by the key the packet itself names.

use keys::{Certificate, KeyError, PublicKey, Signed, Thumbprint, verify_seal};

use super::bagged::text;
use super::walk::Files;
use crate::{PacketError, names};

/// The key that sealed, and its certificate. Who signed the certificate cannot be known from the packet alone; that it
/// is the certificate the device had when it sealed is known, because the seal covers it.
pub(super) fn check(files: &Files) -> Result<(Thumbprint, Option<Signed<Certificate>>), PacketError> {
    let (key, certificate) = key(files)?;
    let seal = utf8(files, names::SEAL, "the packet's layout")?;
    let sealed = text(files, names::TAG_MANIFEST_512, "the packet's layout")?;
    verify_seal(seal, sealed, &key).map_err(refused(names::SEAL))?;
    Ok((key.thumbprint(), certificate))
}

/// Exactly one of the two files says which key.
fn key(files: &Files) -> Result<(PublicKey, Option<Signed<Certificate>>), PacketError> {
    match (files.contains_key(names::CERTIFICATE), files.contains_key(names::DEVICE_KEY)) {
        (true, true) => {
            let (file, absent_from) = (names::DEVICE_KEY.to_owned(), "a packet with a certificate");
            Err(PacketError::Extra { file, absent_from })
        }
        (false, _) => {
            let jwk = text(files, names::DEVICE_KEY, "a packet without a certificate")?;
            Ok((PublicKey::from_jwk(jwk).map_err(refused(names::DEVICE_KEY))?, None))
        }
        (true, false) => {
            let jws = utf8(files, names::CERTIFICATE, "the packet's layout")?;
            let signed = Signed::<Certificate>::read(jws).map_err(refused(names::CERTIFICATE))?;
            if signed.text() != jws {
                return Err(refused(names::CERTIFICATE)(KeyError::Shape));
            }
            Ok((signed.claimed().key, Some(signed)))
        }
    }
}

fn utf8<'a>(files: &'a Files, name: &'static str, named_in: &'static str) -> Result<&'a str, PacketError> {
    core::str::from_utf8(text(files, name, named_in)?).map_err(|_| refused(name)(KeyError::Shape))
}

fn refused(file: &'static str) -> impl Fn(KeyError) -> PacketError {
    move |source| PacketError::Seal { file, source }
}
