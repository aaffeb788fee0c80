//! `reckon learning`: tables learned from records, step by step.

use inference::learn::{Climb, Prior, Records};
use inference::{Evidence, Network, NodeId};
use serde_json::{Map, Value, json};

use crate::network::Networks;
use crate::number;

/// A climb that has not arrived by then is said not to have converged.
const MOST: usize = 20_000;
/// More reported iterations than this are a slip of the pen.
const LONGEST: u64 = 1_000_000;

/// Answers one case. A key the case lacks is taken from the head of the input.
pub(crate) fn answer(case: &Value, whole: &Value, networks: &mut Networks) -> Result<Value, String> {
    let field = |key: &str| case.get(key).or_else(|| whole.get(key)).filter(|v| !v.is_null());
    let start = match field("start").or_else(|| field("network")) {
        Some(Value::String(name)) => (*networks.get(Some(name))?).clone(),
        Some(given) => given_network(given).map_err(|e| format!("“start”: {e}"))?,
        None => (*networks.get(None)?).clone(),
    };
    let iterations = match field("iterations") {
        Some(n) => {
            n.as_u64().filter(|n| *n <= LONGEST).ok_or("“iterations” is not a count up to 1,000,000")?
        }
        None => 0,
    } as usize;
    let report_at = whole_numbers(field("report_at")).ok_or("“report_at” is not a list of counts")?;
    if let Some(k) = report_at.iter().find(|k| **k > iterations) {
        return Err(format!("“report_at” asks for iteration {k}, beyond “iterations” {iterations}"));
    }
    let prior = prior(&start, &field, networks)?;
    let mut records = Records::new(&start, records(&start, &field)?).map_err(|e| e.to_string())?;

    let mut climb = Climb::new(start, &mut records, &prior).map_err(|e| e.to_string())?;
    let (mut likelihoods, mut posteriors) = (Vec::new(), Vec::new());
    let (mut theta_after, mut converged) = (Map::new(), Value::Null);
    loop {
        let k = climb.iteration();
        if k <= iterations {
            likelihoods.push(number(climb.counts().log_likelihood));
            posteriors.push(number(climb.log_posterior()));
            if report_at.contains(&k) {
                theta_after.insert(k.to_string(), theta(climb.network()));
            }
        }
        if k >= iterations && (!converged.is_null() || k >= MOST) {
            break;
        }
        let gain = climb.step().map_err(|e| e.to_string())?;
        if converged.is_null() && gain < inference::learn::CONVERGED {
            converged = json!({
                "iters": climb.iteration(),
                "log_posterior": number(climb.log_posterior()),
                "theta": theta(climb.network()),
            });
        }
    }
    Ok(json!({
        "log_likelihood_by_iter": likelihoods,
        "log_posterior_by_iter": posteriors,
        "theta_after": theta_after,
        "converged": converged,
    }))
}

/// Pseudo-counts: `prior_strength` times `prior_cpt`, which is "start", a network's name, or tables in the form of
/// `start`; then `fixed_rows`, each [node, [index of each parent's state]].
fn prior<'v>(
    net: &Network,
    field: &impl Fn(&str) -> Option<&'v Value>,
    networks: &mut Networks,
) -> Result<Prior, String> {
    let strength = match field("prior_strength") {
        Some(s) => s.as_f64().ok_or("“prior_strength” is not a number")?,
        None => 0.0,
    };
    let made = match field("prior_cpt") {
        None => Prior::from_tables(net, net, strength),
        Some(Value::String(word)) if word == "start" => Prior::from_tables(net, net, strength),
        Some(Value::String(name)) => Prior::from_tables(net, &*networks.get(Some(name))?, strength),
        Some(given) => {
            let tables = given_network(given).map_err(|e| format!("“prior_cpt”: {e}"))?;
            Prior::from_tables(net, &tables, strength)
        }
    };
    let mut prior = made.map_err(|e| format!("“prior_cpt”: {e}"))?;
    for row in list(field("fixed_rows")).ok_or("“fixed_rows” is not a list")? {
        let (node, row) = fixed_row(net, row)?;
        prior.fix(node, row).map_err(|e| e.to_string())?;
    }
    Ok(prior)
}

fn fixed_row(net: &Network, row: &Value) -> Result<(NodeId, usize), String> {
    let wrong = || format!("the fixed row {row} is not [node, [index of each parent's state]]");
    let name = row.get(0).and_then(Value::as_str).ok_or_else(wrong)?;
    let node = find(net, name)?;
    let states = whole_numbers(row.get(1)).ok_or_else(wrong)?;
    let parents = &net.nodes()[node].parents;
    let sizes: Vec<usize> = parents.iter().map(|p| net.nodes()[*p].states.len()).collect();
    if states.len() != sizes.len() || states.iter().zip(&sizes).any(|(s, size)| s >= size) {
        return Err(format!(
            "the fixed row {row} does not fit: the parents of “{name}” have {sizes:?} states"
        ));
    }
    Ok((node, states.iter().zip(&sizes).fold(0, |at, (s, size)| at * size + s)))
}

