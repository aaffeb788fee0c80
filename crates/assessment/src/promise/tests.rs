//! Premiums by hand, and premiums after checks against a slow reckoning by Bayes' rule.

use proptest::prelude::*;
use survey::catalog::Stage;
use trade::pert::Pert;

use super::after::{Patterns, Read};
use super::*;
use crate::simulate::Item;

fn item(stream: u64, cost: Pert) -> Item {
    Item {
        stream,
        cost,
        days: Pert::fixed(0.0),
        stage: Stage::Demolition,
        trade: String::new(),
        p_cost: 1.0,
        covers: Vec::new(),
        in_base: false,
        utility_wait: false,
    }
}

/// Draws in which exactly these patterns of presence come, each so often.
fn draws(costs: &[Pert], patterns: &[(u32, &[bool])]) -> Draws {
    let items: Vec<Item> = costs.iter().zip(1..).map(|(cost, stream)| item(stream, *cost)).collect();
    let mut rows = patterns.iter().flat_map(|(times, row)| std::iter::repeat_n(*row, *times as usize));
    let number = patterns.iter().map(|(times, _)| times).sum();
    Draws::make(&items, number, 1, |present| present.copy_from_slice(rows.next().unwrap()), || true).unwrap()
}

/// $2,000 in 1 of 5 houses and $5,000 in 1 of 10, independent of each other: the example of docs/promise.md.
fn two() -> Draws {
    let costs = [Pert::fixed(2_000.0), Pert::fixed(5_000.0)];
    draws(&costs, &[(72, &[false, false]), (18, &[true, false]), (8, &[false, true]), (2, &[true, true])])
}

#[test]
fn the_example_of_the_page_comes_out_as_by_hand() {
    let (draws, terms) = (two(), Terms::default());
    let both = price(&draws, &[0, 1], 6_000.0, &terms);
    // (18·2,000 + 8·5,000 + 2·6,000)/100 = 880; 90 of 100 payouts are within 2,000; 880 + 0.5·(2,000 − 880) = 1,440.
    assert_eq!((both.mean, both.p80, both.p90, both.reached), (880.0, 2_000.0, 2_000.0, 0.02));
    assert_eq!(both.premium, 1_440.0);
    // √(0.02·0.98/100) = 0.014.
    assert!((both.se[3] - 0.014).abs() < 1e-12);
    let without = without_each(&draws, &[0, 1], 6_000.0, &terms);
    // Without the first: mean 500, P90 0, 500 − 250. Without the second: mean 400, P90 2,000, 400 + 800.
    assert_eq!([without[0].premium, without[1].premium], [250.0, 1_200.0]);
    // Nothing but the mean, and the percentile itself.
    let at = |loading| price(&draws, &[0, 1], 6_000.0, &Terms { loading, ..terms }).premium;
    assert_eq!((at(0.0), at(1.0)), (880.0, 2_000.0));
    assert_eq!(price(&draws, &[], 6_000.0, &terms).premium, 0.0);
}

#[test]
fn what_another_one_holds_is_not_paid_twice() {
    let mut items = vec![item(1, Pert::fixed(2_000.0)), item(2, Pert::fixed(5_000.0))];
    items[1].covers = vec![0];
    let draws = Draws::make(&items, 100, 1, |present| present.fill(true), || true).unwrap();
    let mean = |covered: &[usize]| price(&draws, covered, 1e9, &Terms::default()).mean;
    assert_eq!((mean(&[0]), mean(&[1]), mean(&[0, 1])), (0.0, 5_000.0, 5_000.0));
}

