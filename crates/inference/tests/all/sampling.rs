//! The sampler against exact joints. Seeds are fixed, so these tests always do the same.

use core::convert::Infallible;

use inference::{Evidence, Network, joint, sampler};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng, TryRng};

use crate::support::{evidence, json, network, numbers, strings};

/// Draws; counts per cell of the joint table, last node fastest.
fn counts(net: &Network, ev: &Evidence, nodes: &[usize], draws: usize, seed: u64) -> Vec<f64> {
    let sizes: Vec<usize> = nodes.iter().map(|n| net.nodes()[*n].states.len()).collect();
    let sampler = sampler(net, ev, nodes).unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut out = vec![0u16; nodes.len() * draws];
    let mut counts = vec![0.0; sizes.iter().product()];
    sampler.draws(&mut rng, &mut out);
    for draw in out.chunks_exact(nodes.len()) {
        counts[draw.iter().zip(&sizes).fold(0, |i, (s, n)| i * n + usize::from(*s))] += 1.0;
    }
    counts
}

/// Pearson's statistic with rare cells pooled, and its degrees of freedom; a cell of probability zero must
/// stay empty.
fn chi_square(id: &str, counts: &[f64], p: &[f64], draws: f64) -> (f64, f64) {
    let (mut statistic, mut cells, mut rare) = (0.0, 0.0, (0.0, 0.0));
    for (c, p) in counts.iter().zip(p) {
        if *p < 1e-15 {
            assert_eq!(*c, 0.0, "{id}: an impossible cell was drawn");
        } else if p * draws < 10.0 {
            rare = (rare.0 + c, rare.1 + p * draws);
        } else {
            statistic += (c - p * draws).powi(2) / (p * draws);
            cells += 1.0;
        }
    }
    if rare.1 >= 5.0 {
        statistic += (rare.0 - rare.1).powi(2) / rare.1;
        cells += 1.0;
    }
    (statistic, (cells - 1.0f64).max(0.0))
}

#[test]
fn samples_follow_the_exact_joint_of_the_reference_files() {
    const DRAWS: usize = 40_000;
    let mut tried = 0;
    for name in ["asia", "cancer", "child", "alarm", "insurance", "sachs", "house_s", "t_islands", "t_wideor"]
    {
        let net = network(name);
        for case in json(&format!("infer_{name}.json"))["cases"].as_array().unwrap() {
            let Some(j) = case.get("joint") else { continue };
            let id = case["id"].as_str().unwrap();
            let nodes: Vec<usize> = strings(&j["vars"]).iter().map(|v| net.find(v).unwrap()).collect();
            let counts = counts(&net, &evidence(&net, case), &nodes, DRAWS, 7 + tried);
            let (statistic, freedom) = chi_square(id, &counts, &numbers(&j["table"]), DRAWS as f64);
            // Wilson and Hilferty: the cube root of chi-square / freedom is near normal. 4.5 sigma.
            if freedom > 0.0 {
                let v = 2.0 / (9.0 * freedom);
                let z = ((statistic / freedom).cbrt() - (1.0 - v)) / v.sqrt();
                assert!(z < 4.5, "{id}: chi-square {statistic} at {freedom} degrees of freedom");
            }
            tried += 1;
        }
    }
    assert!(tried >= 15, "{tried}");
}

#[test]
fn indicator_means_and_covariances_lie_within_five_standard_errors() {
    const DRAWS: usize = 40_000;
    let n = DRAWS as f64;
    for (k, case) in json("joint_sum.json")["cases"].as_array().unwrap().iter().enumerate() {
        let id = case["id"].as_str().unwrap();
        let net = network(case["network"].as_str().unwrap());
        let nodes: Vec<usize> = strings(&case["targets"]).iter().map(|v| net.find(v).unwrap()).collect();
        let ev = evidence(&net, case);
        let p = numbers(&case["p_yes"]);
        let sampler = sampler(&net, &ev, &nodes).unwrap();
        assert_eq!(sampler.wanted(), nodes);
        let mut rng = ChaCha8Rng::seed_from_u64(1000 + k as u64);
        let mut out = vec![0u16; nodes.len()];
        let draws: Vec<Vec<f64>> = (0..DRAWS)
            .map(|_| {
                sampler.draw(&mut rng, &mut out);
                out.iter().map(|s| f64::from(u8::from(*s == 1))).collect()
            })
            .collect();
        for i in 0..nodes.len() {
            let cov = numbers(&case["cov"][i]);
            for j in 0..nodes.len() {
                // Centered at the exact means, each product is an unbiased draw of the covariance.
                let products: Vec<f64> = draws.iter().map(|d| (d[i] - p[i]) * (d[j] - p[j])).collect();
                let mean = products.iter().sum::<f64>() / n;
                let spread = products.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / n;
                assert!((mean - cov[j]).abs() <= 5.0 * (spread / n).sqrt() + 1e-12, "{id} cov {i} {j}");
            }
            let mean = draws.iter().map(|d| d[i]).sum::<f64>() / n;
            assert!((mean - p[i]).abs() <= 5.0 * (p[i] * (1.0 - p[i]) / n).sqrt() + 1e-12, "{id} mean {i}");
        }
        // The sum of fixed costs: its distribution function at every quantile of the file's pmf.
        let cost = numbers(&case["fixed_cost"]);
        let sums: Vec<f64> = draws.iter().map(|d| d.iter().zip(&cost).map(|(a, b)| a * b).sum()).collect();
        let mut below = 0.0;
        for point in case["fixed_pmf"].as_array().unwrap() {
            let point = numbers(point);
            below += point[1];
            let ours = sums.iter().filter(|s| **s <= point[0] + 1e-6).count() as f64 / n;
            let sigma = (below * (1.0 - below)).max(0.0) / n;
            assert!(
                (ours - below).abs() <= 5.0 * sigma.sqrt() + 1e-9,
                "{id} F({}) = {below}, drawn {ours}",
                point[0]
            );
        }
    }
}

