//! Exact fractions for one length: every step is checked, so that an absurd number of digits is an error and
//! never a wrong value.

/// A fraction in lowest terms with a positive denominator.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Ratio {
    num: i128,
    den: i128,
}

impl Ratio {
    /// `num / den`; none if the denominator is not positive.
    pub(super) fn new(num: i128, den: i128) -> Option<Self> {
        if den <= 0 {
            return None;
        }
        let divisor = gcd(num.checked_abs()?, den);
        Some(Self { num: num / divisor, den: den / divisor })
    }
    /// A decimal such as `36`, `36.`, `.5`, `1.25`; none if it is no decimal or has too many digits.
    pub(super) fn decimal(text: &str) -> Option<Self> {
        let (whole, places) = text.split_once('.').unwrap_or((text, ""));
        let places = places.trim_end_matches('0');
        let digits = format!("{whole}{places}");
        let den = 10_i128.checked_pow(u32::try_from(places.len()).ok()?)?;
        Self::new(digits.parse().ok()?, den)
    }
    /// The sum; none on overflow.
    pub(super) fn plus(self, other: Self) -> Option<Self> {
        let left = self.num.checked_mul(other.den)?;
        let right = other.num.checked_mul(self.den)?;
        Self::new(left.checked_add(right)?, self.den.checked_mul(other.den)?)
    }
    /// The product with a whole number; none on overflow.
    pub(super) fn times(self, factor: i128) -> Option<Self> {
        Self::new(self.num.checked_mul(factor)?, self.den)
    }
    /// Nearest whole number, ties away from zero, and whether it is exact; none on overflow.
    pub(super) fn round(self) -> Option<(i128, bool)> {
        let doubled = self.num.checked_abs()?.checked_mul(2)?.checked_add(self.den)?;
        let magnitude = doubled / self.den.checked_mul(2)?;
        Some((magnitude * self.num.signum(), self.den == 1))
    }
    /// The fraction as a float, once.
    pub(super) fn float(self) -> f64 {
        self.num as f64 / self.den as f64
    }
}

fn gcd(mut a: i128, mut b: i128) -> i128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
