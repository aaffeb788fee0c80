//! Why a photograph gives no length.

use core::fmt;

/// Why no length can be given.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum PlaneError {
    /// A number that is not finite, or a size or picture without extent.
    NotANumber,
    /// The four marks make no four-cornered outline: two coincide, three lie on a line, or one lies inside the others.
    NoOutline,
    /// An end lies beyond the horizon of the plane.
    BeyondHorizon,
    /// Both ends are the same point.
    NoLength,
    /// Two standard deviations are more than a quarter of the length.
    TooUncertain {
        /// The length, inches.
        inches: f64,
        /// Two standard deviations, inches.
        give_or_take: f64,
    },
}

impl fmt::Display for PlaneError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotANumber => f.write_str("a mark or a size is not a number, or nothing at all"),
            Self::NoOutline => f.write_str(
                "the four marks are no outline of a sheet: mark its corners one after the other around it",
            ),
            Self::BeyondHorizon => f.write_str("an end lies beyond the horizon of the sheet’s plane"),
            Self::NoLength => f.write_str("both ends are the same point"),
            Self::TooUncertain { inches, give_or_take } => write!(
                f,
                "{inches:.1} in, give or take {give_or_take:.1} in: too uncertain; put the sheet nearer to what is measured, \
                 in its plane, and photograph both straight on"
            ),
        }
    }
}

impl core::error::Error for PlaneError {}
