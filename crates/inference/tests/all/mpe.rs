//! The most probable explanation against reference results and against plain enumeration.

use inference::{Evidence, InferError, Network, NetworkBuilder, mpe};
use proptest::prelude::*;
use serde_json::Value;

use crate::random::{build, enter, findings, plan};
use crate::support::{enumerate, evidence, json, network};

/// ln P(states) plus the logarithm of every likelihood.
fn log_joint(net: &Network, ev: &Evidence, states: &[usize]) -> f64 {
    let nodes = net.nodes();
    let row = |id: usize| {
        nodes[id].parents.iter().fold(0, |r, p| r * nodes[*p].states.len() + states[*p])
            * nodes[id].states.len()
    };
    (0..net.len()).map(|id| nodes[id].cpt[row(id) + states[id]].ln()).sum::<f64>()
        + ev.soft().map(|(n, l)| l[states[n]].ln()).sum::<f64>()
}

/// Compares every explanation of a file; returns how many there were.
fn check(name: &str) -> usize {
    let net = network(name);
    let file = json(&format!("infer_{name}.json"));
    let mut compared = 0;
    for case in file["cases"].as_array().unwrap() {
        let id = case["id"].as_str().unwrap();
        let ev = evidence(&net, case);
        if case.get("impossible").and_then(Value::as_bool) == Some(true) {
            assert!(matches!(mpe(&net, &ev), Err(InferError::Impossible { .. })), "{id}");
            continue;
        }
        let ours = mpe(&net, &ev).unwrap();
        assert!(ev.hard().all(|(n, s)| ours.states[n] == s), "{id}");
        let again = log_joint(&net, &ev, &ours.states);
        assert!((ours.log_joint - again).abs() < 1e-12 * (1.0 + again.abs()), "{id}: {ours:?} is {again}");
        let Some(theirs) = case.get("mpe") else { continue };
        compared += 1;
        assert!((ours.log_joint - theirs["log_joint"].as_f64().unwrap()).abs() < 1e-9, "{id}");
        if let Some(unique) = theirs.get("unique").and_then(Value::as_bool) {
            assert_eq!(ours.unique, unique, "{id}");
            match theirs["log_gap_to_second"].as_f64() {
                Some(gap) => assert!((ours.log_gap_to_second.unwrap() - gap).abs() < 1e-9, "{id}"),
                None => assert_eq!(ours.log_gap_to_second, None, "{id}"),
            }
        }
        if theirs.get("unique") != Some(&Value::Bool(false)) {
            for (node, state) in theirs["assignment"].as_object().unwrap() {
                let node = net.find(node).unwrap();
                assert_eq!(net.nodes()[node].states[ours.states[node]], state.as_str().unwrap(), "{id}");
            }
        }
    }
    compared
}

#[test]
fn explanations_of_the_reference_files_agree() {
    let small = ["asia", "cancer", "earthquake", "sachs", "survey", "child", "alarm", "insurance"];
    let special = ["t_determ", "t_islands", "t_onestate", "t_single", "t_zero", "t_wideor"];
    let house = ["house_s", "house_m"];
    let compared: usize = small.iter().chain(&special).chain(&house).map(|name| check(name)).sum();
    assert!(compared >= 30, "{compared}");
}

#[test]
fn an_explanation_far_below_the_range_of_a_double_is_found() {
    assert_eq!(check("t_underflow"), 0);
}

#[test]
fn a_second_best_far_beyond_a_double_still_has_its_gap() {
    let mut b = NetworkBuilder::new();
    let a = b.node("a", &["x", "y", "z"]).unwrap();
    b.table(a, &[], vec![0.5, 0.5, 0.0]).unwrap();
    let net = b.build().unwrap();
    let mut ev = Evidence::new();
    (0..5).for_each(|_| ev.likelihood(a, vec![1.0, 1e-300, 1.0]));
    let found = mpe(&net, &ev).unwrap();
    assert_eq!((found.states, found.unique), (vec![0], true));
    assert!((found.log_gap_to_second.unwrap() + 1500.0 * 0.1f64.ln()).abs() < 1e-9);
    ev.likelihood(a, vec![1.0, 0.0, 1.0]);
    assert_eq!(mpe(&net, &ev).unwrap().log_gap_to_second, None);
}

#[test]
fn a_network_without_nodes_has_one_explanation() {
    let found = mpe(&NetworkBuilder::new().build().unwrap(), &Evidence::new()).unwrap();
    assert_eq!((found.states.len(), found.log_joint, found.unique), (0, 0.0, true));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_explanation_and_its_gap_equal_enumeration(plan in plan()) {
        let net = build(&plan);
        let ev = enter(&findings(&net, &plan));
        let (p, mut all) = enumerate(&net, &ev);
        let ours = mpe(&net, &ev);
        if p == 0.0 {
            let impossible = matches!(ours, Err(InferError::Impossible { .. }));
            prop_assert!(impossible);
            return Ok(());
        }
        let ours = ours.unwrap();
        all.retain(|(_, q)| *q > 0.0);
        all.sort_by(|a, b| b.1.total_cmp(&a.1));
        prop_assert!((ours.log_joint - all[0].1.ln()).abs() < 1e-10);
        let own = all.iter().find(|(x, _)| *x == ours.states).unwrap().1;
        prop_assert!((own.ln() - ours.log_joint).abs() < 1e-10);
        let gap = all.get(1).map(|second| all[0].1.ln() - second.1.ln());
        prop_assert_eq!(gap.is_some(), ours.log_gap_to_second.is_some());
        if let (Some(a), Some(b)) = (gap, ours.log_gap_to_second) {
            prop_assert!((a - b).abs() < 1e-10, "{} against {}", b, a);
        }
        prop_assert_eq!(ours.unique, gap.is_none_or(|g| g > 1e-9));
    }
}

#[test]
fn a_factored_family_gives_the_explanation_of_its_full_table() {
    let mut builder = inference::NetworkBuilder::new();
    let states = ["no", "yes"];
    let causes: Vec<usize> = (0..4).map(|i| builder.node(format!("c{i}"), &states).unwrap()).collect();
    let effect = builder.node("effect", &states).unwrap();
    for (i, cause) in causes.iter().enumerate() {
        let p = 0.1 + 0.15 * i as f64;
        builder.table(*cause, &[], vec![1.0 - p, p]).unwrap();
    }
    let weights: Vec<(usize, f64)> = causes.iter().map(|c| (*c, 0.3 + 0.1 * *c as f64)).collect();
    builder.noisy_or(effect, &weights, 0.02).unwrap();
    let factored = builder.build().unwrap();
    let tabled = factored.tabled(64).unwrap();
    for state in 0..2 {
        let mut seen = inference::Evidence::new();
        seen.observe(effect, state);
        let (a, b) = (inference::mpe(&factored, &seen).unwrap(), inference::mpe(&tabled, &seen).unwrap());
        assert_eq!(a.states, b.states);
        assert!((a.log_joint - b.log_joint).abs() < 1e-12);
    }
}
