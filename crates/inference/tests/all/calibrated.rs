//! What-ifs on one set of findings, against the same question asked afresh and against enumeration.

use inference::{
    Calibrated, Changed, Evidence, Given, InferError, Network, NetworkBuilder, Posterior, posterior,
};
use proptest::prelude::*;
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};

use crate::support::{SMALL, crowds, enumerate, evidence, json, network, random_network};

/// Required between a what-if and the same question asked afresh.
const SAME: f64 = 1e-12;

/// One node's distributions agree.
fn near(what: &str, ours: &[f64], theirs: &[f64]) {
    assert_eq!(ours.len(), theirs.len(), "{what}");
    assert!(ours.iter().zip(theirs).all(|(a, b)| (a - b).abs() <= SAME), "{what}: {ours:?} {theirs:?}");
}

/// All nodes agree with `afresh`, and P(findings).
fn same(what: &str, net: &Network, before: f64, ours: &Changed, afresh: &Posterior) {
    (0..net.len()).for_each(|n| near(what, ours.of(n), afresh.of(n)));
    let log_p = before + ours.log_ratio;
    assert!((log_p - afresh.log_p_evidence).abs() <= SAME * log_p.abs().max(100.0), "{what}");
}

/// Every state of a node agrees with the evidence and that state.
fn same_given(what: &str, net: &Network, ev: &Evidence, node: usize, given: &Given) {
    let before = posterior(net, ev).unwrap();
    near(what, &given.chances, before.of(node));
    for state in 0..given.chances.len() {
        let mut more = ev.clone();
        if ev.state(node).is_none() {
            more.observe(node, state);
        }
        if ev.state(node).is_some_and(|s| s != state) {
            assert!(given.of(state, 0).is_empty(), "{what}");
            continue;
        }
        match posterior(net, &more) {
            Ok(afresh) => (0..net.len()).for_each(|n| near(what, given.of(state, n), afresh.of(n))),
            Err(_) => assert!(given.chances[state] == 0.0 && given.of(state, 0).is_empty(), "{what}"),
        }
    }
}

fn everything(net: &Network) -> Vec<usize> {
    (0..net.len()).collect()
}

#[test]
fn reference_networks_answer_every_what_if_as_if_asked_afresh() {
    for name in SMALL {
        let net = network(name);
        let all = everything(&net);
        // In large networks some of the what-ifs will do.
        let every = net.len().div_ceil(12);
        for (i, case) in json(&format!("infer_{name}.json"))["cases"].as_array().unwrap().iter().enumerate() {
            let id = case["id"].as_str().unwrap();
            let ev = evidence(&net, case);
            let mut calibrated = match (Calibrated::new(&net, &ev), posterior(&net, &ev)) {
                (Ok(c), Ok(p)) => {
                    assert_eq!(*c.posterior(), p, "{id}");
                    c
                }
                (Err(a), Err(b)) => {
                    assert_eq!(a, b, "{id}");
                    continue;
                }
                _ => panic!("{id}"),
            };
            let before = calibrated.posterior().log_p_evidence;
            for node in (i % every..net.len()).step_by(every) {
                same_given(id, &net, &ev, node, &calibrated.given(node, &all).unwrap());
            }
            for node in ev.nodes().into_iter().skip(i % every).step_by(every) {
                let afresh = posterior(&net, &ev.without(node)).unwrap();
                same(id, &net, before, &calibrated.without(&[node], &all).unwrap(), &afresh);
                let others: Vec<usize> = (0..net.len()).filter(|n| *n != node).collect();
                let ours = calibrated.without(&[node], &others).unwrap();
                others.iter().enumerate().for_each(|(i, n)| near(id, ours.of(i), afresh.of(*n)));
            }
        }
    }
}

