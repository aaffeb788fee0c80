//! From what a person entered to a value of the item's kind.

use survey::Key;
use survey::catalog::{AnswerError, AnswerKind, Catalog, Item, LengthIn, UNSURE};
use survey::log::{CheckOutcome, CheckResult, Value};
use survey::units::{Length, LengthStatus, LengthUnit, Quantity, parse_length};

use crate::{Error, Kind};

/// An answer as it was entered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entered {
    /// One or several words: option ids or labels, a length, a number with unit, `CHECK RESULT CONDITION`.
    pub answer: Vec<String>,
    /// Could not be reached, because of this.
    pub could_not_reach: Option<String>,
    /// Tolerance of a length: ± this.
    pub tolerance: Option<String>,
    /// Why an earlier answer is corrected, or a remark.
    pub reason: Option<String>,
    /// True when a value outside the plausible range is meant.
    pub sure: bool,
}

/// A value read from what was entered.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Read {
    pub(crate) value: Value,
    pub(crate) tolerance: Option<Length>,
    /// What to look at again although it was taken.
    pub(crate) complaints: Vec<String>,
}

/// Longest words kept in one place.
const MOST_WORDS: usize = 4_000;

/// Words as they are kept: trimmed, not empty, without signs that steer a terminal or turn a line around.
pub(crate) fn words_of(what: &str, text: &str) -> Result<String, Error> {
    let text = text.trim();
    let turns =
        |c: char| matches!(c, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
    let steers = |c: char| (c.is_control() && c != '\n') || turns(c);
    if text.is_empty() || text.chars().count() > MOST_WORDS || text.chars().any(steers) {
        return Err(Error::new(Kind::Input, format!("{what} cannot be kept as it is"))
            .hint("use 1 to 4,000 letters, figures and signs without control characters"));
    }
    Ok(text.to_owned())
}

/// Tolerance taken when none is given: a tape read in a cabinet, ±1/8 in (common practice, no source).
const TAPE: Length = Length::from_sixty_fourths(8);
/// A reading less certain than ± 10 ft is none.
const WIDEST: Length = Length::from_sixty_fourths(64 * 120);

pub(crate) fn read(catalog: &Catalog, item: &Item, entered: &Entered) -> Result<Read, Error> {
    let mut complaints = Vec::new();
    if let Some(reason) = &entered.reason {
        words_of("the reason", reason)?;
    }
    let value = value(catalog, item, entered, &mut complaints)?;
    if let Err(fault) = item.check(&value) {
        let out_of_range = matches!(fault, AnswerError::OutOfRange { .. });
        let forgivable = entered.sure && out_of_range;
        if !forgivable {
            let mut error = Error::new(Kind::Input, fault.to_string());
            if out_of_range {
                error = error
                    .hint("measure again; if it really is so, record it once more and say that you are sure");
            }
            return Err(error);
        }
        complaints.push(format!("{fault}; kept because you are sure"));
    }
    let tolerance = tolerance(item, entered, &value)?;
    Ok(Read { value, tolerance, complaints })
}

fn value(
    catalog: &Catalog,
    item: &Item,
    entered: &Entered,
    complaints: &mut Vec<String>,
) -> Result<Value, Error> {
    if let Some(because) = &entered.could_not_reach {
        if because.trim().is_empty() {
            return Err(Error::new(Kind::Input, format!("{}: say why it could not be reached", item.id))
                .hint("for example “panel behind the freezer”"));
        }
        return Ok(Value::CouldNotReach(words_of("the reason", because)?));
    }
    let words: Vec<&str> = entered.answer.iter().map(|w| w.trim()).filter(|w| !w.is_empty()).collect();
    let Some(first) = words.first() else {
        return Err(Error::new(Kind::Input, format!("{}: there is no answer", item.id)).hint(asked(item)));
    };
    let unsure = |w: &str| {
        UNSURE.contains(&w)
            || matches!(w.to_lowercase().as_str(), "can't tell" | "can’t tell" | "cant tell" | "can't see")
    };
    if words.len() == 1 && unsure(first) {
        return Ok(Value::CantTell);
    }
    let one = || -> Result<&str, Error> {
        match words.as_slice() {
            [only] => Ok(only),
            _ => Err(Error::new(
                Kind::Input,
                format!("{} takes one answer, {} were given", item.id, words.len()),
            )
            .hint(asked(item))),
        }
    };
    match &item.answer {
        AnswerKind::Choice { .. } => Ok(Value::Choice(option(item, one()?)?)),
        AnswerKind::Choices { .. } => {
            Ok(Value::choices(words.iter().map(|w| option(item, w)).collect::<Result<_, _>>()?))
        }
        AnswerKind::Length { unit, min, .. } => {
            length(item, one()?, *unit, *min < Length::ZERO, complaints).map(Value::Length)
        }
        AnswerKind::Number { unit, .. } => Quantity::parse(one()?, unit)
            .map(Value::Number)
            .map_err(|e| Error::new(Kind::Input, format!("{}: {e}", item.id)).hint(asked(item))),
        AnswerKind::Checks => {
            words.iter().map(|w| check_result(catalog, item, w)).collect::<Result<_, _>>().map(Value::Checks)
        }
    }
}

fn option(item: &Item, word: &str) -> Result<String, Error> {
    let options = item.answer.options();
    let found = options.iter().find(|o| o.id == word).or_else(|| {
        let mut same = options.iter().filter(|o| o.label.eq_ignore_ascii_case(word));
        same.next().filter(|_| same.next().is_none())
    });
    found.map(|o| o.id.clone()).ok_or_else(|| {
        Error::new(Kind::Input, format!("{}: “{word}” is none of its answers", item.id)).hint(asked(item))
    })
}

/// Reads a length; where the item may lie below its plane, "-1/4" and "minus 1/4" are lengths too.
fn length(
    item: &Item,
    text: &str,
    unit: LengthIn,
    signed: bool,
    complaints: &mut Vec<String>,
) -> Result<Length, Error> {
    let below = ["minus ", "-", "−"].iter().find_map(|sign| text.strip_prefix(sign)).filter(|_| signed);
    if let Some(magnitude) = below {
        return length(item, magnitude.trim(), unit, false, complaints).map(std::ops::Neg::neg);
    }
    let default = match unit {
        LengthIn::Inch => LengthUnit::Inch,
        LengthIn::Foot => LengthUnit::Foot,
    };
    let parsed = parse_length(text, default);
    match (parsed.status, parsed.length) {
        (LengthStatus::Ok, Some(length)) => Ok(length),
        (LengthStatus::Warn, Some(length)) => {
            complaints.push(parsed.note);
            Ok(length)
        }
        _ => {
            let why = if parsed.status == LengthStatus::Ambiguous {
                "can mean two lengths"
            } else {
                "is no length"
            };
            Err(Error::new(Kind::Input, format!("{}: “{text}” {why}", item.id)).hint(parsed.note))
        }
    }
}

/// Reads `CHECK RESULT CONDITION[,CONDITION…]`, conditions by their keys, RESULT being shows-it, shows-not or unclear.
fn check_result(catalog: &Catalog, item: &Item, text: &str) -> Result<CheckResult, Error> {
    let bad = |what: String| {
        Error::new(Kind::Input, format!("{}: {what}", item.id)).hint(
            "write the check, what it showed and the condition, like “live-scan shows-it bulkhead-wires”; \
             what it showed is shows-it, shows-not or unclear",
        )
    };
    let parts: Vec<&str> = text.split_whitespace().collect();
    let [check, result, conditions] = parts.as_slice() else {
        return Err(bad(format!("“{text}” is no check result")));
    };
    if !catalog.checks.contains_key(*check) {
        return Err(bad(format!("“{check}” is no check of the catalog")));
    }
    let result = match *result {
        "shows-it" => CheckOutcome::ShowsIt,
        "shows-not" => CheckOutcome::ShowsNot,
        "unclear" => CheckOutcome::Unclear,
        other => return Err(bad(format!("“{other}” is no outcome of a check"))),
    };
    let conditions = conditions
        .split(',')
        .map(|c| match catalog.condition_of(c) {
            Some(known) if known.checks.iter().any(|p| p.check == *check) => {
                Ok(catalog.key_of(c).unwrap_or_else(|| c.to_owned()))
            }
            Some(_) => Err(bad(format!("the check “{check}” says nothing about “{c}”"))),
            None if catalog.condition(Key::parse(c).id).is_some() => {
                Err(bad(format!("a house has “{}” once, without a place", Key::parse(c).id)))
            }
            None => Err(bad(format!("“{c}” is no condition of the catalog"))),
        })
        .collect::<Result<_, _>>()?;
    Ok(CheckResult { check: (*check).to_owned(), conditions, result })
}

fn tolerance(item: &Item, entered: &Entered, value: &Value) -> Result<Option<Length>, Error> {
    let Some(text) = entered.tolerance.as_deref() else {
        return Ok(matches!(value, Value::Length(_)).then_some(TAPE));
    };
    if !matches!(value, Value::Length(_)) {
        return Err(Error::new(Kind::Input, format!("{}: only a length has a tolerance", item.id)));
    }
    let digits = text.trim().trim_start_matches(['±', '+']).trim_start_matches("/-").trim();
    match parse_length(digits, LengthUnit::Inch).length.filter(|t| *t > Length::ZERO && *t <= WIDEST) {
        Some(tolerance) => Ok(Some(tolerance)),
        None => Err(Error::new(Kind::Input, format!("{}: “{text}” is no tolerance", item.id))
            .hint("write ± as a length, like 1/8 in")),
    }
}

/// What the item asks for, in one line.
pub(crate) fn asked(item: &Item) -> String {
    match &item.answer {
        AnswerKind::Choice { options } | AnswerKind::Choices { options, .. } => {
            let ids: Vec<&str> = options.iter().map(|o| o.id.as_str()).collect();
            format!("it takes {}: {}", item.answer.words(), ids.join(", "))
        }
        AnswerKind::Length { unit, .. } => {
            format!("it takes a length, like 19 3/8 or 492 mm (a bare number is in {})", unit.symbol())
        }
        AnswerKind::Number { unit, .. } if unit.is_empty() => "it takes a plain number".to_owned(),
        AnswerKind::Number { unit, .. } => format!("it takes a number in {unit}"),
        AnswerKind::Checks => "it takes check results, like “live-scan shows-it bulkhead-wires”".to_owned(),
    }
}
