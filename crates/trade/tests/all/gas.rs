//! Fuel gas: laws that hold for every run, the worked example of the code, random draws, and what a run answers.

use crate::english::English as _;
use std::sync::LazyLock;

use proptest::prelude::*;
use survey::catalog::{Book, Catalog, builtin};
use survey::units::Length;
use trade::gas::capacity::{Drop, SIZES, capacity, size_for};
use trade::gas::form::{Form, Pipe, as_printed, older_cfh};
use trade::gas::loads::Appliance;
use trade::gas::plan::{GasPlan, HeatingValue, RunLength};
use trade::gas::run::sections;
use trade::given::Given;
use trade::measure::BtuPerHour;
use trade::picture::Picture;
use trade::tolerance::Reading;
use trade::{Sheet, Standing, find};

/// The catalog that ships.
static CATALOG: LazyLock<Catalog> = LazyLock::new(|| builtin().unwrap());

fn book() -> &'static Book {
    CATALOG.shelf.book("ifgc-2018").unwrap()
}

fn ask(answers: &[(&str, &str)]) -> Sheet {
    let calculation = find("gas-run").unwrap();
    let answers: Vec<_> = answers.iter().map(|(n, t)| ((*n).to_owned(), (*t).to_owned())).collect();
    (calculation.run)(&Given::read(calculation.fields, &answers).unwrap(), &CATALOG).unwrap()
}

/// The house of the own example: 135 ft³/h on a 3/4 in trunk, 60 ft, and whatever is asked besides.
fn house(more: &[(&'static str, &'static str)]) -> Sheet {
    let mut answers = vec![("pipe", "steel"), ("length", "60 ± 3 ft"), ("trunk", "3/4")];
    answers.extend([("existing", "furnace, 100000"), ("existing", "water heater, 35000")]);
    for (name, text) in more {
        answers.retain(|(n, _)| n != name || matches!(*name, "existing" | "planned"));
        answers.push((name, text));
    }
    ask(&answers)
}

fn pipe(size: &str, feet: f64) -> Pipe {
    let inside = trade::gas::capacity::inside(book(), size).unwrap().0;
    Pipe { inside, feet, drop: 0.5, factor: 0.6094 }
}

fn size() -> impl Strategy<Value = &'static str> {
    proptest::sample::select(SIZES.to_vec())
}

fn drop() -> impl Strategy<Value = Drop> {
    prop_oneof![Just(Drop::Half), Just(Drop::Three)]
}

fn place(size: Option<&str>) -> usize {
    size.map_or(SIZES.len(), |size| SIZES.iter().position(|s| *s == size).unwrap())
}

