//! The normal distribution's cumulative curve.
//!
//! Φ(z) = erfc(−z/√2)/2, which keeps its relative accuracy far into the lower tail (Abramowitz and Stegun,
//! Handbook of Mathematical Functions, 1964, 7.1.2 and 26.2.29).

use core::f64::consts::FRAC_1_SQRT_2;

/// Probability that a standard normal variable is at most `z`; 0 and 1 at the infinities, NaN for NaN.
pub fn phi(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// Probability that a normal variable of mean `mean` and standard deviation `sigma` exceeds `limit`. With no
/// spread the answer is 0 or 1, and exactly at the limit is not over it.
pub fn chance_over(mean: f64, limit: f64, sigma: f64) -> f64 {
    if sigma > 0.0 {
        phi((mean - limit) / sigma)
    } else if mean > limit {
        1.0
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_curve_agrees_with_published_values() {
        // Abramowitz and Stegun 1964, Tables 26.1 and 26.2 (−log10 Q(5)); the digits from memory.
        for (z, p) in [
            (0.0, 0.5),
            (1.0, 0.841_344_746_068_543),
            (2.0, 0.977_249_868_051_821),
            (3.0, 0.998_650_101_968_370),
            (-1.0, 0.158_655_253_931_457),
        ] {
            assert!((phi(z) - p).abs() < 5e-15, "{z}");
        }
        assert!((-libm::log10(phi(-5.0)) - 6.54265).abs() < 5e-6);
    }

    #[test]
    fn without_spread_the_limit_itself_is_not_over() {
        assert_eq!((chance_over(1.0, 1.0, 0.0), chance_over(1.1, 1.0, 0.0)), (0.0, 1.0));
        assert_eq!(chance_over(f64::MAX, -f64::MAX, 1e-300), 1.0);
    }
}
