//! Tape arithmetic: conversions, sums of written lengths, prints to 1/16 in.
//!
//! 1 in = 25.4 mm and 1 ft = 0.3048 m exactly (NIST Special Publication 811, Appendix B). A sum is made of the
//! lengths as written and printed once.

use alloc::string::{String, ToString};

use survey::units::{Length, LengthUnit, ParsedLength, feet_inches_16, inches_16, parse_length};

use crate::error::{TradeError, finite};

/// Millimeters of inches.
pub fn mm(inches: f64) -> f64 {
    inches * 25.4
}

/// Square meters of square feet: 0.3048² = 0.09290304 exactly.
pub fn square_meters(square_feet: f64) -> f64 {
    square_feet * 0.092_903_04
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
    let sixteenths = libm::round(finite("length", inches)? * 16.0);
    Length::from_inches(sixteenths / 16.0).ok_or(TradeError::NotFinite { what: "length" })
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
                return Err(TradeError::Unreadable { at, text, note: note.to_string() });
            }
        }
    }
    Ok(sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sum_is_printed_once() {
        let sum = add(&["36-1/2\"", "1-3/16\"", "3/8\""]).unwrap();
        assert_eq!((sum, print_inches(sum).unwrap().as_str()), (38.0625, "38-1/16\""));
        // Three thirty-seconds each: rounding every print first would give 3/16.
        let sum = add(&["1/32", "1/32", "1/32"]).unwrap();
        assert_eq!(print_inches(sum).unwrap(), "1/8\"");
    }

    #[test]
    fn an_unreadable_term_is_named() {
        let error = add(&["36", "3 6 1/2"]).unwrap_err().to_string();
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