proptest! {
    #[test]
    fn a_longer_run_never_carries_more(size in size(), drop in drop(), feet in 0.5..400.0, more in 0.0..100.0) {
        let at = |feet| capacity(book(), drop, size, feet).unwrap().cfh;
        prop_assert!(at(feet + more) <= at(feet));
        let form = Form::of(book()).unwrap();
        let of = |feet| form.cfh(pipe(size, feet)).unwrap();
        prop_assert!(of(feet + more) <= of(feet));
        let older = |feet| older_cfh(book(), pipe(size, feet)).unwrap();
        prop_assert!(older(feet + more) <= older(feet) * (1.0 + 1e-12));
    }

    #[test]
    fn a_larger_pipe_never_carries_less(drop in drop(), feet in 0.5..400.0) {
        let all: Vec<f64> = SIZES.iter().map(|s| capacity(book(), drop, s, feet).unwrap().cfh).collect();
        prop_assert!(all.windows(2).all(|w| w[0] < w[1]), "{all:?}");
    }

    #[test]
    fn the_next_longer_row_never_carries_more(size in size(), drop in drop(), feet in 1.0..120.0) {
        let found = capacity(book(), drop, size, feet).unwrap();
        if let Some((at, row)) = found.next_row {
            prop_assert!(at > feet && row <= found.cfh);
        }
    }

    #[test]
    fn added_load_never_lowers_the_size_needed(
        drop in drop(), load in 0.0..3000.0, more in 0.0..1000.0, feet in 1.0..300.0, longer in 0.0..100.0
    ) {
        let at = |load, feet| place(size_for(book(), drop, load, feet).unwrap().map(|(size, _)| size));
        prop_assert!(at(load + more, feet) >= at(load, feet));
        prop_assert!(at(load, feet + longer) >= at(load, feet));
    }

    #[test]
    fn no_finite_number_panics(n in prop::array::uniform4(any::<f64>()), size in size(), drop in drop()) {
        let _ = (capacity(book(), drop, size, n[0]), size_for(book(), drop, n[1], n[0]), as_printed(n[2]));
        let any = Pipe { inside: n[0], feet: n[1], drop: n[2], factor: n[3] };
        let _ = (Form::of(book()).unwrap().cfh(any), older_cfh(book(), any));
        let _ = trade::gas::plan::cfh(n[0], n[1]);
        let _ = trade::gas::plan::equivalent_feet(book(), n[2], size);
    }

    #[test]
    fn every_readable_run_has_a_sheet_that_never_approves(
        feet in 3.0_f64..300.0, plus in 0.0_f64..30.0, trunk in size(), branch in proptest::option::of(size()),
        existing in 0.0_f64..1e6, planned in proptest::option::of(0.0_f64..1e6), elbows in 0_u32..99,
        kind in 0_usize..4, gas in 0_usize..2, pressure in 0_usize..3, part in 0.0_f64..300.0
    ) {
        let mut answers = vec![
            ("pipe", ["steel", "steel", "corrugated", "other"][kind].to_owned()),
            ("gas", ["natural", "propane"][gas].to_owned()),
            ("drop", ["0.5", "3.0", "2 psi"][pressure].to_owned()),
            ("length", format!("{feet:.2} ± {plus:.2} ft")),
            ("trunk", trunk.to_owned()),
            ("existing", format!("furnace, {existing:.0}")),
            ("trunk-length", format!("{part:.2}")),
        ];
        if elbows > 0 {
            answers.push(("fittings", format!("elbow, {elbows}")));
        }
        answers.extend(branch.map(|b| ("branch", b.to_owned())));
        answers.extend(planned.map(|p| ("planned", format!("grill, {p:.0}"))));
        let answers: Vec<_> = answers.iter().map(|(n, t)| (*n, t.as_str())).collect();
        let sheet = ask(&answers);
        prop_assert!(sheet.caution.contains("gas fitter") && sheet.caution.contains("tightness test"));
        prop_assert_eq!(sheet.standing == Standing::CannotSay, sheet.chance_beyond.is_none());
        prop_assert!(sheet.chance_beyond.is_none_or(|p| (0.0..=1.0).contains(&p)));
        prop_assert!(sheet.standing != Standing::Within || sheet.changes.is_empty());
    }

    #[test]
    fn a_longer_run_or_a_bigger_load_never_lowers_the_chance(
        feet in 20.0_f64..200.0, more in 1.1_f64..1.5, load in 1e4_f64..3e5, extra in 0.0_f64..1e5, size in size()
    ) {
        let p = |feet, load| sections(&simple(feet, 5.0, size, load), book()).unwrap()[0].chance;
        prop_assert!(p(feet, load + extra) >= p(feet, load));
        // A tenth more outweighs the rounding of two flows to the table's figures.
        prop_assert!(p(feet * more, load) >= p(feet, load));
    }
}

fn simple(feet: f64, plus: f64, trunk: &'static str, load: f64) -> GasPlan {
    let length = |feet: f64| Length::from_inches(feet * 12.0).unwrap();
    let reading = Reading { value: length(feet), tolerance: Some(length(plus)) };
    let input = BtuPerHour::new(load).unwrap();
    GasPlan {
        length: RunLength::new(reading).unwrap(),
        trunk,
        branch: None,
        drop: Drop::Half,
        gravity: "0.60",
        heating_value: HeatingValue::new(1000.0).unwrap(),
        existing: vec![Appliance { name: "all".into(), input, typical: None }],
        planned: vec![],
        fittings: vec![],
        trunk_length: None,
        own_run: None,
    }
}

/// 400 000 draws of the length by `make_gas_mc.py` with numpy: each draw works out anew what the pipe carries.
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/gas_mc.json");

