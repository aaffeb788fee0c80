//! Random draws, and laws that hold for every list of holes.

extern crate std; // for a lazy catalog; tests only

use alloc::{
    format,
    string::{String, ToString},
    vec,
    vec::Vec,
};
use std::sync::LazyLock;

use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use survey::catalog::Catalog;
use survey::units::Length;

use crate::error::TradeError;
use crate::given::Given;
use crate::measure::SquareFeet;
use crate::openings::grid::patch_area;
use crate::openings::hole::{Edges, Hole, Place, SURFACES, Surface, TRADES};
use crate::openings::lead::{LeadRule, Work};
use crate::openings::plane::Plane;
use crate::openings::rects::{Rect, covered};
use crate::openings::schedule::Schedule;
use crate::openings::spread::area;
use crate::sheet::Sheet;
use crate::testing::English as _;
use crate::tolerance::Reading;
use crate::{find, testing};

/// Read once; the laws ask often.
fn catalog() -> &'static Catalog {
    static CATALOG: LazyLock<Catalog> = LazyLock::new(testing::catalog);
    &CATALOG
}

fn written(word: &str, answers: &[(&str, &str)]) -> Result<Sheet, TradeError> {
    let answers: Vec<(String, String)> =
        answers.iter().map(|(n, t)| (n.to_string(), t.to_string())).collect();
    let calculation = find(word).unwrap();
    (calculation.run)(&Given::read(calculation.fields, &answers)?, catalog())
}

/// 400,000 draws of every reading by `make_openings_mc.py` with numpy.
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/openings_mc.json");

#[test]
fn the_chance_over_an_area_agrees_with_random_draws() {
    let drawn: serde_json::Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    for case in drawn["cases"].as_array().unwrap() {
        let inches = |v: &serde_json::Value| v.as_f64().and_then(Length::from_inches);
        let mut holes = Vec::new();
        for row in case["holes"].as_array().unwrap() {
            let at = |n: usize| Reading { value: inches(&row[n][0]).unwrap(), tolerance: inches(&row[n][1]) };
            let edges = Edges::new(at(0), at(1), at(2), at(3)).unwrap();
            holes.push(Hole {
                first: inches(&case["first"]),
                spacing: inches(&case["spacing"]),
                ..plain(edges)
            });
        }
        let mut plane = Plane::gather(&holes, &[], &[]).unwrap().remove(0);
        plane.grid.end = case["width"].as_f64();
        let got = area(&plane, |_| true);
        let limit = case["limit"].as_f64().unwrap();
        let (over, mean, sigma) = (case["over"].as_f64(), case["mean"].as_f64(), case["sigma"].as_f64());
        let (over, mean, sigma) = (over.unwrap(), mean.unwrap(), sigma.unwrap());
        // Within 4 standard errors of the draws, and 0.001 for what the first order of the heights leaves out.
        let chance = got.chance_over(limit);
        let error = 4.0 * libm::sqrt(over * (1.0 - over) / draws) + 0.001;
        assert!(libm::fabs(chance - over) < error, "{}: {chance} against {over}", case["id"]);
        assert!(
            libm::fabs(got.mean() - mean) < 4.0 * sigma / libm::sqrt(draws) + 0.002,
            "{}: {}",
            case["id"],
            got.mean()
        );
        assert!(
            libm::fabs(got.sigma() - sigma) < 0.01 * sigma,
            "{}: {} against {sigma}",
            case["id"],
            got.sigma()
        );
    }
}

fn plain(edges: Edges) -> Hole {
    let place = Place { room: "kitchen".into(), surface: Surface::Wall, plane: "sink wall".into() };
    Hole { trade: TRADES[0], place, edges, spacing: None, first: None, painted: true, demolition: false }
}

fn sixteenths(range: core::ops::Range<i64>) -> impl Strategy<Value = Reading> {
    (range, prop::option::of(0_i64..64)).prop_map(|(n, tolerance)| Reading {
        value: Length::from_sixty_fourths(n * 4),
        tolerance: tolerance.map(|t| Length::from_sixty_fourths(t * 4)),
    })
}

fn any_edges() -> impl Strategy<Value = Edges> {
    let four = (sixteenths(0..1600), sixteenths(0..1200), sixteenths(4..800), sixteenths(4..800));
    four.prop_map(|(x, y, width, height)| Edges::new(x, y, width, height).unwrap())
}

