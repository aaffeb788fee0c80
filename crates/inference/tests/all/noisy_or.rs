//! Factored noisy-OR and noisy-MAX families against full tables, closed forms and reference results.

use inference::bif::{read, read_document, write};
use inference::{
    Evidence, InferError, Network, NetworkBuilder, NetworkError, joint, log_p_evidence, posterior, sampler,
};
use proptest::prelude::*;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use crate::support::{evidence, json, numbers, strings};

const NO_YES: [&str; 2] = ["no", "yes"];

/// Parents x0.. with the given P(yes).
fn roots(b: &mut NetworkBuilder, prior: &[f64]) -> Vec<usize> {
    let add = |(i, p): (usize, &f64)| {
        let id = b.node(format!("x{i}"), &NO_YES).unwrap();
        b.table(id, &[], vec![1.0 - p, *p]).unwrap();
        id
    };
    prior.iter().enumerate().map(add).collect()
}

/// Priors and weights of causes, by arithmetic.
fn causes(count: usize) -> (Vec<f64>, Vec<f64>) {
    let prior = (0..count).map(|i| 0.01 + 0.005 * (i % 7) as f64).collect();
    let weights = (0..count).map(|i| 0.2 + 0.75 * (i * 11 % 30) as f64 / 30.0).collect();
    (prior, weights)
}

/// A network of one family over independent causes; the child is the last node.
fn wide(prior: &[f64], weights: &[f64], leak: f64) -> Network {
    let mut b = NetworkBuilder::new();
    let parents = roots(&mut b, prior);
    let y = b.node("y", &NO_YES).unwrap();
    let weighted: Vec<(usize, f64)> = parents.into_iter().zip(weights.iter().copied()).collect();
    b.noisy_or(y, &weighted, leak).unwrap();
    b.build().unwrap()
}

/// Over thirty of them.
fn thirty(leak: f64) -> Network {
    let (prior, weights) = causes(30);
    wide(&prior, &weights, leak)
}

fn found(list: &[(usize, usize)]) -> Evidence {
    let mut ev = Evidence::new();
    list.iter().for_each(|(n, s)| ev.observe(*n, *s));
    ev
}

#[test]
fn thirty_parents_and_a_thousand_agree_with_the_closed_form() {
    // P(no) = (1 - leak) · product of (1 - prior · weight), since the causes are independent (Pearl 1988). A
    // table would have 2^31 or 2^1001 cells; the chain has eight for each parent.
    for count in [30, 1000] {
        let (mut prior, weights) = causes(count);
        prior.iter_mut().for_each(|p| *p *= 30.0 / count as f64);
        let (net, y) = (wide(&prior, &weights, 0.02), count);
        assert_eq!((net.len(), net.nodes()[y].parents.len(), net.topological().len()), (y + 1, y, y + 1));
        let no: f64 = prior.iter().zip(&weights).fold(0.98, |p, (q, w)| p * (1.0 - q * w));
        let yes = posterior(&net, &found(&[(y, 1)])).unwrap();
        assert!((yes.log_p_evidence - (1.0 - no).ln()).abs() < 1e-12);
        assert!((posterior(&net, &Evidence::new()).unwrap().of(y)[0] - no).abs() < 1e-12);
        let absent = posterior(&net, &found(&[(y, 0)])).unwrap();
        for (i, (q, w)) in prior.iter().zip(&weights).enumerate() {
            let wanted = q * (1.0 - no / (1.0 - q * w) * (1.0 - w)) / (1.0 - no);
            assert!((yes.of(i)[1] - wanted).abs() < 1e-12, "{i}");
            assert!((absent.of(i)[1] - q * (1.0 - w) / (1.0 - q * w)).abs() < 1e-12, "{i}");
        }
        assert!(yes.of(y + 1).is_empty(), "hidden variables are shown to no one");
    }
}

