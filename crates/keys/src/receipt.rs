//! The office has received a packet.

use serde::{Deserialize, Serialize};
use survey::{Digest, Stamp};

use crate::certificate::name;
use crate::{KeyError, Record};

/// What the office signs of a packet it received. Written as JSON with these members in this order.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Receipt {
    /// SHA-256 of the packet file.
    pub packet: Digest,
    /// When the office had it first, by the office's clock.
    pub received_at: Stamp,
    /// Name of the firm.
    pub firm: String,
    /// Number of the revocation list then; 0 where there was none yet.
    pub revocations: u64,
}

impl Record for Receipt {
    const TYPE: &'static str = "underlath-receipt+jws";
    fn check(&self) -> Result<(), KeyError> {
        name(&self.firm)
    }
}
