//! What a calculation asks for, and what somebody gave: one description for a command line, a screen and a page.

use alloc::{borrow::ToOwned, format, string::String, vec::Vec};

use survey::said::{has_words, slug};
use survey::units::{Length, LengthStatus, LengthUnit, inches_16, parse_length};
use survey::{Phrase, Said, say};

use crate::cite::{figure, with_unit};
use crate::error::TradeError;
use crate::number::show_number;
use crate::sheet::Assumed;
use crate::tolerance::Reading;
use crate::written;

/// What kind of answer a field takes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Kind {
    /// A length or height with its range in inches; a bare number is inches (feet where `feet`). "18 ± 1/8" states
    /// its tolerance.
    Length {
        /// Least, inches.
        min: f64,
        /// Most, inches.
        max: f64,
        /// A bare number is feet.
        feet: bool,
    },
    /// A number of some unit with its range.
    Number {
        /// Symbol shown; empty for a count.
        unit: &'static str,
        /// Least.
        min: f64,
        /// Most.
        max: f64,
    },
    /// One of some words.
    Word(&'static [&'static str]),
    /// Yes or no.
    YesNo,
    /// Words on one line.
    Text,
    /// Several rows; in a row the columns stand in order, separated by commas.
    Rows(&'static [Field]),
}

/// Whether a field must be answered.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Need {
    /// Without it nothing can be said.
    Must,
    /// It may be left out.
    May,
    /// Left out, this is taken and said to be assumed.
    Else(&'static str),
}

/// One thing asked.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Field {
    /// Name: lower-case words joined by hyphens.
    pub name: &'static str,
    /// The question.
    pub ask: Phrase,
    /// Kind of answer.
    pub kind: Kind,
    /// Whether it must be answered.
    pub need: Need,
}

impl Field {
    /// A field that must be answered.
    pub const fn must(name: &'static str, ask: Phrase, kind: Kind) -> Self {
        Self { name, ask, kind, need: Need::Must }
    }
    /// A field that may be left out.
    pub const fn may(name: &'static str, ask: Phrase, kind: Kind) -> Self {
        Self { name, ask, kind, need: Need::May }
    }
    /// A field with a default, which is shown as assumed.
    pub const fn or(name: &'static str, ask: Phrase, kind: Kind, default: &'static str) -> Self {
        Self { name, ask, kind, need: Need::Else(default) }
    }
    /// What may be written, in words.
    pub fn takes(&self) -> Said {
        match self.kind {
            Kind::Length { min, max, feet: false } => {
                say!("trade-takes-inches", min = show_number(min), max = show_number(max))
            }
            Kind::Length { min, max, feet: true } => {
                say!("trade-takes-feet", min = show_number(min / 12.0), max = show_number(max / 12.0))
            }
            Kind::Number { unit, min, max } => {
                say!("trade-takes-number", min = show_number(min), max = with_unit(max, unit))
            }
            Kind::Word(words) => words.join(", ").into(),
            Kind::YesNo => say!("trade-takes-yes-no"),
            Kind::Text => say!("trade-takes-words"),
            Kind::Rows(columns) => {
                let names: Vec<&str> = columns.iter().map(|c| c.name).collect();
                say!("trade-takes-rows", names = names.join(", "))
            }
        }
    }
}

