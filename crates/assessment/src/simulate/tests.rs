//! Sums of joint draws, by hand and against reference results of general-purpose libraries.

use proptest::prelude::*;
use serde_json::Value;

use super::*;

fn item(stream: u64, cost: Pert) -> Item {
    Item {
        stream,
        cost,
        days: Pert::fixed(1.0),
        stage: Stage::Demolition,
        trade: "plumber".into(),
        p_cost: 1.0,
        covers: vec![],
        in_base: false,
        utility_wait: false,
    }
}

fn fixed(costs: &[f64]) -> Vec<Item> {
    costs.iter().zip(1..).map(|(cost, stream)| item(stream, Pert::fixed(*cost))).collect()
}

fn pert(low: f64, likely: f64, high: f64) -> Pert {
    Pert::new(low, likely, high).unwrap()
}

fn always(items: &[Item]) -> Outcome {
    run(items, 400, 3, |present| present.fill(true), || true).unwrap()
}

/// Flags with given probabilities, independent of each other; a small generator of its own.
fn independent(p: Vec<f64>, seed: u64) -> impl FnMut(&mut [bool]) {
    let mut state = seed;
    move |present| {
        for (flag, p) in present.iter_mut().zip(&p) {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            *flag = ((state >> 11) as f64) * (1.0 / 9_007_199_254_740_992.0) < *p;
        }
    }
}

#[test]
fn what_another_covers_costs_nothing() {
    let mut items = fixed(&[100.0, 40.0]);
    assert_eq!(always(&items).money.mean, 140.0);
    items[0].covers = vec![1];
    assert_eq!((always(&items).money.mean, always(&items).days.mean), (100.0, 1.0));
    // Covered itself, an item still holds what it covers.
    let mut chain = fixed(&[100.0, 40.0, 7.0]);
    (chain[0].covers, chain[1].covers) = (vec![1], vec![2]);
    assert_eq!(always(&chain).money.mean, 100.0);
    // What does not become a cost covers nothing.
    items[0].p_cost = 0.0;
    assert_eq!(always(&items).money.mean, 40.0);
}

#[test]
fn what_the_base_price_holds_is_kept_apart() {
    let mut items = fixed(&[100.0, 40.0]);
    items[1].in_base = true;
    let outcome = always(&items);
    assert_eq!((outcome.money.mean, outcome.base_money.mean), (100.0, 40.0));
    assert_eq!((outcome.mean_of, outcome.days.mean), (vec![100.0, 0.0], 1.0));
}

#[test]
fn days_add_within_a_trade_and_stage_and_run_side_by_side_across_trades() {
    let mut items = fixed(&[1.0, 1.0, 1.0]);
    assert_eq!(always(&items).days.mean, 3.0);
    items[2].trade = "electrician".into();
    assert_eq!(always(&items).days.mean, 2.0);
    items[1].stage = Stage::RoughIn;
    assert_eq!(always(&items).days.mean, 2.0);
    items[0].utility_wait = true;
    let outcome = always(&items);
    assert_eq!((outcome.days.mean, outcome.utility_days.mean), (2.0, 1.0));
}

#[test]
fn percentiles_are_those_of_the_sum() {
    let out = run(&fixed(&[100.0]), 10_000, 9, independent(vec![0.15], 1), || true).unwrap();
    // One item at 15 %: its P80 is nothing, its P90 all of it.
    assert_eq!((out.money.p80, out.money.p90), (0.0, 100.0));
    assert!((out.money.mean - 15.0).abs() < 5.0 * out.money.se[0]);
}

