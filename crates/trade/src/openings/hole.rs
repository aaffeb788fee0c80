//! A hole that a trade needs: where it is, how large, and in what it is cut.

use alloc::string::String;

use survey::Phrase;
use survey::units::Length;

use crate::error::TradeError;
use crate::openings::rects::Rect;
use crate::tolerance::Reading;

/// Trades that ask for holes; "look" is an opening made only to see.
pub const TRADES: &[&str] = &["plumbing", "electrical", "gas", "air", "framing", "look", "other"];
/// Surfaces a hole is cut in.
pub const SURFACES: &[&str] = &["wall", "ceiling", "floor", "outside"];
/// Farthest edge taken, inches: 100 ft.
pub const FARTHEST: f64 = 1200.0;
/// Least and most width or height of a hole, inches.
pub const HOLE_RANGE: [f64; 2] = [0.25, 480.0];
/// Least and most framing spacing, inches.
pub const SPACING_RANGE: [f64; 2] = [4.0, 96.0];
/// Widest tolerance taken, inches: beyond it nobody has placed the hole.
pub const WIDEST_TOLERANCE: f64 = 24.0;
/// σ of a hole's size or place that nobody gave a tolerance for, inches: common practice, no source.
pub const UNSTATED_SIGMA: f64 = 0.5;

/// What a hole is cut in.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Surface {
    /// A wall inside.
    Wall,
    /// A ceiling.
    Ceiling,
    /// A floor.
    Floor,
    /// A wall outside.
    Outside,
}

impl Surface {
    /// Every surface, as [`SURFACES`] names them.
    pub const ALL: [Self; 4] = [Self::Wall, Self::Ceiling, Self::Floor, Self::Outside];
    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Wall => "wall",
            Self::Ceiling => "ceiling",
            Self::Floor => "floor",
            Self::Outside => "outside",
        }
    }
    /// The surface by its word.
    pub fn parse(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.word() == word)
    }
}

/// The plane a hole lies in: its room, what it is, its name.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Place {
    /// Room as written.
    pub room: String,
    /// What is cut.
    pub surface: Surface,
    /// Name of the plane as written, such as "sink wall".
    pub plane: String,
}

impl Place {
    /// The same for every spelling by case: room, surface, plane.
    pub fn key(&self) -> (String, Surface, String) {
        (room_key(&self.room), self.surface, self.plane.trim().to_lowercase())
    }
}

/// A room's name without case, so that "Kitchen" and "kitchen" are one room.
pub fn room_key(room: &str) -> String {
    room.trim().to_lowercase()
}

/// Place and size of a hole as read or planned.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Edges {
    x: Reading,
    y: Reading,
    width: Reading,
    height: Reading,
}

impl Edges {
    /// Left edge, bottom, width and height.
    ///
    /// # Errors
    /// An edge outside 0 to 100 ft, a size outside 1/4 in to 40 ft, or a tolerance over 24 in.
    pub fn new(x: Reading, y: Reading, width: Reading, height: Reading) -> Result<Self, TradeError> {
        let [least, most] = HOLE_RANGE;
        for (what, reading, low, high) in [
            (Phrase("trade-left-edge-hole"), x, 0.0, FARTHEST),
            (Phrase("trade-bottom-hole"), y, 0.0, FARTHEST),
            (Phrase("trade-width-hole"), width, least, most),
            (Phrase("trade-height-hole"), height, least, most),
        ] {
            let value = reading.inches();
            if !(low..=high).contains(&value) {
                return Err(TradeError::OutOfRange { what, value, low, high, unit: "in" });
            }
            let tolerance = reading.tolerance.map_or(0.0, |t| t.abs().inches());
            if tolerance > WIDEST_TOLERANCE {
                let (what, high) = (Phrase("trade-tolerance-hole"), WIDEST_TOLERANCE);
                return Err(TradeError::OutOfRange { what, value: tolerance, low: 0.0, high, unit: "in" });
            }
        }
        Ok(Self { x, y, width, height })
    }
    /// As given.
    pub fn rect(&self) -> Rect {
        Rect::at(self.x.inches(), self.y.inches(), self.width.inches(), self.height.inches())
    }
    /// σ of left edge, bottom, width and height, inches.
    pub fn sigmas(&self) -> [f64; 4] {
        [self.x, self.y, self.width, self.height].map(|r| r.sigma(UNSTATED_SIGMA))
    }
    /// The same hole with its left edge elsewhere; none outside the range.
    pub fn moved_to(&self, x: f64) -> Option<Self> {
        let x = Reading { value: Length::from_inches(x)?, ..self.x };
        Self::new(x, self.y, self.width, self.height).ok()
    }
    /// Whether each of the four came with a tolerance.
    pub fn all_stated(&self) -> bool {
        [self.x, self.y, self.width, self.height].iter().all(|r| r.tolerance.is_some())
    }
}

/// One hole.
#[derive(Clone, PartialEq, Debug)]
pub struct Hole {
    /// Who needs it: one of [`TRADES`].
    pub trade: &'static str,
    /// Its plane.
    pub place: Place,
    /// Where it is and how large.
    pub edges: Edges,
    /// Framing spacing, where it was said.
    pub spacing: Option<Length>,
    /// Center of the first stud from the left end, where x is measured from that end.
    pub first: Option<Length>,
    /// Whether the surface is painted.
    pub painted: bool,
    /// Whether cutting it counts as demolition of a painted surface.
    pub demolition: bool,
}

/// Size and finish of a plane.
#[derive(Clone, PartialEq, Debug)]
pub struct PlaneSize {
    /// Which.
    pub place: Place,
    /// Width.
    pub width: Length,
    /// Height.
    pub height: Length,
    /// Whether it is textured.
    pub texture: bool,
}

/// A line on a plane where paint may stop: a casing, a cabinet, tile.
#[derive(Clone, PartialEq, Debug)]
pub struct Break {
    /// Which plane.
    pub place: Place,
    /// Inches from where x is measured.
    pub at: Length,
}
