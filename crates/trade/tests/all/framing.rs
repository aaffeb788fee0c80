//! Laws of boring and notching, and the chances against random draws.

use crate::english::{English as _, EnglishList as _};
use proptest::prelude::*;
use serde_json::Value;
use survey::catalog::Book;
use survey::units::Length;
use trade::framing::joist_hole::{self, Cut, JoistPlan};
use trade::framing::lumber::{Member, NAMES};
use trade::framing::pipe::Pipe;
use trade::framing::stud_hole::{self, StudPlan};
use trade::framing::{joist, nail_plate, pipe, plate_cut, stud};
use trade::given::{Given, Kind};
use trade::tolerance::Reading;
use trade::{Standing, find};

use crate::support::{CATALOG, answer, reading};

fn book() -> &'static Book {
    CATALOG.shelf.book("irc-2012-framing").unwrap()
}

/// 400 000 draws each by `make_bore_mc.py` with numpy.
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/bore_mc.json");

#[test]
fn the_chance_agrees_with_random_draws() {
    let drawn: Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    let cases = drawn["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 8);
    for case in cases {
        let member = Member::measured(reading(&case["depth"])).unwrap();
        let pipe = Pipe::measured(reading(&case["pipe"])).unwrap();
        let clearance = reading(&case["clearance"]);
        let center = case["center"].as_array().map(|_| reading(&case["center"]));
        let kind = case["kind"].as_str().unwrap();
        let sheet = if kind == "joist" {
            let mut plan = JoistPlan::new(member, pipe, clearance, Cut::Hole).unwrap();
            if let Some(center) = center {
                plan = plan.centered_at(center).unwrap();
            }
            joist_hole::judge(&plan, &CATALOG.shelf).unwrap()
        } else {
            let mut plan = StudPlan::new(member, pipe, clearance).unwrap();
            if let Some(center) = center {
                plan = plan.centered_at(center).unwrap();
            }
            plan.bearing = Some(kind != "stud-not-bearing");
            plan.doubled = kind == "stud-doubled";
            stud_hole::judge(&plan, &CATALOG.shelf).unwrap()
        };
        let (p, share) = (sheet.chance_beyond.unwrap(), case["beyond"].as_f64().unwrap());
        let z = (p - share) / (share * (1.0 - share) / draws).sqrt();
        // Sampling error up to four σ, and 0.0005 for the grid that the formula sums over.
        assert!(z.abs() < 4.0 || (p - share).abs() < 5e-4, "{}: {p} against {share}, z {z}", case["id"]);
    }
}

#[test]
fn one_and_a_half_inch_drain_across_a_bearing_2x4_lists_what_would_help() {
    // R602.6 by hand: 40 % × 3-1/2 = 1.4 < 1.9; doubled or not bearing 2.1; 2x6 2.2; up the bay 1.9 < 3-1/2
    let base = [("lumber", "2x4"), ("material", "PVC/ABS DWV"), ("size", "1-1/2"), ("clearance", "0")];
    let two = [&base[..], &[("crossed", "2")]].concat();
    let sheet = answer("stud-hole", &two);
    assert_eq!(sheet.standing, Standing::Beyond);
    assert!(sheet.assumed.iter().any(|a| a.item.read() == "bearing"), "{:?}", sheet.assumed);
    for part in ["up the stud bay", "Double each", "whether the wall bears", "of 2x6"] {
        assert!(
            sheet.changes.iter().any(|c| c.text.contains(part) && c.enough),
            "{part}: {:?}",
            sheet.changes
        );
    }
    // Three in a row are one too many to double.
    let three = [&base[..], &[("crossed", "3")]].concat();
    let sheet = answer("stud-hole", &three);
    assert!(sheet.changes.iter().any(|c| c.text.starts_with("Double") && !c.enough));
    let doubled = [&base[..], &[("crossed", "2"), ("doubled", "yes")]].concat();
    assert_eq!(answer("stud-hole", &doubled).standing, Standing::Within);
    let row = [&base[..], &[("crossed", "3"), ("doubled", "yes")]].concat();
    assert_eq!(answer("stud-hole", &row).standing, Standing::Beyond);
}

#[test]
fn a_hole_beside_a_notch_or_too_near_an_edge_is_beyond() {
    // R602.6: not in one section with a cut or notch; 5/8 in of wood to the edge
    let pex = [("lumber", "2x4"), ("material", "PEX"), ("size", "1/2"), ("bearing", "yes")];
    assert_eq!(answer("stud-hole", &pex).standing, Standing::Within);
    let notched = [&pex[..], &[("notched-there", "yes")]].concat();
    assert_eq!(answer("stud-hole", &notched).standing, Standing::Beyond);
    let edge = [&pex[..], &[("center", "5/8 ± 1/16")]].concat();
    let sheet = answer("stud-hole", &edge);
    assert_eq!(sheet.standing, Standing::Beyond);
    assert!(sheet.changes.iter().any(|c| c.text.contains("in the middle") && c.enough));
}

#[test]
fn nail_plates_are_counted_by_edge_and_stud() {
    // NEC 300.4(A)(1), IPC: 1-1/4 in; a 1-1/4 hole in a 2x4 leaves 1-1/8 at both edges
    let line = |answers: &[(&str, &str)]| {
        let sheet = answer("stud-hole", answers);
        sheet.lines.iter().find(|l| l.label.read() == "Nail plates").unwrap().text.read()
    };
    let inch = [("lumber", "2x4"), ("size", "1"), ("clearance", "1/8"), ("crossed", "4")];
    let pex = [&inch[..], &[("material", "PEX")]].concat();
    assert!(line(&pex).ends_with("2 × 4 = 8"), "{}", line(&pex));
    let steel = [&inch[..], &[("material", "steel sch 40")]].concat();
    assert!(line(&steel).starts_with("0:"), "{}", line(&steel));
    let deep = [("lumber", "2x6"), ("size", "1"), ("material", "PEX"), ("crossed", "4")];
    assert!(line(&deep).ends_with("= 0"), "{}", line(&deep));
}

#[test]
fn joists_follow_the_rules_for_holes_and_notches() {
    // R502.8.1 by hand: 2x10 hole 3.083, notch 1.542 and not in the middle third, end notch 2.313
    let base = [("lumber", "2x10"), ("material", "PVC/ABS DWV"), ("size", "2")];
    assert_eq!(answer("joist-hole", &base).standing, Standing::Within);
    let other = [&base[..], &[("other", "1")]].concat();
    assert_eq!(answer("joist-hole", &other).standing, Standing::Beyond);
    let notch = [&base[..], &[("cut", "notch")]].concat();
    assert_eq!(answer("joist-hole", &notch).standing, Standing::Beyond); // 2.4 against 1.542
    let end = [&base[..], &[("cut", "end-notch"), ("clearance", "0")]].concat();
    assert_eq!(answer("joist-hole", &end).standing, Standing::Beyond); // 2.375 against 2.313
    let copper = [("lumber", "2x10"), ("material", "copper K/L/M"), ("size", "1"), ("cut", "notch")];
    let open = answer("joist-hole", &copper);
    assert_eq!((open.standing, open.missing.len()), (Standing::CannotSay, 2));
    let at = |from: &str| {
        answer("joist-hole", &[&copper[..], &[("span", "12"), ("from-support", from)]].concat()).standing
    };
    assert_eq!(
        ["2", "6", "7", "10"].map(at),
        [Standing::Within, Standing::Beyond, Standing::Beyond, Standing::Within]
    );
    let timber = [&copper[..], &[("span", "12"), ("from-support", "2"), ("thickness", "3-1/2")]].concat();
    assert_eq!(answer("joist-hole", &timber).standing, Standing::Beyond);
    let top = [&timber[..], &[("face", "top")]].concat();
    assert_eq!(answer("joist-hole", &top).standing, Standing::Within);
    for kind in ["engineered", "i-joist", "truss"] {
        let sheet = answer("joist-hole", &[&base[..], &[("kind", kind)]].concat());
        assert_eq!(sheet.standing, Standing::CannotSay);
    }
}

#[test]
fn a_falling_drain_runs_out_of_joist() {
    // By hand: 2x8 leaves 7-1/4 − 4 − 2.375 = 0.875 of fall; 1/3 in a joist at 16 in and 1/4 in/ft: three joists
    let base = [
        ("lumber", "2x8"),
        ("material", "PVC/ABS DWV"),
        ("size", "2"),
        ("clearance", "0"),
        ("slope", "0.25"),
    ];
    let over = |n: &'static str| answer("joist-hole", &[&base[..], &[("crossed", n)]].concat());
    assert_eq!(over("2").standing, Standing::Within);
    let five = over("5");
    assert_eq!(five.standing, Standing::Beyond);
    assert!(
        five.changes.iter().any(|c| c.text.starts_with("Cross no more than 3 joists")),
        "{:?}",
        five.changes
    );
}

#[test]
fn plates_lose_the_shares_worked_by_hand() {
    // Own arithmetic from the outside diameters: 2x4 54, 68, 100 %; 2x6 35, 43, 64 %
    for (depth, od, percent) in [
        (3.5, 1.9, 54.0),
        (3.5, 2.375, 68.0),
        (3.5, 3.5, 100.0),
        (5.5, 1.9, 35.0),
        (5.5, 2.375, 43.0),
        (5.5, 3.5, 64.0),
    ] {
        assert_eq!(plate_cut::percent_cut(depth, od).round(), percent);
    }
    let two = [("lumber", "2x4"), ("material", "PVC/ABS DWV"), ("size", "2"), ("pipes", "3")];
    let sheet = answer("plate-cut", &two);
    assert!(sheet.sentence.contains("6 ties to price"), "{}", sheet.sentence);
    let free = [&two[..], &[("bearing", "no")]].concat();
    assert_eq!(answer("plate-cut", &free).standing, Standing::Quantity);
    let deep = [("lumber", "2x6"), ("material", "PVC/ABS DWV"), ("size", "2")];
    assert_eq!(answer("plate-cut", &deep).standing, Standing::Within);
}

#[test]
fn what_is_not_known_is_asked_for() {
    for (word, answers, parts) in [
        ("stud-hole", vec![], vec!["lumber", "material and size"]),
        ("stud-hole", vec![("lumber", "2x4"), ("material", "PEX")], vec!["1/2, 3/4, 1"]),
        ("joist-hole", vec![("size", "2"), ("lumber", "2x8")], vec!["material"]),
        ("plate-cut", vec![("material", "PEX"), ("size", "3"), ("lumber", "2x4")], vec!["1/2, 3/4, 1"]),
        ("stud-hole", vec![("lumber", "2x4"), ("outside", "1"), ("center", "9")], vec!["0 to 3.5"]),
    ] {
        let sheet = answer(word, &answers);
        assert_eq!(sheet.standing, Standing::CannotSay, "{word} {answers:?}");
        let missing = sheet.missing.join("; ");
        assert!(parts.iter().all(|p| missing.contains(p)), "{word} {answers:?}: {missing}");
    }
}

fn any_lumber() -> impl Strategy<Value = &'static str> {
    prop::sample::select(NAMES)
}

