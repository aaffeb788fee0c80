//! Whether an answer fits its item.

use super::Catalog;
use super::item::{AnswerKind, Item, LengthIn};
use super::predicate::UNSURE;
use super::suggest;
use crate::log::{CheckResult, Value};
use crate::units::Length;

/// An answer that does not fit its item, and what would.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AnswerError {
    /// The catalog has no such item.
    #[error("the walk has no item “{item}”{}", tail(.mend))]
    UnknownItem {
        /// What was written.
        item: String,
        /// The nearest item.
        mend: Option<String>,
    },
    /// Not one of the options.
    #[error("“{given}” is no answer to “{item}”{}; it can be: {}", tail(.mend), .known.join(", "))]
    UnknownOption {
        /// The item.
        item: String,
        /// What was written.
        given: String,
        /// The nearest option.
        mend: Option<String>,
        /// All options, in the order shown.
        known: Vec<String>,
    },
    /// Another kind of answer.
    #[error("“{item}” is answered with {wanted}")]
    WrongKind {
        /// The item.
        item: String,
        /// The kind it takes, with its unit.
        wanted: String,
    },
    /// Another unit.
    #[error("“{item}” is asked in {wanted}, not in “{given}”")]
    WrongUnit {
        /// The item.
        item: String,
        /// Unit written.
        given: String,
        /// Unit wanted.
        wanted: String,
    },
    /// Outside what is plausible.
    #[error("{given} is outside the range of “{item}”: {min} to {max}")]
    OutOfRange {
        /// The item.
        item: String,
        /// What was entered, with its unit.
        given: String,
        /// Least, with its unit.
        min: String,
        /// Most, with its unit.
        max: String,
    },
    /// An option that stands alone came with others.
    #[error("“{option}” of “{item}” stands alone; leave it out or the others")]
    StandsAlone {
        /// The item.
        item: String,
        /// The option.
        option: String,
    },
    /// No option at all.
    #[error("“{item}” needs at least one option, or “can't tell”")]
    Empty {
        /// The item.
        item: String,
    },
    /// A check result about something the catalog does not know.
    #[error("there is no {kind} “{given}”{}", tail(.mend))]
    UnknownReference {
        /// "check" or "condition".
        kind: &'static str,
        /// What was written.
        given: String,
        /// The nearest known.
        mend: Option<String>,
    },
}

fn tail(mend: &Option<String>) -> String {
    mend.as_ref().map(|word| format!("; did you mean “{word}”?")).unwrap_or_default()
}

impl Item {
    /// Checks kind, options and range. "Can't tell", "could not reach" and a withdrawal fit every item.
    pub fn check(&self, value: &Value) -> Result<(), AnswerError> {
        let item = || self.id.clone();
        match (&self.answer, value) {
            (_, Value::CantTell | Value::CouldNotReach(_) | Value::Withdrawn) => Ok(()),
            (AnswerKind::Choice { .. }, Value::Choice(option)) => self.check_option(option),
            (AnswerKind::Choices { alone, .. }, Value::Choices(options)) => {
                if options.is_empty() {
                    return Err(AnswerError::Empty { item: item() });
                }
                options.iter().try_for_each(|o| self.check_option(o))?;
                match options.iter().find(|o| alone.contains(o)) {
                    Some(option) if options.len() > 1 => {
                        Err(AnswerError::StandsAlone { item: item(), option: option.clone() })
                    }
                    _ => Ok(()),
                }
            }
            (AnswerKind::Length { unit, min, max, .. }, Value::Length(length)) => {
                if (*min..=*max).contains(length) {
                    return Ok(());
                }
                let text = |l: &Length| in_unit(*unit, *l);
                Err(AnswerError::OutOfRange {
                    item: item(),
                    given: text(length),
                    min: text(min),
                    max: text(max),
                })
            }
            (AnswerKind::Number { unit, min_milli, max_milli, .. }, Value::Number(number)) => {
                if number.unit != *unit {
                    let wanted = if unit.is_empty() { "a plain number".to_owned() } else { unit.clone() };
                    return Err(AnswerError::WrongUnit { item: item(), given: number.unit.clone(), wanted });
                }
                if (*min_milli..=*max_milli).contains(&number.milli) {
                    return Ok(());
                }
                let text = |milli: i64| crate::units::Quantity { milli, unit: unit.clone() }.to_string();
                let (min, max) = (text(*min_milli), text(*max_milli));
                Err(AnswerError::OutOfRange { item: item(), given: number.to_string(), min, max })
            }
            (AnswerKind::Checks, Value::Checks(_)) => Ok(()),
            _ => Err(AnswerError::WrongKind { item: item(), wanted: self.wanted() }),
        }
    }

    fn wanted(&self) -> String {
        match &self.answer {
            AnswerKind::Length { unit, .. } => format!("a length in {}", unit.words()),
            AnswerKind::Number { unit, .. } if !unit.is_empty() => format!("a number in {unit}"),
            kind => kind.words().to_owned(),
        }
    }

    fn check_option(&self, option: &str) -> Result<(), AnswerError> {
        let known: Vec<String> = self.answer.options().iter().map(|o| o.id.clone()).collect();
        if known.iter().any(|k| k == option) || UNSURE.contains(&option) {
            return Ok(());
        }
        let mend = suggest::nearest(option, known.iter().map(String::as_str)).map(str::to_owned);
        let given = option.chars().take(60).collect();
        Err(AnswerError::UnknownOption { item: self.id.clone(), given, mend, known })
    }
}