fn any_holes(most: usize) -> impl Strategy<Value = Vec<Hole>> {
    let one = (any_edges(), select(TRADES), any::<bool>(), any::<bool>());
    let one = one.prop_map(|(edges, trade, painted, demolition)| Hole {
        trade,
        painted,
        demolition,
        ..plain(edges)
    });
    let framing = (prop::option::of(select(vec![12.0, 16.0, 19.2, 24.0])), prop::option::of(0_i64..200));
    (prop::collection::vec(one, 1..most), framing).prop_map(|(mut holes, (spacing, first))| {
        for hole in &mut holes {
            hole.spacing = spacing.and_then(Length::from_inches);
            hole.first = first.map(|n| Length::from_sixty_fourths(n * 16));
        }
        holes
    })
}

fn plane(holes: &[Hole]) -> Plane {
    Plane::gather(holes, &[], &[]).unwrap().remove(0)
}

/// A row as somebody would write it.
fn any_row() -> impl Strategy<Value = String> {
    let words = (
        select(TRADES),
        select(vec!["kitchen", "Kitchen", "bath"]),
        select(SURFACES),
        select(vec!["a", "b"]),
    );
    let numbers = (0_u32..90, 0_u32..60, 1_u32..50, 1_u32..40, select(vec!["", "± 1/2", "± 3"]));
    let said = select(vec!["", "yes", "no"]);
    (words, numbers, said.clone(), said).prop_map(
        |((trade, room, surface, name), (x, y, w, h, t), painted, demolition)| {
            format!(
                "{trade}, {room}, {surface}, {name}, {x} {t}, {y}, {w} {t}, {h}, , , {painted}, {demolition}"
            )
        },
    )
}

