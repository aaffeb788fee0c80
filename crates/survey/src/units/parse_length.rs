//! Reading a length as a person writes it on a tape-measure note.
//!
//! With N a number and F a fraction: `N`, `N F`, `N-F`, `F`, with or without `"` or `in`; the same with `'`, `ft`,
//! `mm`, `cm` or `m`; feet and inches `N' N F"` in any of the usual spellings, where a bare number after feet is
//! inches. One meaning gives a value (ok, or warn when it is unusual); two meanings give none and ask; no meaning
//! is an error. The arithmetic is exact; what an eighth of a micrometer cannot hold (1/3 in) is rounded once and
//! warned about. Source: own grammar of common tape notations (common practice); 1 in = 25.4 mm exactly (NIST
//! Handbook 44, Appendix C).

mod lex;
mod ratio;
#[cfg(test)]
mod tests;

use super::Length;
use crate::said::{Phrase, Said};
use crate::say;
use lex::{LexError, Sign};
use ratio::Ratio;

/// Unit a bare number is read in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LengthUnit {
    /// Inches.
    Inch,
    /// Feet.
    Foot,
    /// Millimeters.
    Millimeter,
    /// Centimeters.
    Centimeter,
    /// Meters.
    Meter,
}

impl LengthUnit {
    const fn eighth_um(self) -> i128 {
        (match self {
            Self::Inch => Length::PER_INCH,
            Self::Foot => 12 * Length::PER_INCH,
            Self::Millimeter => Length::PER_MM,
            Self::Centimeter => 10 * Length::PER_MM,
            Self::Meter => 1_000 * Length::PER_MM,
        }) as i128
    }
    const fn is_metric(self) -> bool {
        matches!(self, Self::Millimeter | Self::Centimeter | Self::Meter)
    }
}

/// How sure the reading is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LengthStatus {
    /// One meaning.
    Ok,
    /// One meaning, but unusual: shown for confirmation.
    Warn,
    /// Two meanings: no value, ask.
    Ambiguous,
    /// No meaning.
    Error,
}

/// Outcome of reading a length.
#[derive(Clone, PartialEq, Debug)]
pub struct ParsedLength {
    /// How sure.
    pub status: LengthStatus,
    /// The length, exact where the text is; none if ambiguous or an error.
    pub length: Option<Length>,
    /// What is unusual or wrong, and how to write it; nothing when ok.
    pub note: Said,
}

impl ParsedLength {
    /// Inches as the text says them, before the rounding to 1/8 µm: 1/3 in is 0.333… here. None where
    /// [`parse_length`] gives no length. For sums and comparisons finer than a tape; stored values use `length`.
    pub fn inches_as_written(text: &str, default_unit: LengthUnit) -> Option<f64> {
        read(text, default_unit).ok().map(|(amount, _)| amount.float() / Length::PER_INCH as f64)
    }
}

/// Reads a length; never panics.
pub fn parse_length(text: &str, default_unit: LengthUnit) -> ParsedLength {
    match read(text, default_unit) {
        Ok((amount, notes)) => match amount.round() {
            Some((count, exact)) => kept(count, exact, notes),
            None => none(Refusal::error(TOO_FINE)),
        },
        Err(refusal) => none(refusal),
    }
}

/// How to write a length: stands in the place `how` of several notes.
const HOW: Phrase = Phrase("length-how");
const TOO_FINE: Phrase = Phrase("length-too-fine");
const TOO_LONG: Phrase = Phrase("length-too-long");
const RANGE: Phrase = Phrase("length-range");

/// Why there is no value.
struct Refusal {
    status: LengthStatus,
    note: Said,
}

impl Refusal {
    fn error(note: impl Into<Said>) -> Self {
        Self { status: LengthStatus::Error, note: note.into() }
    }
    fn ambiguous(note: impl Into<Said>) -> Self {
        Self { status: LengthStatus::Ambiguous, note: note.into() }
    }
}

fn none(refusal: Refusal) -> ParsedLength {
    ParsedLength { status: refusal.status, length: None, note: refusal.note }
}

fn kept(count: i128, exact: bool, mut notes: Vec<Said>) -> ParsedLength {
    if !exact {
        notes.push(Phrase("length-rounded").into());
    }
    let status = if notes.is_empty() { LengthStatus::Ok } else { LengthStatus::Warn };
    let length = i64::try_from(count).ok().map(Length::from_eighth_um);
    let note = if notes.is_empty() { Said::nothing() } else { Said::between("; ", notes) };
    ParsedLength { status, length, note }
}

