//! How often a clue shows, as each condition that states a pair for it implies. One clue has one rate: where the pairs
//! of two conditions imply different ones, no table can give both back.

use std::collections::BTreeMap;

use super::Catalog;

/// How often each clue shows by the pairs of each of its conditions: (condition, rate), in catalog order.
pub(super) type Rates<'c> = BTreeMap<&'c str, Vec<(&'c str, f64)>>;

impl Catalog {
    /// The rate of every clue over all houses, or over the houses of one era, as each of its conditions implies it:
    /// P(clue | there)·prior + P(clue | not there)·(1 − prior), each era weighing its share of houses.
    pub(super) fn rates(&self, band: Option<&str>) -> Rates<'_> {
        let mut rates: Rates<'_> = BTreeMap::new();
        let levels = self.era().map(|era| era.levels.as_slice()).unwrap_or_default();
        let levels: Vec<_> = levels.iter().filter(|l| band.is_none_or(|b| b == l.id)).collect();
        let shares: f64 = levels.iter().map(|l| l.prior).sum();
        for condition in &self.conditions {
            for pair in &condition.clues {
                let mut rate = 0.0;
                for level in &levels {
                    let p = condition.prior.by_band.get(&level.id).copied().unwrap_or_default();
                    let shown = pair.if_present * p + pair.absent_in(Some(&level.id)) * (1.0 - p);
                    rate += level.prior / shares * shown;
                }
                rates.entry(&pair.clue).or_default().push((&condition.id, rate));
            }
        }
        rates
    }
}

/// The least and the most of the rates of one clue.
pub(super) fn spread<'c>(rates: &[(&'c str, f64)]) -> Option<[(&'c str, f64); 2]> {
    let least = rates.iter().copied().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let most = rates.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some([least, most])
}
