//! One length measured on a photograph.

use survey::units::Length;

use crate::camera::Camera;
use crate::error::PlaneError;
use crate::map::{Map, Point};

/// Something flat of known size that lies in the plane.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Paper {
    /// From the first corner to the second.
    pub width: Length,
    /// From the second to the third.
    pub height: Length,
}

impl Paper {
    /// Letter paper, 8 1/2 by 11 in (ANSI/ASME Y14.1, size A), upright.
    pub const LETTER: Self =
        Self { width: Length::from_sixty_fourths(544), height: Length::from_sixty_fourths(704) };
    /// A4 paper, 210 by 297 mm (ISO 216), upright.
    pub const A4: Self = Self {
        width: Length::from_eighth_um(210 * Length::PER_MM),
        height: Length::from_eighth_um(297 * Length::PER_MM),
    };
    /// The same lying on its side.
    #[must_use]
    pub fn on_its_side(self) -> Self {
        Self { width: self.height, height: self.width }
    }
}

/// One standard deviation of everything that may be off. The defaults are judgment.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Care {
    /// Of a mark, in each direction, pixels of the picture.
    pub mark: f64,
    /// Of each side of the paper, inches: cut, curled, not quite flat.
    pub paper: f64,
    /// Of each end's distance from the plane of the paper, inches.
    pub off_plane: f64,
    /// Of the distance by which the lens moves a point at the corner of the picture, as a part of the half diagonal.
    pub lens: f64,
}

impl Default for Care {
    fn default() -> Self {
        Self { mark: 3.0, paper: 0.03, off_plane: 0.125, lens: 0.004 }
    }
}

/// A length, with what it may be off.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Measured {
    /// Inches.
    pub inches: f64,
    /// One standard deviation, inches.
    pub sigma: f64,
    /// How far the camera stood from the plane, inches; a check for the one who was there.
    pub distance: f64,
}

impl Measured {
    /// The length, to an eighth of a micrometer.
    pub fn length(&self) -> Option<Length> {
        Length::from_inches(self.inches)
    }
    /// The tolerance it is recorded with: two standard deviations, up to the next sixteenth of an inch.
    pub fn tolerance(&self) -> Option<Length> {
        Length::from_inches(libm::ceil(2.0 * self.sigma * 16.0) / 16.0)
    }
}

/// Two standard deviations may be this part of the length.
const AT_MOST: f64 = 0.25;
/// Sources of error: four corners and two ends in two directions, two sides, two ends off the plane, the lens.
const SOURCES: usize = 17;

/// The marks and sizes that a length hangs on, each moved by an error of its own.
struct Setting {
    corners: [Point; 4],
    ends: [Point; 2],
    size: [f64; 2],
    camera: Camera,
}

impl Setting {
    /// The length when every source of error is what is given, in its own unit.
    fn length(&self, off: &[f64; SOURCES]) -> Result<f64, PlaneError> {
        let camera = &self.camera;
        let moved = |p: Point, k: usize| {
            camera.bent(Point::new(p.x + off[2 * k], p.y + off[2 * k + 1]), off[SOURCES - 1])
        };
        let [a, b, c, d] = self.corners;
        let corners = [moved(a, 0), moved(b, 1), moved(c, 2), moved(d, 3)];
        let map = Map::of_rectangle(corners, self.size[0] + off[12], self.size[1] + off[13])?;
        let (foot, distance) = camera.stood(&map);
        let end = |k: usize| {
            let at = map.in_plane(moved(self.ends[k], 4 + k))?;
            // A point off the plane toward the camera is seen where the line of sight meets the plane.
            let toward = off[14 + k] / distance;
            Ok(Point::new(at.x - (at.x - foot.x) * toward, at.y - (at.y - foot.y) * toward))
        };
        Ok(end(0)?.distance(end(1)?))
    }
}

/// The length between two points of a picture that lie in the plane of a paper, whose corners are marked in order
/// around it; its width is the edge from the first mark to the second.
///
/// # Errors
/// [`PlaneError`]: what is wrong with the marks, and what to do.
pub fn measure(
    paper: Paper,
    corners: [Point; 4],
    ends: [Point; 2],
    camera: Camera,
    care: &Care,
) -> Result<Measured, PlaneError> {
    let of_camera = [camera.width, camera.height, camera.focal];
    let cares = [care.mark, care.paper, care.off_plane, care.lens];
    let positive = of_camera.iter().all(|x| x.is_finite() && *x > 0.0);
    if !positive || cares.iter().any(|x| !x.is_finite() || *x < 0.0) || ends.iter().any(|e| !e.is_finite()) {
        return Err(PlaneError::NotANumber);
    }
    let size = [paper.width.inches(), paper.height.inches()];
    let setting = Setting { corners, ends, size, camera };
    let none = [0.0; SOURCES];
    let inches = setting.length(&none)?;
    if inches <= 0.0 {
        return Err(PlaneError::NoLength);
    }
    let sigma_of = |k: usize| match k {
        0..12 => care.mark,
        12 | 13 => care.paper,
        14 | 15 => care.off_plane,
        _ => care.lens,
    };
    let mut variance = 0.0;
    for k in (0..SOURCES).filter(|k| sigma_of(*k) > 0.0) {
        let one = |by: f64| {
            let mut off = none;
            off[k] = by * sigma_of(k);
            setting.length(&off)
        };
        // By how far one standard deviation either way moves the length.
        let moves = (one(1.0)? - one(-1.0)?) / 2.0;
        variance += moves * moves;
    }
    let sigma = libm::sqrt(variance);
    let (_, distance) = camera.stood(&Map::of_rectangle(corners, size[0], size[1])?);
    match 2.0 * sigma <= AT_MOST * inches {
        true => Ok(Measured { inches, sigma, distance }),
        false => Err(PlaneError::TooUncertain { inches, give_or_take: 2.0 * sigma }),
    }
}
