//! The tables of all clues: fitted once for a catalog, then cut down to the conditions in scope of a house.
//!
//! What the fit gives back is published pair by pair (asked, got), because some pairs of a catalog contradict each
//! other and no table can give all of them.

use std::collections::BTreeMap;

use survey::catalog::{Catalog, Condition, DatedBy};

use crate::clue_fit::{Family, Pair, fit, fit_by_era, got_by_era};
use crate::priors::era_shares;
use crate::rates::Rates;

/// Fitted families of all clues of a catalog.
#[derive(Clone, Debug)]
pub struct ClueTables {
    /// By clue id.
    clues: BTreeMap<String, ClueTable>,
    rates: Rates,
}

/// The fitted table of one clue.
#[derive(Clone, Debug)]
pub(crate) struct ClueTable {
    /// Conditions, in catalog order.
    pub(crate) conditions: Vec<String>,
    /// One family, or one for each era band where the catalog gives the clue era by era.
    pub(crate) families: Vec<Family>,
    /// Which era the families go by, where there is one for each: that by which most of the clue's conditions are dated.
    pub(crate) by_era_of: Option<DatedBy>,
}

/// Which probability of a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Probability {
    /// P(clue | condition present), over all houses that have it.
    IfPresent,
    /// P(clue | condition absent), overall or in one era.
    IfAbsent,
}

/// One number of the catalog beside what the fitted table gives.
#[derive(Clone, Debug, PartialEq)]
pub struct AskedGot {
    /// Clue id.
    pub clue: String,
    /// Condition id.
    pub condition: String,
    /// Which probability.
    pub of: Probability,
    /// Era band, where the clue is given era by era.
    pub band: Option<String>,
    /// In the catalog.
    pub asked: f64,
    /// In the table.
    pub got: f64,
}

impl AskedGot {
    /// The difference.
    pub fn off(&self) -> f64 {
        (self.asked - self.got).abs()
    }
}

impl ClueTables {
    /// Fits every clue of the catalog.
    pub fn fit(catalog: &Catalog) -> Self {
        let bands = band_ids(catalog);
        let rates = Rates::of(catalog);
        let clues =
            catalog.clues.keys().filter_map(|id| Some((id.clone(), fit_clue(catalog, id, &bands, &rates)?)));
        Self { clues: clues.collect(), rates }
    }
    pub(crate) fn table(&self, clue: &str) -> Option<&ClueTable> {
        self.clues.get(clue)
    }
    /// Rates of the conditions.
    pub(crate) fn rates(&self) -> &Rates {
        &self.rates
    }
    /// Every number of the catalog beside what the tables give, in order of clues.
    pub fn asked_and_got(&self, catalog: &Catalog) -> Vec<AskedGot> {
        let bands = band_ids(catalog);
        self.clues.iter().flat_map(|(clue, table)| self.rows(catalog, &bands, clue, table)).collect()
    }
    fn rows(&self, catalog: &Catalog, bands: &[String], clue: &str, table: &ClueTable) -> Vec<AskedGot> {
        let row = |condition: &str, of: Probability, band: Option<usize>, asked: f64, got: f64| AskedGot {
            clue: clue.to_owned(),
            condition: condition.to_owned(),
            of,
            band: band.and_then(|b| bands.get(b)).cloned(),
            asked,
            got,
        };
        let mut rows = Vec::new();
        if table.by_era_of.is_none() {
            let pairs = pairs_of(catalog, clue, None, &self.rates);
            for (condition, (present, absent)) in table.conditions.iter().zip(table.families[0].got(&pairs)) {
                let Some(pair) = pair_of(catalog, condition, clue) else { continue };
                rows.push(row(condition, Probability::IfPresent, None, pair.if_present, present));
                rows.push(row(condition, Probability::IfAbsent, None, pair.if_absent, absent));
            }
            return rows;
        }
        let (asked, shares) = by_era(catalog, clue, bands, &self.rates);
        let got = got_by_era(&table.families, &asked, &shares);
        for (c, condition) in table.conditions.iter().enumerate() {
            rows.push(row(condition, Probability::IfPresent, None, asked[0][c].if_present, got.present[c]));
            for (b, (asked, got)) in asked.iter().zip(&got.absent).enumerate() {
                rows.push(row(condition, Probability::IfAbsent, Some(b), asked[c].if_absent, got[c]));
            }
        }
        rows
    }
}

/// The pairs of a clue in each era, and the eras' shares of houses.
fn by_era(catalog: &Catalog, clue: &str, bands: &[String], rates: &Rates) -> (Vec<Vec<Pair>>, Vec<f64>) {
    let pairs = |band: usize| pairs_of(catalog, clue, Some((band, bands[band].as_str())), rates);
    ((0..bands.len()).map(pairs).collect(), era_shares(catalog))
}

/// The pairs of a clue in catalog order: overall, or in one era.
fn pairs_of(catalog: &Catalog, clue: &str, band: Option<(usize, &str)>, rates: &Rates) -> Vec<Pair> {
    let speaks = |c: &&Condition| c.clues.iter().any(|p| p.clue == clue);
    let conditions: Vec<&Condition> = catalog.conditions.iter().filter(speaks).collect();
    let ids: Vec<&str> = conditions.iter().map(|c| c.id.as_str()).collect();
    let mut pairs = rates.pairs(&ids, band.map(|(b, _)| b));
    for (pair, c) in pairs.iter_mut().zip(&conditions) {
        if let Some(asked) = c.clues.iter().find(|p| p.clue == clue) {
            pair.if_present = asked.if_present;
            pair.if_absent = asked.absent_in(band.map(|(_, id)| id));
        }
    }
    pairs
}

fn band_ids(catalog: &Catalog) -> Vec<String> {
    catalog.era().map(|era| era.levels.iter().map(|l| l.id.clone()).collect()).unwrap_or_default()
}

fn pair_of<'a>(catalog: &'a Catalog, condition: &str, clue: &str) -> Option<&'a survey::catalog::CluePair> {
    catalog.condition(condition)?.clues.iter().find(|p| p.clue == clue)
}

fn fit_clue(catalog: &Catalog, clue: &str, bands: &[String], rates: &Rates) -> Option<ClueTable> {
    let speaks = |c: &&Condition| c.clues.iter().any(|p| p.clue == clue);
    let conditions: Vec<&Condition> = catalog.conditions.iter().filter(speaks).collect();
    if conditions.is_empty() {
        return None;
    }
    let by_era_given =
        conditions.iter().any(|c| c.clues.iter().any(|p| p.clue == clue && !p.if_absent_by_band.is_empty()));
    let families = if by_era_given {
        let (pairs, shares) = by_era(catalog, clue, bands, rates);
        fit_by_era(&pairs, &shares)
    } else {
        vec![fit(&pairs_of(catalog, clue, None, rates))]
    };
    let of_house = conditions.iter().filter(|c| c.dated_by == DatedBy::House).count();
    let dated = if 2 * of_house > conditions.len() { DatedBy::House } else { DatedBy::Room };
    Some(ClueTable {
        conditions: conditions.iter().map(|c| c.id.clone()).collect(),
        families,
        by_era_of: by_era_given.then_some(dated),
    })
}
