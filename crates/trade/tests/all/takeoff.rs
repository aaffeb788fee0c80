//! Takeoff: exact sums, one rounding, whole sheets; sums worked by hand and laws that hold for every part.

use crate::english::{English as _, EnglishList as _};
use std::sync::LazyLock;

use proptest::prelude::*;
use survey::catalog::{Catalog, builtin};
use survey::units::Length;
use trade::given::Given;
use trade::takeoff::{FOOT, METER, Part, Shape, Total, sigma};
use trade::tape::{cubic_meters, cubic_yards, decimal, square_meters, whole_ones};
use trade::tolerance::Reading;
use trade::{Sheet, Standing, find};

/// The catalog that ships.
static CATALOG: LazyLock<Catalog> = LazyLock::new(|| builtin().unwrap());

fn ask(answers: &[(&str, &str)]) -> Sheet {
    let calculation = find("takeoff").unwrap();
    let answers: Vec<_> = answers.iter().map(|(n, t)| ((*n).to_owned(), (*t).to_owned())).collect();
    (calculation.run)(&Given::read(calculation.fields, &answers).unwrap(), &CATALOG).unwrap()
}

fn line(sheet: &Sheet, label: &str) -> &'static str {
    sheet
        .lines
        .iter()
        .find(|l| l.label.read() == label)
        .unwrap_or_else(|| panic!("{label}: {:?}", sheet.lines))
        .text
        .read()
}

#[test]
fn sums_are_the_ones_worked_by_hand() {
    // own examples: 12 × 8 × 2 + 10-1/2 × 8 = 276 ft²; 0.09290304 m² a ft² (NIST SP 811, Appendix B)
    let sheet = ask(&[
        ("part", "area, 12', 8', , 2"),
        ("part", "area, 10' 6\", 8'"),
        ("part", "length, 12' 6 1/2\", , , 3"),
        ("part", "volume, 12', 10', 4\""),
    ]);
    assert_eq!(sheet.standing, Standing::Quantity);
    assert_eq!(line(&sheet, "Sum of areas"), "276 ft² (25.64 m²)");
    assert_eq!(line(&sheet, "Sum of lengths"), "37'-7 1/2\" (11.468 m)");
    assert_eq!(line(&sheet, "Sum of volumes"), "1.48 yd³ (40 ft³, 1.133 m³)");
    assert_eq!(line(&sheet, "Part 1, area"), "12'-0\" × 8'-0\" × 2 = 192 ft² (17.84 m²)");
    assert!(sheet.sentence.starts_with("Running length 37'-7 1/2\"") && sheet.sigma.is_none());
}

#[test]
fn waste_and_whole_sheets_come_last_and_an_exact_fit_takes_no_more() {
    let sheets = [("sheet-width", "4'"), ("sheet-length", "8'")];
    let of = |part: &'static str, more: &[(&'static str, &'static str)]| {
        let mut answers = vec![("part", part)];
        answers.extend(sheets);
        answers.extend(more);
        ask(&answers)
    };
    assert!(line(&of("area, 32', 8'", &[]), "Sheets, by area").ends_with("rounded up: 8"));
    assert!(line(&of("area, 32' 1/16\", 8'", &[]), "Sheets, by area").ends_with("rounded up: 9"));
    // 256 ft² + 10 % = 281.6 ft²; ÷ 32 = 8.8; ÷ 19.35 = 14.55
    let waste = of("area, 32', 8'", &[("waste", "10"), ("box-covers", "19.35")]);
    assert_eq!(line(&waste, "Area with waste"), "+ 10 % = 281.6 ft² (26.16 m²)");
    assert!(
        line(&waste, "Sheets, by area").ends_with("rounded up: 9")
            && line(&waste, "Boxes").ends_with("rounded up: 15")
    );
    let sticks = ask(&[("part", "length, 24'"), ("stick", "8"), ("sheet-width", "4'")]);
    assert!(line(&sticks, "Sticks, pieces joined end to end").ends_with("rounded up: 3"));
    assert!(sticks.notes.iter().any(|n| n.contains("both their width and their length")));
    let bags = ask(&[("part", "volume, 10', 10', 4\""), ("bag-holds", "0.6")]);
    assert!(line(&bags, "Bags").ends_with("rounded up: 56")); // 33-1/3 ÷ 0.6 = 55.6
}

#[test]
fn thirty_seconds_are_not_lost_by_rounding_each() {
    // 3 × 1/32 is 3/32, which prints 1/8; three prints of 1/16 would make 3/16
    let sheet = ask(&[("part", "length, 1/32, , , 3")]);
    assert!(line(&sheet, "Sum of lengths").starts_with("0'-1/8\""));
}

#[test]
fn dimensions_that_do_not_fit_the_kind_cannot_be_summed() {
    for part in ["area, 12'", "length, 12', 8'", "volume, 1, 1", "length, 3', , , 2.5"] {
        let sheet = ask(&[("part", "length, 4'"), ("part", part)]);
        assert_eq!(sheet.standing, Standing::CannotSay, "{part}");
        assert!(sheet.missing[0].starts_with("part 2"), "{:?}", sheet.missing);
    }
    let none = ask(&[]);
    assert_eq!((none.standing, none.missing.read_all()), (Standing::CannotSay, vec!["part"]));
}

/// 400 000 draws of every side by `make_takeoff_mc.py` with numpy.
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/takeoff_mc.json");