#[derive(Clone, PartialEq, Debug)]
enum Entry {
    Length(Reading),
    Number(f64),
    Word(&'static str),
    YesNo(bool),
    Text(String),
    Rows(Vec<Given>),
}

/// Answers to the fields of one calculation, read and within their ranges.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Given {
    entries: Vec<(&'static str, Entry)>,
    assumed: Vec<Assumed>,
}

/// Inches by which a length may pass its range: a range is a float, a length is not.
const HAIR: f64 = 1e-6;

/// Texts that mean "nobody knows".
const UNKNOWN: [&str; 8] =
    ["", "can't tell", "can’t tell", "cant tell", "cant-tell", "don't know", "don’t know", "unknown"];

/// Most rows taken for one field: more than a house has of anything, and soon worked out.
const MOST_ROWS: usize = 200;

impl Given {
    /// Reads written answers. What was left out takes its default, which is noted; a missing one that must be there
    /// is left absent for the calculation to say so.
    ///
    /// # Errors
    /// An unknown name, a name given twice, an unreadable or out-of-range answer: which, what and how to write it.
    pub fn read(fields: &'static [Field], answers: &[(String, String)]) -> Result<Self, TradeError> {
        let mut given = Self::default();
        for (name, _) in answers {
            if !fields.iter().any(|f| f.name == name) {
                let known: Vec<&str> = fields.iter().map(|f| f.name).collect();
                return Err(TradeError::NoField { name: short(name), known: known.join(", ") });
            }
        }
        for field in fields {
            let written: Vec<&str> =
                answers.iter().filter(|(n, _)| n == field.name).map(|(_, text)| text.as_str()).collect();
            if let Kind::Rows(columns) = field.kind {
                if written.len() > MOST_ROWS {
                    return Err(field_error(field.name, "", say!("trade-most-rows", most = MOST_ROWS)));
                }
                let mut rows = Vec::new();
                for (at, text) in written.iter().filter(|t| !t.trim().is_empty()).enumerate() {
                    rows.push(read_row(field, columns, text, at + 1)?);
                }
                if !rows.is_empty() {
                    given.entries.push((field.name, Entry::Rows(rows)));
                }
                continue;
            }
            let text = match written.as_slice() {
                [] => None,
                [one] => Some(one.trim()).filter(|t| !UNKNOWN.contains(&t.to_lowercase().as_str())),
                _ => return Err(field_error(field.name, "", Phrase("trade-given-twice"))),
            };
            match (text, field.need) {
                (Some(text), _) => given.entries.push((field.name, read_one(field, text)?)),
                (None, Need::Else(default)) => {
                    given.entries.push((field.name, read_one(field, default)?));
                    given.assumed.push(Assumed::new(spoken(field.name), choice(default)));
                }
                (None, _) => {}
            }
        }
        Ok(given)
    }
    /// The same with lengths that are known exactly and need no reading.
    ///
    /// # Errors
    /// As [`Self::read`]; a length outside its range.
    pub fn read_with(
        fields: &'static [Field],
        answers: &[(String, String)],
        lengths: &[(&str, Reading)],
    ) -> Result<Self, TradeError> {
        let mut given = Self::read(fields, answers)?;
        for (name, reading) in lengths {
            let Some(field) = fields.iter().find(|f| f.name == *name) else {
                let known: Vec<&str> = fields.iter().map(|f| f.name).collect();
                return Err(TradeError::NoField { name: short(name), known: known.join(", ") });
            };
            let Kind::Length { min, max, .. } = field.kind else {
                return Err(field_error(field.name, "", Phrase("trade-takes-no-length")));
            };
            let inches = reading.inches();
            if inches < min - HAIR || inches > max + HAIR {
                let note = say!("trade-write", takes = field.takes());
                return Err(field_error(field.name, &show_inches(inches), note));
            }
            given.entries.retain(|(n, _)| *n != field.name);
            given.assumed.retain(|a| a.item != spoken(field.name));
            given.entries.push((field.name, Entry::Length(*reading)));
        }
        Ok(given)
    }
    /// Names of fields that must be answered and were not, in words.
    pub fn missing(&self, fields: &[Field]) -> Vec<Said> {
        let absent = |f: &&Field| f.need == Need::Must && self.entry(f.name).is_none();
        fields.iter().filter(absent).map(|f| spoken(f.name)).collect()
    }
    /// Defaults taken.
    pub fn assumed(&self) -> &[Assumed] {
        &self.assumed
    }
    /// Whether a field was answered or took its default.
    pub fn has(&self, name: &str) -> bool {
        self.entry(name).is_some()
    }
    fn entry(&self, name: &str) -> Option<&Entry> {
        self.entries.iter().find(|(n, _)| *n == name).map(|(_, e)| e)
    }
    /// A length with its tolerance.
    pub fn length(&self, name: &str) -> Option<Reading> {
        match self.entry(name) {
            Some(Entry::Length(reading)) => Some(*reading),
            _ => None,
        }
    }
    /// A number.
    pub fn number(&self, name: &str) -> Option<f64> {
        match self.entry(name) {
            Some(Entry::Number(n)) => Some(*n),
            _ => None,
        }
    }
    /// A word.
    pub fn word(&self, name: &str) -> Option<&'static str> {
        match self.entry(name) {
            Some(Entry::Word(w)) => Some(w),
            _ => None,
        }
    }
    /// Yes or no.
    pub fn yes(&self, name: &str) -> Option<bool> {
        match self.entry(name) {
            Some(Entry::YesNo(b)) => Some(*b),
            _ => None,
        }
    }
    /// Words.
    pub fn text(&self, name: &str) -> Option<&str> {
        match self.entry(name) {
            Some(Entry::Text(t)) => Some(t),
            _ => None,
        }
    }
    /// Rows; empty if none were given.
    pub fn rows(&self, name: &str) -> &[Self] {
        match self.entry(name) {
            Some(Entry::Rows(rows)) => rows,
            _ => &[],
        }
    }
}

