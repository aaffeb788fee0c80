//! Case by case against one tree for all: the same answers, whichever node tells the cases apart.

use inference::{
    Calibrated, Changed, Evidence, InferError, Network, NetworkBuilder, Split, joint, posterior,
    posterior_by_cases,
};
use proptest::prelude::*;
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};

use crate::support::{network, random_network};

/// Required between the two ways.
const SAME: f64 = 1e-11;

fn near(what: &str, ours: &[f64], theirs: &[f64]) {
    assert_eq!(ours.len(), theirs.len(), "{what}");
    assert!(ours.iter().zip(theirs).all(|(a, b)| (a - b).abs() <= SAME), "{what}: {ours:?} {theirs:?}");
}

fn cases(net: &Network, node: usize) -> Vec<Vec<(usize, usize)>> {
    (0..net.nodes()[node].states.len()).map(|state| vec![(node, state)]).collect()
}

fn changed(
    what: &str,
    wanted: usize,
    ours: Result<Changed, InferError>,
    theirs: Result<Changed, InferError>,
) {
    match (ours, theirs) {
        (Ok(ours), Ok(theirs)) => {
            (0..wanted).for_each(|i| near(what, ours.of(i), theirs.of(i)));
            let off = (ours.log_ratio - theirs.log_ratio).abs();
            assert!(off <= SAME * theirs.log_ratio.abs().max(1.0), "{what}: {off}");
        }
        (Err(ours), Err(theirs)) => assert_eq!(ours, theirs, "{what}"),
        (ours, theirs) => panic!("{what}: {ours:?} {theirs:?}"),
    }
}

/// Everything that can be asked, asked both ways.
fn compare(what: &str, net: &Network, ev: &Evidence, node: usize, rng: &mut ChaCha8Rng) {
    let cases = cases(net, node);
    let all: Vec<usize> = (0..net.len()).collect();
    let at_once = posterior(net, ev);
    let (mut split, mut tree) = match (Split::new(net, ev, &cases), Calibrated::new(net, ev)) {
        (Ok(split), Ok(tree)) => (split, tree),
        (Err(ours), Err(theirs)) => {
            assert_eq!(ours, theirs, "{what}");
            assert_eq!(posterior_by_cases(net, ev, &cases), at_once, "{what}");
            return;
        }
        (ours, theirs) => panic!("{what}: {:?} {:?}", ours.err(), theirs.err()),
    };
    let at_once = at_once.unwrap();
    assert_eq!(split.evidence(), ev);
    assert_eq!(*split.posterior(), posterior_by_cases(net, ev, &cases).unwrap(), "{what}");
    all.iter().for_each(|n| near(what, split.posterior().of(*n), at_once.of(*n)));
    let off = (split.posterior().log_p_evidence - at_once.log_p_evidence).abs();
    assert!(off <= SAME * at_once.log_p_evidence.abs().max(1.0), "{what}: {off}");
    for asked in &all {
        let (ours, theirs) = (split.given(*asked, &all).unwrap(), tree.given(*asked, &all).unwrap());
        near(what, &ours.chances, &theirs.chances);
        for state in 0..ours.chances.len() {
            all.iter().for_each(|i| near(what, ours.of(state, *i), theirs.of(state, *i)));
        }
    }
    for found in ev.nodes() {
        changed(what, net.len(), split.without(&[found], &all), tree.without(&[found], &all));
        let further: Vec<f64> =
            net.nodes()[found].states.iter().map(|_| f64::from(rng.next_u32() % 3)).collect();
        let other = rng.next_u32() as usize % net.len();
        let more: Vec<f64> =
            net.nodes()[other].states.iter().map(|_| f64::from(rng.next_u32() % 3)).collect();
        let list: [(usize, &[f64]); 2] = [(found, &further), (other, &more)];
        changed(what, net.len(), split.with(&list, &all), tree.with(&list, &all));
    }
    changed(what, net.len(), split.without(&ev.nodes(), &all), tree.without(&ev.nodes(), &all));
    let few: Vec<usize> = all.iter().copied().filter(|n| n % 3 == node % 3).take(4).collect();
    near(what, &split.joint(&few).unwrap(), &joint(net, ev, &few).unwrap());
}

