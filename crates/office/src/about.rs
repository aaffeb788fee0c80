//! What is kept of a packet beside it, so that a list of hundreds opens none of them.
//!
//! Everything here is made from the packet and may be thrown away: it is made anew. It lies in a folder of its own, apart
//! from the packets and the findings, which a backup must hold.

use std::fs;
use std::path::PathBuf;

use keys::{Certificate, Evidence, SealedBy, Signed};
use packet::Packet;
use serde::{Deserialize, Serialize};
use survey::{DeviceId, Digest, Stamp};

use crate::register::Register;
use crate::{Desk, OfficeError};

/// Version of the form below; a file of another one is made anew.
const VERSION: u32 = 1;

/// What a packet is, without what it holds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct About {
    v: u32,
    /// The device that sealed it.
    pub device: DeviceId,
    /// When, by its clock.
    pub sealed_at: Stamp,
    /// Bytes of the file.
    pub bytes: u64,
    /// Entries of the log.
    pub entries: u64,
    /// Digest of the assessment inside.
    pub assessment: Digest,
    /// Keys of the conditions in it.
    pub conditions: Vec<String>,
    /// The photographs.
    pub photos: Vec<Digest>,
    /// What can be read or printed, with its bytes.
    pub pages: Vec<(String, u64)>,
    /// The key that sealed.
    key: String,
    /// Its certificate, as it was written.
    certificate: Option<String>,
}

impl About {
    /// Of an open packet.
    pub(crate) fn of(packet: &Packet) -> Result<Self, OfficeError> {
        let forecast = assessment::Forecast::from_bytes(packet.assessment())?;
        let (info, sealed) = (packet.info(), packet.sealed_by());
        let bytes_of = |page: &str| packet.files().find(|(name, ..)| *name == format!("data/{page}"));
        Ok(Self {
            v: VERSION,
            device: info.device,
            sealed_at: info.sealed_at,
            bytes: packet.bytes(),
            entries: info.entries,
            assessment: info.assessment,
            conditions: forecast.conditions.into_iter().map(|c| c.id).collect(),
            photos: info.photos.iter().map(|photo| photo.digest).collect(),
            pages: info
                .pages
                .iter()
                .map(|page| (page.clone(), bytes_of(page).map_or(0, |(_, bytes, _)| bytes)))
                .collect(),
            key: sealed.key.to_string(),
            certificate: sealed.certificate.as_ref().map(|signed| signed.text().to_owned()),
        })
    }

    /// The certificate, whoever signed it.
    pub fn certificate(&self) -> Option<Signed<Certificate>> {
        Signed::read(self.certificate.as_deref()?).ok()
    }
}

impl Desk {
    /// What a packet is; opened, and noted, where that has not been done yet.
    ///
    /// # Errors
    /// A packet that is not here or does not open any more.
    pub fn about(&self, packet: Digest) -> Result<About, OfficeError> {
        let path = self.derived(packet).join("about.json");
        let kept = fs::read(&path).ok().and_then(|text| serde_json::from_slice::<About>(&text).ok());
        if let Some(about) = kept.filter(|about| about.v == VERSION) {
            return Ok(about);
        }
        let about = About::of(&self.open_packet(packet)?)?;
        let text = serde_json::to_vec(&about)
            .map_err(|e| OfficeError::File { path: path.clone(), what: e.to_string() })?;
        // Where nothing can be noted, the packet is opened again next time.
        let _ = keys::write_whole(&path, &text);
        Ok(about)
    }

    /// Opens a packet that was received; every bit of it is compared again.
    pub(crate) fn open_packet(&self, packet: Digest) -> Result<Packet, OfficeError> {
        let path = self.packet_path(packet);
        if !path.is_file() {
            return Err(OfficeError::NoPacket { packet: packet.to_string() });
        }
        Ok(packet::open(&path)?)
    }

    /// The folder of what is made from a packet, or from a photograph of a finding.
    pub(crate) fn derived(&self, of: Digest) -> PathBuf {
        self.dir.join("derived").join(of.to_string())
    }

    /// What the office can say of who sealed a packet; the receipt it signed is part of that.
    pub(crate) fn judged_seal(
        &self,
        packet: Digest,
        about: &About,
        register: &Register,
    ) -> Result<Option<[(keys::Claim, keys::Said); 4]>, OfficeError> {
        let Ok(key) = about.key.parse() else { return Ok(None) };
        if register.keys.keys().is_empty() {
            return Ok(None);
        }
        let sealed = SealedBy { packet, key, sealed_at: about.sealed_at, certificate: about.certificate() };
        let receipt = fs::read_to_string(self.receipt_path(packet)).ok();
        let evidence = Evidence {
            firm: Some(register.keys.clone()),
            receipt: receipt.and_then(|text| Signed::read(text.trim_end()).ok()),
            revocations: register.revocations()?,
        };
        Ok(Some(keys::judge(&sealed, &evidence)))
    }
}
