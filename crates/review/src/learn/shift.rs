//! One shift on the log odds of several probabilities, from counts: the maximum a posteriori, by halving.

/// Shifts looked among: odds 400 times as high or as low.
const REACH: f64 = 6.0;
const HALVINGS: u32 = 48;

/// What was counted at one log odds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Counted {
    /// Log odds before the shift.
    pub(crate) at: f64,
    /// Expected count of yes.
    pub(crate) yes: f64,
    /// Expected count of all.
    pub(crate) all: f64,
}

pub(crate) fn logit(p: f64) -> f64 {
    let p = p.clamp(1e-9, 1.0 - 1e-9);
    libm::log(p / (1.0 - p))
}

pub(crate) fn chance(log_odds: f64) -> f64 {
    1.0 / (1.0 + libm::exp(-log_odds))
}

/// The shift at which as much is expected as was counted: the maximum of Σ yes·ln p + no·ln(1 − p) with
/// p = 1/(1 + exp(−(at + shift))). What is expected rises with the shift, so that halving finds it.
pub(crate) fn shift(counted: &[Counted]) -> f64 {
    let off = |by: f64| counted.iter().map(|c| c.yes - c.all * chance(c.at + by)).sum::<f64>();
    let (mut low, mut high) = (-REACH, REACH);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if off(middle) > 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// Σ yes·ln p + no·ln(1 − p) after a shift.
pub(crate) fn log_density(counted: &[Counted], by: f64) -> f64 {
    let one = |c: &Counted| {
        let p = chance(c.at + by).clamp(1e-12, 1.0 - 1e-12);
        c.yes * libm::log(p) + (c.all - c.yes) * libm::log(1.0 - p)
    };
    counted.iter().map(one).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn by_hand_one_probability_becomes_the_share_of_counts_and_weight() {
        // 0.2 as ten houses, and 6 of 10 found: 8 of 20.
        let at = logit(0.2);
        let counted = [Counted { at, yes: 2.0, all: 10.0 }, Counted { at, yes: 6.0, all: 10.0 }];
        assert!((chance(at + shift(&counted)) - 0.4).abs() < 1e-9);
        let none = [Counted { at, yes: 2.0, all: 10.0 }];
        assert!(shift(&none).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn no_other_shift_is_likelier(
            counts in proptest::collection::vec((0.01..0.99f64, 0.0..1.0f64, 0.1..50.0f64), 1..6), away in -2.0..2.0f64,
        ) {
            let counted: Vec<Counted> =
                counts.iter().map(|(p, share, all)| Counted { at: logit(*p), yes: share * all, all: *all }).collect();
            let best = shift(&counted);
            // All or none found asks for a shift without end: the best within reach is its end.
            let other = (best + away).clamp(-REACH, REACH);
            prop_assert!(log_density(&counted, best) >= log_density(&counted, other) - 1e-9);
        }
    }
}
