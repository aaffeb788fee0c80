//! Tablets and invitations as plain data.

use survey::Stamp;

use crate::people::{PersonId, unhex};

/// Number of a tablet: 16 random bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct TabletId(pub [u8; 16]);

impl std::fmt::Display for TabletId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl TabletId {
    /// Reads what [`Display`](std::fmt::Display) writes.
    pub fn parse(text: &str) -> Option<Self> {
        unhex(text).map(Self)
    }
}

/// A tablet that was paired.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tablet {
    /// Its number.
    pub id: TabletId,
    /// What it is called.
    pub name: String,
    /// SHA-256 of its secret.
    pub hash: [u8; 32],
    /// Thumbprint of the key it seals with.
    pub key: String,
    /// When it was paired.
    pub paired_at: Stamp,
    /// Who invited it.
    pub paired_by: PersonId,
    /// When it was last here.
    pub last_seen: Option<Stamp>,
    /// Since when it may send nothing more.
    pub revoked_at: Option<Stamp>,
    /// Which published catalog it said it holds; none while it never asked.
    pub holds: Option<Holds>,
    /// Number of a version that was handed to it, until it says that it took it.
    pub handed: Option<u64>,
}

/// What a tablet said of the published catalog.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// It has none.
    Nothing,
    /// It has the version of this number.
    Version(u64),
    /// It has one that this office does not know, as after a backup was restored.
    Another,
}

/// An invitation that can still be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Invitation {
    /// The part of the code that names it.
    pub name: [u8; 8],
    /// SHA-256 of the whole code.
    pub hash: [u8; 32],
    /// Who made it.
    pub made_by: PersonId,
    /// Until when, in Unix milliseconds.
    pub until: i64,
    /// Wrong codes that named it.
    pub wrong: u32,
}

/// What is handed to somebody who was invited.
#[derive(Clone, PartialEq, Eq)]
pub struct Invited {
    /// The code.
    pub code: String,
    /// Until when it works.
    pub until: Stamp,
}

/// What a tablet is given.
#[derive(Clone, PartialEq, Eq)]
pub struct Paired {
    /// Its secret.
    pub token: String,
    /// Name of the firm.
    pub firm: String,
    /// The certificate of its key.
    pub certificate: String,
    /// The firm's public keys.
    pub firm_keys: String,
    /// As it is kept.
    pub tablet: Tablet,
}
