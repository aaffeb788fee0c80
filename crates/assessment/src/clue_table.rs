//! The tables of all clues: fitted once for a catalog, then cut down to the conditions in scope of a house.
//!
//! What the fit gives back is published pair by pair (asked, got), because some pairs of a catalog contradict each
//! other and no table can give all of them.

use std::collections::BTreeMap;

use survey::catalog::{Catalog, Condition};

use crate::clue_fit::{Family, Pair, fit};
use crate::priors::{base_in_band, base_overall, era_factor};

/// Fitted families of all clues of a catalog.
#[derive(Clone, Debug)]
pub struct ClueTables {
    /// By clue id.
    clues: BTreeMap<String, ClueTable>,
    base: BTreeMap<String, Vec<f64>>,
}

/// The fitted table of one clue.
#[derive(Clone, Debug)]
pub(crate) struct ClueTable {
    /// Conditions, in catalog order.
    pub(crate) conditions: Vec<String>,
    /// One family, or one for each era band where the catalog gives the clue era by era.
    pub(crate) families: Vec<Family>,
    /// True when `families` has one for each era band of the room.
    pub(crate) by_room_band: bool,
}

/// One number of the catalog beside what the fitted table gives.
#[derive(Clone, Debug, PartialEq)]
pub struct AskedGot {
    /// Clue id.
    pub clue: String,
    /// Condition id.
    pub condition: String,
    /// Era band, where the pair has its own number there.
    pub band: Option<String>,
    /// (P(clue | present), P(clue | absent)) in the catalog.
    pub asked: (f64, f64),
    /// The same in the table.
    pub got: (f64, f64),
}

impl AskedGot {
    /// The larger of the two differences.
    pub fn worst(&self) -> f64 {
        (self.asked.0 - self.got.0).abs().max((self.asked.1 - self.got.1).abs())
    }
}

impl ClueTables {
    /// Fits every clue of the catalog.
    pub fn fit(catalog: &Catalog) -> Self {
        let bands = band_ids(catalog);
        let base: BTreeMap<String, Vec<f64>> = catalog
            .conditions
            .iter()
            .map(|c| {
                let mut rates = vec![base_overall(catalog, c)];
                rates.extend(bands.iter().map(|b| base_in_band(catalog, c, b)));
                (c.id.clone(), rates)
            })
            .collect();
        let clues = catalog.clues.keys().filter_map(|id| Some((id.clone(), fit_clue(catalog, id, &bands, &base)?)));
        Self { clues: clues.collect(), base }
    }
    pub(crate) fn table(&self, clue: &str) -> Option<&ClueTable> {
        self.clues.get(clue)
    }
    /// Base rate of a condition: overall, or in an era band by its index.
    pub(crate) fn base(&self, condition: &str, band: Option<usize>) -> f64 {
        let rates = self.base.get(condition);
        rates.and_then(|r| r.get(band.map_or(0, |b| b + 1))).copied().unwrap_or(0.0)
    }
    /// Every number of the catalog beside what the tables give, in catalog order.
    pub fn asked_and_got(&self, catalog: &Catalog) -> Vec<AskedGot> {
        let bands = band_ids(catalog);
        let mut rows = Vec::new();
        for (clue, table) in &self.clues {
            for (f, family) in table.families.iter().enumerate() {
                let band = table.by_room_band.then_some(f);
                let bases: Vec<f64> = table.conditions.iter().map(|c| self.base(c, band)).collect();
                for (condition, got) in table.conditions.iter().zip(family.got(&bases)) {
                    let Some(pair) = pair_of(catalog, condition, clue) else { continue };
                    let band_id = band.and_then(|b| bands.get(b)).cloned();
                    rows.push(AskedGot {
                        clue: clue.clone(),
                        condition: condition.clone(),
                        asked: (pair.if_present, pair.absent_in(band_id.as_deref())),
                        band: band_id,
                        got,
                    });
                }
            }
        }
        rows
    }
}

fn band_ids(catalog: &Catalog) -> Vec<String> {
    era_factor(catalog).map(|era| era.levels.iter().map(|l| l.id.clone()).collect()).unwrap_or_default()
}

fn pair_of<'a>(catalog: &'a Catalog, condition: &str, clue: &str) -> Option<&'a survey::catalog::CluePair> {
    catalog.condition(condition)?.clues.iter().find(|p| p.clue == clue)
}

fn fit_clue(
    catalog: &Catalog,
    clue: &str,
    bands: &[String],
    base: &BTreeMap<String, Vec<f64>>,
) -> Option<ClueTable> {
    let speaks = |c: &&Condition| c.clues.iter().any(|p| p.clue == clue);
    let conditions: Vec<&Condition> = catalog.conditions.iter().filter(speaks).collect();
    if conditions.is_empty() {
        return None;
    }
    let pairs = |band: Option<usize>| -> Vec<Pair> {
        conditions
            .iter()
            .filter_map(|c| {
                let pair = c.clues.iter().find(|p| p.clue == clue)?;
                Some(Pair {
                    if_present: pair.if_present,
                    if_absent: pair.absent_in(band.and_then(|b| bands.get(b)).map(String::as_str)),
                    base: base.get(&c.id)?.get(band.map_or(0, |b| b + 1)).copied()?,
                })
            })
            .collect()
    };
    let by_room_band = conditions
        .iter()
        .any(|c| c.clues.iter().any(|p| p.clue == clue && !p.if_absent_by_band.is_empty()));
    let families =
        if by_room_band { (0..bands.len()).map(|b| fit(&pairs(Some(b)))).collect() } else { vec![fit(&pairs(None))] };
    Some(ClueTable { conditions: conditions.iter().map(|c| c.id.clone()).collect(), families, by_room_band })
}
