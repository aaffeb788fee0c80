//! What was wrong with a photograph's file without making it unusable, and why one has no preview.
//!
//! Each is said twice: in English by itself, as the log keeps it, and as a message, for whoever reads another language.
//! A test of `actions` holds the two together.

use serde::{Serialize, Serializer};
use survey::msg;
use survey::said::Message;

/// Something odd about a file that was taken in all the same. Foreign text in it is short and without control
/// characters.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[allow(missing_docs, reason = "the sentence beside each says what it is")]
pub enum Complaint {
    #[error("no preview: {0}; the original is kept")]
    NoPreview(Reason),
    #[error("{count} EXIF blocks; the first one counts")]
    Blocks { count: u32 },
    #[error("EXIF is damaged ({faults}); what could be read is used")]
    Exif { faults: String },
    #[error("EXIF orientation {value} is not one of 1 to 8; shown as stored")]
    Orientation { value: u32 },
    #[error("EXIF orientation is not a number; shown as stored")]
    OrientationNoNumber,
    #[error("EXIF latitude or longitude cannot be read as a place on the earth")]
    Place,
    #[error("EXIF location fields are all zero: blanked before the picture came here")]
    PlaceBlanked,
    #[error("EXIF points to a location that cannot be read; the picture counts as located")]
    PlaceUnread,
    #[error("EXIF time taken “{shown}”: the camera's clock was not set; no time is used")]
    ClockNotSet { shown: String },
    #[error("EXIF time taken “{shown}” is not a time like 2026:04:14 09:30:00; no time is used")]
    NoTime { shown: String },
    #[error("EXIF offset from UTC “{shown}” is not like -05:00; the time taken stays local")]
    NoOffset { shown: String },
    #[error("EXIF part of a second “{shown}” is not digits; dropped")]
    NoFraction { shown: String },
    #[error("EXIF time taken with its offset from UTC is out of range; it stays local")]
    TimeRange,
    #[error(
        "{bytes} bytes follow the end of the picture (often a second picture or a short film); they stay in the \
         original and are left out of copies without location"
    )]
    Behind { bytes: u64 },
    #[error(
        "the file stops at byte {at} before the picture's end; the lower part may be missing: copy it again"
    )]
    Stops { at: u64 },
    #[error("the file is damaged at byte {at} ({what}); part may be missing")]
    Damaged { at: u64, what: Damage },
    #[error("the picture data is damaged at byte {at}; part of it may look wrong")]
    DataDamaged { at: u64 },
    #[error("{count} frames; the size is that of the first")]
    Frames { count: u32 },
    #[error("part of what the container points to is not in the file: copy it again")]
    PartMissing,
}

/// As the sentence in English.
impl Serialize for Complaint {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl Complaint {
    /// The same as a message.
    pub fn said(&self) -> Message {
        match self {
            Self::NoPreview(why) => msg!("photo-odd-no-preview", why = why.said()),
            Self::Blocks { count } => msg!("photo-odd-blocks", n = *count),
            Self::Exif { faults } => msg!("photo-odd-exif", faults = faults),
            Self::Orientation { value } => msg!("photo-odd-orientation", value = value.to_string()),
            Self::OrientationNoNumber => msg!("photo-odd-orientation-no-number"),
            Self::Place => msg!("photo-odd-place"),
            Self::PlaceBlanked => msg!("photo-odd-place-blanked"),
            Self::PlaceUnread => msg!("photo-odd-place-unread"),
            Self::ClockNotSet { shown } => msg!("photo-odd-clock", shown = shown),
            Self::NoTime { shown } => msg!("photo-odd-time", shown = shown),
            Self::NoOffset { shown } => msg!("photo-odd-offset", shown = shown),
            Self::NoFraction { shown } => msg!("photo-odd-fraction", shown = shown),
            Self::TimeRange => msg!("photo-odd-time-range"),
            Self::Behind { bytes } => msg!("photo-odd-behind", bytes = bytes.to_string()),
            Self::Stops { at } => msg!("photo-odd-stops", at = at.to_string()),
            Self::Damaged { at, what } => {
                msg!("photo-odd-damaged", at = at.to_string(), what = what.said())
            }
            Self::DataDamaged { at } => msg!("photo-odd-data-damaged", at = at.to_string()),
            Self::Frames { count } => msg!("photo-odd-frames", n = *count),
            Self::PartMissing => msg!("photo-odd-part-missing"),
        }
    }
}

/// Why a picture cannot be decoded here.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[allow(missing_docs, reason = "the sentence beside each says what it is")]
pub enum Reason {
    #[error("{kind} is not decoded here")]
    NotDecoded { kind: &'static str },
    #[error("decoding it would take {needed} MB of memory, and the limit is {limit} MB")]
    Memory { needed: u64, limit: u64 },
    #[error("it has {count} color components; 1, 3 and 4 are decoded here")]
    Components { count: u8 },
    #[error("it has {bits} bits per sample; 8 are decoded here")]
    Bits { bits: u8 },
    #[error(
        "it is coded by JPEG process SOF{process} (lossless, hierarchical or arithmetic); SOF0, SOF1 and SOF2 are \
         decoded here"
    )]
    Process { process: u8 },
    #[error("it declares two different sizes")]
    TwoSizes,
    /// What a decoder said, in its words.
    #[error("{0}")]
    Decoder(String),
}

