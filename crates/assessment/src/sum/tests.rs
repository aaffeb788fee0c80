//! Laws of sums, against enumeration and against integrals of the exact distributions.

use proptest::prelude::*;

use super::joint::{Joint, quantile};
use super::*;

fn pert(low: f64, likely: f64, high: f64) -> Pert {
    Pert::new(low, likely, high).unwrap()
}

/// P(each combination) of independent things, the first the highest bit.
fn combinations(p: &[f64]) -> Vec<f64> {
    p.iter().fold(vec![1.0], |table, p| table.iter().flat_map(|t| [t * (1.0 - p), t * p]).collect())
}

#[test]
fn one_cost_has_the_quantiles_of_its_estimate() {
    let cost = pert(1050.0, 2670.0, 5140.0);
    let sum = CostSum::independent([(0.637, cost)]).unwrap();
    for q in [0.1, 0.363] {
        assert_eq!(sum.quantiles(&[q]).unwrap(), [0.0], "nothing comes with probability 0.363");
    }
    for q in [0.4, 0.5, 0.8, 0.99] {
        let x = sum.quantiles(&[q]).unwrap()[0];
        let exact = cost.quantile((q - 0.363) / 0.637);
        assert!((x - exact).abs() < 1e-3, "{q}: {x} {exact}");
    }
}

#[test]
fn two_costs_have_the_distribution_of_the_integral() {
    // P(X + Y ≤ x) = ∫ F_Y(x − F_X⁻¹(u)) du over (0, 1), midpoint rule.
    let (a, b) = (pert(200.0, 300.0, 900.0), pert(500.0, 500.0, 700.0));
    let law = CostSum::independent([(1.0, a), (1.0, b)]).unwrap().law().unwrap();
    let places: Vec<f64> = (0..4000).map(|i| a.quantile((f64::from(i) + 0.5) / 4000.0)).collect();
    for x in [720.0, 800.0, 900.0, 1100.0, 1400.0] {
        let exact = places.iter().map(|y| b.cdf(x - y)).sum::<f64>() / 4000.0;
        assert!((law.cdf(x) - exact).abs() < 1e-5, "{x}: {} {exact}", law.cdf(x));
    }
    assert_eq!((law.cdf(699.0), law.cdf(1600.0)), (0.0, 1.0));
}

#[test]
fn one_rare_enormous_cost_does_not_blur_the_others() {
    let others = |p: f64| (0..20).map(move |i| (p, pert(100.0 + f64::from(i), 300.0, 900.0 + f64::from(i))));
    let alone = CostSum::independent(others(0.3)).unwrap();
    let beside = CostSum::independent(others(0.3).chain([(0.02, pert(9e6, 5e7, 9e7))])).unwrap();
    for q in [0.5, 0.8, 0.9] {
        let (x, y) = (alone.quantiles(&[q]).unwrap()[0], beside.quantiles(&[q * 0.98]).unwrap()[0]);
        assert!((x - y).abs() < 0.01, "{q}: {x} {y}");
    }
}

#[test]
fn a_common_cause_leaves_the_mean_of_its_scenarios_and_widens_the_spread() {
    let cost = pert(100.0, 200.0, 400.0);
    let common = CostSum::common_cause(0.25, (0..4).map(|_| (0.1, 0.9, cost))).unwrap().moments();
    let apart = CostSum::independent((0..4).map(|_| (0.3, cost))).unwrap().moments();
    assert!((common.mean - apart.mean).abs() < 1e-9 && common.variance > apart.variance);
    assert!((common.p_zero - (0.75 * 0.9f64.powi(4) + 0.25 * 0.1f64.powi(4))).abs() < 1e-15);
}

#[test]
fn what_cannot_be_added_up_is_refused() {
    let cost = pert(1.0, 2.0, 3.0);
    assert!(CostSum::independent([(f64::NAN, cost)]).is_err());
    assert!(CostSum::independent([(0.5, pert(-1.0, 2.0, 3.0))]).is_err());
    assert!(CostSum::common_cause(1.5, []).is_err());
    assert!(CostSum::new(vec![0.5, 0.4], vec![]).is_err());
    assert!(CostSum::new(vec![1.0], vec![Uncertain { cost, p: vec![0.5, 0.5] }]).is_err());
    assert!(Joint::new(2, vec![0.5, 0.5]).is_err() && Joint::new(1, vec![0.0, 0.0]).is_err());
    // Powers of two: every set of twenty has another sum.
    let many = CostSum::independent((0..20).map(|i| (0.5, Pert::fixed(f64::from(1 << i))))).unwrap();
    assert_eq!(many.quantiles(&[0.5]), Err(SumError::TooManyFixed));
    // Far out of proportion, and still an answer.
    let odd = CostSum::independent([(0.5, cost), (1e-9, pert(1e299, 1e300, 1e300))]).unwrap();
    assert!((odd.quantiles(&[0.75]).unwrap()[0] - 2.0).abs() < 0.5);
    assert_eq!(CostSum::independent([]).unwrap().quantiles(&[0.9]), Ok(vec![0.0]));
}

