//! Which answers moved each condition, by leaving one out at a time.

use std::collections::BTreeMap;

use survey::log::Value;

use crate::forecast::Reason;

/// Reasons kept for each condition.
const KEPT: usize = 5;
/// Weights below this are not told, decibans.
const LEAST: f64 = 0.1;

/// Reasons by condition.
#[derive(Clone, Debug, Default)]
pub(crate) struct Reasons {
    by_condition: BTreeMap<String, Vec<Reason>>,
}

impl Reasons {
    /// Notes an answer with which a condition has the chance `with`, and `without` without it.
    pub(crate) fn note(&mut self, condition: &str, item: &str, value: &Value, with: f64, without: f64) {
        let decibans = 10.0 * (libm::log10(with / (1.0 - with)) - libm::log10(without / (1.0 - without)));
        if decibans.is_finite() && decibans.abs() >= LEAST {
            let decibans = libm::round(decibans * 10.0) / 10.0;
            let reason = Reason { item: item.to_owned(), value: value.clone(), decibans };
            self.by_condition.entry(condition.to_owned()).or_default().push(reason);
        }
    }
    /// The strongest of each condition, strongest first.
    pub(crate) fn strongest(mut self) -> Self {
        for reasons in self.by_condition.values_mut() {
            reasons.sort_by(|a, b| b.decibans.abs().total_cmp(&a.decibans.abs()).then(a.item.cmp(&b.item)));
            reasons.truncate(KEPT);
        }
        self
    }
    /// Those of one condition.
    pub(crate) fn of(&self, condition: &str) -> Vec<Reason> {
        self.by_condition.get(condition).cloned().unwrap_or_default()
    }
}
