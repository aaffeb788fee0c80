//! The shape of draws: how many lie where, in bars of a round width.

use survey::units::Money;

use super::order::rank;
use crate::forecast::{Bars, MoneyShape, cents};

/// Bars of money at most, before those beyond.
const MONEY: f64 = 48.0;
/// Bars of days at most, before those beyond.
const DAYS: f64 = 24.0;
/// The narrowest bars: a dollar; half a day, which is how days are planned.
const NARROWEST: [f64; 2] = [1.0, 0.5];
/// The share of the draws that the bars hold at least.
const HELD: f64 = 0.98;

/// The shape of sorted draws of money.
pub(crate) fn money_shape(sorted: &[f64]) -> MoneyShape {
    let n = sorted.len();
    let middle = |k: usize| {
        let at = rank(n, (k as f64 + 0.5) / 20.0);
        sorted.get(at).map_or(Money::ZERO, |x| cents(*x))
    };
    let held = sorted.get(rank(n, HELD)).copied().unwrap_or_default();
    MoneyShape {
        twentieths: (0..20).map(middle).collect(),
        bars: bars(sorted, held, step(held, MONEY, NARROWEST[0])),
    }
}

/// Draws of days, in any order, counted.
pub(crate) fn day_bars(draws: &[f64]) -> Bars {
    let mut sorted = draws.to_vec();
    let held = match sorted.len() {
        0 => 0.0,
        n => *sorted.select_nth_unstable_by(rank(n, HELD), f64::total_cmp).1,
    };
    bars(draws, held, step(held, DAYS, NARROWEST[1]))
}

fn bars(draws: &[f64], held: f64, step: f64) -> Bars {
    let last = libm::floor(held / step) as usize;
    let mut counts = vec![0u32; last + 1];
    let mut beyond = 0;
    for x in draws {
        match counts.get_mut(libm::floor(x / step) as usize) {
            Some(count) => *count += 1,
            None => beyond += 1,
        }
    }
    Bars { step, counts, beyond }
}

/// The least of 1, 2, 5 times a power of ten, and of the narrowest, that reaches `held` in so many bars.
fn step(held: f64, most: f64, narrowest: f64) -> f64 {
    let mut power = 1.0;
    if held / narrowest < most {
        return narrowest;
    }
    loop {
        for digit in [1.0, 2.0, 5.0] {
            if held / (digit * power) < most || power > 1e15 {
                return digit * power;
            }
        }
        power *= 10.0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn widths_are_round() {
        for (held, wide) in [(0.0, 1.0), (47.0, 1.0), (48.0, 2.0), (9_000.0, 200.0), (11_900.0, 500.0)] {
            assert_eq!(step(held, MONEY, 1.0), wide, "{held}");
        }
        for (held, wide) in [(0.0, 0.5), (11.9, 0.5), (12.0, 1.0), (24.0, 2.0), (48.0, 5.0)] {
            assert_eq!(step(held, DAYS, 0.5), wide, "{held}");
        }
    }

    #[test]
    fn nothing_drawn_has_one_empty_bar() {
        assert_eq!(day_bars(&[]), Bars { step: 0.5, counts: vec![0], beyond: 0 });
        assert_eq!(money_shape(&[]).twentieths, [Money::ZERO; 20]);
    }

    #[test]
    fn a_hundred_even_sums_have_their_middles() {
        let draws: Vec<f64> = (1..=100).map(f64::from).collect();
        let shape = money_shape(&draws);
        let dollars: Vec<f64> = shape.twentieths.iter().map(|m| m.dollars()).collect();
        assert_eq!(dollars[..3], [3.0, 8.0, 13.0]);
        assert_eq!(dollars[19], 98.0);
        assert_eq!((shape.bars.step, shape.bars.counts.len()), (5.0, 20));
        assert_eq!((shape.bars.counts[0], shape.bars.counts[1]), (4, 5));
    }

    proptest! {
        /// Every draw is counted once, and the bars hold what they must.
        #[test]
        fn no_draw_is_lost(draws in proptest::collection::vec(prop_oneof![Just(0.0), 0.0..90_000.0f64], 1..400)) {
            let mut sorted = draws.clone();
            sorted.sort_by(f64::total_cmp);
            for bars in [money_shape(&sorted).bars, day_bars(&draws)] {
                let held: u32 = bars.counts.iter().sum();
                prop_assert_eq!((held + bars.beyond) as usize, draws.len());
                prop_assert!(f64::from(held) >= HELD * draws.len() as f64);
                prop_assert!(bars.counts.len() <= MONEY as usize);
            }
        }
    }
}
