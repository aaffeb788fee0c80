//! Forecasts of many invented houses, held against what was hidden in them.

use assessment::decision::LossRules;
use assessment::{ClueTables, Live, Request};
use imagine::SimulatedHouse;
use review::scores::bins::{Bin, Murphy, equal_width, murphy};
use survey::SurveyId;
use survey::catalog::Catalog;

/// What was forecast for one house after its walk, and what was hidden in it.
pub struct Judged {
    /// Condition, probability, whether it was there.
    pub conditions: Vec<(String, f64, bool)>,
    /// Draws of what is not in the base price, dollars, rising.
    pub money: Vec<f64>,
    /// What that came to.
    pub came_to: f64,
}

/// Forecasts a house as an assessment does, without reasons and looks; the money only where wanted.
pub fn judge(catalog: &Catalog, tables: &ClueTables, house: &SimulatedHouse, money: bool) -> Judged {
    let picture = house.walked(catalog);
    let survey = SurveyId::new(house.number, &[1; 10]);
    let rules = LossRules::default();
    let mut live = Live::default();
    let odds = live.odds(&Request { survey, picture: &picture, catalog, tables, rules }).unwrap();
    let there = |id: &str| house.conditions.get(id).is_some_and(|s| s.present);
    let conditions = odds.conditions().map(|(id, p)| (id.to_owned(), p, there(id))).collect();
    if !money {
        return Judged { conditions, money: vec![], came_to: 0.0 };
    }
    let outcome = odds.money(&mut || true).unwrap().unwrap();
    Judged { conditions, money: outcome.sorted_money, came_to: house.loss.money.dollars() }
}

/// Ten bins of probabilities against what happened, and the Brier score taken apart along them.
pub fn reliability(judged: &[Judged]) -> (Vec<Bin>, Murphy) {
    let all = || judged.iter().flat_map(|j| &j.conditions);
    let p: Vec<f64> = all().map(|(_, p, _)| *p).collect();
    let y: Vec<bool> = all().map(|(_, _, y)| *y).collect();
    let bins = equal_width(&p, &y, 10);
    let parts = murphy(&bins).unwrap();
    (bins, parts)
}

/// How many standard deviations a count lies from what its probabilities expect.
pub fn z(cases: impl IntoIterator<Item = (f64, bool)>) -> f64 {
    let (mut off, mut variance) = (0.0, 0.0);
    for (p, y) in cases {
        off += f64::from(u8::from(y)) - p;
        variance += p * (1.0 - p);
    }
    off / variance.sqrt().max(1e-9)
}

/// Probabilities are right in every bin, and their Brier score loses next to nothing by being off.
pub fn assert_probabilities_hold(judged: &[Judged], most_off: f64) {
    let (bins, parts) = reliability(judged);
    for (k, bin) in bins.iter().enumerate().filter(|(_, b)| b.n > 0) {
        let band = 4.5 * (bin.mean_p * (1.0 - bin.mean_p) / bin.n as f64).sqrt();
        let (p, y) = (bin.mean_p, bin.mean_y);
        assert!((p - y).abs() <= band, "bin {k}: forecast {p:.4}, happened {y:.4} of {}", bin.n);
    }
    assert!(parts.reliability <= most_off, "{parts:?}");
    assert!(parts.resolution > 0.4 * parts.uncertainty, "the answers tell something: {parts:?}");
}

/// What the houses came to falls evenly over their forecasts, and within P50, P80, P90 as often as these say.
pub fn assert_money_holds(judged: &[Judged]) {
    let n = judged.len() as f64;
    let mut pit: Vec<f64> = judged
        .iter()
        .map(|j| {
            let below = j.money.partition_point(|x| *x < j.came_to) as f64;
            let upto = j.money.partition_point(|x| *x <= j.came_to) as f64;
            (below + upto) / 2.0 / j.money.len() as f64
        })
        .collect();
    pit.sort_by(f64::total_cmp);
    let mean = pit.iter().sum::<f64>() / n;
    assert!((mean - 0.5).abs() <= 4.5 * (1.0 / 12.0 / n).sqrt(), "mean of the PIT {mean:.3}");
    // Kolmogorov's distance; 2.23 is its 1 in 10,000 point (N. Smirnov, Ann. Math. Statist. 19(2), 1948).
    let at = |i: usize| ((i as f64 + 1.0) / n - pit[i]).max(pit[i] - i as f64 / n);
    let distance = (0..pit.len()).map(at).fold(0.0, f64::max);
    assert!(distance * n.sqrt() <= 2.23, "PIT is off an even spread by {distance:.3}");
    for q in [0.5, 0.8, 0.9] {
        let within = |j: &Judged| {
            let rank = ((q * j.money.len() as f64).ceil() as usize).max(1) - 1;
            j.came_to <= j.money[rank]
        };
        let off = z(judged.iter().map(|j| (q, within(j))));
        assert!(off.abs() <= 4.5, "P{:.0} holds {off:.1} standard deviations off", q * 100.0);
    }
}
