//! The numbers of a catalog that are learned: which they are, what they weigh, and the catalog with others in their place.

use std::collections::BTreeMap;

use survey::Digest;
use survey::catalog::{AnswerKind, Catalog, CheckPair, CluePair, Condition};

use super::shift::logit;

/// Bounds of a clue's chances, as the catalog's loader holds them.
const CLUE: [f64; 2] = [0.001, 0.99];
/// Bounds of shares; the lower one is that of the network.
const PRIOR: [f64; 2] = [0.0005, 0.98];
/// Bounds of sensitivity and specificity, so that no check is taken as certain.
const CHECK: [f64; 2] = [0.01, 0.99];
/// Chances of clues that exclude each other add up to less than this (the loader's limit, with room for rounding).
const TOGETHER: f64 = 0.965;
/// Steps in which numbers that would break a rule of the catalog are taken back towards the old ones.
const STEPS: u32 = 20;
/// Numbers are written to four decimals, so that what is written is what was learned.
const DECIMALS: f64 = 1e4;

/// A number or several that move together, by condition.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Group {
    /// The shares of a condition by era.
    Prior,
    /// P(clue | there).
    Present(String),
    /// P(clue | not there), in all eras.
    Absent(String),
    /// P(check shows it | there).
    Sensitivity(String),
    /// P(check shows nothing | not there).
    Specificity(String),
}

/// (id of the condition, group).
pub(crate) type Id = (String, Group);

/// One number of a group, and what part of its houses it stands for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Number {
    /// Key within the condition, as an overlay writes it.
    pub(crate) key: String,
    /// Era band, where there is one for each.
    pub(crate) band: Option<String>,
    pub(crate) value: f64,
    /// Its part of the weight; all of a group add up to one.
    pub(crate) part: f64,
    /// What its odds are multiplied by before they are met, besides context.
    pub(crate) odds_ratio: f64,
}

/// The numbers of a group as they stand; none where the catalog does not have them. A share that is 0 on purpose is left
/// out.
pub(crate) fn numbers(catalog: &Catalog, (condition, group): &Id) -> Vec<Number> {
    let Some(c) = catalog.condition(condition) else { return Vec::new() };
    let one = |key: String, value: f64| vec![Number { key, band: None, value, part: 1.0, odds_ratio: 1.0 }];
    match group {
        Group::Prior => shares(catalog, c),
        Group::Present(clue) => {
            pair(c, clue).map(|p| one(format!("clues.{clue}.if-present"), p.if_present)).unwrap_or_default()
        }
        Group::Absent(clue) => pair(c, clue).map(|p| absent(catalog, p)).unwrap_or_default(),
        Group::Sensitivity(check) => checked(c, check)
            .map(|p| one(format!("checks.{check}.sensitivity"), p.sensitivity))
            .unwrap_or_default(),
        Group::Specificity(check) => checked(c, check)
            .map(|p| one(format!("checks.{check}.specificity"), p.specificity))
            .unwrap_or_default(),
    }
}

/// How many houses the catalog's own numbers of a group count for, the mean by their parts: the jobs they were counted in,
/// or the weight of their basis.
pub(crate) fn weight(catalog: &Catalog, id: &Id) -> f64 {
    let list = numbers(catalog, id);
    let parts: f64 = list.iter().map(|n| n.part).sum();
    let one = |n: &Number| n.part * catalog.standing("condition", &id.0, &n.key).map_or(0.0, |s| s.weight);
    if parts > 0.0 { list.iter().map(one).sum::<f64>() / parts } else { 0.0 }
}

fn shares(catalog: &Catalog, c: &Condition) -> Vec<Number> {
    let levels = catalog.era().map(|e| e.levels.as_slice()).unwrap_or_default();
    let counted: Vec<_> = levels.iter().filter(|l| !c.never_in.contains(&l.id)).collect();
    let all: f64 = counted.iter().map(|l| l.prior).sum();
    let number = |l: &&survey::catalog::Level| {
        Some(Number {
            key: format!("prior.{}", l.id),
            band: Some(l.id.clone()),
            value: *c.prior.by_band.get(&l.id).filter(|p| **p > 0.0)?,
            part: if all > 0.0 { l.prior / all } else { 1.0 / counted.len() as f64 },
            odds_ratio: catalog.reference.base_odds.factor_for(&c.id),
        })
    };
    counted.iter().filter_map(number).collect()
}

/// The overall number, which stands for the eras that have none of their own, and those.
fn absent(catalog: &Catalog, p: &CluePair) -> Vec<Number> {
    let levels = catalog.era().map(|e| e.levels.as_slice()).unwrap_or_default();
    let all: f64 = levels.iter().map(|l| l.prior).sum::<f64>().max(f64::MIN_POSITIVE);
    let mut own = 0.0;
    let mut list = Vec::new();
    for level in levels {
        if let Some(value) = p.if_absent_by_band.get(&level.id) {
            own += level.prior / all;
            list.push(Number {
                key: format!("clues.{}.if-absent-by-band.{}", p.clue, level.id),
                band: Some(level.id.clone()),
                value: *value,
                part: level.prior / all,
                odds_ratio: 1.0,
            });
        }
    }
    list.push(Number {
        key: format!("clues.{}.if-absent", p.clue),
        band: None,
        value: p.if_absent,
        part: (1.0 - own).max(0.0),
        odds_ratio: 1.0,
    });
    list
}

