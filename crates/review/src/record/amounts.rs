//! Money and days: how far the forecast lay off, and how often the outcome stayed within P50, P80, P90.

use serde::Serialize;
use survey::SurveyId;

use super::house::JudgedSum;
use super::summary::SMALL_OUTCOMES;
use crate::scores::ensemble::{Ensemble, pinball};
use crate::scores::wilson::{NINETY_FIVE, wilson};

const PERCENTS: [u32; 3] = [50, 80, 90];

/// Amounts of some houses. Where a place stayed closed the sum is only what was seen and lies low; such houses stand
/// apart, so that they never make a forecast look right.
#[derive(Clone, Debug, PartialEq, Default, Serialize)]
pub struct Amounts {
    /// Houses in which everything forecast was opened.
    pub whole: Option<AmountScores>,
    /// Houses in which a place stayed closed: what they came to is a lower limit.
    pub in_part: Option<AmountScores>,
}

/// Scores of one kind of amount, in its own unit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AmountScores {
    /// Their houses.
    pub houses: Vec<SurveyId>,
    /// Mean continuous ranked probability score; none where a frozen forecast has no shape.
    pub crps: Option<f64>,
    /// Mean of what it came to.
    pub actual: f64,
    /// Mean pinball loss of P50, P80, P90.
    pub pinball: [f64; 3],
    /// How many stayed at or below P50, P80, P90.
    pub within: [u32; 3],
    /// 95 % bands around those shares.
    pub bands: [[f64; 2]; 3],
    /// True below [`SMALL_OUTCOMES`] houses.
    pub small: bool,
}

impl Amounts {
    /// Scores the sums of some houses.
    pub fn of<'a>(sums: impl Iterator<Item = (SurveyId, &'a JudgedSum)>) -> Self {
        let (whole, in_part): (Vec<_>, Vec<_>) = sums.partition(|(_, s)| s.whole);
        Self { whole: scored(&whole), in_part: scored(&in_part) }
    }
}

fn scored(sums: &[(SurveyId, &JudgedSum)]) -> Option<AmountScores> {
    if sums.is_empty() {
        return None;
    }
    let n = sums.len();
    let mean = |f: &dyn Fn(&JudgedSum) -> f64| sums.iter().map(|(_, s)| f(s)).sum::<f64>() / n as f64;
    let crps: Option<Vec<f64>> =
        sums.iter().map(|(_, s)| Some(Ensemble::new(&s.members)?.crps(s.actual))).collect();
    let within = [0, 1, 2].map(|k| sums.iter().filter(|(_, s)| s.actual <= s.percentiles[k]).count());
    Some(AmountScores {
        houses: sums.iter().map(|(id, _)| *id).collect(),
        crps: crps.map(|all| all.iter().sum::<f64>() / n as f64),
        actual: mean(&|s| s.actual),
        pinball: [0, 1, 2].map(|k| mean(&|s| pinball(PERCENTS[k], s.percentiles[k], s.actual))),
        within: within.map(|k| k as u32),
        // There is at least one house.
        bands: within.map(|k| wilson(k, n, NINETY_FIVE).unwrap_or([0.0, 1.0])),
        small: n < SMALL_OUTCOMES,
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::sum;
    use super::*;

    #[test]
    fn coverage_counts_and_closed_places_stand_apart() {
        let id = |n| SurveyId::from_bytes([n; 16]);
        let sums = [
            (id(1), sum(950.0, true)),
            (id(2), sum(1600.0, true)),
            (id(3), sum(5000.0, true)),
            (id(4), sum(0.0, false)),
        ];
        let amounts = Amounts::of(sums.iter().map(|(id, s)| (*id, s)));
        let whole = amounts.whole.unwrap();
        assert_eq!((whole.houses.len(), whole.within, whole.small), (3, [1, 1, 2], true));
        assert!((whole.actual - 7550.0 / 3.0).abs() < 1e-9);
        // P50 lies off by 0, 650, 4050: half of it.
        assert!((whole.pinball[0] - 0.5 * 4700.0 / 3.0).abs() < 1e-9);
        let part = amounts.in_part.unwrap();
        assert_eq!((part.houses, part.within), (vec![id(4)], [1, 1, 1]));
        // By hand: mean |x| = 950; pairs of 0..19 by 100: ΣΣ|i−j| = 20·(20²−1)/3 = 2660.
        assert!((part.crps.unwrap() - (950.0 - 100.0 * 2660.0 / 800.0)).abs() < 1e-9);
        assert_eq!(Amounts::of(std::iter::empty()), Amounts::default());
    }
}
