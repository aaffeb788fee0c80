//! What is refused, and in which words.

use inference::{
    Evidence, InferError, Network, NetworkBuilder, NetworkError, joint, log_p_evidence, posterior, sampler,
};

use rand_chacha::ChaCha8Rng;
use rand_core::{Rng as _, SeedableRng as _};

use crate::support;

fn builder() -> NetworkBuilder {
    let mut b = NetworkBuilder::new();
    b.node("era", &["old", "new"]).unwrap();
    b.node("pipe", &["lead", "copper", "plastic"]).unwrap();
    b
}

fn two() -> Network {
    let mut b = builder();
    b.table(0, &[], vec![0.5, 0.5]).unwrap();
    b.table(1, &[0], vec![0.2, 0.8, 0.0, 0.0, 0.5, 0.5]).unwrap();
    b.build().unwrap()
}

#[test]
fn names_used_twice_are_refused() {
    assert_eq!(builder().node("era", &["a"]), Err(NetworkError::DuplicateNode { name: "era".into() }));
    let twice = builder().node("x", &["a", "b", "a"]);
    assert_eq!(twice, Err(NetworkError::DuplicateState { node: "x".into(), state: "a".into() }));
    assert!(matches!(builder().node::<&str>("x", &[]), Err(NetworkError::StateCount { states: 0, .. })));
}

#[test]
fn a_bad_row_is_named_with_its_parents_states() {
    let e = builder().table(1, &[0], vec![0.2, 0.8, 0.0, 0.1, 0.5, 0.5]).unwrap_err();
    let text = e.to_string();
    assert!(text.contains("\"pipe\", row 2 (era new), sums to 1.1"), "{text}");
    for bad in [-0.5, f64::NAN, f64::INFINITY] {
        let e = builder().table(0, &[], vec![1.5, bad]).unwrap_err();
        assert!(matches!(e, NetworkError::BadEntry { .. }), "{e}");
    }
    let e = builder().table(1, &[0], vec![0.5; 5]).unwrap_err();
    assert_eq!(e, NetworkError::TableSize { node: "pipe".into(), expected: 6, got: 5 });
}

#[test]
fn rounded_rows_are_normalized_and_exact_rows_kept() {
    let mut b = builder();
    b.table(0, &[], vec![0.3333333, 0.6666666]).unwrap();
    b.table(1, &[0], vec![0.1, 0.2, 0.7, 0.1, 0.7, 0.2]).unwrap();
    let net = b.build().unwrap();
    assert_eq!(net.nodes()[0].cpt.iter().sum::<f64>(), 1.0);
    assert_eq!(net.nodes()[1].cpt, [0.1, 0.2, 0.7, 0.1, 0.7, 0.2]);
}

#[test]
fn circles_missing_tables_and_bad_parents_are_refused() {
    let mut b = builder();
    b.node("wall", &["x"]).unwrap();
    b.table(2, &[], vec![1.0]).unwrap();
    b.table(0, &[1], vec![0.5; 6]).unwrap();
    assert_eq!(b.clone().build(), Err(NetworkError::NoTable { node: "pipe".into() }));
    assert_eq!(b.table(0, &[], vec![0.5, 0.5]), Err(NetworkError::TableTwice { node: "era".into() }));
    b.table(1, &[0, 2], vec![0.2, 0.8, 0.0, 0.0, 0.5, 0.5]).unwrap();
    let Err(NetworkError::Cycle { mut nodes }) = b.build() else { panic!() };
    nodes.sort();
    assert_eq!(nodes, ["era", "pipe"]);
    let own = builder().table(0, &[0], vec![0.5; 4]);
    assert_eq!(own, Err(NetworkError::BadParent { node: "era".into(), parent: "era".into() }));
    assert_eq!(builder().table(0, &[9], vec![]), Err(NetworkError::UnknownNode { id: 9 }));
}

#[test]
fn findings_that_do_not_fit_are_refused_everywhere() {
    let net = two();
    let with = |f: &dyn Fn(&mut Evidence)| {
        let mut ev = Evidence::new();
        f(&mut ev);
        ev
    };
    for ev in [
        with(&|e| e.observe(7, 0)),
        with(&|e| e.observe(1, 3)),
        with(&|e| e.likelihood(7, vec![1.0])),
        with(&|e| e.likelihood(0, vec![1.0])),
        with(&|e| e.likelihood(0, vec![1.0, -1.0])),
        with(&|e| e.likelihood(0, vec![1.0, f64::NAN])),
    ] {
        assert!(matches!(posterior(&net, &ev), Err(InferError::BadEvidence { .. })));
        assert!(matches!(log_p_evidence(&net, &ev), Err(InferError::BadEvidence { .. })));
        assert!(matches!(joint(&net, &ev, &[0]), Err(InferError::BadEvidence { .. })));
        assert!(matches!(sampler(&net, &ev, &[0]), Err(InferError::BadEvidence { .. })));
    }
    assert!(matches!(joint(&net, &Evidence::new(), &[0, 0]), Err(InferError::BadEvidence { .. })));
    assert!(matches!(joint(&net, &Evidence::new(), &[2]), Err(InferError::BadEvidence { .. })));
    assert!(matches!(sampler(&net, &Evidence::new(), &[2]), Err(InferError::BadEvidence { .. })));
    assert!(posterior(&net, &Evidence::new()).unwrap().of(2).is_empty());
}

