//! Lengths on photographs: against OpenCV, on real pictures of a chessboard, and on drawn views whose truth is known.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "tests; what is measured is told"
)]

use plane::{Camera, Care, Map, Measured, PHONE_FOCAL, Paper, PlaneError, Point, measure};
use proptest::prelude::*;
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng as _;
use serde::Deserialize;
use survey::units::Length;

#[derive(Deserialize)]
struct Vectors {
    maps: Vec<Mapped>,
    boards: Boards,
}

#[derive(Deserialize)]
struct Mapped {
    size: [f64; 2],
    corners: [[f64; 2]; 4],
    points: Vec<[f64; 2]>,
    /// By OpenCV.
    seen: Vec<[f64; 2]>,
    /// By NumPy's solution of the same eight equations.
    solved: Vec<[f64; 2]>,
}

/// Corners of a chessboard's fields in real pictures, as OpenCV found them, row by row.
#[derive(Deserialize)]
struct Boards {
    columns: usize,
    rows: usize,
    width: f64,
    height: f64,
    focal_pixels: f64,
    views: Vec<View>,
}

#[derive(Deserialize)]
struct View {
    /// As in the picture, bent by its wide lens.
    seen: Vec<[f64; 2]>,
    /// The same after OpenCV took the bend of the lens away.
    without_bend: Vec<[f64; 2]>,
}

fn vectors() -> Vectors {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/vectors/plane/opencv.json");
    serde_json::from_str(&std::fs::read_to_string(file).unwrap()).unwrap()
}

fn point([x, y]: [f64; 2]) -> Point {
    Point::new(x, y)
}

#[test]
fn maps_are_those_of_opencv_and_numpy() {
    let vectors = vectors();
    assert_eq!(vectors.maps.len(), 40);
    for one in vectors.maps {
        let map = Map::of_rectangle(one.corners.map(point), one.size[0], one.size[1]).unwrap();
        for ((plane, seen), solved) in one.points.iter().zip(&one.seen).zip(&one.solved) {
            let (plane, seen, solved) = (point(*plane), point(*seen), point(*solved));
            // OpenCV's own solution is good to some ten-thousandths of a pixel.
            assert!(map.seen(plane).unwrap().distance(seen) < 1e-3, "{plane:?}");
            assert!(map.seen(plane).unwrap().distance(solved) < 1e-7, "{plane:?}");
            assert!(map.in_plane(solved).unwrap().distance(plane) < 1e-7, "{solved:?}");
        }
    }
}

/// Shares of lengths within one and two standard deviations, over blocks of fields taken as the paper and far corners
/// taken as the ends.
fn on_boards(boards: &Boards, seen: impl Fn(&View) -> &Vec<[f64; 2]>, care: &Care) -> (usize, f64, f64) {
    let film = 43.266_615_305_567_87;
    let diagonal = boards.width.hypot(boards.height);
    let focal = boards.focal_pixels * film / diagonal;
    let camera = Camera { width: boards.width, height: boards.height, focal };
    // One field is taken to be an inch wide.
    let paper = Paper { width: Length::from_inches(3.0).unwrap(), height: Length::from_inches(2.0).unwrap() };
    let (mut all, mut one, mut two) = (0usize, 0usize, 0usize);
    for view in &boards.views {
        let at = |c: usize, r: usize| point(seen(view)[r * boards.columns + c]);
        for (c, r) in (0..boards.columns - 3).flat_map(|c| (0..boards.rows - 2).map(move |r| (c, r))) {
            let corners = [at(c, r), at(c + 3, r), at(c + 3, r + 2), at(c, r + 2)];
            for (from, to) in [((0, 0), (8, 0)), ((1, 5), (7, 4)), ((4, 0), (4, 5)), ((2, 1), (8, 5))] {
                let truth = (to.0 as f64 - from.0 as f64).hypot(to.1 as f64 - from.1 as f64);
                let ends = [at(from.0, from.1), at(to.0, to.1)];
                let Ok(got) = measure(paper, corners, ends, camera, care) else { continue };
                let off = (got.inches - truth).abs() / got.sigma;
                all += 1;
                one += usize::from(off <= 1.0);
                two += usize::from(off <= 2.0);
            }
        }
    }
    (all, one as f64 / all as f64, two as f64 / all as f64)
}

