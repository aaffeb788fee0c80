//! The one factor on base odds, learned from reviewed jobs: what was expected of each house beside what it came to.
//!
//! Were the base odds x times what they were, a condition forecast at p would stand at p·x/(1 − p + p·x), because all
//! other evidence multiplies odds; so a house whose unknown was forecast at m would have been forecast at m(x). The
//! proposed x solves
//!
//! Σ (aₕ − mₕ(x)) + w·(m̄(1) − m̄(x)) = 0
//!
//! over the jobs h with actual sums aₕ, m̄ being the mean of mₕ: the jobs and w further ones, the weight of the catalog's
//! number, that came out exactly as expected. With few jobs x therefore stays near 1.
//! Its logarithm has the standard error √((n + w)·v)/D, where v is the mean square of aₕ − mₕ(x), the w further jobs
//! counting with the variance that the forecasts themselves state, and D the slope of the mₕ and of w·m̄ in ln x (delta
//! method). The interval is 90 %, normal in the logarithm.
//!
//! What stands apart: the conditions of a house are moved one by one, what they tell of each other is left out; places
//! that were never opened count as no cost, as they were none to the firm.

use assessment::Forecast;
use survey::catalog::BaseOdds;

use crate::scores::wilson::NINETY;

/// Below this number of jobs the figure is mostly the catalog's and luck.
pub const SMALL: usize = 20;
/// Factors looked among, against the one in use.
const REACH: f64 = 1e3;
const HALVINGS: u32 = 60;

/// One reviewed job.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Forecast mean of the unknown, dollars.
    pub expected: f64,
    /// Forecast standard deviation, dollars.
    pub spread: f64,
    /// What the unknown came to, dollars.
    pub actual: f64,
    /// Conditions the factor moves: P(present), and dollars expected if it is there.
    pub moved: Vec<[f64; 2]>,
    /// Dollars expected of the others.
    pub fixed: f64,
}

/// A factor proposed from jobs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proposal {
    /// Jobs it rests on.
    pub jobs: usize,
    /// Weight of the catalog's own factor, in jobs.
    pub weight: f64,
    /// Factor in use.
    pub now: f64,
    /// Factor proposed.
    pub factor: f64,
    /// 90 % interval.
    pub interval: [f64; 2],
    /// Σ actual / Σ expected.
    pub ratio: f64,
    /// True while the jobs are fewer than [`SMALL`].
    pub small: bool,
}

impl Job {
    /// A job from its frozen forecast and what it came to. Base odds the factor does not touch, and probabilities that a
    /// calculation gave, stay fixed.
    pub fn of(forecast: &Forecast, odds: &BaseOdds, actual: f64) -> Self {
        let mut job = Self {
            expected: forecast.money.mean.dollars(),
            spread: forecast.money.standard_errors[0].dollars() * libm::sqrt(f64::from(forecast.draws)),
            actual,
            moved: Vec::new(),
            fixed: 0.0,
        };
        for c in forecast.conditions.iter().filter(|c| !c.in_base_price) {
            let [low, likely, high] = c.cost.map(|m| m.dollars());
            let dollars = c.p_cost * (low + 4.0 * likely + high) / 6.0;
            if c.measured_by.is_some() || odds.factor_for(&c.id) == 1.0 && odds.factor != 1.0 {
                job.fixed += c.probability * dollars;
            } else {
                job.moved.push([c.probability, dollars]);
            }
        }
        job
    }

    /// Forecast mean had the base odds been `x` times what they were, and its slope in ln x. Scaled to the frozen mean
    /// at 1, which leaves out what one condition's cost holds of another's.
    fn at(&self, x: f64) -> [f64; 2] {
        let sums = |x: f64| {
            self.moved.iter().fold([self.fixed, 0.0], |[sum, slope], [p, dollars]| {
                let q = p * x / (1.0 - p + p * x);
                [sum + q * dollars, slope + q * (1.0 - q) * dollars]
            })
        };
        let whole = sums(1.0)[0];
        let scale = if whole > 0.0 { self.expected / whole } else { 0.0 };
        sums(x).map(|sum| sum * scale)
    }
}