#[test]
fn the_chance_of_lying_beyond_agrees_with_random_draws() {
    let drawn: serde_json::Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    let cases = drawn["cases"].as_array().unwrap();
    assert!(cases.len() >= 8);
    for case in cases {
        let number = |key: &str| case[key].as_f64().unwrap();
        let size = *SIZES.iter().find(|s| case["size"] == **s).unwrap();
        let plan = simple(number("feet"), 2.0 * number("sigma_feet"), size, number("load_cfh") * 1000.0);
        let trunk = &sections(&plan, book()).unwrap()[0];
        assert_eq!(trunk.carries, number("cell_cfh"), "{case}");
        let p = trunk.chance;
        // z under 4 of the binomial error of the draws, with one draw's worth where nothing was drawn
        let bound = 4.0 * (p * (1.0 - p) / draws).sqrt() + 4.0 / draws;
        assert!((p - number("beyond")).abs() <= bound, "{case}: {p}");
        // The σ shown is a first order about the mean; the draws hold the curve too.
        assert!((trunk.sigma / number("sigma_cfh") - 1.0).abs() < 0.02, "{case}: {}", trunk.sigma);
    }
}

#[test]
fn the_typical_remodel_surprise_is_beyond_and_says_what_would_help() {
    // own example on the 60 ft row of IFGC Table 402.4(2): 135 of 137 ft³/h, a 65 ft³/h range makes it 200
    let sheet = house(&[("branch", "1/2"), ("planned", "range, 65000"), ("trunk-length", "40")]);
    assert_eq!(sheet.standing, Standing::Beyond);
    assert!(sheet.sentence.contains("200 ft³/h, beyond the table value of 137 over 60 ft; it needs 1 in"));
    let trunk = &sheet.changes[0];
    assert_eq!(
        trunk.text.read(),
        "Trunk to 1 in for 40 ft, from the meter to the branch: carries 257 ft³/h, needs 200"
    );
    // The 1/2 in branch is exactly full, 65 of 65: enough at the values taken, near by the tolerance.
    assert!(trunk.enough);
    assert!(sheet.changes[1].text.starts_with("Branch to 3/4 in"), "{:?}", sheet.changes);
    let Some(Picture::Load(bar)) = sheet.picture else { panic!("no bar") };
    let carries: Vec<_> = bar.carries.iter().map(|(name, value)| (name.read(), *value)).collect();
    assert_eq!(carries, [("3/4 in", 137.0), ("1 in", 257.0)]);
    let (name, value, planned) = &bar.parts[2];
    assert_eq!((name.read(), *value, *planned), ("range", 65.0, true));
}

#[test]
fn each_change_says_its_amount_and_whether_it_is_enough() {
    let sheet = house(&[("branch", "3/4"), ("planned", "range, 65000"), ("own-run", "56")]);
    let all: Vec<_> = sheet.changes.iter().map(|c| (c.text.read(), c.enough)).collect();
    let over = "over its length from the meter to the branch, which nobody gave";
    let trunk = format!("Trunk to 1 in {over}: carries 257 ft³/h, needs 200");
    let own = "Own run of 3/4 in, about 56 ft, from the meter to range: carries 137 ft³/h, needs 65; the trunk stays \
        at 135 of 137 ft³/h";
    let none = "No gas for range (electric, or later): the trunk stays at 135 of 137 ft³/h";
    // 135 of 137 is near by the tolerance of the length: the trunk that stays is not enough by itself.
    assert_eq!(all, [(trunk.as_str(), true), (own, false), (none, false)]);
    // A 1/2 in trunk is too small as it is: only a larger one is enough.
    let small = house(&[("trunk", "1/2"), ("branch", "3/4"), ("planned", "range, 65000")]);
    let enough: Vec<bool> = small.changes.iter().map(|c| c.enough).collect();
    assert_eq!(enough, [true, false, false]);
    assert!(small.notes[0].contains("beyond its value as it is"), "{:?}", small.notes);
    // A branch too small for itself is not mended by the trunk.
    let narrow = house(&[("trunk", "1"), ("branch", "1/2"), ("planned", "range, 70000")]);
    assert!(narrow.changes[0].text.starts_with("Branch to 3/4 in") && narrow.changes[0].enough);
}

