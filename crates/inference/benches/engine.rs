//! `make bench`: how long the engine takes, in CPU time of this thread.
//!
//! Without arguments: what the field app asks after each answer, on the network of a sample house. With the
//! argument `beside`: obeys `benches/peers/pyagrum_posterior.py`, which times general-purpose libraries in turn with
//! it. One command a line on standard input, one answer a line in microseconds of CPU:
//! `open NETWORK EVIDENCE NAME` (making the engine), `set I` (findings I in place of those before, all marginals),
//! `answers I` (the first ten findings of set I one by one, all marginals after each), `show` (the marginals last
//! found, as JSON).
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a benchmark"
)]

use std::io::{BufRead as _, Write as _};

use inference::{Calibrated, Engine, Evidence, Finding, Network, Posterior, posterior, sampler};
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng as _;
use serde_json::Value;

#[path = "../tests/all/support.rs"]
#[allow(dead_code, reason = "shared with the tests")]
mod support;

/// CPU seconds of this thread.
fn cpu() -> f64 {
    let now = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
    now.tv_sec as f64 + now.tv_nsec as f64 * 1e-9
}

/// What comes of `work`, and the CPU milliseconds it took.
fn timed<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let start = cpu();
    let done = std::hint::black_box(work());
    (done, (cpu() - start) * 1e3)
}

fn median(mut list: Vec<f64>) -> f64 {
    list.sort_by(f64::total_cmp);
    list[list.len() / 2]
}

fn main() {
    if std::env::args().any(|a| a == "beside") { beside() } else { house() }
}

/// (node, state) as named in a set of findings.
fn named(set: &Value) -> Vec<(String, String)> {
    let set = set.as_object().unwrap();
    set.iter().map(|(n, s)| (n.clone(), s.as_str().unwrap().to_owned())).collect()
}

fn found(net: &Network, set: &[(String, String)]) -> Evidence {
    let mut ev = Evidence::new();
    for (node, state) in set {
        let node = net.find(node).unwrap();
        ev.observe(node, net.state(node, state).unwrap());
    }
    ev
}

fn beside() {
    let mut lines = std::io::stdin().lock().lines().map(Result::unwrap);
    while let Some(line) = lines.next() {
        let words: Vec<&str> = line.split_whitespace().collect();
        let ["open", network, evidence, name] = words[..] else { panic!("{line}") };
        let parsed = |path: &str| -> Value {
            serde_json::from_str(&support::read(path.strip_suffix(".gz").unwrap_or(path).as_ref()).unwrap())
                .unwrap()
        };
        let net = support::from_json(&parsed(network));
        let sets: Vec<_> = parsed(evidence)["nets"][name].as_array().unwrap().iter().map(named).collect();
        let (engine, took) = timed(|| Engine::new(&net).unwrap());
        say(took);
        let mut session = engine.session();
        let mut last: Option<Posterior> = None;
        for line in lines.by_ref() {
            let mut words = line.split_whitespace();
            let (command, set) = (words.next(), words.next().map(|i| &sets[i.parse::<usize>().unwrap()]));
            match (command, set) {
                (Some("set"), Some(set)) => {
                    let work = || {
                        session.load(&found(&net, set)).unwrap();
                        session.posterior().unwrap().log_p_evidence
                    };
                    say(timed(work).1);
                }
                (Some("answers"), Some(set)) => {
                    session.load(&Evidence::new()).unwrap();
                    session.posterior().unwrap();
                    let work = || {
                        for (node, state) in set.iter().take(10) {
                            let node = net.find(node).unwrap();
                            session.set(node, Finding::State(net.state(node, state).unwrap())).unwrap();
                            session.posterior().unwrap();
                        }
                    };
                    say(timed(work).1);
                }
                (Some("show"), None) => {
                    last = session.posterior().cloned().ok();
                    let last = last.as_ref().unwrap();
                    let shares: serde_json::Map<String, Value> = net
                        .nodes()
                        .iter()
                        .enumerate()
                        .map(|(i, n)| (n.name.clone(), last.of(i).into()))
                        .collect();
                    println!("{}", Value::from(shares));
                    std::io::stdout().flush().unwrap();
                }
                (Some("close"), None) => break,
                _ => panic!("{line}"),
            }
        }
        drop(last);
    }
}

fn say(milliseconds: f64) {
    println!("{:.3}", milliseconds * 1e3);
    std::io::stdout().flush().unwrap();
}

/// The house of the field app: what is asked after each answer.
fn house() {
    const DRAWS: usize = 20_000;
    let net = support::network("house_sample");
    let sets = support::json("bench_evidence.json")["nets"]["house_sample"].clone();
    let sets: Vec<Evidence> =
        sets.as_array().unwrap().iter().take(40).map(|s| found(&net, &named(s))).collect();
    let wanted: Vec<usize> =
        (0..net.len()).filter(|n| net.nodes()[*n].name.starts_with("condition.")).collect();
    let (mut plain, mut tree, mut given, mut without, mut drawn) = (vec![], vec![], vec![], vec![], vec![]);
    let mut asked = (0, 0);
    for ev in &sets {
        plain.push(timed(|| posterior(&net, ev).unwrap()).1);
        let (mut calibrated, took) = timed(|| Calibrated::new(&net, ev).unwrap());
        tree.push(took);
        let open: Vec<usize> = (0..net.len()).filter(|n| ev.state(*n).is_none()).collect();
        let ask = || open.iter().map(|n| calibrated.given(*n, &wanted).unwrap().chances.len()).sum::<usize>();
        let (results, took) = timed(ask);
        given.push(took);
        let nodes = ev.nodes();
        let ask = || nodes.iter().for_each(|n| drop(calibrated.without(&[*n], &wanted).unwrap()));
        without.push(timed(ask).1);
        asked = (open.len(), results);
        let draw = || {
            let mut out = vec![0; DRAWS * wanted.len()];
            sampler(&net, ev, &wanted).unwrap().draws(&mut ChaCha8Rng::seed_from_u64(1), &mut out);
            out
        };
        drawn.push(timed(draw).1);
    }
    let (_, engine) = timed(|| Engine::new(&net).unwrap());
    println!(
        "a sample house of {} nodes, {} conditions, {} findings: median CPU ms of {} sets",
        net.len(),
        wanted.len(),
        sets[0].nodes().len(),
        sets.len()
    );
    for (what, ms) in [
        ("every posterior".to_owned(), median(plain)),
        ("every posterior, and the tree kept".to_owned(), median(tree)),
        (format!("conditions given each of {} results of {} other nodes", asked.1, asked.0), median(given)),
        ("conditions without each finding".to_owned(), median(without)),
        (format!("{DRAWS} joint draws of the conditions"), median(drawn)),
        ("making an engine for changing findings".to_owned(), engine),
    ] {
        println!("  {what:<66} {ms:8.3} ms");
    }
}