/// Every record {node: state, or likelihood of each state} with its weight.
fn records<'v>(
    net: &Network,
    field: &impl Fn(&str) -> Option<&'v Value>,
) -> Result<Vec<(Evidence, f64)>, String> {
    let given = list(field("records")).ok_or("“records” is not a list")?;
    let weights = match field("weights") {
        Some(w) => numbers(w).ok_or("“weights” is not a list of numbers")?,
        None => vec![1.0; given.len()],
    };
    if weights.len() != given.len() {
        return Err(format!("{} weights for {} records", weights.len(), given.len()));
    }
    let each = given.iter().zip(weights).enumerate();
    each.map(|(i, (record, weight))| {
        let evidence = record_evidence(net, record).map_err(|e| format!("record {}: {e}", i + 1))?;
        Ok((evidence, weight))
    })
    .collect()
}

fn record_evidence(net: &Network, record: &Value) -> Result<Evidence, String> {
    let mut evidence = Evidence::new();
    for (name, entry) in record.as_object().ok_or("is not an object")? {
        let node = find(net, name)?;
        match entry {
            Value::Null => {}
            Value::String(state) => {
                let index = net.state(node, state).ok_or_else(|| {
                    format!("“{name}” has no state “{state}”; it has {}", net.nodes()[node].states.join(", "))
                })?;
                evidence.observe(node, index);
            }
            other => {
                let likelihood = numbers(other)
                    .ok_or_else(|| format!("“{name}” is neither a state nor a list of numbers"))?;
                evidence.likelihood(node, likelihood);
            }
        }
    }
    Ok(evidence)
}

/// A network inside a case: a list of nodes with `name`, `states`, `parents`, `cpt`, or an object with `nodes`.
fn given_network(given: &Value) -> Result<Network, String> {
    let nodes = given.get("nodes").unwrap_or(given).as_array().ok_or("is not a list of nodes")?;
    let mut builder = inference::NetworkBuilder::new();
    let mut names = Vec::new();
    for node in nodes {
        let name = node.get("name").and_then(Value::as_str).ok_or("a node has no “name”")?;
        let states = strings(node.get("states")).ok_or_else(|| format!("{name}: “states” is not a list"))?;
        builder.node(name, &states).map_err(|e| e.to_string())?;
        names.push(name);
    }
    let ids: std::collections::BTreeMap<&str, NodeId> =
        names.iter().enumerate().map(|(id, n)| (*n, id)).collect();
    for (id, (node, name)) in nodes.iter().zip(&names).enumerate() {
        let parents =
            strings(node.get("parents")).ok_or_else(|| format!("{name}: “parents” is not a list"))?;
        let parents: Vec<NodeId> = parents
            .iter()
            .map(|p| ids.get(p).copied().ok_or_else(|| format!("{name}: no node “{p}”")))
            .collect::<Result<_, _>>()?;
        let rows: Option<Vec<Vec<f64>>> =
            node.get("cpt").and_then(Value::as_array).and_then(|rows| rows.iter().map(numbers).collect());
        let rows = rows.ok_or_else(|| format!("{name}: “cpt” is not a list of rows"))?;
        builder.table(id, &parents, rows.concat()).map_err(|e| e.to_string())?;
    }
    builder.build().map_err(|e| e.to_string())
}

/// {node: rows}.
fn theta(net: &Network) -> Value {
    let rows = |node: &inference::Node| -> Vec<Value> {
        node.cpt.chunks_exact(node.states.len()).map(|row| json!(row)).collect()
    };
    net.nodes().iter().map(|n| (n.name.clone(), Value::Array(rows(n)))).collect::<Map<_, _>>().into()
}

fn find(net: &Network, name: &str) -> Result<NodeId, String> {
    net.find(name).ok_or_else(|| format!("the network has no node “{name}”"))
}

/// An absent list is empty.
fn list(value: Option<&Value>) -> Option<&[Value]> {
    value.map_or(Some(&[]), |v| v.as_array().map(Vec::as_slice))
}

fn numbers(value: &Value) -> Option<Vec<f64>> {
    value.as_array()?.iter().map(Value::as_f64).collect()
}

fn whole_numbers(value: Option<&Value>) -> Option<Vec<usize>> {
    list(value)?.iter().map(|v| usize::try_from(v.as_u64()?).ok()).collect()
}

fn strings(value: Option<&Value>) -> Option<Vec<&str>> {
    list(value)?.iter().map(Value::as_str).collect()
}

#[cfg(test)]
mod tests {
    use std::io::Read as _;

    use super::*;

