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
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ParsedLength {
    /// How sure.
    pub status: LengthStatus,
    /// The length, exact where the text is; none if ambiguous or an error.
    pub length: Option<Length>,
    /// What is unusual or wrong, and how to write it; empty when ok.
    pub note: String,
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

const HOW: &str = "write 19 3/8, 19.375, 3' 6 1/2\" or 492 mm";
const TOO_FINE: &str = "it has more digits than a length can keep; write 19 3/8 or 19.375";
const TOO_LONG: &str = "it is longer than any house (the limit is 10 km); check the unit";
const RANGE: &str = "it could be a range; enter one number, and the other as its own reading";

/// Why there is no value.
struct Refusal {
    status: LengthStatus,
    note: String,
}

impl Refusal {
    fn error(note: impl Into<String>) -> Self {
        Self { status: LengthStatus::Error, note: note.into() }
    }
    fn ambiguous(note: impl Into<String>) -> Self {
        Self { status: LengthStatus::Ambiguous, note: note.into() }
    }
}

fn none(refusal: Refusal) -> ParsedLength {
    ParsedLength { status: refusal.status, length: None, note: refusal.note }
}

fn kept(count: i128, exact: bool, mut notes: Vec<String>) -> ParsedLength {
    if !exact {
        notes.push("not a whole number of 1/8 µm: rounded once".to_owned());
    }
    let status = if notes.is_empty() { LengthStatus::Ok } else { LengthStatus::Warn };
    let length = i64::try_from(count).ok().map(Length::from_eighth_um);
    ParsedLength { status, length, note: notes.join("; ") }
}

/// The amount in 1/8 µm, exact, with what is unusual about it.
fn read(text: &str, default_unit: LengthUnit) -> Result<(Ratio, Vec<String>), Refusal> {
    if text.len() > 400 {
        return Err(Refusal::error(format!("too many characters for a length; {HOW}")));
    }
    let plain = lex::plain(text);
    let mut notes = Vec::new();
    let body = match plain.strip_prefix('~') {
        Some(body) => {
            notes.push("marked as about: take the reading again if you can".to_owned());
            body.trim_start()
        }
        None => plain.as_str(),
    };
    if body.is_empty() {
        return Err(Refusal::error(format!("nothing to read; {HOW}")));
    }
    if comma_between_digits(body) {
        return Err(Refusal::ambiguous(
            "a comma may be a decimal point or a thousands mark; write 36.5, or 1200 without a comma",
        ));
    }
    let signs = lex::signs(body).map_err(refuse_lex)?;
    if signs.first() == Some(&Sign::Dash) {
        return Err(Refusal::error(
            "a length is not negative; write the distance, and say which way in a note",
        ));
    }
    let amount = assemble(&signs, default_unit, &mut notes)?;
    let limit = Length::MAX.eighth_um() as f64;
    if amount.float() > limit { Err(Refusal::error(TOO_LONG)) } else { Ok((amount, notes)) }
}

/// Splits feet from inches and adds them up.
fn assemble(signs: &[Sign], default_unit: LengthUnit, notes: &mut Vec<String>) -> Result<Ratio, Refusal> {
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
        return Err(Refusal::error("inches stand before feet; write feet first, like 3' 6 1/2\""));
    }
    if signs.iter().any(|s| matches!(s, Sign::Unit(u) if u.is_metric())) {
        return Err(Refusal::error("feet and metric in one length; write it in one system"));
    }
    if let Some(second) = tail.iter().position(|s| *s == foot) {
        let joined = tail[..second].iter().any(|s| matches!(s, Sign::Dash | Sign::To));
        return Err(if joined && !is_quantity(&tail[..second]) {
            Refusal::ambiguous(RANGE)
        } else {
            Refusal::error("feet are written twice; write the second number as inches, like 3' 6\"")
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
        notes.push("part of a foot and inches together: check the feet".to_owned());
    }
    let inches = quantity(inches, LengthUnit::Inch, notes)?;
    if inches.float() >= 12.0 * Length::PER_INCH as f64 {
        notes.push("12 inches or more after feet: check the feet".to_owned());
    }
    feet.plus(inches).ok_or_else(|| Refusal::error(TOO_FINE))
}

/// `N`, `F`, `N F` or `N-F` in one unit.
fn quantity(signs: &[Sign], unit: LengthUnit, notes: &mut Vec<String>) -> Result<Ratio, Refusal> {
    let too_fine = || Refusal::error(TOO_FINE);
    let amount = match signs {
        [Sign::Number(whole)] => Ratio::decimal(whole).ok_or_else(too_fine)?,
        [Sign::Fraction(top, bottom)] => fraction(top, bottom, unit, notes)?,
        [Sign::Number(whole), Sign::Fraction(top, bottom)]
        | [Sign::Number(whole), Sign::Dash, Sign::Fraction(top, bottom)] => {
            if whole.contains('.') {
                return Err(Refusal::error(format!("a decimal and a fraction in one number; {HOW}")));
            }
            let part = fraction(top, bottom, unit, notes)?;
            Ratio::decimal(whole).and_then(|w| w.plus(part)).ok_or_else(too_fine)?
        }
        _ => return Err(no_quantity(signs)),
    };
    amount.times(unit.eighth_um()).ok_or_else(too_fine)
}

fn fraction(top: &str, bottom: &str, unit: LengthUnit, notes: &mut Vec<String>) -> Result<Ratio, Refusal> {
    let (Ok(top), Ok(bottom)) = (top.parse::<i128>(), bottom.parse::<i128>()) else {
        return Err(Refusal::error(TOO_FINE));
    };
    let Some(ratio) = Ratio::new(top, bottom) else {
        return Err(Refusal::error("a fraction over zero; write it like 3/8"));
    };
    if top >= bottom {
        notes.push("the fraction is a whole or more: check it".to_owned());
    }
    if bottom & (bottom - 1) != 0 {
        notes.push("no tape has this fraction; halves to sixty-fourths are usual".to_owned());
    }
    if unit.is_metric() {
        notes.push("a fraction of a metric unit: check the unit, or write a decimal".to_owned());
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
        [] => Refusal::error(format!("a unit without a number; {HOW}")),
        [Sign::Dash, ..] => Refusal::error("a length is not negative; write one hyphen at most, like 3'-6\""),
        _ if splits_in_two => match signs {
            [Sign::Number(_), Sign::Dash, Sign::Number(_), ..] => Refusal::ambiguous(
                "it could be a range or feet and inches; write 5' 6 1/2\", or enter one number of the range",
            ),
            _ => Refusal::ambiguous(RANGE),
        },
        _ if only_numbers && numbers >= 2 => Refusal::ambiguous(
            "numbers without a unit between them could be feet and inches or a slip; write 3' 6 1/2\" or 36 1/2",
        ),
        _ => Refusal::error(format!("it does not read as one length; {HOW}")),
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
        _ if mixed => Refusal::error("inches and metric in one length; write it in one system"),
        _ => Refusal::error(format!("something follows the unit; {HOW}")),
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
        LexError::Word(word) => format!("“{word}” is not a unit this reads; {HOW}"),
        LexError::Odd(ch) => format!("“{}” does not belong in a length; {HOW}", ch.escape_debug()),
        LexError::Times => "two sizes in one entry; enter each as its own length".to_owned(),
        LexError::Slash => "a fraction needs one whole number above and one below, like 3/8".to_owned(),
        LexError::RunTogether => format!("two numbers run together; {HOW}"),
    })
}
