//! Base rates of conditions: the share by era, the firm-wide factor on the odds, the odds ratios of the context.

use survey::catalog::{Catalog, Condition, Factor};

/// Probabilities are held within these bounds after the odds ratios (catalog README, "prior").
const FLOOR: f64 = 0.0005;
const CEILING: f64 = 0.98;

/// P(present) in one era band with some context levels, given as (factor, level).
pub(crate) fn prior_at(catalog: &Catalog, c: &Condition, band: &str, levels: &[(&str, &str)]) -> f64 {
    let p = c.prior.by_band.get(band).copied().unwrap_or(c.prior.unknown);
    let odds = p / (1.0 - p) * odds_ratio(catalog, c, levels);
    if odds.is_finite() { (odds / (1.0 + odds)).clamp(FLOOR, CEILING) } else { CEILING }
}

/// What the odds of a share are multiplied by: the firm-wide factor, and the odds ratios of some context levels.
pub(crate) fn odds_ratio(catalog: &Catalog, c: &Condition, levels: &[(&str, &str)]) -> f64 {
    let counts = |a: &&survey::catalog::Adjust| levels.contains(&(a.factor.as_str(), a.level.as_str()));
    let ratios = c.prior.adjust.iter().filter(counts).map(|a| a.odds_ratio);
    ratios.fold(catalog.reference.base_odds.factor_for(&c.id), |all, ratio| all * ratio)
}

/// Factors whose levels move this condition's odds, in catalog order, without doubles.
pub(crate) fn adjusting<'a>(catalog: &'a Catalog, c: &Condition) -> Vec<&'a Factor> {
    catalog.factors.iter().filter(|f| c.prior.adjust.iter().any(|a| a.factor == f.id)).collect()
}

/// All combinations of levels of some factors, first factor slowest.
pub(crate) fn combinations<'a>(factors: &[&'a Factor]) -> Vec<Vec<(&'a str, &'a str)>> {
    factors.iter().fold(vec![Vec::new()], |rows, factor| {
        rows.iter()
            .flat_map(|row: &Vec<(&str, &str)>| {
                factor.levels.iter().map(move |level| {
                    let mut row = row.clone();
                    row.push((factor.id.as_str(), level.id.as_str()));
                    row
                })
            })
            .collect()
    })
}

/// P(present) as the catalog states it: overall, then in each era band; without the firm-wide factor, because the
/// catalog's pairs of clue and condition are stated at these rates.
pub(crate) fn stated_rates(catalog: &Catalog, c: &Condition) -> Vec<f64> {
    let mut rates = vec![c.prior.unknown];
    if let Some(era) = catalog.era() {
        rates.extend(
            era.levels.iter().map(|l| c.prior.by_band.get(&l.id).copied().unwrap_or(c.prior.unknown)),
        );
    }
    rates
}

/// Shares of houses by era, in order of the bands.
pub(crate) fn era_shares(catalog: &Catalog) -> Vec<f64> {
    catalog.era().map(|era| era.levels.iter().map(|l| l.prior).collect()).unwrap_or_default()
}
