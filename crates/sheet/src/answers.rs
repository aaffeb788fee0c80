//! The answers that come back: a small JSON file, read strictly.
//!
//! Every field is known or the file is refused; nothing in it is taken for more than words until it fits the catalog.
//! A file made from another catalog gives what still fits, item by item, and a list of what does not.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};
use survey::catalog::{AnswerError, AnswerKind, Catalog, UNSURE};
use survey::log::Value;
use survey::units::{Quantity, QuantityError};
use survey::{Digest, SurveyId};

use crate::form::on_a_sheet;
use crate::questions::{MOST_NAME, MOST_WORDS};

/// What the file calls itself.
pub const FORM: &str = "underlath household answers";
/// Version of its form.
pub const VERSION: u32 = 1;
/// Largest file read, in bytes: a full sheet has some 20 thousand.
pub const MOST_BYTES: usize = 256 * 1024;

/// The file as it is written.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct AnswersFile {
    /// [`FORM`].
    pub form: String,
    /// [`VERSION`].
    pub v: u32,
    /// The house.
    pub survey: SurveyId,
    /// The catalog the sheet was made from.
    pub catalog: Digest,
    /// Language of the sheet.
    pub language: String,
    /// Day it was filled in, as 2026-04-10, by the clock of the household's device.
    pub filled_on: Option<String>,
    /// Who filled it in, if they said.
    pub filled_by: Option<String>,
    /// The answers, in the order of the sheet.
    pub answers: Vec<Answered>,
    /// What else they wrote.
    pub remark: Option<String>,
}

/// One answer of the file.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answered {
    /// Item of the catalog.
    pub item: String,
    /// What was ticked or entered; none where only words were written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub is: Option<Given>,
    /// The household's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub words: Option<String>,
}

/// What was ticked or entered.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Given {
    /// One option.
    Choice(String),
    /// Options.
    Choices(Vec<String>),
    /// A number as it was typed.
    Number(String),
    /// "We are not sure".
    Unsure,
}

/// A file of answers that cannot be taken, and how to mend it.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
pub enum AnswersError {
    /// Too large to be one.
    #[error("the file has {0} bytes, more than a sheet's answers ever have")]
    TooLarge(usize),
    /// Not JSON of this form.
    #[error("the file cannot be read as answers to a sheet: {0}")]
    Unreadable(String),
    /// Of another kind.
    #[error("the file does not hold answers to a sheet")]
    NotAnswers,
    /// Of a version this program does not know.
    #[error("the file has form {found}; this program reads form {known}: use a newer program")]
    Newer {
        /// Version found.
        found: u64,
        /// Version known.
        known: u32,
    },
    /// For another house.
    #[error("these answers are for survey {0}, another house")]
    OtherHouse(SurveyId),
    /// An item comes twice.
    #[error("“{0}” is answered twice in the file")]
    Twice(String),
    /// An item that is on no sheet.
    #[error("“{0}” is not asked on a sheet")]
    NotAsked(String),
    /// Something that does not fit its item.
    #[error(transparent)]
    Misfit(#[from] AnswerError),
    /// A number that cannot be read.
    #[error("{item}: {fault}")]
    Number {
        /// The item.
        item: String,
        /// What is wrong.
        fault: QuantityError,
    },
    /// Words that cannot be kept.
    #[error(
        "the words at {place} cannot be kept: at most {most} letters, figures and signs, none that steer a screen"
    )]
    Words {
        /// Where they stand in the file.
        place: String,
        /// Most characters.
        most: usize,
    },
    /// No day.
    #[error("“{0}” is no day; a sheet writes it like 2026-04-10")]
    Day(String),
    /// Nothing in it.
    #[error("the file holds no answers")]
    Empty,
}

/// Answers that fit the catalog.
#[derive(Clone, PartialEq, Debug)]
pub struct Fitted {
    /// Answers, in the order of the file.
    pub answers: Vec<Fit>,
    /// Answers made from another catalog that do not fit this one.
    pub left_out: Vec<LeftOut>,
    /// Who filled it in, if they said.
    pub filled_by: Option<String>,
    /// The day, if it says one.
    pub filled_on: Option<String>,
    /// What else they wrote.
    pub remark: Option<String>,
    /// True when the sheet was made from this very catalog.
    pub same_catalog: bool,
}

/// One answer that fits.
#[derive(Clone, PartialEq, Debug)]
pub struct Fit {
    /// The item.
    pub item: String,
    /// Its station.
    pub station: String,
    /// The value; none where only words were written.
    pub value: Option<Value>,
    /// The answer as it was given.
    pub entered: String,
    /// The household's own words.
    pub words: Option<String>,
}

/// One answer that does not fit.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LeftOut {
    /// The item, as the file names it.
    pub item: String,
    /// What was answered, as the file has it.
    pub said: String,
    /// Why it does not fit.
    pub why: AnswersError,
}

