//! Expected counts by number of the catalog, added up over houses.

use std::collections::{BTreeMap, BTreeSet};

use survey::SurveyId;

use super::numbers::Id;
use super::shift::Counted;

/// Counts at one number of a group, at one odds ratio of the context.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Cell {
    pub(crate) yes: f64,
    pub(crate) all: f64,
}

/// What houses say about one group of numbers.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Counts {
    /// By era band (none where the numbers do not go by it) and the bits of ln of the odds ratio.
    pub(crate) cells: BTreeMap<(Option<String>, u64), Cell>,
    /// What the houses leave open of the group's score, as a variance: the information that closed places cost.
    pub(crate) lost: f64,
    /// Houses that say something.
    pub(crate) houses: BTreeSet<SurveyId>,
    /// In how many places the condition was opened.
    pub(crate) opened: u32,
}

impl Counts {
    pub(crate) fn add(&mut self, band: Option<&str>, log_ratio: f64, yes: f64, all: f64) {
        // + 0.0 makes one zero of two.
        let cell = self.cells.entry((band.map(str::to_owned), (log_ratio + 0.0).to_bits())).or_default();
        cell.yes += yes;
        cell.all += all;
    }
    /// Counts at numbers that stand at `at` (log odds by band, without the odds ratio).
    pub(crate) fn counted(&self, at: impl Fn(Option<&str>) -> Option<f64>) -> Vec<Counted> {
        let one = |((band, bits), cell): (&(Option<String>, u64), &Cell)| {
            Some(Counted { at: at(band.as_deref())? + f64::from_bits(*bits), yes: cell.yes, all: cell.all })
        };
        self.cells.iter().filter_map(one).collect()
    }
    fn merge(&mut self, other: Self) {
        for (key, cell) in other.cells {
            let held = self.cells.entry(key).or_default();
            held.yes += cell.yes;
            held.all += cell.all;
        }
        self.lost += other.lost;
        self.houses.extend(other.houses);
        self.opened += other.opened;
    }
}

/// Counts of all groups.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Tally {
    pub(crate) log_likelihood: f64,
    pub(crate) groups: BTreeMap<Id, Counts>,
}

impl Tally {
    pub(crate) fn merge(&mut self, other: Self) {
        self.log_likelihood += other.log_likelihood;
        for (id, counts) in other.groups {
            self.groups.entry(id).or_default().merge(counts);
        }
    }
}
