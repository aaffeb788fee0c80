//! Laws that hold for every input: no panic, monotone levels, probabilities that are probabilities.

use crate::english::English as _;
use std::sync::LazyLock;

use proptest::option::of;
use proptest::prelude::*;
use survey::catalog::{Shelf, builtin};
use survey::units::Length;
use trade::dishwasher::Method;
use trade::sink_drain::{
    Chain, Connection, CounterDatum, SecondBowl, SinkPlan, fit, fit_under, judge, levels,
};
use trade::tolerance::Reading;
use trade::{
    Datum, DrainAnswer, DrainDefaults, DrainFit, Mount, Shell, Standing, Verdict, tape, trap_arm, trap_seal,
    verdict,
};

/// The shelf that ships.
static SHELF: LazyLock<Shelf> = LazyLock::new(|| builtin().unwrap().shelf);

fn any_length() -> impl Strategy<Value = Length> {
    prop_oneof![any::<i64>(), 0_i64..30_000_000].prop_map(Length::from_eighth_um)
}

fn household(range: core::ops::Range<i64>) -> impl Strategy<Value = Length> {
    range.prop_map(|sixteenths| Length::from_sixty_fourths(sixteenths * 4))
}

fn any_reading() -> impl Strategy<Value = Reading> {
    (any_length(), of(any_length())).prop_map(|(value, tolerance)| Reading { value, tolerance })
}

/// A reading of a kitchen, in sixteenths.
fn kitchen(range: core::ops::Range<i64>) -> impl Strategy<Value = Reading> {
    (household(range), of(household(0..16))).prop_map(|(value, tolerance)| Reading { value, tolerance })
}

type AnyReading = BoxedStrategy<Reading>;

/// Plans whose readings come from the strategies given: stub, counter, thickness, depths, drops and everything else.
fn plan_of(
    stub: AnyReading,
    counter: AnyReading,
    thick: AnyReading,
    depth: AnyReading,
    drop: AnyReading,
    rest: AnyReading,
) -> impl Strategy<Value = SinkPlan> {
    let mount = prop_oneof![Just(Mount::Undermount), Just(Mount::DropIn), Just(Mount::ApronFront)];
    let shell =
        prop_oneof![Just(Shell::Steel), Just(Shell::Composite), Just(Shell::Fireclay), Just(Shell::CastIron)];
    let datum = prop_oneof![Just(Datum::FinishedFloor), Just(Datum::CabinetFloor)];
    let floor = prop_oneof![Just(CounterDatum::NewFloor), Just(CounterDatum::OldFloor)];
    let method = prop::sample::select(Method::ALL.to_vec());
    let second = (depth.clone(), of(any::<bool>()), of(drop.clone()), of(drop.clone()), of(rest.clone()))
        .prop_map(|(depth, disposer, disposer_drop, strainer_drop, distance)| SecondBowl {
            depth,
            disposer,
            disposer_drop,
            strainer_drop,
            distance,
        });
    let sink = (
        of(mount),
        of(depth),
        of(shell),
        of(counter),
        of(floor),
        of(thick.clone()),
        of(thick),
        of(rest.clone()),
    );
    let drops = (of(drop.clone()), of(drop));
    let under = (of(any::<bool>()), drops, of(any::<bool>()), of(method), of(rest.clone()), of(second));
    let stub = (of(stub), of(datum), of(rest.clone()), of(rest));
    (sink, under, stub).prop_map(|(sink, under, stub)| SinkPlan {
        mount: sink.0,
        bowl_depth: sink.1,
        shell: sink.2,
        counter_height: sink.3,
        counter_datum: sink.4,
        counter_thick: sink.5,
        rim: sink.6,
        floor_buildup: sink.7,
        disposer: under.0,
        disposer_drop: under.1.0,
        strainer_drop: under.1.1,
        dishwasher: under.2,
        dishwasher_method: under.3,
        run: under.4,
        second: under.5,
        stub: stub.0,
        stub_datum: stub.1,
        toe_kick: stub.2,
        cabinet_floor_thick: stub.3,
    })
}

fn any_plan() -> impl Strategy<Value = SinkPlan> {
    let r = || any_reading().boxed();
    plan_of(r(), r(), r(), r(), r(), r())
}

/// Plans of sizes that occur, with what there must be.
fn kitchen_plan() -> impl Strategy<Value = SinkPlan> {
    let r = |range| kitchen(range).boxed();
    let any = plan_of(r(32..500), r(500..640), r(8..40), r(80..200), r(60..150), r(0..64));
    (any, kitchen(32..500), kitchen(80..200)).prop_map(|(plan, stub, depth)| SinkPlan {
        stub: Some(stub),
        bowl_depth: Some(depth),
        ..plan
    })
}