fn plan(depth: f64, pipe: f64, off: f64, bearing: bool, doubled: bool) -> StudPlan {
    let plain = |inches: f64| Reading::plain(Length::from_inches(inches).unwrap());
    let member = Member::measured(plain(depth)).unwrap();
    let mut plan = StudPlan::new(member, Pipe::measured(plain(pipe)).unwrap(), plain(0.0625)).unwrap();
    plan = plan.centered_at(plain(depth / 2.0 - off)).unwrap();
    (plan.bearing, plan.doubled) = (Some(bearing), doubled);
    plan
}

/// One answer a field may be given, or none.
fn any_answer(kind: &Kind) -> BoxedStrategy<Option<String>> {
    let some: BoxedStrategy<String> = match *kind {
        Kind::Length { min, max, feet } => {
            let scale = if feet { 12.0 } else { 1.0 };
            prop_oneof![Just(min), Just(max), min..=max]
                .prop_map(move |x| format!("{}", (x / scale * 64.0).floor() / 64.0))
                .boxed()
        }
        Kind::Number { min, max, .. } => {
            prop_oneof![Just(min), Just(max), min..=max].prop_map(|x| format!("{x}")).boxed()
        }
        Kind::Word(words) => prop::sample::select(words).prop_map(str::to_owned).boxed(),
        Kind::YesNo => {
            prop_oneof![Just("yes"), Just("no"), Just("can't tell")].prop_map(str::to_owned).boxed()
        }
        _ => Just(String::new()).boxed(),
    };
    prop::option::weighted(0.8, some).boxed()
}

