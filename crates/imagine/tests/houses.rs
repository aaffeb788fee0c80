//! What must hold of every invented house.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use std::collections::BTreeMap;
use std::sync::OnceLock;

use imagine::{Habits, ImagineError, SimulatedHouse, Truth, Wrong, houses};
use review::Outcome;
use survey::catalog::{AnswerKind, Catalog, Item, builtin};
use survey::log::{CheckOutcome, Value};
use survey::units::Money;

const MANY: usize = 150;

struct Drawn {
    catalog: Catalog,
    truth: Truth,
    houses: Vec<SimulatedHouse>,
}

fn drawn() -> &'static Drawn {
    static DRAWN: OnceLock<Drawn> = OnceLock::new();
    DRAWN.get_or_init(|| {
        let catalog = builtin().unwrap();
        let truth = Truth::new(catalog.clone()).unwrap();
        let houses = draw(&catalog, &truth, 7, MANY);
        Drawn { catalog, truth, houses }
    })
}

fn draw(catalog: &Catalog, truth: &Truth, seed: u64, n: usize) -> Vec<SimulatedHouse> {
    houses(catalog, truth, seed).unwrap().take(n).map(Result::unwrap).collect()
}

/// What is said where nothing is missing.
fn facts(house: &SimulatedHouse) -> BTreeMap<String, Value> {
    house.said.iter().filter_map(|(item, said)| Some((item.clone(), said.there.clone()?))).collect()
}

#[test]
fn answers_say_what_is_to_be_seen_and_nothing_else() {
    let Drawn { catalog, houses, .. } = drawn();
    let (mut told, mut hidden) = (0, 0);
    for house in houses {
        let (facts, catalog) = (facts(house), house.catalog(catalog));
        for (id, seen) in &house.clues {
            let clue = catalog.clue(id).unwrap();
            match clue.state(&facts) {
                Some(said) => {
                    told += 1;
                    assert_eq!(said, *seen, "house {}: {id}, {:?}", house.number, facts.get(&clue.item));
                }
                None => hidden += 1,
            }
        }
    }
    // A part is hidden by what lies on top of it; most is told.
    assert!(told > 8 * hidden && hidden > 0, "{told} {hidden}");
}

#[test]
fn every_item_has_an_answer_that_its_item_takes() {
    let Drawn { catalog, houses, .. } = drawn();
    for house in houses {
        let catalog = house.catalog(catalog);
        let items = catalog.items.iter().filter(|i| !matches!(i.answer, AnswerKind::Checks));
        assert_eq!(house.said.len(), items.count());
        let there = house.said.iter().filter_map(|(i, s)| Some((i, s.there.as_ref()?)));
        let said = house.said.iter().map(|(i, s)| (i, &s.value));
        for (item, value) in said.chain(there).chain(house.walk.iter().map(|s| (&s.item, &s.value))) {
            catalog.check_answer(item, value).unwrap_or_else(|e| panic!("house {}: {e}", house.number));
        }
        assert_eq!(house.answer("no-such-item"), Value::CantTell);
        let lengths = house.said.values().filter(|s| matches!(s.value, Value::Length(_)));
        assert!(lengths.into_iter().all(|s| s.tolerance.is_some()));
    }
}

#[test]
fn the_walk_is_in_order_and_obeys_the_skip_rules() {
    let Drawn { catalog, houses, .. } = drawn();
    let mut second = 0;
    for house in houses {
        let catalog = house.catalog(catalog);
        let mut recorded: BTreeMap<String, Value> = BTreeMap::new();
        let mut steps = house.walk.iter().peekable();
        for item in &catalog.items {
            let step = steps.next_if(|s| s.item == item.id);
            if let Some(step) = step {
                assert!(!item.skipped(&recorded), "house {}: {}", house.number, item.id);
                second += u32::from(!item.in_first_walk(&recorded));
                recorded.insert(item.id.clone(), step.value.clone());
            } else {
                let left_out = item.skipped(&recorded) || !item.in_first_walk(&recorded);
                assert!(left_out, "house {}: {} was not asked", house.number, item.id);
            }
        }
        assert!(steps.next().is_none());
        assert!(house.walk.windows(2).all(|w| w[0].minute <= w[1].minute));
    }
    assert!(second > 0);
}

