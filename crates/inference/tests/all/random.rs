//! Small random networks against plain enumeration.

use inference::{Evidence, InferError, Network, NetworkBuilder, joint, log_p_evidence, posterior};
use proptest::prelude::*;

use crate::support::enumerate;

#[derive(Debug, Clone)]
pub(crate) struct Plan {
    /// Per node: states, candidate parents as bits over the earlier nodes, table weights.
    nodes: Vec<(usize, u8, Vec<u8>)>,
    /// Per node: nothing (0..3), hard (3), soft (4), two soft (5), hard and soft (6); then numbers for it.
    findings: Vec<(u8, usize, Vec<u8>)>,
    shuffle: u64,
}

pub(crate) fn plan() -> impl Strategy<Value = Plan> {
    let node = (1usize..=3, any::<u8>(), prop::collection::vec(0u8..12, 64));
    let finding = (0u8..=6, 0usize..6, prop::collection::vec(0u8..8, 8));
    (prop::collection::vec(node, 1..=7), prop::collection::vec(finding, 7), any::<u64>())
        .prop_map(|(nodes, findings, shuffle)| Plan { nodes, findings, shuffle })
}

/// Nodes are numbered backwards, so that parents come after their children.
pub(crate) fn build(plan: &Plan) -> Network {
    let count = plan.nodes.len();
    let id = |i: usize| count - 1 - i;
    let mut b = NetworkBuilder::new();
    for i in (0..count).rev() {
        let states: Vec<String> = (0..plan.nodes[i].0).map(|s| format!("s{s}")).collect();
        b.node(format!("n{i}"), &states).unwrap();
    }
    for (i, (width, mask, weights)) in plan.nodes.iter().enumerate() {
        let parents: Vec<usize> = (0..i).filter(|j| mask >> j & 1 == 1).take(3).collect();
        let rows: usize = parents.iter().map(|p| plan.nodes[*p].0).product();
        let mut cpt = Vec::new();
        for r in 0..rows {
            // Weights below 4 count as zero, so certain rows are common.
            let row: Vec<f64> = (0..*width)
                .map(|s| f64::from(weights[(r * 5 + s * 3) % weights.len()].saturating_sub(3)))
                .collect();
            let sum: f64 = row.iter().sum();
            cpt.extend(
                row.iter()
                    .enumerate()
                    .map(|(s, x)| if sum > 0.0 { x / sum } else { f64::from(s as u8 == 0) }),
            );
        }
        let parents: Vec<usize> = parents.iter().map(|p| id(*p)).collect();
        b.table(id(i), &parents, cpt).unwrap();
    }
    b.build().unwrap()
}

type Finding = (usize, Option<usize>, Vec<f64>);

pub(crate) fn findings(net: &Network, plan: &Plan) -> Vec<Finding> {
    let mut list = Vec::new();
    for (node, (kind, state, l)) in (0..net.len()).zip(&plan.findings) {
        let states = net.nodes()[node].states.len();
        let soft =
            |from: usize| l.iter().cycle().skip(from).take(states).map(|x| f64::from(*x) / 3.0).collect();
        if matches!(kind, 3 | 6) {
            list.push((node, Some(state % states), Vec::new()));
        }
        if matches!(kind, 4..=6) {
            list.push((node, None, soft(0)));
        }
        if *kind == 5 {
            list.push((node, None, soft(2)));
        }
    }
    list
}

pub(crate) fn enter(list: &[Finding]) -> Evidence {
    let mut ev = Evidence::new();
    for (node, state, l) in list {
        match state {
            Some(state) => ev.observe(*node, *state),
            None => ev.likelihood(*node, l.clone()),
        }
    }
    ev
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn posterior_and_joint_equal_enumeration_in_any_order(plan in plan()) {
        let net = build(&plan);
        let mut list = findings(&net, &plan);
        let ev = enter(&list);
        let (p, all) = enumerate(&net, &ev);
        let ours = posterior(&net, &ev);

        // The order of entry changes nothing, to the last bit.
        let turn = plan.shuffle as usize % list.len().max(1);
        list.rotate_left(turn);
        if plan.shuffle & 1 == 1 {
            list.reverse();
        }
        prop_assert_eq!(&posterior(&net, &enter(&list)), &ours);

        if p == 0.0 {
            let Err(InferError::Impossible { conflict }) = ours else { panic!("not noticed") };
            let mut only = ev.clone();
            ev.nodes().iter().filter(|n| !conflict.contains(n)).for_each(|n| only.forget(*n));
            prop_assert_eq!(enumerate(&net, &only).0, 0.0);
            for node in &conflict {
                prop_assert!(enumerate(&net, &only.without(*node)).0 > 0.0);
            }
            return Ok(());
        }
        let ours = ours.unwrap();
        prop_assert!((ours.log_p_evidence - p.ln()).abs() < 1e-10);
        prop_assert!((log_p_evidence(&net, &ev).unwrap() - p.ln()).abs() < 1e-10);
        for node in 0..net.len() {
            for state in 0..net.nodes()[node].states.len() {
                let theirs = all.iter().filter(|(x, _)| x[node] == state).map(|(_, q)| q).sum::<f64>() / p;
                prop_assert!((ours.of(node)[state] - theirs).abs() < 1e-10);
            }
        }
        let targets: Vec<usize> = (0..net.len()).rev().filter(|n| plan.shuffle >> (n + 8) & 1 == 1).collect();
        let table = joint(&net, &ev, &targets).unwrap();
        for (i, cell) in table.iter().enumerate() {
            let mut rest = i;
            let states: Vec<usize> = targets.iter().rev().map(|t| {
                let s = rest % net.nodes()[*t].states.len();
                rest /= net.nodes()[*t].states.len();
                s
            }).collect();
            let agrees = |x: &Vec<usize>| targets.iter().rev().zip(&states).all(|(t, s)| x[*t] == *s);
            let theirs = all.iter().filter(|(x, _)| agrees(x)).map(|(_, q)| q).sum::<f64>() / p;
            prop_assert!((cell - theirs).abs() < 1e-10);
        }
    }
}