/// Reads a file of answers for a house.
///
/// # Errors
/// What is wrong, in words. Where the catalog is the sheet's own, one answer that does not fit refuses the file, for
/// the sheet cannot have made it.
pub fn read(bytes: &[u8], catalog: &Catalog, survey: SurveyId) -> Result<Fitted, AnswersError> {
    let file = parse(bytes)?;
    if file.survey != survey {
        return Err(AnswersError::OtherHouse(file.survey));
    }
    let same_catalog = file.catalog == catalog.digest;
    let mut fitted = Fitted {
        answers: Vec::new(),
        left_out: Vec::new(),
        filled_by: kept("filled-by", file.filled_by.as_deref(), MOST_NAME)?,
        filled_on: file.filled_on.map(day).transpose()?,
        remark: words("remark", file.remark.as_deref())?,
        same_catalog,
    };
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    for answered in &file.answers {
        if !seen.insert(&answered.item) {
            return Err(AnswersError::Twice(short(&answered.item)));
        }
        let own = words(&short(&answered.item), answered.words.as_deref())?;
        match fit(answered, own, catalog) {
            Ok(Some(fit)) => fitted.answers.push(fit),
            Ok(None) => {}
            Err(misfit) if !same_catalog => {
                let left_out = LeftOut {
                    item: short(&answered.item),
                    said: answered.is.as_ref().map(given_words).unwrap_or_default(),
                    why: misfit,
                };
                fitted.left_out.push(left_out);
            }
            Err(misfit) => return Err(misfit),
        }
    }
    if fitted.answers.is_empty() && fitted.left_out.is_empty() && fitted.remark.is_none() {
        return Err(AnswersError::Empty);
    }
    Ok(fitted)
}

fn parse(bytes: &[u8]) -> Result<AnswersFile, AnswersError> {
    #[derive(Deserialize)]
    struct Head {
        form: String,
        v: u64,
    }
    if bytes.len() > MOST_BYTES {
        return Err(AnswersError::TooLarge(bytes.len()));
    }
    let unreadable = |e: serde_json::Error| AnswersError::Unreadable(short(&e.to_string()));
    // A byte order mark is what some mail programs put before a text.
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    let head: Head = match serde_json::from_slice(bytes) {
        Ok(head) => head,
        Err(e) if e.is_data() => return Err(AnswersError::NotAnswers),
        Err(e) => return Err(unreadable(e)),
    };
    if head.form != FORM {
        return Err(AnswersError::NotAnswers);
    }
    if head.v != u64::from(VERSION) {
        return Err(AnswersError::Newer { found: head.v, known: VERSION });
    }
    serde_json::from_slice(bytes).map_err(unreadable)
}

/// One answer held against its item; none where nothing was given.
fn fit(answered: &Answered, words: Option<String>, catalog: &Catalog) -> Result<Option<Fit>, AnswersError> {
    let item = &answered.item;
    let Some(found) = catalog.item(item) else {
        // Its error names the nearest item.
        catalog.check_answer(item, &Value::CantTell)?;
        return Err(AnswersError::NotAsked(short(item)));
    };
    if !on_a_sheet(catalog, found) {
        return Err(AnswersError::NotAsked(short(item)));
    }
    let value = match &answered.is {
        None => None,
        Some(Given::Unsure) => Some(Value::CantTell),
        Some(Given::Choice(option)) if UNSURE.contains(&option.as_str()) => Some(Value::CantTell),
        Some(Given::Choice(option)) => Some(Value::Choice(option.clone())),
        Some(Given::Choices(options)) => Some(Value::choices(options.clone())),
        Some(Given::Number(typed)) => {
            let AnswerKind::Number { unit, .. } = &found.answer else {
                // Its error says what the item takes.
                catalog.check_answer(item, &Value::Text(String::new()))?;
                return Ok(None);
            };
            let number = Quantity::parse(typed, unit);
            Some(Value::Number(number.map_err(|fault| AnswersError::Number { item: short(item), fault })?))
        }
    };
    if let Some(value) = &value {
        catalog.check_answer(item, value)?;
    }
    if value.is_none() && words.is_none() {
        return Ok(None);
    }
    let entered = answered.is.as_ref().map(given_words).unwrap_or_default();
    Ok(Some(Fit { item: item.clone(), station: found.station.clone(), value, entered, words }))
}

fn given_words(given: &Given) -> String {
    match given {
        Given::Choice(option) => short(option),
        Given::Choices(options) => {
            let options: Vec<String> = options.iter().take(40).map(|o| short(o)).collect();
            options.join(", ")
        }
        Given::Number(typed) => short(typed),
        Given::Unsure => "we are not sure".to_owned(),
    }
}

/// What a file says, cut so that it fits a line, without signs that steer a screen.
fn short(text: &str) -> String {
    text.chars().take(80).map(|c| if steers(c) { '\u{FFFD}' } else { c }).collect()
}

/// Control characters, and signs that turn a line around or hide in it.
fn steers(c: char) -> bool {
    survey::said::steers(c) || matches!(c, '\u{2060}'..='\u{2065}' | '\u{FEFF}')
}

/// Words as they are kept: trimmed, line ends as spaces; nothing where nothing was written.
///
/// # Errors
/// Too long, or with signs that steer a screen.
pub fn words(place: &str, text: Option<&str>) -> Result<Option<String>, AnswersError> {
    kept(place, text, MOST_WORDS)
}

fn kept(place: &str, text: Option<&str>, most: usize) -> Result<Option<String>, AnswersError> {
    let joined = text.unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ");
    if joined.chars().count() > most || joined.chars().any(steers) {
        return Err(AnswersError::Words { place: place.to_owned(), most });
    }
    Ok(Some(joined).filter(|j| !j.is_empty()))
}

/// A day written as 2026-04-10. Whether that day was ever is of no consequence.
fn day(text: String) -> Result<String, AnswersError> {
    let shape = |(at, c): (usize, char)| if at == 4 || at == 7 { c == '-' } else { c.is_ascii_digit() };
    if text.chars().count() == 10 && text.chars().enumerate().all(shape) {
        Ok(text)
    } else {
        Err(AnswersError::Day(short(&text)))
    }
}

#[cfg(test)]
mod tests;