#[test]
fn findings_over_the_same_thirty_causes_agree_with_quickscore() {
    // D. Heckerman, "A tractable inference algorithm for diagnosing multiple diseases", Uncertainty in
    // Artificial Intelligence 1989: a sum over the subsets of the positive findings, signs alternating. The
    // negative findings, however many, tie nothing together.
    let prior: Vec<f64> = causes(30).0.iter().map(|p| p * 4.0).collect();
    let (leak, findings, positive) = (0.01, 24, 4);
    // Negative findings weigh little here, else the alternating sum of the reference loses its digits.
    let weight = |i: usize, f: usize| {
        let strong = if f < positive { 0.9 } else { 0.05 };
        0.02 + strong * ((i * 7 + f * 13) % 31) as f64 / 31.0
    };
    let mut b = NetworkBuilder::new();
    let parents = roots(&mut b, &prior);
    let mut ev = Evidence::new();
    for f in 0..findings {
        let id = b.node(format!("f{f}"), &NO_YES).unwrap();
        let weighted: Vec<(usize, f64)> = parents.iter().map(|p| (*p, weight(*p, f))).collect();
        b.noisy_or(id, &weighted, leak).unwrap();
        ev.observe(id, usize::from(f < positive));
    }
    let net = b.build().unwrap();
    // P(evidence and, if named, one cause present).
    let quickscore = |cause: Option<usize>| -> f64 {
        let subset = |s: u32| {
            let no: Vec<usize> = (0..findings).filter(|f| *f >= positive || s >> f & 1 == 1).collect();
            let each = parents.iter().map(|i| {
                let all_no: f64 = no.iter().map(|f| 1.0 - weight(*i, *f)).product();
                prior[*i] * all_no + if cause == Some(*i) { 0.0 } else { 1.0 - prior[*i] }
            });
            let sign = if s.count_ones().is_multiple_of(2) { 1.0 } else { -1.0 };
            sign * each.product::<f64>() * (1.0f64 - leak).powi(no.len() as i32)
        };
        (0..1 << positive).map(subset).sum()
    };
    let ours = posterior(&net, &ev).unwrap();
    let total = quickscore(None);
    let log_p = ours.log_p_evidence;
    assert!((log_p - total.ln()).abs() < 1e-11, "{log_p} against {}", total.ln());
    for i in &parents {
        assert!((ours.of(*i)[1] - quickscore(Some(*i)) / total).abs() < 1e-11, "{i}");
    }
}

#[test]
fn the_fourteen_parents_of_the_reference_file_agree_without_a_table() {
    let file = json("nets/t_wideor.json");
    let list = file["nodes"].as_array().unwrap();
    let mut b = NetworkBuilder::new();
    list.iter().for_each(|n| {
        b.node(n["name"].as_str().unwrap(), &strings(&n["states"])).unwrap();
    });
    let mut factored = 0;
    for (id, node) in list.iter().enumerate() {
        let named = |p: &String| list.iter().position(|n| n["name"].as_str() == Some(p)).unwrap();
        let parents: Vec<usize> = strings(&node["parents"]).iter().map(named).collect();
        match node.get("noisy_or") {
            Some(n) => {
                let weighted: Vec<_> = parents.iter().copied().zip(numbers(&n["weights"])).collect();
                b.noisy_or(id, &weighted, n["leak"].as_f64().unwrap()).unwrap();
                factored += 1;
            }
            None => b
                .table(id, &parents, node["cpt"].as_array().unwrap().iter().flat_map(numbers).collect())
                .unwrap(),
        }
    }
    let net = b.build().unwrap();
    assert!(factored > 0);
    for case in json("infer_t_wideor.json")["cases"].as_array().unwrap() {
        let answer = posterior(&net, &evidence(&net, case)).unwrap();
        assert!((answer.log_p_evidence - case["log_p_evidence"].as_f64().unwrap()).abs() < 1e-12);
        for (node, theirs) in case["posterior"].as_object().unwrap() {
            for (a, b) in answer.of(net.find(node).unwrap()).iter().zip(numbers(theirs)) {
                assert!((a - b).abs() < 1e-12, "{} {node}", case["id"]);
            }
        }
    }
}

