//! How wide lettering runs, where it breaks, and how its fractions are taken apart.

use alloc::{string::String, vec::Vec};

/// Room between letters, px.
pub(crate) const SPACING: f64 = 0.3;
/// What a viewer may add to a letter when it rounds its width to whole px.
const ROUNDING: f64 = 0.25;
/// A fraction's numerals against the line.
pub(crate) const NUMERAL: f64 = 0.7;
/// The bar between them.
pub(crate) const BAR: f64 = 0.95;

/// Advance widths of the lettering face in thousandths of its size, from the space to the tilde.
const WIDTHS: [u16; 95] = [
    281, 281, 375, 656, 492, 844, 766, 219, 336, 336, 500, 625, 289, 406, 281, 562, 656, 344, 656, 656, 656,
    656, 656, 656, 656, 656, 281, 289, 625, 625, 625, 625, 859, 672, 680, 668, 680, 680, 648, 656, 695, 328,
    531, 656, 641, 811, 703, 719, 664, 719, 688, 656, 672, 695, 672, 852, 617, 641, 617, 305, 562, 305, 500,
    562, 375, 574, 574, 516, 578, 531, 367, 574, 570, 281, 281, 516, 281, 844, 566, 555, 574, 574, 414, 484,
    336, 566, 484, 680, 484, 484, 492, 422, 281, 422, 633,
];
/// What the face does not have comes from another, usually no wider than this.
const OTHER: u16 = 1000;

fn advance(c: char) -> u16 {
    match c {
        ' '..='~' => WIDTHS[c as usize - 32],
        '\u{a0}' => 281,
        '′' => 250,
        '″' => 406,
        '±' | '×' | '−' => 625,
        '²' => 516,
        '–' => 500,
        'À'..='Þ' => 719,
        'ß'..='ÿ' => 617,
        _ => OTHER,
    }
}

/// A run of lettering.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Piece {
    /// As it is.
    Plain(String),
    /// Numerator, denominator, and whether a whole number stands before it.
    Fraction(String, String, bool),
}

/// Takes fractions out of a text: "14 1/8″", "1-1/4" and "3/4″" are set with raised and lowered numerals; a multiplication
/// between digits gets its own sign. Characters that no document may carry become spaces.
pub(crate) fn pieces(text: &str) -> Vec<Piece> {
    let chars: Vec<char> = text.chars().map(|c| if allowed(c) { c } else { ' ' }).collect();
    let mut found = Vec::new();
    let mut plain = String::new();
    let mut i = 0;
    while i < chars.len() {
        if let Some((over, under, end)) = fraction(&chars, i) {
            // "14 1/8": the space belongs to the fraction
            let whole = plain.ends_with([' ', '-'])
                && plain[..plain.len() - 1].ends_with(|c: char| c.is_ascii_digit());
            if whole {
                plain.pop();
            }
            if !plain.is_empty() {
                found.push(Piece::Plain(core::mem::take(&mut plain)));
            }
            found.push(Piece::Fraction(over, under, whole));
            i = end;
            continue;
        }
        let digit = |k: Option<&char>| k.is_some_and(char::is_ascii_digit);
        let times = chars[i] == 'x' && i > 0 && digit(chars.get(i - 1)) && digit(chars.get(i + 1));
        plain.push(if times { '×' } else { chars[i] });
        i += 1;
    }
    if !plain.is_empty() {
        found.push(Piece::Plain(plain));
    }
    found
}

/// Characters XML 1.0 can carry, and no line breaks.
fn allowed(c: char) -> bool {
    !(c.is_control() || c == '\u{fffe}' || c == '\u{ffff}' || c == '\u{2028}' || c == '\u{2029}')
}

/// A fraction of one to three digits over one to three that starts here and touches neither digit nor stroke.
fn fraction(chars: &[char], start: usize) -> Option<(String, String, usize)> {
    let digits = |from: usize| chars[from..].iter().take_while(|c| c.is_ascii_digit()).count();
    let before = start.checked_sub(1).and_then(|k| chars.get(k));
    if before.is_some_and(|c| c.is_ascii_digit() || matches!(c, '/' | '.')) {
        return None;
    }
    let over = digits(start);
    let stroke = start + over;
    if !(1..=3).contains(&over) || chars.get(stroke) != Some(&'/') {
        return None;
    }
    let under = digits(stroke + 1);
    let end = stroke + 1 + under;
    if !(1..=3).contains(&under) || chars.get(end) == Some(&'/') {
        return None;
    }
    Some((chars[start..stroke].iter().collect(), chars[stroke + 1..end].iter().collect(), end))
}