    /// The reference file; its `source` line says what made it.
    fn file() -> Value {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/vectors/inference/em.json.gz");
        let mut text = String::new();
        flate2::read::GzDecoder::new(std::fs::File::open(path).unwrap()).read_to_string(&mut text).unwrap();
        serde_json::from_str(&text).unwrap()
    }

    fn run(case: &Value, whole: &Value) -> Result<Value, String> {
        answer(case, whole, &mut Networks::new(None, None))
    }

    /// Largest difference of two JSON values of one shape, divided by what `scale` makes of the expected number.
    fn difference(ours: &Value, theirs: &Value, scale: fn(f64) -> f64) -> f64 {
        match (ours, theirs) {
            (Value::Array(a), Value::Array(b)) => {
                assert_eq!(a.len(), b.len());
                a.iter().zip(b).map(|(a, b)| difference(a, b, scale)).fold(0.0, f64::max)
            }
            (Value::Object(a), Value::Object(b)) => {
                assert_eq!(a.keys().collect::<Vec<_>>(), b.keys().collect::<Vec<_>>());
                b.iter().map(|(k, b)| difference(&a[k], b, scale)).fold(0.0, f64::max)
            }
            (a, b) => match (a.as_f64(), b.as_f64()) {
                (Some(a), Some(b)) => (a - b).abs() / scale(b),
                _ => panic!("{a} and {b}"),
            },
        }
    }

    #[test]
    fn learning_agrees_with_an_enumerated_em() {
        let file = file();
        let tolerance = |key: &str| file["tolerance"][key].as_f64().unwrap();
        let relative = |x: f64| x.abs().max(1.0);
        for case in file["cases"].as_array().unwrap() {
            let ours = run(case, &file).unwrap();
            for key in ["log_likelihood_by_iter", "log_posterior_by_iter"] {
                let d = difference(&ours[key], &case[key], relative);
                assert!(d <= tolerance("log_rel"), "{} {key} {d}", case["id"]);
            }
            let d = difference(&ours["theta_after"], &case["theta_after"], |_| 1.0);
            assert!(d <= tolerance("theta_after_abs"), "{} theta_after {d}", case["id"]);
            let (at, there) = (&ours["converged"], &case["converged"]);
            let d = difference(&at["theta"], &there["theta"], |_| 1.0);
            assert!(d <= tolerance("converged_theta_abs"), "{} converged {d}", case["id"]);
            assert_eq!(at["iters"], there["iters"], "{}", case["id"]);
        }
    }

    #[test]
    fn the_network_may_be_named_inside_or_in_the_head_and_weights_repeat() {
        let nets = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/vectors/inference/published");
        let mut networks = Networks::new(None, Some(nets.into()));
        let record = json!({ "smoke": "yes", "dysp": [0.2, 0.6] });
        let weighted = json!({ "records": [record, { "xray": "no" }], "weights": [3, 1], "iterations": 2,
            "report_at": [2], "prior_strength": 1, "fixed_rows": [["either", [0, 1]]] });
        let head = json!({ "network": "asia" });
        let ours = answer(&weighted, &head, &mut networks).unwrap();
        let mut repeated = weighted.clone();
        repeated["weights"] = Value::Null;
        repeated["records"] = json!([record, { "xray": "no" }, record, record]);
        repeated["start"] = json!("asia");
        assert_eq!(answer(&repeated, &Value::Null, &mut networks).unwrap(), ours);
        assert_eq!(ours["theta_after"]["2"]["either"][1], json!([1.0, 0.0]));
    }

    #[test]
    fn what_is_wrong_is_said_with_its_place() {
        let start = json!([
            { "name": "a", "states": ["no", "yes"], "parents": [], "cpt": [[1.0, 0.0]] },
            { "name": "b", "states": ["no", "yes"], "parents": ["a"], "cpt": [[0.9, 0.1], [0.2, 0.8]] },
        ]);
        let cases = [
            (json!({ "records": [{}, { "a": "yes" }] }), "record 2: the evidence is impossible"),
            (json!({ "records": [{ "c": "yes" }] }), "record 1: the network has no node “c”"),
            (json!({ "records": [{ "a": "maybe" }] }), "it has no, yes"),
            (json!({ "records": [{ "a": 3 }] }), "neither a state nor a list"),
            (json!({ "records": [{}], "weights": [-1] }), "the weight of record 1 is -1"),
            (json!({ "records": [{}], "weights": [] }), "0 weights for 1 records"),
            (json!({ "fixed_rows": [["b", [2]]] }), "the parents of “b” have [2] states"),
            (json!({ "prior_strength": -1 }), "the strength of the prior is -1"),
            (json!({ "prior_cpt": [start[0]] }), "differ at node \"b\""),
            (json!({ "report_at": [2], "iterations": 1 }), "beyond “iterations” 1"),
        ];
        for (case, words) in cases {
            let error = run(&case, &json!({ "start": start })).unwrap_err();
            assert!(error.contains(words), "{error}");
        }
    }
}