fn any_answers(word: &'static str) -> impl Strategy<Value = Vec<(String, String)>> {
    let fields = find(word).unwrap().fields;
    let each: Vec<BoxedStrategy<Option<String>>> = fields.iter().map(|f| any_answer(&f.kind)).collect();
    each.prop_map(move |answers| {
        let named = fields.iter().zip(answers);
        named.filter_map(|(f, a)| a.map(|a| (f.name.to_owned(), a))).collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn a_bigger_pipe_never_goes_where_a_smaller_did_not(
        name in any_lumber(), pipe in 0.0..6.0, more in 0.0..3.0, bearing in any::<bool>(), doubled in any::<bool>()
    ) {
        let takes = |pipe| stud::takes(book(), name, pipe, 0.0625, bearing, doubled).unwrap();
        prop_assert!(takes(pipe) || !takes(pipe + more));
    }

    #[test]
    fn doubling_and_bearing_nothing_are_never_worse(
        name in any_lumber(), pipe in 0.0..8.0, bearing in any::<bool>(), doubled in any::<bool>()
    ) {
        let takes = |bearing, doubled| stud::takes(book(), name, pipe, 0.0, bearing, doubled).unwrap();
        prop_assert!(!takes(bearing, doubled) || takes(bearing, true) && takes(false, doubled));
    }

    #[test]
    fn chances_follow_the_same_order(
        depth in 3.0..8.0, pipe in 0.2..5.0, more in 0.0..2.0, off in 0.0..1.4, bearing in any::<bool>()
    ) {
        let p = |pipe, doubled, bearing| {
            let plan = plan(depth, pipe, off, bearing, doubled);
            stud_hole::judge(&plan, &CATALOG.shelf).unwrap().chance_beyond.unwrap()
        };
        let base = p(pipe, false, bearing);
        prop_assert!((0.0..=1.0).contains(&base));
        prop_assert!(p(pipe + more, false, bearing) >= base - 1e-12);
        prop_assert!(p(pipe, true, bearing) <= base + 1e-12);
        prop_assert!(p(pipe, false, false) <= base + 1e-12);
    }

    #[test]
    fn a_deeper_member_never_takes_less(depth in 1.0..20.0, more in 0.0..4.0) {
        let rules = joist::rules(book()).unwrap();
        let (a, b) = (rules.at(depth), rules.at(depth + more));
        prop_assert!(a.hole <= b.hole && a.notch <= b.notch && a.end_notch <= b.end_notch);
        prop_assert!(nail_plate::largest_unplated(depth, 1.25) <= nail_plate::largest_unplated(depth + more, 1.25));
    }

    #[test]
    fn every_listed_pipe_is_larger_than_its_name_and_grows_with_it(n in 0..6_usize) {
        let (material, id) = pipe::MATERIALS[n];
        let rows = &book().table(id).unwrap().rows;
        prop_assert!(rows.windows(2).all(|w| w[0].1 < w[1].1));
        for (size, inches) in rows {
            prop_assert_eq!(pipe::outside(book(), material, size).unwrap().0, *inches);
        }
    }

    #[test]
    fn no_readable_answers_fail(
        studs in any_answers("stud-hole"), joists in any_answers("joist-hole"), plates in any_answers("plate-cut")
    ) {
        for (word, answers) in [("stud-hole", studs), ("joist-hole", joists), ("plate-cut", plates)] {
            let calculation = find(word).unwrap();
            let given = Given::read(calculation.fields, &answers).unwrap();
            let sheet = (calculation.run)(&given, &CATALOG).unwrap();
            prop_assert_eq!(sheet.standing == Standing::CannotSay, !sheet.missing.is_empty());
            prop_assert!(sheet.chance_beyond.is_none_or(|p| (0.0..=1.0).contains(&p)), "{:?}", answers);
            prop_assert!(!sheet.sentence.is_empty() && !sheet.caution.is_empty());
            prop_assert!(sheet.standing == Standing::CannotSay || !sheet.lines.is_empty());
        }
    }
}
