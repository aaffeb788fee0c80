//! `reckon joint-sum`: the sum of costs over dependent nodes of a network, given evidence.

use ::trade::pert::Pert;
use assessment::sum::joint::{Joint, quantile};
use inference::joint;
use serde_json::{Value, json};

use crate::lists::{array, estimate, list, numbers, object};
use crate::network::{Networks, evidence};
use crate::number;
use crate::sums::QUANTILES;

/// More targets than this would need too long a table.
const MOST_TARGETS: usize = 16;

/// Answers one case: `network`, `hard`, `soft`, `targets` (each counts as present in its second state), `pert` (one
/// estimate a target) and `fixed_cost` (one amount a target; the likely values of `pert` if it is missing).
pub(crate) fn answer(case: &Value, whole: &Value, networks: &mut Networks) -> Result<Value, String> {
    let name = case.get("network").or_else(|| whole.get("network")).and_then(Value::as_str);
    let net = networks.get(name)?;
    let evidence = evidence(&net, case)?;
    let targets = list(case, "targets", "a node of the network", |v| net.find(v.as_str()?))?;
    if targets.len() > MOST_TARGETS {
        return Err(format!(
            "{} targets are too many to enumerate; give at most {MOST_TARGETS}",
            targets.len()
        ));
    }
    let pert = list(case, "pert", "[low, likely, high] with low ≤ likely ≤ high", |v| estimate(v).ok())?;
    let amounts = match case.get("fixed_cost") {
        Some(_) => numbers(case, "fixed_cost")?,
        None => list(case, "pert", "an estimate", |v| v.get(1)?.as_f64())?,
    };
    for (what, n) in [("estimates", pert.len()), ("fixed costs", amounts.len())] {
        if n != targets.len() {
            return Err(format!("there are {} targets and {n} {what}", targets.len()));
        }
    }
    let sizes: Vec<usize> = targets.iter().map(|t| net.nodes()[*t].states.len()).collect();
    let table = joint(&net, &evidence, &targets).map_err(|e| e.to_string())?;
    let present = Joint::new(targets.len(), second_states(&table, &sizes)).map_err(|e| e.to_string())?;
    Ok(sums(&present, &pert, &amounts))
}

/// From a table over all states to one over "second state, or another": last node fastest in both.
fn second_states(table: &[f64], sizes: &[usize]) -> Vec<f64> {
    let mut out = vec![0.0; 1 << sizes.len()];
    for (i, p) in table.iter().enumerate() {
        let (mut rest, mut at) = (i, 0);
        for (bit, size) in sizes.iter().rev().enumerate() {
            at |= usize::from(rest % size == 1) << bit;
            rest /= size;
        }
        out[at] += p;
    }
    out
}

fn sums(present: &Joint, pert: &[Pert], amounts: &[f64]) -> Value {
    let (pert_mean, pert_variance) = present.moments(pert);
    let fixed_pmf = present.fixed(amounts);
    let quantiles = QUANTILES.iter().filter_map(|(q, name)| {
        let (value, before, at) = quantile(&fixed_pmf, *q)?;
        Some((*name, json!({ "value": number(value), "F_before": number(before), "F_at": number(at) })))
    });
    let cov: Vec<Value> = present.covariance().into_iter().map(array).collect();
    json!({
        "p_yes": array(present.p_yes()),
        "cov": cov,
        "pert_mean": number(pert_mean),
        "pert_variance": number(pert_variance),
        "fixed_mean": number(fixed_pmf.iter().map(|(x, p)| x * p).sum()),
        "all_no_probability": number(present.none()),
        "fixed_quantiles": object(quantiles),
        "fixed_pmf": fixed_pmf.iter().map(|(x, p)| array([*x, *p])).collect::<Vec<Value>>(),
    })
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;
    use crate::lists::tests::{Agreement, vectors};

    fn networks() -> Networks {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/vectors/inference/nets");
        Networks::new(None, Some(folder))
    }

    /// Enumeration over P(targets | evidence) by an independent variable elimination.
    #[test]
    fn sums_over_dependent_nodes_agree_with_enumeration() {
        let file = vectors("assessment/joint_sum.json");
        let tolerance = |key: &str| file["tolerance"][key].as_f64().unwrap();
        let mut nets = networks();
        for case in file["cases"].as_array().unwrap() {
            let (id, got) = (case["id"].as_str().unwrap(), answer(case, &file, &mut nets).unwrap());
            let keys = ["pert_mean", "fixed_mean"];
            Agreement::relative(tolerance("mean_rel")).contains(id, &got, case, &keys);
            Agreement::relative(tolerance("variance_rel")).contains(id, &got, case, &["pert_variance"]);
            let keys = ["p_yes", "cov", "all_no_probability", "fixed_pmf", "fixed_quantiles"];
            Agreement::absolute(tolerance("pmf_abs")).contains(id, &got, case, &keys);
        }
    }

    #[test]
    fn a_node_with_three_states_is_present_in_its_second() {
        // 3 × 2 states: rows 0.1 0.2 / 0.3 0.1 / 0.1 0.2.
        let found = second_states(&[0.1, 0.2, 0.3, 0.1, 0.1, 0.2], &[3, 2]);
        assert!(found.iter().zip([0.2, 0.4, 0.3, 0.1]).all(|(a, b)| (a - b).abs() < 1e-15), "{found:?}");
    }

    #[test]
    fn shapes_that_do_not_match_are_refused() {
        let case =
            |targets: Value, pert: Value| json!({ "network": "house_s", "targets": targets, "pert": pert });
        for bad in [
            case(json!(["v00_b2"]), json!([])),
            case(json!(["no such node"]), json!([[1, 2, 3]])),
            case(json!(["v00_b2", "v00_b2"]), json!([[1, 2, 3], [1, 2, 3]])),
            case(json!(["v00_b2"]), json!([[3, 2, 1]])),
        ] {
            assert!(answer(&bad, &Value::Null, &mut networks()).is_err(), "{bad}");
        }
        let nothing = answer(&case(json!([]), json!([])), &Value::Null, &mut networks()).unwrap();
        assert_eq!(nothing["all_no_probability"], json!(1.0));
    }
}
