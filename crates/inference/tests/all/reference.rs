//! Posteriors, P(evidence) and joints against results of general-purpose libraries (named in each file).

use inference::{Evidence, InferError, NetworkBuilder, joint, log_p_evidence, noisy_or, posterior};
use serde_json::Value;

use crate::support::{evidence, json, network, numbers, strings};

/// Required of every number; the files themselves agree to 1e-12.
const TOLERANCE: f64 = 1e-9;

fn near(what: &str, ours: &[f64], theirs: &[f64], tolerance: f64) {
    assert_eq!(ours.len(), theirs.len(), "{what}");
    for (a, b) in ours.iter().zip(theirs) {
        assert!((a - b).abs() <= tolerance, "{what}: {ours:?} against {theirs:?}");
    }
}

/// Every case of a file; returns how many were impossible.
fn check(name: &str) -> usize {
    let net = network(name);
    let file = json(&format!("infer_{name}.json"));
    let mut impossible = 0;
    for case in file["cases"].as_array().unwrap() {
        let id = case["id"].as_str().unwrap();
        let ev = evidence(&net, case);
        if case.get("impossible").and_then(Value::as_bool) == Some(true) {
            impossible += 1;
            let Err(InferError::Impossible { conflict }) = posterior(&net, &ev) else { panic!("{id}") };
            assert!(matches!(log_p_evidence(&net, &ev), Err(InferError::Impossible { .. })), "{id}");
            minimal(id, &net, &ev, &conflict);
            continue;
        }
        let answer = posterior(&net, &ev).unwrap();
        let log_p = case["log_p_evidence"].as_f64().unwrap();
        near(id, &[answer.log_p_evidence], &[log_p], TOLERANCE);
        near(id, &[log_p_evidence(&net, &ev).unwrap()], &[log_p], TOLERANCE);
        let listed = case["posterior"].as_object().unwrap();
        assert!(!listed.is_empty() || ev.nodes().len() == net.len(), "{id}");
        for (node, theirs) in listed {
            near(&format!("{id} {node}"), answer.of(net.find(node).unwrap()), &numbers(theirs), TOLERANCE);
        }
        for node in 0..net.len() {
            near(id, &[answer.of(node).iter().sum()], &[1.0], 1e-12);
            if let Some(state) = ev.state(node) {
                assert_eq!(answer.of(node)[state], 1.0, "{id}");
            }
        }
        if let Some(j) = case.get("joint") {
            let vars: Vec<usize> = strings(&j["vars"]).iter().map(|v| net.find(v).unwrap()).collect();
            near(id, &joint(&net, &ev, &vars).unwrap(), &numbers(&j["table"]), TOLERANCE);
        }
    }
    impossible
}

/// The named findings clash, and any of them taken away mends it.
fn minimal(id: &str, net: &inference::Network, ev: &Evidence, conflict: &[usize]) {
    let mut only = ev.clone();
    ev.nodes().iter().filter(|n| !conflict.contains(n)).for_each(|n| only.forget(*n));
    assert!(log_p_evidence(net, &only).is_err(), "{id}: {conflict:?} do not clash");
    for node in conflict {
        assert!(log_p_evidence(net, &only.without(*node)).is_ok(), "{id}: {conflict:?} holds {node} in vain");
    }
}

#[test]
fn textbook_networks_agree() {
    for name in ["asia", "cancer", "earthquake", "sachs", "survey"] {
        assert_eq!(check(name), 0, "{name}");
    }
}

#[test]
fn larger_published_networks_agree() {
    assert_eq!(check("child"), 1);
    assert_eq!(check("alarm"), 1);
    assert_eq!(check("insurance"), 0);
}

#[test]
fn networks_shaped_like_a_house_agree() {
    assert_eq!(check("house_s"), 0);
    assert_eq!(check("house_m"), 1);
}

#[test]
fn certain_tables_and_zero_priors_agree_and_impossible_evidence_is_noticed() {
    assert_eq!(check("t_determ"), 3);
    assert_eq!(check("t_zero"), 3);
}

#[test]
fn islands_single_nodes_and_single_states_agree() {
    assert_eq!(check("t_islands"), 0);
    assert_eq!(check("t_onestate"), 0);
    assert_eq!(check("t_single"), 1);
}

#[test]
fn a_noisy_or_of_fourteen_parents_agrees() {
    assert_eq!(check("t_wideor"), 0);
}

#[test]
fn underflow_is_not_taken_for_impossibility() {
    assert_eq!(check("t_underflow"), 0);
    let lowest = json("infer_t_underflow.json")["cases"]
        .as_array()
        .unwrap()
        .iter()
        .map(|c| c["log_p_evidence"].as_f64().unwrap())
        .fold(0.0, f64::min);
    assert!(lowest < -2000.0);
}

