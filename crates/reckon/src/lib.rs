//! Bare computations by name, for scripts and outside checks: cases in, answers out, as JSON.
//!
//! Input is an array of cases or `{"cases": […]}`; the answer is one array in input order, every answer with its
//! case's `id`. A case that cannot be answered carries `error`, and the rest still run. Infinite numbers are the
//! texts "inf" and "-inf"; what is undefined is null.

use serde_json::{Map, Value, json};
use survey::catalog::Catalog;

mod ensemble_scores;
mod forecast_scores;
mod joint_sum;
mod learning;
mod lists;
mod mpe;
mod network;
mod noisy_or;
mod posterior;
mod sums;
mod trade;
mod value;
mod weight;

pub use network::Networks;

/// What can be computed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    /// Posteriors of a network.
    Posterior,
    /// The most probable explanation.
    Mpe,
    /// One effect of independent causes.
    NoisyOr,
    /// What further observations are worth.
    Value,
    /// How far each finding moved a hypothesis.
    Weight,
    /// Tables learned from records.
    Learning,
    /// Sums of risky costs.
    Money,
    /// Sums of costs over dependent hidden nodes.
    JointSum,
    /// Scores of probabilities against outcomes.
    ForecastScores,
    /// Scores of ensembles against outcomes.
    EnsembleScores,
    /// Trade calculations.
    Trade,
}

/// Answers every case.
///
/// # Errors
/// The input is no list of cases.
pub fn answers(
    kind: Kind,
    input: &Value,
    networks: &mut Networks,
    catalog: &Catalog,
) -> Result<Vec<Value>, String> {
    let whole_network = input.get("network").and_then(Value::as_str);
    let cases = match input {
        Value::Array(cases) => cases,
        Value::Object(object) => match object.get("cases") {
            Some(Value::Array(cases)) => cases,
            _ => return Err("the object on standard input has no array “cases”".to_owned()),
        },
        _ => return Err("standard input is neither an array nor an object with “cases”".to_owned()),
    };
    let one = |case: &Value, networks: &mut Networks| match kind {
        Kind::Posterior => posterior::answer(case, whole_network, networks),
        Kind::Mpe => mpe::answer(case, input, networks),
        Kind::NoisyOr => noisy_or::answer(case),
        Kind::Value => value::answer(case, input, networks),
        Kind::Weight => weight::answer(case, input, networks),
        Kind::Learning => learning::answer(case, input, networks),
        Kind::Money => sums::answer(case),
        Kind::JointSum => joint_sum::answer(case, input, networks),
        Kind::ForecastScores => forecast_scores::answer(case),
        Kind::EnsembleScores => ensemble_scores::answer(case),
        Kind::Trade => trade_case(case, catalog),
    };
    Ok(cases.iter().map(|case| with_id(case, one(case, networks))).collect())
}

fn with_id(case: &Value, answer: Result<Value, String>) -> Value {
    let mut object = Map::new();
    object.insert("id".to_owned(), case.get("id").cloned().unwrap_or(Value::Null));
    match answer {
        Ok(Value::Object(fields)) => object.extend(fields),
        Ok(other) => {
            object.insert("result".to_owned(), other);
        }
        Err(error) => {
            object.insert("error".to_owned(), Value::String(error));
        }
    }
    Value::Object(object)
}

fn trade_case(case: &Value, catalog: &Catalog) -> Result<Value, String> {
    let inputs = case.get("inputs").ok_or("the case has no “inputs”")?;
    trade::answer(inputs, &catalog.shelf).map(|result| json!({ "result": result }))
}

/// A number, or the text for what JSON cannot hold.
fn number(x: f64) -> Value {
    if x == f64::INFINITY {
        json!("inf")
    } else if x == f64::NEG_INFINITY {
        json!("-inf")
    } else {
        json!(x)
    }
}
