//! Marks on a photograph: lines and words that lie beside it and never touch the original.

use serde::{Deserialize, Serialize};

use crate::units::Length;
use crate::{Digest, EntryId};

/// A point of a photograph as shown upright, in eighths of a pixel from its top left corner.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spot {
    /// To the right.
    pub x: i32,
    /// Down.
    pub y: i32,
}

impl Spot {
    /// Eighths in a pixel.
    pub const PER_PIXEL: i32 = 8;
    /// From pixels; `None` for what is no number or lies absurdly far out.
    pub fn from_pixels(x: f64, y: f64) -> Option<Self> {
        let eighths = |pixels: f64| {
            let e = libm::round(pixels * f64::from(Self::PER_PIXEL));
            (e.is_finite() && libm::fabs(e) <= 8e6).then_some(e as i32)
        };
        Some(Self { x: eighths(x)?, y: eighths(y)? })
    }
    /// In pixels.
    pub fn pixels(self) -> (f64, f64) {
        let pixels = |e: i32| f64::from(e) / f64::from(Self::PER_PIXEL);
        (pixels(self.x), pixels(self.y))
    }
}

/// One mark.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(tag = "shape", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Shape {
    /// An arrow; its head is at `to`.
    Arrow {
        /// Tail.
        from: Spot,
        /// Head.
        to: Spot,
    },
    /// A circle around something.
    Ring {
        /// Middle.
        middle: Spot,
        /// A point it runs through.
        through: Spot,
    },
    /// Words at a point.
    Words {
        /// Left end of their baseline.
        at: Spot,
        /// The words, one line.
        text: String,
    },
    /// A line with a length.
    Dimension {
        /// One end.
        from: Spot,
        /// The other.
        to: Spot,
        /// The length.
        length: Length,
        /// Its tolerance, read as ± two standard deviations.
        tolerance: Option<Length>,
    },
    /// Something flat of known size, from which other lengths were taken.
    Paper {
        /// Its corners, one after the other around it.
        corners: [Spot; 4],
        /// From the first corner to the second.
        width: Length,
        /// From the second to the third.
        height: Length,
    },
}

impl Shape {
    /// Its points.
    pub fn spots(&self) -> Vec<Spot> {
        match self {
            Self::Arrow { from, to } | Self::Dimension { from, to, .. } => vec![*from, *to],
            Self::Ring { middle, through } => vec![*middle, *through],
            Self::Words { at, .. } => vec![*at],
            Self::Paper { corners, .. } => corners.to_vec(),
        }
    }
    /// The word used in files and on the command line.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Arrow { .. } => "arrow",
            Self::Ring { .. } => "ring",
            Self::Words { .. } => "words",
            Self::Dimension { .. } => "dimension",
            Self::Paper { .. } => "paper",
        }
    }
}

/// A mark was made on a photograph.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoMark {
    /// SHA-256 of the original.
    pub photo: Digest,
    /// The mark.
    pub mark: Shape,
}

/// A mark was taken back. It stays in the log and is drawn no more.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkGone {
    /// SHA-256 of the original.
    pub photo: Digest,
    /// The entry that made it.
    pub mark: EntryId,
}