#[test]
fn what_nothing_can_cause_is_impossible_and_what_is_merely_rare_is_not() {
    let mut b = NetworkBuilder::new();
    let parents = roots(&mut b, &[0.5; 30]);
    let y = b.node("y", &NO_YES).unwrap();
    let rare: Vec<(usize, f64)> = parents.iter().map(|p| (*p, if *p == 7 { 1e-300 } else { 0.0 })).collect();
    b.noisy_or(y, &rare, 0.0).unwrap();
    let net = b.build().unwrap();
    let answer = posterior(&net, &found(&[(y, 1)])).unwrap();
    assert!((answer.log_p_evidence - 5e-301f64.ln()).abs() < 1e-9);
    assert_eq!(answer.of(7), [0.0, 1.0]);
    assert!((answer.of(8)[1] - 0.5).abs() < 1e-15);
    let clash = found(&[(3, 1), (7, 0), (y, 1)]);
    let wanted = InferError::Impossible { conflict: vec![7, y] };
    assert_eq!(posterior(&net, &clash).unwrap_err(), wanted);
    assert_eq!(log_p_evidence(&net, &clash).unwrap_err(), wanted);
    assert_eq!(sampler(&net, &clash, &[3]).unwrap_err(), wanted);
    assert_eq!(joint(&net, &clash, &[3]).unwrap_err(), wanted);
}

#[test]
fn draws_far_below_a_double_together_are_not_taken_for_impossible() {
    // Both the leak and the parent draw "low" at 1e-200; together 1e-400.
    let mut b = NetworkBuilder::new();
    let x = b.node("x", &["only"]).unwrap();
    b.table(x, &[], vec![1.0]).unwrap();
    let y = b.node("y", &["low", "high"]).unwrap();
    b.noisy_max(y, &[(x, vec![1e-200, 1.0])], vec![1e-200, 1.0]).unwrap();
    let net = b.build().unwrap();
    let ln = log_p_evidence(&net, &found(&[(y, 0)])).unwrap();
    assert!((ln - 2.0 * 1e-200f64.ln()).abs() < 1e-9, "{ln}");
}

#[test]
fn samples_of_thirty_causes_follow_the_posterior_and_never_the_impossible() {
    const DRAWS: usize = 20_000;
    let net = thirty(0.0);
    let ev = found(&[(30, 1), (0, 0), (11, 0)]);
    let exact = posterior(&net, &ev).unwrap();
    let all: Vec<usize> = (0..net.len()).collect();
    let sampler = sampler(&net, &ev, &all).unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(30);
    let mut out = vec![0u16; all.len()];
    let (mut counts, mut pair) = (vec![0.0; all.len()], 0.0);
    for _ in 0..DRAWS {
        sampler.draw(&mut rng, &mut out);
        assert!(out[..30].contains(&1), "an effect without a cause and without a leak");
        assert!(out[30] == 1 && out[0] == 0 && out[11] == 0);
        out.iter().zip(&mut counts).for_each(|(s, c)| *c += f64::from(*s));
        pair += f64::from(out[13] * out[25]);
    }
    let check = |what: usize, count: f64, p: f64| {
        let n = DRAWS as f64;
        assert!((count / n - p).abs() <= 5.0 * (p * (1.0 - p) / n).sqrt(), "{what}: {count} against {p}");
    };
    counts.iter().enumerate().for_each(|(i, c)| check(i, *c, exact.of(i)[1]));
    check(99, pair, joint(&net, &ev, &[13, 25]).unwrap()[3]);
}

