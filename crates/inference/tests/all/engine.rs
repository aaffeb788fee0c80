//! The engine against the reference files, the plain functions and enumeration.

use inference::{Engine, Evidence, Finding, InferError, Network, NetworkBuilder, Posterior, posterior};
use proptest::prelude::*;
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};
use serde_json::Value;

use crate::support::{SMALL, crowds, enumerate, evidence, json, network, numbers, random_network};

/// Required of every number in the files.
const TOLERANCE: f64 = 1e-9;
/// Required between the engine and the plain functions.
const SAME: f64 = 1e-12;

fn same(what: &str, net: &Network, a: &Result<Posterior, InferError>, b: &Result<Posterior, InferError>) {
    match (a, b) {
        (Ok(a), Ok(b)) => {
            let scale = a.log_p_evidence.abs().max(1.0);
            assert!((a.log_p_evidence - b.log_p_evidence).abs() <= SAME * scale, "{what}");
            for n in 0..net.len() {
                assert_eq!(a.of(n).len(), b.of(n).len());
                for (x, y) in a.of(n).iter().zip(b.of(n)) {
                    assert!((x - y).abs() <= SAME, "{what} {}: {x} {y}", net.nodes()[n].name);
                }
            }
        }
        (Err(a), Err(b)) => assert_eq!(a, b, "{what}"),
        _ => panic!("{what}: {a:?} against {b:?}"),
    }
}

#[test]
fn reference_networks_agree_set_by_set_and_in_one_session() {
    for name in SMALL {
        let net = network(name);
        let engine = Engine::new(&net).unwrap();
        let mut session = engine.session();
        for case in json(&format!("infer_{name}.json"))["cases"].as_array().unwrap() {
            let id = case["id"].as_str().unwrap();
            let ev = evidence(&net, case);
            let (plain, fresh) = (posterior(&net, &ev), engine.posterior(&ev));
            same(id, &net, &fresh, &plain);
            session.load(&ev).unwrap();
            let log_p = session.log_p_evidence();
            let kept = session.posterior().cloned();
            same(id, &net, &kept, &plain);
            assert_eq!(log_p.ok(), kept.as_ref().ok().map(|k| k.log_p_evidence), "{id}");
            let impossible = case.get("impossible").and_then(Value::as_bool) == Some(true);
            let Ok(fresh) = fresh else {
                assert!(impossible, "{id}");
                continue;
            };
            assert!(
                (fresh.log_p_evidence - case["log_p_evidence"].as_f64().unwrap()).abs() <= TOLERANCE,
                "{id}"
            );
            for (node, theirs) in case["posterior"].as_object().unwrap() {
                for (x, y) in fresh.of(net.find(node).unwrap()).iter().zip(numbers(theirs)) {
                    assert!((x - y).abs() <= TOLERANCE, "{id} {node}");
                }
            }
            for (node, state) in ev.hard() {
                assert_eq!(fresh.of(node)[state], 1.0, "{id}");
            }
        }
    }
}

#[test]
fn evidence_far_below_any_double_is_weighed_exactly() {
    for (leaves, against) in [(900, true), (940, false), (2, true)] {
        let (net, ev) = crowds(leaves, against);
        let engine = Engine::new(&net).unwrap();
        let answer = engine.posterior(&ev);
        same("crowds", &net, &answer, &posterior(&net, &ev));
        let answer = answer.unwrap();
        if against {
            assert!((answer.of(0)[0] - 0.25).abs() < 1e-12);
            let each = 0.0002f64.ln() + 0.0001f64.ln();
            assert!((answer.log_p_evidence / (leaves as f64 * each) - 1.0).abs() < 1e-12);
        }
        assert!(leaves < 900 || answer.log_p_evidence < -8000.0);
    }
}

