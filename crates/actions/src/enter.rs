//! From what a person entered to a value of the item's kind.

use survey::Key;
use survey::catalog::{AnswerError, AnswerKind, Catalog, Item, LengthIn, UNSURE};
use survey::log::{CheckOutcome, CheckResult, Value};
use survey::units::{Length, LengthStatus, LengthUnit, Quantity, parse_length};
use words::{Arg, Message, msg};

use crate::{Error, Kind, error_from};

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
    pub(crate) complaints: Vec<Arg>,
}

/// Longest words kept in one place.
const MOST_WORDS: usize = 4_000;

/// Words as they are kept: trimmed, not empty, without signs that steer a terminal or turn a line around.
pub(crate) fn words_of(what: Message, text: &str) -> Result<String, Error> {
    let text = text.trim();
    let steers = |c: char| survey::said::steers(c) && c != '\n';
    if text.is_empty() || text.chars().count() > MOST_WORDS || text.chars().any(steers) {
        return Err(Error::new(Kind::Input, msg!("error-words", what = what)).hint(msg!("error-words-hint")));
    }
    Ok(text.to_owned())
}

/// The same on one line of so many characters at most.
pub(crate) fn line_of(what: Message, text: &str, most: usize) -> Result<String, Error> {
    let text = words_of(what, text)?;
    if text.chars().count() > most || text.contains(['\n', '\t']) {
        return Err(
            Error::new(Kind::Input, msg!("error-name-long", most = most)).hint(msg!("error-name-long-hint"))
        );
    }
    Ok(text)
}

/// Tolerance taken when none is given: a tape read in a cabinet, ±1/8 in (common practice, no source).
const TAPE: Length = Length::from_sixty_fourths(8);
/// A reading less certain than ± 10 ft is none.
const WIDEST: Length = Length::from_sixty_fourths(64 * 120);

pub(crate) fn read(catalog: &Catalog, item: &Item, entered: &Entered) -> Result<Read, Error> {
    let mut complaints = Vec::new();
    if let Some(reason) = &entered.reason {
        words_of(msg!("the-reason"), reason)?;
    }
    let value = value(catalog, item, entered, &mut complaints)?;
    if let Err(fault) = item.check(&value) {
        let out_of_range = matches!(fault, AnswerError::OutOfRange { .. });
        let forgivable = entered.sure && out_of_range;
        if !forgivable {
            let error = Error::new(Kind::Input, error_from::answer(fault));
            return Err(if out_of_range { error.hint(msg!("error-out-of-range-hint")) } else { error });
        }
        complaints.push(msg!("complaint-kept", fault = error_from::answer(fault)).into());
    }
    let tolerance = tolerance(item, entered, &value)?;
    Ok(Read { value, tolerance, complaints })
}

fn value(
    catalog: &Catalog,
    item: &Item,
    entered: &Entered,
    complaints: &mut Vec<Arg>,
) -> Result<Value, Error> {
    if let Some(because) = &entered.could_not_reach {
        if because.trim().is_empty() {
            return Err(Error::new(Kind::Input, msg!("error-no-why", item = &item.id))
                .hint(msg!("error-no-why-hint")));
        }
        return Ok(Value::CouldNotReach(words_of(msg!("the-reason"), because)?));
    }
    let words: Vec<&str> = entered.answer.iter().map(|w| w.trim()).filter(|w| !w.is_empty()).collect();
    let Some(first) = words.first() else {
        return Err(Error::new(Kind::Input, msg!("error-no-answer", item = &item.id)).hint(asked(item)));
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
            _ => {
                let message = msg!("error-one-answer", item = &item.id, n = words.len());
                Err(Error::new(Kind::Input, message).hint(asked(item)))
            }
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
            .map_err(|e| about(item, error_from::quantity(e)).hint(asked(item))),
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
        let message = msg!("error-no-option", item = &item.id, word = word);
        Error::new(Kind::Input, message).hint(asked(item))
    })
}

/// What follows the sign of a length below zero, where one is taken.
pub(crate) fn below_zero(text: &str, signed: bool) -> Option<&str> {
    ["minus ", "-", "−"].iter().find_map(|sign| text.strip_prefix(sign)).filter(|_| signed)
}

