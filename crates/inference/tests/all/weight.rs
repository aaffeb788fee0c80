//! Weight of evidence and the conflict measure: worked cases, and laws on random networks.

use inference::{DECIBANS, Evidence, InferError, NetworkBuilder, disagreement, log_p_evidence, weights};
use proptest::prelude::*;

use crate::random::{build, enter, findings, plan};
use crate::support::enumerate;

#[test]
fn a_likelihood_ratio_of_nine_to_two_weighs_six_and_a_half_decibans() {
    let mut b = NetworkBuilder::new();
    let there = b.node("there", &["no", "yes"]).unwrap();
    b.table(there, &[], vec![0.7, 0.3]).unwrap();
    let clues: Vec<usize> = (0..2)
        .map(|i| {
            let clue = b.node(format!("clue{i}"), &["no", "yes"]).unwrap();
            b.table(clue, &[there], vec![0.8, 0.2, 0.1, 0.9]).unwrap();
            clue
        })
        .collect();
    let net = b.build().unwrap();
    let mut ev = Evidence::new();
    ev.observe(clues[0], 1);
    ev.likelihood(clues[1], vec![1.0, 0.5]);
    let found = weights(&net, &ev, there, 1, &clues).unwrap();
    // ln(0.9 / 0.2) and ln((0.1 + 0.45) / (0.8 + 0.1)); clues of one cause, so each weighs the same everywhere.
    let each = [4.5f64.ln(), (0.55f64 / 0.9).ln()];
    for list in [&found.sequential, &found.leave_one_out, &found.alone] {
        list.iter().zip(each).for_each(|(ours, w)| assert!((ours.unwrap() - w).abs() < 1e-12));
    }
    assert!((found.total.unwrap() - each[0] - each[1]).abs() < 1e-12);
    assert!((DECIBANS * found.alone[0].unwrap() - 6.532_125_137_753_437).abs() < 1e-9);
    // The other clue taken as given: it is in the prior, and not weighed.
    let one = weights(&net, &ev, there, 1, &clues[..1]).unwrap();
    assert!((one.prior / (1.0 - one.prior) - 3.0 / 7.0 * 0.55 / 0.9).abs() < 1e-12);
    assert_eq!(one.alone.len(), 1);
    let bad = |state, order: &[usize]| weights(&net, &ev, there, state, order).unwrap_err();
    for (state, order) in [(2, vec![]), (1, vec![there]), (1, vec![clues[0], clues[0]])] {
        assert!(matches!(bad(state, &order), InferError::BadEvidence { .. }));
    }
}

#[test]
fn a_finding_that_settles_it_weighs_without_limit() {
    let mut b = NetworkBuilder::new();
    let there = b.node("there", &["no", "yes"]).unwrap();
    b.table(there, &[], vec![0.5, 0.5]).unwrap();
    let (sure, also) = (b.node("sure", &["no", "yes"]).unwrap(), b.node("also", &["no", "yes"]).unwrap());
    b.table(sure, &[there], vec![1.0, 0.0, 0.5, 0.5]).unwrap();
    b.table(also, &[there], vec![1.0, 0.0, 0.5, 0.5]).unwrap();
    let net = b.build().unwrap();
    let mut ev = Evidence::new();
    ev.observe(sure, 1);
    ev.observe(also, 1);
    for (state, limit) in [(1, f64::INFINITY), (0, f64::NEG_INFINITY)] {
        let found = weights(&net, &ev, there, state, &[sure, also]).unwrap();
        assert_eq!(found.total, Some(limit));
        assert_eq!(found.sequential, [None, None]);
        // Certain with and without: infinite minus infinite.
        assert_eq!(found.leave_one_out, [None, None]);
        assert_eq!(found.alone, [Some(limit), Some(limit)]);
    }
}

#[test]
fn two_clues_that_exclude_each_other_nearly_are_the_pair_that_disagrees() {
    let mut b = NetworkBuilder::new();
    let era = b.node("era", &["old", "new"]).unwrap();
    b.table(era, &[], vec![0.5, 0.5]).unwrap();
    let clue = |b: &mut NetworkBuilder, name: &str, old: f64, new: f64| {
        let node = b.node(name, &["no", "yes"]).unwrap();
        b.table(node, &[era], vec![1.0 - old, old, 1.0 - new, new]).unwrap();
        node
    };
    let plaster = clue(&mut b, "plaster", 0.9, 0.01);
    let dull = clue(&mut b, "dull", 0.5, 0.5);
    let plastic = clue(&mut b, "plastic", 0.01, 0.9);
    let net = b.build().unwrap();
    let mut ev = Evidence::new();
    assert_eq!(disagreement(&net, &ev).unwrap().pair, None);
    for node in [plaster, dull, plastic] {
        ev.observe(node, 1);
    }
    // 0.455 · 0.455 against 0.009; the dull clue adds nothing.
    let measure = (0.455f64 * 0.455 / 0.009).ln();
    let found = disagreement(&net, &ev).unwrap();
    let pair = found.pair.unwrap();
    assert!((found.measure - measure).abs() < 1e-12 && (pair.measure - measure).abs() < 1e-12);
    assert_eq!((pair.first, pair.second), (plaster, plastic));
    ev.observe(plastic, 0);
    assert!(disagreement(&net, &ev).unwrap().measure < 0.0);
}