#[test]
fn a_condition_keeps_its_draws_when_others_come_and_go() {
    let items: Vec<Item> = (1..6).map(|i| item(i, pert(100.0, 300.0, 900.0))).collect();
    let all = Draws::make(&items, 300, 7, |present| present.fill(true), || true).unwrap();
    // Alone, and with the others turned around, the third costs in every draw what it cost among them.
    let third = |draws: &Draws, index: usize| -> Vec<Entry> {
        let of = |entries: &[Entry]| *entries.iter().find(|e| e.item == index).unwrap();
        draws.iter().map(|entries| Entry { item: 0, ..of(entries) }).collect()
    };
    let alone = Draws::make(&items[2..3], 300, 7, |present| present.fill(true), || true).unwrap();
    let turned: Vec<Item> = items.iter().rev().cloned().collect();
    let turned = Draws::make(&turned, 300, 7, |present| present.fill(true), || true).unwrap();
    assert_eq!(third(&all, 2), third(&alone, 0));
    assert_eq!(third(&all, 2), third(&turned, 2));
    // Another seed is other luck; items given one stream still draw apart.
    assert_ne!(all, Draws::make(&items, 300, 8, |present| present.fill(true), || true).unwrap());
    let twins = vec![items[0].clone(), items[0].clone()];
    let twins = Draws::make(&twins, 300, 7, |present| present.fill(true), || true).unwrap();
    assert_ne!(third(&twins, 0), third(&twins, 1));
}

#[test]
fn a_stopped_simulation_returns_nothing_and_was_asked_often() {
    let items = fixed(&[100.0]);
    let mut asked = 0;
    let mut until = |most: u32| {
        asked = 0;
        run(
            &items,
            20_000,
            1,
            |present| present.fill(true),
            || {
                asked += 1;
                asked <= most
            },
        )
    };
    assert_eq!(until(0), None);
    assert_eq!(until(13), None);
    assert!(until(20).is_some());
    assert_eq!(asked, 20);
    assert_eq!(run(&items, 0, 1, |_| {}, || true).unwrap().money, Spread::default());
}

#[test]
fn contributions_add_up_to_the_mean_and_to_the_spread() {
    let items: Vec<Item> =
        (1..9).map(|i| item(i, pert(50.0 * i as f64, 300.0 * i as f64, 900.0 * i as f64))).collect();
    let out = run(&items, 20_000, 4, independent(vec![0.3; 8], 5), || true).unwrap();
    let kept = Draws::make(&items, 20_000, 4, independent(vec![0.3; 8], 5), || true).unwrap();
    assert_eq!(kept.outcome(&items), out, "kept or not, the draws are the same");
    assert!((out.mean_of.iter().sum::<f64>() / out.money.mean - 1.0).abs() < 1e-12);
    let spread = out.money.p80 - out.money.p50;
    // Windows of ±2.5 % around both percentiles: within a few percent of their difference.
    assert!((out.spread_of.iter().sum::<f64>() / spread - 1.0).abs() < 0.03, "{spread} {:?}", out.spread_of);
    // The larger the cost at equal odds, the more of both.
    assert!(out.mean_of.windows(2).all(|w| w[0] < w[1]), "{:?}", out.mean_of);
}

