//! Reading the reference files, and answers by plain enumeration to compare with.

use std::io::Read as _;
use std::path::{Path, PathBuf};

use flate2::read::GzDecoder;
use inference::{Evidence, Network, NetworkBuilder, noisy_or};
use rand_chacha::ChaCha8Rng;
use rand_core::Rng;
use serde_json::Value;

/// Reference networks small enough that every way to ask is tried on each.
pub(crate) const SMALL: [&str; 17] = [
    "asia",
    "cancer",
    "earthquake",
    "sachs",
    "survey",
    "child",
    "alarm",
    "insurance",
    "house_s",
    "house_m",
    "t_determ",
    "t_zero",
    "t_islands",
    "t_onestate",
    "t_single",
    "t_wideor",
    "t_underflow",
];

/// Where the reference files lie.
pub(crate) fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/vectors/inference")
}

/// Text of a file of the reference folder.
pub(crate) fn text(name: &str) -> String {
    read(&folder().join(name)).unwrap_or_else(|| panic!("{name} is not there"))
}

/// Text of a file, or of the same packed.
pub(crate) fn read(path: &Path) -> Option<String> {
    if path.exists() {
        return std::fs::read_to_string(path).ok();
    }
    let mut packed = path.as_os_str().to_owned();
    packed.push(".gz");
    let mut text = String::new();
    GzDecoder::new(std::fs::File::open(packed).ok()?).read_to_string(&mut text).ok()?;
    Some(text)
}

/// A file of the reference folder, parsed.
pub(crate) fn json(name: &str) -> Value {
    serde_json::from_str(&text(name)).unwrap()
}

/// A JSON list of numbers.
pub(crate) fn numbers(v: &Value) -> Vec<f64> {
    v.as_array().unwrap().iter().map(|x| x.as_f64().unwrap()).collect()
}

/// A JSON list of strings.
pub(crate) fn strings(v: &Value) -> Vec<String> {
    v.as_array().unwrap().iter().map(|x| x.as_str().unwrap().to_owned()).collect()
}

/// The network of that name, wherever it lies.
pub(crate) fn network(name: &str) -> Network {
    network_in(&folder(), name)
}

/// The same in another folder.
pub(crate) fn network_in(folder: &Path, name: &str) -> Network {
    let text = ["published", "nets", "nets/json"]
        .iter()
        .find_map(|place| read(&folder.join(place).join(format!("{name}.json"))))
        .unwrap_or_else(|| panic!("no network {name}"));
    from_json(&serde_json::from_str(&text).unwrap())
}

/// A network from its JSON form; a table may be given by noisy-OR weights instead of rows.
pub(crate) fn from_json(v: &Value) -> Network {
    let list = v["nodes"].as_array().unwrap();
    let mut builder = NetworkBuilder::new();
    for node in list {
        builder.node(node["name"].as_str().unwrap(), &strings(&node["states"])).unwrap();
    }
    let names: Vec<&str> = list.iter().map(|n| n["name"].as_str().unwrap()).collect();
    for (id, node) in list.iter().enumerate() {
        let parents: Vec<usize> =
            strings(&node["parents"]).iter().map(|p| names.iter().position(|n| n == p).unwrap()).collect();
        let cpt = match node.get("noisy_or") {
            Some(n) => noisy_or::table(&numbers(&n["weights"]), n["leak"].as_f64().unwrap()),
            None => node["cpt"].as_array().unwrap().iter().flat_map(numbers).collect(),
        };
        builder.table(id, &parents, cpt).unwrap();
    }
    builder.build().unwrap()
}

/// The evidence of a reference case.
pub(crate) fn evidence(net: &Network, case: &Value) -> Evidence {
    let mut ev = Evidence::new();
    for (name, state) in case["hard"].as_object().unwrap() {
        let node = net.find(name).unwrap();
        ev.observe(node, net.state(node, state.as_str().unwrap()).unwrap());
    }
    for (name, l) in case.get("soft").and_then(Value::as_object).into_iter().flatten() {
        ev.likelihood(net.find(name).unwrap(), numbers(l));
    }
    ev
}

/// Adds up every full assignment that agrees with the evidence: (P(evidence), P(assignment, evidence) for
/// every assignment, last node fastest).
pub(crate) fn enumerate(net: &Network, ev: &Evidence) -> (f64, Vec<(Vec<usize>, f64)>) {
    let sizes: Vec<usize> = net.nodes().iter().map(|n| n.states.len()).collect();
    let mut all = Vec::new();
    let mut total = 0.0;
    for i in 0..sizes.iter().product::<usize>() {
        let mut rest = i;
        let mut x = vec![0; sizes.len()];
        for k in (0..sizes.len()).rev() {
            x[k] = rest % sizes[k];
            rest /= sizes[k];
        }
        let mut p = 1.0;
        for (id, node) in net.nodes().iter().enumerate() {
            let row = node.parents.iter().fold(0, |r, q| r * sizes[*q] + x[*q]);
            p *= node.cpt[row * sizes[id] + x[id]];
        }
        for (node, state) in ev.hard() {
            p *= f64::from(u8::from(x[node] == state));
        }
        for (node, l) in ev.soft() {
            p *= l[x[node]];
        }
        total += p;
        all.push((x, p));
    }
    (total, all)
}

/// Up to eight nodes of one to three states with up to three parents; about a third of all entries are zero.
pub(crate) fn random_network(rng: &mut ChaCha8Rng, zeros: bool) -> Network {
    let mut below = |n: usize| (rng.next_u32() as usize) % n;
    let mut b = NetworkBuilder::new();
    let count = 1 + below(8);
    let sizes: Vec<usize> = (0..count).map(|_| 1 + below(3)).collect();
    for (i, size) in sizes.iter().enumerate() {
        b.node(format!("n{i}"), &["x", "y", "z"][..*size]).unwrap();
    }
    for i in 0..count {
        let parents: Vec<usize> = (i + 1..count).filter(|_| below(5) < 2).take(3).collect();
        let rows: usize = parents.iter().map(|p| sizes[*p]).product();
        let mut cpt = Vec::new();
        for _ in 0..rows {
            let row: Vec<f64> = (0..sizes[i])
                .map(|_| if zeros { below(9).saturating_sub(3) } else { 1 + below(9) } as f64)
                .collect();
            let sum: f64 = row.iter().sum();
            cpt.extend(
                row.iter()
                    .enumerate()
                    .map(|(s, x)| if sum > 0.0 { x / sum } else { f64::from(s as u8 == 0) }),
            );
        }
        b.table(i, &parents, cpt).unwrap();
    }
    b.build().unwrap()
}

/// A hub with `leaves` children that are all seen to be what speaks for its first state, and as many against.
pub(crate) fn crowds(leaves: usize, against: bool) -> (Network, Evidence) {
    let mut b = NetworkBuilder::new();
    let root = b.node("root", &["a", "b"]).unwrap();
    b.table(root, &[], vec![0.25, 0.75]).unwrap();
    let mut ev = Evidence::new();
    for side in 0..=usize::from(against) {
        for i in 0..leaves {
            let leaf = b.node(format!("leaf{side}-{i}"), &["no", "yes"]).unwrap();
            let yes = if side == 0 { [0.0002, 0.0001] } else { [0.0001, 0.0002] };
            b.table(leaf, &[root], [1.0 - yes[0], yes[0], 1.0 - yes[1], yes[1]].into()).unwrap();
            ev.observe(leaf, 1);
        }
    }
    (b.build().unwrap(), ev)
}
