//! The hole a pipe needs, and where it is bored.

use survey::Phrase;
use survey::units::Length;

use super::pipe::Pipe;
use super::ranged;
use crate::error::TradeError;
use crate::given::{Field, Kind};
use crate::tolerance::{Budget, Reading};

/// σ of the diameter of a bored hole, inches: common practice, no source.
pub const BORE_SIGMA: f64 = 1.0 / 64.0;
/// σ of a hole aimed at the middle of a member, inches: common practice, no source.
pub const MIDDLE_SIGMA: f64 = 1.0 / 16.0;
/// σ of a stated distance from hole to edge whose tolerance nobody said, inches: common practice, no source.
pub const CENTER_SIGMA: f64 = 1.0 / 16.0;
/// How much larger than the pipe a hole is where nobody said, inches on the diameter: common practice, no source.
pub const CLEARANCE: f64 = 1.0 / 16.0;
/// Clearances taken, inches.
const CLEARANCES: (f64, f64) = (0.0, 4.0);

/// The clearance.
pub(crate) const LARGER: Field = Field::or(
    "clearance",
    Phrase("trade-how-much-larger-than"),
    Kind::Length { min: CLEARANCES.0, max: CLEARANCES.1, feet: false },
    "1/16",
);

/// A round hole.
#[derive(Clone, PartialEq, Debug)]
pub struct Hole {
    /// Outside diameter of the pipe, inches.
    pub(crate) pipe: f64,
    /// Added to it.
    pub(crate) clearance: f64,
    /// Errors of the diameter by source.
    pub(crate) budget: Budget,
}

impl Hole {
    /// The hole around a pipe: its outside diameter and the clearance.
    ///
    /// # Errors
    /// A clearance outside 0 to 4 in.
    pub fn around(pipe: &Pipe, clearance: Reading) -> Result<Self, TradeError> {
        let clearance = ranged(Phrase("trade-clearance-hole"), clearance, CLEARANCES.0, CLEARANCES.1)?;
        let budget = Budget::new().with(Phrase("trade-pipe-2"), 1.0, pipe.sigma).with(
            Phrase("trade-bored-hole"),
            1.0,
            clearance.sigma(BORE_SIGMA),
        );
        Ok(Self { pipe: pipe.outside, clearance: clearance.inches(), budget })
    }
    /// Diameter, inches.
    pub fn diameter(&self) -> f64 {
        self.pipe + self.clearance
    }
    /// σ of the diameter, inches.
    pub fn sigma(&self) -> f64 {
        self.budget.sigma()
    }
}

/// The clearance taken where nobody said.
pub(crate) fn usual_clearance() -> Reading {
    Reading::plain(Length::from_sixty_fourths(4))
}

/// Where the middle of a hole lies across a member.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Place {
    /// Aimed at the middle of the depth.
    Middle,
    /// This far from one edge.
    FromEdge(Reading),
}

impl Place {
    /// Distance from that edge in a member of this depth, inches.
    pub fn center(self, depth: f64) -> f64 {
        match self {
            Self::Middle => depth / 2.0,
            Self::FromEdge(reading) => reading.inches(),
        }
    }
    /// σ of where it lies, inches.
    pub fn sigma(self) -> f64 {
        match self {
            Self::Middle => MIDDLE_SIGMA,
            Self::FromEdge(reading) => reading.sigma(CENTER_SIGMA),
        }
    }
}
