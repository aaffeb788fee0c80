//! What can go wrong with a packet: which file, why, and how to mend it.

use survey::Digest;

/// A packet that cannot be sealed, or that is refused on opening. `Display` says what and where; [`Self::hint`]
/// says how to mend it.
#[derive(Debug, thiserror::Error)]
pub enum PacketError {
    /// A file or folder could not be read or written.
    #[error("{doing} {path}: {source}")]
    Io {
        /// What was being done, as "writing" or "reading".
        doing: &'static str,
        /// The path as handed in.
        path: String,
        /// What the system said.
        source: std::io::Error,
    },
    /// The file is no packet at all, or not the whole of one.
    #[error("this is not a whole packet: {reason}")]
    NotWhole {
        /// What is wrong.
        reason: String,
    },
    /// A part of the zip that is no file's content differs from what sealing writes.
    #[error("{file}: the zip's {part} is not as sealing writes it")]
    Header {
        /// The file whose record differs.
        file: String,
        /// The field of the record.
        part: &'static str,
    },
    /// A name that could leave the folder, clash or confuse.
    #[error("{file:?}: {reason}")]
    Name {
        /// The name as found, at most 200 letters.
        file: String,
        /// Why it is refused.
        reason: &'static str,
    },
    /// A file's content does not agree with its sum.
    #[error("{file}: its bytes do not agree with {list}")]
    Altered {
        /// The file.
        file: String,
        /// Where the sum stands.
        list: &'static str,
    },
    /// A file that must be there is not.
    #[error("{file} is missing, though {named_in} names it")]
    Missing {
        /// The file.
        file: String,
        /// What asks for it.
        named_in: &'static str,
    },
    /// A file that nothing names.
    #[error("{file} does not belong in a packet: {absent_from} does not name it")]
    Extra {
        /// The file.
        file: String,
        /// What should have named it.
        absent_from: &'static str,
    },
    /// A text of the packet says something it may not.
    #[error("{file}{}: {reason}", line.map(|n| format!(", line {n}")).unwrap_or_default())]
    Text {
        /// The file.
        file: &'static str,
        /// Line, from 1.
        line: Option<u64>,
        /// What is wrong.
        reason: String,
    },
    /// The seal does not hold, or what names the key that sealed is not what it should be.
    #[error("{file}: {source}")]
    Seal {
        /// The file.
        file: &'static str,
        /// Why.
        source: keys::KeyError,
    },
    /// Made by a newer program.
    #[error("{file} has version {found}; this program reads up to {known}")]
    Newer {
        /// The file that says so.
        file: &'static str,
        /// Version found.
        found: String,
        /// Newest version known.
        known: &'static str,
    },
    /// Larger than this program reads or writes.
    #[error("{file} is too large: {found} where {limit} is the most")]
    TooLarge {
        /// The file, or what is counted.
        file: String,
        /// Size or count found.
        found: u64,
        /// The limit, from [`crate::limits`].
        limit: u64,
    },
    /// Another packet stands where this one should go.
    #[error("{path} is already there and is another file; a packet is never written over")]
    Exists {
        /// The path.
        path: String,
    },
    /// What was handed in for sealing contradicts itself.
    #[error("cannot seal: {reason}")]
    Contents {
        /// What contradicts what.
        reason: String,
    },
    /// A photograph that the log names cannot go into the packet.
    #[error("photograph {} ({name}): {reason}", digest.short())]
    Photo {
        /// Digest of the original.
        digest: Digest,
        /// File name it came with.
        name: String,
        /// Why not.
        reason: String,
    },
    /// The pages could not be set.
    #[error("the pages could not be made: {reason}")]
    Pages {
        /// What the compiler of the pages said.
        reason: String,
    },
}

impl PacketError {
    /// How to mend it, as one sentence.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Io { .. } => {
                "Check that the disk has room, the path is right and may be written, then try again."
            }
            Self::NotWhole { .. }
            | Self::Header { .. }
            | Self::Altered { .. }
            | Self::Missing { .. }
            | Self::Extra { .. }
            | Self::Text { .. } => {
                "Copy the packet again from the device that sealed it and compare its sum; do not repack or edit it."
            }
            Self::Seal { .. } => {
                "Do not rely on this packet: ask the office of the firm for its own copy, or seal the house again on the device."
            }
            Self::Name { .. } => "Do not unpack this file; ask the sender for the packet as it was sealed.",
            Self::Newer { .. } => "Use a newer version of this program; the packet itself may well be whole.",
            Self::TooLarge { .. } => {
                "Ask the sender what this file is; a packet of one house is far smaller."
            }
            Self::Exists { .. } => "Seal into another folder, or move the file that is there.",
            Self::Contents { .. } => {
                "Run the check of the survey; the log on the device is not changed by this."
            }
            Self::Photo { .. } => {
                "Put the original photograph back where the survey keeps it, then seal again."
            }
            Self::Pages { .. } => {
                "If a template of the firm’s own is named above, mend it or take it out of its folder; otherwise send the message with the log. Nothing is lost."
            }
        }
    }

    pub(crate) fn io(doing: &'static str, path: &std::path::Path) -> impl FnOnce(std::io::Error) -> Self {
        let path = path.display().to_string();
        move |source| Self::Io { doing, path, source }
    }
}