#[test]
fn a_factored_network_is_written_as_tables_or_over_helpers_and_says_so() {
    let mut b = NetworkBuilder::new();
    let x = b.node("x", &["a", "b", "c"]).unwrap();
    b.table(x, &[], vec![0.5, 0.25, 0.25]).unwrap();
    let y = b.node("y", &["low", "mid", "high"]).unwrap();
    let effect = vec![1.0, 0.0, 0.0, 0.5, 0.25, 0.25, 0.0, 0.25, 0.75];
    b.noisy_max(y, &[(x, effect)], vec![0.75, 0.25, 0.0]).unwrap();
    let small = b.build().unwrap();
    let read_back = read(&write(&small, "small", &[])).unwrap();
    assert_eq!(read_back, small.tabled(27).unwrap());
    // Row c: P(max <= low) = 0, P(max <= mid) = 1 · 0.25.
    assert_eq!(read_back.nodes()[y].cpt[6..], [0.0, 0.25, 0.75]);
    assert_eq!(small.noisy(y).unwrap().row(&[2]), [0.0, 0.25, 0.75]);
    assert!(small.noisy(x).is_none() && small.nodes()[y].cpt.is_empty());

    let large = thirty(0.05);
    let document = read_document(&write(&large, "large", &["made = here"])).unwrap();
    assert_eq!(document.properties, ["made = here", "helpers = parts of y, too large for one table"]);
    let ev = found(&[(30, 1), (4, 1)]);
    let (ours, theirs) = (posterior(&large, &ev).unwrap(), posterior(&document.network, &ev).unwrap());
    assert_eq!(document.network.len(), 60);
    for (i, node) in large.nodes().iter().enumerate() {
        assert_eq!(document.network.find(&node.name), Some(i));
        assert!((ours.of(i)[1] - theirs.of(i)[1]).abs() < 1e-12);
    }
    let Err(InferError::TooLarge { cells, limit, cluster }) = large.tabled(1 << 20) else { panic!() };
    assert_eq!((cells, limit, cluster.len()), (1 << 31, 1 << 20, 31));
}

#[test]
fn families_that_do_not_fit_are_refused_in_words() {
    let mut b = NetworkBuilder::new();
    let x = b.node("x", &NO_YES).unwrap();
    let z = b.node("z", &["a", "b", "c"]).unwrap();
    let y = b.node("y", &NO_YES).unwrap();
    for bad in [-0.1, 1.5, f64::NAN] {
        let e = b.noisy_or(y, &[(x, bad)], 0.0).unwrap_err();
        assert!(e.to_string().contains("the weight of x"), "{e}");
        assert!(matches!(b.noisy_or(y, &[(x, 0.5)], bad), Err(NetworkError::BadEntry { .. })));
    }
    let three = Err(NetworkError::NotTwoStates { node: "z".into(), states: 3 });
    assert_eq!(b.noisy_or(y, &[(z, 0.5)], 0.0), three);
    assert_eq!(b.noisy_or(z, &[(x, 0.5)], 0.0), three);
    assert_eq!(b.noisy_or(y, &[(9, 0.5)], 0.0), Err(NetworkError::UnknownNode { id: 9 }));
    let twice = Err(NetworkError::BadParent { node: "y".into(), parent: "x".into() });
    assert_eq!(b.noisy_or(y, &[(x, 0.5), (x, 0.5)], 0.0), twice);
    let size = b.noisy_max(y, &[(z, vec![0.5; 4])], vec![1.0, 0.0]);
    assert_eq!(size, Err(NetworkError::TableSize { node: "y".into(), expected: 6, got: 4 }));
    let e = b.noisy_max(y, &[(x, vec![1.0, 0.0, 0.5, 0.4])], vec![1.0, 0.0]).unwrap_err();
    assert!(e.to_string().contains("row 2 (x yes), sums to 0.9"), "{e}");
    let e = b.noisy_max(y, &[], vec![1.0, 0.5]).unwrap_err();
    assert!(e.to_string().contains("row 1 (the leak), sums to 1.5"), "{e}");
    b.noisy_or(y, &[(x, 0.5)], 0.0).unwrap();
    assert_eq!(b.table(y, &[], vec![0.5, 0.5]), Err(NetworkError::TableTwice { node: "y".into() }));
    b.table(x, &[y], vec![0.5; 4]).unwrap();
    b.table(z, &[], vec![1.0, 0.0, 0.0]).unwrap();
    assert!(matches!(b.build(), Err(NetworkError::Cycle { .. })));
}

