//! Rates of the conditions of a clue: each by itself, and each given that another one is there or not, where the
//! catalog says that one implies or excludes the other.

use std::collections::BTreeMap;

use survey::catalog::Catalog;

use crate::clue_fit::Pair;
use crate::priors::stated_rates;

/// Stated rates of all conditions, overall and by era, and how they bear on each other.
#[derive(Clone, Debug)]
pub(crate) struct Rates {
    base: BTreeMap<String, Vec<f64>>,
    implies: Vec<(String, String)>,
    excludes: Vec<[String; 2]>,
}

impl Rates {
    pub(crate) fn of(catalog: &Catalog) -> Self {
        Self {
            base: catalog.conditions.iter().map(|c| (c.id.clone(), stated_rates(catalog, c))).collect(),
            implies: catalog.implies.iter().map(|i| (i.premise.clone(), i.conclusion.clone())).collect(),
            excludes: catalog.excludes.iter().map(|e| e.pair.clone()).collect(),
        }
    }
    /// Rate of a condition overall, or in an era by its index.
    pub(crate) fn base(&self, condition: &str, era: Option<usize>) -> f64 {
        let rates = self.base.get(condition);
        rates.and_then(|r| r.get(era.map_or(0, |e| e + 1))).copied().unwrap_or(0.0)
    }
    /// Rate of `other` when `condition` is absent and when it is present.
    fn given(&self, other: &str, condition: &str, era: Option<usize>) -> [f64; 2] {
        let (p, q) = (self.base(condition, era), self.base(other, era));
        let implied = |a: &str, b: &str| self.implies.iter().any(|(x, y)| x == a && y == b);
        let share = |part: f64, whole: f64| if whole > 0.0 { (part / whole).clamp(0.0, 1.0) } else { 0.0 };
        if implied(condition, other) {
            [share(q - p, 1.0 - p), 1.0]
        } else if implied(other, condition) {
            [0.0, share(q, p)]
        } else if self.excludes.iter().any(|pair| pair.iter().all(|c| c == condition || c == other)) {
            [share(q, 1.0 - p), 0.0]
        } else {
            [q, q]
        }
    }
    /// The conditions as pairs without numbers asked.
    pub(crate) fn pairs(&self, conditions: &[&str], era: Option<usize>) -> Vec<Pair> {
        conditions
            .iter()
            .map(|c| Pair {
                if_present: 0.0,
                if_absent: 0.0,
                base: self.base(c, era),
                others: conditions.iter().map(|other| self.given(other, c, era)).collect(),
            })
            .collect()
    }
}
