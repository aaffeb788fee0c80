//! Invented houses against what they are drawn from: exact marginals of the network, pairs of the catalog, declared
//! rates. All bands are 4.5 standard deviations.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use assessment::{ClueTables, HouseNetwork, Probability, Scope, house_evidence};
use imagine::{Habits, PlanMix, SimulatedHouse, Truth, houses};
use inference::posterior;
use review::Outcome;
use survey::catalog::{AnswerKind, Catalog, Clue, Condition, DatedBy, LAST_GUT};
use survey::log::{CheckOutcome, Value};

use crate::support::catalog;
use crate::support::forecasts::z;

const BAND: f64 = 4.5;

struct Drawn {
    catalog: Catalog,
    truth: Truth,
    houses: Vec<SimulatedHouse>,
}

fn drawn() -> &'static Drawn {
    static DRAWN: OnceLock<Drawn> = OnceLock::new();
    DRAWN.get_or_init(|| {
        let catalog = catalog();
        let mut truth = Truth::new(catalog.clone()).unwrap();
        // Held against the network of a house with one of each; `imagine`'s own tests look at houses with several.
        truth.habits.several.clear();
        let houses = houses(&catalog, &truth, 41).unwrap().take(2_000).map(Result::unwrap).collect();
        Drawn { catalog, truth, houses }
    })
}

/// Cases by name, each a probability and what happened.
type Cases = BTreeMap<String, Vec<(f64, bool)>>;

fn assert_within(cases: Cases, at_least: usize) {
    assert!(cases.len() >= at_least, "{} names", cases.len());
    for (name, cases) in cases {
        let n = cases.len();
        let (p, y) = (
            cases.iter().map(|c| c.0).sum::<f64>() / n as f64,
            cases.iter().filter(|c| c.1).count() as f64 / n as f64,
        );
        let off = z(cases);
        assert!(off.abs() <= BAND, "{name}: {y:.4} of {n} where {p:.4} is expected, z {off:.1}");
    }
}

/// The catalog without clues, but for those that are read from the same answer as the context: these bear on what is
/// there before anything was seen.
fn without_clues(catalog: &Catalog) -> Catalog {
    let mut bare = catalog.clone();
    let of_context = |clue: &str| {
        catalog.clue(clue).and_then(|c| catalog.item(&c.item)).is_some_and(|i| !i.sets_context.is_empty())
    };
    bare.conditions.iter_mut().for_each(|c| c.clues.retain(|p| of_context(&p.clue)));
    bare
}

#[test]
fn the_share_of_each_condition_is_that_of_the_network() {
    let Drawn { catalog, houses, .. } = drawn();
    let bare = without_clues(catalog);
    let tables = ClueTables::fit(&bare);
    let mut cases = Cases::new();
    for house in houses {
        let seen = house.seen(catalog);
        let scope: Vec<&Condition> = bare.in_scope(&seen).collect();
        let dated = matches!(seen.value(LAST_GUT), Some(Value::Number(year)) if year.milli > 0);
        let net =
            HouseNetwork::build(&bare, &tables, &Scope::one_of_each(&bare, &scope), &[], &[], dated).unwrap();
        let exact = posterior(&net.net, &house_evidence(&bare, &net, &seen).all()).unwrap();
        assert_eq!(net.conditions.len(), house.conditions.len());
        for (id, node) in &net.conditions {
            cases.entry(id.clone()).or_default().push((exact.of(*node)[1], house.conditions[id].present));
        }
    }
    assert_within(cases, catalog.conditions.len());
}

#[test]
fn levels_of_the_context_have_the_shares_of_the_catalog() {
    let Drawn { catalog, houses, .. } = drawn();
    let mut cases = Cases::new();
    for house in houses {
        let seen = house.seen(catalog);
        for factor in &catalog.factors {
            let level = factor.level(&seen).unwrap_or_else(|| panic!("{}", factor.id));
            let total: f64 = factor.levels.iter().map(|l| l.prior).sum();
            // A factor that depends on another has its own shares for each level of that.
            let given = factor.given.as_ref().and_then(|g| {
                let other = catalog.factor(&g.factor)?.level(&seen)?;
                Some(&g.when.iter().find(|w| w.level == other)?.priors)
            });
            for l in &factor.levels {
                let p = given.map_or(l.prior / total, |shares| shares.get(&l.id).copied().unwrap_or(0.0));
                let name = format!("{} {}", factor.id, l.id);
                cases.entry(name).or_default().push((p, l.id == level));
            }
        }
    }
    assert_within(cases, 30);
}