#[test]
fn relations_of_the_catalog_hold_in_every_house() {
    let Drawn { catalog, houses, .. } = drawn();
    for house in houses {
        let catalog = house.catalog(catalog);
        let there = |id: &str| house.conditions.get(id).map(|s| s.present);
        for rule in &catalog.excludes {
            assert!(!rule.pair.iter().all(|id| there(id) == Some(true)), "{:?}", rule.pair);
        }
        for rule in &catalog.implies {
            assert!(there(&rule.premise) != Some(true) || there(&rule.conclusion) != Some(false), "{rule:?}");
        }
        for rule in &catalog.derived {
            let parts: Vec<bool> = rule.none_of.iter().filter_map(|id| there(id)).collect();
            if let (Some(found), false) = (there(&rule.condition), parts.is_empty()) {
                assert_eq!(found, !parts.contains(&true), "{rule:?}");
            }
        }
        let facts = facts(house);
        let scope: Vec<&str> = catalog.in_scope(&facts).map(|c| c.id.as_str()).collect();
        assert_eq!(house.conditions.len(), scope.len());
        assert!(scope.iter().all(|id| there(id).is_some()), "house {}", house.number);
    }
}

#[test]
fn money_and_days_follow_from_what_is_there_and_what_was_opened() {
    let Drawn { catalog, houses, .. } = drawn();
    let mut covered = 0;
    for house in houses {
        let catalog = house.catalog(catalog);
        let sum = |held: bool, counts: &dyn Fn(&str) -> bool| -> Money {
            let states = house.conditions.iter().filter(|(id, s)| s.in_base == held && counts(id));
            states.map(|(_, s)| s.cost).sum()
        };
        assert_eq!(house.findings.len(), house.conditions.len());
        for finding in &house.findings {
            let state = house.conditions[&finding.condition];
            let c = catalog.condition(&finding.condition).unwrap();
            match finding.outcome {
                Outcome::NotOpened => {}
                Outcome::Found => assert!(state.present && finding.cost == state.cost),
                Outcome::NotThere => assert!(!state.present),
            }
            if finding.outcome != Outcome::Found {
                assert_eq!((finding.cost, finding.days, finding.paid_by), (Money::ZERO, 0.0, None));
            }
            let price = c.cost_in(&facts(house));
            if state.becomes_cost && state.cost > Money::ZERO {
                assert!(state.present && price.low <= state.cost && state.cost <= price.high, "{}", c.id);
            }
            if state.becomes_cost && state.cost == Money::ZERO && price.low > Money::ZERO {
                let covers = |other: &&survey::catalog::Condition| other.covers_cost_of.contains(&c.id);
                let by: Vec<_> = catalog.conditions.iter().filter(covers).collect();
                assert!(by.iter().any(|o| house.conditions.get(&o.id).is_some_and(|s| s.becomes_cost)));
                covered += 1;
            }
        }
        let opened =
            |id: &str| house.findings.iter().any(|f| f.condition == id && f.outcome != Outcome::NotOpened);
        assert_eq!((house.loss.money, house.loss.in_base), (sum(false, &|_| true), sum(true, &|_| true)));
        assert_eq!((house.paid.money, house.paid.in_base), (sum(false, &opened), sum(true, &opened)));
        assert!(house.paid.days <= house.loss.days && house.paid.utility_days <= house.loss.utility_days);
    }
    assert!(covered > 0);
}

#[test]
fn the_same_seed_gives_the_same_bytes_however_many_are_drawn() {
    let Drawn { catalog, truth, houses } = drawn();
    let again = draw(catalog, truth, 7, 3);
    for (a, b) in again.iter().zip(houses) {
        assert_eq!(a.to_line(), b.to_line());
        assert_eq!(a.label, format!("Invented house 7-{}", a.number));
        assert!(a.note.starts_with("An invented house"), "{}", a.note);
    }
    assert_ne!(draw(catalog, truth, 8, 1)[0].to_line(), again[0].to_line());
    let line: serde_json::Value = serde_json::from_str(&again[0].to_line()).unwrap();
    assert_eq!((line["v"].as_u64(), line["invented"].as_bool()), (Some(1), Some(true)));
    assert_eq!(line["walk"].as_array().unwrap().len(), again[0].walk.len());
}

