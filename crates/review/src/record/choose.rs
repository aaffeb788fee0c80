//! Which of a house's forecasts is judged.
//!
//! The first one the office had, provided that it came before demolition began: before the first finding, and before the
//! first packet that declares it. A packet sealed again before demolition
//! may know more, and the price may have been fixed on it; but what was looked up, asked again or seen through a first
//! hole in between would make a record of forecasts that choose their own moment, and nobody could tell. So the first one
//! counts, and the later ones stand apart as made again.

use serde::Serialize;

/// A forecast of a house that was made after the one it is judged by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Again {
    /// Received before anything was opened in the house.
    BeforeDemolition,
    /// Received afterwards, or sealed when demolition was declared: it may know what was found.
    AfterDemolition,
}

/// What the forecasts of one house count for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// Which one judges the house, if any came in time.
    pub judged: Option<usize>,
    /// The others, in the order they came.
    pub again: Vec<(usize, Again)>,
}

/// Chooses among forecasts by the office's own positions: packets and findings of an office share one count, so that no
/// clock is needed. `began` is the position of the first finding, or of the first packet that declares demolition, which
/// is itself too late. `packets` may stand in any order; numbers in the answer are places in it.
pub fn choose(packets: &[u64], began: Option<u64>) -> Choice {
    let mut order: Vec<usize> = (0..packets.len()).collect();
    order.sort_by_key(|i| packets[*i]);
    let in_time = |i: &usize| began.is_none_or(|began| packets[*i] < began);
    let judged = order.first().copied().filter(in_time);
    let again = order.into_iter().filter(|i| Some(*i) != judged).map(|i| {
        let when = if in_time(&i) { Again::BeforeDemolition } else { Again::AfterDemolition };
        (i, when)
    });
    Choice { judged, again: again.collect() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Again::{AfterDemolition, BeforeDemolition};

    #[test]
    fn the_first_forecast_before_demolition_judges_and_no_other() {
        for (packets, began, judged, again) in [
            (vec![4], None, Some(0), vec![]),
            (vec![4], Some(9), Some(0), vec![]),
            (vec![4, 6], Some(9), Some(0), vec![(1, BeforeDemolition)]),
            (vec![6, 4], Some(9), Some(1), vec![(0, BeforeDemolition)]),
            (vec![4, 11], Some(9), Some(0), vec![(1, AfterDemolition)]),
            // Found before any packet came: no forecast can be judged.
            (vec![11, 12], Some(9), None, vec![(0, AfterDemolition), (1, AfterDemolition)]),
            (vec![], Some(1), None, vec![]),
            // The second, and the only one, declare demolition.
            (vec![4, 6], Some(6), Some(0), vec![(1, AfterDemolition)]),
            (vec![4], Some(4), None, vec![(0, AfterDemolition)]),
        ] {
            assert_eq!(choose(&packets, began), Choice { judged, again }, "{packets:?} {began:?}");
        }
    }
}