#[test]
fn exact_joint_equals_the_enumerated_one_on_dependent_targets() {
    for case in json("joint_sum.json")["cases"].as_array().unwrap() {
        let net = network(case["network"].as_str().unwrap());
        let nodes: Vec<usize> = strings(&case["targets"]).iter().map(|v| net.find(v).unwrap()).collect();
        let table = joint(&net, &evidence(&net, case), &nodes).unwrap();
        assert!((table[0] - case["all_no_probability"].as_f64().unwrap()).abs() < 1e-12);
        for (i, p) in numbers(&case["p_yes"]).iter().enumerate() {
            let bit = nodes.len() - 1 - i;
            let ours: f64 = table.iter().enumerate().filter(|(c, _)| c >> bit & 1 == 1).map(|(_, x)| x).sum();
            assert!((ours - p).abs() < 1e-12);
        }
    }
}

#[test]
fn observed_nodes_are_drawn_as_observed_and_one_seed_gives_one_stream() {
    let net = network("asia");
    let mut ev = Evidence::new();
    let (tub, dysp) = (net.find("tub").unwrap(), net.find("dysp").unwrap());
    ev.observe(dysp, 1);
    let all: Vec<usize> = (0..net.len()).collect();
    let sampler = sampler(&net, &ev, &all).unwrap();
    let stream = |seed| {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let mut out = vec![0u16; all.len()];
        let draw = |_| {
            sampler.draw(&mut rng, &mut out);
            assert_eq!(out[dysp], 1);
            out.clone()
        };
        (0..200).map(draw).collect::<Vec<_>>()
    };
    assert_eq!(stream(5), stream(5));
    assert_ne!(stream(5), stream(6));
    assert!(stream(5).iter().any(|x| x[tub] == 1));
}

#[test]
fn draws_together_are_those_one_by_one_and_each_takes_one_word() {
    /// Counts the words taken.
    struct Counted(ChaCha8Rng, usize);
    impl TryRng for Counted {
        type Error = Infallible;
        fn try_next_u32(&mut self) -> Result<u32, Infallible> {
            panic!("only whole words are taken")
        }
        fn try_next_u64(&mut self) -> Result<u64, Infallible> {
            self.1 += 1;
            Ok(self.0.next_u64())
        }
        fn try_fill_bytes(&mut self, _: &mut [u8]) -> Result<(), Infallible> {
            panic!("only whole words are taken")
        }
    }
    let counted = || Counted(ChaCha8Rng::seed_from_u64(3), 0);
    // Some networks with more steps than are kept without memory, some with one, some with none.
    for (name, observed) in [("asia", 8), ("house_m", 0), ("house_m", 40), ("t_single", 0), ("t_islands", 1)]
    {
        let net = network(name);
        let mut ev = Evidence::new();
        (0..observed).for_each(|n| ev.observe(n, 0));
        if inference::log_p_evidence(&net, &ev).is_err() {
            ev = Evidence::new();
        }
        let all: Vec<usize> = (0..net.len()).rev().collect();
        let sampler = sampler(&net, &ev, &all).unwrap();
        let (mut one, mut many) = (counted(), counted());
        let mut together = vec![0; 21 * all.len()];
        sampler.draws(&mut many, &mut together);
        assert_eq!(many.1, 21);
        for draw in together.chunks_exact(all.len()) {
            let mut out = vec![9; all.len()];
            sampler.draw(&mut one, &mut out);
            assert_eq!(out, draw, "{name}");
        }
        assert_eq!(one.1, 21);
    }
    let nothing = sampler(&network("asia"), &Evidence::new(), &[]).unwrap();
    nothing.draws(&mut counted(), &mut []);
    let mut one = counted();
    nothing.draw(&mut one, &mut []);
    assert_eq!(one.1, 1);
}
