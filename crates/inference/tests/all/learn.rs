//! Learning on small random networks against plain enumeration, and its laws.

use inference::learn::{Climb, Counts, LearnError, Prior, Records};
use inference::{Evidence, InferError, Network, NetworkBuilder};
use proptest::prelude::*;

use crate::support::enumerate;

#[derive(Debug, Clone)]
struct Case {
    /// Per node: states, candidate parents as bits over the earlier nodes, weights of table cells.
    nodes: Vec<(usize, u8, Vec<u8>)>,
    /// Per record, per node: nothing (0, 1), hard (2, 3), soft (4), hard and soft (5); state; likelihood.
    records: Vec<Vec<(u8, usize, Vec<u8>)>>,
    weights: Vec<u8>,
    strength: u8,
    fixed: u64,
}

fn case() -> impl Strategy<Value = Case> {
    let node = (1usize..=3, any::<u8>(), prop::collection::vec(1u8..9, 32));
    let finding = (0u8..=5, 0usize..6, prop::collection::vec(0u8..6, 3));
    let record = prop::collection::vec(finding, 5);
    (
        prop::collection::vec(node, 1..=5),
        prop::collection::vec(record, 0..=12),
        prop::collection::vec(0u8..=3, 12),
        0u8..3,
        any::<u64>(),
    )
        .prop_map(|(nodes, records, weights, strength, fixed)| Case {
            nodes,
            records,
            weights,
            strength,
            fixed,
        })
}

/// Nodes are numbered backwards, so that parents come after their children.
fn build(case: &Case) -> Network {
    let count = case.nodes.len();
    let mut b = NetworkBuilder::new();
    for i in (0..count).rev() {
        let states: Vec<String> = (0..case.nodes[i].0).map(|s| format!("s{s}")).collect();
        b.node(format!("n{i}"), &states).unwrap();
    }
    for (i, (width, mask, cells)) in case.nodes.iter().enumerate() {
        let parents: Vec<usize> = (0..i).filter(|j| mask >> j & 1 == 1).take(3).collect();
        let rows: usize = parents.iter().map(|p| case.nodes[*p].0).product();
        let mut cpt = Vec::new();
        for r in 0..rows {
            let row: Vec<f64> =
                (0..*width).map(|s| f64::from(cells[(r * 5 + s * 3) % cells.len()])).collect();
            let sum: f64 = row.iter().sum();
            cpt.extend(row.iter().map(|x| x / sum));
        }
        let parents: Vec<usize> = parents.iter().map(|p| count - 1 - p).collect();
        b.table(count - 1 - i, &parents, cpt).unwrap();
    }
    b.build().unwrap()
}

/// Records of the case that are possible, with their weights.
fn records(net: &Network, case: &Case) -> Vec<(Evidence, f64)> {
    let one = |findings: &Vec<(u8, usize, Vec<u8>)>| {
        let mut ev = Evidence::new();
        for (node, (kind, state, l)) in (0..net.len()).zip(findings) {
            let states = net.nodes()[node].states.len();
            if matches!(kind, 2 | 3 | 5) {
                ev.observe(node, state % states);
            }
            if *kind >= 4 {
                ev.likelihood(node, l[..states].iter().map(|x| f64::from(*x) * 0.7).collect());
            }
        }
        ev
    };
    let all = case.records.iter().map(one).zip(&case.weights).map(|(ev, w)| (ev, f64::from(*w)));
    all.filter(|(ev, _)| enumerate(net, ev).0 > 0.0).collect()
}

/// Expected counts and log likelihood by adding up every full assignment.
fn expect(net: &Network, records: &[(Evidence, f64)]) -> (Vec<Vec<f64>>, f64) {
    let mut tables: Vec<Vec<f64>> = net.nodes().iter().map(|n| vec![0.0; n.cpt.len()]).collect();
    let mut log = 0.0;
    for (ev, weight) in records.iter().filter(|(_, w)| *w > 0.0) {
        let (total, all) = enumerate(net, ev);
        log += weight * total.ln();
        for (x, p) in all {
            for (id, node) in net.nodes().iter().enumerate() {
                let row = node.parents.iter().fold(0, |r, q| r * net.nodes()[*q].states.len() + x[*q]);
                tables[id][row * node.states.len() + x[id]] += weight * p / total;
            }
        }
    }
    (tables, log)
}