/// Clues whose share is not that of their pair, for reasons that are not the generator's: their item was drawn again in
/// some house; their state is read off a measurement; their item is a fact of the context, settled first; or they share
/// a single answer with other clues, whose chances the network scales down together where they come to more than 1.
fn not_by_pair(catalog: &Catalog, houses: &[SimulatedHouse]) -> BTreeSet<String> {
    let again: BTreeSet<&str> = houses.iter().flat_map(|h| &h.redrawn).map(String::as_str).collect();
    let apart = |clue: &&Clue| {
        let Some(item) = catalog.item(&clue.item) else { return true };
        let shared = item.clues.len() > 1 && !matches!(item.answer, AnswerKind::Choices { .. });
        shared || !item.sets_context.is_empty() || again.contains(clue.item.as_str())
    };
    let clues = catalog.clues.values().filter(apart).map(|c| c.id.clone());
    let measured = catalog.conditions.iter().filter_map(|c| c.measured_by.as_ref());
    clues.chain(measured.flat_map(|m| m.replaces_clues.iter().cloned())).collect()
}

/// Conditions a clue speaks about.
fn speaks_about<'a>(catalog: &'a Catalog, clue: &Clue) -> Vec<&'a Condition> {
    catalog.conditions.iter().filter(|c| c.clues.iter().any(|p| p.clue == clue.id)).collect()
}

#[test]
fn a_clue_of_one_condition_is_seen_as_often_as_its_pair_says() {
    let Drawn { catalog, houses, .. } = drawn();
    let left_out = not_by_pair(catalog, houses);
    let band =
        |house: &SimulatedHouse, dated: DatedBy| catalog.band(dated, &house.seen(catalog)).map(str::to_owned);
    let bands: Vec<[Option<String>; 2]> =
        houses.iter().map(|h| [band(h, DatedBy::House), band(h, DatedBy::Room)]).collect();
    let mut cases = Cases::new();
    for clue in catalog.clues.values().filter(|c| !left_out.contains(&c.id)) {
        let about = speaks_about(catalog, clue);
        let [condition] = about.as_slice() else { continue };
        let pair = condition.clues.iter().find(|p| p.clue == clue.id).unwrap();
        for (house, bands) in houses.iter().zip(&bands) {
            let state = house.conditions.get(&condition.id);
            let (Some(state), Some(seen)) = (state, house.clues.get(&clue.id)) else { continue };
            // Given by era, what is seen when it is there holds over all eras together, and not era by era.
            if state.present && !pair.if_absent_by_band.is_empty() {
                continue;
            }
            let band = &bands[usize::from(condition.dated_by == DatedBy::Room)];
            let p = if state.present { pair.if_present } else { pair.absent_in(band.as_deref()) };
            let there = if state.present { "there" } else { "not there" };
            cases.entry(format!("{} | {} {there}", clue.id, condition.id)).or_default().push((p, *seen));
        }
    }
    cases.retain(|_, cases| cases.len() >= 20);
    assert_within(cases, 120);
}

/// Habits under which every job is planned, so that all conditions are in scope that the house allows.
fn everything_planned(catalog: &Catalog) -> Habits {
    let mut habits = Habits::builtin().unwrap();
    let jobs = catalog.item("planned-work").unwrap().answer.options().iter();
    let jobs = jobs.map(|o| o.id.clone()).filter(|o| o != "cant-tell").collect();
    habits.plan = vec![PlanMix { name: "everything".into(), weight: 1.0, jobs, maybe: BTreeMap::new() }];
    habits.not_together.pairs.clear();
    habits.several.clear();
    habits.gut.chance = 0.0;
    habits
}

#[test]
fn a_clue_of_several_conditions_is_seen_about_as_often_as_its_pairs_say() {
    // The catalog states its pairs over all houses at the rates it states, before context and firm-wide factor.
    let mut plain = catalog();
    plain.reference.base_odds.factor = 1.0;
    plain.conditions.iter_mut().for_each(|c| c.prior.adjust.clear());
    let truth =
        Truth { tables: ClueTables::fit(&plain), habits: everything_planned(&plain), catalog: plain.clone() };
    let houses: Vec<_> = houses(&plain, &truth, 43).unwrap().take(500).map(Result::unwrap).collect();
    let left_out = not_by_pair(&plain, &houses);
    let mut compared = 0;
    for row in truth.tables.asked_and_got(&plain).iter().filter(|r| r.band.is_none()) {
        let clue = plain.clue(&row.clue).unwrap();
        if left_out.contains(&row.clue) || speaks_about(&plain, clue).len() < 2 {
            continue;
        }
        let present = row.of == Probability::IfPresent;
        let seen: Vec<bool> = houses
            .iter()
            .filter(|h| h.conditions.get(&row.condition).is_some_and(|s| s.present == present))
            .filter_map(|h| h.clues.get(&row.clue).copied())
            .collect();
        let n = seen.len() as f64;
        if n < 30.0 {
            continue;
        }
        let share = seen.iter().filter(|s| **s).count() as f64 / n;
        // Houses differ in which of the other causes are in scope: a few in a hundred either way.
        let band = BAND * (row.got * (1.0 - row.got) / n).sqrt() + 0.03;
        assert!((share - row.got).abs() <= band, "{row:?}: {share:.3} of {n}");
        compared += 1;
    }
    assert!(compared > 100, "{compared}");
}

