//! What is said between tablet and office, as JSON.
//!
//! | asked | body | answer |
//! | --- | --- | --- |
//! | `POST /device/pair` | [`PairAsk`] | [`Paired`] |
//! | `PUT /device/packet/{digest}` | the recipe | [`Begun`] |
//! | `PUT /device/packet/{digest}/segment/{sha256}`, `Content-Range: bytes a-b/n` | bytes | [`Have`]; 409 with it where they do not follow on |
//! | `POST /device/packet/{digest}` | | [`Begun`]: the receipt; 409 with what is missing |
//! | `GET /device/catalog?have={digest}` | | [`Published`]; 204 where there is none but the one that is had |
//!
//! Whatever is refused is a [`Said`], with the status of its kind. All but `pair` carry `Authorization: Bearer …`.

use serde::{Deserialize, Serialize};
use survey::Digest;

/// A tablet wants to be paired.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PairAsk {
    /// The code of the link.
    pub code: String,
    /// What the tablet is called.
    pub name: String,
    /// The request to be certified, signed by the tablet's key.
    pub request: String,
}

/// A tablet is paired.
#[derive(Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Paired {
    /// The secret by which the office knows the tablet from now on.
    pub token: String,
    /// Name of the firm.
    pub firm: String,
    /// The certificate of the tablet's key.
    pub certificate: String,
    /// The firm's public keys.
    pub firm_key: String,
    /// The office's clock.
    pub time: String,
}

/// Without the secret, which is to stand in no log.
impl std::fmt::Debug for Paired {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Paired").field("firm", &self.firm).field("time", &self.time).finish_non_exhaustive()
    }
}

/// A segment the office does not have whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Missing {
    /// Which.
    pub sha256: Digest,
    /// How many bytes of it are there.
    pub have: u64,
}

/// What the office has of a packet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Begun {
    /// What it lacks, each segment once.
    #[serde(default)]
    pub missing: Vec<Missing>,
    /// The receipt, where it has the packet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub receipt: Option<String>,
}

/// What the office has of a segment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Have {
    /// So many bytes from its beginning.
    pub have: u64,
}

/// Most bytes of a published catalog as it travels: four megabytes of files as JSON spells them, and what is signed.
pub const MOST_PUBLISHED: usize = 12 << 20;

/// A version of the firm's catalog. Whether it is the firm's stands in the signed text alone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Published {
    /// The signed text: number, digests, the list of files.
    pub version: String,
    /// The files.
    pub files: Vec<Text>,
}

impl Published {
    /// By which a tablet says that it has this one.
    pub fn digest(&self) -> Digest {
        Digest::of(self.version.as_bytes())
    }
}

/// A file of a published catalog.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Text {
    /// Its path inside the overlay.
    pub name: String,
    /// What stands in it.
    pub text: String,
}

/// Why the office refuses, in its words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Said {
    /// For programs.
    pub kind: String,
    /// For people.
    pub message: String,
    /// How to mend it.
    pub hint: Option<String>,
}