/// Hard and soft findings at random.
fn findings(rng: &mut ChaCha8Rng, net: &Network) -> Evidence {
    let mut ev = Evidence::new();
    for (node, n) in net.nodes().iter().enumerate() {
        let size = n.states.len();
        if rng.next_u32() % 5 < 2 {
            ev.observe(node, rng.next_u32() as usize % size);
        }
        if rng.next_u32().is_multiple_of(5) {
            ev.likelihood(node, (0..size).map(|_| f64::from(1 + rng.next_u32() % 4) / 3.0).collect());
        }
    }
    ev
}

/// P(evidence) and every distribution by adding up; nothing if impossible.
fn by_enumeration(net: &Network, ev: &Evidence) -> Option<Posterior> {
    let ours = posterior(net, ev).ok()?;
    let (p, all) = enumerate(net, ev);
    assert!((ours.log_p_evidence - p.ln()).abs() < 1e-11);
    for node in 0..net.len() {
        let share = |s: usize| all.iter().filter(|(x, _)| x[node] == s).map(|(_, q)| q).sum::<f64>() / p;
        near("enumeration", ours.of(node), &(0..ours.of(node).len()).map(share).collect::<Vec<_>>());
    }
    Some(ours)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn one_what_if_after_another_equals_enumeration(seed in any::<u64>(), zeros in any::<bool>()) {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let net = random_network(&mut rng, zeros);
        let ev = findings(&mut rng, &net);
        let Ok(mut calibrated) = Calibrated::new(&net, &ev) else {
            prop_assert_eq!(enumerate(&net, &ev).0, 0.0);
            return Ok(());
        };
        let all = everything(&net);
        let before = calibrated.posterior().log_p_evidence;
        for _ in 0..8 {
            let node = rng.next_u32() as usize % net.len();
            match rng.next_u32() % 3 {
                0 => same_given("given", &net, &ev, node, &calibrated.given(node, &all).unwrap()),
                1 => {
                    // A few likelihoods, also on observed nodes, also two on one node.
                    let mut more = ev.clone();
                    let mut list = Vec::new();
                    for _ in 0..1 + rng.next_u32() % 3 {
                        let node = rng.next_u32() as usize % net.len();
                        let size = net.nodes()[node].states.len();
                        let l: Vec<f64> = (0..size).map(|_| f64::from(rng.next_u32() % 4)).collect();
                        more.likelihood(node, l.clone());
                        list.push((node, l));
                    }
                    let list: Vec<(usize, &[f64])> = list.iter().map(|(n, l)| (*n, l.as_slice())).collect();
                    match (calibrated.with(&list, &all), by_enumeration(&net, &more)) {
                        (Ok(ours), Some(afresh)) => same("with", &net, before, &ours, &afresh),
                        (Err(ours), None) => prop_assert_eq!(ours, posterior(&net, &more).unwrap_err()),
                        other => prop_assert!(false, "{:?}", other),
                    }
                }
                _ => {
                    let nodes: Vec<usize> =
                        ev.nodes().into_iter().filter(|_| rng.next_u32().is_multiple_of(3)).collect();
                    let mut rest = ev.clone();
                    nodes.iter().for_each(|n| rest.forget(*n));
                    let afresh = by_enumeration(&net, &rest).unwrap();
                    same("without", &net, before, &calibrated.without(&nodes, &all).unwrap(), &afresh);
                    let others: Vec<usize> = (0..net.len()).filter(|n| !nodes.contains(n)).collect();
                    let ours = calibrated.without(&nodes, &others).unwrap();
                    others.iter().enumerate().for_each(|(i, n)| near("others", ours.of(i), afresh.of(*n)));
                    prop_assert!((before + ours.log_ratio - afresh.log_p_evidence).abs() < 1e-10);
                }
            }
        }
    }

    #[test]
    fn a_few_wanted_nodes_in_any_order_are_answered_as_all_are(seed in any::<u64>()) {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let net = random_network(&mut rng, true);
        let ev = findings(&mut rng, &net);
        let Ok(mut calibrated) = Calibrated::new(&net, &ev) else { return Ok(()) };
        let all = everything(&net);
        for node in 0..net.len() {
            let wanted: Vec<usize> =
                (0..rng.next_u32() % 5).map(|_| rng.next_u32() as usize % net.len()).collect();
            let (whole, some) = (calibrated.given(node, &all).unwrap(), calibrated.given(node, &wanted).unwrap());
            for state in 0..whole.chances.len() {
                for (i, w) in wanted.iter().enumerate() {
                    prop_assert_eq!(whole.of(state, *w), some.of(state, i));
                }
                prop_assert!(some.of(state, wanted.len()).is_empty());
            }
        }
    }
}

