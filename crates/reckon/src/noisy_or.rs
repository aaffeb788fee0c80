//! `reckon noisy-or`: one effect of independent causes, its table and what it says about them.
//!
//! P(no | x) = (1 - leak) · product over present causes of (1 - p_i); p_i are the weights without the leak
//! (F. J. Díez, Uncertainty in Artificial Intelligence 1993, 99-105).

use inference::{Evidence, InferError, Network, NetworkBuilder, NodeId, noisy_or, posterior};
use serde_json::{Value, json};

/// Most causes whose table is listed in full; with more, `p_yes_by_config` is null and the rest is answered.
const LISTED: usize = 14;

/// Answers one case: `p` (weight of each cause), `leak`, `prior` (P of each cause), `soft_on_y` (likelihood of
/// [no, yes]; may be missing).
pub(crate) fn answer(case: &Value) -> Result<Value, String> {
    let weights = numbers(case, "p")?;
    let prior = numbers(case, "prior")?;
    let leak = case.get("leak").and_then(Value::as_f64).ok_or("the case has no number “leak”")?;
    if weights.len() != prior.len() {
        let (p, q) = (weights.len(), prior.len());
        return Err(format!("“p” has {p} numbers and “prior” {q}; each cause needs one of both"));
    }
    let (net, causes, effect) = network(&weights, leak, &prior)?;
    let given = |ev: Evidence| parents_given(&net, &causes, &ev);
    let seen = |state: usize| {
        let mut ev = Evidence::new();
        ev.observe(effect, state);
        ev
    };
    let marginal = posterior(&net, &Evidence::new()).map_err(|e| e.to_string())?.of(effect).get(1).copied();
    let listed: Option<Vec<f64>> = (weights.len() <= LISTED)
        .then(|| noisy_or::table(&weights, leak).chunks_exact(2).map(|row| row[1]).collect());
    let mut out = json!({
        "p_yes_by_config": listed,
        "p_yes_marginal": marginal,
        "posterior_parent_given_yes": given(seen(1))?,
        "posterior_parent_given_no": given(seen(0))?,
    });
    if case.get("soft_on_y").is_some_and(|l| !l.is_null()) {
        let mut ev = Evidence::new();
        ev.likelihood(effect, numbers(case, "soft_on_y")?);
        out["posterior_parent_given_soft_y"] = json!(given(ev)?);
    }
    if let [first, second, ..] = causes[..] {
        let mut ev = seen(1);
        ev.observe(first, 1);
        let shares = parents_given(&net, &[second], &ev)?;
        out["posterior_x1_given_yes_and_x0"] = json!(shares.map(|p| p[0]));
    }
    Ok(out)
}

/// The network of one effect, its causes, the effect.
fn network(weights: &[f64], leak: f64, prior: &[f64]) -> Result<(Network, Vec<NodeId>, NodeId), String> {
    let build = || {
        let mut builder = NetworkBuilder::new();
        let mut causes = Vec::with_capacity(prior.len());
        for (i, p) in prior.iter().enumerate() {
            let id = builder.node(format!("x{i}"), &["no", "yes"])?;
            builder.table(id, &[], vec![1.0 - p, *p])?;
            causes.push(id);
        }
        let effect = builder.node("y", &["no", "yes"])?;
        let weighted: Vec<(NodeId, f64)> = causes.iter().copied().zip(weights.iter().copied()).collect();
        builder.noisy_or(effect, &weighted, leak)?;
        Ok((builder.build()?, causes, effect))
    };
    build().map_err(|e: inference::NetworkError| e.to_string())
}

/// P(yes | evidence) of each cause; none if the evidence is impossible.
fn parents_given(net: &Network, causes: &[NodeId], ev: &Evidence) -> Result<Option<Vec<f64>>, String> {
    match posterior(net, ev) {
        Ok(found) => Ok(Some(causes.iter().map(|x| found.of(*x)[1]).collect())),
        Err(InferError::Impossible { .. }) => Ok(None),
        Err(other) => Err(other.to_string()),
    }
}

fn numbers(case: &Value, key: &str) -> Result<Vec<f64>, String> {
    let list = case.get(key).and_then(Value::as_array);
    list.and_then(|l| l.iter().map(Value::as_f64).collect())
        .ok_or_else(|| format!("the case has no list of numbers “{key}”"))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    /// Closed forms in exact rationals, checked against a general library: see `source` in the file.
    #[test]
    fn every_case_of_the_reference_file_agrees() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/vectors/inference/noisy_or.json");
        let file: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let tolerance = file["tolerance_abs"].as_f64().unwrap();
        let asked = ["id", "kind", "n_parents", "p", "leak", "prior", "soft_on_y"];
        let (mut worst, mut compared) = (0.0f64, 0);
        for case in file["cases"].as_array().unwrap() {
            let ours = answer(case).unwrap();
            for (key, theirs) in
                case.as_object().unwrap().iter().filter(|(k, _)| !asked.contains(&k.as_str()))
            {
                let flat = |v: &Value| -> Vec<f64> {
                    let list = v.as_array().cloned().unwrap_or_else(|| vec![v.clone()]);
                    list.iter().map(|x| x.as_f64().unwrap_or(f64::NAN)).collect()
                };
                let (a, b) = (flat(&ours[key]), flat(theirs));
                assert_eq!(a.len(), b.len(), "{} {key}", case["id"]);
                for (a, b) in a.iter().zip(&b) {
                    assert!((a - b).abs() <= tolerance, "{} {key}: {a} against {b}", case["id"]);
                    worst = worst.max((a - b).abs());
                    compared += 1;
                }
            }
        }
        assert!(compared > 600 && worst <= tolerance, "{compared} numbers, worst {worst:e}");
    }

    #[test]
    fn impossible_findings_are_null_and_more_than_fourteen_causes_are_not_listed() {
        let one =
            answer(&json!({ "p": [0.0], "leak": 0.0, "prior": [0.5], "soft_on_y": [0.0, 1.0] })).unwrap();
        assert!(
            one["posterior_parent_given_yes"].is_null() && one["posterior_parent_given_soft_y"].is_null()
        );
        assert_eq!(one["posterior_parent_given_no"], json!([0.5]));
        let many = answer(&json!({ "p": vec![0.5; 30], "leak": 0.25, "prior": vec![0.5; 30] })).unwrap();
        assert!(many["p_yes_by_config"].is_null());
        let yes = many["p_yes_marginal"].as_f64().unwrap();
        assert!((yes - (1.0 - 0.75 * 0.75f64.powi(30))).abs() < 1e-12);
    }

    #[test]
    fn a_case_that_does_not_fit_is_refused_in_words() {
        for (case, words) in [
            (json!({ "leak": 0.0, "prior": [] }), "“p”"),
            (json!({ "p": [0.5], "prior": [0.5] }), "“leak”"),
            (json!({ "p": [0.5], "leak": 0.0, "prior": [] }), "each cause"),
            (json!({ "p": [1.5], "leak": 0.0, "prior": [0.5] }), "between 0 and 1"),
            (json!({ "p": [0.5], "leak": 0.0, "prior": [1.5] }), "between 0 and 1"),
            (json!({ "p": [0.5], "leak": 0.0, "prior": [0.5], "soft_on_y": [1.0] }), "likelihoods"),
        ] {
            let e = answer(&case).unwrap_err();
            assert!(e.contains(words), "{e}");
        }
    }
}
