//! The two kinds of number tables are made of: plain doubles, and doubles with a wide exponent.
//!
//! Every message is scaled by a power of two, which loses nothing. Plain doubles do for a network unless
//! the entries of one table lie more than 2^700 apart; then a product could fall to zero though it is not
//! zero, and the same passes run again on [`Wide`] numbers. Underflow is never taken for impossibility.

/// Lowest exponent of two, relative to the largest entry, that plain doubles are trusted with.
pub(crate) const ROOM: i32 = -700;

/// How a table was rescaled.
#[derive(Clone, Copy)]
pub(crate) struct Spread {
    /// The table was multiplied by 2^-shift.
    pub(crate) shift: i64,
    /// Exponent of two of the smallest entry above zero, after scaling.
    pub(crate) floor: i32,
}

/// A non-negative number that tables are made of.
pub(crate) trait Number: Copy {
    const ZERO: Self;
    const ONE: Self;
    /// True if the range is that of a double, so that [`ROOM`] must be watched.
    const NARROW: bool;
    fn from_f64(x: f64) -> Self;
    fn times(self, other: Self) -> Self;
    /// Quotient; 0 / 0 is 0, as divided messages need.
    fn over(self, other: Self) -> Self;
    fn plus(self, other: Self) -> Self;
    fn is_zero(self) -> bool;
    /// (m, e) with value m · 2^e.
    fn parts(self) -> (f64, i64);
    /// self / total as a double.
    fn share(self, total: Self) -> f64;
    /// Brings the largest entry near 1; `None` if all entries are zero.
    fn rescale(table: &mut [Self]) -> Option<Spread>;
}

/// Exponent e with x = m · 2^e, 0.5 <= m < 1; x must be above zero.
pub(crate) fn exponent(x: f64) -> i32 {
    libm::frexp(x).1
}

/// Exponents of two of the largest entry and the smallest above zero; `None` if all are zero.
pub(crate) fn reach(values: &[f64]) -> Option<(i32, i32)> {
    let (mut top, mut low) = (0.0f64, f64::INFINITY);
    for x in values {
        top = if *x > top { *x } else { top };
        low = if *x > 0.0 && *x < low { *x } else { low };
    }
    (top > 0.0).then(|| (exponent(top), exponent(low)))
}

impl Number for f64 {
    const ZERO: Self = 0.0;
    const ONE: Self = 1.0;
    const NARROW: bool = true;
    #[inline]
    fn from_f64(x: f64) -> Self {
        x
    }
    #[inline]
    fn times(self, other: Self) -> Self {
        self * other
    }
    #[inline]
    fn over(self, other: Self) -> Self {
        if other == 0.0 { 0.0 } else { self / other }
    }
    #[inline]
    fn plus(self, other: Self) -> Self {
        self + other
    }
    #[inline]
    fn is_zero(self) -> bool {
        self == 0.0
    }
    fn parts(self) -> (f64, i64) {
        (self, 0)
    }
    fn share(self, total: Self) -> f64 {
        self / total
    }
    fn rescale(table: &mut [Self]) -> Option<Spread> {
        let (top, low) = reach(table)?;
        if top != 0 {
            // Two steps, so that neither factor leaves the range of a double.
            let (a, b) = (-top / 2, -top - (-top / 2));
            let (a, b) = (libm::scalbn(1.0, a), libm::scalbn(1.0, b));
            for x in table {
                *x = *x * a * b;
            }
        }
        Some(Spread { shift: i64::from(top), floor: low - top })
    }
}

/// m · 2^(512 e) with 2^-256 <= m < 2^256, or zero as (0, 0).
#[derive(Clone, Copy)]
pub(crate) struct Wide {
    m: f64,
    e: i32,
}

const UP: f64 = f64::from_bits((1023 + 512) << 52);
const DOWN: f64 = f64::from_bits((1023 - 512) << 52);
const TOP: f64 = f64::from_bits((1023 + 256) << 52);
const BOTTOM: f64 = f64::from_bits((1023 - 256) << 52);

impl Wide {
    /// Puts m back into its range; one step is enough for any product, quotient or sum of two in range.
    #[inline]
    fn settled(m: f64, e: i32) -> Self {
        if m >= TOP {
            Self { m: m * DOWN, e: e + 1 }
        } else if m >= BOTTOM {
            Self { m, e }
        } else if m == 0.0 {
            Self::ZERO
        } else {
            Self { m: m * UP, e: e - 1 }
        }
    }
}

