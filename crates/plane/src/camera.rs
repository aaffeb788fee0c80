//! Where the camera stood, as far as the map of a plane tells it.

use crate::map::{Map, Point};

/// Focal length of a phone's or tablet's main camera where the picture does not say it, as the focal length that gives
/// the same view on 35 mm film, mm. Common practice, no source: 24 to 28.
pub const PHONE_FOCAL: f64 = 26.0;
/// Diagonal of a 35 mm picture, 36 by 24 mm.
const FILM_DIAGONAL: f64 = 43.266_615_305_567_87;

/// The picture and the lens it was taken with.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Camera {
    /// Width as shown, pixels.
    pub width: f64,
    /// Height as shown, pixels.
    pub height: f64,
    /// Focal length as on 35 mm film, mm.
    pub focal: f64,
}

impl Camera {
    pub(crate) fn middle(&self) -> Point {
        Point::new(self.width / 2.0, self.height / 2.0)
    }
    pub(crate) fn diagonal(&self) -> f64 {
        libm::hypot(self.width, self.height)
    }
    /// Focal length in pixels.
    pub fn focal_pixels(&self) -> f64 {
        self.focal * self.diagonal() / FILM_DIAGONAL
    }

    /// Where the camera stood before the plane: the foot of its distance, in the plane, and the distance, inches.
    /// The map is the lens's matrix times two directions of the plane and its origin, up to a factor (any textbook of
    /// multiple view geometry); the two directions should have one length, of which the mean is taken.
    pub(crate) fn stood(&self, map: &Map) -> (Point, f64) {
        let (f, middle) = (self.focal_pixels(), self.middle());
        let column = |k: usize| {
            let [x, y, w] = [map.0[0][k], map.0[1][k], map.0[2][k]];
            [(x - middle.x * w) / f, (y - middle.y * w) / f, w]
        };
        let [u, v, origin] = [column(0), column(1), column(2)];
        let scale = (norm(u) + norm(v)) / 2.0;
        let [u, v, origin] = [u, v, origin].map(|c| c.map(|x| x / scale));
        let out = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
        (Point::new(-dot(u, origin), -dot(v, origin)), libm::fabs(dot(out, origin)))
    }

    /// A point of the picture moved as a lens would: outward by `k` of its distance from the middle at the corner of
    /// the picture, less inside by the square of the distance.
    pub(crate) fn bent(&self, p: Point, k: f64) -> Point {
        let middle = self.middle();
        let r = 2.0 * p.distance(middle) / self.diagonal();
        let out = 1.0 + k * r * r;
        Point::new(middle.x + (p.x - middle.x) * out, middle.y + (p.y - middle.y) * out)
    }
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn norm(a: [f64; 3]) -> f64 {
    libm::sqrt(dot(a, a))
}
