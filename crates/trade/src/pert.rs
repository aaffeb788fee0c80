//! The PERT distribution with shape 4: a beta distribution stretched over [low, high] with the given likely value.
//!
//! alpha = 1 + 4(m−a)/(b−a), beta = 1 + 4(b−m)/(b−a); mean (a+4m+b)/6; variance (μ−a)(b−μ)/7.
//! The incomplete beta function follows the continued fraction of the NIST Digital Library of Mathematical
//! Functions, 8.17.22, evaluated by the modified Lentz method.

mod quantiles;

use survey::{Said, say};

pub use quantiles::Quantiles;

/// A three-point estimate: low ≤ likely ≤ high, all finite.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pert {
    low: f64,
    high: f64,
    alpha: f64,
    beta: f64,
}

/// Three numbers that are no estimate.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("{low} / {likely} / {high} is not a three-point estimate; it needs low ≤ likely ≤ high")]
pub struct PertError {
    /// The low value given.
    pub low: f64,
    /// The likely value given.
    pub likely: f64,
    /// The high value given.
    pub high: f64,
}

impl PertError {
    /// The same, to be said.
    pub fn said(&self) -> Said {
        let three = alloc::format!("{} / {} / {}", self.low, self.likely, self.high);
        say!("trade-not-three-point-estimate", three = three)
    }
}

impl Pert {
    /// Checks the order; low = high is allowed and means a fixed value.
    pub fn new(low: f64, likely: f64, high: f64) -> Result<Self, PertError> {
        if !(low.is_finite() && high.is_finite() && low <= likely && likely <= high) {
            return Err(PertError { low, likely, high });
        }
        let span = high - low;
        let (alpha, beta) = if span > 0.0 {
            (1.0 + 4.0 * (likely - low) / span, 1.0 + 4.0 * (high - likely) / span)
        } else {
            (3.0, 3.0)
        };
        Ok(Self { low, high, alpha, beta })
    }
    /// A value that is certain.
    pub fn fixed(value: f64) -> Self {
        Self { low: value, high: value, alpha: 3.0, beta: 3.0 }
    }
    fn span(&self) -> f64 {
        self.high - self.low
    }
    /// Mean (a + 4m + b) / 6.
    pub fn mean(&self) -> f64 {
        self.low + self.span() * self.alpha / (self.alpha + self.beta)
    }
    /// Variance (μ − a)(b − μ) / 7.
    pub fn variance(&self) -> f64 {
        (self.mean() - self.low) * (self.high - self.mean()) / 7.0
    }
    /// First shape of the beta distribution, 1 + 4(m − a)/(b − a); 3 where the value is fixed.
    pub fn alpha(&self) -> f64 {
        self.alpha
    }
    /// Second shape of the beta distribution, 1 + 4(b − m)/(b − a); 3 where the value is fixed.
    pub fn beta(&self) -> f64 {
        self.beta
    }
    /// Low value a.
    pub fn low(&self) -> f64 {
        self.low
    }
    /// High value b.
    pub fn high(&self) -> f64 {
        self.high
    }
    /// Standard deviation of the beta distribution, √((μ − a)(b − μ)/7).
    pub fn sd(&self) -> f64 {
        libm::sqrt(self.variance())
    }
    /// The classic rule for the standard deviation, (b − a)/6: a rule of thumb from 1959 that is too small where the
    /// likely value lies midway and too large where it lies at an end.
    pub fn classic_sd(&self) -> f64 {
        self.span() / 6.0
    }
    /// The same estimate in another unit: every value times a factor that is not negative.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        Self { low: self.low * factor, high: self.high * factor, ..*self }
    }
    /// P(X ≤ x).
    pub fn cdf(&self, x: f64) -> f64 {
        if x >= self.high {
            1.0
        } else if x < self.low {
            0.0
        } else {
            incomplete_beta(self.alpha, self.beta, (x - self.low) / self.span())
        }
    }
    /// Smallest x with P(X ≤ x) ≥ q, by bisection to the last bit that matters (2⁻⁶⁰ of the range).
    pub fn quantile(&self, q: f64) -> f64 {
        self.low + self.span() * beta_quantile(self.alpha, self.beta, q)
    }
    /// E[(X − k)+], in closed form: the partial mean of a beta distribution is again an incomplete beta function.
    pub fn excess(&self, k: f64) -> f64 {
        if k <= self.low {
            return self.mean() - k;
        }
        if k >= self.high {
            return 0.0;
        }
        let u = (k - self.low) / self.span();
        let tail = 1.0 - incomplete_beta(self.alpha, self.beta, u);
        let tail_mean =
            self.alpha / (self.alpha + self.beta) * (1.0 - incomplete_beta(self.alpha + 1.0, self.beta, u));
        libm::fmax(self.span() * (tail_mean - u * tail), 0.0)
    }
}