#[test]
fn a_replay_sees_the_answers_that_were_asked_and_no_others() {
    let Drawn { catalog, houses, .. } = drawn();
    let house = &houses[0];
    let picture = house.picture(catalog, |item| item == "year-built" || item == "planned-work");
    assert_eq!(picture.answers.len(), 2);
    assert_eq!(picture.value("year-built"), Some(&house.answer("year-built")));
    assert_eq!(picture.opened.as_ref().unwrap().contract, Some(house.contract));
    let walked = house.walked(catalog);
    assert_eq!(walked.answers.len(), house.walk.len());
    // Every check that was made shows what was settled beforehand.
    let made = house.walk.iter().filter_map(|s| match &s.value {
        Value::Checks(results) => Some(results),
        _ => None,
    });
    for result in made.flatten() {
        assert_eq!(house.check(&result.check, &result.conditions[0]), Some(result.result));
    }
    assert_eq!(house.check("pinhole", "no-such-condition"), None::<CheckOutcome>);
}

#[test]
fn another_truth_moves_what_is_there_and_keeps_the_walk() {
    let Drawn { catalog, truth, houses } = drawn();
    let wrong = Wrong::read("[odds]\nfloor-sag = 40.0\n").unwrap();
    let other = Truth { catalog: wrong.applied(catalog).unwrap(), ..truth.clone() };
    let share = |houses: &[SimulatedHouse]| {
        let states: Vec<bool> =
            houses.iter().filter_map(|h| h.conditions.get("floor-sag")).map(|s| s.present).collect();
        states.iter().filter(|s| **s).count() as f64 / states.len() as f64
    };
    let moved = draw(catalog, &other, 7, 60);
    assert!(share(&moved) > share(&houses[..60]) + 0.3, "{} {}", share(&moved), share(houses));
    assert_eq!(moved[0].contract, houses[0].contract);
    let mut asks_otherwise = truth.clone();
    let item: &mut Item = &mut asks_otherwise.catalog.items[3];
    item.answer = AnswerKind::Checks;
    let refused = houses_of(catalog, &asks_otherwise).unwrap_err();
    assert!(matches!(&refused, ImagineError::OtherWalk { item } if *item == catalog.items[3].id));
}

fn houses_of(catalog: &Catalog, truth: &Truth) -> Result<(), ImagineError> {
    houses(catalog, truth, 1).map(drop)
}

#[test]
fn habits_name_only_what_the_catalog_has() {
    let Drawn { catalog, truth, .. } = drawn();
    let Habits { plan, several, contract, missing, missing_item, not_done, second_look, hidden, .. } =
        &truth.habits;
    let jobs: Vec<&str> =
        catalog.item("planned-work").unwrap().answer.options().iter().map(|o| o.id.as_str()).collect();
    let planned = plan.iter().flat_map(|p| p.jobs.iter().chain(p.maybe.keys()));
    let planned = planned.chain(several.values().flat_map(|of| &of.jobs));
    assert!(several.keys().all(|id| catalog.station(id).is_some_and(|s| s.each.is_some())));
    for job in planned.chain(contract.jobs.keys()).chain(contract.days.keys()) {
        assert!(jobs.contains(&job.as_str()), "{job}");
    }
    assert!(missing.keys().all(|s| catalog.stations.iter().any(|k| k.id == *s)));
    let single = [missing_item, &not_done.items, &second_look.items, &hidden.items, &truth.habits.absent];
    for item in single.into_iter().flat_map(BTreeMap::keys).chain(truth.habits.number.keys()) {
        assert!(catalog.item(item).is_some(), "{item}");
    }
    let options = truth.habits.says.iter().chain(&truth.habits.ticks.items);
    for (item, weights) in options {
        let known = catalog.item(item).unwrap_or_else(|| panic!("{item}"));
        for option in weights.keys() {
            assert!(known.answer.options().iter().any(|o| o.id == *option), "{item} {option}");
        }
    }
}

