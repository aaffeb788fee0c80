//! Shares of conditions that imply or exclude each other obey that in every era, as the catalog's loader asks.

use std::collections::{BTreeMap, BTreeSet};

use survey::catalog::Catalog;

use super::numbers::rounded;

/// Shares of two conditions that exclude each other add up to this at most; the loader's limit is 1.
const MOST: f64 = 0.995;

/// Raises what is implied, and takes shares that exclude each other down together.
pub(crate) fn hold(catalog: &mut Catalog) {
    for pair in excluding(catalog) {
        let [a, b] = pair.each_ref().map(|id| shares(catalog, id));
        for (band, p) in &a {
            let q = b.get(band).copied().unwrap_or(0.0);
            let (small, sum) = (MOST / (p + q), p + q);
            if sum > MOST {
                set(catalog, &pair[0], band, rounded(p * small));
                set(catalog, &pair[1], band, rounded(q * small));
            }
        }
    }
    for rule in catalog.implies.clone() {
        let conclusion = shares(catalog, &rule.conclusion);
        for (band, p) in shares(catalog, &rule.premise) {
            if conclusion.get(&band).is_some_and(|q| *q < p) {
                set(catalog, &rule.conclusion, &band, p);
            }
        }
    }
}

/// Two conditions whose shares cannot stand together, the first of which was `moved`: its line needs that of the other,
/// or has to be left.
pub(crate) fn broken(catalog: &Catalog, moved: &BTreeSet<&str>) -> Option<(String, String)> {
    let clash = |a: &str, b: &str, wrong: &dyn Fn(f64, f64) -> bool| {
        let other = shares(catalog, b);
        let bad = shares(catalog, a).iter().any(|(band, p)| other.get(band).is_some_and(|q| wrong(*p, *q)));
        let (first, second) = if moved.contains(a) { (a, b) } else { (b, a) };
        (bad && moved.contains(first)).then(|| (first.to_owned(), second.to_owned()))
    };
    let excluded = excluding(catalog).into_iter().find_map(|[a, b]| clash(&a, &b, &|p, q| p + q > 1.0));
    excluded.or_else(|| catalog.implies.iter().find_map(|r| clash(&r.premise, &r.conclusion, &|p, q| q < p)))
}

/// Pairs that exclude each other by their shares; a condition that follows from others has none of its own.
fn excluding(catalog: &Catalog) -> Vec<[String; 2]> {
    let derived = |id: &String| catalog.derived.iter().any(|d| d.condition == *id);
    let pairs = catalog.excludes.iter().map(|e| e.pair.clone());
    pairs.filter(|pair| !pair.iter().any(derived)).collect()
}

fn shares(catalog: &Catalog, id: &str) -> BTreeMap<String, f64> {
    catalog.condition(id).map(|c| c.prior.by_band.clone()).unwrap_or_default()
}

fn set(catalog: &mut Catalog, id: &str, band: &str, to: f64) {
    if let Some(p) =
        catalog.conditions.iter_mut().find(|c| c.id == id).and_then(|c| c.prior.by_band.get_mut(band))
    {
        *p = to;
    }
}
