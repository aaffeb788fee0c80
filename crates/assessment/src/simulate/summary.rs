//! What joint draws come to: sums by draw, their percentiles, and which conditions carry them.

use std::num::NonZero;
use std::ops::Range;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

use survey::catalog::Stage;

use super::draws::{Drawer, Draws, Entry};
use super::order::{moments, read, spread};
use super::{Item, Outcome};

/// When a condition's days come, in calendar order.
const STAGES: [Stage; 3] = [Stage::Demolition, Stage::RoughIn, Stage::CloseUp];

/// Where the money and days of an item go.
struct Lane {
    /// See [`open_share`].
    open: f64,
    /// Place of its working days: stage by stage, trade by trade; the last one is not counted.
    place: usize,
    /// Its days are a calendar wait for a utility.
    waits: bool,
}

/// Sums of draws, one after the other.
pub(super) struct Sums {
    lanes: Vec<Lane>,
    trades: usize,
    by_trade: Vec<f64>,
    money: Vec<f64>,
    base: Vec<f64>,
    days: Vec<f64>,
    waits: Vec<f64>,
    total_of: Vec<f64>,
}

impl Sums {
    /// From the items it reads what the draws do not depend on: what the base price holds, stage, trade, and which
    /// delays are waits for a utility.
    pub(super) fn new(items: &[Item], draws: usize) -> Self {
        let mut trades: Vec<&str> = Vec::new();
        for item in items {
            if !trades.contains(&item.trade.as_str()) {
                trades.push(&item.trade);
            }
        }
        let uncounted = STAGES.len() * trades.len();
        let lane = |item: &Item| {
            let stage = STAGES.iter().position(|s| *s == item.stage).unwrap_or(0);
            let trade = trades.iter().position(|t| *t == item.trade).unwrap_or(0);
            let works = !item.in_base && !item.utility_wait;
            Lane {
                open: open_share(item),
                place: if works { stage * trades.len() + trade } else { uncounted },
                waits: item.utility_wait && !item.in_base,
            }
        };
        let [money, base, days, waits] = [(); 4].map(|()| Vec::with_capacity(draws));
        Self {
            lanes: items.iter().map(lane).collect(),
            trades: trades.len(),
            by_trade: vec![0.0; uncounted + 1],
            money,
            base,
            days,
            waits,
            total_of: vec![0.0; items.len()],
        }
    }

    /// Takes in the next draw.
    pub(super) fn add(&mut self, entries: &[Entry]) {
        let (mut money, mut base, mut wait) = (0.0, 0.0, 0.0);
        self.by_trade.fill(0.0);
        for Entry { item, cost, days } in entries {
            let lane = &self.lanes[*item];
            let open = cost * lane.open;
            money += open;
            base += cost - open;
            self.total_of[*item] += open;
            self.by_trade[lane.place] += days;
            if lane.waits {
                wait = libm::fmax(wait, *days);
            }
        }
        self.money.push(money);
        self.base.push(base);
        self.waits.push(wait);
        let stages = self.by_trade.chunks_exact(self.trades.max(1)).take(STAGES.len());
        self.days.push(stages.map(|s| s.iter().fold(0.0, |a, b| if *b > a { *b } else { a })).sum());
    }

    /// What the draws come to; `draw` hands out one of them again.
    pub(super) fn outcome(mut self, draw: impl FnMut(usize, &mut dyn FnMut(&[Entry]))) -> Outcome {
        let mut sorted_money = self.money.clone();
        sorted_money.sort_unstable_by(f64::total_cmp);
        let spread_of = self.spread_of(&sorted_money, draw);
        let n = self.money.len().max(1) as f64;
        Outcome {
            money: read(&sorted_money, moments(&self.money)),
            base_money: spread(&mut self.base),
            days: spread(&mut self.days),
            utility_days: spread(&mut self.waits),
            day_draws: self.days,
            sorted_money,
            mean_of: self.total_of.into_iter().map(|total| total / n).collect(),
            spread_of,
        }
    }

    /// How much more each item costs near P80 than near P50, on average over windows of ± 2.5 % of the draws.
    fn spread_of(&self, sorted: &[f64], mut draw: impl FnMut(usize, &mut dyn FnMut(&[Entry]))) -> Vec<f64> {
        let n = sorted.len();
        let mut spread = vec![0.0; self.lanes.len()];
        for (q, sign) in [(0.8, 1.0), (0.5, -1.0)] {
            let middle = libm::floor(q * n as f64) as usize;
            let half = (n / 40).max(1);
            let near = window(&self.money, sorted, middle.saturating_sub(half)..(middle + half).min(n));
            let share = sign / near.len().max(1) as f64;
            let mut add = |entries: &[Entry]| {
                for entry in entries {
                    spread[entry.item] += share * entry.cost * self.lanes[entry.item].open;
                }
            };
            near.into_iter().for_each(|number| draw(number, &mut add));
        }
        spread
    }
}

