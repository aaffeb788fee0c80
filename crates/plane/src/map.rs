//! The projective map between a rectangle in a plane and its picture.
//!
//! Unit square to quadrilateral in closed form, after P. S. Heckbert, "Fundamentals of Texture Mapping and Image
//! Warping", University of California, Berkeley, 1989, section 2.2.3; its inverse is the adjugate.

use crate::error::PlaneError;

/// A point: in the picture in pixels from the top left, x to the right, y down; in the plane in inches from the first
/// corner, x along the first edge.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// A point.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
    /// Distance to another point.
    pub fn distance(self, other: Self) -> f64 {
        libm::hypot(self.x - other.x, self.y - other.y)
    }
    pub(crate) fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}

/// A projective map of the plane to the picture, row by row; the last number is that of the third row and column.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Map(pub [[f64; 3]; 3]);

/// Twice the area of a triangle below which, as a part of the square of the longest side, three corners lie on a line.
const FLAT: f64 = 1e-6;

impl Map {
    /// The map of a rectangle, `width` by `height`, to its corners in the picture, in order around it; the edge from
    /// the first to the second corner is the width.
    ///
    /// # Errors
    /// [`PlaneError::NoOutline`], [`PlaneError::NotANumber`].
    pub fn of_rectangle(corners: [Point; 4], width: f64, height: f64) -> Result<Self, PlaneError> {
        let sizes = [width, height];
        if corners.iter().any(|c| !c.is_finite()) || sizes.iter().any(|s| !s.is_finite() || *s <= 0.0) {
            return Err(PlaneError::NotANumber);
        }
        is_outline(&corners)?;
        let [a, b, c, d] = corners;
        let (dx1, dx2, sx) = (b.x - c.x, d.x - c.x, a.x - b.x + c.x - d.x);
        let (dy1, dy2, sy) = (b.y - c.y, d.y - c.y, a.y - b.y + c.y - d.y);
        let area = dx1 * dy2 - dx2 * dy1;
        let (g, h) = ((sx * dy2 - dx2 * sy) / area, (dx1 * sy - sx * dy1) / area);
        let unit = [
            [b.x - a.x + g * b.x, d.x - a.x + h * d.x, a.x],
            [b.y - a.y + g * b.y, d.y - a.y + h * d.y, a.y],
            [g, h, 1.0],
        ];
        Ok(Self(unit.map(|[u, v, w]| [u / width, v / height, w])))
    }

    /// Where a point of the plane is seen; none beyond the horizon.
    pub fn seen(&self, p: Point) -> Option<Point> {
        let [x, y, w] = self.0.map(|[u, v, one]| u * p.x + v * p.y + one);
        (w > 0.0).then(|| Point::new(x / w, y / w))
    }

    /// The point of the plane that is seen there.
    ///
    /// # Errors
    /// [`PlaneError::BeyondHorizon`].
    pub fn in_plane(&self, p: Point) -> Result<Point, PlaneError> {
        let [[a, b, c], [d, e, f], [g, h, i]] = self.0;
        let x = (e * i - f * h) * p.x + (c * h - b * i) * p.y + (b * f - c * e);
        let y = (f * g - d * i) * p.x + (a * i - c * g) * p.y + (c * d - a * f);
        let w = (d * h - e * g) * p.x + (b * g - a * h) * p.y + (a * e - b * d);
        let found = Point::new(x / w, y / w);
        // In front of the camera the map's own last coordinate is positive.
        match found.is_finite() && g * found.x + h * found.y + i > 0.0 {
            true => Ok(found),
            false => Err(PlaneError::BeyondHorizon),
        }
    }
}

/// Four corners in order around a convex outline, either way.
fn is_outline(corners: &[Point; 4]) -> Result<(), PlaneError> {
    let longest =
        corners.iter().flat_map(|a| corners.iter().map(|b| a.distance(*b))).fold(0.0f64, libm::fmax);
    let turn = |k: usize| {
        let [a, b, c] = [corners[k], corners[(k + 1) % 4], corners[(k + 2) % 4]];
        (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x)
    };
    let turns = [turn(0), turn(1), turn(2), turn(3)];
    let least = FLAT * longest * longest;
    match turns.iter().all(|t| *t > least) || turns.iter().all(|t| *t < -least) {
        true => Ok(()),
        false => Err(PlaneError::NoOutline),
    }
}
