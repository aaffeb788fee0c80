//! An observation enters once: where a calculation covers a condition, its probability stands in for the prior and
//! for the threshold clues of the same answers. Walked over catalog × calculations.

use assessment::{ClueTables, HouseNetwork, RUN_HERE, drain_fit};
use survey::catalog::Condition;

use crate::support::{catalog, desk, forecast, house};

/// An answer for every input of the drain fit.
const SINK: [(&str, &[&str]); 15] = [
    ("planned-work", &["deep-sink"]),
    ("year-built", &["1962"]),
    ("sink-mount", &["apron-front"]),
    ("bowl-depth", &["10"]),
    ("sink-shell", &["fireclay"]),
    ("disposer-plan", &["yes"]),
    ("disposer-drop", &["6 1/2"]),
    ("dishwasher-plan", &["yes"]),
    ("counter-height", &["36"]),
    ("counter-thick", &["1 1/4"]),
    ("floor-buildup", &["0"]),
    ("stub-datum", &["finished-floor"]),
    ("stub-height", &["14"]),
    ("trap-run", &["18"]),
    ("base-floor", &["dry"]),
];

#[test]
fn a_calculation_replaces_prior_and_threshold_clues_of_the_condition_it_measures() {
    let catalog = catalog();
    let tables = ClueTables::fit(&catalog);
    let measured_conditions: Vec<&Condition> =
        catalog.conditions.iter().filter(|c| c.measured_by.is_some()).collect();
    assert!(measured_conditions.len() >= 4);
    let mut run = 0;
    for c in measured_conditions {
        let by = c.measured_by.as_ref().unwrap();
        if !RUN_HERE.contains(&by.calc) {
            continue; // its clues count, as the next test shows
        }
        run += 1;
        let dir = tempfile::tempdir().unwrap();
        let (mut desk, clock, mut random) = desk(dir.path());
        let survey = house(&mut desk, &clock, &mut random, &SINK);
        let picture = desk.picture(survey).unwrap();
        let scope: Vec<&Condition> = catalog.in_scope(&picture).collect();
        let measured = drain_fit(&catalog, &picture, &scope).measured();
        assert_eq!(measured.len(), 1);
        assert_eq!(measured[0].condition, c.id);
        let house = HouseNetwork::build(&catalog, &tables, &scope, &measured, &[], false).unwrap();
        let node = house.condition(&c.id).unwrap();
        assert!(house.net.nodes()[node].parents.is_empty(), "no prior by year is left");
        for (clue, _) in house.clues_of(&c.id) {
            assert!(!by.replaces_clues.contains(&clue), "{clue} still hangs on {}", c.id);
        }
        let bare = HouseNetwork::build(&catalog, &tables, &scope, &[], &[], false).unwrap();
        let bare_clues: Vec<String> = bare.clues_of(&c.id).into_iter().map(|(clue, _)| clue).collect();
        assert!(by.replaces_clues.iter().all(|clue| bare_clues.contains(clue)), "{bare_clues:?}");

        // With nothing but its own inputs answered, odds card and drawing say the same.
        let forecast = forecast(&mut desk, &clock, &mut random, survey);
        let card = forecast.condition(&c.id).unwrap();
        assert!((card.probability - measured[0].p).abs() < 1e-6, "{} {}", card.probability, measured[0].p);
        assert!(measured[0].p > 0.05 && measured[0].p < 0.95, "the case is not trivial: {}", measured[0].p);
        assert_eq!(card.because.first().map(|r| r.item.as_str()), Some("stub-height"));
    }
    assert_eq!(run, RUN_HERE.len(), "every calculation measures a condition");
}

#[test]
fn without_the_measurement_the_clues_count() {
    let dir = tempfile::tempdir().unwrap();
    let (mut desk, clock, mut random) = desk(dir.path());
    let without: Vec<(&str, &[&str])> = SINK.into_iter().filter(|(item, _)| *item != "stub-height").collect();
    let survey = house(&mut desk, &clock, &mut random, &without);
    let forecast = forecast(&mut desk, &clock, &mut random, survey);
    let card = forecast.condition("drain-stub-high").unwrap();
    assert_eq!(card.measured_by, None);
    assert!(
        card.probability > card.base,
        "a deep bowl with a disposer raises it: {} {}",
        card.probability,
        card.base
    );
}
