//! `reckon forecast-scores`: forecasts `p` against outcomes `y` (0, 1, true or false).

use review::scores::bins::{Bin, Murphy, by_value, equal_width, murphy};
use review::scores::isotonic::Isotonic;
use review::scores::{brier, brier_skill_vs_base_rate, log_score, ranking};
use serde_json::{Map, Value, json};

use crate::lists::{array, list, maybe, numbers, object};
use crate::number;

/// Bins that the reliability of a forecast is read in.
const COUNTS: [usize; 3] = [5, 10, 20];

/// Answers one case. A case with `isotonic` (`weights`, `query`) also gets that curve. Without cases every score is
/// null.
pub(crate) fn answer(case: &Value) -> Result<Value, String> {
    let p = list(case, "p", "a probability from 0 to 1", |v| v.as_f64().filter(|p| (0.0..=1.0).contains(p)))?;
    let y = list(case, "y", "0 or 1", outcome)?;
    if p.len() != y.len() {
        return Err(format!("there are {} forecasts and {} outcomes", p.len(), y.len()));
    }
    let mut answer = json!({
        "brier": maybe(brier(&p, &y)),
        "log_loss_nats": maybe(log_score(&p, &y)),
        "roc_auc": maybe(ranking::roc_auc(&p, &y)),
        "average_precision": maybe(ranking::average_precision(&p, &y)),
        "bins": object(COUNTS.map(|k| (k.to_string(), reliability(&equal_width(&p, &y, k))))),
        "murphy_unique_p": murphy(&by_value(&p, &y)).map(|m| object(three(&m))),
        "brier_skill_vs_base_rate": maybe(brier_skill_vs_base_rate(&p, &y)),
    });
    if let Some(wanted) = case.get("isotonic").filter(|v| v.is_object()) {
        answer["isotonic"] = curve(&p, &y, wanted)?;
    }
    Ok(answer)
}

fn outcome(value: &Value) -> Option<bool> {
    value.as_bool().or(match value.as_f64() {
        Some(0.0) => Some(false),
        Some(1.0) => Some(true),
        _ => None,
    })
}

fn reliability(bins: &[Bin]) -> Value {
    let row = |(k, bin): (usize, &Bin)| match bin.n {
        0 => json!({ "bin": k, "n": 0 }),
        n => json!({ "bin": k, "n": n, "mean_p": number(bin.mean_p), "mean_y": number(bin.mean_y) }),
    };
    let table: Vec<Value> = bins.iter().enumerate().map(row).collect();
    json!({ "table": table, "murphy": murphy(bins).map(|m| parts(&m)) })
}

fn three(m: &Murphy) -> [(&'static str, Value); 3] {
    [
        ("reliability", number(m.reliability)),
        ("resolution", number(m.resolution)),
        ("uncertainty", number(m.uncertainty)),
    ]
}

fn parts(m: &Murphy) -> Value {
    let more = [
        ("within_bin_variance", m.within_bin_variance),
        ("within_bin_covariance", m.within_bin_covariance),
        ("generalised_resolution", m.generalised_resolution()),
        ("ece", m.ece),
        ("mce", m.mce),
    ];
    object(three(m).into_iter().chain(more.map(|(k, x)| (k, number(x)))))
}

fn curve(p: &[f64], y: &[bool], wanted: &Value) -> Result<Value, String> {
    let weights = match wanted.get("weights") {
        Some(_) => numbers(wanted, "weights")?,
        None => vec![1.0; p.len()],
    };
    if weights.len() != p.len() {
        return Err(format!("there are {} forecasts and {} weights", p.len(), weights.len()));
    }
    let Some(curve) = Isotonic::fit(p, y, &weights) else { return Ok(Value::Null) };
    let mut answer = Map::new();
    answer.insert("fitted".to_owned(), array(p.iter().map(|p| curve.at(*p))));
    if wanted.get("query").is_some() {
        answer
            .insert("predict".to_owned(), array(numbers(wanted, "query")?.into_iter().map(|p| curve.at(p))));
    }
    answer.insert("x_thresholds".to_owned(), array(curve.x_thresholds.iter().copied()));
    answer.insert("y_thresholds".to_owned(), array(curve.y_thresholds.iter().copied()));
    Ok(Value::Object(answer))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lists::tests::{Agreement, vectors};

    #[test]
    fn every_score_agrees_with_numpy_and_scikit_learn() {
        let file = vectors("review/calibration.json");
        let mut agreement = Agreement::absolute(file["tolerance_abs"].as_f64().unwrap());
        for case in file["cases"].as_array().unwrap() {
            agreement.contains(
                case["id"].as_str().unwrap(),
                &answer(case).unwrap(),
                case,
                &[
                    "brier",
                    "log_loss_nats",
                    "roc_auc",
                    "average_precision",
                    "bins",
                    "murphy_unique_p",
                    "brier_skill_vs_base_rate",
                ],
            );
            let mut expected = case["isotonic"].clone();
            for input in ["weights", "query"] {
                expected.as_object_mut().unwrap().remove(input);
            }
            agreement.same(case["id"].as_str().unwrap(), &answer(case).unwrap()["isotonic"], &expected);
        }
        agreement.end(1000);
    }

    #[test]
    fn what_is_no_forecast_or_no_outcome_is_refused_and_nothing_is_undefined() {
        for case in [
            json!({ "p": [1.5], "y": [1] }),
            json!({ "p": [0.5], "y": [2] }),
            json!({ "p": [0.5], "y": [] }),
            json!({ "y": [1] }),
        ] {
            assert!(answer(&case).is_err(), "{case}");
        }
        let empty = answer(&json!({ "p": [], "y": [] })).unwrap();
        assert_eq!((&empty["brier"], &empty["murphy_unique_p"]), (&Value::Null, &Value::Null));
        assert_eq!(empty["bins"]["5"]["table"].as_array().unwrap().len(), 5);
        assert!(answer(&json!({ "p": [0.5], "y": [true] })).is_ok());
    }
}