/// A length as a number of the item's unit, at most four decimals.
fn in_unit(unit: LengthIn, length: Length) -> String {
    let text = format!("{:.4}", unit.number(length));
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{text} {}", unit.symbol())
}

impl Catalog {
    /// Looks the item up and checks the answer, and the checks and conditions a check result names.
    pub fn check_answer(&self, item: &str, value: &Value) -> Result<&Item, AnswerError> {
        let Some(found) = self.item(item) else {
            let mend = suggest::nearest(item, self.items.iter().map(|i| i.id.as_str())).map(str::to_owned);
            return Err(AnswerError::UnknownItem { item: item.chars().take(60).collect(), mend });
        };
        found.check(value)?;
        if let Value::Checks(results) = value {
            results.iter().try_for_each(|r| self.check_result(r))?;
        }
        Ok(found)
    }

    fn check_result(&self, result: &CheckResult) -> Result<(), AnswerError> {
        if !self.checks.contains_key(&result.check) {
            let mend = suggest::nearest(&result.check, self.checks.keys().map(String::as_str));
            let (given, mend) = (result.check.clone(), mend.map(str::to_owned));
            return Err(AnswerError::UnknownReference { kind: "check", given, mend });
        }
        match result.conditions.iter().find(|c| self.condition_of(c).is_none()) {
            Some(id) => {
                let mend = suggest::nearest(id, self.conditions.iter().map(|c| c.id.as_str()));
                let (given, mend) = (id.clone(), mend.map(str::to_owned));
                Err(AnswerError::UnknownReference { kind: "condition", given, mend })
            }
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::builtin;
    use crate::log::CheckOutcome;
    use crate::units::Quantity;

    fn inches(x: f64) -> Value {
        Value::Length(Length::from_inches(x).unwrap())
    }
    fn several(options: &[&str]) -> Value {
        Value::choices(options.iter().map(|o| (*o).to_owned()).collect())
    }
    fn error(item: &str, value: Value) -> AnswerError {
        builtin().unwrap().check_answer(item, &value).unwrap_err()
    }

    #[test]
    fn answers_that_fit_pass() {
        let catalog = builtin().unwrap();
        for (item, value) in [
            ("sink-mount", Value::Choice("undermount".into())),
            ("sink-mount", Value::Choice("cant-tell".into())),
            ("sink-mount", Value::CantTell),
            ("stub-height", Value::CouldNotReach("cabinet full".into())),
            ("stub-height", inches(19.375)),
            ("gas-run-length", inches(46.0 * 12.0)),
            ("year-built", Value::Number(Quantity::parse("1926", "").unwrap())),
            ("bulkhead-scan", several(&["live-signal", "metal-signal"])),
        ] {
            assert!(catalog.check_answer(item, &value).is_ok(), "{item} {value:?}");
        }
    }

    #[test]
    fn an_unknown_option_lists_the_known_ones_and_the_nearest() {
        let text = error("sink-mount", Value::Choice("undermont".into())).to_string();
        assert!(text.contains("did you mean “undermount”?"), "{text}");
        assert!(text.contains("undermount, drop-in, apron-front, cant-tell"), "{text}");
    }

    #[test]
    fn out_of_range_says_the_range_in_the_unit_of_the_item() {
        let text = error("stub-height", inches(77.5)).to_string();
        assert_eq!(text, "77.5 in is outside the range of “stub-height”: 2 in to 30 in");
        let text = error("gas-run-length", inches(12.0)).to_string();
        assert_eq!(text, "1 ft is outside the range of “gas-run-length”: 3 ft to 300 ft");
        let text = error("static-psi", Value::Number(Quantity::parse("900", "psi").unwrap())).to_string();
        assert_eq!(text, "900 psi is outside the range of “static-psi”: 10 psi to 140 psi");
    }

    #[test]
    fn wrong_kinds_units_and_lone_options_are_refused() {
        assert_eq!(
            error("stub-height", several(&["yes"])).to_string(),
            "“stub-height” is answered with a length in inches"
        );
        assert!(matches!(error("sink-mount", inches(9.0)), AnswerError::WrongKind { .. }));
        let bar = Value::Number(Quantity { milli: 3_600, unit: "bar".into() });
        assert!(matches!(error("static-psi", bar), AnswerError::WrongUnit { .. }));
        assert!(matches!(
            error("old-tests", several(&["none", "lead-found"])),
            AnswerError::StandsAlone { .. }
        ));
        assert!(matches!(error("old-tests", several(&[])), AnswerError::Empty { .. }));
        let text = error("stub-hieght", Value::CantTell).to_string();
        assert!(text.ends_with("did you mean “stub-height”?"), "{text}");
    }

    #[test]
    fn a_check_result_must_name_known_checks_and_conditions() {
        let result = |check: &str, condition: &str| {
            Value::Checks(vec![CheckResult {
                check: check.into(),
                conditions: vec![condition.into()],
                result: CheckOutcome::ShowsIt,
            }])
        };
        assert!(builtin().unwrap().check_answer("check-result", &result("pinhole", "bulkhead-duct")).is_ok());
        assert!(error("check-result", result("pinhol", "bulkhead-duct")).to_string().contains("pinhole"));
        assert!(
            error("check-result", result("pinhole", "bulkhead-duk")).to_string().contains("bulkhead-duct")
        );
    }
}