fn findings(rng: &mut ChaCha8Rng, net: &Network) -> Evidence {
    let mut ev = Evidence::new();
    for (node, n) in net.nodes().iter().enumerate() {
        if rng.next_u32().is_multiple_of(4) {
            ev.observe(node, rng.next_u32() as usize % n.states.len());
        }
        if rng.next_u32().is_multiple_of(4) {
            ev.likelihood(node, n.states.iter().map(|_| f64::from(1 + rng.next_u32() % 4) / 3.0).collect());
        }
    }
    ev
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whichever_node_tells_the_cases_apart_the_answers_are_the_same(seed in any::<u64>(), zeros in any::<bool>()) {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let net = random_network(&mut rng, zeros);
        let ev = findings(&mut rng, &net);
        let node = rng.next_u32() as usize % net.len();
        compare("random", &net, &ev, node, &mut rng);
    }
}

#[test]
fn networks_of_the_literature_give_the_same_answers_case_by_case() {
    for name in ["asia", "cancer", "earthquake", "sachs", "survey", "child"] {
        let net = network(name);
        let mut rng = ChaCha8Rng::seed_from_u64(7);
        for node in 0..net.len() {
            compare(name, &net, &findings(&mut rng, &net), node, &mut rng);
        }
    }
}

#[test]
fn states_of_a_copy_belong_to_the_case() {
    let mut b = NetworkBuilder::new();
    let states = ["old", "middle", "new"];
    let (era, room) = (b.node("era", &states).unwrap(), b.node("room", &states).unwrap());
    let (pipe, sign) = (b.node("pipe", &["no", "yes"]).unwrap(), b.node("sign", &["no", "yes"]).unwrap());
    b.table(era, &[], vec![0.2, 0.3, 0.5]).unwrap();
    b.table(room, &[era], (0..9).map(|i| f64::from(u8::from(i / 3 == i % 3))).collect()).unwrap();
    b.table(pipe, &[room], vec![0.3, 0.7, 0.8, 0.2, 0.99, 0.01]).unwrap();
    b.table(sign, &[pipe], vec![0.9, 0.1, 0.2, 0.8]).unwrap();
    let net = b.build().unwrap();
    let mut ev = Evidence::new();
    ev.observe(sign, 1);
    let cases: Vec<Vec<(usize, usize)>> = (0..3).map(|level| vec![(era, level), (room, level)]).collect();
    let mut split = Split::new(&net, &ev, &cases).unwrap();
    // By hand: P(sign | old) = 0.59, middle 0.24, new 0.107.
    let weights = [0.2 * 0.59, 0.3 * 0.24, 0.5 * 0.107];
    let sum: f64 = weights.iter().sum();
    near("era", split.posterior().of(era), &weights.map(|w| w / sum));
    let given = split.given(pipe, &[room]).unwrap();
    let yes = [0.2 * 0.7 * 0.8, 0.3 * 0.2 * 0.8, 0.5 * 0.01 * 0.8];
    let all: f64 = yes.iter().sum();
    near("room", given.of(1, 0), &yes.map(|w| w / all));
    near("back", split.without(&[sign], &[pipe]).unwrap().of(0), &[0.795, 0.205]);
    // No cases: one tree, to the last bit.
    let single = Split::new(&net, &ev, &[]).unwrap();
    assert_eq!(*single.posterior(), posterior(&net, &ev).unwrap());
}

#[test]
fn what_does_not_fit_is_refused() {
    let net = network("asia");
    let mut ev = Evidence::new();
    ev.observe(3, 0);
    let mut split = Split::new(&net, &ev, &cases(&net, 0)).unwrap();
    let bad = |r: Result<(), InferError>| assert!(matches!(r, Err(InferError::BadEvidence { .. })), "{r:?}");
    bad(split.given(99, &[1]).map(drop));
    bad(split.given(1, &[99]).map(drop));
    bad(split.with(&[(1, &[1.0])], &[2]).map(drop));
    bad(split.without(&[0], &[2]).map(drop));
    bad(split.without(&[99], &[2]).map(drop));
    bad(Split::new(&net, &ev, &[vec![(99, 0)]]).map(drop));
    bad(Split::new(&net, &ev, &[vec![(0, 7)]]).map(drop));
}
