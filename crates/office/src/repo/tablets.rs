//! What is kept of tablets, and of bytes that are here already.

use survey::Digest;

use crate::OfficeError;
use crate::tablets::{Invitation, Tablet, TabletId};

/// Where bytes lie in a packet that was received.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Known {
    /// Digest of the packet.
    pub packet: Digest,
    /// Where they begin in its file.
    pub at: u64,
    /// How many they are.
    pub bytes: u64,
}

/// Tablets, invitations, known bytes. Each error is one of the place where they lie.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait TabletRows {
    /// Every tablet, in the order they were paired.
    fn tablets(&self) -> Result<Vec<Tablet>, OfficeError>;
    /// A tablet by its number.
    fn tablet(&self, id: TabletId) -> Result<Option<Tablet>, OfficeError>;
    /// A tablet by the hash of its secret.
    fn tablet_of(&self, hash: &[u8; 32]) -> Result<Option<Tablet>, OfficeError>;
    /// Adds one. No two share a secret.
    fn add_tablet(&mut self, tablet: &Tablet) -> Result<(), OfficeError>;
    /// Keeps when a tablet was seen, since when it is revoked and what it holds of the published catalog. One that is revoked
    /// stays as it was.
    fn change_tablet(&mut self, tablet: &Tablet) -> Result<(), OfficeError>;

    /// Adds an invitation.
    fn add_invitation(&mut self, invitation: &Invitation) -> Result<(), OfficeError>;
    /// An invitation by its name.
    fn invitation(&self, name: &[u8; 8]) -> Result<Option<Invitation>, OfficeError>;
    /// Ends an invitation; none by that name is no fault.
    fn end_invitation(&mut self, name: &[u8; 8]) -> Result<(), OfficeError>;
    /// Ends all that ran out before a moment.
    fn end_invitations_before(&mut self, moment: i64) -> Result<(), OfficeError>;

    /// Where bytes of this digest lie.
    fn known(&self, digest: Digest) -> Result<Option<Known>, OfficeError>;
    /// Notes where they lie; where they are noted already, that stays.
    fn keep_known(&mut self, digest: Digest, known: &Known) -> Result<(), OfficeError>;
    /// They do not lie there any more.
    fn forget_known(&mut self, digest: Digest) -> Result<(), OfficeError>;
}