#[test]
fn the_spread_of_a_sum_agrees_with_random_draws() {
    let drawn: serde_json::Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    for case in drawn["cases"].as_array().unwrap() {
        let shape = Shape::ALL.into_iter().find(|s| case["kind"] == s.word()).unwrap();
        let parts: Vec<Part> = case["parts"]
            .as_array()
            .unwrap()
            .iter()
            .map(|part| {
                let number = |v: &serde_json::Value| v.as_f64().unwrap();
                let length = |v: f64| Length::from_inches(v).unwrap();
                let side = |pair: &serde_json::Value| Reading {
                    value: length(number(&pair[0])),
                    tolerance: Some(length(2.0 * number(&pair[1]))),
                };
                let sides = part["sides"].as_array().unwrap().iter().map(side).collect();
                Part::new(shape, sides, part["times"].as_u64().unwrap() as u32).unwrap()
            })
            .collect();
        let share = case["sigma"].as_f64().unwrap();
        // z under 4 of the error of a standard deviation, and a thousandth for what is not first order
        let bound = 4.0 / (2.0 * draws).sqrt() + 0.001;
        let got = sigma(&parts, shape);
        assert!((got / share - 1.0).abs() < bound, "{case}: {got}");
    }
}

fn side() -> impl Strategy<Value = Length> {
    prop_oneof![
        (0_i64..230_400).prop_map(Length::from_sixty_fourths),
        (0_i64..90_000).prop_map(|mm| Length::from_eighth_um(mm * Length::PER_MM)),
        (0_i64..700_000_000).prop_map(Length::from_eighth_um),
    ]
}

fn part() -> impl Strategy<Value = Part> {
    (0_usize..3, prop::array::uniform3(side()), 1_u32..=1000).prop_map(|(shape, sides, times)| {
        let shape = Shape::ALL[shape];
        let sides = sides.into_iter().take(shape.dimensions() as usize).map(Reading::plain).collect();
        Part::new(shape, sides, times).unwrap()
    })
}

proptest! {
    #[test]
    fn the_order_of_parts_does_not_move_a_sum(parts in prop::collection::vec(part(), 1..20)) {
        let mut turned = parts.clone();
        turned.reverse();
        for shape in Shape::ALL {
            prop_assert_eq!(Total::of(&parts, shape).unwrap(), Total::of(&turned, shape).unwrap());
        }
    }

    #[test]
    fn a_part_more_never_lowers_a_sum_or_a_count(parts in prop::collection::vec(part(), 1..10), waste in 0.0..100.0) {
        for shape in Shape::ALL {
            let (Some(all), Some(less)) = (
                Total::of(&parts, shape).unwrap(),
                Total::of(&parts[..parts.len() - 1], shape).unwrap(),
            ) else { continue };
            let each = FOOT.pow(shape.dimensions());
            prop_assert!(all.whole_ones(each) >= less.whole_ones(each));
            prop_assert!(all.wasting(waste).unwrap().whole_ones(each) >= all.whole_ones(each));
            let words = all.wasting(waste).unwrap().words().unwrap();
            prop_assert!(!words.is_empty());
        }
    }

    #[test]
    fn feet_and_meters_of_one_sum_agree(part in part()) {
        let shape = [Shape::Length, Shape::Area, Shape::Volume].into_iter()
            .find(|s| Total::of(std::slice::from_ref(&part), *s).unwrap().is_some()).unwrap();
        let total = Total::of(&[part], shape).unwrap().unwrap();
        let plain = |text: String| text.replace(',', "").parse::<f64>().unwrap();
        let (feet, meters) = (plain(total.print(FOOT, 9).unwrap()), plain(total.print(METER, 9).unwrap()));
        let turned = match shape {
            Shape::Length => feet * 0.3048,
            Shape::Area => square_meters(feet),
            Shape::Volume => cubic_meters(feet),
        };
        prop_assert!((turned - meters).abs() <= 1e-9 * meters.max(1.0) + 2e-9, "{turned} {meters}");
        if shape == Shape::Volume {
            let yards = plain(total.print(3 * FOOT, 9).unwrap());
            prop_assert!((cubic_yards(feet) - yards).abs() <= 1e-9 * yards.max(1.0) + 2e-9);
        }
    }

    #[test]
    fn no_fraction_panics(top in any::<i128>(), bottom in any::<i128>(), places in any::<u32>(), x in any::<f64>()) {
        let _ = (decimal(top, bottom, places), whole_ones(top, bottom), square_meters(x), cubic_meters(x));
        let total = Total::of(&[Part::new(Shape::Length, vec![Reading::plain(Length::ZERO)], 1).unwrap()], Shape::Length);
        let _ = total.unwrap().unwrap().wasting(x);
    }

    #[test]
    fn every_readable_takeoff_has_a_sheet(
        kind in 0_usize..3, sides in prop::array::uniform3(prop::option::of(0.0_f64..3600.0)), times in 1_u32..1001,
        waste in prop::option::of(0.0_f64..100.0), covers in prop::option::of(0.1_f64..1000.0)
    ) {
        let cell = |side: Option<f64>| side.map(|s| format!("{s:.3} ± 1/8")).unwrap_or_default();
        let first = cell(sides[0].or(Some(1.0)));
        let row = format!("{}, {first}, {}, {}, {times}", Shape::ALL[kind].word(), cell(sides[1]), cell(sides[2]));
        let mut answers = vec![("part", row)];
        answers.extend(waste.map(|w| ("waste", format!("{w:.4}"))));
        answers.extend(covers.map(|c| ("box-covers", format!("{c:.4}"))));
        let answers: Vec<_> = answers.iter().map(|(n, t)| (*n, t.as_str())).collect();
        let sheet = ask(&answers);
        prop_assert!(matches!(sheet.standing, Standing::Quantity | Standing::CannotSay));
        prop_assert_eq!(sheet.standing == Standing::Quantity, sheet.sigma.is_some());
    }
}
