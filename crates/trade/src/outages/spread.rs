//! How long a task takes and when something is over, in quarter hours of work.

use alloc::{vec, vec::Vec};

use super::days::QUARTERS;
use super::lattice::COURSES;
use crate::pert::Pert;

/// The equally likely times of a task, shortest first: its PERT time to the nearest quarter hour.
#[derive(Clone, PartialEq, Debug)]
pub struct Times {
    quarters: Vec<u16>,
}

impl Times {
    /// The times of a task; what takes longer than `most` quarter hours is counted as one more than that.
    pub fn of(hours: &Pert, most: u16) -> Self {
        let quarter = 1.0 / f64::from(QUARTERS);
        let mut quarters = Vec::with_capacity(COURSES);
        let (mut time, mut by) = (0, hours.cdf(quarter / 2.0));
        for place in 0..COURSES {
            let share = (place as f64 + 0.5) / COURSES as f64;
            while by < share && time <= most {
                time += 1;
                by = hours.cdf((f64::from(time) + 0.5) * quarter);
            }
            quarters.push(time);
        }
        Self { quarters }
    }
    /// The time at a place among them.
    pub fn at(&self, place: usize) -> u16 {
        self.quarters.get(place).copied().unwrap_or_default()
    }
    /// Mean in hours.
    pub fn mean(&self) -> f64 {
        let sum: f64 = self.quarters.iter().map(|q| f64::from(*q)).sum();
        sum / (self.quarters.len().max(1) as f64 * f64::from(QUARTERS))
    }
}

/// When something is over, or how long it lasts: P(at most k quarter hours), k = 0 … horizon.
#[derive(Clone, PartialEq, Debug)]
pub struct Moment {
    by: Vec<f64>,
}

impl Moment {
    /// Of quarter hours, one for each course; what lies beyond the horizon never comes.
    pub fn of(quarters: impl Iterator<Item = usize>, horizon: usize) -> Self {
        let mut counts = vec![0_u32; horizon + 1];
        for quarter in quarters {
            if let Some(count) = counts.get_mut(quarter) {
                *count += 1;
            }
        }
        let mut sum = 0;
        let share = |count: u32| {
            sum += count;
            f64::from(sum) / COURSES as f64
        };
        Self { by: counts.into_iter().map(share).collect() }
    }
    /// P(at most `at`); beyond the horizon what is known at its end.
    pub fn by(&self, at: usize) -> f64 {
        self.by.get(at).or(self.by.last()).copied().unwrap_or(0.0)
    }
    /// The first quarter hour by which it is over with probability `q`; none inside the horizon.
    pub fn quantile(&self, q: f64) -> Option<usize> {
        self.by.iter().position(|p| *p >= q)
    }
    /// P50 and P90.
    pub fn p50_p90(&self) -> [Option<usize>; 2] {
        [0.5, 0.9].map(|q| self.quantile(q))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_rounded_to_the_nearest_quarter_hour() {
        let times = |a, m, b| Times::of(&Pert::new(a, m, b).unwrap(), 400);
        assert_eq!([0, 40_000, COURSES - 1].map(|p| times(1.1, 1.1, 1.1).at(p)), [4; 3]);
        assert_eq!(times(0.0, 0.0, 0.0).at(0), 0);
        // PERT (1, 2, 6): mean 2.5; the quarter hours from 1 to 6.
        let spread = times(1.0, 2.0, 6.0);
        assert!((spread.mean() - 2.5).abs() < 1e-3, "{}", spread.mean());
        assert_eq!((spread.at(0), spread.at(COURSES - 1)), (4, 23)); // the last place is 0.99999: under 5.875 h
        assert!((1..COURSES).all(|p| spread.at(p - 1) <= spread.at(p)));
    }

    #[test]
    fn what_takes_too_long_is_one_over_the_most() {
        let times = Times::of(&Pert::new(1.0, 100.0, 2000.0).unwrap(), 40);
        assert_eq!(times.at(COURSES - 1), 41);
    }

    #[test]
    fn quantiles_are_the_first_to_reach_their_share() {
        let half = (0..COURSES).map(|c| if c % 2 == 0 { 3 } else { 9 });
        let moment = Moment::of(half, 5);
        assert_eq!((moment.quantile(0.5), moment.quantile(0.9)), (Some(3), None));
        assert_eq!((moment.by(2), moment.by(50)), (0.0, 32_761.0 / COURSES as f64));
    }
}