/// A field's name as spoken.
pub fn spoken(name: &str) -> Said {
    Said::by_id(format!("field-{name}"))
}

/// One of the words a field takes, as spoken; what holds no word stays as it is written.
pub fn choice(word: &str) -> Said {
    match word.split_once(' ') {
        // A number with its unit.
        Some((number, unit)) if number.parse::<f64>().is_ok() => figure(number.to_owned(), unit),
        _ if has_words(word) => Said::by_id(format!("choice-{}", slug(word))),
        _ => word.into(),
    }
}

fn short(text: &str) -> String {
    text.chars().take(60).collect()
}

fn field_error(field: &str, text: &str, note: impl Into<Said>) -> TradeError {
    TradeError::BadField { field: field.to_owned(), text: short(text), note: note.into() }
}

fn read_row(field: &Field, columns: &'static [Field], text: &str, at: usize) -> Result<Given, TradeError> {
    let cells: Vec<&str> = text.split(',').map(str::trim).collect();
    let name = format!("{} {at}", field.name);
    if cells.len() > columns.len() {
        let names: Vec<&str> = columns.iter().map(|c| c.name).collect();
        return Err(field_error(&name, text, say!("trade-too-many-columns", names = names.join(", "))));
    }
    let answers: Vec<(String, String)> =
        columns.iter().zip(&cells).map(|(c, cell)| (c.name.to_owned(), (*cell).to_owned())).collect();
    let row = Given::read(columns, &answers).map_err(|e| match e {
        TradeError::BadField { field, text, note } => {
            TradeError::BadField { field: format!("{name}, {field}"), text, note }
        }
        other => other,
    })?;
    let missing = row.missing(columns);
    match missing.first() {
        None => Ok(row),
        Some(first) => Err(field_error(&name, text, say!("trade-is-missing", what = first))),
    }
}

fn read_one(field: &Field, text: &str) -> Result<Entry, TradeError> {
    let bad = |note: Said| field_error(field.name, text, note);
    let takes = || say!("trade-write", takes = field.takes());
    match field.kind {
        Kind::Length { min, max, feet } => {
            let unit = if feet { LengthUnit::Foot } else { LengthUnit::Inch };
            let cut = ["±", "+/-", "+-"].into_iter().find_map(|sign| text.split_once(sign));
            let (written, tolerance) = cut.map_or((text, None), |(value, t)| (value, Some(t)));
            let value = one_length(written, unit).map_err(bad)?;
            // A bare tolerance is in the unit its length ends with, else in the one the field is asked in.
            let unit = written::last_unit(written).unwrap_or(unit);
            let tolerance = tolerance.map(|t| one_length(t, unit)).transpose();
            let tolerance = tolerance.map_err(bad)?;
            if value.inches() < min - HAIR || value.inches() > max + HAIR {
                return Err(bad(takes()));
            }
            if tolerance.is_some_and(|t: Length| t.abs().inches() > max - min) {
                return Err(bad(say!("trade-tolerance-too-wide")));
            }
            Ok(Entry::Length(Reading { value, tolerance }))
        }
        Kind::Number { unit, min, max } => {
            let (bare, times) = written::without_unit(text, unit);
            let bare = written::without_thousands(bare).ok_or_else(|| bad(say!("trade-no-comma")))?;
            let number = times * written::number_of(&bare).ok_or_else(|| bad(takes()))?;
            if !number.is_finite() || number < min || number > max {
                return Err(bad(takes()));
            }
            Ok(Entry::Number(number))
        }
        Kind::Word(words) => {
            let found = words.iter().find(|w| written::same_word(w, text));
            found
                .map(|w| Entry::Word(w))
                .ok_or_else(|| bad(say!("trade-known-are", words = words.join(", "))))
        }
        Kind::YesNo => match text.to_lowercase().as_str() {
            "yes" | "y" | "sí" | "si" | "s" => Ok(Entry::YesNo(true)),
            "no" | "n" => Ok(Entry::YesNo(false)),
            _ => Err(bad(say!("trade-answer-yes-or-no"))),
        },
        Kind::Text => {
            if text.chars().count() > 200 || text.chars().any(char::is_control) {
                return Err(bad(say!("trade-one-line")));
            }
            Ok(Entry::Text(text.to_owned()))
        }
        Kind::Rows(_) => Err(bad(takes())),
    }
}

