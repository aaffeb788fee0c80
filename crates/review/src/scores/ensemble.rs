//! Scores of forecasts of an amount that come as a list of equally likely values (draws, "members"), in the amount's
//! own unit. T. Gneiting and A. E. Raftery, Journal of the American Statistical Association 102, 2007.

/// A forecast's draws, sorted, at least one.
#[derive(Clone, Debug, PartialEq)]
pub struct Ensemble {
    sorted: Vec<f64>,
}

/// A closed interval between two quantiles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Probability that it leaves outside, in percent.
    pub outside_percent: u32,
}

impl Ensemble {
    /// Takes the draws in any order. `None` if there is none, or one is no finite number.
    pub fn new(members: &[f64]) -> Option<Self> {
        if members.is_empty() || members.iter().any(|x| !x.is_finite()) {
            return None;
        }
        let mut sorted = members.to_vec();
        sorted.sort_by(f64::total_cmp);
        Some(Self { sorted })
    }

    /// Continuous ranked probability score of the draws' step function: mean |x − y| − ΣΣ|xᵢ − xⱼ| / (2m²).
    pub fn crps(&self, y: f64) -> f64 {
        let m = self.sorted.len() as f64;
        self.distance(y) - self.pair_sum(y) / (m * m)
    }

    /// The same with the pairs divided by m(m − 1), fair to small ensembles: C. A. T. Ferro, Quarterly Journal of the
    /// Royal Meteorological Society 140, 2014. `None` with one draw only.
    pub fn crps_fair(&self, y: f64) -> Option<f64> {
        let m = self.sorted.len() as f64;
        (m > 1.0).then(|| self.distance(y) - self.pair_sum(y) / (m * (m - 1.0)))
    }

    fn distance(&self, y: f64) -> f64 {
        self.sorted.iter().map(|x| (x - y).abs()).sum::<f64>() / self.sorted.len() as f64
    }

    /// Half of ΣΣ|xᵢ − xⱼ|: in order, the k-th of m is subtracted m − 1 − k times and added k times. Measured from `y`,
    /// which changes nothing but keeps the numbers small.
    fn pair_sum(&self, y: f64) -> f64 {
        let m = self.sorted.len() as f64;
        self.sorted.iter().enumerate().map(|(k, x)| (2.0 * k as f64 + 1.0 - m) * (x - y)).sum()
    }

    /// Quantile between neighbors at (m − 1)·percent/100, type 7 of R. J. Hyndman and Y. Fan, American Statistician 50,
    /// 1996.
    pub fn quantile_linear(&self, percent: u32) -> f64 {
        let last = self.sorted.len() - 1;
        let place = last as u64 * u64::from(percent.min(100));
        let (at, rest) = ((place / 100) as usize, (place % 100) as f64 / 100.0);
        let low = self.sorted[at];
        low + rest * (self.sorted[(at + 1).min(last)] - low)
    }

    /// Smallest draw x with F(x) ≥ percent/100, type 1 of Hyndman and Fan; in whole numbers, so that a probability
    /// that is met exactly is not missed by a rounding.
    pub fn quantile_step(&self, percent: u32) -> f64 {
        let m = self.sorted.len() as u64;
        let rank = (m * u64::from(percent.min(100))).div_ceil(100).max(1);
        self.sorted[rank as usize - 1]
    }

    /// Interval between two percents, by [`Ensemble::quantile_linear`].
    pub fn interval(&self, low_percent: u32, high_percent: u32) -> Interval {
        Interval {
            low: self.quantile_linear(low_percent),
            high: self.quantile_linear(high_percent),
            outside_percent: 100u32.saturating_sub(high_percent.saturating_sub(low_percent)),
        }
    }

    /// Where the outcome falls: shares of draws below `y`, and at or below it, [F(y−), F(y)].
    pub fn pit(&self, y: f64) -> [f64; 2] {
        let m = self.sorted.len() as f64;
        let below = self.sorted.partition_point(|x| *x < y) as f64;
        let upto = self.sorted.partition_point(|x| *x <= y) as f64;
        [below / m, upto / m]
    }
}

impl Interval {
    /// Ends included.
    pub fn covers(&self, y: f64) -> bool {
        self.low <= y && y <= self.high
    }
    /// High − low.
    pub fn width(&self) -> f64 {
        self.high - self.low
    }
    /// Width + 2/α · what `y` lies outside, with α the probability left outside; less is better. An interval that
    /// claims to leave nothing outside is scored infinite on a miss.
    pub fn score(&self, y: f64) -> f64 {
        let miss = (self.low - y).max(0.0) + (y - self.high).max(0.0);
        let fine = if miss > 0.0 { 200.0 / f64::from(self.outside_percent) * miss } else { 0.0 };
        self.width() + fine
    }
}

/// Pinball loss of saying `quantile` for the given percent when `y` comes: max(τ(y − q), (τ − 1)(y − q)).
/// R. Koenker and G. Bassett, Econometrica 46, 1978.
pub fn pinball(percent: u32, quantile: f64, y: f64) -> f64 {
    let tau = f64::from(percent) / 100.0;
    (tau * (y - quantile)).max((tau - 1.0) * (y - quantile))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_step_quantile_is_exact_where_rounding_would_miss_it() {
        // 0.07·100 = 7.000000000000001 in floating point; the seventh of a hundred has F = 0.07.
        let hundred = Ensemble::new(&(1..=100).map(f64::from).collect::<Vec<_>>()).unwrap();
        for percent in 1..=100 {
            assert_eq!(hundred.quantile_step(percent), f64::from(percent));
        }
        assert_eq!((hundred.quantile_step(0), hundred.quantile_linear(100)), (1.0, 100.0));
        assert!((hundred.quantile_linear(50) - 50.5).abs() < 1e-12);
    }

    #[test]
    fn a_miss_costs_two_over_alpha() {
        let interval = Interval { low: 10.0, high: 30.0, outside_percent: 20 };
        assert_eq!((interval.score(10.0), interval.score(31.0), interval.score(7.0)), (20.0, 30.0, 50.0));
        assert!(interval.covers(30.0) && !interval.covers(30.5));
        assert_eq!(pinball(80, 5.0, 10.0), 4.0);
        assert_eq!(Ensemble::new(&[]), None);
        assert_eq!(Ensemble::new(&[f64::NAN]), None);
        assert_eq!(Ensemble::new(&[2.0]).unwrap().crps_fair(1.0), None);
    }

    proptest! {
        /// Against the double sum of the definition.
        #[test]
        fn crps_is_its_definition(
            x in proptest::collection::vec(-1000.0..1000.0f64, 1..30), y in -1000.0..1000.0f64,
        ) {
            let m = x.len() as f64;
            let pairs: f64 = x.iter().map(|a| x.iter().map(|b| (a - b).abs()).sum::<f64>()).sum();
            let near = x.iter().map(|x| (x - y).abs()).sum::<f64>() / m;
            let ensemble = Ensemble::new(&x).unwrap();
            prop_assert!((ensemble.crps(y) - (near - pairs / (2.0 * m * m))).abs() < 1e-9);
            if let Some(fair) = ensemble.crps_fair(y) {
                prop_assert!((fair - (near - pairs / (2.0 * m * (m - 1.0)))).abs() < 1e-9);
            }
            let [below, upto] = ensemble.pit(y);
            prop_assert!(0.0 <= below && below <= upto && upto <= 1.0);
        }
    }
}
