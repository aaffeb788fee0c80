//! Exact lengths. One unit holds inches and metric exactly: an eighth of a micrometer.
//!
//! 1 in = 25.4 mm exactly (NIST Handbook 44, Appendix C), so 1/64 in = 3,175 and 1 mm = 8,000 of these.

use core::iter::Sum;
use core::ops::{Add, Neg, Sub};

use serde::{Deserialize, Serialize};

/// A length or a height, as a whole count of 1/8 µm. May be negative where a difference is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Length(i64);

impl Length {
    /// 1/8 µm in one inch.
    pub const PER_INCH: i64 = 203_200;
    /// 1/8 µm in one millimeter.
    pub const PER_MM: i64 = 8_000;
    /// No length.
    pub const ZERO: Self = Self(0);
    /// The longest length accepted from a person: about 6.2 miles, far beyond any house.
    pub const MAX: Self = Self(80_000_000_000);

    /// A whole count of 1/8 µm.
    pub const fn from_eighth_um(count: i64) -> Self {
        Self(count)
    }
    /// Whole sixty-fourths of an inch.
    pub const fn from_sixty_fourths(count: i64) -> Self {
        Self(count * 3_175)
    }
    /// Nearest length to a number of inches; `None` if not finite or beyond [`Length::MAX`].
    pub fn from_inches(inches: f64) -> Option<Self> {
        let count = libm::round(inches * Self::PER_INCH as f64);
        (count.is_finite() && count.abs() <= Self::MAX.0 as f64).then_some(Self(count as i64))
    }
    /// The exact count of 1/8 µm.
    pub const fn eighth_um(self) -> i64 {
        self.0
    }
    /// Inches as a float, for formulas.
    pub fn inches(self) -> f64 {
        self.0 as f64 / Self::PER_INCH as f64
    }
    /// Millimeters as a float.
    pub fn mm(self) -> f64 {
        self.0 as f64 / Self::PER_MM as f64
    }
    /// In millimeters with all its digits: reading it gives the same length.
    pub fn exact_mm(self) -> String {
        let (count, per) = (self.0.unsigned_abs(), Self::PER_MM.unsigned_abs());
        let sign = if self.0 < 0 { "-" } else { "" };
        let text = format!("{sign}{}.{:06}", count / per, count % per * (1_000_000 / per));
        format!("{} mm", text.trim_end_matches('0').trim_end_matches('.'))
    }
    /// Without its sign.
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}
impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}
impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}
impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(terms: I) -> Self {
        terms.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inches_and_millimeters_are_both_exact() {
        assert_eq!(Length::from_sixty_fourths(64).eighth_um(), Length::PER_INCH);
        assert_eq!(Length::from_sixty_fourths(1240).eighth_um(), 3_937_000); // 19 3/8 in
        assert_eq!(Length::from_eighth_um(3_937_000).mm(), 492.125);
    }

    #[test]
    fn what_is_not_a_length_is_none() {
        for bad in [f64::NAN, f64::INFINITY, 1e12, -1e12] {
            assert_eq!(Length::from_inches(bad), None);
        }
    }

    #[test]
    fn lengths_are_written_exactly() {
        for (sixty_fourths, text) in [(64, "25.4 mm"), (1240, "492.125 mm"), (-16, "-6.35 mm"), (0, "0 mm")] {
            assert_eq!(Length::from_sixty_fourths(sixty_fourths).exact_mm(), text);
        }
        assert_eq!(Length::from_eighth_um(1).exact_mm(), "0.000125 mm");
    }
}