/// One length; a warning of the parser is accepted, for it says how it was read.
fn one_length(text: &str, unit: LengthUnit) -> Result<Length, Said> {
    let parsed = parse_length(text.trim(), unit);
    match (parsed.status, parsed.length) {
        (LengthStatus::Ok | LengthStatus::Warn, Some(length)) => Ok(length),
        _ => Err(parsed.note),
    }
}

/// Inches to 1/16 with a true minus; a number too large to print is shown as it is.
pub fn show_inches(inches: f64) -> String {
    let sixteenths = libm::round(inches * 16.0) / 16.0;
    match Length::from_inches(sixteenths) {
        Some(length) => {
            let text = inches_16(length);
            match text.strip_prefix('-') {
                Some(rest) => format!("−{rest}"),
                None => text,
            }
        }
        None => format!("{inches} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FIELDS: &[Field] = &[
        Field::may("run", Phrase("How long?"), Kind::Length { min: 0.0, max: 2400.0, feet: true }),
        Field::may("stub", Phrase("How high?"), Kind::Length { min: 0.0, max: 60.0, feet: false }),
        Field::may("slope", Phrase("How steep?"), Kind::Number { unit: "in/ft", min: 0.0, max: 12.0 }),
    ];

    fn read(name: &str, text: &str) -> Result<Given, TradeError> {
        Given::read(FIELDS, &[(name.to_owned(), text.to_owned())])
    }
    fn tolerance(name: &str, text: &str) -> f64 {
        read(name, text).unwrap().length(name).unwrap().tolerance.unwrap().inches()
    }

    #[test]
    fn a_bare_tolerance_is_in_the_unit_the_field_is_asked_in() {
        for text in ["60 ± 3", "60 ft ± 3", "60 ± 3 ft", "60 ± 36 in", "60' +- 3", "60 +/- 3", "720 in ± 36"]
        {
            assert!((tolerance("run", text) - 36.0).abs() < 1e-9, "{text}");
        }
        assert_eq!((tolerance("stub", "18 ± 1/8"), tolerance("stub", "18 in ± 1/4\"")), (0.125, 0.25));
        assert!((tolerance("stub", "457 mm ± 5 mm") - 5.0 / 25.4).abs() < 1e-5);
        assert!((tolerance("stub", "457 mm ± 5") - 5.0 / 25.4).abs() < 1e-5);
    }

    #[test]
    fn a_number_may_be_a_fraction() {
        for (text, number) in [("1/4", 0.25), ("1 1/2", 1.5), ("1-1/2", 1.5), ("0.25 in/ft", 0.25)] {
            assert_eq!(read("slope", text).unwrap().number("slope"), Some(number), "{text}");
        }
        for bad in ["1/0", "a/b", "1/4/2", "-1/4", "nan", "1e9", "0,5", ""] {
            assert!(read("slope", bad).map_or(true, |g| g.number("slope").is_none()), "{bad}");
        }
    }
}