/// Reads a length; where the item may lie below its plane, "-1/4" and "minus 1/4" are lengths too.
fn length(
    item: &Item,
    text: &str,
    unit: LengthIn,
    signed: bool,
    complaints: &mut Vec<Arg>,
) -> Result<Length, Error> {
    if let Some(magnitude) = below_zero(text, signed) {
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
            let message = match parsed.status {
                LengthStatus::Ambiguous => msg!("error-two-lengths", item = &item.id, text = text),
                _ => msg!("error-no-length", item = &item.id, text = text),
            };
            Err(Error::new(Kind::Input, message).hint(msg!("error-length-hint", note = parsed.note)))
        }
    }
}

/// Reads `CHECK RESULT CONDITION[,CONDITION…]`, conditions by their keys, RESULT being shows-it, shows-not or unclear.
fn check_result(catalog: &Catalog, item: &Item, text: &str) -> Result<CheckResult, Error> {
    let bad = |what: Message| about(item, what).hint(msg!("error-check-hint"));
    let parts: Vec<&str> = text.split_whitespace().collect();
    let [check, result, conditions] = parts.as_slice() else {
        return Err(bad(msg!("error-no-check-result", text = text)));
    };
    if !catalog.checks.contains_key(*check) {
        return Err(bad(msg!("error-no-check", check = *check)));
    }
    let result =
        CheckOutcome::of_word(result).ok_or_else(|| bad(msg!("error-no-outcome", word = *result)))?;
    let conditions = conditions
        .split(',')
        .map(|c| match catalog.condition_of(c) {
            Some(known) if known.checks.iter().any(|p| p.check == *check) => {
                Ok(catalog.key_of(c).unwrap_or_else(|| c.to_owned()))
            }
            Some(_) => Err(bad(msg!("error-check-silent", check = *check, condition = c))),
            None if catalog.condition(Key::parse(c).id).is_some() => {
                Err(bad(msg!("error-condition-once", condition = Key::parse(c).id)))
            }
            None => Err(bad(msg!("error-no-condition", condition = c))),
        })
        .collect::<Result<_, _>>()?;
    Ok(CheckResult { check: (*check).to_owned(), conditions, result })
}

fn tolerance(item: &Item, entered: &Entered, value: &Value) -> Result<Option<Length>, Error> {
    let Some(text) = entered.tolerance.as_deref() else {
        return Ok(matches!(value, Value::Length(_)).then_some(TAPE));
    };
    if !matches!(value, Value::Length(_)) {
        return Err(about(item, msg!("error-tolerance-of-length")));
    }
    match parse_length(without_plus_or_minus(text), LengthUnit::Inch)
        .length
        .filter(|t| *t > Length::ZERO && *t <= WIDEST)
    {
        Some(tolerance) => Ok(Some(tolerance)),
        None => {
            Err(about(item, msg!("error-no-tolerance", text = text)).hint(msg!("error-no-tolerance-hint")))
        }
    }
}

/// A tolerance without its sign: "±1/8", "+/- 1/8" and "1/8" are one.
pub(crate) fn without_plus_or_minus(text: &str) -> &str {
    text.trim().trim_start_matches(['±', '+']).trim_start_matches("/-").trim()
}

/// An error about one item.
fn about(item: &Item, what: Message) -> Error {
    Error::new(Kind::Input, msg!("error-about-item", item = &item.id, what = what))
}

/// What the item asks for, in one line.
pub(crate) fn asked(item: &Item) -> Message {
    let ids = || item.answer.options().iter().map(|o| o.id.as_str()).collect::<Vec<_>>();
    match &item.answer {
        AnswerKind::Choice { .. } => msg!("takes-option", options = ids()),
        AnswerKind::Choices { .. } => msg!("takes-options", options = ids()),
        AnswerKind::Length { unit: LengthIn::Inch, .. } => msg!("takes-inches"),
        AnswerKind::Length { unit: LengthIn::Foot, .. } => msg!("takes-feet"),
        AnswerKind::Number { unit, .. } if unit.is_empty() => msg!("takes-number"),
        AnswerKind::Number { unit, .. } => msg!("takes-number-unit", unit = unit),
        AnswerKind::Checks => msg!("takes-checks"),
    }
}