fn prior(net: &Network, case: &Case) -> Prior {
    let mut prior = Prior::from_tables(net, net, f64::from(case.strength) * 1.5).unwrap();
    for (node, row) in fixed(net, case) {
        prior.fix(node, row).unwrap();
    }
    prior
}

fn fixed(net: &Network, case: &Case) -> Vec<(usize, usize)> {
    let rows = net.nodes().iter().enumerate();
    let rows = rows.flat_map(|(id, n)| (0..n.cpt.len() / n.states.len()).map(move |r| (id, r)));
    rows.enumerate().filter(|(i, _)| case.fixed >> (i % 64) & 3 == 3).map(|(_, at)| at).collect()
}

fn row(net: &Network, node: usize, row: usize) -> &[f64] {
    let width = net.nodes()[node].states.len();
    &net.nodes()[node].cpt[row * width..(row + 1) * width]
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * (1.0 + b.abs())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn expected_counts_and_every_step_equal_enumeration(case in case()) {
        let net = build(&case);
        let (records, prior) = (records(&net, &case), prior(&net, &case));
        let fixed = fixed(&net, &case);
        let mut prepared = Records::new(&net, records.clone()).unwrap();
        let mut climb = Climb::new(net.clone(), &mut prepared, &prior).unwrap();
        for _ in 0..4 {
            let at = climb.network().clone();
            let (tables, log) = expect(&at, &records);
            prop_assert!(close(climb.counts().log_likelihood, log));
            for (id, table) in tables.iter().enumerate() {
                prop_assert!(table.iter().zip(climb.counts().of(id)).all(|(a, b)| close(*b, *a)));
            }
            climb.step().unwrap();
            for (id, node) in at.nodes().iter().enumerate() {
                let width = node.states.len();
                for (r, n) in tables[id].chunks(width).enumerate() {
                    let mass: Vec<f64> = n.iter().zip(&prior.of(id)[r * width..]).map(|(n, b)| n + b).collect();
                    let sum: f64 = mass.iter().sum();
                    let stays = fixed.contains(&(id, r)) || sum == 0.0;
                    for (k, theta) in row(climb.network(), id, r).iter().enumerate() {
                        let wanted = if stays { node.cpt[r * width + k] } else { mass[k] / sum };
                        prop_assert!(close(*theta, wanted));
                    }
                }
            }
        }
    }

    #[test]
    fn the_log_posterior_never_falls_and_fixed_rows_never_move(case in case()) {
        let net = build(&case);
        let (records, prior) = (records(&net, &case), prior(&net, &case));
        let mut prepared = Records::new(&net, records).unwrap();
        let mut climb = Climb::new(net.clone(), &mut prepared, &prior).unwrap();
        for k in 1..=60 {
            let before = climb.log_posterior();
            let gain = climb.step().unwrap();
            prop_assert_eq!(climb.iteration(), k);
            prop_assert!(gain >= -1e-11 * (1.0 + before.abs()), "{} {}", before, gain);
            let whole = climb.counts().log_likelihood + prior.log_density(climb.network());
            prop_assert_eq!(whole, climb.log_posterior());
        }
        for (node, r) in fixed(&net, &case) {
            prop_assert_eq!(row(climb.network(), node, r), row(&net, node, r));
        }
    }

    #[test]
    fn weights_equal_repetition_and_counts_of_parts_add_up(case in case()) {
        let net = build(&case);
        let weighted = records(&net, &case);
        let mut repeated: Vec<(Evidence, f64)> = Vec::new();
        for (ev, w) in &weighted {
            (0..*w as usize).for_each(|_| repeated.push((ev.clone(), 1.0)));
        }
        let (mut one, mut other) =
            (Records::new(&net, weighted.clone()).unwrap(), Records::new(&net, repeated).unwrap());
        prop_assert_eq!(one.distinct(), other.distinct());
        let all = one.expect(&net).unwrap();
        prop_assert_eq!(&all, &other.expect(&net).unwrap());

        let (left, right) = weighted.split_at(weighted.len() / 2);
        let mut sum = Counts::zero(&net);
        for part in [left, right] {
            sum.add(&Records::new(&net, part.to_vec()).unwrap().expect(&net).unwrap()).unwrap();
        }
        prop_assert!(close(sum.weight, all.weight) && close(sum.log_likelihood, all.log_likelihood));
        for id in 0..net.len() {
            prop_assert!(sum.of(id).iter().zip(all.of(id)).all(|(a, b)| close(*a, *b)));
            prop_assert!(close(all.of(id).iter().sum(), all.weight));
        }
    }

    #[test]
    fn with_full_data_one_step_gives_the_counted_frequencies(case in case(), states in prop::collection::vec(0usize..6, 200)) {
        let net = build(&case);
        let sizes: Vec<usize> = net.nodes().iter().map(|n| n.states.len()).collect();
        let full: Vec<Vec<usize>> = states
            .chunks_exact(net.len())
            .map(|x| x.iter().zip(&sizes).map(|(s, size)| s % size).collect())
            .collect();
        let records = full.iter().map(|x| {
            let mut ev = Evidence::new();
            x.iter().enumerate().for_each(|(node, state)| ev.observe(node, *state));
            (ev, 1.0)
        });
        let mut prepared = Records::new(&net, records).unwrap();
        let none = Prior::none(&net);
        let mut climb = Climb::new(net.clone(), &mut prepared, &none).unwrap();
        climb.step().unwrap();
        for (id, node) in net.nodes().iter().enumerate() {
            let at = |x: &Vec<usize>| node.parents.iter().fold(0, |r, q| r * sizes[*q] + x[*q]);
            for r in 0..node.cpt.len() / sizes[id] {
                let here: Vec<&Vec<usize>> = full.iter().filter(|x| at(x) == r).collect();
                for (k, theta) in row(climb.network(), id, r).iter().enumerate() {
                    let count = here.iter().filter(|x| x[id] == k).count() as f64;
                    let old = row(&net, id, r)[k];
                    let wanted = if here.is_empty() { old } else { count / here.len() as f64 };
                    prop_assert!((theta - wanted).abs() < 1e-15);
                }
            }
        }
        prop_assert!(climb.step().unwrap().abs() < 1e-9);
    }
}

