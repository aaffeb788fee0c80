//! Money as whole cents of one currency (US dollars in the catalog as shipped).

use core::fmt;
use core::iter::Sum;
use core::ops::{Add, Neg, Sub};

use serde::{Deserialize, Serialize};

/// Whole cents; negative where a difference is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Money(i64);

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(0);
    /// The largest sum accepted: ten billion dollars.
    pub const MAX: Self = Self(1_000_000_000_000);

    /// Whole cents.
    pub const fn from_cents(cents: i64) -> Self {
        Self(cents)
    }
    /// Whole dollars.
    pub const fn from_dollars(dollars: i64) -> Self {
        Self(dollars.saturating_mul(100))
    }
    /// Dollars as a float to the nearest cent, ties away from zero; `None` beyond [`Money::MAX`].
    pub fn from_f64(dollars: f64) -> Option<Self> {
        let cents = libm::round(dollars * 100.0);
        (cents.is_finite() && cents.abs() <= Self::MAX.0 as f64).then_some(Self(cents as i64))
    }
    /// The cents.
    pub const fn cents(self) -> i64 {
        self.0
    }
    /// Dollars as a float, for simulation only.
    pub fn dollars(self) -> f64 {
        self.0 as f64 / 100.0
    }
}

impl fmt::Display for Money {
    /// Dollars with thousands separators; cents only where there are any: `$12,340`, `-$3.05`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (dollars, cents) = (self.0.unsigned_abs() / 100, self.0.unsigned_abs() % 100);
        let digits = dollars.to_string();
        let mut grouped = String::new();
        for (i, digit) in digits.chars().enumerate() {
            if i > 0 && (digits.len() - i) % 3 == 0 {
                grouped.push(',');
            }
            grouped.push(digit);
        }
        let sign = if self.0 < 0 { "-" } else { "" };
        let tail = if cents == 0 { String::new() } else { format!(".{cents:02}") };
        f.pad(&format!("{sign}${grouped}{tail}"))
    }
}

impl Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}
impl Sub for Money {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}
impl Neg for Money {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}
impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(terms: I) -> Self {
        terms.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_reads_like_money() {
        let text = |cents| Money::from_cents(cents).to_string();
        assert_eq!(text(1_234_000), "$12,340");
        assert_eq!(text(-305), "-$3.05");
        assert_eq!(text(99_999_999), "$999,999.99");
        assert_eq!(text(0), "$0");
    }
}
