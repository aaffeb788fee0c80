//! Laws that hold for every input: no panic, monotone levels, probabilities that are probabilities.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a helper of a test may stop the test")]

use proptest::option::of;
use proptest::prelude::*;
use survey::units::Length;
use trade::sink_drain::{Chain, Connection, SinkPlan, fit, levels};
use trade::{Code, Datum, DrainAnswer, DrainDefaults, Mount, Shell, tape, trap_arm, trap_seal, verdict};

fn any_length() -> impl Strategy<Value = Length> {
    prop_oneof![any::<i64>(), 0_i64..30_000_000].prop_map(Length::from_eighth_um)
}

fn household(range: core::ops::Range<i64>) -> impl Strategy<Value = Length> {
    range.prop_map(|sixteenths| Length::from_sixty_fourths(sixteenths * 4))
}

fn any_plan() -> impl Strategy<Value = SinkPlan> {
    let mount = prop_oneof![Just(Mount::Undermount), Just(Mount::DropIn), Just(Mount::ApronFront)];
    let shell =
        prop_oneof![Just(Shell::Steel), Just(Shell::Composite), Just(Shell::Fireclay), Just(Shell::CastIron)];
    let datum = prop_oneof![Just(Datum::FinishedFloor), Just(Datum::CabinetFloor)];
    let code = prop_oneof![Just(Code::Ipc), Just(Code::Upc)];
    let sink = (of(mount), of(any_length()), of(shell), of(any_length()), of(any_length()), of(any_length()));
    let under = (of(any::<bool>()), of(any_length()), of(any::<bool>()), of(any_length()));
    let stub = (of((any_length(), any_length())), of(datum), of(any_length()), of(any_length()), of(code));
    (sink, under, stub).prop_map(|(sink, under, stub)| SinkPlan {
        mount: sink.0,
        bowl_depth: sink.1,
        shell: sink.2,
        counter_height: sink.3,
        counter_thick: sink.4,
        floor_buildup: sink.5,
        disposer: under.0,
        disposer_drop: under.1,
        dishwasher: under.2,
        run: under.3,
        stub: stub.0,
        stub_datum: stub.1,
        toe_kick: stub.2,
        cabinet_floor_thick: stub.3,
        code: stub.4,
    })
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
        match fit(&plan, &DrainDefaults::trade()) {
            DrainAnswer::CannotSay { missing } => {
                prop_assert!(!missing.is_empty());
                prop_assert!(plan.stub.is_none() || plan.bowl_depth.is_none());
            }
            DrainAnswer::Fit(fit) => {
                for p in [fit.p_over_practical, fit.p_over_absolute, fit.p_too_low, fit.p_outside()] {
                    prop_assert!((0.0..=1.0).contains(&p), "{}", p);
                }
                prop_assert!(fit.p_over_absolute <= fit.p_over_practical || fit.levels.stub_abs < fit.levels.stub_max);
                prop_assert!(fit.sigma > 0.0 && !fit.lines.is_empty());
                prop_assert_eq!(fit.remedies.is_empty(), fit.verdict == trade::Verdict::Fits);
            }
        }
    }

    #[test]
    fn no_finite_chain_panics(n in prop::array::uniform14(any::<f64>()), disposer in any::<bool>()) {
        let connection = if disposer { Connection::Disposer } else { Connection::Strainer };
        let l = levels(&chain(connection, n));
        let _ = verdict(n[0], l.stub_min_code, l.stub_max, l.stub_abs);
        let _ = (trap_arm::check(Code::Ipc, n[0], n[1], n[2]), trap_seal::within_limits(n[3]));
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
    fn a_deeper_bowl_never_lowers_the_odds_that_the_stub_must_move(
        depth in household(80..200), more in household(0..80), stub in household(96..400), open in any::<bool>()
    ) {
        let p = |depth| {
            let plan = SinkPlan {
                bowl_depth: Some(depth),
                disposer: if open { None } else { Some(false) },
                stub: Some((stub, Length::from_sixty_fourths(8))),
                ..SinkPlan::default()
            };
            match fit(&plan, &DrainDefaults::trade()) {
                DrainAnswer::Fit(fit) => fit.p_over_practical,
                DrainAnswer::CannotSay { .. } => f64::NAN,
            }
        };
        prop_assert!(p(depth + more) >= p(depth));
    }
}
