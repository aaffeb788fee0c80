//! `reckon ensemble-scores`: draws of an amount (`members`, one list for each outcome) against what came (`obs`).

use review::scores::ensemble::{Ensemble, Interval, pinball};
use serde_json::{Value, json};

use crate::lists::{array, list, maybe, numbers, object};
use crate::number;

/// Probabilities of the quantiles, in percent, and how they are written.
const QUANTILES: [(u32, &str); 6] =
    [(5, "0.05"), (10, "0.1"), (50, "0.5"), (80, "0.8"), (90, "0.9"), (95, "0.95")];
const INTERVALS: [(u32, u32, &str); 2] = [(10, 90, "0.1-0.9"), (5, 95, "0.05-0.95")];

/// Answers one case.
pub(crate) fn answer(case: &Value) -> Result<Value, String> {
    let members = list(case, "members", "a list of at least one number", |v| {
        let numbers: Option<Vec<f64>> = v.as_array()?.iter().map(Value::as_f64).collect();
        Ensemble::new(&numbers?)
    })?;
    let obs = numbers(case, "obs")?;
    if members.len() != obs.len() {
        return Err(format!("there are {} lists of members and {} outcomes", members.len(), obs.len()));
    }
    if obs.is_empty() {
        return Err("there is no outcome to score".to_owned());
    }
    let pairs: Vec<(&Ensemble, f64)> = members.iter().zip(obs.iter().copied()).collect();
    let crps: Vec<f64> = pairs.iter().map(|(e, y)| e.crps(*y)).collect();
    let fair: Vec<Value> = pairs.iter().map(|(e, y)| maybe(e.crps_fair(*y))).collect();
    let pit: Vec<Value> = pairs.iter().map(|(e, y)| array(e.pit(*y))).collect();
    Ok(json!({
        "crps_mean": number(mean(&crps)),
        "crps_each": array(crps),
        "crps_fair_each": fair,
        "quantiles": object(QUANTILES.map(|(percent, name)| (name, quantile(&pairs, percent)))),
        "intervals": object(INTERVALS.map(|(low, high, name)| (name, interval(&pairs, low, high)))),
        "pit": pit,
    }))
}

fn mean(list: &[f64]) -> f64 {
    list.iter().sum::<f64>() / list.len() as f64
}

fn quantile(pairs: &[(&Ensemble, f64)], percent: u32) -> Value {
    let linear: Vec<f64> = pairs.iter().map(|(e, _)| e.quantile_linear(percent)).collect();
    let step: Vec<f64> = pairs.iter().map(|(e, _)| e.quantile_step(percent)).collect();
    let loss = |q: &[f64]| -> f64 {
        let each: Vec<f64> = q.iter().zip(pairs).map(|(q, (_, y))| pinball(percent, *q, *y)).collect();
        mean(&each)
    };
    json!({
        "pinball_linear_mean": number(loss(&linear)),
        "pinball_inverted_cdf_mean": number(loss(&step)),
        "q_linear": array(linear),
        "q_inverted_cdf": array(step),
    })
}

fn interval(pairs: &[(&Ensemble, f64)], low: u32, high: u32) -> Value {
    let each: Vec<(Interval, f64)> = pairs.iter().map(|(e, y)| (e.interval(low, high), *y)).collect();
    let of = |f: &dyn Fn(&Interval, f64) -> f64| -> Vec<f64> { each.iter().map(|(i, y)| f(i, *y)).collect() };
    let covered: Vec<u8> = each.iter().map(|(i, y)| u8::from(i.covers(*y))).collect();
    json!({
        "covered": covered,
        "coverage": number(mean(&of(&|i, y| f64::from(u8::from(i.covers(y)))))),
        "mean_width": number(mean(&of(&|i, _| i.width()))),
        "interval_score_mean": number(mean(&of(&|i, y| i.score(y)))),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lists::tests::{Agreement, vectors};

    #[test]
    fn every_score_agrees_with_scoringrules_and_numpy() {
        let file = vectors("review/ensemble_scores.json");
        let mut agreement = Agreement::relative(file["tolerance_rel"].as_f64().unwrap());
        for case in file["cases"].as_array().unwrap() {
            let keys = ["crps_each", "crps_mean", "crps_fair_each", "quantiles", "intervals", "pit"];
            let given: Vec<&str> = keys.into_iter().filter(|k| case.get(k).is_some()).collect();
            let got = answer(case).unwrap();
            agreement.contains(case["id"].as_str().unwrap(), &got, case, &given);
            for (tau, expected) in case["quantiles"].as_object().unwrap() {
                let step = &got["quantiles"][tau]["q_inverted_cdf"];
                assert_eq!(step, &expected["q_inverted_cdf"], "{} {tau}: exactly", case["id"]);
            }
        }
        agreement.end(1000);
    }

    #[test]
    fn ensembles_without_members_or_outcomes_are_refused() {
        for case in [
            json!({ "members": [[]], "obs": [1.0] }),
            json!({ "members": [[1.0], [2.0]], "obs": [1.0] }),
            json!({ "members": [], "obs": [] }),
            json!({ "members": [1.0], "obs": [1.0] }),
        ] {
            assert!(answer(&case).is_err(), "{case}");
        }
    }
}