#[test]
fn near_the_value_the_tolerance_of_the_length_decides() {
    let full = house(&[("planned", "log lighter, 2000")]); // 137 of 137
    assert_eq!((full.standing, full.chance_beyond), (Standing::Near, Some(0.5)));
    assert!(full.sigma.unwrap().starts_with("1.9 ft³/h")); // 0.541 × 137 ÷ 60 × 1.5
    assert_eq!(house(&[("existing", "grill, 10000")]).standing, Standing::Beyond); // 145
    let roomy = house(&[("length", "40 ± 3 ft")]); // 135 of 170
    assert_eq!(roomy.standing, Standing::Within);
    assert!(roomy.sentence.contains("within the table value of 170 over 40 ft") && roomy.changes.is_empty());
}

#[test]
fn between_rows_a_reading_by_rows_makes_it_near() {
    // 55 ft: the form gives 143, the 60 ft row 137
    let sheet = house(&[("length", "55 ± 1/2 ft"), ("planned", "log lighter, 5000")]); // 140
    assert_eq!(sheet.standing, Standing::Near);
    assert!(sheet.chance_beyond.unwrap() < 0.05);
    assert!(
        sheet.lines.iter().any(|l| l.text.read() == "next longer row 60 ft: 137 ft³/h"),
        "{:?}",
        sheet.lines
    );
    assert!(sheet.notes.iter().any(|n| n.contains("sizes by rows goes up a size")));
}

#[test]
fn four_fittings_add_length_and_three_do_not() {
    let three = house(&[("fittings", "elbow, 3")]);
    let four = house(&[("fittings", "elbow, 4")]);
    let length = |sheet: &Sheet| {
        sheet.lines.iter().find(|l| l.label.read() == "Longest length").map(|l| l.text.read()).unwrap()
    };
    assert_eq!(length(&three), "60 ft");
    // IFGC Table A.2.2 note 4: 4 × 30 × 0.824 ÷ 12 = 8.24 ft
    assert_eq!(length(&four), "60 ft + (4 elbow × 30) × 0.824 in ÷ 12 = 68.2 ft");
    assert_eq!(four.standing, Standing::Beyond); // 135 of 127 over 68.24 ft
}

#[test]
fn other_pipe_other_gas_and_two_psi_cannot_be_said() {
    let corrugated = house(&[("pipe", "corrugated"), ("planned", "range")]);
    assert_eq!(corrugated.standing, Standing::CannotSay);
    assert!(corrugated.sentence.contains("about 30 ft³/h") && corrugated.sentence.contains("carries 65"));
    assert!(corrugated.lines.iter().any(|l| l.text.read() == "range 65,000 Btu/h"));
    let propane = house(&[("gas", "propane")]);
    assert_eq!(propane.standing, Standing::CannotSay);
    assert!(
        propane.notes.iter().any(|n| n.contains("92 ft³/h") || n.contains("93 ft³/h")),
        "{:?}",
        propane.notes
    );
    assert!(propane.assumed.iter().all(|a| a.item.read() != "heating value"));
    for more in
        [("pipe", "copper"), ("pipe", "other"), ("pipe", "can't tell"), ("drop", "2 psi"), ("length", "")]
    {
        let sheet = house(&[more]);
        assert_eq!(sheet.standing, Standing::CannotSay, "{more:?}");
        assert!(!sheet.missing.is_empty() && sheet.chance_beyond.is_none());
    }
}

#[test]
fn an_input_nobody_read_is_typical_and_assumed_or_missing() {
    let typical = house(&[("planned", "range")]);
    assert!(
        typical
            .assumed
            .iter()
            .any(|a| a.item.read() == "input of the range" && a.value.starts_with("65,000"))
    );
    assert!(typical.limits.iter().any(|l| l.clause.contains("1208.4.1")));
    let unknown = house(&[("planned", "pool heater")]);
    assert_eq!(unknown.standing, Standing::CannotSay);
    assert!(unknown.missing[0].contains("pool heater") && unknown.notes[0].contains("range_freestanding"));
}

#[test]
fn a_heavier_gas_and_a_higher_drop_change_what_is_carried() {
    // IFGC Table A.2.4: gravity 0.65 × 0.96; Table 402.4(3): 3/4 in over 60 ft 360
    let heavy = house(&[("gravity", "0.65")]);
    assert!(heavy.sentence.contains("beyond the table value of 131.5"), "{}", heavy.sentence);
    assert!(house(&[("drop", "3.0")]).sentence.contains("within the table value of 360"));
}