proptest! {
    #[test]
    fn a_patch_holds_its_hole_and_ends_on_framing(holes in any_holes(5)) {
        let plane = plane(&holes);
        for (hole, patch) in plane.cuts().iter().zip(plane.patches()) {
            prop_assert!(patch.holds(hole), "{:?} in {:?}", hole, patch);
            prop_assert!(patch.y0 == hole.y0 && patch.y1 == hole.y1);
            for x in [patch.x0, patch.x1] {
                prop_assert!(plane.grid.on_center(x), "{}", x);
            }
            prop_assert!(patch.x1 - patch.x0 < hole.x1 - hole.x0 + 2.0 * plane.grid.spacing);
        }
    }

    #[test]
    fn an_added_hole_never_lowers_an_area_and_a_union_never_exceeds_its_sum(holes in any_holes(7)) {
        let (more, fewer) = (plane(&holes), plane(&holes[..holes.len().max(2) - 1]));
        prop_assert!(more.patch_area() >= fewer.patch_area() - 1e-9);
        prop_assert!(more.hole_area() >= fewer.hole_area() - 1e-9);
        prop_assert!(more.painted_area() >= fewer.painted_area() - 1e-9);
        prop_assert!(more.patch_area() <= more.patch_sum() + 1e-9);
        prop_assert!(more.hole_area() <= more.patch_area() + 1e-9);
        prop_assert!(more.painted_area() <= more.patch_area() + 1e-9);
        let merged: f64 = more.merged().iter().map(|(_, _, area)| area).sum();
        prop_assert!((merged - more.patch_area()).abs() < 1e-9, "patches of different clusters do not overlap");
        let around: f64 = more.merged().iter().map(|(_, r, _)| r.area()).sum::<f64>() / 144.0;
        prop_assert!(around >= more.patch_area() - 1e-9);
    }

    #[test]
    fn a_taller_hole_never_disturbs_less(holes in any_holes(5), more in 0_i64..200) {
        let before = plane(&holes).patch_area();
        let mut taller = holes;
        let r = taller[0].edges.rect();
        let reading = |inches: f64| Reading::plain(Length::from_inches(inches).unwrap());
        let height = r.y1 - r.y0 + more as f64 / 16.0;
        taller[0].edges = Edges::new(reading(r.x0), reading(r.y0), reading(r.x1 - r.x0), reading(height)).unwrap();
        prop_assert!(plane(&taller).patch_area() >= before - 1e-9);
    }

    #[test]
    fn the_swept_area_is_what_counting_squares_gives(
        rects in prop::collection::vec((0_u8..20, 0_u8..20, 0_u8..12, 0_u8..12), 0..9)
    ) {
        let rects: Vec<Rect> =
            rects.iter().map(|r| Rect::at(r.0.into(), r.1.into(), r.2.into(), r.3.into())).collect();
        let mut squares = 0;
        for x in 0..32 {
            for y in 0..32 {
                let middle = Rect::at(f64::from(x) + 0.5, f64::from(y) + 0.5, 0.0, 0.0);
                squares += u32::from(rects.iter().any(|r| r.holds(&middle)));
            }
        }
        prop_assert_eq!(covered(&rects), f64::from(squares));
    }

    #[test]
    fn the_order_of_rows_changes_nothing(
        rows in prop::collection::vec(any_row(), 1..8), planes in 0_usize..3, shift in any::<prop::sample::Index>()
    ) {
        let mut answers: Vec<(String, String)> = rows.iter().map(|r| ("hole".into(), r.clone())).collect();
        answers.push(("year".into(), "1950".into()));
        answers.extend(["bath, 1.1", "bath, 2.2", "hall, 0.7"][..planes].iter().map(|r| ("earlier".into(), (*r).into())));
        let mut turned = answers.clone();
        turned.rotate_left(shift.index(answers.len()));
        turned.reverse();
        let run = |answers: &[(String, String)]| {
            let calculation = find("openings").unwrap();
            (calculation.run)(&Given::read(calculation.fields, answers).unwrap(), catalog())
        };
        let (one, other) = (run(&answers).unwrap(), run(&turned).unwrap());
        prop_assert_eq!(one, other);
    }

    #[test]
    fn a_chance_is_one_and_falls_as_the_value_rises(holes in any_holes(8), limit in 0.0..60.0, more in 0.0..60.0) {
        let spread = area(&plane(&holes), |h| h.painted);
        let (lower, higher) = (spread.chance_over(limit), spread.chance_over(limit + more));
        prop_assert!((0.0..=1.0).contains(&lower) && (0.0..=1.0).contains(&higher));
        prop_assert!(higher <= lower + 1e-12);
        prop_assert!(spread.sigma().is_finite() && spread.mean() >= 0.0);
    }

    #[test]
    fn more_work_never_leaves_the_lead_rule(holes in any_holes(6)) {
        let rule = LeadRule::read(catalog().shelf.book("old-materials").unwrap()).unwrap();
        let fewer = Schedule::new(&holes, &[], &[]).unwrap();
        let mut windows = fewer.clone();
        windows.windows.push("hall".into());
        prop_assert_eq!(windows.chance(&rule), 1.0);
        let mut earlier = fewer.clone();
        earlier.earlier.push(("kitchen".into(), SquareFeet::new(3.0).unwrap()));
        prop_assert!(earlier.chance(&rule) >= fewer.chance(&rule) - 1e-12);
        for shift in fewer.moves() {
            prop_assert!(shift.saved > 0.0 && shift.then.patch_area(|_| true) < fewer.patch_area(|_| true));
        }
    }

    #[test]
    fn more_area_never_takes_work_out_of_the_lead_rule(
        year in 1600_u32..2100, inside in 0.0..30.0, outside in 0.0..60.0, more in 0.0..30.0, demolition in any::<bool>()
    ) {
        let rule = LeadRule::read(catalog().shelf.book("old-materials").unwrap()).unwrap();
        let feet = |x| SquareFeet::new(x).unwrap();
        let work = Work { year, inside: feet(inside), outside: feet(outside), demolition, ..Work::default() };
        for larger in [Work { inside: feet(inside + more), ..work }, Work { outside: feet(outside + more), ..work }] {
            prop_assert!(rule.applies(&larger) || !rule.applies(&work));
        }
        prop_assert!(year < 1978 || !rule.applies(&work));
    }

    #[test]
    fn nothing_written_stops_the_program(
        hole in ".{0,60}", plane in ".{0,40}", year in ".{0,8}", area in any::<f64>(),
        cells in prop::collection::vec("[-0-9 /.±]{0,8}", 8)
    ) {
        let row = format!("plumbing, k, wall, w, {}", cells.join(", "));
        for hole in [&hole, &row] {
            let _ = written("openings", &[("hole", hole), ("plane", &plane), ("year", &year)]);
        }
        let area = format!("{area}");
        let _ = written("lead-rule", &[("year", &year), ("interior-area", &area), ("exterior-tolerance", &area)]);
        let _ = patch_area(area.len() as f64, f64::MAX, 1.0, 16.0);
    }

    #[test]
    fn any_four_finite_numbers_give_an_area_or_an_error(x0 in any::<f64>(), x1 in any::<f64>(), h in any::<f64>(), oc in any::<f64>()) {
        let _ = patch_area(x0, x1, h, oc);
    }

    #[test]
    fn rows_left_out_are_never_needed_by_others(kept in subsequence(vec![0, 1, 2, 3], 1..=4)) {
        let rows = [
            "plumbing, kitchen, wall, sink wall, 3, 14, 10, 24",
            "gas, kitchen, wall, sink wall, 40, 14, 10, 24",
            "air, bath, ceiling, ceiling, 5, 5, 10, 10",
            "look, bath, floor, floor, 5, 5, 10, 10",
        ];
        let answers: Vec<_> = kept.iter().map(|i| ("hole", rows[*i])).collect();
        let sheet = written("openings", &answers).unwrap();
        let words = format!("{} hole", kept.len());
        prop_assert!(sheet.sentence.contains(&words));
        prop_assert!(sheet.caution.contains("Nobody can tell by eye"));
    }
}
