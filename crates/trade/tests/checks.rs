//! The shared vector file, topics A (sink drain) and J (tape), against the typed functions. The sources stand in the
//! file beside each case.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a helper of a test may stop the test")]

use serde_json::Value;
use trade::sink_drain::{
    Chain, Connection, Sigmas, levels, odds, required_below_counter_plane, without_disposer_gain,
};
use trade::{Code, datum, dishwasher, tape, trap_arm, trap_seal, verdict};

const CHECKS: &str = include_str!("../../../tests/vectors/trade/trade-checks.json");

fn cases(name: &str, least: usize) -> Vec<Value> {
    let all: Vec<Value> = serde_json::from_str(CHECKS).unwrap();
    let some: Vec<Value> = all.into_iter().filter(|c| c["inputs"]["fn"] == name).collect();
    assert!(some.len() >= least, "{name}: {} cases", some.len());
    some
}

fn num(case: &Value, key: &str) -> f64 {
    case["inputs"][key].as_f64().unwrap_or_else(|| panic!("{}: {key}", case["id"]))
}

fn close(case: &Value, key: &str, got: f64) {
    let expected = if key.is_empty() { &case["expected"] } else { &case["expected"][key] };
    let (expected, tolerance) = (expected.as_f64().unwrap(), case["tolerance"].as_f64().unwrap());
    assert!((got - expected).abs() <= tolerance, "{} {key}: {got} against {expected}", case["id"]);
}

fn code(case: &Value) -> Code {
    Code::parse(case["inputs"]["code"].as_str().unwrap()).unwrap()
}

#[test]
fn sink_drain_levels() {
    for case in cases("sink_drain_fit", 6) {
        let n = |key| num(&case, key);
        let l = levels(&Chain {
            counter_height: n("H"),
            offset: n("off"),
            depth: n("depth"),
            shell: n("shell"),
            connection: Connection::parse(case["inputs"]["conn"].as_str().unwrap()).unwrap(),
            connection_drop: n("conn_drop"),
            trap_drop: n("trap_drop"),
            run: n("run"),
            slope: n("slope"),
            trap_size: n("D"),
            seal: n("seal0"),
            seal_most: n("seal_max"),
            cabinet_floor: n("cab_floor"),
            service: n("svc"),
            outlet_to_weir_most: n("limit24"),
        });
        for (key, got) in [
            ("z_outlet", l.outlet),
            ("z_conn", l.connection),
            ("fall", l.fall),
            ("stub_max", l.stub_max),
            ("stub_abs", l.stub_abs),
            ("stub_flood", l.flood),
            ("stub_min_code", l.stub_min_code),
            ("stub_min_cab", l.stub_min_cabinet),
        ] {
            close(&case, key, got);
        }
    }
}

#[test]
fn odds_that_the_stub_must_move() {
    for case in cases("p_stub_must_move", 7) {
        let s = |key: &str| case["inputs"]["sigmas_in"][key].as_f64().unwrap();
        let sigmas = Sigmas {
            counter: s("counter"),
            thick: s("thick"),
            depth: s("depth"),
            shell: s("shell"),
            connection: s("conn"),
            trap: s("trap"),
            fall: s("fall"),
            stub: s("stub"),
        };
        let got = odds(num(&case, "stub_in"), num(&case, "stub_max"), num(&case, "stub_abs"), &sigmas);
        close(&case, "sigma_margin", got.sigma);
        close(&case, "p_over_practical", got.over_practical);
        close(&case, "p_over_absolute", got.over_absolute);
    }
}

#[test]
fn verdicts() {
    for case in cases("stub_verdict", 6) {
        let n = |key| num(&case, key);
        let got = verdict(n("stub_in"), n("stub_min_code"), n("stub_max"), n("stub_abs"));
        assert_eq!(case["expected"], got.word(), "{}", case["id"]);
    }
}

#[test]
fn trap_arms() {
    for case in cases("trap_arm_max_length_in", 7) {
        close(&case, "", trap_arm::longest(code(&case), num(&case, "trap_arm_diameter_in")).unwrap());
    }
    for case in cases("trap_arm_check", 7) {
        let n = |key| num(&case, key);
        let arm =
            trap_arm::check(code(&case), n("diameter_in"), n("length_in"), n("slope_in_per_ft")).unwrap();
        close(&case, "fall_in", arm.fall);
        close(&case, "max_len_in", arm.longest);
        close(&case, "min_len_in", arm.shortest);
        assert_eq!(case["expected"]["ok"], arm.faults.is_empty(), "{}", case["id"]);
    }
    for case in cases("fall_in", 1) {
        close(&case, "", trap_arm::fall(num(&case, "slope_in_per_ft"), num(&case, "run_in")));
    }
}

#[test]
fn sums_along_the_chain() {
    for case in cases("required_below_counter_plane_in", 2) {
        let n = |key| num(&case, key);
        let got =
            required_below_counter_plane(n("depth"), n("shell"), n("conn_drop"), n("trap_drop"), n("fall"));
        close(&case, "", got);
    }
    for case in cases("remove_disposer_gain_in", 1) {
        let n = |key| num(&case, key);
        let (disposer, strainer) = (n("disposer_drop"), n("strainer_drop"));
        let got = without_disposer_gain(disposer, n("disposer_trap_drop"), strainer, n("strainer_trap_drop"));
        close(&case, "", got);
    }
    for case in cases("stub_aff_from_cabinet_floor", 1) {
        let n = |key| num(&case, key);
        let (toe, floor) = (n("toe_kick_in"), n("cabinet_floor_thickness_in"));
        let got = datum::aff_from_cabinet_floor(toe, floor, n("reading_in"), n("new_floor_buildup_in"));
        close(&case, "", got);
    }
    for case in cases("stub_aff_after_new_floor", 1) {
        close(
            &case,
            "",
            datum::aff_after_new_floor(num(&case, "old_aff_in"), num(&case, "new_floor_buildup_in")),
        );
    }
}

#[test]
fn dishwashers_and_seals() {
    for case in cases("dishwasher_drain_ok", 4) {
        let method = dishwasher::Method::parse(case["inputs"]["method"].as_str().unwrap()).unwrap();
        assert_eq!(case["expected"], dishwasher::is_named(code(&case), method).0, "{}", case["id"]);
    }
    for case in cases("trap_seal_ok", 2) {
        assert_eq!(case["expected"], trap_seal::within_limits(num(&case, "seal_in")), "{}", case["id"]);
    }
}

#[test]
fn tape_arithmetic() {
    for case in cases("format_in_16", 6) {
        assert_eq!(case["expected"], tape::print_inches(num(&case, "inches")).unwrap(), "{}", case["id"]);
    }
    for case in cases("format_ftin_16", 3) {
        assert_eq!(
            case["expected"],
            tape::print_feet_inches(num(&case, "inches")).unwrap(),
            "{}",
            case["id"]
        );
    }
    for case in cases("in_to_mm", 2) {
        close(&case, "", tape::mm(num(&case, "inches")));
    }
    for case in cases("sqft_to_m2", 1) {
        close(&case, "", tape::square_meters(num(&case, "sqft")));
    }
    for case in cases("add_lengths", 1) {
        let terms: Vec<&str> =
            case["inputs"]["terms"].as_array().unwrap().iter().map(|t| t.as_str().unwrap()).collect();
        let sum = tape::add(&terms).unwrap();
        close(&case, "inches", sum);
        assert_eq!(case["expected"]["text"], tape::print_inches(sum).unwrap());
    }
}