#[test]
fn a_check_of_the_dear_one_brings_the_premium_down_when_it_shows_nothing() {
    let patterns = Patterns::of(&two(), &[0, 1], 6_000.0, Terms::default());
    let read = Read { at: 1, sensitivity: 0.9, specificity: 0.95 };
    let after = patterns.after(&[read], 1_250.0);
    // Shows nothing: 0.9·0.95 + 0.1·0.1 = 0.865; then it is there with 0.01/0.865. P90 stays 2,000:
    // P(at most 2,000) = 1 − 0.01156. mean = 0.2·2,000·(1 − q) + q·(0.8·5,000 + 0.2·6,000).
    let q = 0.01 / 0.865;
    let mean = 400.0 * (1.0 - q) + q * 5_200.0;
    let premium = mean + 0.5 * (2_000.0 - mean);
    assert!((after.clear.0 - 0.865).abs() < 1e-12 && (after.clear.1 - premium).abs() < 1e-9);
    assert!((after.chance - 0.865).abs() < 1e-12, "{premium} is at most 1,250 and the other is not");
    // Shows it: there with 0.09/0.135 = 2/3; mean 2/3·5,200 + 1/3·400, P90 6,000 (reached in 0.2·2/3 of houses).
    let mean = 2.0 / 3.0 * 5_200.0 + 1.0 / 3.0 * 400.0;
    let dear = mean + 0.5 * (6_000.0 - mean);
    assert!((after.expected - (0.865 * premium + 0.135 * dear)).abs() < 1e-9);
}

/// The premium after each result, draw by draw: weights by Bayes' rule, percentile by adding up sorted payouts.
fn slow(draws: &Draws, covered: &[usize], cap: f64, terms: &Terms, reads: &[Read]) -> Vec<(f64, f64)> {
    let paid: Vec<f64> = payouts(draws, covered).into_iter().map(|x| x.min(cap)).collect();
    (0..1usize << reads.len())
        .map(|result| {
            let weight = |draw: usize| -> f64 {
                let there = |at: usize| draws.entries(draw).iter().any(|e| e.item == covered[at]);
                let each = reads.iter().enumerate().map(|(k, r)| {
                    let p = if there(r.at) { r.sensitivity } else { 1.0 - r.specificity };
                    if result >> k & 1 == 1 { p } else { 1.0 - p }
                });
                each.product()
            };
            let mut rows: Vec<(f64, f64)> = paid.iter().enumerate().map(|(d, x)| (*x, weight(d))).collect();
            rows.sort_by(|a, b| a.0.total_cmp(&b.0));
            let whole: f64 = rows.iter().map(|(_, w)| w).sum();
            let mean = rows.iter().map(|(x, w)| x * w).sum::<f64>() / whole;
            let mut sum = 0.0;
            let p90 = rows.iter().find(|(_, w)| {
                sum += w;
                sum >= whole * (0.9 - 1e-12)
            });
            (whole / paid.len() as f64, mean + terms.loading * (p90.map_or(0.0, |(x, _)| *x) - mean))
        })
        .collect()
}