/// Exact moments; quantiles by transform of the exact densities (scipy's beta distribution), held to five standard
/// errors of 20,000 draws. `reckon money` answers the same cases without draws.
#[test]
fn simulated_sums_agree_with_exact_ones() {
    let file: Value =
        serde_json::from_str(include_str!("../../../../tests/vectors/assessment/cost.json")).unwrap();
    let number = |v: &Value| v.as_f64().unwrap();
    for case in file["cases"].as_array().unwrap() {
        let listed = case["items"].as_array().unwrap();
        let items: Vec<Item> = listed
            .iter()
            .zip(1..)
            .map(|(i, stream)| {
                let at = |k: usize| number(&i["pert"][k]);
                item(stream, pert(at(0), at(1), at(2)))
            })
            .collect();
        let p = |key: &str| -> Vec<f64> { listed.iter().map(|i| number(&i[key])).collect() };
        let out = if case["model"] == "independent" {
            run(&items, 20_000, 11, independent(p("p"), 2), || true).unwrap()
        } else {
            let (mut common, mut absent, mut present) = (
                independent(vec![number(&case["p_common"])], 3),
                independent(p("p_if_absent"), 4),
                independent(p("p_if_present"), 5),
            );
            let sample = |flags: &mut [bool]| {
                let mut holds = [false];
                common(&mut holds);
                if holds[0] { present(flags) } else { absent(flags) }
            };
            run(&items, 20_000, 11, sample, || true).unwrap()
        };
        let near = |what: &str, got: f64, exact: f64, error: f64| {
            let id = &case["id"];
            assert!((got - exact).abs() <= 5.0 * error + 1e-9, "{id} {what}: {got} {exact} ± {error}");
        };
        near("mean", out.money.mean, number(&case["mean"]), out.money.se[0]);
        let n = out.sorted_money.len() as f64;
        let zero = out.sorted_money.iter().filter(|x| **x == 0.0).count() as f64 / n;
        let exact = number(&case["p_zero"]);
        near("P(nothing)", zero, exact, (exact * (1.0 - exact) / n).sqrt());
        for (name, got, error) in [
            ("P50", out.money.p50, out.money.se[1]),
            ("P80", out.money.p80, out.money.se[2]),
            ("P90", out.money.p90, out.money.se[3]),
        ] {
            near(name, got, number(&case["quantiles"][name]["numeric"]), error);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    /// Days by stage and trade: the same as adding them up draw by draw.
    #[test]
    fn days_are_those_of_the_calendar(
        rows in proptest::collection::vec((0usize..3, 0usize..3, 0.0..4.0f64, any::<bool>()), 1..7),
    ) {
        let stages = [Stage::Demolition, Stage::RoughIn, Stage::CloseUp];
        let items: Vec<Item> = rows.iter().zip(1..).map(|((stage, trade, days, in_base), stream)| Item {
            days: Pert::fixed(*days),
            stage: stages[*stage],
            trade: ["plumber", "electrician", "carpenter"][*trade].to_owned(),
            in_base: *in_base,
            ..item(stream, Pert::fixed(1.0))
        }).collect();
        let counted = items.iter().filter(|i| !i.in_base);
        let by_hand = working_days(counted.map(|i| (i.stage, i.trade.as_str(), i.days.low())));
        prop_assert!((always(&items).days.p50 - by_hand).abs() < 1e-12);
    }
}

/// Presence that depends on the number of the draw alone.
fn numbered(p: &[f64], first: u32) -> impl FnMut(&mut [bool]) {
    let mut draw = u64::from(first);
    move |present| {
        for ((flag, p), item) in present.iter_mut().zip(p).zip(1u64..) {
            let word = stream::philox([draw, item], 7)[0];
            *flag = stream::unit(word) < *p;
        }
        draw += 1;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    /// Money alone, by several threads, is the money of the whole, to the last bit.
    #[test]
    fn money_alone_is_the_money_of_all(
        rows in proptest::collection::vec(
            (0.0..1.0f64, 0.0..900.0f64, 0.0..1.0f64, any::<bool>(), proptest::option::of(0usize..6)), 0..70),
        draws in 0u32..3_000,
    ) {
        let p: Vec<f64> = rows.iter().map(|row| row.0).collect();
        let items: Vec<Item> = rows.iter().zip(1..).map(|((_, low, p_cost, in_base, covers), stream)| Item {
            days: pert(0.0, 1.0, 4.0),
            p_cost: *p_cost,
            in_base: *in_base,
            covers: covers.iter().copied().filter(|c| *c < rows.len()).collect(),
            ..item(stream, pert(*low, low + 50.0, low + 400.0))
        }).collect();
        let all = run(&items, draws, 5, numbered(&p, 0), || true).unwrap();
        let mut alone = money_alone(&items, draws, 5, &|first| numbered(&p, first), || true).unwrap();
        prop_assert_eq!(spread(&mut alone.clone()), all.money);
        alone.sort_unstable_by(f64::total_cmp);
        prop_assert_eq!(alone, all.sorted_money);
        // Told to stop, nothing comes back.
        let stopped = money_alone(&items, draws, 5, &|first| numbered(&p, first), || false);
        prop_assert_eq!(stopped.is_none(), draws > 0);
    }
}
