//! The base rate that forecasts are held against: how often a condition was found in houses of the same era, the house
//! itself left out.
//!
//! Left in, a house would help to predict itself, and the fewer houses there are the more. Where the others are few the
//! share leans on the catalog's base rate of the era, frozen with the forecast, which counts as [`WEIGHT`] outcomes:
//! r = (k + w·b)/(n + w).

use std::collections::BTreeMap;

use super::house::{JudgedCondition, JudgedHouse};

/// Outcomes that the catalog's own base rate counts for (judgment).
pub const WEIGHT: f64 = 4.0;

type By<'a> = (&'a str, Option<&'a str>);

/// How often each condition was found, era by era.
#[derive(Clone, Debug, Default)]
pub struct Base<'a> {
    counts: BTreeMap<By<'a>, [f64; 2]>,
}

impl<'a> Base<'a> {
    /// Counts the opened conditions of some houses.
    pub fn of(houses: impl IntoIterator<Item = &'a JudgedHouse>) -> Self {
        let mut base = Self::default();
        for house in houses {
            for (by, [found, opened]) in counted(house) {
                let held = base.counts.entry(by).or_default();
                held[0] += found;
                held[1] += opened;
            }
        }
        base
    }

    /// The base rate for each condition of a house, without that house.
    pub fn without(&self, house: &'a JudgedHouse) -> Vec<f64> {
        let own = counted(house);
        let rate = |c: &'a JudgedCondition| {
            let by = key(house, c);
            let [found, opened] = self.counts.get(&by).copied().unwrap_or_default();
            let [own_found, own_opened] = own.get(&by).copied().unwrap_or_default();
            // A house that was not among those counted has nothing to take out.
            let (k, n) = ((found - own_found).max(0.0), (opened - own_opened).max(0.0));
            (k + WEIGHT * c.era_base) / (n + WEIGHT)
        };
        house.conditions.iter().map(rate).collect()
    }
}

fn key<'a>(house: &'a JudgedHouse, c: &'a JudgedCondition) -> By<'a> {
    (&c.id, house.known.era.as_deref())
}

/// Found and opened in one house; several places of it count each.
fn counted(house: &JudgedHouse) -> BTreeMap<By<'_>, [f64; 2]> {
    let mut counts: BTreeMap<By<'_>, [f64; 2]> = BTreeMap::new();
    for c in &house.conditions {
        if let Some(there) = c.happened() {
            let held = counts.entry(key(house, c)).or_default();
            held[0] += f64::from(u8::from(there));
            held[1] += 1.0;
        }
    }
    counts
}

#[cfg(test)]
mod tests {
    use super::super::testing::{house, outcome};
    use super::*;

    #[test]
    fn by_hand_the_house_itself_is_not_in_its_base_rate() {
        let houses = [
            house(1, "old", &[("duct", 0.5, 0.25, outcome(true))]),
            house(2, "old", &[("duct", 0.5, 0.25, outcome(true)), ("duct", 0.5, 0.25, outcome(false))]),
            house(3, "new", &[("duct", 0.5, 0.25, outcome(false))]),
            house(4, "old", &[("duct", 0.5, 0.25, None)]),
        ];
        let base = Base::of(&houses);
        // Others of the first: one of two, and 4 at 0.25.
        assert_eq!(base.without(&houses[0]), [(1.0 + 1.0) / 6.0]);
        assert_eq!(base.without(&houses[1]), [2.0 / 5.0, 2.0 / 5.0]);
        // Nobody else of its era: the catalog's alone.
        assert_eq!(base.without(&houses[2]), [0.25]);
        // Two of three, for one that was not opened.
        assert_eq!(base.without(&houses[3]), [3.0 / 7.0]);
    }

    #[test]
    fn turning_the_findings_of_a_house_over_leaves_its_own_base_rates_as_they_are() {
        let with = |there: bool| {
            let houses = [
                house(1, "old", &[("duct", 0.5, 0.2, outcome(there)), ("pipe", 0.4, 0.1, outcome(!there))]),
                house(2, "old", &[("duct", 0.5, 0.2, outcome(true)), ("pipe", 0.5, 0.1, outcome(true))]),
            ];
            let base = Base::of(&houses);
            (base.without(&houses[0]), base.without(&houses[1]))
        };
        assert_eq!(with(true).0, with(false).0);
        assert_ne!(with(true).1, with(false).1);
    }
}