/// The amount in 1/8 µm, exact, with what is unusual about it.
fn read(text: &str, default_unit: LengthUnit) -> Result<(Ratio, Vec<Said>), Refusal> {
    if text.len() > 400 {
        return Err(Refusal::error(say!("length-too-many", how = HOW)));
    }
    let plain = lex::plain(text);
    let mut notes = Vec::new();
    let body = match plain.strip_prefix('~') {
        Some(body) => {
            notes.push(Phrase("length-about").into());
            body.trim_start()
        }
        None => plain.as_str(),
    };
    if body.is_empty() {
        return Err(Refusal::error(say!("length-nothing", how = HOW)));
    }
    if comma_between_digits(body) {
        return Err(Refusal::ambiguous(Phrase("length-comma")));
    }
    let signs = lex::signs(body).map_err(refuse_lex)?;
    if signs.first() == Some(&Sign::Dash) {
        return Err(Refusal::error(Phrase("length-negative")));
    }
    let amount = assemble(&signs, default_unit, &mut notes)?;
    let limit = Length::MAX.eighth_um() as f64;
    if amount.float() > limit { Err(Refusal::error(TOO_LONG)) } else { Ok((amount, notes)) }
}

/// Splits feet from inches and adds them up.
fn assemble(signs: &[Sign], default_unit: LengthUnit, notes: &mut Vec<Said>) -> Result<Ratio, Refusal> {
    let is_unit = |sign: &Sign| matches!(sign, Sign::Unit(_));
    let foot = Sign::Unit(LengthUnit::Foot);
    let inch = Sign::Unit(LengthUnit::Inch);
    let Some(at) = signs.iter().position(|s| *s == foot) else {
        return match signs.iter().position(is_unit) {
            None => quantity(signs, default_unit, notes),
            Some(at) if at + 1 == signs.len() => quantity(&signs[..at], unit_of(&signs[at]), notes),
            Some(at) => Err(after_the_unit(&signs[at..])),
        };
    };
    let (head, tail) = (&signs[..at], &signs[at + 1..]);
    if head.contains(&inch) {
        return Err(Refusal::error(Phrase("length-inches-first")));
    }
    if signs.iter().any(|s| matches!(s, Sign::Unit(u) if u.is_metric())) {
        return Err(Refusal::error(Phrase("length-feet-and-metric")));
    }
    if let Some(second) = tail.iter().position(|s| *s == foot) {
        let joined = tail[..second].iter().any(|s| matches!(s, Sign::Dash | Sign::To));
        return Err(if joined && !is_quantity(&tail[..second]) {
            Refusal::ambiguous(RANGE)
        } else {
            Refusal::error(Phrase("length-feet-twice"))
        });
    }
    let feet = quantity(head, LengthUnit::Foot, notes)?;
    if tail.is_empty() {
        return Ok(feet);
    }
    let inches = tail.strip_prefix(&[Sign::Dash]).unwrap_or(tail);
    let inches = inches.strip_suffix(core::slice::from_ref(&inch)).unwrap_or(inches);
    if inches.contains(&inch) {
        return Err(after_the_unit(&inches[inches.iter().position(|s| *s == inch).unwrap_or(0)..]));
    }
    if !matches!(head, [Sign::Number(n)] if !n.contains('.')) {
        notes.push(Phrase("length-part-of-foot").into());
    }
    let inches = quantity(inches, LengthUnit::Inch, notes)?;
    if inches.float() >= 12.0 * Length::PER_INCH as f64 {
        notes.push(Phrase("length-twelve-inches").into());
    }
    feet.plus(inches).ok_or_else(|| Refusal::error(TOO_FINE))
}

/// `N`, `F`, `N F` or `N-F` in one unit.
fn quantity(signs: &[Sign], unit: LengthUnit, notes: &mut Vec<Said>) -> Result<Ratio, Refusal> {
    let too_fine = || Refusal::error(TOO_FINE);
    let amount = match signs {
        [Sign::Number(whole)] => Ratio::decimal(whole).ok_or_else(too_fine)?,
        [Sign::Fraction(top, bottom)] => fraction(top, bottom, unit, notes)?,
        [Sign::Number(whole), Sign::Fraction(top, bottom)]
        | [Sign::Number(whole), Sign::Dash, Sign::Fraction(top, bottom)] => {
            if whole.contains('.') {
                return Err(Refusal::error(say!("length-decimal-and-fraction", how = HOW)));
            }
            let part = fraction(top, bottom, unit, notes)?;
            Ratio::decimal(whole).and_then(|w| w.plus(part)).ok_or_else(too_fine)?
        }
        _ => return Err(no_quantity(signs)),
    };
    amount.times(unit.eighth_um()).ok_or_else(too_fine)
}

