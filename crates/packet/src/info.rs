//! `data/packet.json`: what the packet is, in one record with one spelling.

use serde::{Deserialize, Serialize};
use survey::{DeviceId, Digest, Stamp, SurveyId};

use crate::{PacketError, names};

const FORMAT: &str = "underlath-packet";
const VERSION: u64 = 1;

/// What the packet is. Written as JSON with these fields in this order.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Info {
    /// "underlath-packet".
    pub format: String,
    /// Version of this layout; 1.
    pub version: u64,
    /// The house.
    pub survey: SurveyId,
    /// Name of the house for people.
    pub label: String,
    /// Number of the packet among this survey's, from 1.
    pub number: u32,
    /// The device that sealed it.
    pub device: DeviceId,
    /// When it was sealed.
    pub sealed_at: Stamp,
    /// Entries in the log.
    pub entries: u64,
    /// How many of them, in the log's one order, the assessment was made from.
    pub log_position: u64,
    /// Digest of the catalog the assessment was made with.
    pub catalog: Digest,
    /// Name and version of what computed the assessment.
    pub engine: String,
    /// Name and version of the program that sealed.
    pub software: String,
    /// The firm, if it gave its name.
    pub organization: Option<String>,
    /// Digest of this survey's packet before this one, if any.
    pub previous: Option<Digest>,
    /// Digest of `data/assessment.json`.
    pub assessment: Digest,
    /// What is there to be read, printed or opened in a spreadsheet: names within `data/`, as "pages/office.pdf", in
    /// bytewise order.
    pub pages: Vec<String>,
    /// The photographs, by digest.
    pub photos: Vec<PhotoInfo>,
}

/// One photograph: the original bytes lie at `data/photos/<digest>.jpg`.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoInfo {
    /// SHA-256 of the original.
    pub digest: Digest,
    /// Its bytes.
    pub bytes: u64,
    /// File name it came with, if the log says so.
    pub name: Option<String>,
    /// Station of the walk, if known.
    pub place: Option<String>,
    /// Item it belongs to, if any.
    pub item: Option<String>,
}

impl Info {
    /// "underlath-packet", the value of `format`.
    pub const FORMAT: &'static str = FORMAT;
    /// The version of the layout written today.
    pub const VERSION: u64 = VERSION;

    /// The one folder of the zip.
    pub fn folder(&self) -> String {
        format!("underlath-{}-{}", self.survey, self.number)
    }

    /// The JSON text, indented for people, with a line end.
    pub(crate) fn to_text(&self) -> Vec<u8> {
        // Strings, numbers and lists only: this cannot fail.
        let mut text = serde_json::to_vec_pretty(self).unwrap_or_default();
        text.push(b'\n');
        text
    }

    /// Reads the text: version first, then strictly.
    pub(crate) fn from_text(text: &[u8]) -> Result<Self, PacketError> {
        #[derive(Deserialize)]
        struct Head {
            format: String,
            version: u64,
        }
        let bad = |reason: String| PacketError::Text { file: names::PACKET_JSON, line: None, reason };
        let head: Head = serde_json::from_slice(text).map_err(|e| bad(e.to_string()))?;
        if head.format != FORMAT {
            return Err(bad(format!("format is not {FORMAT}")));
        }
        if head.version > VERSION {
            let found = head.version.to_string();
            return Err(PacketError::Newer { file: names::PACKET_JSON, found, known: "1" });
        }
        let info: Self = serde_json::from_slice(text).map_err(|e| bad(e.to_string()))?;
        if info.version != VERSION || info.to_text() != text {
            return Err(bad("it is readable, but not spelled as sealing writes it".to_owned()));
        }
        Ok(info)
    }
}