impl Number for Wide {
    const ZERO: Self = Self { m: 0.0, e: 0 };
    const ONE: Self = Self { m: 1.0, e: 0 };
    const NARROW: bool = false;
    fn from_f64(x: f64) -> Self {
        // The smallest doubles need two steps to come into range.
        let once = Self::settled(x, 0);
        Self::settled(once.m, once.e)
    }
    fn times(self, other: Self) -> Self {
        Self::settled(self.m * other.m, self.e + other.e)
    }
    fn over(self, other: Self) -> Self {
        if other.m == 0.0 { Self::ZERO } else { Self::settled(self.m / other.m, self.e - other.e) }
    }
    fn plus(self, other: Self) -> Self {
        if self.m == 0.0 {
            return other;
        }
        if other.m == 0.0 {
            return self;
        }
        let (big, small) = if self.e >= other.e { (self, other) } else { (other, self) };
        match big.e - small.e {
            0 => Self::settled(big.m + small.m, big.e),
            1 => Self::settled(big.m + small.m * DOWN, big.e),
            _ => big,
        }
    }
    fn is_zero(self) -> bool {
        self.m == 0.0
    }
    fn parts(self) -> (f64, i64) {
        (self.m, 512 * i64::from(self.e))
    }
    fn share(self, total: Self) -> f64 {
        let q = self.over(total);
        match q.e {
            0 => q.m,
            -1 => q.m * DOWN,
            1 => q.m * UP,
            -2 => q.m * DOWN * DOWN,
            2 => q.m * UP * UP,
            e if e > 0 => f64::INFINITY,
            _ => 0.0,
        }
    }
    fn rescale(table: &mut [Self]) -> Option<Spread> {
        table.iter().any(|x| x.m > 0.0).then_some(Spread { shift: 0, floor: 0 })
    }
}

/// A running product m · 2^e that neither overflows nor underflows.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scale {
    m: f64,
    e: i64,
}

impl Scale {
    pub(crate) const ONE: Self = Self { m: 1.0, e: 0 };

    /// Multiplies by m · 2^e, m above zero.
    pub(crate) fn times(&mut self, m: f64, e: i64) {
        let (a, i) = libm::frexp(m);
        // Between sqrt(1/2) and sqrt(2): the logarithm of a product near 1 is then exact near 0.
        let (mut m, k) = libm::frexp(self.m * a);
        let mut k = i64::from(k) + i64::from(i);
        if m < core::f64::consts::FRAC_1_SQRT_2 {
            m *= 2.0;
            k -= 1;
        }
        *self = Self { m, e: self.e + k + e };
    }

    /// (m, e) with value m · 2^e.
    pub(crate) fn parts(self) -> (f64, i64) {
        (self.m, self.e)
    }

    /// Natural logarithm.
    pub(crate) fn ln(self) -> f64 {
        self.e as f64 * core::f64::consts::LN_2 + libm::log(self.m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Back to a double, where it fits.
    fn value(w: Wide) -> f64 {
        w.share(Wide::ONE)
    }

    #[test]
    fn wide_numbers_compute_like_doubles_where_doubles_reach() {
        let list = [1.0, 0.3, 1e-300, 7e200, 5e-324, 2.2e-308, 1e154, 1e-154];
        for a in list {
            assert_eq!(value(Wide::from_f64(a)), a);
            for b in list {
                let (x, y) = (Wide::from_f64(a), Wide::from_f64(b));
                for (ours, theirs) in
                    [(x.times(y), a * b), (x.plus(y), a + b), (x.over(y), a / b), (y.plus(x), a + b)]
                {
                    // Where a double is subnormal or overflows, the wide number is the better one.
                    if theirs.is_normal() {
                        assert!((value(ours) / theirs - 1.0).abs() < 1e-15, "{a} {b}");
                    }
                }
            }
        }
    }

    #[test]
    fn wide_numbers_go_far_beyond_doubles_and_back() {
        let mut x = Wide::ONE;
        (0..1000).for_each(|_| x = x.times(Wide::from_f64(1e-300)));
        assert!(!x.is_zero());
        (0..1000).for_each(|_| x = x.over(Wide::from_f64(1e-300)));
        assert!((value(x) - 1.0).abs() < 1e-12);
        assert!(Wide::ZERO.over(Wide::ZERO).is_zero() && Wide::ONE.plus(Wide::ZERO).m == 1.0);
    }

    #[test]
    fn rescaling_is_exact_and_told() {
        let mut table = [0.0, 3e-310, 5e-300];
        let spread = <f64 as Number>::rescale(&mut table).unwrap();
        assert!(table[2] >= 0.5 && table[2] < 1.0);
        assert_eq!(libm::scalbn(table[2], spread.shift as i32), 5e-300);
        assert_eq!(libm::scalbn(table[1], spread.shift as i32), 3e-310);
        assert_eq!(exponent(table[1]), spread.floor);
        assert!(<f64 as Number>::rescale(&mut [0.0, 0.0]).is_none());
    }

    #[test]
    fn a_running_product_keeps_its_logarithm() {
        let mut scale = Scale::ONE;
        (0..10_000).for_each(|_| scale.times(1e-3, 0));
        assert!((scale.ln() - 10_000.0 * 1e-3f64.ln()).abs() < 1e-7);
        assert_eq!(Scale::ONE.ln(), 0.0);
    }
}
