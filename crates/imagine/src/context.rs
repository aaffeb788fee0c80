//! Facts that are settled before the network is built: the plan, the levels of the context, and the answers that say
//! which conditions are in scope.

use std::collections::{BTreeMap, BTreeSet};

use survey::catalog::{
    AnswerKind, Catalog, Condition, Factor, Item, LAST_GUT, PLANNED_WORK, Predicate, YEAR_BUILT,
};
use survey::log::Value;
use survey::units::Quantity;

use crate::candidates::statements;
use crate::forward::States;
use crate::ground::Ground;
use crate::habits::Habits;
use crate::speak::Facts;
use crate::stream::Stream;

/// First year of a house in an era that is open below: judgment.
const OLDEST: i64 = 1885;

/// What is settled first.
pub(crate) struct Context {
    /// Answers that follow from it.
    pub(crate) facts: Facts,
    /// Level of each factor, by index.
    pub(crate) levels: BTreeMap<String, usize>,
    /// Era of the room, by index, where it was gutted since.
    pub(crate) room: Option<usize>,
}

/// Draws levels from the shares of the catalog and answers from the levels. `bare` is the network without conditions.
pub(crate) fn draw(
    catalog: &Catalog,
    habits: &Habits,
    jobs: &[String],
    bare: &Ground,
    stream: &mut Stream,
) -> Context {
    let mut states: States = bare.blank();
    bare.draw(&mut states, stream);
    let levels: BTreeMap<String, usize> =
        catalog.factors.iter().filter_map(|f| Some((f.id.clone(), bare.factor(&states, &f.id)?))).collect();
    let mut facts = Facts::from([(PLANNED_WORK.to_owned(), Value::choices(jobs.to_vec()))]);
    let read: BTreeSet<&str> = catalog.factors.iter().map(|f| f.item.as_str()).collect();
    for item in catalog.items.iter().filter(|i| read.contains(i.id.as_str())) {
        let here: Vec<(&Factor, usize)> = catalog
            .factors
            .iter()
            .filter(|f| f.item == item.id)
            .filter_map(|f| Some((f, *levels.get(&f.id)?)))
            .collect();
        if let Some(value) = saying(item, &here, habits, stream) {
            facts.insert(item.id.clone(), value);
        }
    }
    let room = gut(catalog, habits, &mut facts, stream);
    for item in scope_items(catalog).filter(|i| !facts.contains_key(&i.id)).collect::<Vec<_>>() {
        if let Some(value) = scope_answer(catalog, item, habits, &facts, stream) {
            facts.insert(item.id.clone(), value);
        }
    }
    Context { facts, levels, room }
}

/// An answer that means all of these levels.
fn saying(item: &Item, here: &[(&Factor, usize)], habits: &Habits, stream: &mut Stream) -> Option<Value> {
    match &item.answer {
        AnswerKind::Choice { .. } => {
            let means = |o: &&str| {
                here.iter()
                    .all(|(f, level)| f.levels.get(*level).is_some_and(|l| l.answers.iter().any(|a| a == o)))
            };
            let options: Vec<&str> = statements(item).filter(means).collect();
            let picked = stream.pick(options.iter().map(|o| habits.weight(&item.id, o)))?;
            Some(Value::Choice(options[picked].to_owned()))
        }
        AnswerKind::Number { unit, min_milli, max_milli, .. } => {
            let (factor, level) = here.first()?;
            let level = factor.levels.get(*level)?;
            let first = level.from.unwrap_or(OLDEST).max(min_milli / 1000);
            let last = level.to.unwrap_or(habits.gut.now - 1).min(max_milli / 1000);
            let year = stream.whole(first.min(last), last);
            Some(Value::Number(Quantity { milli: year * 1000, unit: unit.clone() }))
        }
        _ => None,
    }
}

/// Whether and when the room was taken to the studs; returns the era of that year.
fn gut(catalog: &Catalog, habits: &Habits, facts: &mut Facts, stream: &mut Stream) -> Option<usize> {
    let item = catalog.item(LAST_GUT)?;
    let AnswerKind::Number { unit, .. } = &item.answer else { return None };
    let built = match facts.get(YEAR_BUILT) {
        Some(Value::Number(year)) => year.milli / 1000,
        _ => return None,
    };
    let g = &habits.gut;
    let (chosen, share) = (stream.chance(g.chance), stream.share());
    let first = (built + g.age.min(10)).max(g.earliest);
    let year = if chosen && g.now - built >= g.age && first < g.now {
        first + libm::floor(share * (g.now - first) as f64) as i64
    } else {
        0
    };
    facts.insert(LAST_GUT.to_owned(), Value::Number(Quantity { milli: year * 1000, unit: unit.clone() }));
    let era = catalog.era()?;
    let band = era.band_of_year(year).filter(|_| year > 0)?;
    era.levels.iter().position(|l| l.id == band)
}

/// Items that say whether a condition is in scope, in walking order.
fn scope_items(catalog: &Catalog) -> impl Iterator<Item = &Item> {
    let rules = |c: &'_ Condition| -> Vec<String> {
        let rules = c.applies_if.iter().chain(&c.not_applicable_if);
        rules.flat_map(Predicate::items).map(str::to_owned).collect()
    };
    let named: BTreeSet<String> = catalog.conditions.iter().flat_map(rules).collect();
    catalog.items.iter().filter(move |i| named.contains(&i.id))
}

/// The answer of an item that decides about scope: one that leaves conditions out has its own chance; where clues read
/// the item, any other answer waits for the network.
fn scope_answer(
    catalog: &Catalog,
    item: &Item,
    habits: &Habits,
    facts: &Facts,
    stream: &mut Stream,
) -> Option<Value> {
    let AnswerKind::Choice { .. } = &item.answer else { return None };
    let leaves_out = |o: &str| takes_out(catalog, facts, &item.id, &Value::Choice(o.to_owned()));
    let absent = habits.absent.get(&item.id).copied();
    let out = absent.is_some_and(|p| stream.chance(p));
    if !out && !item.clues.is_empty() {
        return None;
    }
    let options: Vec<&str> = statements(item).filter(|o| absent.is_none() || leaves_out(o) == out).collect();
    let picked = stream.pick(options.iter().map(|o| habits.weight(&item.id, o)))?;
    Some(Value::Choice(options[picked].to_owned()))
}

/// Ids of the items that say whether a condition is in scope.
pub(crate) fn scope_item_ids(catalog: &Catalog) -> BTreeSet<String> {
    scope_items(catalog).map(|i| i.id.clone()).collect()
}

/// True when an answer takes a condition out of scope that is in it without the answer. Costly: meant for the few items
/// that decide about scope.
pub(crate) fn takes_out(catalog: &Catalog, facts: &Facts, item: &str, value: &Value) -> bool {
    let reads = |c: &&Condition| {
        let mut rules = c.not_applicable_if.iter().chain(&c.applies_if);
        rules.any(|r| r.items().contains(item))
    };
    let mut with = facts.clone();
    with.insert(item.to_owned(), value.clone());
    let mut read = catalog.conditions.iter().filter(reads);
    read.any(|c| c.applies(facts) != Some(false) && c.applies(&with) == Some(false))
}