/// Draws of five conditions that go together in pairs, with costs that have a spread.
fn five(number: u32, salt: u64) -> Draws {
    let items: Vec<Item> = (1..6)
        .map(|i| item(i, Pert::new(200.0 * i as f64, 500.0 * i as f64, 1_500.0 * i as f64).unwrap()))
        .collect();
    let mut state = salt;
    let mut next = move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / 2_147_483_648.0
    };
    let sample = move |present: &mut [bool]| {
        let wet = next() < 0.3;
        present.iter_mut().for_each(|p| *p = next() < if wet { 0.5 } else { 0.1 });
    };
    Draws::make(&items, number, salt, sample, || true).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Counting by patterns and blocks gives what weighing every draw gives.
    #[test]
    fn premiums_after_checks_are_those_of_bayes_rule(
        salt in 1u64..1_000_000, cap in 500.0..9_000.0f64, loading in 0.0..=1.0f64,
        rates in proptest::collection::vec((0usize..3, 0.05..0.95f64, 0.05..0.95f64), 0..4),
    ) {
        let (draws, covered) = (five(700, salt), [4, 1, 2]);
        let terms = Terms { loading, ..Terms::default() };
        let reads: Vec<Read> = rates.iter()
            .map(|(at, sensitivity, specificity)| Read { at: *at, sensitivity: *sensitivity, specificity: *specificity })
            .collect();
        let by_hand = slow(&draws, &covered, cap, &terms, &reads);
        let wanted = by_hand[0].1 + 1e-6;
        let got = Patterns::of(&draws, &covered, cap, terms).after(&reads, wanted);
        prop_assert!((by_hand.iter().map(|(p, _)| p).sum::<f64>() - 1.0).abs() < 1e-9);
        let chance: f64 = by_hand.iter().filter(|(_, premium)| *premium <= wanted).map(|(p, _)| p).sum();
        let expected: f64 = by_hand.iter().map(|(p, premium)| p * premium).sum();
        // A percentile at a step may fall on either side of it by rounding, so chances may differ there.
        let steps = by_hand.iter().any(|(_, premium)| (premium - wanted).abs() < 1e-3 && *premium > wanted);
        prop_assert!(steps || (got.chance - chance).abs() < 1e-9, "{} {chance}", got.chance);
        prop_assert!((got.expected - expected).abs() < 1e-6 * expected.max(1.0));
        prop_assert!((got.clear.0 - by_hand[0].0).abs() < 1e-9 && (got.clear.1 - by_hand[0].1).abs() < 1e-6);
    }

    /// Looking does not change what is there: without a loading the average premium stays what it was.
    #[test]
    fn over_the_results_of_a_check_the_mean_stays(
        salt in 1u64..1_000_000, sensitivity in 0.0..=1.0f64, specificity in 0.0..=1.0f64,
    ) {
        let (draws, covered) = (five(500, salt), [0, 3]);
        let terms = Terms { loading: 0.0, ..Terms::default() };
        let read = Read { at: 1, sensitivity, specificity };
        let after = Patterns::of(&draws, &covered, 4_000.0, terms).after(&[read], 0.0);
        let before = price(&draws, &covered, 4_000.0, &terms);
        prop_assert!((after.expected - before.mean).abs() < 1e-9 * before.mean.max(1.0));
    }

    /// A higher cap never costs less, a further condition never pays less on average.
    #[test]
    fn more_is_never_cheaper(salt in 1u64..1_000_000, cap in 500.0..9_000.0f64, more in 0.0..2_000.0f64) {
        let (draws, terms) = (five(500, salt), Terms::default());
        let at = |covered: &[usize], cap: f64| price(&draws, covered, cap, &terms);
        let (low, high) = (at(&[0, 2], cap), at(&[0, 2], cap + more));
        prop_assert!(high.premium >= low.premium - 1e-9 && high.reached <= low.reached);
        prop_assert!(at(&[0, 2, 4], cap).mean >= low.mean - 1e-9);
        prop_assert!(low.mean <= cap && low.p90 <= cap && low.p80 <= low.p90);
    }
}

fn check(cost: f64, reads: &[(usize, f64, f64)]) -> Check {
    let one = |(item, sensitivity, specificity): &(usize, f64, f64)| Reads {
        condition: *item,
        sensitivity: *sensitivity,
        specificity: *specificity,
    };
    Check { minutes: cost / 2.0, cost, reads: reads.iter().map(one).collect() }
}

fn some_checks() -> Vec<Check> {
    vec![
        check(8.0, &[(0, 0.6, 0.8)]),
        check(25.0, &[(1, 0.9, 0.95)]),
        check(40.0, &[(4, 0.85, 0.97), (1, 0.7, 0.9)]),
        check(12.0, &[(3, 0.9, 0.9)]),
        check(60.0, &[(4, 0.95, 0.99), (0, 0.9, 0.9)]),
    ]
}

