//! The unknown in money and days: joint draws of the conditions from the exact posterior, so that what goes
//! together stays together, and for each one that becomes a cost a draw from its three-point estimates.
//!
//! Never add up single percentiles: the percentiles reported are those of the simulated sum.

use rand_core::Rng;
use survey::catalog::Stage;

use trade::pert::{Pert, uniform};

/// What the simulation must know of one condition.
#[derive(Clone, Debug)]
pub struct Item {
    /// Cost if it becomes one, dollars.
    pub cost: Pert,
    /// Working days it adds.
    pub days: Pert,
    /// When in the job it shows.
    pub stage: Stage,
    /// Trade whose days it takes.
    pub trade: String,
    /// P(becomes a cost | present).
    pub p_cost: f64,
    /// Items (by index) whose cost this one already holds.
    pub covers: Vec<usize>,
    /// True when the base price already holds it.
    pub in_base: bool,
    /// True when its delay is a calendar wait for a utility, kept apart from working days.
    pub utility_wait: bool,
}

/// One quantity's distribution over the draws.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Spread {
    /// Mean.
    pub mean: f64,
    /// Smallest values the sum stays within in 50, 80 and 90 of 100 draws.
    pub p50: f64,
    /// See `p50`.
    pub p80: f64,
    /// See `p50`.
    pub p90: f64,
    /// Monte-Carlo standard errors of mean, P50, P80, P90.
    pub se: [f64; 4],
}

/// Outcome of the simulation.
#[derive(Clone, Debug, Default)]
pub struct Outcome {
    /// Dollars not in the base price.
    pub money: Spread,
    /// Dollars of conditions the base price already holds.
    pub base_money: Spread,
    /// Working days.
    pub days: Spread,
    /// Calendar days a utility may take, the longest of them.
    pub utility_days: Spread,
    /// Draws of the money, sorted.
    pub sorted_money: Vec<f64>,
    /// Mean money of each item.
    pub mean_of: Vec<f64>,
    /// Mean money of each item in draws near P80 minus that near P50.
    pub spread_of: Vec<f64>,
}

/// Runs `draws` joint draws. `sample` fills one flag per item: present or not.
pub fn run<R: Rng>(
    items: &[Item],
    draws: u32,
    rng: &mut R,
    mut sample: impl FnMut(&mut R, &mut [bool]),
) -> Outcome {
    let n = items.len();
    let mut present = vec![false; n];
    let mut cost = vec![0.0; n];
    let mut rows: Vec<f64> = Vec::with_capacity(n * draws as usize);
    let (mut money, mut base, mut days, mut waits) = (vec![], vec![], vec![], vec![]);
    for _ in 0..draws {
        sample(rng, &mut present);
        let mut lasting = vec![0.0; n];
        for (i, item) in items.iter().enumerate() {
            // The draws are made whether or not they count, so that each number of the stream keeps its meaning.
            let becomes = uniform(rng) < item.p_cost;
            let (dollars, delay) = (item.cost.draw(rng), item.days.draw(rng));
            let counts = present[i] && becomes;
            cost[i] = if counts { dollars } else { 0.0 };
            lasting[i] = if counts { delay } else { 0.0 };
            present[i] = counts;
        }
        for (i, item) in items.iter().enumerate() {
            if present[i] {
                for covered in &item.covers {
                    cost[*covered] = 0.0;
                    lasting[*covered] = 0.0;
                }
            }
        }
        money.push((0..n).filter(|i| !items[*i].in_base).map(|i| cost[i]).sum::<f64>());
        base.push((0..n).filter(|i| items[*i].in_base).map(|i| cost[i]).sum::<f64>());
        let (working, waiting) = days_of(items, &lasting);
        days.push(working);
        waits.push(waiting);
        rows.extend_from_slice(&cost);
    }
    let (mean_of, spread_of) = contributions(items, &money, &rows);
    let mut sorted_money = money.clone();
    sorted_money.sort_by(f64::total_cmp);
    Outcome {
        money: spread(&money),
        base_money: spread(&base),
        days: spread(&days),
        utility_days: spread(&waits),
        sorted_money,
        mean_of,
        spread_of,
    }
}

/// Per stage the sum within a trade, the longest over trades, summed over stages; utility waits apart, the longest.
/// What the base price already holds has its days there too, so it adds none.
fn days_of(items: &[Item], lasting: &[f64]) -> (f64, f64) {
    let counted = items.iter().zip(lasting).filter(|(i, d)| !i.in_base && **d > 0.0);
    let (waits, works): (Vec<_>, Vec<_>) = counted.partition(|(i, _)| i.utility_wait);
    let working = working_days(works.iter().map(|(i, d)| (i.stage, i.trade.as_str(), **d)));
    (working, waits.iter().map(|(_, d)| **d).fold(0.0, f64::max))
}