/// The value a share stays within with probability `q` when it is distributed as Beta(a, b), by bisection to the last
/// bit that matters (2⁻⁶⁰).
pub fn beta_quantile(a: f64, b: f64, q: f64) -> f64 {
    let (mut below, mut above) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (below + above);
        if incomplete_beta(a, b, middle) < q { below = middle } else { above = middle }
    }
    above
}

/// The regularized incomplete beta function I_x(a, b).
fn incomplete_beta(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if x >= 1.0 {
        return 1.0;
    }
    let front = libm::exp(
        libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b) + a * libm::log(x) + b * libm::log1p(-x),
    );
    if x < (a + 1.0) / (a + b + 2.0) {
        front * continued_fraction(a, b, x) / a
    } else {
        1.0 - front * continued_fraction(b, a, 1.0 - x) / b
    }
}

fn continued_fraction(a: f64, b: f64, x: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let nonzero = |v: f64| if libm::fabs(v) < TINY { TINY } else { v };
    let mut c = 1.0;
    let mut d = 1.0 / nonzero(1.0 - (a + b) * x / (a + 1.0));
    let mut h = d;
    for m in 1..400 {
        let m = f64::from(m);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / nonzero(1.0 + even * d);
        c = nonzero(1.0 + even / c);
        h *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / nonzero(1.0 + odd * d);
        c = nonzero(1.0 + odd / c);
        let step = d * c;
        h *= step;
        if libm::fabs(step - 1.0) < 1e-16 {
            break;
        }
    }
    h
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_and_quantiles_agree_with_scipy() {
        // scipy.stats.beta, (800, 1500, 4000): mean 1800, exact standard deviation 560.61,
        // P10 1113.85, P50 1729.89, P80 2289.22, P90 2592.00.
        let pert = Pert::new(800.0, 1500.0, 4000.0).unwrap();
        assert!((pert.mean() - 1800.0).abs() < 1e-9);
        assert!((libm::sqrt(pert.variance()) - 560.61).abs() < 5e-3);
        for (q, x) in [(0.1, 1113.85), (0.5, 1729.89), (0.8, 2289.22), (0.9, 2592.00)] {
            assert!((pert.quantile(q) - x).abs() < 5e-3, "P{q}: {}", pert.quantile(q));
        }
    }

    #[test]
    fn the_classic_spread_is_a_sixth_of_the_range() {
        // Malcolm, Roseboom, Clark and Fazar, Operations Research 7(5), 1959; exact values from scipy.stats.beta.
        for (a, m, b, classic, exact) in
            [(800.0, 1500.0, 4000.0, 533.333_333, 560.611_9), (10.0, 20.0, 30.0, 3.333_333, 3.779_645)]
        {
            let pert = Pert::new(a, m, b).unwrap();
            assert!((pert.classic_sd() - classic).abs() < 1e-5 && (pert.sd() - exact).abs() < 1e-4);
        }
        let skewed = Pert::new(1000.0, 1000.0, 5000.0).unwrap();
        assert_eq!((skewed.alpha(), skewed.beta()), (1.0, 5.0));
        let minutes = skewed.times(60.0);
        assert_eq!((minutes.low(), minutes.high(), minutes.alpha()), (60_000.0, 300_000.0, 1.0));
    }

    #[test]
    fn the_excess_is_the_integral_of_the_tail() {
        let pert = Pert::new(120.0, 280.0, 700.0).unwrap();
        for k in [0.0, 120.0, 200.0, 350.0, 699.0, 800.0] {
            let steps = 100_000;
            let width = (700.0f64.max(k) - k) / f64::from(steps);
            let integral: f64 =
                (0..steps).map(|i| (1.0 - pert.cdf(k + (f64::from(i) + 0.5) * width)) * width).sum();
            assert!((pert.excess(k) - integral).abs() < 1e-4, "k {k}: {} {integral}", pert.excess(k));
        }
    }

    #[test]
    fn three_numbers_out_of_order_are_refused() {
        for (a, m, b) in [(2.0, 1.0, 3.0), (1.0, 4.0, 3.0), (f64::NAN, 1.0, 2.0)] {
            assert!(Pert::new(a, m, b).is_err());
        }
        assert_eq!(Pert::new(5.0, 5.0, 5.0).unwrap().mean(), 5.0);
    }
}
