//! Forecasts held against how often they came true, in bins, and the Brier score taken apart along them.
//!
//! A. H. Murphy, Journal of Applied Meteorology 12, 1973; the two terms within the bins: D. B. Stephenson,
//! C. A. S. Coelho, I. T. Jolliffe, Weather and Forecasting 23, 2008.

use super::truth;

/// One bin of forecasts. Without cases its means are 0 and mean nothing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bin {
    /// Cases.
    pub n: usize,
    /// How many of them happened.
    pub happened: usize,
    /// Mean forecast.
    pub mean_p: f64,
    /// Share that happened.
    pub mean_y: f64,
    /// Σ (p − mean p)² within the bin.
    within_variance: f64,
    /// Σ (p − mean p)(y − mean y) within the bin.
    within_covariance: f64,
}

/// The Brier score in parts: score = reliability − resolution + uncertainty + `within_bin_variance`
/// − 2 `within_bin_covariance`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Murphy {
    /// Σ nₖ(p̄ₖ − ȳₖ)²/N: forecasts that are off; 0 is best.
    pub reliability: f64,
    /// Σ nₖ(ȳₖ − ȳ)²/N: how far the bins differ in what happened; more is better.
    pub resolution: f64,
    /// ȳ(1 − ȳ): what the cases themselves leave open.
    pub uncertainty: f64,
    /// ΣΣ (pᵢ − p̄ₖ)²/N.
    pub within_bin_variance: f64,
    /// ΣΣ (pᵢ − p̄ₖ)(yᵢ − ȳₖ)/N.
    pub within_bin_covariance: f64,
    /// Expected calibration error, Σ nₖ|p̄ₖ − ȳₖ|/N.
    pub ece: f64,
    /// Largest |p̄ₖ − ȳₖ| of a bin that has cases.
    pub mce: f64,
}

impl Murphy {
    /// Resolution with what the bins hide: resolution − within-bin variance + 2 within-bin covariance.
    pub fn generalised_resolution(&self) -> f64 {
        self.resolution - self.within_bin_variance + 2.0 * self.within_bin_covariance
    }
    /// The Brier score put together again.
    pub fn brier(&self) -> f64 {
        self.reliability - self.generalised_resolution() + self.uncertainty
    }
}

/// `count` bins of equal width; a forecast p falls into bin min(⌊p·count⌋, count − 1), computed in floating point.
pub fn equal_width(p: &[f64], y: &[bool], count: usize) -> Vec<Bin> {
    let mut members = vec![Vec::new(); count.max(1)];
    let last = members.len() - 1;
    for (p, y) in p.iter().zip(y) {
        // A negative number or none becomes bin 0.
        members[((p * count as f64).floor() as usize).min(last)].push((*p, *y));
    }
    members.iter().map(|m| Bin::of(m)).collect()
}

/// One bin for each distinct forecast, lowest first. Within such bins nothing varies, and three terms are exact.
pub fn by_value(p: &[f64], y: &[bool]) -> Vec<Bin> {
    let mut cases: Vec<(f64, bool)> = p.iter().copied().zip(y.iter().copied()).collect();
    cases.sort_by(|a, b| a.0.total_cmp(&b.0));
    cases.chunk_by(|a, b| a.0 == b.0).map(Bin::of).collect()
}

/// The parts of the Brier score along these bins. `None` without cases.
pub fn murphy(bins: &[Bin]) -> Option<Murphy> {
    let n: usize = bins.iter().map(|b| b.n).sum();
    if n == 0 {
        return None;
    }
    let all = n as f64;
    let rate = bins.iter().map(|b| b.happened).sum::<usize>() as f64 / all;
    let mut parts = Murphy { uncertainty: rate * (1.0 - rate), ..Murphy::default() };
    for bin in bins.iter().filter(|b| b.n > 0) {
        let (share, off, apart) = (bin.n as f64 / all, bin.mean_p - bin.mean_y, bin.mean_y - rate);
        parts.reliability += share * off * off;
        parts.resolution += share * apart * apart;
        parts.within_bin_variance += bin.within_variance / all;
        parts.within_bin_covariance += bin.within_covariance / all;
        parts.ece += share * off.abs();
        parts.mce = parts.mce.max(off.abs());
    }
    Some(parts)
}

impl Bin {
    fn of(cases: &[(f64, bool)]) -> Self {
        let n = cases.len();
        let happened = cases.iter().filter(|(_, y)| *y).count();
        if n == 0 {
            return Self::default();
        }
        let first = cases[0].0;
        // A mean taken from the first case on is exact where all forecasts are the same.
        let mean_p = first + cases.iter().map(|(p, _)| p - first).sum::<f64>() / n as f64;
        let mean_y = happened as f64 / n as f64;
        let mut bin = Self { n, happened, mean_p, mean_y, ..Self::default() };
        for (p, y) in cases {
            bin.within_variance += (p - mean_p) * (p - mean_p);
            bin.within_covariance += (p - mean_p) * (truth(*y) - mean_y);
        }
        bin
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_bin_is_computed_and_not_read_off_edges() {
        // 0.3·10 = 3.0 and 0.7·10 = 7.0 in floating point, though 3·0.1 > 0.3; 0.29·100 = 28.999….
        let at = |p: f64, count| equal_width(&[p], &[true], count).iter().position(|b| b.n == 1).unwrap();
        assert_eq!((at(0.3, 10), at(0.7, 10), at(1.0, 10), at(0.0, 10)), (3, 7, 9, 0));
        assert_eq!((at(0.29, 100), at(0.6, 5)), (28, 3));
        assert_eq!(murphy(&equal_width(&[], &[], 5)), None);
    }

    proptest! {
        /// The identity of Stephenson, Coelho and Jolliffe, and Murphy's with one bin for each forecast.
        #[test]
        fn the_parts_make_the_brier_score(
            cases in proptest::collection::vec((0u32..=20, any::<bool>()), 1..60), count in 1usize..25,
        ) {
            let p: Vec<f64> = cases.iter().map(|c| f64::from(c.0) / 20.0).collect();
            let y: Vec<bool> = cases.iter().map(|c| c.1).collect();
            let brier = super::super::brier(&p, &y).unwrap();
            let wide = murphy(&equal_width(&p, &y, count)).unwrap();
            prop_assert!((wide.brier() - brier).abs() < 1e-12);
            let exact = murphy(&by_value(&p, &y)).unwrap();
            prop_assert!((exact.reliability - exact.resolution + exact.uncertainty - brier).abs() < 1e-12);
            prop_assert_eq!((exact.within_bin_variance, exact.within_bin_covariance), (0.0, 0.0));
        }
    }
}
