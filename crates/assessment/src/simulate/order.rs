//! Order statistics of draws.

use super::Spread;

/// The percentiles told, in order.
const TOLD: [f64; 3] = [0.5, 0.8, 0.9];

/// Rank, from 0, of the smallest value that `q` of `n` values stay within.
pub(super) fn rank(n: usize, q: f64) -> usize {
    (libm::ceil(q * n as f64) as usize).clamp(1, n.max(1)) - 1
}

/// Ranks one binomial standard deviation away on either side: half the distance between the values there is the
/// standard error of the percentile.
fn around(n: usize, q: f64) -> [usize; 2] {
    let d = libm::ceil(libm::sqrt(n as f64 * q * (1.0 - q))) as usize;
    [rank(n, q).saturating_sub(d), (rank(n, q) + d).min(n.saturating_sub(1))]
}

/// Mean and percentiles of draws given in any order; their order is lost.
pub(crate) fn spread(draws: &mut [f64]) -> Spread {
    let n = draws.len();
    if n == 0 {
        return Spread::default();
    }
    let moments = moments(draws);
    let mut ranks: Vec<usize> =
        TOLD.iter().flat_map(|q| [rank(n, *q)].into_iter().chain(around(n, *q))).collect();
    ranks.sort_unstable();
    ranks.dedup();
    settle(draws, 0, &ranks);
    read(draws, moments)
}

/// The same of draws that are sorted, with the moments of their own order.
pub(super) fn read(settled: &[f64], [mean, mean_error]: [f64; 2]) -> Spread {
    let n = settled.len();
    if n == 0 {
        return Spread::default();
    }
    let at = |q: f64| settled[rank(n, q)];
    let error = |q: f64| {
        let [low, high] = around(n, q);
        (settled[high] - settled[low]) / 2.0
    };
    let [p50, p80, p90] = TOLD.map(at);
    Spread { mean, p50, p80, p90, se: [mean_error, error(TOLD[0]), error(TOLD[1]), error(TOLD[2])] }
}

/// Mean and its standard error, summed in the order given.
pub(super) fn moments(draws: &[f64]) -> [f64; 2] {
    let n = draws.len().max(1) as f64;
    let mean = draws.iter().sum::<f64>() / n;
    let variance = draws.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / n;
    [mean, libm::sqrt(variance / n)]
}

/// Puts the values of the ranks (rising, counted from `first`) where a full sort would put them.
fn settle(values: &mut [f64], first: usize, ranks: &[usize]) {
    let Some(middle) = ranks.get(ranks.len() / 2) else { return };
    let (before, after) = (&ranks[..ranks.len() / 2], &ranks[ranks.len() / 2 + 1..]);
    let (below, _, above) = values.select_nth_unstable_by(middle - first, f64::total_cmp);
    settle(below, first, before);
    settle(above, middle + 1, after);
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Selecting finds what sorting finds.
        #[test]
        fn percentiles_are_those_of_the_sorted_draws(
            values in proptest::collection::vec(prop_oneof![Just(0.0), 0.0..9.0f64, Just(4.0)], 1..300),
        ) {
            let mut sorted = values.clone();
            sorted.sort_by(f64::total_cmp);
            let expected = read(&sorted, moments(&values));
            prop_assert_eq!(spread(&mut values.clone()), expected);
            for q in TOLD {
                let x = sorted[rank(values.len(), q)];
                let within = |limit: f64| values.iter().filter(|v| **v <= limit).count() as f64;
                let n = values.len() as f64;
                prop_assert!(within(x) >= q * n - 1e-9);
                prop_assert!(values.iter().filter(|v| **v < x).count() as f64 <= q * n + 1e-9);
            }
        }
    }

    #[test]
    fn no_draws_have_no_spread() {
        assert_eq!(spread(&mut []), Spread::default());
    }
}
