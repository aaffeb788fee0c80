//! Eight sink drains worked by hand, and the same drawn at random by a script.
//!
//! Source: own derivation of the vertical chain with trade values for the drops (common practice); 24 in outlet to
//! weir and 2 to 4 in seal: IRC 2006 P3201.6, IPC 1002.1; 1/4 in per ft: California Plumbing Code 2013 (UPC 2012) 708.1.

use trade::sink_drain::{Chain, Connection, Sigmas, levels, odds};
use trade::{Verdict, normal::phi, tape::print_inches, verdict};

const MEASURED: Sigmas = Sigmas {
    counter: 0.125,
    thick: 0.0625,
    depth: 0.0625,
    shell: 0.0625,
    connection: 0.125,
    trap: 0.375,
    fall: 0.0625,
    stub: 0.125,
};
const NOT_CHOSEN: Sigmas = Sigmas {
    counter: 0.25,
    thick: 0.125,
    depth: 0.75,
    shell: 0.125,
    connection: 0.75,
    trap: 0.5,
    fall: 0.125,
    stub: 0.25,
};

struct Example {
    id: &'static str,
    chain: Chain,
    stub: f64,
    sigmas: Sigmas,
    /// z_out, z_conn, STUB_MAX, STUB_ABS, STUB_MIN_CODE, STUB_MIN_CAB, margin as printed on paper.
    printed: [&'static str; 7],
    verdict: Verdict,
    /// P(over practical), P(over absolute) to four places; 1 stands for > 0.9999, 0 for < 0.0001.
    odds: [f64; 2],
}

#[rustfmt::skip]
fn examples() -> Vec<Example> {
    use {Connection::*, Verdict::*};
    let chain = |counter_height, offset, depth, shell, connection, run| {
        let (connection_drop, trap_drop) = if connection == Disposer { (6.5, 3.0) } else { (3.0, 1.5) };
        Chain {
            counter_height, offset, depth, shell, connection, connection_drop, trap_drop, run, slope: 0.25,
            trap_size: 1.5, seal: 2.25, seal_most: 4.0, cabinet_floor: 5.25, service: 1.0, outlet_to_weir_most: 24.0,
        }
    };
    let example = |id, chain, stub, sigmas, printed, verdict, odds| {
        Example { id, chain, stub, sigmas, printed, verdict, odds }
    };
    vec![
        example("EX1", chain(36.0, 1.25, 10.0, 0.75, Disposer, 18.0), 18.0, MEASURED,
            ["24-3/4", "17-1/2", "14-1/8", "15-7/8", "1-1/8", "10-1/2", "-3-7/8"], MustMove, [1.0, 1.0]),
        example("EX2", chain(36.0, -0.25, 8.0, 0.0625, Strainer, 18.0), 20.0, MEASURED,
            ["28-1/4", "25-3/16", "23-5/16", "25-1/16", "4-5/8", "10-1/2", "3-5/16"], Fits, [0.0, 0.0]),
        example("EX3", chain(36.0, 1.1875, 9.0, 0.0625, Disposer, 15.0), 16.0, MEASURED,
            ["25-13/16", "19-1/4", "15-15/16", "17-11/16", "2-1/4", "10-9/16", "-1/16"], Marginal, [0.5551, 0.0]),
        example("EX4", chain(36.0, -0.25, 6.0, 0.0625, Strainer, 12.0), 6.0, MEASURED,
            ["30-1/4", "27-3/16", "25-7/16", "27-3/16", "6-3/4", "10-5/8", "19-7/16"], TooLow, [0.0, 0.0]),
        // Read 16-1/2 from the old floor, the new floor is 3/4 higher.
        example("EX5", chain(36.0, 1.1875, 8.5, 0.0625, Disposer, 20.0), trade::datum::aff_after_new_floor(16.5, 0.75),
            MEASURED, ["26-5/16", "19-3/4", "16-5/16", "18-1/16", "2-5/8", "10-7/16", "9/16"], Fits, [0.0978, 0.0]),
        example("EX6", chain(34.0, 1.5, 6.5, 0.0625, Strainer, 24.0), 17.0, MEASURED,
            ["26", "22-15/16", "20-15/16", "22-11/16", "2-1/4", "10-3/8", "3-15/16"], Fits, [0.0, 0.0]),
        example("EX7", chain(36.0, 1.25, 9.0, 0.0625, Disposer, 18.0), 17.0, NOT_CHOSEN,
            ["25-3/4", "19-3/16", "15-13/16", "17-9/16", "2-1/8", "10-1/2", "-1-3/16"], Marginal, [0.8302, 0.3255]),
        example("EX8", chain(36.0, 1.25, 10.0, 0.75, Strainer, 18.0), 18.5, MEASURED,
            ["24-3/4", "21", "19-1/8", "20-7/8", "1-1/8", "10-1/2", "5/8"], Fits, [0.0828, 0.0]),
    ]
}

#[test]
fn every_level_prints_as_on_paper() {
    for example in examples() {
        let l = levels(&example.chain);
        let margin = l.stub_max - example.stub;
        let all =
            [l.outlet, l.connection, l.stub_max, l.stub_abs, l.stub_min_code, l.stub_min_cabinet, margin];
        let printed = all.map(|level| print_inches(level).unwrap());
        assert_eq!(printed, example.printed.map(|text| format!("{text}\"")), "{}", example.id);
    }
}

#[test]
fn every_verdict_is_the_one_on_paper() {
    for example in examples() {
        let l = levels(&example.chain);
        let got = verdict(example.stub, l.stub_min_code, l.stub_max, l.stub_abs);
        assert_eq!(got, example.verdict, "{}", example.id);
    }
}

#[test]
fn every_probability_is_the_one_on_paper_to_four_places() {
    for example in examples() {
        let l = levels(&example.chain);
        let odds = odds(example.stub, l.stub_max, l.stub_abs, &example.sigmas);
        let sigma = if example.sigmas == MEASURED { 0.451 } else { 1.244 };
        assert!((odds.sigma - sigma).abs() < 5e-4, "{}", example.id);
        for (got, paper) in [odds.over_practical, odds.over_absolute].into_iter().zip(example.odds) {
            assert!((got - paper).abs() < 1e-4, "{}: {got} {paper}", example.id);
        }
    }
}

/// 400 000 draws of every term by `make_drain_mc.py` with numpy; the sampling error is under 0.0008 (one σ).
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/drain_mc.json");

#[test]
fn the_closed_formula_agrees_with_random_draws() {
    let drawn: serde_json::Value = serde_json::from_str(DRAWN).unwrap();
    let cases = drawn["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 8);
    for (example, case) in examples().iter().zip(cases) {
        assert_eq!(case["id"], example.id);
        let l = levels(&example.chain);
        let sigma = example.sigmas.margin();
        let low = phi((l.stub_min_code - example.stub) / example.sigmas.low_margin());
        for (name, p) in [
            ("over_practical", phi((example.stub - l.stub_max) / sigma)),
            ("over_seal", phi((example.stub - l.seal) / sigma)),
            ("too_low", low),
        ] {
            let share = case[name].as_f64().unwrap();
            assert!((p - share).abs() < 0.002, "{} {name}: {p} against {share}", example.id);
        }
    }
}
