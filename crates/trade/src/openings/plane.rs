//! One plane with its holes, patches, finishing and corner strips.
//!
//! A plane of finishing reaches to the nearest corner or break; a texture is done over the full plane (common
//! practice, no source).

use alloc::{format, string::String, vec, vec::Vec};

use survey::{Phrase, Said, say};

use crate::error::TradeError;
use crate::given::choice;
use crate::openings::grid::{Grid, PER_FOOT};
use crate::openings::hole::{Break, Hole, Place, PlaneSize, SPACING_RANGE, Surface};
use crate::openings::rects::{HAIR, Rect, apart, clusters, covered};

/// Framing spacing taken when nobody said, inches.
pub const USUAL_SPACING: f64 = 16.0;

/// A plane with holes.
#[derive(Clone, PartialEq, Debug)]
pub struct Plane {
    /// Where it is.
    pub place: Place,
    /// Its framing.
    pub grid: Grid,
    /// Whether somebody said the spacing.
    pub spacing_said: bool,
    /// Width and height in inches, where they are known.
    pub size: Option<[f64; 2]>,
    /// Whether it is textured.
    pub texture: bool,
    /// Breaks of the finish, inches, left to right.
    pub breaks: Vec<f64>,
    /// Holes, left to right, low to high.
    pub holes: Vec<Hole>,
}

/// How much finishing a plane wants.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Finishing {
    /// Square feet.
    pub area: f64,
    /// Whether it is the full plane.
    pub full: bool,
}