/// As the sentence in English.
impl Serialize for Reason {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl Reason {
    /// The same as a message; what a decoder said stays in its words.
    pub fn said(&self) -> Message {
        match self {
            Self::NotDecoded { kind } => msg!("photo-why-not-decoded", kind = *kind),
            Self::Memory { needed, limit } => {
                msg!("photo-why-memory", needed = needed.to_string(), limit = limit.to_string())
            }
            Self::Components { count } => msg!("photo-why-components", count = count.to_string()),
            Self::Bits { bits } => msg!("photo-why-bits", bits = bits.to_string()),
            Self::Process { process } => msg!("photo-why-process", process = process.to_string()),
            Self::TwoSizes => msg!("photo-why-two-sizes"),
            Self::Decoder(said) => msg!("photo-why-decoder", said = said),
        }
    }
}

/// What was met where a file is damaged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[allow(missing_docs, reason = "the sentence beside each says what it is")]
pub enum Damage {
    #[error("a second start of a picture")]
    SecondStart,
    #[error("a segment shorter than its own length field")]
    ShortSegment,
    #[error("a segment that claims to go on behind the end of the file")]
    LongSegment,
    #[error("a segment that is neither a well-formed part of a picture nor known extra data")]
    UnknownSegment,
    #[error("a frame too short to declare a size")]
    ShortFrame,
    #[error("the file ends its picture before it began")]
    EndsBefore,
    #[error("picture data outside of any scan")]
    StrayData,
    #[error("the first chunk does not declare a picture")]
    NoHeader,
    #[error("the first chunk neither is a picture nor declares one")]
    NoPictureFirst,
    #[error("a chunk that is neither a well-formed part of a picture nor known extra data")]
    UnknownChunk,
    #[error("the file stops before its last chunk; what is behind its last whole one cannot be copied")]
    StopsBeforeLast,
    #[error("a moving picture; save one of its pictures as JPEG and make the copy of that")]
    Moving,
    #[error("not exactly one whole picture; copy the file again from where it came")]
    NotOneWhole,
    #[error("the container does not say how large its picture is")]
    NoSizeSaid,
}

impl Damage {
    /// The same as a message.
    pub fn said(self) -> Message {
        match self {
            Self::SecondStart => msg!("photo-damage-second-start"),
            Self::ShortSegment => msg!("photo-damage-short-segment"),
            Self::LongSegment => msg!("photo-damage-long-segment"),
            Self::UnknownSegment => msg!("photo-damage-unknown-segment"),
            Self::ShortFrame => msg!("photo-damage-short-frame"),
            Self::EndsBefore => msg!("photo-damage-ends-before"),
            Self::StrayData => msg!("photo-damage-stray-data"),
            Self::NoHeader => msg!("photo-damage-no-header"),
            Self::NoPictureFirst => msg!("photo-damage-no-picture-first"),
            Self::UnknownChunk => msg!("photo-damage-unknown-chunk"),
            Self::StopsBeforeLast => msg!("photo-damage-stops-before-last"),
            Self::Moving => msg!("photo-damage-moving"),
            Self::NotOneWhole => msg!("photo-damage-not-one-whole"),
            Self::NoSizeSaid => msg!("photo-damage-no-size-said"),
        }
    }
}
