//! Which answers moved each condition, by leaving one out at a time.

use std::collections::BTreeMap;

use survey::log::Value;

use crate::forecast::{PlaceRef, Reason};

/// Reasons kept for each condition.
const KEPT: usize = 5;
/// Weights below this are not told, decibans.
const LEAST: f64 = 0.1;

/// An answer that may be a reason.
#[derive(Clone)]
pub(crate) struct Told<'a> {
    pub(crate) item: &'a str,
    /// Where the house has several of its kind and the item is asked at each.
    pub(crate) place: Option<PlaceRef>,
    pub(crate) value: &'a Value,
}

impl Told<'_> {
    /// As a reason of this weight, decibans.
    pub(crate) fn reason(&self, decibans: f64) -> Reason {
        Reason {
            item: self.item.to_owned(),
            place: self.place.clone(),
            value: self.value.clone(),
            decibans: libm::round(decibans * 10.0) / 10.0,
        }
    }
}

/// Weight of evidence between two chances, decibans.
pub(crate) fn decibans(from: f64, to: f64) -> f64 {
    10.0 * (libm::log10(to / (1.0 - to)) - libm::log10(from / (1.0 - from)))
}

/// Reasons by condition.
#[derive(Clone, Debug, Default)]
pub(crate) struct Reasons {
    by_condition: BTreeMap<String, Vec<Reason>>,
}

impl Reasons {
    /// Notes an answer with which a condition has the chance `with`, and `without` without it.
    pub(crate) fn note(&mut self, condition: &str, answer: &Told<'_>, with: f64, without: f64) {
        let decibans = decibans(without, with);
        if decibans.is_finite() && decibans.abs() >= LEAST {
            self.by_condition.entry(condition.to_owned()).or_default().push(answer.reason(decibans));
        }
    }
    /// The strongest of each condition, strongest first.
    pub(crate) fn strongest(mut self) -> Self {
        for reasons in self.by_condition.values_mut() {
            let name = |r: &Reason| (r.item.clone(), r.place.as_ref().map(|p| p.id.clone()));
            reasons.sort_by(|a, b| {
                b.decibans.abs().total_cmp(&a.decibans.abs()).then_with(|| name(a).cmp(&name(b)))
            });
            reasons.truncate(KEPT);
        }
        self
    }
    /// Those of one condition.
    pub(crate) fn of(&self, condition: &str) -> Vec<Reason> {
        self.by_condition.get(condition).cloned().unwrap_or_default()
    }
}
