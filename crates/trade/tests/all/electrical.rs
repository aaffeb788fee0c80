//! Laws of the electrical calculations, and their chances against random draws.

use crate::english::{English as _, EnglishList as _};
use std::sync::LazyLock;

use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use survey::catalog::{Book, Catalog, builtin};
use survey::units::Length;
use trade::electrical::box_fill::{Contents, Gauge};
use trade::electrical::panel_load::{Load, Method, PanelPlan, Part, State, judge};
use trade::electrical::working_space::Space;
use trade::electrical::{CALCULATIONS, counter_outlets, demand};
use trade::given::{Given, Kind};
use trade::measure::{Amperes, SquareFeet, VoltAmperes};
use trade::tolerance::Reading;
use trade::{Sheet, Standing};

/// The catalog that ships.
static CATALOG: LazyLock<Catalog> = LazyLock::new(|| builtin().unwrap());

fn book(id: &str) -> &'static Book {
    CATALOG.shelf.book(id).unwrap()
}

fn any_book() -> impl Strategy<Value = &'static Book> {
    prop_oneof![Just("nec-2011"), Just("nec-2020"), Just("nec-2023")].prop_map(book)
}

fn va(x: f64) -> VoltAmperes {
    VoltAmperes::new(x).unwrap()
}

fn any_load() -> impl Strategy<Value = Load> {
    let part = prop_oneof![
        Just(Part::Appliance),
        Just(Part::VehicleCharger),
        Just(Part::AirConditioning),
        Just(Part::HeatPump),
        Just(Part::SupplementaryHeat),
        Just(Part::ElectricHeat(1)),
    ];
    let state = prop_oneof![Just(State::There), Just(State::Planned), Just(State::Removed)];
    (part, 0.0..30_000.0, state).prop_map(|(part, load, state)| Load {
        name: "load".into(),
        part,
        nameplate: va(load),
        tolerance: va(load / 4.0),
        state,
    })
}

fn any_plan() -> impl Strategy<Value = PanelPlan> {
    let method = prop_oneof![Just(Method::Existing), Just(Method::Optional)];
    let house = (0.0..20_000.0, of(0.0..2000.0), 0_u32..8, 0_u32..4);
    (house, vec(any_load(), 0..8), 15.0..400.0, method).prop_map(|(house, loads, service, method)| {
        PanelPlan {
            area: SquareFeet::new(house.0).unwrap(),
            area_tolerance: house.1.map(|x| SquareFeet::new(x).unwrap()),
            small_appliance: house.2,
            laundry: house.3,
            loads,
            service: Amperes::new(service).unwrap(),
            volts: 240.0,
            method,
            spaces: None,
        }
    })
}

fn any_gauge() -> impl Strategy<Value = Gauge> {
    (0..Gauge::WORDS.len()).prop_map(|i| Gauge::new(Gauge::WORDS[i]).unwrap())
}

fn any_contents() -> impl Strategy<Value = Contents> {
    let wires = (vec((any_gauge(), 0_u32..12), 0..5), 0_u32..12, of(any_gauge()));
    (wires, any::<bool>(), 0_u32..3, vec(any_gauge(), 0..4)).prop_map(|(wires, clamps, supports, devices)| {
        Contents { conductors: wires.0, grounds: wires.1, ground_gauge: wires.2, clamps, supports, devices }
    })
}

/// One answer to a field: sometimes a sensible one, sometimes anything.
fn any_answer(kind: Kind) -> BoxedStrategy<String> {
    let sensible = match kind {
        Kind::Length { min, max, .. } => (min..max, of(0.0..20.0))
            .prop_map(|(x, t)| match t {
                Some(t) => format!("{x} in ± {t} in"),
                None => format!("{x} in"),
            })
            .boxed(),
        Kind::Number { min, max, .. } => prop_oneof![
            1 => (min..max).prop_map(|x| x.to_string()),
            9 => (min..max).prop_map(|x| x.ceil().to_string())
        ]
        .boxed(),
        Kind::Word(words) => (0..words.len()).prop_map(|i| words[i].to_owned()).boxed(),
        Kind::YesNo => prop_oneof![Just("yes".to_owned()), Just("no".to_owned())].boxed(),
        Kind::Text => prop_oneof![Just("none".to_owned()), "[0-9; ]{0,12}", "[a-z ]{0,12}"].boxed(),
        Kind::Rows(columns) => {
            let cells: Vec<BoxedStrategy<String>> = columns.iter().map(|c| any_answer(c.kind)).collect();
            cells.prop_map(|cells| cells.join(", ")).boxed()
        }
    };
    prop_oneof![60 => sensible, 1 => ".{0,20}"].boxed()
}