impl Plane {
    /// Gathers the planes of a list of holes, in order of room, surface and name.
    ///
    /// # Errors
    /// Rows of one plane that contradict each other, a size or break for a plane without a hole, a plane given
    /// twice, a hole that does not fit its plane.
    pub fn gather(holes: &[Hole], sizes: &[PlaneSize], breaks: &[Break]) -> Result<Vec<Self>, TradeError> {
        let mut planes: Vec<Self> = Vec::new();
        for hole in holes {
            match planes.iter_mut().find(|p| p.place.key() == hole.place.key()) {
                Some(plane) => plane.holes.push(hole.clone()),
                None => planes.push(Self::holding(hole)),
            }
        }
        let missing =
            |place: &Place| clash(place, Phrase("trade-has-no-hole"), Phrase("trade-check-how-room-surface"));
        for size in sizes {
            let plane = planes.iter_mut().find(|p| p.place.key() == size.place.key());
            let plane = plane.ok_or_else(|| missing(&size.place))?;
            if plane.size.is_some() {
                return Err(clash(&size.place, Phrase("trade-there-twice"), Phrase("trade-give-size-once")));
            }
            plane.size = Some([size.width.inches(), size.height.inches()]);
            plane.texture = size.texture;
        }
        for mark in breaks {
            let plane = planes.iter_mut().find(|p| p.place.key() == mark.place.key());
            plane.ok_or_else(|| missing(&mark.place))?.breaks.push(mark.at.inches());
        }
        for plane in &mut planes {
            plane.settle()?;
        }
        planes.sort_by_key(|p| p.place.key());
        Ok(planes)
    }
    fn holding(hole: &Hole) -> Self {
        Self {
            place: hole.place.clone(),
            grid: Grid::from_center(USUAL_SPACING),
            spacing_said: false,
            size: None,
            texture: false,
            breaks: Vec::new(),
            holes: vec![hole.clone()],
        }
    }
    /// Order, framing, and whether everything fits.
    fn settle(&mut self) -> Result<(), TradeError> {
        let order = |h: &Hole| (h.edges.rect(), h.edges.sigmas());
        self.holes.sort_by(|a, b| {
            let ((a_rect, a_sigmas), (b_rect, b_sigmas)) = (order(a), order(b));
            let four = |r: Rect| [r.x0, r.y0, r.x1, r.y1];
            let pairs = four(a_rect).into_iter().zip(four(b_rect)).chain(a_sigmas.into_iter().zip(b_sigmas));
            let by_size = pairs.map(|(a, b)| a.total_cmp(&b)).find(|o| o.is_ne());
            let word = |h: &Hole| (h.trade, h.painted, h.demolition);
            by_size.unwrap_or_else(|| word(a).cmp(&word(b)))
        });
        self.breaks.sort_by(f64::total_cmp);
        if let Some(place) = self.holes.iter().map(|h| &h.place).min() {
            self.place = place.clone(); // one spelling, whatever the order of the rows
        }
        let spacing = one(self.holes.iter().map(|h| h.spacing));
        let first = one(self.holes.iter().map(|h| h.first));
        let (Ok(spacing), Ok(first)) = (spacing, first) else {
            let mend = Phrase("trade-give-one-spacing-one");
            return Err(clash(&self.place, Phrase("trade-has-rows-different-framing"), mend));
        };
        self.spacing_said = spacing.is_some();
        self.grid.spacing = spacing.map_or(USUAL_SPACING, |s| s.inches());
        self.grid.first = first.map(|f| f.inches());
        let [low, high] = SPACING_RANGE;
        if !(low..=high).contains(&self.grid.spacing) {
            let what = Phrase("trade-framing-spacing");
            return Err(TradeError::OutOfRange { what, value: self.grid.spacing, low, high, unit: "in" });
        }
        let Some([width, height]) = self.size else { return Ok(()) };
        if self.grid.first.is_some() {
            self.grid.end = Some(width);
        }
        for hole in self.holes.iter().map(|h| h.edges.rect()) {
            let reach = if self.grid.first.is_some() { hole.x1 } else { hole.x1 - hole.x0 };
            if reach > width + HAIR || hole.y1 > height + HAIR {
                let mend = Phrase("trade-check-size-plane-where");
                return Err(clash(&self.place, Phrase("trade-smaller-than-hole-reaches"), mend));
            }
        }
        Ok(())
    }
    /// Holes as rectangles.
    pub fn cuts(&self) -> Vec<Rect> {
        self.holes.iter().map(|h| h.edges.rect()).collect()
    }
    /// The patch over each hole.
    pub fn patches(&self) -> Vec<Rect> {
        self.cuts().iter().map(|r| self.grid.extend(r)).collect()
    }
    /// Square feet of wall taken by the holes, overlaps once.
    pub fn hole_area(&self) -> f64 {
        covered(&self.cuts()) / PER_FOOT
    }
    /// Square feet of patches, overlaps once.
    pub fn patch_area(&self) -> f64 {
        covered(&self.patches()) / PER_FOOT
    }
    /// Square feet of patches, each by itself.
    pub fn patch_sum(&self) -> f64 {
        self.patches().iter().map(Rect::area).sum::<f64>() / PER_FOOT
    }
    /// Square feet of painted surface cut out: patches over painted holes, overlaps once.
    pub fn painted_area(&self) -> f64 {
        let painted = self.holes.iter().filter(|h| h.painted);
        let patches: Vec<Rect> = painted.map(|h| self.grid.extend(&h.edges.rect())).collect();
        covered(&patches) / PER_FOOT
    }
    /// Patches that hang together: which holes each holds, the rectangle around it, and its square feet.
    pub fn merged(&self) -> Vec<(Vec<usize>, Rect, f64)> {
        let patches = self.patches();
        let mut out = Vec::new();
        for members in clusters(&patches) {
            let own: Vec<Rect> = members.iter().filter_map(|i| patches.get(*i).copied()).collect();
            if let Some(around) = own.iter().copied().reduce(|a, b| a.around(&b)) {
                out.push((members, around, covered(&own) / PER_FOOT));
            }
        }
        out
    }
    /// Finishing to the nearest corner or break, or over the full plane; none without the plane's size. Breaks count
    /// only where x is measured from the plane's end, for else the corners have no place.
    pub fn finishing(&self) -> Option<Finishing> {
        let [width, height] = self.size?;
        let whole = Finishing { area: width * height / PER_FOOT, full: true };
        if self.texture || self.grid.first.is_none() {
            return Some(whole);
        }
        let mut ends = vec![0.0];
        ends.extend(self.breaks.iter().copied().filter(|b| *b > HAIR && *b < width - HAIR));
        ends.push(width);
        let patches = self.patches();
        let touched = |a: f64, b: f64| patches.iter().any(|p| p.x0 < b - HAIR && p.x1 > a + HAIR);
        let pairs = ends.iter().zip(ends.iter().skip(1));
        let wide: f64 = pairs.filter(|(a, b)| touched(**a, **b)).map(|(a, b)| b - a).sum();
        let full = wide >= width - HAIR;
        Some(Finishing { area: wide * height / PER_FOOT, full })
    }
    /// Feet of corner where a patch ends in one, so that tape or bead is done anew: upright corners and the ceiling
    /// line of a wall, all four edges of a ceiling. None where the corners have no place.
    pub fn corner_strips(&self) -> Option<f64> {
        let [width, height] = self.size?;
        self.grid.first?;
        let (sides, top, bottom) = match self.place.surface {
            Surface::Wall => (true, true, false),
            Surface::Ceiling => (true, true, true),
            Surface::Floor | Surface::Outside => return None,
        };
        let mut inches = 0.0;
        for piece in apart(&self.patches()) {
            let (wide, high) = (piece.x1 - piece.x0, piece.y1 - piece.y0);
            for (there, length) in [
                (sides && piece.x0 <= HAIR, high),
                (sides && piece.x1 >= width - HAIR, high),
                (top && piece.y1 >= height - HAIR, wide),
                (bottom && piece.y0 <= HAIR, wide),
            ] {
                inches += if there { length } else { 0.0 };
            }
        }
        Some(inches / 12.0)
    }
    /// "kitchen, sink wall"; what kind of surface it is follows where its name does not say so.
    pub fn name(&self) -> Said {
        let Place { room, surface, plane } = &self.place;
        let said = plane.to_lowercase().contains(surface.word());
        let name = format!("{room}, {plane}");
        if said { name.into() } else { say!("trade-name-at", name = name, depth = choice(surface.word())) }
    }
}

/// The one value that was said; an error if two differ.
fn one<T: PartialEq + Copy>(said: impl Iterator<Item = Option<T>>) -> Result<Option<T>, ()> {
    let mut found = None;
    for value in said.flatten() {
        match found {
            Some(before) if before != value => return Err(()),
            _ => found = Some(value),
        }
    }
    Ok(found)
}

fn clash(place: &Place, what: Phrase, mend: Phrase) -> TradeError {
    let short = |text: &str| text.chars().take(60).collect::<String>();
    TradeError::Clash {
        what: Said::between(
            " ",
            [format!("{}, {}", short(&place.room), short(&place.plane)).into(), what.into()],
        ),
        mend,
    }
}