/// Two nodes, the second certain given the first.
fn certain() -> Network {
    let mut b = NetworkBuilder::new();
    let (a, c) = (b.node("a", &["no", "yes"]).unwrap(), b.node("c", &["no", "yes"]).unwrap());
    b.table(a, &[], vec![0.5, 0.5]).unwrap();
    b.table(c, &[a], vec![1.0, 0.0, 0.0, 1.0]).unwrap();
    b.build().unwrap()
}

fn seen(findings: &[(usize, usize)]) -> Evidence {
    let mut ev = Evidence::new();
    findings.iter().for_each(|(n, s)| ev.observe(*n, *s));
    ev
}

#[test]
fn an_impossible_record_is_named_with_its_clash_unless_it_weighs_nothing() {
    let net = certain();
    let list = |weight| vec![(seen(&[(0, 1)]), 1.0), (seen(&[(0, 0), (1, 1)]), weight)];
    let error = Records::new(&net, list(1.0)).unwrap().expect(&net).unwrap_err();
    let cause = InferError::Impossible { conflict: vec![0, 1] };
    assert_eq!(error, LearnError::Record { record: 1, cause });
    assert!(Records::new(&net, list(0.0)).unwrap().expect(&net).is_ok());

    let mut soft = Evidence::new();
    soft.likelihood(0, vec![0.0, 0.0]);
    let error = Records::new(&net, [(soft, 1.0)]).unwrap().expect(&net).unwrap_err();
    assert!(error.to_string().starts_with("record 1: the evidence is impossible"), "{error}");
}

