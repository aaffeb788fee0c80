//! A house as one line of JSON, for scripts. The fields are explained in `docs/simulate.md`; a change of their meaning
//! needs a new `v`.

use std::collections::BTreeMap;

use serde::Serialize;
use survey::catalog::MorePlace;
use survey::log::CheckOutcome;
use survey::units::Money;

use crate::house::{Found, Loss, Said, SimulatedHouse, State, Step};

/// Version of the form.
pub const VERSION: u32 = 1;

#[derive(Serialize)]
struct Line<'a> {
    v: u32,
    invented: bool,
    seed: u64,
    number: u64,
    label: &'a str,
    note: &'a str,
    contract: Money,
    contract_days: u32,
    #[serde(skip_serializing_if = "<[MorePlace]>::is_empty")]
    places: &'a [MorePlace],
    walk: &'a [Step],
    said: &'a BTreeMap<String, Said>,
    conditions: &'a BTreeMap<String, State>,
    shows: &'a BTreeMap<String, bool>,
    clues: &'a BTreeMap<String, bool>,
    redrawn: &'a [String],
    checks: Vec<CheckLine<'a>>,
    findings: &'a [Found],
    loss: Loss,
    paid: Loss,
}

#[derive(Serialize)]
struct CheckLine<'a> {
    check: &'a str,
    condition: &'a str,
    result: CheckOutcome,
}

impl SimulatedHouse {
    /// The house as one line of JSON without the line end; the same house gives the same bytes.
    pub fn to_line(&self) -> String {
        let checks = self.checks.iter().map(|((check, condition), result)| CheckLine {
            check,
            condition,
            result: *result,
        });
        let line = Line {
            v: VERSION,
            invented: true,
            seed: self.seed,
            number: self.number,
            label: &self.label,
            note: &self.note,
            contract: self.contract,
            contract_days: self.contract_days,
            places: &self.places,
            walk: &self.walk,
            said: &self.said,
            conditions: &self.conditions,
            shows: &self.shows,
            clues: &self.clues,
            redrawn: &self.redrawn,
            checks: checks.collect(),
            findings: &self.findings,
            loss: self.loss,
            paid: self.paid,
        };
        // Keys are strings and floats finite, so this cannot fail.
        serde_json::to_string(&line).unwrap_or_default()
    }
}
