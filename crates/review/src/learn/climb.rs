//! Expectation and maximisation in turn, until the log posterior rises no more to speak of.

use std::collections::{BTreeMap, BTreeSet};

use assessment::ClueTables;
use survey::SurveyId;
use survey::catalog::Catalog;

use super::Job;
use super::expect::{Kept, Mute};
use super::numbers::{Id, Number, Values, met, numbers, weight, with};
use super::shift::{Counted, chance, log_density, shift};
use super::tally::{Counts, Tally};

/// Most steps; with most places opened three or four are enough.
pub const MOST_STEPS: usize = 12;
/// Most halvings of a step that would lead down.
const HALVINGS: usize = 5;
/// A step that raises the log posterior by less than this, in nats a house, is the last.
const ENOUGH: f64 = 2e-4;

/// A house that says nothing, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Skipped {
    /// The house.
    pub survey: SurveyId,
    /// Why: answers and findings that cannot all be true under the catalog, or a network too large.
    pub why: String,
}

/// What was learned.
#[derive(Clone, Debug)]
pub struct Learned {
    /// The catalog with all that was learned.
    pub catalog: Catalog,
    /// Log posterior, nats, up to a constant: at the start and after each step. It never falls.
    pub log_posterior: Vec<f64>,
    /// Houses that say nothing.
    pub skipped: Vec<Skipped>,
    pub(crate) tally: Tally,
}

/// Shifts of a group: of all its numbers, and of each era's beyond.
pub(crate) type Shifts = (f64, BTreeMap<String, f64>);
pub(crate) type Moved = BTreeMap<Id, Shifts>;

/// Learns from houses. `None` where no house says anything.
pub fn learn(catalog: &Catalog, jobs: &[Job<'_>]) -> Option<Learned> {
    let mut kept: Vec<Kept> = jobs.iter().map(|_| Kept::default()).collect();
    let mut out: BTreeMap<usize, Mute> = BTreeMap::new();
    let mut moved = Moved::new();
    let mut now = catalog.clone();
    let mut tally = counted(&now, jobs, &mut kept, &mut out);
    if out.len() == jobs.len() {
        return None;
    }
    let mut at = tally.log_likelihood;
    let mut log_posterior = vec![at];
    let enough = ENOUGH * (jobs.len() - out.len()) as f64;
    'steps: for _ in 0..MOST_STEPS {
        let mut wanted = maximise(catalog, &tally);
        for _ in 0..=HALVINGS {
            let next = with(catalog, &values(catalog, &wanted));
            let mut missing = out.clone();
            let counts = counted(&next, jobs, &mut kept, &mut missing);
            let there = counts.log_likelihood + prior_density(catalog, &wanted);
            // A house that became impossible would make the rest look better than it is.
            if missing.len() == out.len() && there >= at {
                let rise = there - at;
                (now, tally, moved, at) = (next, counts, wanted, there);
                log_posterior.push(at);
                if rise < enough {
                    break 'steps;
                }
                continue 'steps;
            }
            wanted = halfway(&moved, wanted);
        }
        break;
    }
    let skipped = out.into_iter().filter_map(|(k, why)| {
        let why = match why {
            Mute::Network(e) => e.to_string(),
            Mute::Records(e) => e.to_string(),
            Mute::Large(e) => e.to_string(),
        };
        Some(Skipped { survey: jobs.get(k)?.survey, why })
    });
    Some(Learned { catalog: now, log_posterior, skipped: skipped.collect(), tally })
}

