//! Three-point estimates and sums of risks.

use ::trade::pert::Pert;
use ::trade::risk::{self, Chance, Moments};
use serde_json::{Value, json};

use super::english;
use super::inputs::{Inputs, number};
use super::{Answer, Known};

pub(super) const KNOWN: &[Known] = &[
    ("expected_value", expected_value),
    ("p80_single_item_zero", p80_single_item_zero),
    ("pert", pert),
    ("pert_quantiles", pert_quantiles),
    ("risk_item_moments", risk_item_moments),
    ("risk_sum_normal_p80", risk_sum_normal_p80),
];

fn estimate(i: &Inputs) -> Result<Pert, String> {
    let pert = Pert::new(i.number("a")?, i.number("m")?, i.number("b")?).map_err(|e| e.to_string())?;
    // A range over the largest number would have no shape.
    if (pert.high() - pert.low()).is_finite() { Ok(pert) } else { Err("the range is too large".to_owned()) }
}

fn chance(i: &Inputs) -> Result<Chance, String> {
    Chance::new(i.number("p")?).map_err(english)
}

fn pert(i: &Inputs) -> Answer {
    let pert = estimate(i)?;
    Ok(json!({
        "mean": number(pert.mean())?,
        "sd_classic": number(pert.classic_sd())?,
        "sd_exact": number(pert.sd())?,
        "alpha": number(pert.alpha())?,
        "beta": number(pert.beta())?,
    }))
}

fn pert_quantiles(i: &Inputs) -> Answer {
    let pert = estimate(i)?;
    let at = |q| number(pert.quantile(q));
    Ok(json!({ "p10": at(0.1)?, "p50": at(0.5)?, "p80": at(0.8)?, "p90": at(0.9)? }))
}

fn expected_value(i: &Inputs) -> Answer {
    number(risk::expected_value(chance(i)?, i.number("impact")?).map_err(english)?)
}

fn risk_item_moments(i: &Inputs) -> Answer {
    let severity = Moments::new(i.number("mean")?, i.number("sd")?).map_err(english)?;
    let item = risk::item_moments(chance(i)?, severity);
    Ok(json!({ "mean": number(item.mean)?, "sd": number(item.sd)? }))
}

/// 0 where the P80 of one item is zero; null where it is not, for then it depends on what the item costs.
fn p80_single_item_zero(i: &Inputs) -> Answer {
    let q = Chance::new(0.8).map_err(english)?;
    Ok(if risk::quantile_is_zero(chance(i)?, q) { json!(0) } else { Value::Null })
}

fn risk_sum_normal_p80(i: &Inputs) -> Answer {
    let not_rows = || "input “items” is not a list of rows [p, mean, sd]".to_owned();
    let rows = i.get("items")?.as_array().ok_or_else(not_rows)?;
    let mut items = Vec::with_capacity(rows.len());
    for row in rows {
        let numbers: Option<Vec<f64>> = row.as_array().and_then(|r| r.iter().map(Value::as_f64).collect());
        let Some([p, mean, sd]) = numbers.as_deref() else { return Err(not_rows()) };
        let p = Chance::new(*p).map_err(english)?;
        items.push((p, Moments::new(*mean, *sd).map_err(english)?));
    }
    let (sum, p80) = risk::sum_normal_p80(items);
    Ok(json!({ "mean": number(sum.mean)?, "sd": number(sum.sd)?, "p80": number(p80)? }))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Answers worked elsewhere; each case names its source.
    const CHECKS: &str = include_str!("../../../../tests/vectors/trade/trade-checks.json");

    fn answer(inputs: &Value) -> Answer {
        let name = inputs["fn"].as_str().unwrap();
        let (_, function) = KNOWN.iter().find(|(known, _)| *known == name).unwrap();
        function(&Inputs::new(inputs, &survey::catalog::builtin().unwrap().shelf))
    }

    #[test]
    fn the_cases_of_cost_and_time_agree() {
        let cases: Vec<Value> = serde_json::from_str(CHECKS).unwrap();
        let mut seen = 0;
        for case in cases.iter().filter(|c| c["topic"] == "I") {
            let got = answer(&case["inputs"]).unwrap();
            let tolerance = case["tolerance"].as_f64().unwrap();
            let pairs: Vec<(&Value, &Value)> = match case["expected"].as_object() {
                Some(expected) => expected.iter().map(|(k, e)| (&got[k], e)).collect(),
                None => vec![(&got, &case["expected"])],
            };
            for (got, expected) in pairs {
                let (got, expected) = (got.as_f64().unwrap(), expected.as_f64().unwrap());
                assert!((got - expected).abs() <= tolerance, "{}: {got} {expected}", case["id"]);
            }
            seen += 1;
        }
        assert!(seen >= 10, "{seen}");
    }

    #[test]
    fn expected_value_is_probability_times_impact() {
        // AACE RP 44R-08
        assert_eq!(answer(&json!({"fn": "expected_value", "p": 0.25, "impact": 4000})), Ok(json!(1000.0)));
        assert_eq!(answer(&json!({"fn": "p80_single_item_zero", "p": 0.5})), Ok(Value::Null));
    }

    #[test]
    fn what_is_no_estimate_says_why() {
        for (inputs, part) in [
            (json!({"fn": "pert", "a": 3, "m": 2, "b": 7}), "low ≤ likely ≤ high"),
            (json!({"fn": "pert", "a": -1e308, "m": 0, "b": 1e308}), "too large"),
            (json!({"fn": "expected_value", "p": 1.5, "impact": 1}), "probability 1.5"),
            (json!({"fn": "risk_item_moments", "p": 0.5, "mean": 1, "sd": -1}), "standard deviation -1"),
            (json!({"fn": "risk_sum_normal_p80", "items": [[0.5, 1]]}), "[p, mean, sd]"),
            (json!({"fn": "risk_sum_normal_p80"}), "“items” is missing"),
        ] {
            let error = answer(&inputs).unwrap_err();
            assert!(error.contains(part), "{inputs}: {error}");
        }
    }
}