#[test]
fn real_pictures_keep_to_what_is_claimed() {
    let boards = vectors().boards;
    // Corners found by OpenCV are good to a few tenths of a pixel; the board is flat and printed to size.
    let found = Care { mark: 0.1, paper: 0.001, off_plane: 0.004, lens: 0.0005 };
    let (all, one, two) = on_boards(&boards, |v| &v.without_bend, &found);
    println!("without the bend of the lens: {all} lengths, {one:.3} within σ, {two:.3} within 2σ");
    assert!(all > 1_000 && two > 0.9 && one > 0.5, "{all} {one} {two}");
    // The raw pictures bend by some 15 in 100 at the corner; who says so gets bounds that hold.
    let (all, _, two) = on_boards(&boards, |v| &v.seen, &Care { lens: 0.15, ..found });
    println!("as taken: {all} lengths, {two:.3} within 2σ");
    assert!(all > 500 && two > 0.9, "{all} {two}");
}

/// Numbers for drawn views.
struct Lots(ChaCha8Rng);

impl Lots {
    fn share(&mut self) -> f64 {
        ((self.0.next_u64() >> 11) as f64 + 0.5) / 9_007_199_254_740_992.0
    }
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }
    fn normal(&mut self) -> f64 {
        (-2.0 * self.share().ln()).sqrt() * (core::f64::consts::TAU * self.share()).cos()
    }
}

/// A camera somewhere before a wall, looking about at it.
struct Eye {
    camera: Camera,
    at: [f64; 3],
    axes: [[f64; 3]; 3],
    bend: f64,
}

impl Eye {
    fn drawn(lots: &mut Lots, care: &Care) -> Self {
        let camera = Camera { width: 4032.0, height: 3024.0, focal: lots.between(24.0, 28.0) };
        let at = [lots.between(-25.0, 35.0), lots.between(-25.0, 35.0), -lots.between(35.0, 80.0)];
        let aim = [lots.between(2.0, 10.0), lots.between(2.0, 10.0), 0.0];
        let unit = |v: [f64; 3]| {
            let n = (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]).sqrt();
            v.map(|x| x / n)
        };
        let cross = |a: [f64; 3], b: [f64; 3]| {
            [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
        };
        let ahead = unit([aim[0] - at[0], aim[1] - at[1], aim[2] - at[2]]);
        let roll = lots.between(-0.2, 0.2);
        let right = unit(cross([roll.sin(), roll.cos(), 0.0], ahead));
        let down = cross(ahead, right);
        Self { camera, at, axes: [right, down, ahead], bend: care.lens * lots.normal() }
    }
    /// Where a point is seen; `None` outside the picture.
    fn sees(&self, p: [f64; 3]) -> Option<Point> {
        let d = [p[0] - self.at[0], p[1] - self.at[1], p[2] - self.at[2]];
        let [x, y, z] = self.axes.map(|a| a[0] * d[0] + a[1] * d[1] + a[2] * d[2]);
        let (f, w, h) = (self.camera.focal_pixels(), self.camera.width, self.camera.height);
        let (x, y) = (f * x / z, f * y / z);
        let r = 2.0 * x.hypot(y) / w.hypot(h);
        let out = 1.0 + self.bend * r * r;
        let p = Point::new(w / 2.0 + x * out, h / 2.0 + y * out);
        (z > 1.0 && (0.0..w).contains(&p.x) && (0.0..h).contains(&p.y)).then_some(p)
    }
}

