//! Tape arithmetic: conversions, sums of written lengths, prints to 1/16 in and to decimals.
//!
//! 1 in = 25.4 mm and 1 ft = 0.3048 m exactly (NIST Special Publication 811, Appendix B). A sum is made of the
//! lengths as written and printed once; an exact sum is a fraction of whole numbers up to its one rounding.

use alloc::{format, string::String};

use survey::Phrase;
use survey::units::{Length, LengthUnit, ParsedLength, feet_inches_16, inches_16, parse_length};

use crate::error::{TradeError, finite};
use crate::number::show_number;

/// Millimeters of inches.
pub fn mm(inches: f64) -> f64 {
    inches * 25.4
}

/// Square meters of square feet: 0.3048² = 0.09290304 exactly.
pub fn square_meters(square_feet: f64) -> f64 {
    square_feet * 0.092_903_04
}

/// Cubic meters of cubic feet: 0.3048³ = 0.028316846592 exactly.
pub fn cubic_meters(cubic_feet: f64) -> f64 {
    cubic_feet * 0.028_316_846_592
}

/// Cubic yards of cubic feet: 27 to one.
pub fn cubic_yards(cubic_feet: f64) -> f64 {
    cubic_feet / 27.0
}

/// A fraction that is not negative, as a decimal of at most `places` (nine at most) without trailing zeros: rounded
/// once, halves up, thousands apart from 10,000 up. None where it is no such fraction.
pub fn decimal(top: i128, bottom: i128, places: u32) -> Option<String> {
    if top < 0 || bottom <= 0 || places > 9 {
        return None;
    }
    let scale = 10_i128.pow(places);
    // The whole part comes off first, so that large sums do not run over.
    let (mut whole, rest) = (top / bottom, top % bottom);
    let mut part = rest.checked_mul(2 * scale)?.checked_add(bottom)? / bottom.checked_mul(2)?;
    if part >= scale {
        (whole, part) = (whole + 1, part - scale);
    }
    let digits = format!("{part:0width$}", width = places as usize);
    let digits = if places == 0 { "" } else { digits.trim_end_matches('0') };
    let dot = if digits.is_empty() { "" } else { "." };
    Some(format!("{}{dot}{digits}", show_number(whole as f64)))
}

/// How many whole ones a fraction that is not negative takes: rounded up, and exact where it is whole.
pub fn whole_ones(top: i128, bottom: i128) -> Option<i128> {
    if top < 0 || bottom <= 0 {
        return None;
    }
    Some(top / bottom + i128::from(top % bottom > 0))
}

/// Inches to the nearest 1/16, ties away from zero, like `42-1/2"`.
pub fn print_inches(inches: f64) -> Result<String, TradeError> {
    nearest_16(inches).map(inches_16)
}

/// Feet and inches to the nearest 1/16, ties away from zero, like `3'-6 1/2"`.
pub fn print_feet_inches(inches: f64) -> Result<String, TradeError> {
    nearest_16(inches).map(feet_inches_16)
}

/// The one rounding of a float on its way to a print: straight to sixteenths, not by way of a finer grid.
fn nearest_16(inches: f64) -> Result<Length, TradeError> {
    let sixteenths = libm::round(finite(Phrase("trade-length-3"), inches)? * 16.0);
    Length::from_inches(sixteenths / 16.0).ok_or(TradeError::NotFinite { what: Phrase("trade-length-3") })
}

/// The sum of written lengths, in inches, each as the text says it; bare numbers are inches.
pub fn add(terms: &[&str]) -> Result<f64, TradeError> {
    let mut sum = 0.0;
    for (at, text) in (1_u32..).zip(terms) {
        match ParsedLength::inches_as_written(text, LengthUnit::Inch) {
            Some(inches) => sum += inches,
            None => {
                let note = parse_length(text, LengthUnit::Inch).note;
                let text = text.chars().take(40).collect::<String>();
                return Err(TradeError::Unreadable { at, text, note });
            }
        }
    }
    Ok(sum)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;

    #[test]
    fn a_sum_is_printed_once() {
        let sum = add(&["36-1/2\"", "1-3/16\"", "3/8\""]).unwrap();
        assert_eq!((sum, print_inches(sum).unwrap().as_str()), (38.0625, "38-1/16\""));
        // Three thirty-seconds each: rounding every print first would give 3/16.
        let sum = add(&["1/32", "1/32", "1/32"]).unwrap();
        assert_eq!(print_inches(sum).unwrap(), "1/8\"");
    }

    #[test]
    fn a_fraction_is_rounded_once_and_carries() {
        for (top, bottom, places, text) in [
            (1, 3, 3, "0.333"),
            (2, 3, 2, "0.67"),
            (1, 200, 2, "0.01"),
            (1, 201, 2, "0"),
            (1999, 1000, 2, "2"),
            (25, 10, 0, "3"),
            (123_456, 10, 1, "12,345.6"),
            (0, 7, 2, "0"),
        ] {
            assert_eq!(decimal(top, bottom, places).as_deref(), Some(text), "{top}/{bottom}");
        }
        assert!(decimal(1, 0, 2).is_none() && decimal(-1, 2, 2).is_none());
        assert!(decimal(i128::MAX, i128::MAX, 9).is_none()); // too large to round, said rather than wrong
        assert_eq!((whole_ones(64, 32), whole_ones(65, 32), whole_ones(0, 32)), (Some(2), Some(3), Some(0)));
        assert_eq!(whole_ones(1, 0), None);
    }

    #[test]
    fn areas_and_volumes_convert_exactly() {
        // 1 ft = 0.3048 m exactly, 1 yd = 3 ft (NIST Special Publication 811, Appendix B)
        assert_eq!(square_meters(1.0), 0.092_903_04);
        assert_eq!(cubic_meters(27.0), 0.764_554_857_984);
        assert_eq!(cubic_yards(81.0), 3.0);
    }

    #[test]
    fn an_unreadable_term_is_named() {
        let error = add(&["36", "3 6 1/2"]).unwrap_err().message().en();
        assert!(error.starts_with("length 2 (“3 6 1/2”)"), "{error}");
    }

    #[test]
    fn what_is_no_length_has_no_print() {
        for bad in [f64::NAN, f64::INFINITY, 1e300] {
            assert!(print_inches(bad).is_err() && print_feet_inches(bad).is_err());
        }
        assert_eq!(print_feet_inches(11.97).unwrap(), "1'-0\"");
    }
}
