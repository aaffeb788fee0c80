//! The list of holes of a job as a whole: its planes, and per room the painted surface it disturbs.

use alloc::{string::String, vec::Vec};

use survey::{Phrase, Said, say};

use crate::error::TradeError;
use crate::measure::SquareFeet;
use crate::number::show_number;
use crate::openings::grid::PER_FOOT;
use crate::openings::hole::{Break, Hole, PlaneSize, Surface, TRADES, room_key};
use crate::openings::lead::LeadRule;
use crate::openings::plane::Plane;
use crate::openings::rects::{HAIR, Rect, covered};
use crate::openings::spread::{Mixture, area};
use crate::sheet::Standing;

/// Most holes of one list.
pub const MOST_HOLES: usize = 60;
/// Square feet in a 4 × 8 sheet.
pub const SHEET_AREA: f64 = 32.0;
/// Added to the patch area for offcuts: common practice, no source.
pub const OFFCUT_ALLOWANCE: f64 = 0.15;
/// Farthest a hole is proposed to be moved along its plane, inches: common practice, no source.
pub const FARTHEST_MOVE: f64 = 4.0;

/// Openings of a job.
#[derive(Clone, PartialEq, Debug)]
pub struct Schedule {
    /// Planes with their holes, in order of room, surface and name.
    pub planes: Vec<Plane>,
    /// Rooms in which a window is replaced.
    pub windows: Vec<String>,
    /// Painted surface disturbed before, within the days of one job, by room.
    pub earlier: Vec<(String, SquareFeet)>,
    /// Painted components taken out whole, such as casings or a door, by room.
    pub removed: Vec<(String, SquareFeet)>,
    /// A practice the lead rule prohibits is used.
    pub prohibited: bool,
}

/// Painted surface disturbed in one room, or outside.
#[derive(Clone, PartialEq, Debug)]
pub struct Room {
    /// Its name; "outside" for all that is outside.
    pub name: String,
    /// Outside.
    pub outside: bool,
    /// Patches over painted holes, ft², as given.
    pub painted: f64,
    /// Painted components taken out, ft².
    pub removed: f64,
    /// Disturbed before, ft².
    pub earlier: f64,
    /// The sum of all three with its spread.
    pub spread: Mixture,
    /// A painted surface is demolished.
    pub demolition: bool,
    /// A window is replaced.
    pub window: bool,
}

impl Room {
    /// As given: patches, components taken out, and what was disturbed before, ft².
    pub fn total(&self) -> f64 {
        self.painted + self.removed + self.earlier
    }
    /// At most, for minor repair.
    pub fn most(&self, rule: &LeadRule) -> f64 {
        if self.outside { rule.outside } else { rule.inside }
    }
    /// P(painted surface over the value).
    pub fn chance_over(&self, rule: &LeadRule) -> f64 {
        self.spread.chance_over(self.most(rule))
    }
}

/// What one trade asks for.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Share {
    /// One of [`TRADES`].
    pub trade: &'static str,
    /// Holes.
    pub holes: usize,
    /// Square feet of its holes, overlaps once.
    pub hole_area: f64,
    /// Square feet of patches if its holes were the only ones.
    pub patch_area: f64,
}

/// A hole that takes a bay less when it is moved a little.
#[derive(Clone, PartialEq, Debug)]
pub struct Move {
    /// Position of its plane.
    pub plane: usize,
    /// Position of the hole in it.
    pub hole: usize,
    /// Inches to the right; to the left if negative.
    pub by: f64,
    /// Square feet of patch saved.
    pub saved: f64,
    /// The schedule with the hole moved.
    pub then: Schedule,
}