#[test]
fn the_set_found_is_the_cheapest_of_all_that_suffice() {
    let (draws, covered, terms) = (five(4_000, 9), [0, 1, 4], Terms::default());
    let checks = some_checks();
    let (cap, before) = (6_000.0, price(&draws, &[0, 1, 4], 6_000.0, &terms).premium);
    let mut sizes = Vec::new();
    for wanted in [0.95, 0.8, 0.6, 0.45, 0.3, 0.2, 0.1, 0.02].map(|part| part * before) {
        let found = cheapest(&draws, &covered, cap, wanted, &terms, &checks, || true).unwrap();
        assert!(found.every);
        // All 32 sets by hand; the fourth check tells of nothing promised.
        let chance = |bits: u32| -> f64 {
            let reads: Vec<Read> = (0..5)
                .filter(|c| bits >> c & 1 == 1)
                .flat_map(|c| &checks[c as usize].reads)
                .filter_map(|r| {
                    let at = covered.iter().position(|c| *c == r.condition)?;
                    Some(Read { at, sensitivity: r.sensitivity, specificity: r.specificity })
                })
                .collect();
            let results = slow(&draws, &covered, cap, &terms, &reads);
            results.iter().filter(|(_, premium)| *premium <= wanted).map(|(p, _)| p).sum()
        };
        let cost = |bits: u32| -> f64 {
            (0..5).filter(|c| bits >> c & 1 == 1).map(|c| checks[c as usize].cost).sum()
        };
        let least = (1..32u32).filter(|bits| chance(*bits) >= terms.chance).map(cost).reduce(f64::min);
        assert_eq!(found.found.as_ref().map(|p| p.cost), least, "{wanted}");
        if let Some(plan) = found.found {
            assert!(plan.chance >= terms.chance && plan.if_clear <= wanted && !plan.checks.contains(&3));
            assert_eq!(plan.minutes, plan.cost / 2.0);
            sizes.push(plan.checks.len());
        } else {
            assert!(found.nearest.is_some_and(|n| n.chance < terms.chance));
        }
    }
    assert!(sizes.iter().any(|s| *s > 1), "some figure needs more than one check: {sizes:?}");
}

#[test]
fn no_check_brings_a_premium_under_nothing_and_that_is_said() {
    let (draws, terms) = (five(1_000, 3), Terms::default());
    let search =
        |checks: &[Check]| cheapest(&draws, &[0, 1, 4], 6_000.0, 0.0, &terms, checks, || true).unwrap();
    let hopeless = search(&some_checks());
    assert!(hopeless.found.is_none() && hopeless.nearest.is_some() && hopeless.every);
    assert_eq!(search(&[]), Search { found: None, nearest: None, every: true });
    assert_eq!(search(&some_checks()[3..4]).nearest, None, "it tells of nothing that is promised");
    assert_eq!(cheapest(&draws, &[0, 1, 4], 6_000.0, 0.0, &terms, &some_checks(), || false), None);
}

#[test]
fn many_checks_are_built_up_one_by_one_and_thinned() {
    let (draws, covered, terms) = (five(2_000, 5), [0, 1, 2, 3, 4], Terms::default());
    let before = price(&draws, &covered, 9_000.0, &terms).premium;
    // Fourteen weak checks; no single one is enough.
    let checks: Vec<Check> =
        (0..14).map(|i| check(20.0 + i as f64, &[(i % 5, 0.5 + 0.02 * i as f64, 0.9)])).collect();
    let wanted = 0.6 * before;
    let found = cheapest(&draws, &covered, 9_000.0, wanted, &terms, &checks, || true).unwrap();
    assert!(!found.every);
    let plan = found.found.unwrap();
    assert!(plan.chance >= terms.chance && plan.checks.len() > 1, "{plan:?}");
    // None of them can be left out.
    for left_out in &plan.checks {
        let fewer: Vec<Check> =
            plan.checks.iter().filter(|c| *c != left_out).map(|c| checks[*c].clone()).collect();
        let again = cheapest(&draws, &covered, 9_000.0, wanted, &terms, &fewer, || true).unwrap();
        assert!(again.found.is_none(), "{left_out} of {:?} can be left out", plan.checks);
    }
    let mut asked = 0;
    let stopped = cheapest(&draws, &covered, 9_000.0, wanted, &terms, &checks, || {
        asked += 1;
        asked < 20
    });
    assert_eq!((stopped, asked), (None, 20));
}