/// One drawn view: the length measured and the true one.
fn drawn(lots: &mut Lots, care: &Care) -> Option<(Result<Measured, PlaneError>, f64)> {
    let eye = Eye::drawn(lots, care);
    let (w, h) = (8.5 + care.paper * lots.normal(), 11.0 + care.paper * lots.normal());
    let mark = |lots: &mut Lots, p: [f64; 3]| {
        let seen = eye.sees(p)?;
        Some(Point::new(seen.x + care.mark * lots.normal(), seen.y + care.mark * lots.normal()))
    };
    let mut corners = [Point::default(); 4];
    for (corner, at) in corners.iter_mut().zip([[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]]) {
        *corner = mark(lots, [at[0], at[1], 0.0])?;
    }
    let end = |lots: &mut Lots| {
        let p = [lots.between(-12.0, 24.0), lots.between(-12.0, 24.0), -care.off_plane * lots.normal()];
        Some((mark(lots, p)?, p))
    };
    let ((a, p), (b, q)) = (end(lots)?, end(lots)?);
    let truth = (p[0] - q[0]).hypot(p[1] - q[1]);
    (truth > 3.0).then(|| {
        // The focal length is taken as a phone's, not known.
        let camera = Camera { focal: PHONE_FOCAL, ..eye.camera };
        (measure(Paper::LETTER, corners, [a, b], camera, care), truth)
    })
}

#[test]
fn two_standard_deviations_hold_in_90_to_99_of_100_drawn_views() {
    for (name, care) in [
        ("as a person marks", Care::default()),
        ("carefully, all in one plane", Care { mark: 1.0, off_plane: 0.02, ..Care::default() }),
        ("at a recess", Care { off_plane: 0.75, ..Care::default() }),
    ] {
        let mut lots = Lots(ChaCha8Rng::seed_from_u64(5));
        let (mut views, mut within, mut refused, mut relative) = (0u32, 0u32, 0u32, 0.0);
        while views < 500 {
            match drawn(&mut lots, &care) {
                Some((Ok(got), truth)) => {
                    views += 1;
                    within += u32::from((got.inches - truth).abs() <= 2.0 * got.sigma);
                    relative += got.sigma / got.inches / 500.0;
                }
                Some((Err(PlaneError::TooUncertain { .. }), _)) => refused += 1,
                Some((Err(other), _)) => panic!("{other}"),
                None => {}
            }
        }
        println!(
            "{name}: {within} of 500 within 2σ, mean σ {:.2} % of the length, {refused} refused",
            100.0 * relative
        );
        assert!((450..=495).contains(&within), "{name}: {within}");
    }
}

const STRAIGHT: Camera = Camera { width: 4000.0, height: 3000.0, focal: PHONE_FOCAL };

/// A wall seen straight on, `scale` pixels an inch, its origin in the middle of the picture.
fn straight(scale: f64, [x, y]: [f64; 2]) -> Point {
    Point::new(2000.0 + scale * x, 1500.0 + scale * y)
}

#[test]
fn off_the_plane_a_length_errs_by_its_share_of_the_distance() {
    // Straight on, one end under the camera: by similar triangles the error is length times offset over distance.
    let scale = 40.0;
    let corners = [[0.0, 0.0], [8.5, 0.0], [8.5, 11.0], [0.0, 11.0]].map(|p| straight(scale, p));
    let ends = [straight(scale, [0.0, 0.0]), straight(scale, [20.0, 0.0])];
    let care = Care { mark: 0.0, paper: 0.0, off_plane: 0.5, lens: 0.0 };
    let got = measure(Paper::LETTER, corners, ends, STRAIGHT, &care).unwrap();
    let distance = STRAIGHT.focal_pixels() / scale;
    assert!((got.inches - 20.0).abs() < 1e-9 && (got.distance - distance).abs() < 1e-6, "{got:?}");
    assert!((got.sigma - 20.0 * 0.5 / distance).abs() < 1e-6, "{got:?} {distance}");
}

