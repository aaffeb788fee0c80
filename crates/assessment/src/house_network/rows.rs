//! Which number of the catalog stands behind which row of a condition's table, for those who count in it.

use survey::catalog::Catalog;

use super::{Builder, Measured};
use crate::clue_table::ClueTables;
use crate::priors::{adjusting, combinations, odds_ratio};
use crate::scope::{Scope, Scoped};

/// What a row of a condition's table was made from, besides the share of its era.
#[derive(Clone, Debug, PartialEq)]
pub struct PriorRow {
    /// Era band.
    pub band: String,
    /// What the odds of its share are multiplied by: the firm-wide factor and the context's odds ratios.
    pub odds_ratio: f64,
}

/// Rows of a condition's table.
#[derive(Clone, Debug, PartialEq)]
pub struct PriorRows {
    /// In order; each stands for `each` rows of the table that follow one another, which differ by the condition it hangs
    /// on. Added up, they are the row of the condition alone.
    pub rows: Vec<PriorRow>,
    /// See `rows`.
    pub each: usize,
}

/// The rows of a condition, or none where its table is not made from its prior: measured, or derived from others.
pub(crate) fn prior_rows(
    catalog: &Catalog,
    tables: &ClueTables,
    scope: &Scope<'_>,
    measured: &[Measured],
    scoped: &Scoped<'_>,
) -> Option<PriorRows> {
    let builder = Builder::new(catalog, tables, scope, measured);
    let c = scoped.condition();
    let derived = catalog.derived.iter().find(|d| d.condition == c.id);
    let hangs =
        |d: &survey::catalog::Derived| d.none_of.iter().any(|id| scope.at(id, scoped.place()).is_some());
    if builder.measured_p(scoped.key()).is_some() || derived.is_some_and(hangs) {
        return None;
    }
    // The same condition as the scope has it, so that its partner is looked for where the network looks.
    let own = scope.iter().find(|s| s.key() == scoped.key())?;
    let partner = builder.partner(own);
    let mut factors = adjusting(catalog, c);
    if let Some((other, _)) = partner {
        for factor in adjusting(catalog, other.condition()) {
            if !factors.iter().any(|f| f.id == factor.id) {
                factors.push(factor);
            }
        }
    }
    let mut rows = Vec::new();
    for band in catalog.era().map(|e| e.levels.as_slice()).unwrap_or_default() {
        for levels in combinations(&factors) {
            rows.push(PriorRow { band: band.id.clone(), odds_ratio: odds_ratio(catalog, c, &levels) });
        }
    }
    Some(PriorRows { rows, each: if partner.is_some() { 2 } else { 1 } })
}
