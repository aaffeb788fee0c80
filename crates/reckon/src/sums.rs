//! `reckon money`: the sum of independent costs, or of costs with a common cause.

use ::trade::pert::Pert;
use assessment::sum::CostSum;
use serde_json::{Value, json};

use crate::lists::{estimate, list, object, one};
use crate::number;

/// Probabilities of the quantiles, and how they are written.
pub(crate) const QUANTILES: [(f64, &str); 4] = [(0.5, "P50"), (0.8, "P80"), (0.9, "P90"), (0.95, "P95")];

/// Answers one case.
pub(crate) fn answer(case: &Value) -> Result<Value, String> {
    let items = list(case, "items", "an item", |v| v.is_object().then(|| v.clone()))?;
    let read = |keys: &[&str]| -> Result<Vec<(Vec<f64>, Pert)>, String> {
        let each = items.iter().enumerate().map(|(i, item)| {
            let p: Result<Vec<f64>, String> = keys.iter().map(|key| one(item, key)).collect();
            let cost = estimate(item.get("pert").unwrap_or(&Value::Null));
            p.and_then(|p| Ok((p, cost?))).map_err(|e| format!("item {}: {e}", i + 1))
        });
        each.collect()
    };
    let sum = match case.get("model").and_then(Value::as_str) {
        Some("independent") => CostSum::independent(read(&["p"])?.into_iter().map(|(p, cost)| (p[0], cost))),
        Some("common_cause") => CostSum::common_cause(
            one(case, "p_common")?,
            read(&["p_if_absent", "p_if_present"])?.into_iter().map(|(p, cost)| (p[0], p[1], cost)),
        ),
        other => {
            let got = other.unwrap_or("none");
            return Err(format!("the model is {got}; known are independent and common_cause"));
        }
    };
    let sum = sum.map_err(|e| e.to_string())?;
    let moments = sum.moments();
    let found = sum.quantiles(&QUANTILES.map(|(q, _)| q)).map_err(|e| e.to_string())?;
    let each = QUANTILES.iter().zip(found).map(|((_, name), x)| (*name, json!({ "estimate": number(x) })));
    Ok(json!({
        "mean": number(moments.mean),
        "variance": number(moments.variance),
        "p_zero": number(moments.p_zero),
        "quantiles": object(each),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lists::tests::{Agreement, vectors};

    /// Exact moments in closed form; quantiles by ten million draws of numpy, and by transform of the exact densities.
    #[test]
    fn moments_are_exact_and_quantiles_lie_inside_the_interval_of_ten_million_draws() {
        let file = vectors("assessment/cost.json");
        let tolerance = |key: &str| file["tolerance"][key].as_f64().unwrap();
        for case in file["cases"].as_array().unwrap() {
            let (id, got) = (case["id"].as_str().unwrap(), answer(case).unwrap());
            Agreement::relative(tolerance("mean_rel")).contains(id, &got, case, &["mean"]);
            Agreement::relative(tolerance("variance_rel")).contains(id, &got, case, &["variance"]);
            Agreement::absolute(tolerance("p_zero_abs")).contains(id, &got, case, &["p_zero"]);
            for (name, expected) in case["quantiles"].as_object().unwrap() {
                let x = got["quantiles"][name]["estimate"].as_f64().unwrap();
                let [low, high] = [0, 1].map(|i| expected["ci999"][i].as_f64().unwrap());
                assert!((low..=high).contains(&x), "{id} {name}: {x} outside {low} to {high}");
                let numeric = expected["numeric"].as_f64().unwrap();
                if expected["atom"] == true {
                    assert_eq!(x, numeric, "{id} {name} sits on an atom");
                }
                // The other computation states its own error, up to 0.0012.
                let off = (x - numeric).abs() - expected["numeric_err"].as_f64().unwrap();
                assert!(off < 0.01, "{id} {name}: {x}, by transform {numeric}");
            }
        }
    }

    #[test]
    fn fixed_costs_are_met_exactly_and_what_is_no_sum_is_refused() {
        let fixed = json!({ "model": "independent", "items": [
            { "p": 0.4, "pert": [100.1, 100.1, 100.1] }, { "p": 0.3, "pert": [200.2, 200.2, 200.2] },
        ] });
        // F: 0 → 0.42, 100.1 → 0.70, 200.2 → 0.88, both → 1.
        let got = answer(&fixed).unwrap();
        let x = |name: &str| got["quantiles"][name]["estimate"].as_f64().unwrap();
        assert_eq!((x("P50"), x("P80"), x("P90")), (100.1, 200.2, 100.1 + 200.2));
        for bad in [
            json!({ "model": "copula", "items": [] }),
            json!({ "model": "independent", "items": [{ "p": 1.5, "pert": [1, 2, 3] }] }),
            json!({ "model": "independent", "items": [{ "p": 0.5, "pert": [3, 2, 1] }] }),
            json!({ "model": "independent", "items": [{ "p": 0.5, "pert": [-1, 2, 3] }] }),
            json!({ "model": "common_cause", "items": [{ "p": 0.5, "pert": [1, 2, 3] }], "p_common": 0.5 }),
            json!({ "model": "common_cause", "items": [] }),
        ] {
            assert!(answer(&bad).is_err(), "{bad}");
        }
        let none = answer(&json!({ "model": "independent", "items": [] })).unwrap();
        assert_eq!((&none["p_zero"], &none["quantiles"]["P95"]["estimate"]), (&json!(1.0), &json!(0.0)));
    }
}
