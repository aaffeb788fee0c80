//! The chain: within each device's stream every entry names the hash of the one before, so a line taken out,
//! added or changed later shows.

use std::collections::BTreeMap;

use super::entry::Entry;
use crate::{DeviceId, Digest, Said, SurveyId, say};

/// Where a chain does not hold.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ChainError {
    /// A position is missing or comes twice.
    #[error("the log of device {device} jumps to entry {found} where entry {expected} should stand")]
    Gap {
        /// Device of the stream.
        device: DeviceId,
        /// Position expected.
        expected: u64,
        /// Position found.
        found: u64,
    },
    /// An entry does not name the hash of the one before it.
    #[error(
        "entry {seq} of device {device} does not follow from the entry before it: one of them was changed"
    )]
    Broken {
        /// Device of the stream.
        device: DeviceId,
        /// Position of the entry that does not follow.
        seq: u64,
    },
}

impl ChainError {
    /// The same as a message.
    pub fn said(&self) -> Said {
        match self {
            Self::Gap { device, expected, found } => {
                let (found, expected) = (found.to_string(), expected.to_string());
                say!("log-gap", device = device.to_string(), found = found, expected = expected)
            }
            Self::Broken { device, seq } => {
                say!("log-broken", n = seq.to_string(), device = device.to_string())
            }
        }
    }
}

/// The head of each stream: position and hash of its last entry.
pub type Heads = BTreeMap<(SurveyId, DeviceId), (u64, Digest)>;

/// Checks the streams found in `entries` (any order); returns the head hash of each.
pub fn check_chain<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Result<Heads, ChainError> {
    let mut streams: BTreeMap<(SurveyId, DeviceId), Vec<&Entry>> = BTreeMap::new();
    for entry in entries {
        streams.entry((entry.survey, entry.device)).or_default().push(entry);
    }
    let mut heads = BTreeMap::new();
    for (stream, mut list) in streams {
        list.sort_by_key(|e| e.seq);
        let mut head: Option<(u64, Digest)> = None;
        for entry in list {
            let expected = head.map_or(1, |(seq, _)| seq + 1);
            if entry.seq != expected {
                return Err(ChainError::Gap { device: entry.device, expected, found: entry.seq });
            }
            if entry.prev != head.map(|(_, hash)| hash) {
                return Err(ChainError::Broken { device: entry.device, seq: entry.seq });
            }
            head = Some((entry.seq, entry.hash()));
        }
        heads.extend(head.map(|h| (stream, h)));
    }
    Ok(heads)
}