fn any_sheet() -> impl Strategy<Value = Option<Sheet>> {
    (0..CALCULATIONS.len()).prop_flat_map(|at| {
        let calculation = &CALCULATIONS[at];
        let answers: Vec<_> = calculation
            .fields
            .iter()
            .map(|f| {
                let most = if matches!(f.kind, Kind::Rows(_)) { 4 } else { 2 };
                vec(any_answer(f.kind), 0..most).prop_map(|texts| (f.name, texts))
            })
            .collect();
        answers.prop_map(move |answers| {
            let written: Vec<(String, String)> = answers
                .into_iter()
                .flat_map(|(name, texts)| texts.into_iter().map(move |t| (name.to_owned(), t)))
                .collect();
            let given = Given::read(calculation.fields, &written).ok()?;
            (calculation.run)(&given, &CATALOG).ok()
        })
    })
}

proptest! {
    #[test]
    fn adding_an_appliance_never_lowers_the_load(plan in any_plan(), more in any_load(), book in any_book()) {
        let load = |plan: &PanelPlan| plan.loads_under(book).unwrap();
        let mut with = plan.clone();
        let more_part = more.part;
        with.loads.push(more);
        let ((before, after), (before_with, after_with)) = (load(&plan), load(&with));
        // Added electric heat may be the fourth unit, from which on a smaller share counts: 220.82(C) and 220.83(B).
        let fourth = matches!(more_part, Part::ElectricHeat(_))
            && with.loads.iter().filter(|l| matches!(l.part, Part::ElectricHeat(_))).count() > 3;
        prop_assert!(fourth || (before_with >= before - 1e-6 && after_with >= after - 1e-6));
    }

    #[test]
    fn a_larger_house_never_has_a_smaller_load_or_chance(plan in any_plan(), more in 0.0..1000.0, book in any_book()) {
        let mut larger = plan.clone();
        larger.area = SquareFeet::new(plan.area.get() + more).unwrap();
        prop_assert!(larger.loads_under(book).unwrap().1 >= plan.loads_under(book).unwrap().1);
        if plan.area_tolerance.is_some() {
            prop_assert!(larger.chance_beyond(book).unwrap() >= plan.chance_beyond(book).unwrap() - 1e-12);
        }
    }

    #[test]
    fn more_conductors_never_need_a_smaller_box(contents in any_contents(), gauge in any_gauge(), book in any_book()) {
        let fill = contents.fill(book).unwrap();
        let mut more = contents.clone();
        more.conductors.push((gauge, 1));
        prop_assert!(more.fill(book).unwrap() >= fill);
        let grounds = Contents { grounds: contents.grounds + 1, ..contents };
        prop_assert!(grounds.fill(book).unwrap() >= fill);
    }

    #[test]
    fn a_longer_counter_never_calls_for_fewer_outlets(inches in 0.0..1000.0, more in 0.0..100.0) {
        let n = |x: f64| counter_outlets::along_wall(book("nec-2011"), x).unwrap();
        prop_assert!(n(inches + more) >= n(inches));
        let islands = |x: f64| counter_outlets::by_area(book("nec-2020"), x).unwrap();
        prop_assert!(islands(inches + more) >= islands(inches));
    }

    #[test]
    fn a_larger_range_never_counts_less(kw in 0.0..27.0, more in 0.0..5.0) {
        let load = |kw: f64| demand::range(book("nec-2011"), kw.min(27.0)).unwrap().0;
        prop_assert!(load(kw + more) >= load(kw));
    }

    #[test]
    fn lighting_never_counts_more_than_is_connected(load in 0.0..1e6, more in 0.0..1e5) {
        let counts = |x: f64| demand::lighting(book("nec-2011"), va(x.min(1e6))).unwrap().0;
        prop_assert!(counts(load) <= load && counts(load + more) >= counts(load));
    }

    #[test]
    fn pure_functions_answer_any_number(x in any::<f64>(), y in any::<f64>(), z in any::<f64>()) {
        let book = book("nec-2020");
        let _ = counter_outlets::along_wall(book, x).unwrap();
        let _ = counter_outlets::by_area(book, x).unwrap();
        let _ = demand::range(book, x);
        let _ = demand::whole_amperes(x);
        let least = trade::electrical::working_space::called_for(book, x, y).unwrap();
        let _ = trade::electrical::working_space::reaches([x, y, z], least);
    }

    #[test]
    fn every_readable_answer_gets_a_sheet_that_never_approves(sheet in any_sheet()) {
        let Some(sheet) = sheet else { return Ok(()) };
        let chance = sheet.chance_beyond.unwrap_or(0.5);
        prop_assert!((0.0..=1.0).contains(&chance), "{chance}");
        prop_assert!(sheet.standing != Standing::CannotSay || !sheet.missing.is_empty());
        prop_assert!(sheet.caution.contains("licensed electrician"));
        let said = format!("{} {}", sheet.sentence, sheet.notes.join(" ")).to_lowercase();
        for word in ["safe", "compliant", "approved", "passed"] {
            prop_assert!(!said.contains(word), "{said}");
        }
    }
}

/// 400 000 draws by `make_electrical_mc.py` with numpy; a share is off by under 0.0008 (one σ) of sampling.
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/electrical_mc.json");
/// A share may be off by so many of its own sampling σ: one chance in about 10,000 for each of nine cases.
const Z: f64 = 4.0;