#[test]
fn two_crowds_of_findings_that_outweigh_each_other_balance() {
    // 900 findings for one state, 900 as strong for the other: each crowd alone spans e^-8289, far beyond a
    // double, and together they leave the prior as it was.
    let mut b = NetworkBuilder::new();
    let root = b.node("root", &["a", "b"]).unwrap();
    b.table(root, &[], vec![0.25, 0.75]).unwrap();
    let mut ev = Evidence::new();
    for side in 0..2 {
        let hub = b.node(format!("hub{side}"), &["a", "b"]).unwrap();
        b.table(hub, &[root], vec![1.0, 0.0, 0.0, 1.0]).unwrap();
        for i in 0..900 {
            let leaf = b.node(format!("leaf{side}-{i}"), &["no", "yes"]).unwrap();
            let strong = if side == 0 { [0.9999, 0.0001] } else { [0.0001, 0.9999] };
            b.table(leaf, &[hub], [1.0 - strong[0], strong[0], 1.0 - strong[1], strong[1]].into()).unwrap();
            ev.observe(leaf, 1);
        }
    }
    let net = b.build().unwrap();
    let answer = posterior(&net, &ev).unwrap();
    near("root", answer.of(root), &[0.25, 0.75], 1e-9);
    let each = 0.9999f64.ln() + (1.0 - 0.9999f64).ln();
    assert!(answer.log_p_evidence < -8000.0);
    assert!((answer.log_p_evidence - 900.0 * each).abs() < 1e-6);
    near("joint", &joint(&net, &ev, &[root, 1]).unwrap(), &[0.25, 0.0, 0.0, 0.75], 1e-9);
}

#[test]
fn likelihoods_of_any_size_are_taken_as_given() {
    let mut b = NetworkBuilder::new();
    let a = b.node("a", &["x", "y"]).unwrap();
    b.table(a, &[], vec![0.5, 0.5]).unwrap();
    let net = b.build().unwrap();
    for (l, p, log_p) in [
        (vec![vec![1e300, 3e300]], [0.25, 0.75], 2e300f64.ln()),
        (vec![vec![1e-310, 3e-310]], [0.25, 0.75], 2e-310f64.ln()),
        (vec![vec![1e300, 1e-300], vec![1e-300, 1e300]], [0.5, 0.5], 0.0),
        (
            vec![vec![1e-200, 1.0], vec![1e-200, 1.0], vec![1.0, 1e-200], vec![1.0, 1e-200]],
            [0.5, 0.5],
            2.0 * 1e-200f64.ln(),
        ),
    ] {
        let mut ev = Evidence::new();
        l.iter().for_each(|l| ev.likelihood(a, l.clone()));
        let answer = posterior(&net, &ev).unwrap();
        near("share", answer.of(a), &p, 1e-12);
        assert!((answer.log_p_evidence - log_p).abs() < 1e-9, "{l:?}: {}", answer.log_p_evidence);
    }
}

#[test]
fn noisy_or_tables_and_their_posteriors_agree() {
    for case in json("noisy_or.json")["cases"].as_array().unwrap() {
        let (id, weights, prior) =
            (case["id"].as_str().unwrap(), numbers(&case["p"]), numbers(&case["prior"]));
        let table = noisy_or::table(&weights, case["leak"].as_f64().unwrap());
        let yes: Vec<f64> = table.chunks(2).map(|row| row[1]).collect();
        near(id, &yes, &numbers(&case["p_yes_by_config"]), 1e-12);
        let mut b = NetworkBuilder::new();
        let parents: Vec<usize> =
            (0..weights.len()).map(|i| b.node(format!("x{i}"), &["no", "yes"]).unwrap()).collect();
        parents.iter().zip(&prior).for_each(|(x, p)| b.table(*x, &[], vec![1.0 - p, *p]).unwrap());
        let y = b.node("y", &["no", "yes"]).unwrap();
        b.table(y, &parents, table).unwrap();
        let net = b.build().unwrap();
        let marginal = posterior(&net, &Evidence::new()).unwrap().of(y)[1];
        near(id, &[marginal], &[case["p_yes_marginal"].as_f64().unwrap()], 1e-12);
        let parents_given = |ev: &Evidence| -> Vec<f64> {
            let answer = posterior(&net, ev).unwrap();
            parents.iter().map(|x| answer.of(*x)[1]).collect()
        };
        for (state, key) in [(1, "posterior_parent_given_yes"), (0, "posterior_parent_given_no")] {
            if case[key].is_array() {
                let mut ev = Evidence::new();
                ev.observe(y, state);
                near(id, &parents_given(&ev), &numbers(&case[key]), 1e-12);
            }
        }
        let mut ev = Evidence::new();
        ev.likelihood(y, numbers(&case["soft_on_y"]));
        near(id, &parents_given(&ev), &numbers(&case["posterior_parent_given_soft_y"]), 1e-12);
    }
}