fn pair<'c>(c: &'c Condition, clue: &str) -> Option<&'c CluePair> {
    c.clues.iter().find(|p| p.clue == clue)
}
fn checked<'c>(c: &'c Condition, check: &str) -> Option<&'c CheckPair> {
    c.checks.iter().find(|p| p.check == check)
}

/// Values by condition and key.
pub(crate) type Values = BTreeMap<(String, String), f64>;

/// The catalog with other numbers, held within what a catalog may say, under a digest of its own. A number that would
/// break a rule together with others goes back towards its old value, together with them.
pub(crate) fn with(catalog: &Catalog, values: &Values) -> Catalog {
    let mut changed = catalog.clone();
    for (old, c) in catalog.conditions.iter().zip(&mut changed.conditions) {
        let to = |key: String, p: f64, [low, high]: [f64; 2]| match values.get(&(old.id.clone(), key)) {
            Some(value) => rounded(*value).clamp(low, high),
            None => p,
        };
        for (band, p) in &mut c.prior.by_band {
            if *p > 0.0 {
                *p = to(format!("prior.{band}"), *p, PRIOR);
            }
        }
        for p in &mut c.clues {
            let clue = &p.clue;
            p.if_present = to(format!("clues.{clue}.if-present"), p.if_present, CLUE);
            p.if_absent = to(format!("clues.{clue}.if-absent"), p.if_absent, CLUE);
            for (band, absent) in &mut p.if_absent_by_band {
                *absent = to(format!("clues.{clue}.if-absent-by-band.{band}"), *absent, CLUE);
            }
        }
        for p in &mut c.checks {
            let check = &p.check;
            let (se, sp) = (p.sensitivity, p.specificity);
            p.sensitivity = to(format!("checks.{check}.sensitivity"), se, CHECK);
            p.specificity = to(format!("checks.{check}.specificity"), sp, CHECK);
            if p.sensitivity + p.specificity <= 1.0 {
                (p.sensitivity, p.specificity) = (se, sp);
            }
        }
        hold_clues(catalog, old, c);
    }
    super::relations::hold(&mut changed);
    let eras: Vec<(String, f64)> =
        catalog.era().map(|e| e.levels.iter().map(|l| (l.id.clone(), l.prior)).collect()).unwrap_or_default();
    let total: f64 = eras.iter().map(|(_, s)| s).sum();
    for c in changed.conditions.iter_mut().filter(|_| total > 0.0) {
        let share = |(band, s): &(String, f64)| s * c.prior.by_band.get(band).copied().unwrap_or(0.0);
        c.prior.unknown = eras.iter().map(share).sum::<f64>() / total;
    }
    changed.digest = Digest::of(format!("{}\n{values:?}", catalog.digest).as_bytes());
    changed
}

/// A clue keeps speaking the way it spoke, and clues of one answer leave something for none of them.
fn hold_clues(catalog: &Catalog, old: &Condition, new: &mut Condition) {
    let item = |p: &CluePair| catalog.clue(&p.clue).map(|c| c.item.clone()).unwrap_or_default();
    let items: Vec<String> = old.clues.iter().map(item).collect();
    for of in items.iter().collect::<std::collections::BTreeSet<_>>() {
        let here: Vec<usize> = (0..items.len()).filter(|k| &items[*k] == of).collect();
        let exclusive = catalog.item(of).is_some_and(|i| matches!(i.answer, AnswerKind::Choice { .. }));
        let wanted: Vec<CluePair> = here.iter().map(|k| new.clues[*k].clone()).collect();
        for step in 0..=STEPS {
            let back = f64::from(step) / f64::from(STEPS);
            for (k, wanted) in here.iter().zip(&wanted) {
                new.clues[*k] = between(wanted, &old.clues[*k], back);
            }
            let now: Vec<&CluePair> = here.iter().map(|k| &new.clues[*k]).collect();
            let turned = here.iter().any(|k| {
                let raised = |p: &CluePair| p.if_present > p.if_absent;
                raised(&new.clues[*k]) != raised(&old.clues[*k])
            });
            let crowded = exclusive && here.len() > 1 && too_many(&now);
            if !(turned || crowded) {
                break;
            }
        }
    }
}

fn too_many(pairs: &[&CluePair]) -> bool {
    let sum = |f: &dyn Fn(&CluePair) -> f64| pairs.iter().map(|p| f(p)).sum::<f64>() > TOGETHER;
    let mut bands = pairs.iter().flat_map(|p| p.if_absent_by_band.keys());
    sum(&|p| p.if_present) || sum(&|p| p.if_absent) || bands.any(|b| sum(&|p| p.absent_in(Some(b))))
}

/// A pair on its way back; `back` 1 is the old one, exactly.
fn between(new: &CluePair, old: &CluePair, back: f64) -> CluePair {
    let mix = |n: f64, o: f64| if back >= 1.0 { o } else { rounded(n + back * (o - n)) };
    let mut pair = old.clone();
    pair.if_present = mix(new.if_present, old.if_present);
    pair.if_absent = mix(new.if_absent, old.if_absent);
    for (band, p) in &mut pair.if_absent_by_band {
        *p = mix(new.absent_in(Some(band)), *p);
    }
    pair
}

pub(crate) fn rounded(p: f64) -> f64 {
    libm::round(p * DECIMALS) / DECIMALS
}

/// Log odds of a number as it is met.
pub(crate) fn met(number: &Number) -> f64 {
    logit(number.value) + libm::log(number.odds_ratio)
}