proptest! {
    /// Fixed costs: by doubling atoms, and by enumerating every combination.
    #[test]
    fn fixed_sums_are_those_of_all_combinations(
        items in proptest::collection::vec((0u32..=20, 0u32..6), 0..7), q in 0.01..0.999f64,
    ) {
        let p: Vec<f64> = items.iter().map(|i| f64::from(i.0) / 20.0).collect();
        let amounts: Vec<f64> = items.iter().map(|i| f64::from(i.1) * 100.1).collect();
        let all = Joint::new(p.len(), combinations(&p)).unwrap();
        let fixed = amounts.iter().map(|a| Pert::fixed(*a));
        let sum = CostSum::independent(p.iter().copied().zip(fixed)).unwrap();
        let pmf = all.fixed(&amounts);
        let (x, before, at) = quantile(&pmf, q).unwrap();
        prop_assume!((before - q).abs() > 1e-9 && (at - q).abs() > 1e-9);
        prop_assert!((sum.quantiles(&[q]).unwrap()[0] - x).abs() < 1e-9);
        prop_assert!((pmf.iter().map(|(_, p)| p).sum::<f64>() - 1.0).abs() < 1e-12);
        prop_assert!((sum.law().unwrap().cdf(x) - at).abs() < 1e-12);
    }

    /// Moments: in closed form, and over every combination.
    #[test]
    fn moments_are_those_of_all_combinations(
        items in proptest::collection::vec((0.0..=1.0f64, 0.0..500.0f64, 0.0..500.0f64, 0.0..2000.0f64), 1..7),
    ) {
        let p: Vec<f64> = items.iter().map(|i| i.0).collect();
        let costs: Vec<Pert> = items.iter().map(|(_, a, b, c)| pert(*a, a + b, a + b + c)).collect();
        let all = Joint::new(p.len(), combinations(&p)).unwrap();
        let moments = CostSum::independent(p.iter().copied().zip(costs.iter().copied())).unwrap().moments();
        let (mean, variance) = all.moments(&costs);
        prop_assert!((moments.mean - mean).abs() <= 1e-12 * mean.max(1.0));
        prop_assert!((moments.variance - variance).abs() <= 1e-10 * variance.max(1.0));
        prop_assert!((moments.p_zero - all.none()).abs() < 1e-12);
        for (i, row) in all.covariance().iter().enumerate() {
            for (j, c) in row.iter().enumerate() {
                let expected = if i == j { p[i] * (1.0 - p[i]) } else { 0.0 };
                prop_assert!((c - expected).abs() < 1e-12);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    /// The distribution never falls, ends at 1, and its quantiles are reached where they say.
    #[test]
    fn quantiles_invert_the_distribution(
        items in proptest::collection::vec((0.05..=1.0f64, 0u32..3, 1.0..500.0f64, 1.0..2000.0f64), 1..5),
        q in 0.01..0.99f64,
    ) {
        let sum = CostSum::independent(items.iter().map(|(p, kind, low, more)| {
            (*p, if *kind == 0 { Pert::fixed(*low) } else { pert(*low, low + 0.3 * more, low + more) })
        })).unwrap();
        let law = sum.law().unwrap();
        let x = law.quantile(q);
        prop_assert!(law.cdf(x) >= q - 1e-9);
        prop_assert!(x == 0.0 || law.cdf(x - 1e-6) < q + 1e-6);
        let top: f64 = items.iter().map(|i| i.2 + i.3).sum();
        prop_assert!((law.cdf(top) - 1.0).abs() < 1e-9);
        let steps: Vec<f64> = (0..100).map(|i| law.cdf(top * f64::from(i) / 100.0)).collect();
        prop_assert!(steps.windows(2).all(|w| w[1] >= w[0] - 1e-9));
    }
}