/// A common ancestor, up to ten parents under it, two families over them, a table under the first.
#[derive(Debug, Clone)]
struct Draft {
    parents: Vec<(usize, bool)>,
    child: (usize, usize),
    second: u16,
    weights: Vec<u8>,
    findings: Vec<(u8, usize)>,
}

fn draft() -> impl Strategy<Value = Draft> {
    let parents = prop::collection::vec((2usize..=4, any::<bool>()), 2..=10);
    let weights = prop::collection::vec(0u8..12, 97);
    let findings = prop::collection::vec((0u8..8, 0usize..12), 14);
    (parents, (2usize..=4, 2usize..=4), any::<u16>(), weights, findings).prop_map(
        |(parents, child, second, weights, findings)| Draft { parents, child, second, weights, findings },
    )
}

/// Rows of `width`, zeros common.
fn rows(d: &Draft, count: usize, width: usize, turn: usize) -> Vec<f64> {
    let mut out = Vec::new();
    for r in 0..count {
        let at = |s: usize| d.weights[(turn * 31 + r * 5 + s * 3) % d.weights.len()].saturating_sub(3);
        let row: Vec<f64> = (0..width).map(|s| f64::from(at(s))).collect();
        let sum: f64 = row.iter().sum();
        out.extend((0..width).map(|s| if sum > 0.0 { row[s] / sum } else { f64::from(u8::from(s == 0)) }));
    }
    out
}

/// The table by the definition: P(max <= v) is the product of what each draw leaves at or below v.
fn by_definition(effects: &[Vec<f64>], leak: &[f64]) -> Vec<f64> {
    let width = leak.len();
    let upto = |row: &[f64]| -> Vec<f64> {
        row.iter()
            .scan(0.0, |a, x| {
                *a += x;
                Some(*a)
            })
            .collect()
    };
    let mut table = vec![upto(leak)];
    for effect in effects {
        let times = |a: &Vec<f64>, b: &[f64]| a.iter().zip(upto(b)).map(|(a, b)| a * b).collect::<Vec<f64>>();
        table = table.iter().flat_map(|a| effect.chunks(width).map(move |b| times(a, b))).collect();
    }
    let differ =
        |c: &Vec<f64>| (0..width).map(|v| c[v] - if v > 0 { c[v - 1] } else { 0.0 }).collect::<Vec<f64>>();
    table.iter().flat_map(differ).map(|p| if p < 1e-15 { 0.0 } else { p }).collect()
}

