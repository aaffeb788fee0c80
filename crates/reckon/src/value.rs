//! `reckon value`: what looking is worth, single observations and pairs.

use inference::{InferError, Network, NodeId, Observation, value};
use serde_json::{Value, json};

use crate::network::{Networks, evidence};
use crate::number;

/// Answers one case. `loss` holds one row per action and one number per state of the target; a candidate
/// without a cost gets no net value.
pub(crate) fn answer(case: &Value, whole: &Value, networks: &mut Networks) -> Result<Value, String> {
    let name = case.get("network").or(whole.get("network")).and_then(Value::as_str);
    let net = networks.get(name)?;
    let evidence = evidence(&net, case)?;
    let target = node(&net, text(case, "target")?)?;
    let loss = case.get("loss").and_then(Value::as_array).ok_or("the case has no list “loss”")?;
    let loss: Vec<Vec<f64>> = loss
        .iter()
        .map(|row| row.as_array().and_then(|row| row.iter().map(Value::as_f64).collect()))
        .collect::<Option<_>>()
        .ok_or("a row of “loss” is not a list of numbers")?;
    let (candidates, pairs) = (list(case, "candidates")?, list(case, "pairs")?);
    let sets: Vec<Vec<NodeId>> =
        candidates.iter().chain(pairs).map(|entry| observed(&net, entry)).collect::<Result<_, _>>()?;
    let found = value(&net, &evidence, target, &loss, &sets).map_err(|e| sentence(&net, &e))?;
    let entropy = found.target_entropy;
    let (singles, doubles) = found.observations.split_at(candidates.len());
    let single = |(entry, seen): (&Value, &Observation)| {
        let cost = entry.get("cost").and_then(Value::as_f64);
        json!({
            "obs": entry["obs"],
            "mi_nats": number(seen.mutual_information),
            "evsi": number(seen.evsi),
            "cost": cost.map(number),
            "net_value": cost.map(|c| number(seen.evsi - c)),
            "h_target_given_obs": number(entropy - seen.mutual_information),
            "best_action_by_obs_state": seen.best_actions,
        })
    };
    let double = |(entry, seen): (&Value, &Observation)| {
        let (information, evsi) = (number(seen.mutual_information), number(seen.evsi));
        json!({ "obs": entry["obs"], "mi_nats": information, "evsi": evsi })
    };
    Ok(json!({
        "target_posterior": found.target_posterior.iter().map(|p| number(*p)).collect::<Vec<_>>(),
        "target_entropy_nats": number(entropy),
        "expected_loss_no_more_obs": number(found.expected_loss),
        "evpi": number(found.evpi),
        "candidates": candidates.iter().zip(singles).map(single).collect::<Vec<_>>(),
        "pairs": pairs.iter().zip(doubles).map(double).collect::<Vec<_>>(),
    }))
}

/// The nodes of an entry: `obs` is a name or a list of names.
fn observed(net: &Network, entry: &Value) -> Result<Vec<NodeId>, String> {
    let wrong = || "a candidate or pair has no “obs” that is a name or a list of names".to_owned();
    match entry.get("obs") {
        Some(Value::String(name)) => Ok(vec![node(net, name)?]),
        Some(Value::Array(names)) => {
            names.iter().map(|n| n.as_str().ok_or_else(wrong).and_then(|n| node(net, n))).collect()
        }
        _ => Err(wrong()),
    }
}

fn list<'a>(case: &'a Value, key: &str) -> Result<&'a [Value], String> {
    match case.get(key) {
        None | Some(Value::Null) => Ok(&[]),
        Some(Value::Array(list)) => Ok(list),
        Some(_) => Err(format!("“{key}” is not a list")),
    }
}

/// A text field of a case.
pub(crate) fn text<'a>(case: &'a Value, key: &str) -> Result<&'a str, String> {
    case.get(key).and_then(Value::as_str).ok_or_else(|| format!("the case has no text “{key}”"))
}

/// A node by its name.
pub(crate) fn node(net: &Network, name: &str) -> Result<NodeId, String> {
    net.find(name).ok_or_else(|| format!("the network has no node “{name}”"))
}