#[test]
fn findings_too_far_apart_for_doubles_are_answered_exactly() {
    for leaves in [2, 60, 900] {
        let (net, ev) = crowds(leaves, true);
        let mut calibrated = Calibrated::new(&net, &ev).unwrap();
        assert_eq!(*calibrated.posterior(), posterior(&net, &ev).unwrap());
        let before = calibrated.posterior().log_p_evidence;
        near("root", calibrated.given(0, &[0]).unwrap().of(1, 0), &[0.0, 1.0]);
        // One crowd silenced, the other is believed.
        let crowd: Vec<usize> = (1..=leaves).collect();
        let mut rest = ev.clone();
        crowd.iter().for_each(|n| rest.forget(*n));
        let all = everything(&net);
        let ours = calibrated.without(&crowd, &all).unwrap();
        same("crowd", &net, before, &ours, &posterior(&net, &rest).unwrap());
    }
}

#[test]
fn a_likelihood_of_any_size_is_taken_as_given_and_an_unlikely_state_is_not_an_impossible_one() {
    let mut b = NetworkBuilder::new();
    let a = b.node("a", &["x", "y"]).unwrap();
    b.table(a, &[], vec![1e-200, 1.0]).unwrap();
    let c = b.node("c", &["x", "y"]).unwrap();
    b.table(c, &[a], vec![0.25, 0.75, 1.0, 0.0]).unwrap();
    let net = b.build().unwrap();
    let mut ev = Evidence::new();
    let mut calibrated = Calibrated::new(&net, &ev).unwrap();
    let given = calibrated.given(a, &[c]).unwrap();
    near("x", given.of(0, 0), &[0.25, 0.75]);
    assert!((given.chances[0] / 1e-200 - 1.0).abs() < SAME);
    near("c", calibrated.given(c, &[a]).unwrap().of(1, 0), &[1.0, 0.0]);
    for likelihood in [[3e300, 1e300], [3e-300, 1e-300], [3e300, 1e-300], [1e-300, 0.0]] {
        let mut more = ev.clone();
        more.likelihood(a, likelihood.to_vec());
        let ours = calibrated.with(&[(a, &likelihood)], &[a, c]).unwrap();
        same("likelihood", &net, 0.0, &ours, &posterior(&net, &more).unwrap());
    }
    // Far below any double: still possible.
    ev.likelihood(a, vec![1e-200, 1.0]);
    let mut calibrated = Calibrated::new(&net, &ev).unwrap();
    let given = calibrated.given(a, &[c]).unwrap();
    assert!(given.chances[0] > 0.0);
    near("x", given.of(0, 0), &[0.25, 0.75]);
}

