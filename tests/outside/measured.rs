//! An observation enters once: where a calculation covers a condition, its probability stands in for the prior and
//! for the threshold clues of the same answers. Walked over catalog × calculations.

use std::collections::BTreeSet;

use assessment::{Calculated, ClueTables, HouseNetwork, calculate, run_here, scope_of};
use survey::catalog::{Calculation, Catalog, Family};
use trade::Standing;

use crate::support::{catalog, desk, desk_with, forecast, house};

/// A firm that works by one plumbing code and one edition of the wiring code, so that nothing is left to ask.
fn settled() -> Catalog {
    catalog().choosing(Family::Plumbing, "upc-2012").choosing(Family::Electrical, "nec-2020")
}

/// Answers for every input of one calculation, near its limit so that the answer is not trivial.
fn answers(calculation: Calculation) -> (&'static str, &'static [(&'static str, &'static [&'static str])]) {
    match calculation {
        Calculation::SinkDrain => (
            "stub-height",
            &[
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
            ],
        ),
        Calculation::TrapArm => (
            "arm-length",
            &[
                ("planned-work", &["move-sink"]),
                ("year-built", &["1962"]),
                ("sink-new-place", &["same-wall"]),
                ("drain-size", &["two-inch"]),
                ("arm-length", &["60"]),
            ],
        ),
        Calculation::DrainSize => (
            "drain-size",
            &[
                ("planned-work", &["move-sink"]),
                ("year-built", &["1962"]),
                ("dishwasher-plan", &["yes"]),
                ("drain-size", &["inch-and-half"]),
            ],
        ),
        Calculation::GasRun => (
            "gas-run-length",
            &[
                ("planned-work", &["gas-range"]),
                ("year-built", &["1962"]),
                ("gas-meter", &["yes"]),
                ("gas-size", &["three-quarter"]),
                ("gas-trunk-size", &["three-quarter"]),
                ("gas-pipe-kind", &["black-steel"]),
                ("gas-run-length", &["60 ft"]),
                ("gas-load", &["137"]),
                ("gas-planned", &["65"]),
            ],
        ),
        Calculation::PanelLoad => (
            "floor-area",
            &[
                ("planned-work", &["electric-range"]),
                ("year-built", &["1962"]),
                ("floor-area", &["1900"]),
                ("main-size", &["100"]),
                (
                    "electric-there",
                    &["dryer", "water-heater", "air-conditioner", "electric-heat", "microwave"],
                ),
                ("electric-planned", &["range", "dishwasher", "disposer", "car-charger"]),
            ],
        ),
    }
}

#[test]
fn a_calculation_replaces_prior_and_threshold_clues_of_the_condition_it_measures() {
    let catalog = settled();
    let tables = ClueTables::fit(&catalog);
    let mut seen = BTreeSet::new();
    for c in catalog.conditions.iter().filter(|c| c.measured_by.is_some()) {
        let by = c.measured_by.as_ref().unwrap();
        seen.insert(by.calc);
        let (main_item, answers) = answers(by.calc);
        let dir = tempfile::tempdir().unwrap();
        let (mut desk, clock, mut random) = desk_with(dir.path(), catalog.clone());
        let survey = house(&mut desk, &clock, &mut random, answers);
        let picture = desk.picture(survey).unwrap();
        let scope = scope_of(&catalog, &picture);
        let calculated = calculate(&catalog, &picture, &scope);
        let measured: Vec<_> = calculated.iter().filter_map(Calculated::measured).collect();
        let of_c: Vec<_> = measured.iter().filter(|m| m.condition == c.id).collect();
        assert_eq!(of_c.len(), 1, "{}: {calculated:#?}", c.id);
        let house = HouseNetwork::build(&catalog, &tables, &scope, &measured, &[], false).unwrap();
        let node = house.condition(&c.id).unwrap();
        assert!(house.net.nodes()[node].parents.is_empty(), "{}: no prior by year is left", c.id);
        for (clue, _) in house.clues_of(&c.id) {
            assert!(!by.replaces_clues.contains(&clue), "{clue} still hangs on {}", c.id);
        }
        let bare = HouseNetwork::build(&catalog, &tables, &scope, &[], &[], false).unwrap();
        let bare_clues: Vec<String> = bare.clues_of(&c.id).into_iter().map(|(clue, _)| clue).collect();
        assert!(by.replaces_clues.iter().all(|clue| bare_clues.contains(clue)), "{}: {bare_clues:?}", c.id);

        // With nothing but its own inputs answered, odds card and calculation say the same.
        let forecast = forecast(&mut desk, &clock, &mut random, survey);
        let card = forecast.condition(&c.id).unwrap();
        assert_eq!(card.measured_by.as_deref(), Some(by.calc.word()));
        assert!((card.probability - of_c[0].p).abs() < 1e-6, "{}: {} {}", c.id, card.probability, of_c[0].p);
        assert!((0.01..=0.99).contains(&of_c[0].p), "{}: never certain: {}", c.id, of_c[0].p);
        assert!(card.because.iter().any(|r| r.item == main_item), "{}: {:?}", c.id, card.because);
        // What it read is frozen beside it, with its arithmetic, its limits and who decides.
        let sheet = forecast.calculations.iter().find(|s| s.condition.as_ref() == Some(&c.id)).unwrap();
        assert!(!sheet.arithmetic.is_empty() && !sheet.limits.is_empty(), "{}: {sheet:?}", c.id);
        assert!(sheet.caution.contains("licensed") && sheet.caution.contains("local"), "{}", sheet.caution);
    }
    assert_eq!(seen, BTreeSet::from(Calculation::ALL), "every calculation that can measures a condition");
    assert!(Calculation::ALL.iter().all(|c| run_here().any(|word| word == c.word())));
}

#[test]
fn a_code_nobody_chose_leaves_the_clues_their_say() {
    // 60 in at 1-1/2: within IRC Table P3105.1 (72 in), beyond UPC Table 1002.2 (42 in).
    let dir = tempfile::tempdir().unwrap();
    let (mut desk, clock, mut random) = desk(dir.path());
    let answers: [(&str, &[&str]); 4] = [
        ("planned-work", &["move-sink"]),
        ("sink-new-place", &["same-wall"]),
        ("drain-size", &["inch-and-half"]),
        ("arm-length", &["60"]),
    ];
    let survey = house(&mut desk, &clock, &mut random, &answers);
    let forecast = forecast(&mut desk, &clock, &mut random, survey);
    let sheet = forecast.calculations.iter().find(|s| s.word == "trap-arm").unwrap();
    assert_eq!(sheet.standing, Standing::AskLocally.word());
    assert!(sheet.sentence.contains("IPC") && sheet.sentence.contains("UPC"), "{}", sheet.sentence);
    let card = forecast.condition("trap-arm-long").unwrap();
    assert_eq!(card.measured_by, None);
    assert!(card.probability > card.base, "{} {}", card.probability, card.base);
}

#[test]
fn without_the_measurement_the_clues_count() {
    let (_, sink) = answers(Calculation::SinkDrain);
    let dir = tempfile::tempdir().unwrap();
    let (mut desk, clock, mut random) = desk(dir.path());
    let without: Vec<(&str, &[&str])> =
        sink.iter().copied().filter(|(item, _)| *item != "stub-height").collect();
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
