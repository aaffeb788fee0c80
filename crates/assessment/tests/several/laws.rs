use std::sync::LazyLock;

use assessment::ClueTables;
use proptest::prelude::*;
use survey::catalog::{AnswerKind, Catalog, Item};
use survey::log::Value;
use survey::units::Quantity;

use crate::support::{Answered, CATALOG, House, TABLES, without_places};

static PLAIN: LazyLock<Catalog> = LazyLock::new(without_places);
static PLAIN_TABLES: LazyLock<ClueTables> = LazyLock::new(|| ClueTables::fit(&PLAIN));

const PLAN: [&str; 6] =
    ["remove-bulkhead", "remove-wall", "open-wall", "bath-remodel", "open-ceiling", "move-heat"];

/// An answer picked by a number; none for kinds that need more care than these laws do.
pub(crate) fn answer(item: &Item, pick: u8) -> Option<Value> {
    match &item.answer {
        AnswerKind::Choice { options } => {
            options.get(usize::from(pick) % options.len()).map(|o| Value::Choice(o.id.clone()))
        }
        AnswerKind::Choices { options, .. } => {
            options.get(usize::from(pick) % options.len()).map(|o| Value::Choices(vec![o.id.clone()]))
        }
        AnswerKind::Length { min, max, .. } => {
            Some(Value::Length(if pick.is_multiple_of(2) { *min } else { *max }))
        }
        AnswerKind::Number { unit, min_milli, max_milli, .. } => {
            let milli = min_milli + (max_milli - min_milli) / 1000 * i64::from(pick) / 256 * 1000;
            Some(Value::Number(Quantity { milli, unit: unit.clone() }))
        }
        AnswerKind::Checks => None,
    }
}

/// A house in which some of the items wanted are answered at their stations; what the house has in common always, so
/// that the networks stay small.
pub(crate) fn house(picks: &[Option<u8>], wanted: impl Fn(&Item) -> bool) -> House {
    let mut house = House::planned(&PLAN);
    let items = CATALOG.items.iter().filter(|i| i.id != "planned-work" && wanted(i));
    for (item, pick) in items.zip(picks.iter().cycle()) {
        let pick = pick.or((!item.sets_context.is_empty()).then_some(0));
        if let Some(value) = pick.and_then(|p| answer(item, p)) {
            house = house.say(&item.id, value);
        }
    }
    house
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn with_one_of_each_the_numbers_are_those_of_a_catalog_that_knows_no_places(
        picks in proptest::collection::vec(proptest::option::weighted(0.4, any::<u8>()), 60..160),
    ) {
        let picture = house(&picks, |_| true).picture();
        let with = Answered::of(&CATALOG, &TABLES, &picture);
        let without = Answered::of(&PLAIN, &PLAIN_TABLES, &picture);
        prop_assert_eq!(with.keys(), without.keys());
        for key in with.keys() {
            prop_assert_eq!(with.p(key).to_bits(), without.p(key).to_bits(), "{}", key);
        }
    }

    /// What is found after demolition has no way into a forecast: evidence is made of a folded log alone (its parts are
    /// closed to others), and whatever was answered, a condition itself is never observed, only what shows of it.
    #[test]
    fn no_answer_of_a_walk_is_evidence_on_a_condition_itself(
        picks in proptest::collection::vec(proptest::option::weighted(0.9, any::<u8>()), 60..160),
    ) {
        let seen = Answered::of(&CATALOG, &TABLES, &house(&picks, |_| true).picture());
        let touched = seen.evidence.all().nodes();
        prop_assert!(!touched.is_empty());
        for (key, node) in &seen.house.conditions {
            prop_assert!(!touched.contains(node), "{} is observed", key);
        }
        for node in touched {
            let name = &seen.house.net.nodes()[node].name;
            let kind = name.split('.').next().unwrap_or_default();
            prop_assert!(["house", "room", "item", "clue", "shown", "any", "every"].contains(&kind), "{}", name);
        }
    }

    #[test]
    fn one_more_place_that_nobody_answered_changes_nothing_that_no_shared_clue_tells(
        picks in proptest::collection::vec(proptest::option::weighted(0.5, any::<u8>()), 60..160),
        stations in proptest::sample::subsequence(vec![("bulkhead", "b-soffit"), ("walls", "c-wall"), ("bath", "d-bath")], 1..=3),
    ) {
        // Answered: what is asked at each place, and context that is no clue.
        let unshared = |i: &Item| i.at_each || (i.clues.is_empty() && !i.sets_context.is_empty());
        let before = house(&picks, unshared);
        let mut after = before.clone();
        for (station, place) in stations {
            after = after.place(station, place);
        }
        let (few, many) =
            (Answered::of(&CATALOG, &TABLES, &before.picture()), Answered::of(&CATALOG, &TABLES, &after.picture()));
        for key in few.keys() {
            prop_assert!((few.p(key) - many.p(key)).abs() < 1e-12, "{}: {} {}", key, few.p(key), many.p(key));
        }
    }

    #[test]
    fn a_place_taken_out_leaves_the_odds_of_a_house_that_never_had_it(
        picks in proptest::collection::vec(proptest::option::weighted(0.4, any::<u8>()), 60..160),
        scan in 0u8..5,
    ) {
        let before = house(&picks, |_| true);
        let scanned = answer(CATALOG.item("bulkhead-scan").unwrap(), scan).unwrap();
        let after = before.clone().place("bulkhead", "b-soffit").say_at("b-soffit", "bulkhead-scan", scanned);
        prop_assert!(after.picture().answers.len() > before.picture().answers.len());
        let out = after.take_out("bulkhead", "b-soffit");
        let (never, out) =
            (Answered::of(&CATALOG, &TABLES, &before.picture()), Answered::of(&CATALOG, &TABLES, &out.picture()));
        prop_assert_eq!(never.keys(), out.keys());
        for key in never.keys() {
            prop_assert_eq!(never.p(key).to_bits(), out.p(key).to_bits(), "{}", key);
        }
        prop_assert_eq!(never.evidence, out.evidence);
    }
}
