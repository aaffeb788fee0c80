//! Measured quantities that are not lengths (gpm, psi, %, V, cfm, seconds, counts, years): a decimal with at
//! most three places and its unit, kept as whole thousandths so that stored forms hold no floats.

use core::fmt;

use serde::{Deserialize, Serialize};

/// A decimal number of some unit, in whole thousandths.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
pub struct Quantity {
    /// Thousandths of the unit.
    pub milli: i64,
    /// The unit's symbol as the catalog spells it; empty for a bare count or a year.
    pub unit: String,
}

/// A number that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum QuantityError {
    /// Not a decimal number.
    #[error("“{text}” is not a number; write digits, like 52 or 1.25{}", unit_hint(.unit))]
    NotANumber {
        /// What was entered.
        text: String,
        /// The unit wanted.
        unit: String,
    },
    /// Another unit than the one asked for.
    #[error("“{text}” is in {found}, but this is asked in {wanted}; convert it and enter it again")]
    WrongUnit {
        /// What was entered.
        text: String,
        /// The unit written.
        found: String,
        /// The unit wanted.
        wanted: String,
    },
    /// More than three decimals, or too large.
    #[error("“{text}” has more digits than can be kept; use at most three decimals and a million")]
    TooFine {
        /// What was entered.
        text: String,
    },
}

fn unit_hint(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!(" (in {unit})") }
}

impl Quantity {
    /// Reads "52", "1.25", "52 psi"; the unit, when written, must be the one asked for.
    pub fn parse(text: &str, unit: &str) -> Result<Self, QuantityError> {
        let trimmed = text.trim();
        let split =
            trimmed.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-')).unwrap_or(trimmed.len());
        let (digits, written) = (trimmed[..split].trim(), trimmed[split..].trim());
        let not_a_number =
            || QuantityError::NotANumber { text: trimmed.chars().take(60).collect(), unit: unit.to_owned() };
        if !written.is_empty() && !written.eq_ignore_ascii_case(unit) {
            if digits.is_empty() {
                return Err(not_a_number());
            }
            return Err(QuantityError::WrongUnit {
                text: trimmed.chars().take(60).collect(),
                found: written.chars().take(20).collect(),
                wanted: if unit.is_empty() { "a plain number".to_owned() } else { unit.to_owned() },
            });
        }
        let (negative, magnitude) = match digits.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, digits),
        };
        let (whole, places) = magnitude.split_once('.').unwrap_or((magnitude, ""));
        let all_digits = |s: &str| s.chars().all(|c| c.is_ascii_digit());
        if (whole.is_empty() && places.is_empty()) || !all_digits(whole) || !all_digits(places) {
            return Err(not_a_number());
        }
        if places.len() > 3 || whole.len() > 7 {
            return Err(QuantityError::TooFine { text: trimmed.chars().take(60).collect() });
        }
        let number = |s: &str| s.parse::<i64>().unwrap_or(0); // empty means none; digits were checked
        let milli = number(whole) * 1000 + number(&format!("{places:0<3}"));
        Ok(Self { milli: if negative { -milli } else { milli }, unit: unit.to_owned() })
    }
    /// The number as a float.
    pub fn get(&self) -> f64 {
        self.milli as f64 / 1000.0
    }
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.milli < 0 { "-" } else { "" };
        let (whole, rest) = (self.milli.unsigned_abs() / 1000, self.milli.unsigned_abs() % 1000);
        let places = format!("{rest:03}");
        let places = places.trim_end_matches('0');
        let dot = if places.is_empty() { "" } else { "." };
        let space = if self.unit.is_empty() { "" } else { " " };
        write!(f, "{sign}{whole}{dot}{places}{space}{}", self.unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_keep_their_unit_and_exact_decimals() {
        assert_eq!(Quantity::parse("1.25", "gpm").unwrap().to_string(), "1.25 gpm");
        assert_eq!(Quantity::parse("52 PSI", "psi").unwrap().milli, 52_000);
        assert_eq!(Quantity::parse("-.5", "F").unwrap().to_string(), "-0.5 F");
        assert_eq!(Quantity::parse("1926", "").unwrap().to_string(), "1926");
    }

    #[test]
    fn another_unit_is_named_with_the_one_wanted() {
        let error = Quantity::parse("3.6 bar", "psi").unwrap_err().to_string();
        assert!(error.contains("bar") && error.contains("psi"), "{error}");
    }

    #[test]
    fn words_and_endless_digits_are_refused() {
        for text in ["", "lots", "1.2.3", "--2", "1-2", "0.1234", "99999999"] {
            assert!(Quantity::parse(text, "gpm").is_err(), "{text}");
        }
    }
}