/// Draws as [`Draws::make`] does and sums up as [`Draws::outcome`] does, without keeping the draws. Nothing comes back
/// when it was told to stop.
pub fn run(
    items: &[Item],
    draws: u32,
    seed: u64,
    sample: impl FnMut(&mut [bool]),
    go_on: impl FnMut() -> bool,
) -> Option<Outcome> {
    let drawer = Drawer::new(items, seed);
    let mut sums = Sums::new(items, draws as usize);
    let present = drawer.run::<true>(0..draws, sample, go_on, |entries| sums.add(entries))?;
    let mut row = drawer.row();
    Some(sums.outcome(|draw, take| take(drawer.again(&present, draw, &mut row))))
}

/// The money of each draw that the base price does not hold, and nothing else: the same sums as those of
/// [`run`], for a screen that waits for one of them. `sample_from` begins drawing at a draw; the draws are shared out over
/// the processors there are. `go_on` is asked as in [`Draws::make`].
pub fn money_alone<S: FnMut(&mut [bool])>(
    items: &[Item],
    draws: u32,
    seed: u64,
    sample_from: &(impl Fn(u32) -> S + Sync),
    mut go_on: impl FnMut() -> bool,
) -> Option<Vec<f64>> {
    /// More do not shorten it by much, and others want to go on too.
    const MOST_THREADS: usize = 4;
    /// Draws that a thread takes at a time.
    const PART: usize = 2_048;
    let drawer = Drawer::new(items, seed);
    let open: Vec<f64> = items.iter().map(open_share).collect();
    let sum = |entries: &[Entry]| entries.iter().map(|e| e.cost * open[e.item]).fold(0.0, |a, b| a + b);
    let mut money = vec![0.0; draws as usize];
    let parts = Mutex::new((0u32..).step_by(PART).zip(money.chunks_mut(PART)));
    let stopped = AtomicBool::new(false);
    let work = |go_on: &mut dyn FnMut() -> bool| {
        let next = || parts.lock().unwrap_or_else(PoisonError::into_inner).next();
        while let Some((first, into)) = next() {
            let draws = first..first + into.len() as u32;
            let mut places = into.iter_mut();
            let keep = |entries: &[Entry]| places.next().into_iter().for_each(|place| *place = sum(entries));
            if drawer.run::<false>(draws, sample_from(first), &mut *go_on, keep).is_none() {
                stopped.store(true, Ordering::Relaxed);
                break;
            }
        }
    };
    let others = || work(&mut || !stopped.load(Ordering::Relaxed));
    thread::scope(|scope| {
        let threads = thread::available_parallelism().map_or(1, NonZero::get).min(MOST_THREADS);
        for _ in 1..threads {
            // Where no thread is to be had, this one does it alone.
            if thread::Builder::new().spawn_scoped(scope, others).is_err() {
                break;
            }
        }
        work(&mut go_on);
    });
    (!stopped.into_inner()).then_some(money)
}

/// 1 where the cost of an item belongs to the unknown, 0 where the base price holds it.
fn open_share(item: &Item) -> f64 {
    f64::from(u8::from(!item.in_base))
}

impl Draws {
    /// Money and days of the draws, taken to be of these items with these base prices, stages and trades.
    pub fn outcome(&self, items: &[Item]) -> Outcome {
        let mut sums = Sums::new(items, self.len());
        self.iter().for_each(|entries| sums.add(entries));
        sums.outcome(|draw, take| take(self.entries(draw)))
    }
}

/// The draws of these ranks by money, equal sums in the order drawn; the draws come in that order.
fn window(money: &[f64], sorted: &[f64], ranks: Range<usize>) -> Vec<usize> {
    let (Some(low), Some(high)) = (sorted.get(ranks.start), sorted.get(ranks.end.saturating_sub(1))) else {
        return Vec::new();
    };
    let before = |x: f64| sorted.partition_point(|s| *s < x);
    // Of sums equal to the lowest the first ones belong to lower ranks, of those equal to the highest the last ones to
    // higher.
    let (mut skip, mut take) = (ranks.start - before(*low), ranks.end - before(*high));
    let mut found = Vec::with_capacity(ranks.len());
    for (draw, sum) in money.iter().enumerate() {
        let inside = if sum == low && skip > 0 {
            skip -= 1;
            take -= usize::from(low == high);
            false
        } else if sum == high {
            let some = take > 0;
            take -= usize::from(some);
            some
        } else {
            low <= sum && sum < high
        };
        if inside {
            found.push(draw);
        }
    }
    found
}

/// Calendar of working days from (stage, trade, days): per stage the sum within a trade, the longest over trades,
/// summed over stages.
pub fn working_days<'a>(delays: impl Iterator<Item = (Stage, &'a str, f64)> + Clone) -> f64 {
    let mut working = 0.0;
    for stage in STAGES {
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