#[test]
fn habits_that_cannot_be_are_refused_with_their_name() {
    let text = include_str!("../src/habits.toml");
    let refused = |from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        Habits::read(&text.replacen(from, to, 1)).unwrap_err().to_string()
    };
    assert!(refused("unclear = 0.05", "unclear = 1.5").contains("looks.unclear is 1.5"));
    assert!(refused("could-not-reach = 0.14", "could-not-reach = 0.99").contains("both together"));
    assert!(refused("[gut]\nage = 25", "[gut]\nagee = 25").contains("agee"));
    assert!(refused("spread = [0.85, 1.25]", "spread = [1.5, 1.25]").contains("contract.spread"));
}

/// Places of a station in a house.
fn places_of(house: &SimulatedHouse, station: &str) -> usize {
    1 + house.places.iter().filter(|p| p.station == station).count()
}

#[test]
fn some_houses_have_several_of_a_kind_and_each_place_has_all_of_its_own() {
    let Drawn { catalog, houses, .. } = drawn();
    for station in ["bulkhead", "walls", "bath"] {
        let most = houses.iter().map(|h| places_of(h, station)).max();
        assert!(most >= Some(2), "{station}: {most:?}");
    }
    let (mut differ, mut alike) = (0, 0);
    for house in houses.iter().filter(|h| !h.places.is_empty()) {
        let picture = house.picture(catalog, |_| true);
        for place in &house.places {
            let each = catalog.station(&place.station).unwrap().each.as_ref().unwrap();
            assert_eq!(each.place_id(&place.label).as_ref(), Some(&place.place));
            assert!(picture.places_of(&place.station).contains(&place.place.as_str()));
            for item in catalog.items.iter().filter(|i| i.station == place.station) {
                let key = item.key_at(&place.place);
                let said = &house.said[&key].value;
                assert_eq!(picture.at(Some(&place.place)).value(&item.id), Some(said), "{key}");
                if said == &house.answer(&item.id) { alike += 1 } else { differ += 1 }
            }
        }
        let scope: Vec<String> =
            assessment::scope_of(catalog, &house.seen(catalog)).iter().map(|s| s.key().to_owned()).collect();
        assert!(house.conditions.keys().all(|key| scope.contains(key)), "house {}", house.number);
        let found: Vec<&String> = house.findings.iter().map(|f| &f.condition).collect();
        assert_eq!(found.len(), house.conditions.len());
        assert!(house.walk.iter().any(|step| step.item.contains('@')));
        assert!(house.to_line().contains("\"places\":[{\"station\""));
    }
    assert!(differ > 100 && alike > 100, "{differ} {alike}");
}

/// Before anything is seen every place has the same odds (`catalog/README.md`): over many houses a condition is there at
/// the second place as often as at the first. 4.5 standard deviations of the difference of two counts.
#[test]
fn a_condition_is_there_at_an_added_place_as_often_as_at_the_first() {
    let Drawn { catalog, truth, .. } = drawn();
    let houses = draw(catalog, truth, 19, 1_200);
    let mut counted = 0;
    for condition in catalog.conditions.iter().filter(|c| c.place.is_some()) {
        let (mut first_only, mut second_only) = (0i64, 0i64);
        for house in &houses {
            for place in house.places.iter().filter(|p| Some(&p.station) == condition.place.as_ref()) {
                let at = |key: &str| house.conditions.get(key).map(|s| s.present);
                let key = format!("{}@{}", condition.id, place.place);
                if let (Some(first), Some(second)) = (at(&condition.id), at(&key)) {
                    counted += 1;
                    first_only += i64::from(first && !second);
                    second_only += i64::from(second && !first);
                }
            }
        }
        let (off, n) = ((first_only - second_only) as f64, (first_only + second_only) as f64);
        assert!(off.abs() <= 4.5 * n.sqrt().max(1.0), "{}: {first_only} {second_only}", condition.id);
    }
    assert!(counted > 3_000, "{counted}");
}

#[test]
fn a_house_with_one_of_each_is_the_house_it_would_be_if_none_had_several() {
    let Drawn { catalog, truth, houses } = drawn();
    let mut single = truth.clone();
    single.habits.several.clear();
    let mut same = 0;
    for (a, b) in draw(catalog, &single, 7, 40).iter().zip(houses).filter(|(_, b)| b.places.is_empty()) {
        assert_eq!(a.to_line(), b.to_line());
        same += 1;
    }
    assert!(same > 5, "{same}");
}