fn fraction(top: &str, bottom: &str, unit: LengthUnit, notes: &mut Vec<Said>) -> Result<Ratio, Refusal> {
    let (Ok(top), Ok(bottom)) = (top.parse::<i128>(), bottom.parse::<i128>()) else {
        return Err(Refusal::error(TOO_FINE));
    };
    let Some(ratio) = Ratio::new(top, bottom) else {
        return Err(Refusal::error(Phrase("length-over-zero")));
    };
    if top >= bottom {
        notes.push(Phrase("length-whole-fraction").into());
    }
    if bottom & (bottom - 1) != 0 {
        notes.push(Phrase("length-odd-fraction").into());
    }
    if unit.is_metric() {
        notes.push(Phrase("length-metric-fraction").into());
    }
    Ok(ratio)
}

/// What is wrong with signs that make no single number.
fn no_quantity(signs: &[Sign]) -> Refusal {
    let splits_in_two = signs.iter().enumerate().any(|(at, sign)| {
        matches!(sign, Sign::Dash | Sign::To) && is_quantity(&signs[..at]) && is_quantity(&signs[at + 1..])
    });
    let numbers = signs.iter().filter(|s| matches!(s, Sign::Number(_))).count();
    let only_numbers = signs.iter().all(|s| matches!(s, Sign::Number(_) | Sign::Fraction(..)));
    match signs {
        [] => Refusal::error(say!("length-no-number", how = HOW)),
        [Sign::Dash, ..] => Refusal::error(Phrase("length-hyphens")),
        _ if splits_in_two => match signs {
            [Sign::Number(_), Sign::Dash, Sign::Number(_), ..] => {
                Refusal::ambiguous(Phrase("length-range-or-feet"))
            }
            _ => Refusal::ambiguous(RANGE),
        },
        _ if only_numbers && numbers >= 2 => Refusal::ambiguous(Phrase("length-no-unit")),
        _ => Refusal::error(say!("length-not-one", how = HOW)),
    }
}

/// Whether signs make one number: `N`, `F`, `N F` or `N-F`.
fn is_quantity(signs: &[Sign]) -> bool {
    matches!(
        signs,
        [Sign::Number(_)]
            | [Sign::Fraction(..)]
            | [Sign::Number(_), Sign::Fraction(..)]
            | [Sign::Number(_), Sign::Dash, Sign::Fraction(..)]
    )
}

/// What is wrong with signs that go on after a unit (the first sign).
fn after_the_unit(signs: &[Sign]) -> Refusal {
    let units = signs.iter().filter_map(|s| if let Sign::Unit(u) = s { Some(*u) } else { None });
    let mixed = units.clone().any(LengthUnit::is_metric) && !units.clone().all(LengthUnit::is_metric);
    match signs {
        [_, Sign::Dash | Sign::To, ..] => Refusal::ambiguous(RANGE),
        _ if mixed => Refusal::error(Phrase("length-inches-and-metric")),
        _ => Refusal::error(say!("length-after-unit", how = HOW)),
    }
}

fn unit_of(sign: &Sign) -> LengthUnit {
    if let Sign::Unit(unit) = sign { *unit } else { LengthUnit::Inch }
}

fn comma_between_digits(body: &str) -> bool {
    body.match_indices(',').any(|(at, _)| {
        body[..at].trim_end().ends_with(|c: char| c.is_ascii_digit())
            && body[at + 1..].trim_start().starts_with(|c: char| c.is_ascii_digit())
    })
}

fn refuse_lex(error: LexError) -> Refusal {
    Refusal::error(match error {
        LexError::Word(word) => say!("length-no-unit-word", word = word, how = HOW),
        LexError::Odd(ch) => say!("length-odd-sign", sign = ch.escape_debug().to_string(), how = HOW),
        LexError::Times => Phrase("length-two-sizes").into(),
        LexError::Slash => Phrase("length-slash").into(),
        LexError::RunTogether => say!("length-run-together", how = HOW),
    })
}
