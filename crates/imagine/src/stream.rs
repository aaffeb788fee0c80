//! Seeded streams of random numbers: one for each house and purpose, so that house 7 is the same whether 10 or 10,000
//! are drawn, and a change to how answers go missing moves no wall.

use rand_chacha::ChaCha8Rng;
use rand_core::{Rng as _, SeedableRng as _};
use survey::Digest;
use trade::pert::Pert;

/// ChaCha8 seeded with the SHA-256 of seed, house and purpose; arithmetic by libm only.
pub(crate) struct Stream(ChaCha8Rng);

impl Stream {
    pub(crate) fn new(seed: u64, house: u64, purpose: &str) -> Self {
        let words = format!("underlath simulate|{seed}|{house}|{purpose}");
        Self(ChaCha8Rng::from_seed(*Digest::of(words.as_bytes()).as_bytes()))
    }
    /// In the open interval (0, 1).
    pub(crate) fn share(&mut self) -> f64 {
        // 53 random bits and a half: never 0, never 1.
        ((self.0.next_u64() >> 11) as f64 + 0.5) * (1.0 / 9_007_199_254_740_992.0)
    }
    /// True with probability `p`.
    pub(crate) fn chance(&mut self, p: f64) -> bool {
        self.share() < p
    }
    /// From `low` to `high`.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }
    /// A whole number, both ends included.
    pub(crate) fn whole(&mut self, low: i64, high: i64) -> i64 {
        let span = (high - low).max(0) + 1;
        low + (libm::floor(self.share() * span as f64) as i64).min(span - 1)
    }
    /// Standard normal (Box and Muller, Ann. Math. Statist. 29(2), 1958).
    pub(crate) fn normal(&mut self) -> f64 {
        let radius = libm::sqrt(-2.0 * libm::log(self.share()));
        radius * libm::cos(core::f64::consts::TAU * self.share())
    }
    /// Index of one of several weights; weights that are not above zero are never picked, `None` if none is.
    pub(crate) fn pick(&mut self, weights: impl Iterator<Item = f64> + Clone) -> Option<usize> {
        let total: f64 = weights.clone().filter(|w| *w > 0.0).sum();
        let mut left = self.share() * total;
        let mut last = None;
        for (i, weight) in weights.enumerate().filter(|(_, w)| *w > 0.0) {
            last = Some(i);
            left -= weight;
            if left < 0.0 {
                break;
            }
        }
        last
    }
    /// A draw from a three-point estimate.
    pub(crate) fn pert(&mut self, pert: &Pert) -> f64 {
        pert.quantile(self.share())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_are_met_and_none_picks_none() {
        let mut stream = Stream::new(1, 1, "test");
        let n = 20_000;
        let hits = (0..n).filter(|_| stream.pick([1.0, 0.0, 3.0].into_iter()) == Some(2)).count() as f64;
        // z of a share of 3 in 4.
        assert!((hits - 0.75 * f64::from(n)).abs() < 4.5 * libm::sqrt(f64::from(n) * 0.1875), "{hits}");
        assert_eq!(stream.pick([0.0, -1.0].into_iter()), None);
    }

    /// SHA-256 of the words, then ChaCha with 8 rounds, counter and nonce 0, worked out apart in Python.
    #[test]
    fn the_first_numbers_of_a_stream_never_change() {
        let mut stream = Stream::new(7, 3, "plan");
        let got: Vec<f64> = (0..3).map(|_| stream.share()).collect();
        assert_eq!(got, FROZEN, "{got:?}");
        assert_ne!(Stream::new(7, 4, "plan").share(), FROZEN[0]);
    }
    const FROZEN: [f64; 3] = [0.892_251_096_918_665_4, 0.887_050_391_557_966, 0.757_891_173_593_623_6];
}