fn run(text: &str, size: f64) -> f64 {
    text.chars().map(|c| f64::from(advance(c)) / 1000.0 * size + SPACING + ROUNDING).sum()
}

/// Width of a text set at a size, px.
pub(crate) fn width(text: &str, size: f64) -> f64 {
    pieces(text)
        .iter()
        .map(|piece| match piece {
            Piece::Plain(t) => run(t, size),
            Piece::Fraction(over, under, whole) => {
                let space = if *whole { run(" ", size * NUMERAL) } else { 0.0 };
                space + run(over, size * NUMERAL) + run("/", size * BAR) + run(under, size * NUMERAL)
            }
        })
        .sum()
}

const CUT: &str = "...";

/// The text, cut with three dots where it does not fit.
pub(crate) fn fit(text: &str, size: f64, most: f64) -> String {
    let text = text.trim();
    if width(text, size) <= most {
        return text.into();
    }
    // a width that no text needs is never measured: what is longer is cut first
    let chars: Vec<char> = text.chars().take(400).collect();
    let (mut few, mut many) = (0, chars.len());
    while few < many {
        let half = (few + many).div_ceil(2);
        let tried: String = chars[..half].iter().collect();
        if width(tried.trim_end(), size) + width(CUT, size) <= most {
            few = half;
        } else {
            many = half - 1;
        }
    }
    let kept: String = chars[..few].iter().collect();
    let mut kept: String =
        kept.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.')).into();
    kept.push_str(CUT);
    kept
}

/// Words between which a line may break: not between a whole number and its fraction.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let opens = matches!(pieces(word).first(), Some(Piece::Fraction(..)));
        match words.last_mut() {
            Some(last) if opens && last.ends_with(|c: char| c.is_ascii_digit()) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.into()),
        }
    }
    words
}

/// Lines no wider than `most`, no more than `lines`; the last is cut with dots where the text goes on.
pub(crate) fn wrap(text: &str, size: f64, most: f64, lines: usize) -> Vec<String> {
    let mut wrapped: Vec<String> = Vec::new();
    let mut line = String::new();
    let mut rest = words(text).into_iter().peekable();
    while let Some(word) = rest.peek() {
        let longer = if line.is_empty() { word.clone() } else { alloc::format!("{line} {word}") };
        if line.is_empty() || width(&longer, size) <= most {
            line = longer;
            rest.next();
            continue;
        }
        if wrapped.len() + 1 == lines {
            // no line left: the rest goes into this one and is cut
            for word in rest.by_ref().take(40) {
                line.push(' ');
                line.push_str(&word);
            }
            break;
        }
        wrapped.push(fit(&line, size, most));
        line.clear();
    }
    if !line.is_empty() {
        wrapped.push(fit(&line, size, most));
    }
    wrapped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_taken_apart_and_dates_are_not() {
        assert_eq!(
            pieces("needs 2 3/8″"),
            [
                Piece::Plain("needs 2".into()),
                Piece::Fraction("3".into(), "8".into(), true),
                Piece::Plain("″".into())
            ]
        );
        assert_eq!(pieces("1-1/4")[1], Piece::Fraction("1".into(), "4".into(), true));
        assert_eq!(pieces("±1/8")[1], Piece::Fraction("1".into(), "8".into(), false));
        for plain in ["3/4/2026", "and/or", "24/", "/7", "2.5/8"] {
            assert_eq!(pieces(plain), [Piece::Plain(plain.into())], "{plain}");
        }
        assert_eq!(pieces("2x4 stud"), [Piece::Plain("2×4 stud".into())]);
    }

    #[test]
    fn nothing_runs_wider_than_it_may() {
        let long = "disposer outlet and everything that hangs below it ".repeat(30);
        assert!(width(&fit(&long, 16.0, 120.0), 16.0) <= 120.0);
        let lines = wrap(&long, 15.0, 140.0, 3);
        assert_eq!(lines.len(), 3);
        assert!(lines.iter().all(|l| width(l, 15.0) <= 140.0), "{lines:?}");
        assert!(lines[2].ends_with("..."));
        assert_eq!(wrap("by the table: 1 3/8″", 14.0, 110.0, 3)[1], "1 3/8″");
        assert_eq!(wrap("  ", 15.0, 140.0, 3), Vec::<String>::new());
        assert!(width(&wrap(&"w".repeat(500), 15.0, 100.0, 2)[0], 15.0) <= 100.0);
    }
}
