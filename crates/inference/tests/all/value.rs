//! Value of information against a case worked by hand and against plain enumeration.

use inference::{Evidence, InferError, NetworkBuilder, mutual_information, value};
use proptest::prelude::*;

use crate::random::{build, enter, findings, plan};
use crate::support::enumerate;

/// Worked by hand: p = 0.3, missing it costs 100, acting for nothing 40; a test with sensitivity 0.9 and
/// specificity 0.8.
#[test]
fn a_test_worked_by_hand_is_worth_what_it_spares() {
    let mut b = NetworkBuilder::new();
    let there = b.node("there", &["no", "yes"]).unwrap();
    let test = b.node("test", &["negative", "positive"]).unwrap();
    let coin = b.node("coin", &["heads", "tails"]).unwrap();
    b.table(there, &[], vec![0.7, 0.3]).unwrap();
    b.table(test, &[there], vec![0.8, 0.2, 0.1, 0.9]).unwrap();
    b.table(coin, &[], vec![0.5, 0.5]).unwrap();
    let net = b.build().unwrap();
    // Leave it: 0.3 · 100 = 30. Act: 0.7 · 40 = 28. Act is better now; for certain it would cost nothing.
    let loss = [vec![0.0, 100.0], vec![40.0, 0.0]];
    let sets = [vec![test], vec![coin], vec![there], vec![test, coin], vec![], vec![coin, there]];
    let found = value(&net, &Evidence::new(), there, &loss, &sets).unwrap();
    assert_eq!(found.best_action, 1);
    assert!((found.expected_loss - 28.0).abs() < 1e-12 && (found.evpi - 28.0).abs() < 1e-12);
    // Negative (0.56 no, 0.03 yes): leave it, 3. Positive (0.14 no, 0.27 yes): act, 5.6. Spared: 28 - 8.6.
    let of = |i: usize| &found.observations[i];
    assert!((of(0).evsi - 19.4).abs() < 1e-12);
    assert_eq!(of(0).best_actions, [Some(0), Some(1)]);
    assert_eq!((of(1).evsi, of(4).evsi), (0.0, 0.0));
    assert!(of(1).mutual_information < 1e-15 && of(4).mutual_information < 1e-15);
    assert!((of(2).evsi - found.evpi).abs() < 1e-12 && (of(5).evsi - found.evpi).abs() < 1e-12);
    assert!((of(2).mutual_information - found.target_entropy).abs() < 1e-12);
    assert!((of(5).mutual_information - found.target_entropy).abs() < 1e-12);
    assert_eq!(of(5).best_actions, [Some(0), Some(1), Some(0), Some(1)]);
    assert!((of(3).evsi - 19.4).abs() < 1e-12);
    assert_eq!(of(3).best_actions, [Some(0), Some(0), Some(1), Some(1)]);
    for bad in [vec![], vec![vec![1.0]], vec![vec![1.0, f64::NAN]]] {
        let refused = value(&net, &Evidence::new(), there, &bad, &[]);
        assert!(matches!(refused, Err(InferError::BadEvidence { node: 0, .. })));
    }
    assert!(matches!(
        value(&net, &Evidence::new(), there, &loss, &[vec![9]]),
        Err(InferError::BadEvidence { node: 9, .. })
    ));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn values_equal_enumeration_and_keep_their_order(
        plan in plan(),
        pick in prop::collection::vec(any::<prop::sample::Index>(), 3),
        amounts in prop::collection::vec(-50i32..100, 9),
    ) {
        let net = build(&plan);
        let ev = enter(&findings(&net, &plan));
        let (p, all) = enumerate(&net, &ev);
        let pick: Vec<usize> = pick.iter().map(|i| i.index(net.len())).collect();
        let (target, a, b) = (pick[0], pick[1], pick[2]);
        let states = |n: usize| net.nodes()[n].states.len();
        let loss: Vec<Vec<f64>> =
            amounts.chunks(3).map(|row| row[..states(target)].iter().map(|x| f64::from(*x)).collect()).collect();
        let mut sets = vec![vec![a], vec![target]];
        if a != b {
            sets.push(vec![a, b]);
        }
        let ours = value(&net, &ev, target, &loss, &sets);
        if p == 0.0 {
            let impossible = matches!(ours, Err(InferError::Impossible { .. }));
            prop_assert!(impossible);
            return Ok(());
        }
        let ours = ours.unwrap();
        // P(target = t, set = x | e) by adding up.
        let cell = |t: usize, set: &[usize], x: &[usize]| -> f64 {
            let fits = |y: &Vec<usize>| y[target] == t && set.iter().zip(x).all(|(n, s)| y[*n] == *s);
            all.iter().filter(|(y, _)| fits(y)).map(|(_, q)| q / p).sum()
        };
        let least = |column: &[f64]| -> f64 {
            let sum = |row: &Vec<f64>| row.iter().zip(column).map(|(l, p)| l * p).sum::<f64>();
            loss.iter().map(sum).fold(f64::INFINITY, f64::min)
        };
        let prior: Vec<f64> = (0..states(target)).map(|t| cell(t, &[], &[])).collect();
        prop_assert!((ours.expected_loss - least(&prior)).abs() < 1e-10);
        for (set, seen) in sets.iter().zip(&ours.observations) {
            let (mut after, mut information) = (0.0, 0.0);
            for i in 0..set.iter().map(|n| states(*n)).product::<usize>() {
                let x = match set[..] {
                    [_, b] => vec![i / states(b), i % states(b)],
                    _ => vec![i],
                };
                let column: Vec<f64> = (0..states(target)).map(|t| cell(t, set, &x)).collect();
                let sum: f64 = column.iter().sum();
                after += least(&column);
                for (c, p) in column.iter().zip(&prior).filter(|(c, _)| **c > 0.0) {
                    information += c * (c / p / sum).ln();
                }
            }
            prop_assert!((seen.evsi - (least(&prior) - after)).abs() < 1e-9);
            prop_assert!((seen.mutual_information - information).abs() < 1e-10);
            prop_assert!((mutual_information(&net, &ev, target, set).unwrap() - information).abs() < 1e-10);
            // Never negative, never more than certainty is worth.
            prop_assert!(seen.evsi >= 0.0 && seen.evsi <= ours.evpi + 1e-9);
            prop_assert!(seen.mutual_information >= 0.0);
            prop_assert!(seen.mutual_information <= ours.target_entropy + 1e-10);
        }
        // Seeing the target is certainty; seeing more is never worth less.
        prop_assert!((ours.observations[1].evsi - ours.evpi).abs() < 1e-9);
        if let [one, _, two] = &ours.observations[..] {
            prop_assert!(two.evsi >= one.evsi - 1e-9);
            prop_assert!(two.mutual_information >= one.mutual_information - 1e-10);
        }
    }
}