#[test]
fn impossible_findings_are_named_by_every_question() {
    let net = two();
    let mut ev = Evidence::new();
    ev.observe(0, 0);
    ev.observe(1, 2);
    let wanted = InferError::Impossible { conflict: vec![0, 1] };
    assert_eq!(posterior(&net, &ev).unwrap_err(), wanted);
    assert_eq!(joint(&net, &ev, &[0]).unwrap_err(), wanted);
    assert_eq!(sampler(&net, &ev, &[0]).unwrap_err(), wanted);
    let mut ev = Evidence::new();
    ev.likelihood(1, vec![0.0, 0.0, 0.0]);
    assert_eq!(posterior(&net, &ev).unwrap_err(), InferError::Impossible { conflict: vec![1] });
}

/// By enumeration on networks full of zeros: what is named cannot hold, and without any one of it the rest can.
#[test]
fn the_findings_named_as_impossible_are_impossible_and_none_of_them_can_be_left_out() {
    let mut rng = ChaCha8Rng::seed_from_u64(41);
    let mut named = 0;
    for _ in 0..4_000 {
        let net = support::random_network(&mut rng, true);
        let mut ev = Evidence::new();
        for node in 0..net.len() {
            let states = net.nodes()[node].states.len() as u64;
            if rng.next_u64() % 3 > 0 {
                ev.observe(node, (rng.next_u64() % states) as usize);
            }
        }
        let (p, _) = support::enumerate(&net, &ev);
        match posterior(&net, &ev) {
            Ok(_) => assert!(p > 0.0),
            Err(InferError::Impossible { conflict }) => {
                named += 1;
                assert!(p == 0.0 && !conflict.is_empty());
                let only = |keep: &dyn Fn(usize) -> bool| {
                    let mut part = Evidence::new();
                    for (node, state) in ev.hard().filter(|(node, _)| conflict.contains(node) && keep(*node))
                    {
                        part.observe(node, state);
                    }
                    support::enumerate(&net, &part).0
                };
                assert_eq!(only(&|_| true), 0.0, "{conflict:?}");
                for left_out in &conflict {
                    assert!(
                        only(&|node| node != *left_out) > 0.0,
                        "{left_out} of {conflict:?} is not needed"
                    );
                }
            }
            Err(other) => panic!("{other}"),
        }
    }
    assert!(named > 500, "{named}");
}

/// A grid of `n` roots with a child under every pair.
fn pairs(n: usize) -> Network {
    let mut b = NetworkBuilder::new();
    for i in 0..n {
        b.node(format!("root{i}"), &["no", "yes"]).unwrap();
        b.table(i, &[], vec![0.9, 0.1]).unwrap();
    }
    for i in 0..n {
        for j in 0..i {
            let id = b.node(format!("child{i}-{j}"), &["no", "yes"]).unwrap();
            b.table(id, &[i, j], vec![1.0, 0.0, 0.5, 0.5, 0.5, 0.5, 0.25, 0.75]).unwrap();
        }
    }
    b.build().unwrap()
}

#[test]
fn children_without_findings_do_not_tie_a_network_into_one_cluster() {
    // With 40 roots one cluster would be refused, with 26 it would be allowed but needlessly large.
    for roots in [26, 40] {
        let net = pairs(roots);
        let mut ev = Evidence::new();
        ev.observe(net.find("root3").unwrap(), 1);
        ev.observe(net.find("child7-3").unwrap(), 1);
        let answer = posterior(&net, &ev).unwrap();
        // P(child7-3 yes | root3 yes) = 0.9 · 0.5 + 0.1 · 0.75
        assert!((answer.log_p_evidence - (0.1 * 0.525f64).ln()).abs() < 1e-12);
        assert!((answer.of(net.find("root7").unwrap())[1] - 0.075 / 0.525).abs() < 1e-12);
        assert!((answer.of(net.find("child2-1").unwrap())[1] - (0.18 * 0.5 + 0.01 * 0.75)).abs() < 1e-12);
    }
}

#[test]
fn too_large_a_cluster_is_refused_in_words() {
    let net = pairs(40);
    let mut ev = Evidence::new();
    (40..net.len()).for_each(|n| ev.observe(n, 1));
    let e = posterior(&net, &ev).unwrap_err();
    assert!(matches!(e, InferError::TooLarge { limit: inference::CLUSTER_LIMIT, .. }));
    let text = e.to_string();
    assert!(text.contains("1099511627776 cells, more than the 67108864 allowed, over \"root"), "{text}");
    let many: Vec<usize> = (0..40).collect();
    assert!(matches!(joint(&net, &Evidence::new(), &many), Err(InferError::TooLarge { .. })));
}