#[test]
fn answers_go_missing_at_the_declared_rates() {
    let Drawn { catalog, truth, houses } = drawn();
    let habits = &truth.habits;
    let mut cases = Cases::new();
    for house in houses {
        for (id, said) in &house.said {
            let item = catalog.item(id).unwrap();
            assert!(said.there.is_some(), "house {}: {id} has nothing to be said", house.number);
            let options: Vec<&str> = item.answer.options().iter().map(|o| o.id.as_str()).collect();
            let done = options.iter().any(|o| matches!(*o, "not-done" | "not-opened"));
            let not_done = if done { habits.not_done.of(id) } else { 0.0 };
            let station = &habits.missing[&item.station];
            let (cant, could) = habits
                .missing_item
                .get(id)
                .map_or((station.cant_tell, station.could_not_reach), |p| (*p, 0.0));
            let left = 1.0 - not_done;
            let rates = [
                ("can't tell", cant * left, said.value == Value::CantTell),
                ("could not reach", could * left, matches!(said.value, Value::CouldNotReach(_))),
                (
                    "not done",
                    not_done,
                    said.there.as_ref() != Some(&said.value) && says_not_done(&said.value),
                ),
            ];
            for (what, p, happened) in rates {
                if p > 0.0 {
                    cases.entry(format!("{} {what}", item.station)).or_default().push((p, happened));
                } else {
                    assert!(!happened, "{id} {what}");
                }
            }
        }
    }
    assert_within(cases, 35);
}

fn says_not_done(value: &Value) -> bool {
    let not_done = |o: &String| matches!(o.as_str(), "not-done" | "not-opened");
    match value {
        Value::Choice(option) => not_done(option),
        Value::Choices(options) => options.iter().all(not_done),
        _ => false,
    }
}

#[test]
fn suspected_places_are_opened_more_often_whatever_is_there() {
    let Drawn { truth, houses, .. } = drawn();
    let opening = truth.habits.opening;
    assert!(opening.suspected > opening.others);
    let mut cases = Cases::new();
    for (house, finding) in houses.iter().flat_map(|h| h.findings.iter().map(move |f| (h, f))) {
        let p = if finding.suspected { opening.suspected } else { opening.others };
        let there = house.conditions[&finding.condition].present;
        let name = format!("suspected {}, there {there}", finding.suspected);
        cases.entry(name).or_default().push((p, finding.outcome != Outcome::NotOpened));
    }
    assert_within(cases, 4);
}

#[test]
fn checks_show_what_is_there_as_often_as_they_can_be_trusted() {
    let Drawn { catalog, truth, houses } = drawn();
    let clear = 1.0 - truth.habits.looks.unclear;
    let mut cases = Cases::new();
    for house in houses {
        for ((check, condition), outcome) in &house.checks {
            let pair =
                catalog.condition(condition).unwrap().checks.iter().find(|p| p.check == *check).unwrap();
            let there = house.conditions[condition].present;
            let p = clear * if there { pair.sensitivity } else { 1.0 - pair.specificity };
            let name = format!("{check} {there}");
            cases.entry(name).or_default().push((p, *outcome == CheckOutcome::ShowsIt));
        }
    }
    assert_within(cases, 60);
}

#[test]
fn a_room_gutted_since_is_dated_by_the_gut() {
    let Drawn { catalog, houses, .. } = drawn();
    let mut gutted = 0;
    for house in houses {
        let seen = house.seen(catalog);
        let year = |item: &str| match seen.value(item) {
            Some(Value::Number(year)) => year.milli / 1000,
            other => panic!("{item}: {other:?}"),
        };
        if year(LAST_GUT) > 0 {
            gutted += 1;
            assert!(year(LAST_GUT) > year("year-built"), "house {}", house.number);
            assert_ne!(catalog.band(DatedBy::Room, &seen), None);
        }
    }
    assert!(gutted > 200, "{gutted}");
}