#[test]
fn what_cannot_be_measured_is_refused_with_what_to_do() {
    let care = Care::default();
    let ok = [[0.0, 0.0], [8.5, 0.0], [8.5, 11.0], [0.0, 11.0]].map(|p| straight(40.0, p));
    let ends = [straight(40.0, [0.0, 0.0]), straight(40.0, [12.0, 3.0])];
    let refused = |corners: [Point; 4], ends: [Point; 2]| {
        measure(Paper::LETTER, corners, ends, STRAIGHT, &care).unwrap_err()
    };
    let [a, b, c, d] = ok;
    assert_eq!(refused([a, c, b, d], ends), PlaneError::NoOutline);
    assert_eq!(refused([a, b, b, d], ends), PlaneError::NoOutline);
    assert_eq!(refused([a, b, straight(40.0, [17.0, 0.0]), d], ends), PlaneError::NoOutline);
    assert_eq!(refused(ok, [ends[0], ends[0]]), PlaneError::NoLength);
    assert_eq!(refused([Point::new(f64::NAN, 0.0), b, c, d], ends), PlaneError::NotANumber);
    // A sheet a long way off, seen from the side: nothing can be said of what is far from it.
    let small = [[0.0, 0.0], [0.4, 0.02], [0.4, 0.5], [0.0, 0.55]].map(|p| straight(40.0, p));
    assert!(matches!(
        refused(small, [straight(40.0, [-3.0, 0.0]), straight(40.0, [2.0, 1.0])]),
        PlaneError::TooUncertain { .. } | PlaneError::BeyondHorizon | PlaneError::NoOutline
    ));
    let said = PlaneError::TooUncertain { inches: 20.0, give_or_take: 8.0 }.to_string();
    assert!(said.contains("give or take 8.0 in") && said.contains("nearer"), "{said}");
    let horizon = [[0.0, 0.0], [9.0, 0.0], [6.0, 3.0], [3.0, 3.0]].map(|p| straight(40.0, p));
    assert_eq!(
        refused(horizon, [straight(40.0, [4.0, 1.0]), straight(40.0, [4.0, 60.0])]),
        PlaneError::BeyondHorizon
    );
}

#[test]
fn the_tolerance_is_two_standard_deviations_up_to_the_next_sixteenth() {
    let got = Measured { inches: 19.37, sigma: 0.13, distance: 50.0 };
    assert_eq!(got.tolerance(), Length::from_inches(5.0 / 16.0));
    assert_eq!(got.length(), Length::from_inches(19.37));
}

proptest! {
    #[test]
    fn neither_turning_nor_shifting_nor_naming_the_corners_otherwise_changes_a_length(
        turn in 0.0..6.2f64, dx in -300.0..300.0f64, dy in -300.0..300.0f64, lean in -0.2..0.2f64,
    ) {
        // About the middle, so that distance and lens stay what they were.
        let see = |p: [f64; 2], turn: f64, dx: f64, dy: f64| {
            let (x, y) = (30.0 * p[0], 30.0 * p[1]);
            let w = 1.0 + lean * p[0] / 10.0;
            let (x, y) = (x / w, y / w);
            Point::new(2000.0 + dx + x * turn.cos() - y * turn.sin(), 1500.0 + dy + x * turn.sin() + y * turn.cos())
        };
        let corners = [[0.0, 0.0], [8.5, 0.0], [8.5, 11.0], [0.0, 11.0]];
        let ends = [[-3.0, 2.0], [14.0, 6.0]];
        let care = Care { off_plane: 0.0, lens: 0.0, ..Care::default() };
        let of = |turn, dx, dy| {
            measure(Paper::LETTER, corners.map(|p| see(p, turn, dx, dy)), ends.map(|p| see(p, turn, dx, dy)), STRAIGHT, &care)
        };
        let (plain, moved) = (of(0.0, 0.0, 0.0).unwrap(), of(turn, dx, dy).unwrap());
        prop_assert!((plain.inches - 17.0f64.hypot(4.0)).abs() < 1e-6);
        prop_assert!((plain.inches - moved.inches).abs() < 1e-6);
        // The other way round and from another corner: the paper lies on its side.
        let other = [1, 2, 3, 0].map(|k: usize| see(corners[k], 0.0, 0.0, 0.0));
        let ends = ends.map(|p| see(p, 0.0, 0.0, 0.0));
        let named = measure(Paper::LETTER.on_its_side(), other, ends, STRAIGHT, &care).unwrap();
        prop_assert!((named.inches - plain.inches).abs() < 1e-6 && (named.sigma - plain.sigma).abs() < 1e-6);
    }
}