/// Counts over all houses but those that are out; a house that cannot be counted goes out.
fn counted(catalog: &Catalog, jobs: &[Job<'_>], kept: &mut [Kept], out: &mut BTreeMap<usize, Mute>) -> Tally {
    let tables = ClueTables::fit(catalog);
    let mut tally = Tally::default();
    for (k, (job, kept)) in jobs.iter().zip(kept).enumerate() {
        if out.contains_key(&k) {
            continue;
        }
        match kept.expect(catalog, &tables, job) {
            Ok(one) => tally.merge(one),
            Err(why) => {
                out.insert(k, why);
            }
        }
    }
    tally
}

/// The catalog's own numbers as counts, each at its part of the weight.
fn own(list: &[Number], weight: f64) -> Vec<Counted> {
    let one = |n: &Number| {
        let at = met(n);
        Counted { at, yes: weight * n.part * chance(at), all: weight * n.part }
    };
    list.iter().map(one).collect()
}

/// Log odds of the number of a band, without the odds ratio of the house: priors carry the firm-wide factor there.
pub(crate) fn stated(list: &[Number], band: Option<&str>) -> Option<f64> {
    list.iter().find(|n| n.band.as_deref() == band).map(|n| super::shift::logit(n.value))
}

fn maximise(catalog: &Catalog, tally: &Tally) -> Moved {
    let mut moved = Moved::new();
    for (id, counts) in &tally.groups {
        let list = numbers(catalog, id);
        if list.is_empty() {
            continue;
        }
        let weight = weight(catalog, id);
        let mut all = own(&list, weight);
        all.extend(counts.counted(|band| stated(&list, band)));
        let by = shift(&all);
        moved.insert(id.clone(), (by, by_era(&list, weight, counts, by, id)));
    }
    moved
}

/// Of shares by era each goes beyond the common shift as far as its own houses carry it, against the shifted share at the
/// full weight.
fn by_era(list: &[Number], weight: f64, counts: &Counts, by: f64, (_, group): &Id) -> BTreeMap<String, f64> {
    if *group != super::numbers::Group::Prior {
        return BTreeMap::new();
    }
    let bands: BTreeSet<&str> = counts.cells.keys().filter_map(|(band, _)| band.as_deref()).collect();
    let mut own_shifts = BTreeMap::new();
    for band in bands {
        let Some(number) = list.iter().find(|n| n.band.as_deref() == Some(band)) else { continue };
        let at = met(number) + by;
        let mut all = vec![Counted { at, yes: weight * chance(at), all: weight }];
        all.extend(counts.counted(|b| Some(stated(list, b.filter(|b| *b == band))? + by)));
        own_shifts.insert(band.to_owned(), shift(&all));
    }
    own_shifts
}

/// Density of the catalog's own numbers after a move, relative to no move.
fn prior_density(catalog: &Catalog, moved: &Moved) -> f64 {
    let mut sum = 0.0;
    for (id, (by, eras)) in moved {
        let (list, weight) = (numbers(catalog, id), weight(catalog, id));
        let all = own(&list, weight);
        sum += log_density(&all, *by) - log_density(&all, 0.0);
        for (band, further) in eras {
            let Some(number) = list.iter().find(|n| n.band.as_deref() == Some(band)) else { continue };
            let at = met(number) + by;
            let one = [Counted { at, yes: weight * chance(at), all: weight }];
            sum += log_density(&one, *further) - log_density(&one, 0.0);
        }
    }
    sum
}

/// Values after a move.
pub(crate) fn values(catalog: &Catalog, moved: &Moved) -> Values {
    let mut values = Values::new();
    for (id, (by, eras)) in moved {
        for number in numbers(catalog, id) {
            let further = number.band.as_ref().and_then(|b| eras.get(b)).copied().unwrap_or(0.0);
            let log_odds = super::shift::logit(number.value) + by + further;
            values.insert((id.0.clone(), number.key), chance(log_odds));
        }
    }
    values
}

fn halfway(from: &Moved, mut to: Moved) -> Moved {
    for (id, (by, eras)) in &mut to {
        let start = from.get(id);
        *by = 0.5 * (*by + start.map_or(0.0, |s| s.0));
        for (band, further) in eras {
            *further = 0.5 * (*further + start.and_then(|s| s.1.get(band)).copied().unwrap_or(0.0));
        }
    }
    to
}
