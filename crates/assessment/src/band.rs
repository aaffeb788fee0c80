//! How far the estimate of a condition could lie elsewhere because its base rate is only as sure as what stands behind it.
//!
//! A base rate `p` that weighs as `n` houses is distributed as Beta(n·p, n·(1 − p)); the band holds eight in ten of it.
//! With the answers as they are, the odds of a condition follow those of its base rate by one factor, so both ends are
//! carried over by it. What is judged of the clues is taken as it is, so the band is no wider than that doubt alone.

use survey::catalog::Catalog;
use survey::model::Picture;
use trade::pert::beta_quantile;

use crate::forecast::round6;
use crate::scope::Scoped;

/// The ends: one in ten lies below, one in ten above.
const ENDS: [f64; 2] = [0.1, 0.9];

/// The band around the chance `p` of a condition whose base rate is `base`; none where nothing says what stands behind
/// it, and where either claims certainty.
pub(crate) fn band(
    catalog: &Catalog,
    picture: &Picture,
    scoped: &Scoped<'_>,
    (base, p): (f64, f64),
) -> Option<[f64; 2]> {
    let era = catalog.era().and_then(|era| era.level(picture)).unwrap_or("unknown");
    let standing = catalog.standing("condition", &scoped.condition().id, &format!("prior.{era}"))?;
    carried(standing.weight, base, p)
}

fn carried(weight: f64, base: f64, p: f64) -> Option<[f64; 2]> {
    let inside = |x: f64| x > 0.0 && x < 1.0;
    if !(inside(base) && inside(p) && weight > 0.0) {
        return None;
    }
    let odds = |x: f64| x / (1.0 - x);
    let carry = |q: f64| {
        let end = beta_quantile(weight * base, weight * (1.0 - base), q);
        let at = odds(end) / odds(base) * odds(p);
        round6(if at.is_finite() { at / (1.0 + at) } else { 1.0 })
    };
    Some(ENDS.map(carry))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Beta(1, n) has the quantiles 1 − (1 − q)^(1/n), in closed form.
    #[test]
    fn without_answers_the_band_is_that_of_the_base_rate() {
        let [low, high] = carried(10.0, 0.1, 0.1).unwrap();
        assert!((low - (1.0 - 0.9f64.powf(1.0 / 9.0))).abs() < 1e-6, "{low}");
        assert!((high - (1.0 - 0.1f64.powf(1.0 / 9.0))).abs() < 1e-6, "{high}");
    }

    #[test]
    fn certainty_has_no_band() {
        assert_eq!(carried(10.0, 0.0, 0.5), None);
        assert_eq!(carried(10.0, 0.5, 1.0), None);
        assert_eq!(carried(0.0, 0.5, 0.5), None);
    }

    proptest! {
        #[test]
        fn more_houses_make_it_narrower(base in 0.02..0.98f64, p in 0.02..0.98f64) {
            let [few, many] = [10.0, 1000.0].map(|n| carried(n, base, p).unwrap());
            prop_assert!(few.iter().chain(&many).all(|x| (0.0..=1.0).contains(x)));
            prop_assert!(many[1] - many[0] < few[1] - few[0]);
            prop_assert!(many[0] <= p + 0.05 && p <= many[1] + 0.05, "{p} in {many:?}");
        }
    }
}