fn answer(plan: &SinkPlan) -> Option<DrainFit> {
    match fit_under(plan, &DrainDefaults::trade(), SHELF.book("ipc-2021").unwrap()).unwrap() {
        DrainAnswer::Fit(fit) => Some(*fit),
        DrainAnswer::CannotSay { .. } => None,
    }
}

/// The reading, longer by sixteenths.
fn longer(reading: Option<Reading>, sixteenths: i64) -> Option<Reading> {
    reading.map(|r| Reading { value: r.value + Length::from_sixty_fourths(sixteenths * 4), ..r })
}

fn chain(connection: Connection, n: [f64; 14]) -> Chain {
    Chain {
        counter_height: n[0],
        offset: n[1],
        depth: n[2],
        shell: n[3],
        connection,
        connection_drop: n[4],
        trap_drop: n[5],
        run: n[6],
        slope: n[7],
        trap_size: n[8],
        seal: n[9],
        seal_most: n[10],
        cabinet_floor: n[11],
        service: n[12],
        outlet_to_weir_most: n[13],
    }
}

proptest! {
    #[test]
    fn no_plan_panics_and_every_probability_is_one(plan in any_plan()) {
        match fit(&plan, &DrainDefaults::trade(), &SHELF).unwrap() {
            DrainAnswer::CannotSay { missing } => {
                prop_assert!(!missing.is_empty());
                prop_assert!(plan.stub.is_none() || plan.bowl_depth.is_none());
            }
            DrainAnswer::Fit(fit) => {
                for p in [fit.p_over_practical, fit.p_over_absolute, fit.p_too_low, fit.p_outside()] {
                    prop_assert!((0.0..=1.0).contains(&p), "{}", p);
                }
                let bowls = || core::iter::once(&fit.first).chain(&fit.second);
                prop_assert!(
                    fit.p_over_absolute <= fit.p_over_practical
                        || bowls().any(|b| b.levels.stub_abs < b.levels.stub_max)
                );
                prop_assert!(fit.sigma > 0.0 && !fit.lines.is_empty());
                prop_assert!(fit.remedies.is_empty() || fit.verdict != Verdict::Fits);
                let sheet = fit.sheet();
                let by_height = Standing::of_chance(fit.p_outside());
                if by_height == Standing::Within && fit.also.iter().any(|b| b.of_code) {
                    prop_assert_eq!(sheet.standing, Standing::Near);
                } else {
                    prop_assert_eq!(sheet.standing, by_height);
                }
                prop_assert_eq!(sheet.chance_beyond, Some(fit.p_outside()));
                prop_assert!(fit.also.iter().all(|b| sheet.sentence.contains(b.text.read())), "{}", sheet.sentence);
                prop_assert!(!sheet.caution.is_empty() && sheet.picture.is_some());
            }
        }
        let sheet = judge(&plan, &DrainDefaults::trade(), &SHELF).unwrap();
        prop_assert_eq!(sheet.standing == Standing::CannotSay, !sheet.missing.is_empty());
    }

    #[test]
    fn no_finite_chain_panics(n in prop::array::uniform14(any::<f64>()), disposer in any::<bool>()) {
        let connection = if disposer { Connection::Disposer } else { Connection::Strainer };
        let l = levels(&chain(connection, n));
        let _ = verdict(n[0], l.stub_min_code, l.stub_max, l.stub_abs);
        let book = SHELF.book("ipc-2021").unwrap();
        let _ = (trap_arm::check(book, n[0], n[1], n[2]), trap_seal::within_limits(book, n[3]));
        let _ = (tape::print_inches(n[4]), tape::print_feet_inches(n[5]));
    }

    #[test]
    fn a_deeper_bowl_or_a_longer_run_never_raises_the_highest_stub(
        depth in 0.0..20.0, deeper in 0.0..10.0, run in 0.0..80.0, longer in 0.0..40.0, disposer in any::<bool>()
    ) {
        let connection = if disposer { Connection::Disposer } else { Connection::Strainer };
        let at = |depth, run| {
            let n = [36.0, 1.25, depth, 0.375, 6.5, 3.0, run, 0.25, 1.5, 2.25, 4.0, 5.25, 1.0, 24.0];
            levels(&chain(connection, n))
        };
        let base = at(depth, run);
        for other in [at(depth + deeper, run), at(depth, run + longer)] {
            prop_assert!(other.stub_max <= base.stub_max);
            prop_assert!(other.stub_abs <= base.stub_abs);
            prop_assert!(other.stub_min_code <= base.stub_min_code);
        }
    }

    #[test]
    fn a_deeper_bowl_a_thicker_counter_or_a_longer_run_never_raises_the_highest_stub(
        plan in kitchen_plan(), more in 0_i64..80, which in 0_usize..4
    ) {
        let mut worse = plan.clone();
        match which {
            0 => worse.bowl_depth = longer(plan.bowl_depth, more),
            1 => worse.counter_thick = longer(plan.counter_thick, more),
            2 => worse.run = longer(plan.run, more),
            _ => worse.second = plan.second.map(|s| SecondBowl {
                depth: longer(Some(s.depth), more).unwrap(), distance: longer(s.distance, more), ..s
            }),
        }
        if let (Some(base), Some(worse)) = (answer(&plan), answer(&worse)) {
            prop_assert!(worse.levels.stub_max <= base.levels.stub_max + 1e-9);
            prop_assert!(worse.levels.stub_abs <= base.levels.stub_abs + 1e-9);
        }
    }

    #[test]
    fn a_higher_stub_never_lowers_the_odds_that_it_must_come_down(plan in kitchen_plan(), more in 0_i64..80) {
        let higher = SinkPlan { stub: longer(plan.stub, more), ..plan.clone() };
        if let (Some(low), Some(high)) = (answer(&plan), answer(&higher)) {
            prop_assert!(high.p_over_practical >= low.p_over_practical - 1e-12);
            prop_assert!(high.p_over_absolute >= low.p_over_absolute - 1e-12);
            prop_assert!(high.p_too_low <= low.p_too_low + 1e-12);
        }
    }

    #[test]
    fn every_change_said_to_be_enough_makes_the_stub_fit(plan in kitchen_plan()) {
        if let Some(fit) = answer(&plan) {
            for remedy in &fit.remedies {
                let changed = answer(&plan.with(remedy)).unwrap();
                prop_assert_eq!(changed.verdict == Verdict::Fits, remedy.enough, "{:?}", remedy);
            }
            let moved = fit.remedies.first().is_none_or(|first| first.enough);
            prop_assert!(moved || fit.second.is_some(), "{:?}", fit.remedies);
        }
    }

    #[test]
    fn a_second_bowl_never_makes_room(plan in kitchen_plan()) {
        // With the first bowl's fitting said, for a disposer at the second would else move there.
        let plan = SinkPlan { disposer: plan.disposer.or(Some(true)), ..plan };
        let single = SinkPlan { second: None, ..plan.clone() };
        if let (Some(one), Some(two)) = (answer(&single), answer(&plan)) {
            prop_assert!(two.levels.stub_max <= one.levels.stub_max);
            prop_assert!(two.levels.stub_min_code >= one.levels.stub_min_code);
            prop_assert!(two.verdict != Verdict::Fits || one.verdict == Verdict::Fits);
        }
    }

    #[test]
    fn the_thickness_of_a_new_floor_cancels_where_the_counter_stays(
        plan in kitchen_plan(), floor in kitchen(0..64), cabinet in any::<bool>()
    ) {
        let with = |buildup| SinkPlan {
            counter_datum: Some(CounterDatum::OldFloor),
            stub_datum: Some(if cabinet { Datum::CabinetFloor } else { Datum::FinishedFloor }),
            floor_buildup: Some(buildup),
            ..plan.clone()
        };
        if let (Some(none), Some(some)) = (answer(&with(Reading::plain(Length::ZERO))), answer(&with(floor))) {
            prop_assert!((none.margin - some.margin).abs() < 1e-9);
            prop_assert!((none.sigma - some.sigma).abs() < 1e-12);
            prop_assert!((none.p_outside() - some.p_outside()).abs() < 1e-9);
        }
    }

    #[test]
    fn a_deeper_bowl_never_lowers_the_odds_that_the_stub_must_move(
        depth in household(80..200), more in household(0..80), stub in household(96..400), open in any::<bool>()
    ) {
        let p = |depth| {
            let plan = SinkPlan {
                bowl_depth: Some(Reading::plain(depth)),
                disposer: if open { None } else { Some(false) },
                stub: Some(Reading { value: stub, tolerance: Some(Length::from_sixty_fourths(8)) }),
                ..SinkPlan::default()
            };
            match fit(&plan, &DrainDefaults::trade(), &SHELF).unwrap() {
                DrainAnswer::Fit(fit) => fit.p_over_practical,
                DrainAnswer::CannotSay { .. } => f64::NAN,
            }
        };
        prop_assert!(p(depth + more) >= p(depth));
    }
}
