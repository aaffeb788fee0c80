//! What is said of keys, certificates, receipts and revocation lists.

use keys::{Certificate, Fault, KeyError};
use survey::Stamp;
use words::{Message, msg};

use crate::{Error, Kind};

impl From<KeyError> for Error {
    fn from(e: KeyError) -> Self {
        let kind = match &e {
            KeyError::Store { .. } | KeyError::Signing(_) => Kind::Internal,
            KeyError::Open { .. } => Kind::Conflict,
            KeyError::Signature | KeyError::NotTheFirms(_) | KeyError::Kid { .. } => Kind::Conflict,
            _ => Kind::Input,
        };
        let error = Self::new(kind, key_said(&e));
        match &e {
            KeyError::Open { path, .. } => error.hint(msg!("error-key-open-hint", path = path)),
            KeyError::NotTheFirms(_) => error.hint(msg!("error-key-not-the-firms-hint")),
            KeyError::Store { .. } | KeyError::Signing(_) | KeyError::Contents(_) => error,
            _ => error.hint(msg!("error-key-again-hint")),
        }
    }
}

/// A certificate in one line.
pub fn certificate_said(certificate: &Certificate) -> Message {
    let Certificate { firm, serial, not_before, not_after, .. } = certificate;
    msg!("keys-certified", firm = firm, serial = serial.to_string(), from = *not_before, until = *not_after)
}

/// Days before its end from which a certificate is warned of (our own choice, no source).
const SOON: i64 = 30;
const DAY: i64 = 24 * 60 * 60 * 1000;

/// That a certificate has run out, or does so within 30 days; nothing while it has longer.
pub fn certificate_ends(certificate: &Certificate, now: Stamp) -> Option<Message> {
    let (serial, until) = (certificate.serial.to_string(), certificate.not_after);
    let left = until.unix_ms() - now.unix_ms();
    if left < 0 {
        Some(msg!("certificate-ended", serial = serial, until = until))
    } else if left <= SOON * DAY {
        Some(msg!("certificate-ends", serial = serial, until = until))
    } else {
        None
    }
}

/// What is wrong with a key or a signed text.
pub fn key_said(e: &KeyError) -> Message {
    use KeyError as K;
    match e {
        K::Key(said) => msg!("error-key-none", said = said),
        K::Weak => msg!("error-key-weak"),
        K::Shape => msg!("error-key-shape"),
        K::TooLong => msg!("error-key-long"),
        K::Base64(part) => msg!("error-key-base64", part = *part),
        K::Header(said) => msg!("error-key-header", said = said),
        K::Algorithm(found) => msg!("error-key-algorithm", found = found),
        K::Critical => msg!("error-key-critical"),
        K::Kind { found, wanted } => msg!("error-key-kind", found = found, wanted = *wanted),
        K::Kid { found, wanted } => msg!("error-key-kid", found = found, wanted = wanted),
        K::NotTheFirms(key) => msg!("error-key-not-the-firms", key = key),
        K::Signature => msg!("error-key-signature"),
        K::Payload(said) => msg!("error-key-payload", said = said),
        K::Contents(said) => msg!("error-key-contents", said = *said),
        K::Signing(said) => msg!("error-key-signing", said = said),
        K::Open { path, mode } => msg!("error-key-open", path = path, mode = mode),
        K::Store { path, what } => msg!("error-file", path = path, said = what),
    }
}

/// Why a packet does not hold, though its seal does.
pub fn fault_said(fault: &Fault) -> Message {
    use Fault as F;
    match fault {
        F::NoCertificate => msg!("fault-no-certificate"),
        F::NotTheFirms(e) => msg!("fault-certificate", said = key_said(e)),
        F::TooEarly(from) => msg!("fault-too-early", from = *from),
        F::Expired(until) => msg!("fault-expired", until = *until),
        F::ReceiptNotTheFirms(e) => msg!("fault-receipt", said = key_said(e)),
        F::ReceiptOfAnother(digest) => msg!("fault-receipt-other", sum = digest.to_string()),
        F::ReceivedBeforeSealed(at) => msg!("fault-received-before", at = *at),
        F::ListNotTheFirms(e) => msg!("fault-list", said = key_said(e)),
        F::ListTooOld { number, then } => {
            msg!("fault-list-old", number = number.to_string(), then = then.to_string())
        }
        F::Revoked { since, why } => msg!("fault-revoked", since = *since, why = why),
        F::RevokedUnproven { since, why } => {
            msg!("fault-revoked-unproven", since = *since, why = why)
        }
    }
}