impl Schedule {
    /// Reads lists of holes, planes and breaks into a schedule.
    ///
    /// # Errors
    /// No hole or more than [`MOST_HOLES`]; rows that contradict each other ([`Plane::gather`]).
    pub fn new(holes: &[Hole], sizes: &[PlaneSize], breaks: &[Break]) -> Result<Self, TradeError> {
        if holes.is_empty() || holes.len() > MOST_HOLES {
            let (what, unit, value) = (Phrase("trade-number-holes"), "holes", holes.len() as f64);
            return Err(TradeError::OutOfRange { what, value, low: 1.0, high: MOST_HOLES as f64, unit });
        }
        let planes = Plane::gather(holes, sizes, breaks)?;
        Ok(Self { planes, windows: Vec::new(), earlier: Vec::new(), removed: Vec::new(), prohibited: false })
    }
    /// Number of holes.
    pub fn holes(&self) -> usize {
        self.planes.iter().map(|p| p.holes.len()).sum()
    }
    /// Square feet of patches of some surfaces, overlaps once.
    pub fn patch_area(&self, of: impl Fn(Surface) -> bool) -> f64 {
        let planes = self.planes.iter().filter(|p| of(p.place.surface));
        planes.map(Plane::patch_area).sum()
    }
    /// What each trade asks for, in the order of [`TRADES`].
    pub fn shares(&self) -> Vec<Share> {
        let mut out = Vec::new();
        for trade in TRADES {
            let (mut holes, mut hole_area, mut patch_area) = (0, 0.0, 0.0);
            for plane in &self.planes {
                let own: Vec<Rect> =
                    plane.holes.iter().filter(|h| h.trade == *trade).map(|h| h.edges.rect()).collect();
                let patches: Vec<Rect> = own.iter().map(|r| plane.grid.extend(r)).collect();
                holes += own.len();
                hole_area += covered(&own) / PER_FOOT;
                patch_area += covered(&patches) / PER_FOOT;
            }
            if holes > 0 {
                out.push(Share { trade, holes, hole_area, patch_area });
            }
        }
        out
    }
    /// Rooms with painted surface disturbed, now or before, or a window replaced; outside last.
    pub fn rooms(&self) -> Vec<Room> {
        let inside = self.planes.iter().map(counted_in);
        let listed = self.earlier.iter().chain(&self.removed).map(|(room, _)| room);
        let told = self.windows.iter().chain(listed).map(|r| room_key(r));
        let mut keys: Vec<String> = inside.chain(told).collect();
        keys.sort_by_key(|k| (k == OUTSIDE, k.clone()));
        keys.dedup();
        let mut out = Vec::new();
        for key in keys {
            let planes: Vec<&Plane> = self.planes.iter().filter(|p| counted_in(p) == key).collect();
            let sum = |list: &[(String, SquareFeet)]| {
                let mut own: Vec<f64> =
                    list.iter().filter(|(r, _)| room_key(r) == key).map(|(_, a)| a.get()).collect();
                own.sort_by(f64::total_cmp); // the order of rows must not show in the last bit
                own.into_iter().sum::<f64>()
            };
            let (earlier, removed) = (sum(&self.earlier), sum(&self.removed));
            let spread = planes
                .iter()
                .map(|p| area(p, |h| h.painted))
                .fold(Mixture::sure(earlier + removed), |sum, one| sum.plus(&one));
            out.push(Room {
                painted: planes.iter().map(|p| p.painted_area()).sum(),
                removed,
                earlier,
                spread,
                demolition: planes.iter().any(|p| p.holes.iter().any(|h| h.painted && h.demolition)),
                window: self.windows.iter().any(|w| room_key(w) == key),
                outside: key == OUTSIDE,
                name: key,
            });
        }
        out
    }
    /// P(the work practices of the lead rule apply to some room) in a house it names.
    pub fn chance(&self, rule: &LeadRule) -> f64 {
        let rooms = self.rooms();
        if self.prohibited || rooms.iter().any(|r| r.demolition || r.window) {
            return 1.0;
        }
        1.0 - rooms.iter().map(|r| 1.0 - r.chance_over(rule)).product::<f64>()
    }
    /// Holes that would take a bay less if they were moved along their plane by at most [`FARTHEST_MOVE`].
    pub fn moves(&self) -> Vec<Move> {
        let mut out = Vec::new();
        for (p, plane) in self.planes.iter().enumerate() {
            for (h, hole) in plane.holes.iter().enumerate() {
                let (rect, grid) = (hole.edges.rect(), &plane.grid);
                let to_left = grid.center(grid.right_of(rect.x1) - 1.0) - rect.x1;
                let to_right = grid.center(grid.left_of(rect.x0) + 1.0) - rect.x0;
                let ways = if -to_left <= to_right { [to_left, to_right] } else { [to_right, to_left] };
                let near = ways.into_iter().filter(|by| libm::fabs(*by) <= FARTHEST_MOVE);
                out.extend(near.filter_map(|by| self.moved(p, h, by)).find(|m| m.saved > HAIR));
            }
        }
        out
    }
    fn moved(&self, plane: usize, hole: usize, by: f64) -> Option<Move> {
        let mut then = self.clone();
        let before = self.planes.get(plane)?.patch_area();
        let there = then.planes.get_mut(plane)?;
        let moved = there.holes.get_mut(hole)?;
        moved.edges = moved.edges.moved_to(moved.edges.rect().x0 + by)?;
        let reach = moved.edges.rect().x1;
        if there.grid.end.is_some_and(|end| reach > end + HAIR) {
            return None;
        }
        let saved = before - there.patch_area();
        Some(Move { plane, hole, by, saved, then })
    }
}

/// All that is outside is counted together.
const OUTSIDE: &str = "outside";

/// The room a plane's painted surface is counted in.
/// A room as spoken: its name, or the outside.
pub(super) fn room_said(name: &str) -> Said {
    if name == OUTSIDE { Phrase("trade-outside").into() } else { name.into() }
}

pub(super) fn counted_in(plane: &Plane) -> String {
    if plane.place.surface == Surface::Outside { OUTSIDE.into() } else { room_key(&plane.place.room) }
}

/// Whole sheets for an area with the allowance for offcuts.
pub fn sheets(area: f64) -> f64 {
    libm::ceil(area * (1.0 + OFFCUT_ALLOWANCE) / SHEET_AREA - HAIR)
}

/// "12.5 ft²".
pub(super) fn square_feet(area: f64) -> Said {
    say!("trade-ft-4", area = show_number(area))
}

/// The word that stands before "the table value".
pub(super) fn word(chance: f64) -> Phrase {
    Standing::of_chance(chance).lies()
}
