//! `underlath reckon KIND`: bare computations for scripts and outside checks.
//!
//! Standard input is an array of cases or `{"cases": […]}`; standard output is one JSON array in input order, every
//! answer with its case's `id`. A case that cannot be answered carries `error`, and the rest still run. Infinite
//! numbers are the texts "inf" and "-inf"; what is undefined is null.

use std::io::Read as _;

use actions::{Error, Kind};
use serde_json::{Map, Value, json};

use crate::args::{Reckon, ReckonKind};
use crate::out::Out;

mod network;
mod posterior;
mod trade;

/// Reads the cases, answers each, writes the answers.
pub fn run(args: &Reckon, out: &mut Out) -> Result<(), Error> {
    let mut text = String::new();
    std::io::stdin()
        .read_to_string(&mut text)
        .map_err(|e| Error::new(Kind::Input, format!("standard input cannot be read: {e}")))?;
    let input: Value = serde_json::from_str(&text).map_err(|e| {
        Error::new(Kind::Input, format!("standard input is not JSON: {e}"))
            .hint("give an array of cases, or an object with “cases”")
    })?;
    let whole_network = input.get("network").and_then(Value::as_str);
    let cases = match &input {
        Value::Array(cases) => cases,
        Value::Object(object) => match object.get("cases") {
            Some(Value::Array(cases)) => cases,
            _ => return Err(Error::new(Kind::Input, "the object on standard input has no array “cases”")),
        },
        _ => {
            return Err(Error::new(
                Kind::Input,
                "standard input is neither an array nor an object with “cases”",
            ));
        }
    };
    let mut networks = network::Networks::new(args.net.clone(), args.nets.clone());
    let answers: Vec<Value> = cases
        .iter()
        .map(|case| {
            let answer = match args.kind {
                ReckonKind::Posterior => posterior::answer(case, whole_network, &mut networks),
                ReckonKind::Trade => trade_case(case),
            };
            with_id(case, answer)
        })
        .collect();
    out.line(Value::Array(answers).to_string());
    Ok(())
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

fn trade_case(case: &Value) -> Result<Value, String> {
    let inputs = case.get("inputs").ok_or("the case has no “inputs”")?;
    trade::answer(inputs).map(|result| json!({ "result": result }))
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