/// The factor that jobs propose in place of `now`, the catalog's own counting as `weight` jobs. `None` without jobs, or
/// when the factor moves nothing in them.
pub fn propose(jobs: &[Job], now: f64, weight: f64) -> Option<Proposal> {
    let n = jobs.len() as f64;
    let total = |f: &dyn Fn(&Job) -> f64| -> f64 { jobs.iter().map(f).sum() };
    let (actual, expected) = (total(&|j| j.actual), total(&|j| j.expected));
    let pull = 1.0 + weight / n;
    let slope = |x: f64| total(&|j| j.at(x)[1]) * pull;
    if jobs.is_empty() || slope(1.0) <= 0.0 {
        return None;
    }
    // Σa + w·m̄(1) is met by (1 + w/n)·Σm(x), which rises in x.
    let wanted = actual + weight / n * expected;
    let (mut below, mut above) = (-libm::log(REACH), libm::log(REACH));
    for _ in 0..HALVINGS {
        let middle = 0.5 * (below + above);
        if total(&|j| j.at(libm::exp(middle))[0]) * pull < wanted { below = middle } else { above = middle }
    }
    let x = libm::exp(0.5 * (below + above));
    let off = total(&|j| {
        let off = j.actual - j.at(x)[0];
        off * off
    });
    let stated = total(&|j| j.spread * j.spread) / n;
    let v = (off + weight * stated) / (n + weight);
    let error = libm::sqrt((n + weight) * v) / slope(x);
    let factor = now * x;
    Some(Proposal {
        jobs: jobs.len(),
        weight,
        now,
        factor,
        interval: [-NINETY, NINETY].map(|z| factor * libm::exp(z * error)),
        ratio: if expected > 0.0 { actual / expected } else { f64::NAN },
        small: jobs.len() < SMALL,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A small generator of its own, for simulated firms.
    struct Luck(u64);

    impl Luck {
        fn next(&mut self) -> f64 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 11) as f64 / 9_007_199_254_740_992.0
        }
    }

    /// Houses forecast with one factor while the truth has base odds `truth` times as high.
    fn firm(jobs: usize, truth: f64, seed: u64) -> Vec<Job> {
        let mut luck = Luck(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15));
        luck.next();
        (0..jobs)
            .map(|_| {
                let moved: Vec<[f64; 2]> = (0..40)
                    .map(|_| [0.02 + 0.5 * luck.next() * luck.next(), 300.0 + 2_500.0 * luck.next()])
                    .collect();
                let mut job =
                    Job { expected: 0.0, spread: 0.0, actual: 0.0, moved: Vec::new(), fixed: 0.25 * 2_000.0 };
                job.expected = job.fixed;
                let mut variance = 0.25 * 0.75 * 2_000.0 * 2_000.0;
                job.actual = if luck.next() < 0.25 { 2_000.0 } else { 0.0 };
                for [p, dollars] in &moved {
                    let q = p * truth / (1.0 - p + p * truth);
                    job.expected += p * dollars;
                    variance += p * (1.0 - p) * dollars * dollars;
                    job.actual += if luck.next() < q { *dollars } else { 0.0 };
                }
                job.spread = variance.sqrt();
                Job { moved, ..job }
            })
            .collect()
    }

    #[test]
    fn a_known_factor_is_found_and_its_interval_holds_it_nine_times_in_ten() {
        for truth in [0.5, 1.0, 1.8] {
            let mut held = 0;
            let mut found = 0.0;
            for seed in 1..=200 {
                let got = propose(&firm(200, truth, seed), 0.53, 10.0).unwrap();
                let [low, high] = got.interval;
                held += u32::from((low..=high).contains(&(0.53 * truth)));
                found += got.factor.ln() / 200.0;
            }
            // The ten pseudo-jobs among 210 pull a little; five standard errors of a share of 0.9 in 200 are 0.11.
            assert!((found.exp() / (0.53 * truth) - 1.0).abs() < 0.05, "{truth}: {}", found.exp());
            assert!((158..=200).contains(&held), "{truth}: {held} of 200 intervals hold it");
        }
    }

    #[test]
    fn few_jobs_move_the_factor_little_and_are_said_to_be_few() {
        let far = |jobs: usize| propose(&firm(jobs, 2.5, 7), 0.53, 10.0).unwrap();
        let (few, many) = (far(3), far(150));
        assert!(few.small && !many.small && (few.jobs, few.weight) == (3, 10.0));
        assert!(0.53 < few.factor && few.factor < many.factor, "{few:?} {many:?}");
        let width = |p: &Proposal| (p.interval[1] / p.interval[0]).ln();
        assert!(width(&few) > 2.0 * width(&many));
        // Without the weight of the catalog three jobs would have moved it further.
        assert!(propose(&firm(3, 2.5, 7), 0.53, 0.0).unwrap().factor > few.factor);
    }

    #[test]
    fn jobs_that_came_out_as_expected_leave_the_factor_where_it_is() {
        let mut jobs = firm(30, 1.0, 3);
        jobs.iter_mut().for_each(|j| j.actual = j.expected);
        let got = propose(&jobs, 0.53, 10.0).unwrap();
        assert!((got.factor - 0.53).abs() < 1e-9 && (got.ratio - 1.0).abs() < 1e-12, "{got:?}");
    }

    #[test]
    fn by_hand_one_job_with_one_condition() {
        // p = 0.2 of $1,000, came to $1,000; weight 1: (1,000 + 200)/2 = 600 = 1,000·q, q = 0.6, odds 1.5 against 0.25.
        let job =
            Job { expected: 200.0, spread: 400.0, actual: 1_000.0, moved: vec![[0.2, 1_000.0]], fixed: 0.0 };
        let got = propose(&[job], 0.5, 1.0).unwrap();
        assert!((got.factor - 3.0).abs() < 1e-9, "{got:?}");
        // v = (400² + 400²)/2, D = 2·1,000·0.6·0.4: √2·400/480.
        let error = 2.0f64.sqrt() * 400.0 / 480.0;
        assert!((got.interval[1] - 3.0 * (NINETY * error).exp()).abs() < 1e-6, "{got:?}");
    }

    #[test]
    fn no_jobs_and_jobs_without_anything_to_move_propose_nothing() {
        assert_eq!(propose(&[], 0.53, 10.0), None);
        let fixed = Job { expected: 100.0, spread: 1.0, actual: 300.0, moved: vec![], fixed: 100.0 };
        assert_eq!(propose(&[fixed], 0.53, 10.0), None);
    }
}
