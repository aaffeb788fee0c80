//! What seal, certificate, receipt and revocation list prove together.

use serde::Serialize;
use survey::{Digest, Stamp};

use crate::{Certificate, FirmKeys, Receipt, Revocations, Serial, Signed, Thumbprint};

/// The clocks of a tablet and of the office may be so far apart (our own choice, no source).
pub const CLOCKS_APART_MS: i64 = 24 * 60 * 60 * 1000;

/// Who sealed a packet, as the packet itself says and its seal shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SealedBy {
    /// SHA-256 of the packet file.
    pub packet: Digest,
    /// The key whose seal holds.
    pub key: Thumbprint,
    /// When, by the device's clock.
    pub sealed_at: Stamp,
    /// The certificate inside, if the device had one. Who signed it is not known from the packet alone.
    pub certificate: Option<Signed<Certificate>>,
}

/// What the verifier holds besides the packet.
#[derive(Clone, Debug, Default)]
pub struct Evidence {
    /// The firm's public keys.
    pub firm: Option<FirmKeys>,
    /// A receipt for the packet.
    pub receipt: Option<Signed<Receipt>>,
    /// A revocation list.
    pub revocations: Option<Signed<Revocations>>,
}

/// What is asked, in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Claim {
    /// The firm certified the device's key.
    Certified,
    /// The certificate was valid when the packet was sealed.
    Valid,
    /// The office received this packet.
    Received,
    /// The key was not revoked by then.
    NotRevoked,
}

/// What can be said of one claim.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Said {
    /// It holds.
    Holds,
    /// It does not.
    Fails(Fault),
    /// What it would be checked with is not at hand.
    NotChecked,
}

/// Why a claim fails.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The packet carries no certificate.
    NoCertificate,
    /// Not certified by one of the firm's keys.
    NotTheFirms(crate::KeyError),
    /// Sealed before the certificate began.
    TooEarly(Stamp),
    /// Sealed after the certificate ended.
    Expired(Stamp),
    /// The receipt is not the firm's.
    ReceiptNotTheFirms(crate::KeyError),
    /// The receipt is for another packet.
    ReceiptOfAnother(Digest),
    /// Received more than a day before it was sealed.
    ReceivedBeforeSealed(Stamp),
    /// The revocation list is not the firm's.
    ListNotTheFirms(crate::KeyError),
    /// The list is older than the one the office had when it received the packet.
    ListTooOld {
        /// Its number.
        number: u64,
        /// The number in the receipt.
        then: u64,
    },
    /// Revoked when the packet was received, or sealed where nothing says when it was received.
    Revoked {
        /// Since when.
        since: Stamp,
        /// Why.
        why: String,
    },
    /// Said to be sealed before the key was revoked, which nothing but the device's own clock shows.
    RevokedUnproven {
        /// Since when.
        since: Stamp,
        /// Why.
        why: String,
    },
}

impl Fault {
    /// Its name for programs.
    pub fn name(&self) -> &'static str {
        match self {
            Self::NoCertificate => "no-certificate",
            Self::NotTheFirms(_) => "certificate-not-the-firms",
            Self::TooEarly(_) => "certificate-not-yet-valid",
            Self::Expired(_) => "certificate-expired",
            Self::ReceiptNotTheFirms(_) => "receipt-not-the-firms",
            Self::ReceiptOfAnother(_) => "receipt-of-another-packet",
            Self::ReceivedBeforeSealed(_) => "received-before-sealed",
            Self::ListNotTheFirms(_) => "revocations-not-the-firms",
            Self::ListTooOld { .. } => "revocations-too-old",
            Self::Revoked { .. } => "revoked",
            Self::RevokedUnproven { .. } => "revoked-unproven",
        }
    }
}

