//! What can be wrong with a photograph, where, and how to mend it.

use core::fmt;

use survey::msg;
use survey::said::Message;

use crate::complaint::{Damage, Reason};
use crate::looks::Looks;

/// A refused photograph: which one, and what is wrong with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoError {
    /// The name the caller gave, or empty when the function was not told one.
    pub photo: String,
    /// What is wrong, where, and how to mend it.
    pub problem: Problem,
}

impl PhotoError {
    pub(crate) fn unnamed(problem: Problem) -> Self {
        Self { photo: String::new(), problem }
    }
    /// The same error, naming the photograph it is about.
    pub fn named(self, photo: &str) -> Self {
        Self { photo: tidy(photo, 120), problem: self.problem }
    }
}

impl fmt::Display for PhotoError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.photo.as_str() {
            "" => write!(f, "photograph: {}", self.problem),
            name => write!(f, "photograph “{name}”: {}", self.problem),
        }
    }
}

impl std::error::Error for PhotoError {}

/// What is wrong with a photograph. Byte positions count from 0 at the start of the file; sizes are in pixels
/// as stored, before turning upright.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Problem {
    /// No bytes at all.
    #[error("the file is empty (0 bytes); copy it again from the camera, or take the photograph again")]
    Empty,
    /// Another kind of file.
    #[error("this is {0}, not a photograph in JPEG, PNG, WebP or HEIC; {hint}", hint = .0.hint())]
    NotAPhotograph(Looks),
    /// A copy without location can be made of other kinds only.
    #[error(
        "no copy without location can be made of {0}: only JPEG, PNG and WebP are rewritten here; export it as JPEG and \
         make the copy of that"
    )]
    NoCopy(Looks),
    /// A picture that ends before it begins.
    #[error(
        "the file stops at byte {bytes}, before any of the picture (the part that starts at byte {at} is cut off); \
         copy it again from the camera and compare the file sizes"
    )]
    CutOff {
        /// Where the part begins that is not all there.
        at: u64,
        /// Length of the file.
        bytes: u64,
    },
    /// A picture whose structure is broken.
    #[error(
        "the file is damaged at byte {at}: {what}; copy it again from the camera, or open it in a picture program \
         and save it as a new JPEG"
    )]
    Damaged {
        /// Where the damage was met.
        at: u64,
        /// What was met there.
        what: Damage,
    },
    /// A declared width or height of 0.
    #[error(
        "at byte {at} the file declares {width} × {height} pixels; a picture needs both sides, so copy it \
         again from the camera or save it as a new JPEG"
    )]
    NoSize {
        /// Where the header that declares it begins.
        at: u64,
        /// Declared width.
        width: u32,
        /// Declared height.
        height: u32,
    },
    /// More pixels than are decoded here.
    #[error(
        "at byte {at} the file declares {width} × {height} pixels, {pixels} in all, and the limit is {limit}; set \
         the camera to a smaller picture size or save a smaller copy as JPEG"
    )]
    TooManyPixels {
        /// Where the header that declares it begins.
        at: u64,
        /// Declared width.
        width: u32,
        /// Declared height.
        height: u32,
        /// Width × height.
        pixels: u64,
        /// The limit that is passed, in pixels.
        limit: u64,
    },
    /// A strip no camera takes.
    #[error(
        "at byte {at} the file declares {width} × {height} pixels, one side more than {limit} times the other; \
         crop it, or take the photograph again"
    )]
    TooNarrow {
        /// Where the header that declares it begins.
        at: u64,
        /// Declared width.
        width: u32,
        /// Declared height.
        height: u32,
        /// How many times longer one side may be than the other.
        limit: u32,
    },
    /// The header can be read but the picture cannot.
    #[error(
        "the picture cannot be decoded ({reason}); the original is untouched: open it in a picture program and save \
         it as an ordinary JPEG to get a preview"
    )]
    Undecodable {
        /// Why.
        reason: Reason,
    },
    /// The marks cannot be drawn into a copy.
    #[error("the marks cannot be drawn into a copy ({reason}); the original is untouched")]
    Undrawn {
        /// What the drawing met.
        reason: String,
    },
    /// The preview could not be written.
    #[error("the preview could not be encoded ({reason}); the original is untouched, try again")]
    Unencodable {
        /// What the encoder met.
        reason: String,
    },
}

impl PhotoError {
    /// The same as a message.
    pub fn said(&self) -> Message {
        match self.photo.as_str() {
            "" => self.problem.said(),
            name => msg!("photo-problem", photo = name, said = self.problem.said()),
        }
    }
}

impl Problem {
    /// The same as a message.
    pub fn said(&self) -> Message {
        match self {
            Self::Empty => msg!("photo-problem-empty"),
            Self::NotAPhotograph(looks) => {
                msg!("photo-problem-not-one", kind = looks.said(), hint = looks.hint_said())
            }
            Self::NoCopy(looks) => msg!("photo-problem-no-copy", kind = looks.said()),
            Self::CutOff { at, bytes } => {
                msg!("photo-problem-cut-off", at = at.to_string(), bytes = bytes.to_string())
            }
            Self::Damaged { at, what } => {
                msg!("photo-problem-damaged", at = at.to_string(), what = what.said())
            }
            Self::NoSize { at, width, height } => msg!(
                "photo-problem-no-size",
                at = at.to_string(),
                width = width.to_string(),
                height = height.to_string()
            ),
            Self::TooManyPixels { at, width, height, pixels, limit } => msg!(
                "photo-problem-too-many-pixels",
                at = at.to_string(),
                width = width.to_string(),
                height = height.to_string(),
                pixels = pixels.to_string(),
                limit = limit.to_string()
            ),
            Self::TooNarrow { at, width, height, limit } => msg!(
                "photo-problem-too-narrow",
                at = at.to_string(),
                width = width.to_string(),
                height = height.to_string(),
                limit = limit.to_string()
            ),
            Self::Undecodable { reason } => msg!("photo-problem-undecodable", reason = reason.said()),
            Self::Undrawn { reason } => msg!("photo-problem-undrawn", reason = reason),
            Self::Unencodable { reason } => msg!("photo-problem-unencodable", reason = reason),
        }
    }
}

/// Foreign text made fit for a message: control characters replaced, cut to `longest` characters.
pub(crate) fn tidy(text: &str, longest: usize) -> String {
    let mut out: String =
        text.chars().take(longest).map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect();
    if text.chars().nth(longest).is_some() {
        out.push('…');
    }
    out
}