/// Why there is no answer, with names instead of numbers.
pub(crate) fn sentence(net: &Network, error: &InferError) -> String {
    let name = |n: &NodeId| net.nodes().get(*n).map_or_else(|| n.to_string(), |n| n.name.clone());
    match error {
        InferError::Impossible { conflict } => {
            let names: Vec<String> = conflict.iter().map(name).collect();
            format!("the evidence is impossible under this network; these clash: {}", names.join(", "))
        }
        InferError::BadEvidence { node, reason } => format!("“{}” {reason}", name(node)),
        other @ InferError::TooLarge { .. } => other.to_string(),
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use std::io::Read as _;
    use std::path::PathBuf;

    use super::*;

    fn folder() -> PathBuf {
        PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/vectors/inference")
    }

    /// A file of reference results, also gzipped.
    pub(crate) fn vectors(name: &str) -> Value {
        let bytes = std::fs::read(folder().join(name)).unwrap();
        let mut text = String::new();
        if name.ends_with(".gz") {
            flate2::read::MultiGzDecoder::new(&bytes[..]).read_to_string(&mut text).unwrap();
        } else {
            text = String::from_utf8(bytes).unwrap();
        }
        serde_json::from_str(&text).unwrap()
    }

    /// The folder that holds a network.
    pub(crate) fn networks(name: &str) -> Networks {
        let published = folder().join("published");
        let there = published.join(format!("{name}.json")).is_file();
        Networks::new(None, Some(if there { published } else { folder().join("nets") }))
    }

    /// Numbers, nulls, texts and lists alike, numbers within `tolerance`.
    pub(crate) fn near(what: &str, ours: &Value, theirs: &Value, tolerance: f64) {
        match (ours, theirs) {
            (Value::Array(a), Value::Array(b)) => {
                assert_eq!(a.len(), b.len(), "{what}");
                a.iter().zip(b).for_each(|(a, b)| near(what, a, b, tolerance));
            }
            (Value::Number(a), Value::Number(b)) => {
                let (a, b) = (a.as_f64().unwrap(), b.as_f64().unwrap());
                assert!((a - b).abs() <= tolerance, "{what}: {a} against {b}");
            }
            _ => assert_eq!(ours, theirs, "{what}"),
        }
    }

    #[test]
    fn reference_values_of_information_agree() {
        let file = vectors("voi.json.gz");
        let mi = file["tolerance"]["mi_abs"].as_f64().unwrap();
        let evsi = file["tolerance"]["evsi_abs"].as_f64().unwrap();
        let cases = file["cases"].as_array().unwrap();
        assert!(cases.len() >= 33);
        for case in cases {
            let id = case["id"].as_str().unwrap();
            let ours = answer(case, &file, &mut networks(case["network"].as_str().unwrap())).unwrap();
            near(id, &ours["target_posterior"], &case["target_posterior"], 1e-10);
            near(id, &ours["target_entropy_nats"], &case["target_entropy_nats"], mi);
            near(id, &ours["expected_loss_no_more_obs"], &case["expected_loss_no_more_obs"], evsi);
            near(id, &ours["evpi"], &case["evpi"], evsi);
            for key in ["candidates", "pairs"] {
                let (ours, theirs) = (ours[key].as_array().unwrap(), case[key].as_array().unwrap());
                assert_eq!(ours.len(), theirs.len(), "{id} {key}");
                for (ours, theirs) in ours.iter().zip(theirs) {
                    let what = format!("{id} {}", theirs["obs"]);
                    near(&what, &ours["mi_nats"], &theirs["mi_nats"], mi);
                    near(&what, &ours["evsi"], &theirs["evsi"], evsi);
                    assert!(ours["mi_nats"].as_f64() >= Some(0.0) && ours["evsi"].as_f64() >= Some(0.0));
                    if key == "candidates" {
                        near(&what, &ours["net_value"], &theirs["net_value"], evsi);
                        near(&what, &ours["h_target_given_obs"], &theirs["h_target_given_obs"], mi);
                        let actions = "best_action_by_obs_state";
                        assert_eq!(ours[actions], theirs[actions], "{what}");
                    }
                }
            }
        }
    }

    #[test]
    fn impossible_evidence_and_bad_losses_are_said_by_name() {
        let mut case = json!({ "network": "asia", "target": "bronc", "loss": [[0, 1], [1, 0]],
            "hard": { "either": "no", "lung": "yes" }, "candidates": [{ "obs": "dysp" }] });
        let ask = |case: &Value| answer(case, &Value::Null, &mut networks("asia"));
        let impossible = ask(&case).unwrap_err();
        assert!(impossible.ends_with("these clash: lung, either"), "{impossible}");
        case["hard"] = json!({});
        assert_eq!(ask(&case).unwrap()["candidates"][0]["net_value"], Value::Null);
        case["loss"] = json!([[0, 1, 2]]);
        assert!(ask(&case).unwrap_err().contains("row of 3 losses"));
        case["loss"] = json!([]);
        assert!(ask(&case).unwrap_err().contains("no action"));
        case["target"] = json!("nobody");
        assert_eq!(ask(&case).unwrap_err(), "the network has no node “nobody”");
    }
}
