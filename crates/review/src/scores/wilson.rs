//! The band around a share that was counted: E. B. Wilson, Journal of the American Statistical Association 22, 1927.
//!
//! It stays within 0 and 1 and keeps a width where none or all happened, which the usual ± does not. Cases are taken as
//! independent; outcomes of one house are not quite, so that the true band is somewhat wider.

/// Half the width of a 95 % interval in standard errors (normal distribution).
pub const NINETY_FIVE: f64 = 1.959_963_984_540_054;
/// Half the width of a 90 % interval in standard errors.
pub const NINETY: f64 = 1.644_853_626_951_472_7;

/// The band around `happened` of `n`, `z` standard errors to each side. `None` without cases.
pub fn wilson(happened: usize, n: usize, z: f64) -> Option<[f64; 2]> {
    if n == 0 {
        return None;
    }
    let (k, all) = (happened.min(n) as f64, n as f64);
    let (share, square) = (k / all, z * z);
    let middle = (k + square / 2.0) / (all + square);
    let half = z / (all + square) * libm::sqrt(all * share * (1.0 - share) + square / 4.0);
    // At none and at all one end is exact; rounding must not carry it across.
    let low = if happened == 0 { 0.0 } else { (middle - half).max(0.0) };
    let high = if happened >= n { 1.0 } else { (middle + half).min(1.0) };
    Some([low, high])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reference bands by scipy.stats.binomtest; the version stands in the file.
    #[test]
    fn bands_are_those_of_scipy() {
        let file: serde_json::Value =
            serde_json::from_str(include_str!("../../../../tests/vectors/review/wilson.json")).unwrap();
        let cases = file["cases"].as_array().unwrap();
        assert!(cases.len() > 10);
        for case in cases {
            let count = |key: &str| case[key].as_u64().unwrap() as usize;
            for (key, z) in [("band_90", NINETY), ("band_95", NINETY_FIVE)] {
                let got = wilson(count("happened"), count("n"), z).unwrap();
                for (got, wanted) in got.iter().zip(case[key].as_array().unwrap()) {
                    assert!((got - wanted.as_f64().unwrap()).abs() < 1e-12, "{} {key}: {got}", case["id"]);
                }
            }
        }
        assert_eq!(wilson(0, 0, NINETY_FIVE), None);
    }
}