/// Calendar of working days from (stage, trade, days): per stage the sum within a trade, the longest over trades,
/// summed over stages.
pub fn working_days<'a>(delays: impl Iterator<Item = (Stage, &'a str, f64)> + Clone) -> f64 {
    let mut working = 0.0;
    for stage in [Stage::Demolition, Stage::RoughIn, Stage::CloseUp] {
        let mut by_trade: Vec<(&str, f64)> = Vec::new();
        for (_, trade, days) in delays.clone().filter(|(s, _, _)| *s == stage) {
            match by_trade.iter_mut().find(|(t, _)| *t == trade) {
                Some((_, sum)) => *sum += days,
                None => by_trade.push((trade, days)),
            }
        }
        working += by_trade.iter().map(|(_, d)| *d).fold(0.0, f64::max);
    }
    working
}

/// Mean per item, and how much more each weighs near P80 than near P50 (windows of ±2.5 % of the draws).
fn contributions(items: &[Item], money: &[f64], rows: &[f64]) -> (Vec<f64>, Vec<f64>) {
    let (n, draws) = (items.len(), money.len());
    let mut order: Vec<usize> = (0..draws).collect();
    order.sort_by(|a, b| money[*a].total_cmp(&money[*b]).then(a.cmp(b)));
    let window = |q: f64| {
        let middle = libm::floor(q * draws as f64) as usize;
        let half = (draws / 40).max(1);
        middle.saturating_sub(half)..(middle + half).min(draws)
    };
    let mean_over = |draws: &[usize], item: usize| {
        if items[item].in_base || draws.is_empty() {
            return 0.0;
        }
        draws.iter().map(|d| rows[d * n + item]).sum::<f64>() / draws.len() as f64
    };
    let all: Vec<usize> = (0..draws).collect();
    let mean_of = (0..n).map(|i| mean_over(&all, i)).collect();
    let (near50, near80) = (&order[window(0.5)], &order[window(0.8)]);
    let spread_of = (0..n).map(|i| mean_over(near80, i) - mean_over(near50, i)).collect();
    (mean_of, spread_of)
}

fn spread(draws: &[f64]) -> Spread {
    let n = draws.len();
    if n == 0 {
        return Spread::default();
    }
    let mut sorted = draws.to_vec();
    sorted.sort_by(f64::total_cmp);
    let mean = sorted.iter().sum::<f64>() / n as f64;
    let variance = sorted.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / n as f64;
    let rank = |q: f64| (libm::ceil(q * n as f64) as usize).clamp(1, n) - 1;
    // Half the distance between the order statistics one binomial standard deviation away on either side.
    let se = |q: f64| {
        let d = libm::ceil(libm::sqrt(n as f64 * q * (1.0 - q))) as usize;
        let (low, high) = (rank(q).saturating_sub(d), (rank(q) + d).min(n - 1));
        (sorted[high] - sorted[low]) / 2.0
    };
    Spread {
        mean,
        p50: sorted[rank(0.5)],
        p80: sorted[rank(0.8)],
        p90: sorted[rank(0.9)],
        se: [libm::sqrt(variance / n as f64), se(0.5), se(0.8), se(0.9)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand_core::SeedableRng;

    fn item(cost: f64) -> Item {
        Item {
            cost: Pert::new(cost, cost, cost).unwrap(),
            days: Pert::new(1.0, 1.0, 1.0).unwrap(),
            stage: Stage::Demolition,
            trade: "plumber".into(),
            p_cost: 1.0,
            covers: vec![],
            in_base: false,
            utility_wait: false,
        }
    }

    fn always(items: &[Item]) -> Outcome {
        let mut rng = rand_chacha::ChaCha8Rng::seed_from_u64(3);
        run(items, 400, &mut rng, |_, present| present.fill(true))
    }

    #[test]
    fn what_another_covers_costs_nothing() {
        let mut items = vec![item(100.0), item(40.0)];
        assert_eq!(always(&items).money.mean, 140.0);
        items[0].covers = vec![1];
        assert_eq!(always(&items).money.mean, 100.0);
    }

    #[test]
    fn what_the_base_price_holds_is_kept_apart() {
        let mut items = vec![item(100.0), item(40.0)];
        items[1].in_base = true;
        let outcome = always(&items);
        assert_eq!((outcome.money.mean, outcome.base_money.mean), (100.0, 40.0));
        assert_eq!(outcome.mean_of, vec![100.0, 0.0]);
    }

    #[test]
    fn days_add_within_a_trade_and_stage_and_run_side_by_side_across_trades() {
        let mut items = vec![item(1.0), item(1.0), item(1.0)];
        assert_eq!(always(&items).days.mean, 3.0);
        items[2].trade = "electrician".into();
        assert_eq!(always(&items).days.mean, 2.0);
        items[1].stage = Stage::RoughIn;
        assert_eq!(always(&items).days.mean, 2.0);
        items[0].utility_wait = true;
        let outcome = always(&items);
        assert_eq!((outcome.days.mean, outcome.utility_days.mean), (2.0, 1.0));
    }

    #[test]
    fn percentiles_are_those_of_the_sum() {
        let items = vec![item(100.0)];
        let mut rng = rand_chacha::ChaCha8Rng::seed_from_u64(9);
        let out = run(&items, 10_000, &mut rng, |rng, present| present[0] = uniform(rng) < 0.15);
        // One item at 15 %: its P80 is nothing, its P90 all of it.
        assert_eq!((out.money.p80, out.money.p90), (0.0, 100.0));
        assert!((out.money.mean - 15.0).abs() < 5.0 * out.money.se[0]);
    }
}