/// Says of each claim whether it holds. Without the firm's keys nothing signed by the office counts, so nothing can be
/// said. "Sealed before the key was revoked" counts only where the office's receipt shows it: whoever has a stolen key
/// also sets its clock.
pub fn judge(sealed: &SealedBy, evidence: &Evidence) -> [(Claim, Said); 4] {
    let said = match &evidence.firm {
        None => [Said::NotChecked, Said::NotChecked, Said::NotChecked, Said::NotChecked],
        Some(firm) => {
            let certificate = certified(sealed, firm);
            let received = evidence.receipt.as_ref().map(|receipt| received(sealed, receipt, firm));
            let good = certificate.as_ref().ok();
            [
                fails_or_holds(&certificate),
                good.map_or(Said::NotChecked, |c| valid(c, sealed.sealed_at)),
                received.as_ref().map_or(Said::NotChecked, fails_or_holds),
                match (&evidence.revocations, good) {
                    (Some(list), Some(certificate)) => {
                        let receipt = received.as_ref().and_then(|r| r.as_ref().ok().copied());
                        not_revoked(certificate, sealed.sealed_at, receipt, list, firm)
                    }
                    _ => Said::NotChecked,
                },
            ]
        }
    };
    let [certified, valid, received, not_revoked] = said;
    [
        (Claim::Certified, certified),
        (Claim::Valid, valid),
        (Claim::Received, received),
        (Claim::NotRevoked, not_revoked),
    ]
}

fn fails_or_holds<T>(found: &Result<T, Fault>) -> Said {
    found.as_ref().map_or_else(|fault| Said::Fails(fault.clone()), |_| Said::Holds)
}

fn certified(sealed: &SealedBy, firm: &FirmKeys) -> Result<Certificate, Fault> {
    let signed = sealed.certificate.as_ref().ok_or(Fault::NoCertificate)?;
    let certificate = signed.by_firm(firm).map_err(Fault::NotTheFirms)?;
    // Opening a packet has compared the two; whoever builds a `SealedBy` otherwise is held to it here.
    let (found, wanted) = (certificate.key.thumbprint(), sealed.key);
    if found != wanted {
        let (found, wanted) = (found.to_string(), wanted.to_string());
        return Err(Fault::NotTheFirms(crate::KeyError::Kid { found, wanted }));
    }
    Ok(certificate.clone())
}

fn valid(certificate: &Certificate, at: Stamp) -> Said {
    if at.unix_ms() + CLOCKS_APART_MS < certificate.not_before.unix_ms() {
        Said::Fails(Fault::TooEarly(certificate.not_before))
    } else if at.unix_ms() > certificate.not_after.unix_ms() {
        Said::Fails(Fault::Expired(certificate.not_after))
    } else {
        Said::Holds
    }
}

fn received<'a>(
    sealed: &SealedBy,
    receipt: &'a Signed<Receipt>,
    firm: &FirmKeys,
) -> Result<&'a Receipt, Fault> {
    let receipt = receipt.by_firm(firm).map_err(Fault::ReceiptNotTheFirms)?;
    if receipt.packet != sealed.packet {
        return Err(Fault::ReceiptOfAnother(receipt.packet));
    }
    if receipt.received_at.unix_ms() + CLOCKS_APART_MS < sealed.sealed_at.unix_ms() {
        return Err(Fault::ReceivedBeforeSealed(receipt.received_at));
    }
    Ok(receipt)
}

fn not_revoked(
    certificate: &Certificate,
    sealed_at: Stamp,
    receipt: Option<&Receipt>,
    list: &Signed<Revocations>,
    firm: &FirmKeys,
) -> Said {
    let list = match list.by_firm(firm) {
        Ok(list) => list,
        Err(e) => return Said::Fails(Fault::ListNotTheFirms(e)),
    };
    if let Some(then) = receipt.map(|r| r.revocations).filter(|then| *then > list.number) {
        return Said::Fails(Fault::ListTooOld { number: list.number, then });
    }
    let Some(revoked) = list.of(certificate) else {
        // A list from before the sealing cannot know what was revoked by then; a receipt names the list it goes with.
        let too_early = receipt.is_none() && list.issued_at.unix_ms() < sealed_at.unix_ms();
        return if too_early { Said::NotChecked } else { Said::Holds };
    };
    let (since, why) = (revoked.since, revoked.why.clone());
    match receipt {
        Some(receipt) if receipt.received_at.unix_ms() < since.unix_ms() => Said::Holds,
        None if sealed_at.unix_ms() < since.unix_ms() => Said::Fails(Fault::RevokedUnproven { since, why }),
        _ => Said::Fails(Fault::Revoked { since, why }),
    }
}

/// The certificate's number, for a line a person reads.
impl SealedBy {
    /// Number of the certificate inside, whoever signed it.
    pub fn serial(&self) -> Option<Serial> {
        self.certificate.as_ref().map(|signed| signed.claimed().serial)
    }
}