#[test]
fn likelihoods_of_any_size_are_taken_as_given() {
    let mut b = NetworkBuilder::new();
    let a = b.node("a", &["x", "y"]).unwrap();
    b.table(a, &[], vec![0.5, 0.5]).unwrap();
    let one = b.node("one", &["only"]).unwrap();
    b.table(one, &[a], vec![1.0, 1.0]).unwrap();
    let net = b.build().unwrap();
    let engine = Engine::new(&net).unwrap();
    let mut session = engine.session();
    for (l, p, log_p) in [
        (vec![vec![1e300, 3e300]], [0.25, 0.75], 2e300f64.ln()),
        (vec![vec![1e-310, 3e-310]], [0.25, 0.75], 2e-310f64.ln()),
        (vec![vec![1e300, 1e-300], vec![1e-300, 1e300]], [0.5, 0.5], 0.0),
        (vec![vec![1e300, 1e-300]], [1.0, 1e-600], 5e299f64.ln()),
        (vec![vec![1.0, 3.0]], [0.25, 0.75], 2f64.ln()),
    ] {
        let mut ev = Evidence::new();
        l.iter().for_each(|l| ev.likelihood(a, l.clone()));
        ev.likelihood(one, vec![0.5]);
        session.load(&ev).unwrap();
        for answer in [engine.posterior(&ev).unwrap(), session.posterior().unwrap().clone()] {
            assert!(
                (answer.of(a)[0] - p[0]).abs() < 1e-12 && (answer.of(a)[1] - p[1]).abs() < 1e-12,
                "{l:?}"
            );
            assert!((answer.log_p_evidence - log_p - 0.5f64.ln()).abs() < 1e-9, "{l:?}");
        }
    }
}

#[test]
fn a_network_too_large_for_a_tree_is_answered_set_by_set() {
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
    let engine = Engine::new(&net).unwrap();
    let mut ev = Evidence::new();
    ev.observe(net.find("child7-3").unwrap(), 1);
    same("pairs", &net, &engine.posterior(&ev), &posterior(&net, &ev));
    let mut session = engine.session();
    session.load(&ev).unwrap();
    same("pairs", &net, &session.posterior().cloned(), &posterior(&net, &ev));
    assert!(session.log_p_evidence().is_ok());
    (40..net.len()).for_each(|n| ev.observe(n, 1));
    assert!(matches!(engine.posterior(&ev), Err(InferError::TooLarge { .. })));
}

#[test]
fn a_finding_that_does_not_fit_is_refused_and_leaves_the_session_as_it_was() {
    let net = network("asia");
    let engine = Engine::new(&net).unwrap();
    let mut session = engine.session();
    session.set(0, Finding::State(1)).unwrap();
    let before = session.posterior().unwrap().clone();
    let nothing: &[f64] = &[];
    for (node, finding) in [
        (99, Finding::State(0)),
        (99, Finding::Likelihood(nothing)),
        (0, Finding::State(2)),
        (0, Finding::Likelihood(&[1.0])),
        (0, Finding::Likelihood(&[1.0, -1.0])),
        (0, Finding::Likelihood(&[1.0, f64::NAN])),
    ] {
        assert!(
            matches!(session.set(node, finding), Err(InferError::BadEvidence { .. })),
            "{node} {finding:?}"
        );
    }
    session.retract(99);
    let mut ev = Evidence::new();
    ev.observe(0, 7);
    assert!(matches!(session.load(&ev), Err(InferError::BadEvidence { .. })));
    assert!(matches!(engine.posterior(&ev), Err(InferError::BadEvidence { .. })));
    assert_eq!(session.posterior().unwrap(), &before);
}

