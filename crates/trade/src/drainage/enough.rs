//! The least change that puts a result within, tolerance and all. The line is that of [`Standing::of_chance`].

use crate::sheet::Standing;

/// A tape's step, inches.
pub(crate) const SIXTEENTH: f64 = 1.0 / 16.0;

/// Whether a chance of lying beyond stands within.
pub(crate) fn is_enough(chance: f64) -> bool {
    Standing::of_chance(chance) == Standing::Within
}

/// The least multiple of `step`, up to `most`, that is enough; None if even the last one is not. The chance may not
/// grow with the amount.
pub(crate) fn least(step: f64, most: f64, chance: impl Fn(f64) -> f64) -> Option<f64> {
    let at = |steps: u32| step * f64::from(steps);
    let (mut low, mut high) = (0, libm::floor(most / step) as u32);
    if !is_enough(chance(at(high))) {
        return None;
    }
    while low < high {
        let middle = low + (high - low) / 2;
        if is_enough(chance(at(middle))) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    Some(at(high))
}

/// Chance that at least one of several things that are read apart lies beyond: 1 − Π(1 − p), never less than any.
pub(crate) fn either(chances: impl IntoIterator<Item = f64>) -> f64 {
    chances.into_iter().fold(0.0, |so_far, chance| {
        let more = chance * (1.0 - so_far);
        libm::fmax(so_far + more, libm::fmax(so_far, chance))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::normal::chance_over;

    #[test]
    fn the_least_amount_is_enough_and_a_step_less_is_not() {
        let chance = |less: f64| chance_over(10.3 - less, 10.0, 0.2);
        let found = least(SIXTEENTH, 5.0, chance).unwrap();
        assert!(is_enough(chance(found)) && !is_enough(chance(found - SIXTEENTH)));
        assert_eq!(least(SIXTEENTH, 5.0, |_| 0.0), Some(0.0));
        assert_eq!(least(SIXTEENTH, 0.25, chance), None);
    }

    #[test]
    fn one_thing_that_is_beyond_makes_the_whole_so() {
        assert_eq!(either([0.0, 1.0, 0.2]), 1.0);
        assert!((either([0.5, 0.5]) - 0.75).abs() < 1e-15);
        assert_eq!((either([]), either([0.3])), (0.0, 0.3));
    }
}