#[test]
fn a_family_kept_factored_is_refused_by_name_and_counted_once_written_out() {
    let mut b = NetworkBuilder::new();
    let [leak, vent, stain] = ["leak", "vent", "stain"].map(|name| b.node(name, &["no", "yes"]).unwrap());
    let causes = [leak, vent];
    for cause in causes {
        b.table(cause, &[], vec![0.7, 0.3]).unwrap();
    }
    b.noisy_or(stain, &causes.map(|c| (c, 0.6)), 0.1).unwrap();
    let factored = b.build().unwrap();
    let list = || [(seen(&[(stain, 1)]), 2.0)];
    let refused = Records::new(&factored, list()).err().unwrap();
    assert_eq!(refused, LearnError::Factored { node: "stain".to_owned() });
    assert!(refused.to_string().contains("Network::tabled"), "{refused}");

    let tabled = factored.tabled(64).unwrap();
    let mut records = Records::new(&tabled, list()).unwrap();
    assert_eq!(records.expect(&factored).unwrap_err(), refused);
    // One record, seen twice: P(leak | stain) by hand, over the four ways the causes can be.
    let given = |leak: u8, vent: u8| 1.0 - 0.9 * 0.4f64.powi(i32::from(leak + vent));
    let weigh = |leak: u8| {
        let prior = |on: u8| if on == 1 { 0.3 } else { 0.7 };
        [0, 1].iter().map(|v| prior(leak) * prior(*v) * given(leak, *v)).sum::<f64>()
    };
    let counted = records.expect(&tabled).unwrap();
    let by_hand = 2.0 * weigh(1) / (weigh(0) + weigh(1));
    assert!((counted.of(leak)[1] - by_hand).abs() < 1e-12);
}

#[test]
fn a_start_of_probability_zero_is_left_at_once() {
    // The prior holds possible what the start holds impossible.
    let net = certain();
    let mut prior = Prior::none(&net);
    prior.set(1, 0, &[1.0, 3.0]).unwrap();
    let mut records = Records::new(&net, [(seen(&[(0, 0)]), 2.0)]).unwrap();
    let mut climb = Climb::new(net, &mut records, &prior).unwrap();
    assert_eq!(climb.log_posterior(), f64::NEG_INFINITY);
    assert_eq!(climb.step().unwrap(), f64::INFINITY);
    assert!(climb.log_posterior().is_finite());
    assert!(climb.run(500).unwrap());
}

#[test]
fn likelihoods_of_any_size_are_weighed_rightly() {
    // P(record) = product of l_i · 0.5 over both states; far below the smallest double.
    let net = certain();
    let mut ev = Evidence::new();
    ev.likelihood(0, vec![1e-300, 3e-300]);
    ev.likelihood(1, vec![1e-300, 1e-300]);
    let counts = Records::new(&net, [(ev, 2.0)]).unwrap().expect(&net).unwrap();
    let wanted = 2.0 * (2.0f64.ln() - 600.0 * 10.0f64.ln());
    assert!((counts.log_likelihood / wanted - 1.0).abs() < 1e-14);
    assert!((counts.row(1, 1)[1] - 1.5).abs() < 1e-14 && counts.row(1, 0)[1] == 0.0);
    assert_eq!(counts.row(1, 2), &[] as &[f64]);
}

#[test]
fn what_does_not_fit_is_refused() {
    let net = certain();
    let mut prior = Prior::none(&net);
    assert_eq!(prior.fix(1, 2), Err(LearnError::NoRow { node: 1, row: 2 }));
    assert_eq!(prior.fix(2, 0), Err(LearnError::NoRow { node: 2, row: 0 }));
    assert_eq!(prior.set(1, 0, &[1.0]), Err(LearnError::NoRow { node: 1, row: 0 }));
    assert!(matches!(prior.set(0, 0, &[1.0, f64::NAN]), Err(LearnError::Amount { .. })));
    assert!(matches!(Prior::from_tables(&net, &net, -1.0), Err(LearnError::Amount { .. })));
    assert!(matches!(Records::new(&net, [(Evidence::new(), f64::NAN)]), Err(LearnError::Amount { .. })));
    let bad = Records::new(&net, [(seen(&[(0, 2)]), 1.0)]);
    assert!(matches!(bad, Err(LearnError::Record { record: 0, cause: InferError::BadEvidence { .. } })));

    let mut b = NetworkBuilder::new();
    b.node("a", &["no", "yes"]).unwrap();
    b.table(0, &[], vec![0.5, 0.5]).unwrap();
    let other = b.build().unwrap();
    let shape = LearnError::Shape { node: "c".into() };
    assert_eq!(Prior::from_tables(&net, &other, 1.0), Err(shape.clone()));
    let mut records = Records::new(&other, []).unwrap();
    assert_eq!(records.expect(&net), Err(shape.clone()));
    assert_eq!(Climb::new(net.clone(), &mut records, &Prior::none(&other)).err(), Some(shape));
    assert_eq!(Counts::zero(&net).add(&Counts::zero(&other)), Err(LearnError::NoRow { node: 1, row: 0 }));
}