/// The network factored and by full tables; families are left two-state where a table would be huge.
fn both(d: &Draft) -> (Network, Network) {
    let names = |n: usize| (0..n).map(|s| format!("s{s}")).collect::<Vec<_>>();
    let (mut a, mut b) = (NetworkBuilder::new(), NetworkBuilder::new());
    let mut cells = d.child.0.max(d.child.1);
    let mut nodes: Vec<usize> = Vec::new();
    let y = [0, 1].map(|k| {
        let states = names(if k == 0 { d.child.0 } else { d.child.1 });
        b.node(format!("y{k}"), &states).unwrap();
        a.node(format!("y{k}"), &states).unwrap()
    });
    for net in [&mut a, &mut b] {
        net.node("below", &NO_YES).unwrap();
        net.node("era", &NO_YES).unwrap();
        net.table(3, &[], vec![0.25, 0.75]).unwrap();
        net.table(2, &[0], rows(d, d.child.0, 2, 50)).unwrap();
    }
    let left = |i: usize| 1usize << (d.parents.len() - i);
    for (i, (states, tied)) in d.parents.iter().enumerate() {
        let states = if cells * states * left(i + 1) > 1 << 13 { 2 } else { *states };
        cells *= states;
        for net in [&mut a, &mut b] {
            let id = net.node(format!("x{i}"), &names(states)).unwrap();
            let above: &[usize] = if *tied { &[3] } else { &[] };
            net.table(id, above, rows(d, 2usize.pow(above.len() as u32), states, i)).unwrap();
        }
        nodes.push(states);
    }
    for (k, y) in y.into_iter().enumerate() {
        let width = if k == 0 { d.child.0 } else { d.child.1 };
        // The second family takes some of the parents, the last first.
        let mut chosen: Vec<usize> = (0..nodes.len()).filter(|i| k == 0 || d.second >> i & 1 == 1).collect();
        if k == 1 {
            chosen.reverse();
        }
        let effects: Vec<Vec<f64>> =
            chosen.iter().map(|i| rows(d, nodes[*i], width, 20 + 10 * k + i)).collect();
        let leak = if d.second & 0x8000 == 0 { rows(d, 1, width, 40 + k) } else { rows(d, 0, 0, 0) };
        let leak =
            if leak.is_empty() { (0..width).map(|s| f64::from(u8::from(s == 0))).collect() } else { leak };
        let parents: Vec<usize> = chosen.iter().map(|i| 4 + i).collect();
        b.table(y, &parents, by_definition(&effects, &leak)).unwrap();
        let pairs: Vec<_> = parents.into_iter().zip(effects).collect();
        a.noisy_max(y, &pairs, leak).unwrap();
    }
    (a.build().unwrap(), b.build().unwrap())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn factored_families_equal_their_full_tables(d in draft()) {
        let (net, full) = both(&d);
        let tabled = net.tabled(1 << 20).unwrap();
        prop_assert_eq!(net.len(), full.len());
        for (a, b) in tabled.nodes().iter().zip(full.nodes()) {
            prop_assert_eq!(&a.parents, &b.parents);
            prop_assert!(a.cpt.iter().zip(&b.cpt).all(|(a, b)| (a - b).abs() < 1e-12));
        }
        let mut ev = Evidence::new();
        for (id, (kind, state)) in (0..net.len()).zip(&d.findings) {
            let states = net.nodes()[id].states.len();
            match kind {
                0 | 1 => ev.observe(id, state % states),
                2 => ev.likelihood(id, rows(&d, 1, states, 60 + id)),
                _ => {}
            }
        }
        match (posterior(&net, &ev), posterior(&full, &ev)) {
            (Ok(ours), Ok(theirs)) => {
                prop_assert!((ours.log_p_evidence - theirs.log_p_evidence).abs() < 1e-11);
                for id in 0..net.len() {
                    let near = ours.of(id).iter().zip(theirs.of(id)).all(|(a, b)| (a - b).abs() < 1e-12);
                    prop_assert!(near, "{id}: {:?} {:?}", ours.of(id), theirs.of(id));
                }
                let asked = [4, 0, 5, 1];
                let (ours, theirs) = (joint(&net, &ev, &asked).unwrap(), joint(&full, &ev, &asked).unwrap());
                prop_assert!(ours.iter().zip(&theirs).all(|(a, b)| (a - b).abs() < 1e-12));
                let drawer = sampler(&net, &ev, &asked).unwrap();
                let mut rng = ChaCha8Rng::seed_from_u64(1);
                let mut out = [0; 4];
                for _ in 0..20 {
                    drawer.draw(&mut rng, &mut out);
                    let cell = out.iter().zip(asked).fold(0, |c, (s, n)| {
                        c * net.nodes()[n].states.len() + usize::from(*s)
                    });
                    prop_assert!(theirs[cell] > 0.0);
                }
            }
            (ours, theirs) => prop_assert_eq!(ours.unwrap_err(), theirs.unwrap_err()),
        }
    }
}