fn agrees(p: f64, case: &serde_json::Value, draws: f64) {
    let share = case["over"].as_f64().unwrap();
    let sampling = (p * (1.0 - p) / draws).sqrt();
    assert!((p - share).abs() < Z * sampling, "{}: {p} against {share}", case["id"]);
}

#[test]
fn the_chance_of_an_overloaded_service_agrees_with_random_draws() {
    let drawn: serde_json::Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    let load = |part, nameplate: f64, state| Load {
        name: "load".into(),
        part,
        nameplate: va(nameplate),
        tolerance: VoltAmperes::ZERO,
        state,
    };
    let plan = |area: f64, two: f64, service: f64, appliances: f64| PanelPlan {
        area: SquareFeet::new(area).unwrap(),
        area_tolerance: Some(SquareFeet::new(two).unwrap()),
        small_appliance: 2,
        laundry: 1,
        loads: Vec::from([load(Part::Appliance, appliances, State::There)]),
        service: Amperes::new(service).unwrap(),
        volts: 240.0,
        method: Method::Existing,
        spaces: None,
    };
    let climate = |mut plan: PanelPlan, cooling: f64, heat: f64| {
        plan.loads.push(load(Part::AirConditioning, cooling, State::Planned));
        plan.loads.push(load(Part::ElectricHeat(1), heat, State::Planned));
        plan
    };
    let plans = [
        plan(1500.0, 150.0, 74.0, 23_500.0),
        plan(800.0, 200.0, 34.0, 1100.0),
        climate(plan(1800.0, 300.0, 91.0, 20_000.0), 5000.0, 3000.0),
        PanelPlan { volts: 208.0, ..climate(plan(1200.0, 120.0, 112.0, 14_000.0), 2000.0, 9600.0) },
        PanelPlan {
            method: Method::Optional,
            ..climate(plan(2000.0, 400.0, 122.0, 22_700.0), 5760.0, 15_000.0)
        },
    ];
    let cases = drawn["panels"].as_array().unwrap();
    assert_eq!(cases.len(), plans.len());
    for (plan, case) in plans.iter().zip(cases) {
        let book = book("nec-2011");
        assert!(
            (plan.loads_under(book).unwrap().1 - case["load"].as_f64().unwrap()).abs() < 1e-6,
            "{}",
            case["id"]
        );
        agrees(plan.chance_beyond(book).unwrap(), case, draws);
    }
}

#[test]
fn the_chance_of_a_cramped_panel_agrees_with_random_draws() {
    let drawn: serde_json::Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    let reading = |value: f64, two: f64| Reading {
        value: Length::from_inches(value).unwrap(),
        tolerance: Length::from_inches(two),
    };
    let space = |depth: Reading, width: Reading, height: Reading| Space {
        depth,
        width,
        height,
        panel_width: None,
        panel_top: None,
        handle: None,
        door_opens: Some(true),
        pipes_above: Some(false),
        place: Some("elsewhere"),
    };
    let spaces = [
        space(reading(36.0, 0.5), reading(30.0, 0.5), reading(84.0, 0.5)),
        space(reading(36.25, 0.5), reading(30.125, 0.5), reading(78.5, 1.0)),
        space(reading(37.0, 2.0), reading(31.0, 2.0), reading(79.0, 2.0)),
        space(reading(35.0, 1.0), reading(36.0, 1.0), reading(80.0, 1.0)),
    ];
    let cases = drawn["spaces"].as_array().unwrap();
    assert_eq!(cases.len(), spaces.len());
    for (space, case) in spaces.iter().zip(cases) {
        agrees(space.chance_beyond(book("nec-2011")).unwrap(), case, draws);
    }
}

#[test]
fn a_nameplate_nobody_read_widens_the_spread_by_its_share() {
    // Only a range of 12,000 ± 3,000 VA is uncertain: σ 1,500 VA of connected load, 40 % of which counts beyond the
    // first 8,000 VA (NEC 220.83(A)): 600 VA, 2.5 A at 240 V.
    let book = book("nec-2020");
    let plan = |tolerance: f64| PanelPlan {
        area: SquareFeet::new(1500.0).unwrap(),
        area_tolerance: Some(SquareFeet::ZERO),
        small_appliance: 2,
        laundry: 1,
        loads: vec![Load {
            name: "range".into(),
            part: Part::Appliance,
            nameplate: va(12_000.0),
            tolerance: va(tolerance),
            state: State::Planned,
        }],
        service: Amperes::new(60.0).unwrap(),
        volts: 240.0,
        method: Method::Existing,
        spaces: None,
    };
    let sheet = judge(&plan(3000.0), book).unwrap();
    assert_eq!(sheet.sigma.as_ref().map(|s| s.read()), Some("600 VA, 2.50 A"));
    // 21,000 VA connected, 13,200 VA counted, 55 A: two σ below the 60 A of the service.
    let chance = sheet.chance_beyond.unwrap();
    assert!((chance - trade::normal::phi(-2.0)).abs() < 1e-9, "{chance}");
    assert_eq!(judge(&plan(0.0), book).unwrap().chance_beyond, Some(0.0));
}