fn against_enumeration(net: &Network, ev: &Evidence, answer: &Result<Posterior, InferError>) {
    let (p, all) = enumerate(net, ev);
    let Ok(answer) = answer else {
        assert_eq!(p, 0.0);
        return;
    };
    assert!((answer.log_p_evidence - p.ln()).abs() < 1e-11);
    for node in 0..net.len() {
        for (state, ours) in answer.of(node).iter().enumerate() {
            let theirs = all.iter().filter(|(x, _)| x[node] == state).map(|(_, q)| q).sum::<f64>() / p;
            assert!((ours - theirs).abs() < 1e-12, "{ours} {theirs}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn sessions_equal_enumeration_and_a_fresh_engine_whatever_was_set_before(seed in any::<u64>()) {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let net = random_network(&mut rng, true);
        let engine = Engine::new(&net).unwrap();
        let mut session = engine.session();
        let mut ev = Evidence::new();
        for _ in 0..12 {
            let node = rng.next_u32() as usize % net.len();
            let size = net.nodes()[node].states.len();
            ev.forget(node);
            match rng.next_u32() % 5 {
                0 | 1 => {
                    let state = rng.next_u32() as usize % size;
                    ev.observe(node, state);
                    session.set(node, Finding::State(state)).unwrap();
                }
                2 => {
                    let l: Vec<f64> = (0..size).map(|_| f64::from(rng.next_u32() % 4) / 3.0).collect();
                    session.set(node, Finding::Likelihood(&l)).unwrap();
                    ev.likelihood(node, l);
                }
                _ => session.retract(node),
            }
            // Now and then several findings pile up before a question, or only their probability is asked for.
            if rng.next_u32() % 4 == 0 {
                continue;
            }
            if rng.next_u32() % 4 == 0 {
                let log_p = session.log_p_evidence().ok();
                prop_assert_eq!(log_p.is_some(), enumerate(&net, &ev).0 > 0.0);
                continue;
            }
            let kept = session.posterior().cloned();
            against_enumeration(&net, &ev, &kept);
            let fresh = engine.posterior(&ev);
            same("fresh", &net, &kept, &fresh);
            same("plain", &net, &fresh, &posterior(&net, &ev));
        }
        // Back to nothing.
        (0..net.len()).for_each(|n| session.retract(n));
        same("empty", &net, &session.posterior().cloned(), &engine.posterior(&Evidence::new()));
    }

    #[test]
    fn the_order_of_findings_changes_no_bit_of_a_fresh_answer(seed in any::<u64>()) {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let net = random_network(&mut rng, true);
        let engine = Engine::new(&net).unwrap();
        let list: Vec<(usize, usize)> = (0..net.len())
            .filter_map(|n| Some((n, (rng.next_u32() as usize % 5).checked_sub(2)?)))
            .map(|(n, s)| (n, s % net.nodes()[n].states.len()))
            .collect();
        let mut answers = Vec::new();
        for turn in 0..list.len().max(1) {
            let mut turned = list.clone();
            turned.rotate_left(turn);
            let (mut ev, mut session) = (Evidence::new(), engine.session());
            for (n, s) in turned {
                ev.observe(n, s);
                session.set(n, Finding::State(s)).unwrap();
            }
            prop_assert_eq!(&engine.posterior(&ev), &session.posterior().cloned());
            answers.push(engine.posterior(&ev));
        }
        prop_assert!(answers.iter().all(|a| *a == answers[0]));
    }
}

#[test]
fn a_factored_family_is_answered_as_its_full_table() {
    let mut builder = inference::NetworkBuilder::new();
    let states = ["no", "yes"];
    let causes: Vec<usize> = (0..4).map(|i| builder.node(format!("c{i}"), &states).unwrap()).collect();
    let effect = builder.node("effect", &states).unwrap();
    for cause in &causes {
        builder.table(*cause, &[], vec![0.8, 0.2]).unwrap();
    }
    let weights: Vec<(usize, f64)> = causes.iter().map(|c| (*c, 0.3 + 0.1 * *c as f64)).collect();
    builder.noisy_or(effect, &weights, 0.02).unwrap();
    let factored = builder.build().unwrap();
    let tabled = factored.tabled(64).unwrap();
    let mut seen = inference::Evidence::new();
    seen.observe(effect, 1);
    let a = inference::Engine::new(&factored).unwrap().posterior(&seen).unwrap();
    let b = inference::Engine::new(&tabled).unwrap().posterior(&seen).unwrap();
    for cause in causes {
        assert!((a.of(cause)[1] - b.of(cause)[1]).abs() < 1e-12);
    }
}
