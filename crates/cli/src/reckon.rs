//! `underlath reckon KIND`: bare computations for scripts and outside checks; cases on standard input, one JSON array
//! on standard output. The contract stands in the crate `reckon`.

use std::io::Read as _;

use actions::{Error, Kind};
use serde_json::Value;
use survey::catalog::Catalog;
use words::msg;

use crate::args::{Reckon, ReckonKind};
use crate::out::Out;

/// Reads the cases, answers each, writes the answers.
pub fn run(args: &Reckon, catalog: &Catalog, out: &mut Out) -> Result<(), Error> {
    let mut text = String::new();
    std::io::stdin()
        .read_to_string(&mut text)
        .map_err(|e| Error::new(Kind::Input, msg!("error-input", said = e.to_string())))?;
    let input: Value = serde_json::from_str(&text).map_err(|e| {
        Error::new(Kind::Input, msg!("error-input-json", said = e.to_string()))
            .hint(msg!("error-input-json-hint"))
    })?;
    let kind = match args.kind {
        ReckonKind::Posterior => reckon::Kind::Posterior,
        ReckonKind::Mpe => reckon::Kind::Mpe,
        ReckonKind::NoisyOr => reckon::Kind::NoisyOr,
        ReckonKind::Value => reckon::Kind::Value,
        ReckonKind::Weight => reckon::Kind::Weight,
        ReckonKind::Learning => reckon::Kind::Learning,
        ReckonKind::Money => reckon::Kind::Money,
        ReckonKind::JointSum => reckon::Kind::JointSum,
        ReckonKind::ForecastScores => reckon::Kind::ForecastScores,
        ReckonKind::EnsembleScores => reckon::Kind::EnsembleScores,
        ReckonKind::Trade => reckon::Kind::Trade,
    };
    let mut networks = reckon::Networks::new(args.net.clone(), args.nets.clone());
    let answers = reckon::answers(kind, &input, &mut networks, catalog)
        .map_err(|e| Error::new(Kind::Input, msg!("error-reckon", said = e)))?;
    out.line(Value::Array(answers).to_string());
    Ok(())
}