#[test]
fn disagreement_far_below_the_range_of_a_double_is_measured() {
    let mut b = NetworkBuilder::new();
    let root = b.node("root", &["a", "b"]).unwrap();
    b.table(root, &[], vec![0.5, 0.5]).unwrap();
    let nodes: Vec<usize> = (0..3)
        .map(|i| {
            let node = b.node(format!("n{i}"), &["a", "b"]).unwrap();
            b.table(node, &[root], vec![1.0, 0.0, 0.0, 1.0]).unwrap();
            node
        })
        .collect();
    let net = b.build().unwrap();
    let mut ev = Evidence::new();
    (0..3).for_each(|_| ev.likelihood(nodes[0], vec![1.0, 1e-300]));
    (0..3).for_each(|_| ev.likelihood(nodes[1], vec![1e-300, 1.0]));
    ev.likelihood(nodes[2], vec![7.0, 7.0]);
    let found = disagreement(&net, &ev).unwrap();
    // P(e_0) = P(e_1) = (1 + 1e-900) / 2, P(e_0, e_1) = 1e-900.
    let measure = 0.25f64.ln() - 900.0 * 0.1f64.ln();
    assert!((found.measure - measure).abs() < 1e-9, "{found:?}");
    let pair = found.pair.unwrap();
    assert_eq!((pair.first, pair.second), (nodes[0], nodes[1]));
    assert!((pair.measure - measure).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn weights_and_conflict_equal_enumeration(
        plan in plan(),
        pick in any::<prop::sample::Index>(),
        state in any::<prop::sample::Index>(),
    ) {
        let net = build(&plan);
        let ev = enter(&findings(&net, &plan));
        let target = pick.index(net.len());
        let state = state.index(net.nodes()[target].states.len());
        let order = ev.nodes();
        let ours = weights(&net, &ev, target, state, &order);
        if enumerate(&net, &ev).0 == 0.0 {
            let impossible = matches!(ours, Err(InferError::Impossible { .. }))
                && matches!(disagreement(&net, &ev), Err(InferError::Impossible { .. }));
            prop_assert!(impossible);
            return Ok(());
        }
        let ours = ours.unwrap();
        let only = |keep: &[usize]| {
            let mut some = ev.clone();
            order.iter().filter(|n| !keep.contains(n)).for_each(|n| some.forget(*n));
            some
        };
        let logit = |keep: &[usize]| {
            let (mut yes, mut no) = (0.0, 0.0);
            for (x, q) in enumerate(&net, &only(keep)).1 {
                *(if x[target] == state { &mut yes } else { &mut no }) += q;
            }
            if yes == 0.0 { f64::NEG_INFINITY } else if no == 0.0 { f64::INFINITY } else { (yes / no).ln() }
        };
        let agrees = |ours: Option<f64>, after: f64, before: f64| match ours {
            None => after.is_infinite() && after == before,
            Some(w) if w.is_infinite() => w == after - before,
            Some(w) => (w - (after - before)).abs() < 1e-9,
        };
        let (all, none) = (logit(&order), logit(&[]));
        prop_assert!(agrees(ours.total, all, none));
        for (i, node) in order.iter().enumerate() {
            let rest: Vec<usize> = order.iter().copied().filter(|n| n != node).collect();
            prop_assert!(agrees(ours.leave_one_out[i], all, logit(&rest)));
            prop_assert!(agrees(ours.alone[i], logit(&[*node]), none));
            let (before, after) = (logit(&order[..i]), logit(&order[..=i]));
            match ours.sequential[i] {
                None => prop_assert!(before.is_infinite() || after.is_infinite()),
                Some(w) => prop_assert!((w - (after - before)).abs() < 1e-9),
            }
        }
        if let Some(steps) = ours.sequential.iter().copied().collect::<Option<Vec<f64>>>()
            && !order.is_empty()
        {
            prop_assert!((steps.iter().sum::<f64>() - ours.total.unwrap()).abs() < 1e-9);
        }

        let found = disagreement(&net, &ev).unwrap();
        let measure = |keep: &[usize]| {
            let single: f64 = keep.iter().map(|n| enumerate(&net, &only(&[*n])).0.ln()).sum();
            single - enumerate(&net, &only(keep)).0.ln()
        };
        prop_assert!((found.measure - measure(&order)).abs() < 1e-9);
        let worst = order.iter().enumerate()
            .flat_map(|(i, a)| order[i + 1..].iter().map(|b| measure(&[*a, *b])))
            .fold(f64::NEG_INFINITY, f64::max);
        match found.pair {
            None => prop_assert!(order.len() < 2),
            Some(pair) => {
                prop_assert!(pair.first < pair.second);
                prop_assert!((pair.measure - measure(&[pair.first, pair.second])).abs() < 1e-9);
                prop_assert!((pair.measure - worst).abs() < 1e-9);
            }
        }
        let p = log_p_evidence(&net, &ev).unwrap();
        let mut scaled = ev.clone();
        if let Some(node) = order.first() {
            scaled.likelihood(*node, vec![3.0; net.nodes()[*node].states.len()]);
            prop_assert!((log_p_evidence(&net, &scaled).unwrap() - p - 3.0f64.ln()).abs() < 1e-9);
            prop_assert!((disagreement(&net, &scaled).unwrap().measure - found.measure).abs() < 1e-9);
        }
    }
}
