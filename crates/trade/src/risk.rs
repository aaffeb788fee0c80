//! Sums of money or time at risk, in closed form: one thing that may happen, and several of them together.
//!
//! A thing that happens with probability p and then costs Y is X = B·Y with B yes or no: E X = pμ and
//! Var X = pσ² + p(1 − p)μ². The P80 of one such thing is 0 as long as p is at most 0.20, so that P80s of single
//! things never add up to the P80 of their sum: take the quantile of the sum. Everything here takes the things as
//! independent; an old house makes many of them worse at once, and then these quantiles are too low.
//!
//! Expected value = probability × impact is the measure of AACE International Recommended Practice 44R-08.

use alloc::vec::Vec;

use survey::Phrase;

use crate::error::{TradeError, finite};
use crate::normal;

/// A probability.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub struct Chance(f64);

impl Chance {
    /// A checked probability.
    ///
    /// # Errors
    /// Not finite, or outside 0 to 1.
    pub fn new(p: f64) -> Result<Self, TradeError> {
        if (0.0..=1.0).contains(&p) {
            Ok(Self(p))
        } else {
            Err(TradeError::OutOfRange {
                what: Phrase("trade-probability"),
                value: p,
                low: 0.0,
                high: 1.0,
                unit: "",
            })
        }
    }
    /// 0 to 1.
    pub const fn get(self) -> f64 {
        self.0
    }
}

/// A mean and a standard deviation, in the unit of what they measure.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Moments {
    /// Mean.
    pub mean: f64,
    /// Standard deviation, not negative.
    pub sd: f64,
}

impl Moments {
    /// Checked moments.
    ///
    /// # Errors
    /// A number that is not finite, or a negative standard deviation.
    pub fn new(mean: f64, sd: f64) -> Result<Self, TradeError> {
        let (mean, sd) =
            (finite(Phrase("trade-mean"), mean)?, finite(Phrase("trade-standard-deviation"), sd)?);
        if sd < 0.0 {
            let (what, unit) = (Phrase("trade-standard-deviation"), "");
            return Err(TradeError::OutOfRange { what, value: sd, low: 0.0, high: f64::MAX, unit });
        }
        Ok(Self { mean, sd })
    }
}

/// Probability × impact.
///
/// # Errors
/// An impact that is not finite.
pub fn expected_value(p: Chance, impact: f64) -> Result<f64, TradeError> {
    Ok(p.get() * finite(Phrase("trade-impact"), impact)?)
}

/// Mean and standard deviation of a thing that happens with probability `p` and then costs what `severity` says.
pub fn item_moments(p: Chance, severity: Moments) -> Moments {
    let p = p.get();
    let variance = p * severity.sd * severity.sd + p * (1.0 - p) * severity.mean * severity.mean;
    Moments { mean: p * severity.mean, sd: libm::sqrt(variance) }
}

/// Whether the quantile `q` of one thing that happens with probability `p` is zero: it costs nothing with probability
/// 1 − p, and that is at least q.
pub fn quantile_is_zero(p: Chance, q: Chance) -> bool {
    1.0 - p.get() >= q.get()
}

/// Mean and standard deviation of the sum of independent things, and its P80 as if the sum were normal: rough while
/// they are few, for the real sum is skewed and starts at zero.
pub fn sum_normal_p80(items: impl IntoIterator<Item = (Chance, Moments)>) -> (Moments, f64) {
    let each: Vec<Moments> = items.into_iter().map(|(p, severity)| item_moments(p, severity)).collect();
    let mean: f64 = each.iter().map(|m| m.mean).sum();
    let sd = libm::sqrt(each.iter().map(|m| m.sd * m.sd).sum());
    (Moments { mean, sd }, mean + normal::quantile(0.8) * sd)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn item(p: f64, mean: f64, sd: f64) -> (Chance, Moments) {
        (Chance::new(p).unwrap(), Moments::new(mean, sd).unwrap())
    }

    #[test]
    fn a_thing_that_may_not_happen_spreads_more_than_one_that_does() {
        // p 0.3, mean 1800, σ 560: 540 and √(0.3·560² + 0.21·1800²) = √(94 080 + 680 400) = 880.05
        let (p, severity) = item(0.3, 1800.0, 560.0);
        let moments = item_moments(p, severity);
        assert!((moments.mean - 540.0).abs() < 1e-9);
        assert!((moments.sd - libm::sqrt(774_480.0)).abs() < 1e-9);
        assert_eq!(item_moments(Chance::new(1.0).unwrap(), severity), severity);
        assert_eq!(expected_value(p, 1800.0).unwrap(), 540.0);
    }

    #[test]
    fn the_p80_of_the_sum_is_not_the_sum_of_the_p80s() {
        // means 540 + 500 + 420; variances 774 480, 0.1·1500² + 0.09·5000² = 2 475 000, 0.6·200² + 0.24·700² = 141 600
        let (sum, p80) =
            sum_normal_p80([item(0.3, 1800.0, 560.0), item(0.1, 5000.0, 1500.0), item(0.6, 700.0, 200.0)]);
        assert!((sum.mean - 1460.0).abs() < 1e-9);
        assert!((sum.sd - libm::sqrt(3_391_080.0)).abs() < 1e-9);
        assert!((p80 - (1460.0 + 0.841_621_233_572_914_2 * sum.sd)).abs() < 1e-9);
        let q = Chance::new(0.8).unwrap();
        assert!(
            quantile_is_zero(Chance::new(0.1).unwrap(), q) && quantile_is_zero(Chance::new(0.2).unwrap(), q)
        );
        assert!(!quantile_is_zero(Chance::new(0.3).unwrap(), q));
        assert_eq!(sum_normal_p80([]).1, 0.0);
    }

    #[test]
    fn what_is_no_chance_or_no_spread_is_refused() {
        for p in [-0.1, 1.1, f64::NAN, f64::INFINITY] {
            assert!(Chance::new(p).is_err(), "{p}");
        }
        assert!(Moments::new(1.0, -1.0).is_err() && Moments::new(f64::NAN, 0.0).is_err());
        assert!(expected_value(Chance::new(0.5).unwrap(), f64::INFINITY).is_err());
    }
}
