//! From characters to the few signs a length is made of. Typographic spellings (curly quotes, primes, fraction
//! glyphs, other slashes, dashes and spaces) become the plain ones first.

use super::LengthUnit;

/// One sign of a length.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum Sign {
    /// Digits with at most one point.
    Number(String),
    /// Two whole numbers around a slash.
    Fraction(String, String),
    /// A hyphen or dash.
    Dash,
    /// The word “to”.
    To,
    /// A unit mark or word.
    Unit(LengthUnit),
}

/// Why the characters make no signs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum LexError {
    /// Letters that are no unit.
    Word(String),
    /// A character that has no place in a length.
    Odd(char),
    /// Two sizes joined by ×.
    Times,
    /// A slash without a whole number on both sides, or with a second slash.
    Slash,
    /// Two numbers run together, such as 3.6.2.
    RunTogether,
}

/// Plain spelling of a text: one case, plain quotes, slashes, dashes and spaces, fraction glyphs spelled out.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut raised = false; // inside a run of superscript digits, the top of a typeset fraction
    for ch in text.chars() {
        let digit = raised_digit(ch);
        if let Some(digit) = digit {
            if !raised {
                out.push(' ');
            }
            out.push(digit);
        } else if let Some((top, bottom)) = glyph(ch) {
            out.push_str(&format!(" {top}/{bottom} "));
        } else {
            match ch {
                '’' | '‘' | '‛' | '′' | '‵' | 'ʹ' | 'ʼ' | '´' | '`' | '＇' => out.push('\''),
                '”' | '“' | '‟' | '″' | '‶' | 'ʺ' | '＂' => out.push('"'),
                '\u{2044}' | '∕' | '／' => out.push('/'),
                '‐' | '‑' | '‒' | '–' | '—' | '−' | '－' => out.push('-'),
                '≈' | '∼' | '～' => out.push('~'),
                '×' | '✕' | '*' => out.push('x'),
                '⅟' => out.push_str(" 1/"),
                '₀'..='₉' => out.push(char::from(b'0' + (ch as u32 - '₀' as u32) as u8)),
                '\u{ff10}'..='\u{ff19}' => out.push(char::from(b'0' + (ch as u32 - 0xff10) as u8)),
                '\u{200b}'..='\u{200f}' | '\u{2060}' | '\u{feff}' | '\u{fe0e}' | '\u{fe0f}' => {}
                _ if ch.is_whitespace() => out.push(' '),
                _ => out.extend(ch.to_lowercase()),
            }
        }
        raised = digit.is_some();
    }
    out.replace("''", "\"").trim().to_owned()
}

/// The signs of a plain text.
pub(super) fn signs(plain: &str) -> Result<Vec<Sign>, LexError> {
    let mut out = Vec::new();
    let mut rest = plain;
    let mut after_number = false; // the previous character belonged to a number
    while let Some(ch) = rest.chars().next() {
        let number_before = core::mem::take(&mut after_number);
        let taken = match ch {
            ' ' => 1,
            '-' => {
                out.push(Sign::Dash);
                1
            }
            '\'' => {
                out.push(Sign::Unit(LengthUnit::Foot));
                1
            }
            '"' => {
                out.push(Sign::Unit(LengthUnit::Inch));
                1
            }
            '/' => over(&mut out, rest)?,
            '0'..='9' | '.' => {
                let length = number_length(rest);
                if &rest[..length] == "." {
                    return Err(LexError::Odd('.'));
                }
                if number_before {
                    return Err(LexError::RunTogether);
                }
                out.push(Sign::Number(rest[..length].to_owned()));
                after_number = true;
                length
            }
            _ if ch.is_alphabetic() => word(&mut out, rest)?,
            _ => return Err(LexError::Odd(ch)),
        };
        rest = &rest[taken..];
    }
    Ok(out)
}

/// Turns the number just read and the one after the slash into a fraction; bytes taken.
fn over(out: &mut Vec<Sign>, rest: &str) -> Result<usize, LexError> {
    let below = rest[1..].trim_start_matches(' ');
    let length = below.bytes().take_while(u8::is_ascii_digit).count();
    let after = below[length..].trim_start_matches(' ');
    let next = below[length..].bytes().next();
    match out.pop() {
        Some(Sign::Number(top))
            if length > 0 && !top.contains('.') && next != Some(b'.') && !after.starts_with('/') =>
        {
            out.push(Sign::Fraction(top, below[..length].to_owned()));
            Ok(rest.len() - below.len() + length)
        }
        _ => Err(LexError::Slash),
    }
}

/// A unit word, “to”, or an error; bytes taken, with the point of an abbreviation.
fn word(out: &mut Vec<Sign>, rest: &str) -> Result<usize, LexError> {
    let length = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
    let unit = match &rest[..length] {
        // As written in English, then in Spanish.
        "in" | "inch" | "inches" | "pulg" | "pulgada" | "pulgadas" => LengthUnit::Inch,
        "ft" | "foot" | "feet" | "pie" | "pies" => LengthUnit::Foot,
        "mm" | "millimeter" | "millimeters" | "millimetre" | "millimetres" | "milímetro" | "milímetros"
        | "milimetro" | "milimetros" => LengthUnit::Millimeter,
        "cm" | "centimeter" | "centimeters" | "centimetre" | "centimetres" | "centímetro" | "centímetros"
        | "centimetro" | "centimetros" => LengthUnit::Centimeter,
        "m" | "meter" | "meters" | "metre" | "metres" | "metro" | "metros" => LengthUnit::Meter,
        "to" => {
            out.push(Sign::To);
            return Ok(length);
        }
        "x" => return Err(LexError::Times),
        other => return Err(LexError::Word(other.chars().take(20).collect())),
    };
    out.push(Sign::Unit(unit));
    Ok(length + usize::from(rest[length..].starts_with('.')))
}

/// Bytes of the number a text starts with: digits, at most one point.
fn number_length(text: &str) -> usize {
    let mut pointed = false;
    text.bytes()
        .take_while(|&b| {
            let point = b == b'.' && !pointed;
            pointed |= point;
            b.is_ascii_digit() || point
        })
        .count()
}

fn raised_digit(ch: char) -> Option<char> {
    "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().zip("0123456789".chars()).find(|&(raised, _)| raised == ch).map(|(_, plain)| plain)
}

/// The single-character fractions of Unicode.
fn glyph(ch: char) -> Option<(u8, u8)> {
    Some(match ch {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        '↉' => (0, 3),
        _ => return None,
    })
}