#[test]
fn a_factored_family_is_taken_back_like_its_full_table() {
    let states = ["no", "yes"];
    let mut b = NetworkBuilder::new();
    let causes: Vec<usize> = (0..14).map(|i| b.node(format!("c{i}"), &states).unwrap()).collect();
    let effect = b.node("effect", &states).unwrap();
    let sign = b.node("sign", &states).unwrap();
    causes.iter().for_each(|c| b.table(*c, &[], vec![0.8, 0.2]).unwrap());
    let weights: Vec<(usize, f64)> = causes.iter().map(|c| (*c, 0.3 + 0.04 * *c as f64)).collect();
    b.noisy_or(effect, &weights, 0.02).unwrap();
    b.table(sign, &[causes[3]], vec![0.9, 0.1, 0.2, 0.8]).unwrap();
    let net = b.build().unwrap();
    let all = everything(&net);
    for state in 0..2 {
        let mut ev = Evidence::new();
        ev.observe(effect, state);
        ev.observe(sign, 1);
        let mut calibrated = Calibrated::new(&net, &ev).unwrap();
        let before = calibrated.posterior().log_p_evidence;
        for nodes in [vec![effect], vec![sign], vec![sign, effect]] {
            let mut rest = ev.clone();
            nodes.iter().for_each(|n| rest.forget(*n));
            let ours = calibrated.without(&nodes, &all).unwrap();
            let afresh = posterior(&net.tabled(1 << 16).unwrap(), &rest).unwrap();
            same("factored", &net, before, &ours, &afresh);
            let ours = calibrated.without(&nodes, &causes).unwrap();
            causes.iter().enumerate().for_each(|(i, c)| near("causes", ours.of(i), afresh.of(*c)));
        }
        for cause in &causes {
            same_given("factored", &net, &ev, *cause, &calibrated.given(*cause, &all).unwrap());
        }
    }
}

#[test]
fn a_network_too_large_as_a_whole_is_asked_piece_by_piece() {
    let mut b = NetworkBuilder::new();
    for i in 0..40 {
        b.node(format!("root{i}"), &["no", "yes"]).unwrap();
        b.table(i, &[], vec![0.9, 0.1]).unwrap();
    }
    for (i, j) in (0..40).flat_map(|i| (0..i).map(move |j| (i, j))) {
        let id = b.node(format!("child{i}-{j}"), &["no", "yes"]).unwrap();
        b.table(id, &[i, j], vec![1.0, 0.0, 0.5, 0.5, 0.5, 0.5, 0.25, 0.75]).unwrap();
    }
    let net = b.build().unwrap();
    let child = net.find("child7-3").unwrap();
    let mut ev = Evidence::new();
    ev.observe(child, 1);
    let mut calibrated = Calibrated::new(&net, &ev).unwrap();
    assert_eq!(*calibrated.posterior(), posterior(&net, &ev).unwrap());
    let given = calibrated.given(7, &[3, 9]).unwrap();
    let mut more = ev.clone();
    more.observe(7, 1);
    let afresh = posterior(&net, &more).unwrap();
    near("three", given.of(1, 0), afresh.of(3));
    near("nine", given.of(1, 1), afresh.of(9));
    near("prior", calibrated.without(&[child], &[3]).unwrap().of(0), &[0.9, 0.1]);
}

#[test]
fn what_does_not_fit_is_refused_and_what_clashes_is_named() {
    let net = network("asia");
    let mut ev = Evidence::new();
    ev.observe(0, 0);
    let mut calibrated = Calibrated::new(&net, &ev).unwrap();
    let bad = |r: Result<(), InferError>| assert!(matches!(r, Err(InferError::BadEvidence { .. })), "{r:?}");
    bad(calibrated.given(99, &[1]).map(drop));
    bad(calibrated.given(1, &[99]).map(drop));
    bad(calibrated.with(&[(1, &[1.0])], &[2]).map(drop));
    bad(calibrated.with(&[(99, &[1.0])], &[2]).map(drop));
    bad(calibrated.with(&[(1, &[1.0, f64::NAN])], &[2]).map(drop));
    bad(calibrated.without(&[1], &[2]).map(drop));
    bad(calibrated.without(&[99], &[2]).map(drop));
    bad(calibrated.without(&[0], &[99]).map(drop));
    let other: [f64; 2] = [0.0, 1.0];
    let clash = calibrated.with(&[(0, &other)], &[2]);
    assert_eq!(clash, Err(InferError::Impossible { conflict: vec![0] }));
    ev.observe(0, 2);
    assert!(matches!(Calibrated::new(&net, &ev), Err(InferError::BadEvidence { .. })));
}
