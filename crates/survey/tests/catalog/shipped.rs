//! The catalog as shipped.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use survey::catalog::{
    AnswerKind, Basis, Calculation, Catalog, DRAIN_DEFAULTS, DatedBy, FILES, Gate, PCost, Place, Stage,
    builtin,
};
use survey::units::{Length, Money};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../catalog")
}

fn toml_files(folder: &Path, below: &Path, found: &mut BTreeSet<String>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            toml_files(&path, below, found);
        } else if path.extension().is_some_and(|e| e == "toml") {
            let parts = path.strip_prefix(below).unwrap().components();
            let parts: Vec<_> = parts.map(|p| p.as_os_str().to_string_lossy().into_owned()).collect();
            found.insert(parts.join("/"));
        }
    }
}

#[test]
fn it_loads_with_everything_in_it() {
    let c = builtin().unwrap_or_else(|e| panic!("{e}"));
    let counts = [
        ("conditions", c.conditions.len(), 85),
        ("clues", c.clues.len(), 179),
        ("checks", c.checks.len(), 42),
        ("items", c.items.len(), 156),
        ("stations", c.stations.len(), 20),
        ("factors", c.factors.len(), 11),
        ("causes", c.causes.len(), 41),
        ("excludes", c.excludes.len(), 8),
        ("implies", c.implies.len(), 2),
        ("derived", c.derived.len(), 1),
        ("outages", c.outages.len(), 25),
        ("household rules", c.household_rules.len(), 7),
        ("wishes", c.wishes.len(), 9),
        ("sources", c.sources.len(), 66),
        ("groups", c.groups.len(), 11),
        ("drain defaults", c.drain_defaults.len(), DRAIN_DEFAULTS.len()),
    ];
    for (what, found, expected) in counts {
        assert_eq!(found, expected, "{what}");
    }
}

#[test]
fn every_file_of_the_folder_is_built_in_and_none_is_stale() {
    let mut found = BTreeSet::new();
    toml_files(&folder(), &folder(), &mut found);
    let listed: BTreeSet<String> = FILES.iter().map(|(path, _)| (*path).to_owned()).collect();
    assert_eq!(found, listed, "crates/survey/src/catalog/builtin.rs must list exactly the files of catalog/");
    for (path, text) in FILES {
        assert_eq!(&std::fs::read_to_string(folder().join(path)).unwrap(), text, "{path}");
    }
}

#[test]
fn the_digest_does_not_depend_on_the_order_of_files_but_on_every_byte() {
    let mut files: Vec<(String, String)> = FILES.iter().map(|(p, t)| ((*p).into(), (*t).into())).collect();
    let first = Catalog::load(&files).unwrap();
    files.reverse();
    let second = Catalog::load(&files).unwrap();
    assert_eq!(first, second);
    files[0].1.push('\n');
    assert_ne!(Catalog::load(&files).unwrap().digest, first.digest);
}

#[test]
fn one_condition_reads_as_written() {
    let c = builtin().unwrap();
    let stub = c.condition("drain-stub-high").unwrap();
    assert_eq!((stub.group.as_str(), stub.core, stub.stage), ("drain", true, Stage::RoughIn));
    assert_eq!(stub.triggers, ["deep-sink"]);
    assert_eq!(stub.prior.by_band["to-1939"], 0.4);
    assert_eq!(
        [stub.cost.low, stub.cost.likely, stub.cost.high].map(Money::cents),
        [45_000, 110_000, 280_000]
    );
    assert_eq!([stub.days.low, stub.days.likely, stub.days.high], [0.5, 1.0, 2.0]);
    assert_eq!(stub.p_cost, PCost::Same(1.0));
    assert_eq!(stub.decides.as_deref(), Some("licensed plumber"));
    let measured = stub.measured_by.as_ref().unwrap();
    assert_eq!(measured.calc, Calculation::SinkDrain);
    assert_eq!(measured.replaces_clues, ["stub-high", "bowl-deep", "disposer-wanted"]);
    assert_eq!(stub.overlaps, [("drain-height".to_owned(), measured.replaces_clues.clone())]);
    for item in ["sink-shell", "dishwasher-plan", "stub-datum", "cabinet-toe-kick", "cabinet-floor-thick"] {
        assert!(measured.inputs.iter().any(|i| i == item), "{item}");
        assert!(c.item(item).unwrap().informs.contains("drain-stub-high"), "{item}");
    }
    assert_eq!(c.drain_defaults["drop-disposer"].length, Length::from_inches(6.5).unwrap());
}

#[test]
fn the_prior_of_an_unknown_year_is_the_mean_over_the_housing_stock() {
    let c = builtin().unwrap();
    // Worked out by a separate program from the same shares, rounded to four digits.
    for (id, expected) in [("bulkhead-wires", 0.9448), ("lead-paint", 0.2815), ("drain-stub-high", 0.3331)] {
        let found = c.condition(id).unwrap().prior.unknown;
        assert!((found - expected).abs() < 0.000_1, "{id}: {found}");
    }
}

#[test]
fn eras_follow_the_last_gut_only_for_what_dates_from_the_room() {
    use survey::log::Value;
    use survey::units::Quantity;
    let c = builtin().unwrap();
    let year = |y: &str| Value::Number(Quantity::parse(y, "").unwrap());
    let mut answers = BTreeMap::from([("year-built".to_owned(), year("1926"))]);
    assert_eq!(c.band(DatedBy::Room, &answers), Some("to-1939"));
    answers.insert("last-gut".into(), year("1998"));
    assert_eq!(c.band(DatedBy::Room, &answers), Some("1996-2010"));
    assert_eq!(c.band(DatedBy::House, &answers), Some("to-1939"));
    answers.insert("last-gut".into(), year("0"));
    assert_eq!(c.band(DatedBy::Room, &answers), Some("to-1939"));
    assert_eq!(c.band(DatedBy::House, &BTreeMap::new()), None);
    let era = c.era().unwrap();
    let edges = [
        (1939, "to-1939"),
        (1940, "1940-1959"),
        (1977, "1974-1977"),
        (1978, "1978-1995"),
        (2011, "from-2011"),
    ];
    for (y, band) in edges {
        assert_eq!(era.band_of_year(y), Some(band));
    }
}

#[test]
fn every_clue_comes_with_one_overall_rate_whatever_condition_states_it() {
    let c = builtin().unwrap();
    let weights: Vec<(&str, f64)> =
        c.era().unwrap().levels.iter().map(|l| (l.id.as_str(), l.prior)).collect();
    let mut rates: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    for condition in &c.conditions {
        for pair in &condition.clues {
            let rate = |(band, w): &(&str, f64)| {
                let p = condition.prior.by_band[*band];
                w * (pair.if_present * p + pair.absent_in(Some(band)) * (1.0 - p))
            };
            rates.entry(&pair.clue).or_default().push(weights.iter().map(rate).sum());
        }
    }
    for (clue, list) in rates {
        let (low, high) = list.iter().fold((f64::MAX, 0.0_f64), |(l, h), r| (l.min(*r), h.max(*r)));
        assert!(high / low <= 1.5, "{clue}: {list:?}");
    }
}

#[test]
fn hazards_are_gated_and_name_who_decides() {
    let c = builtin().unwrap();
    for (id, gate) in [
        ("lead-paint", Gate::Presume),
        ("floor-asbestos-suspect", Gate::Presume),
        ("texture-asbestos-suspect", Gate::Presume),
        ("wrap-asbestos-suspect", Gate::Presume),
        ("vermiculite-fill", Gate::Presume),
        ("wall-carries-load", Gate::HardStop),
        ("bulkhead-beam", Gate::HardStop),
        ("header-small", Gate::HardStop),
        ("slab-tendons", Gate::HardStop),
        ("knob-tube-live", Gate::HardStop),
        ("gas-pipe-hidden", Gate::HardStop),
    ] {
        let condition = c.condition(id).unwrap();
        assert_eq!(condition.decision.as_ref().map(|d| d.kind), Some(gate), "{id}");
    }
    for condition in &c.conditions {
        let hazardous = ["drain", "supply", "electrical", "gas", "hvac"].contains(&condition.group.as_str());
        if hazardous || condition.decision.is_some() {
            assert!(condition.decides.is_some(), "{} names nobody who decides", condition.id);
        }
    }
    assert!(c.notice.contains("Local code"));
}

#[test]
fn the_presumption_of_lead_stands_without_a_year_and_falls_with_a_paper() {
    use survey::log::Value;
    use survey::units::Quantity;
    let c = builtin().unwrap();
    let lead = c.condition("lead-paint").unwrap();
    let mut answers: BTreeMap<String, Value> = BTreeMap::new();
    assert_eq!(lead.gate(&answers), Some(Some(true)));
    for (year, expected) in [("1977", true), ("1978", false)] {
        answers.insert("year-built".into(), Value::Number(Quantity::parse(year, "").unwrap()));
        assert_eq!(lead.gate(&answers), Some(Some(expected)), "{year}");
    }
    answers.insert("year-built".into(), Value::Number(Quantity::parse("1926", "").unwrap()));
    answers.insert("old-tests".into(), Value::choices(vec!["lead-clear".into()]));
    assert_eq!(lead.gate(&answers), Some(Some(false)));
    assert_eq!(c.condition("weak-flow").unwrap().gate(&answers), None);
}

#[test]
fn weights_follow_the_basis() {
    let c = builtin().unwrap();
    assert_eq!(c.reference.weights.of(Basis::Judgment), 10.0);
    assert_eq!(c.reference.weights.of(Basis::Published), 50.0);
    assert_eq!(c.condition("lead-paint").unwrap().basis.prior, Basis::Published);
    assert_eq!(c.reference.base_odds.factor_for("lead-paint"), 1.0);
    assert!(c.reference.base_odds.factor_for("weak-flow") < 1.0);
}

#[test]
fn the_words_of_the_walk_are_short_and_american() {
    const BRITISH: [&str; 24] = [
        "mould",
        "aluminium",
        "storey",
        "fibre",
        "neighbour",
        "colour",
        "grey",
        "galvanis",
        "centre",
        "armoured",
        "panelling",
        "levell",
        "labell",
        "judgement",
        "cooker",
        "normalis",
        "organis",
        "licence",
        "metre",
        "litre",
        "skirting",
        "plasterboard",
        "worktop",
        "draught",
    ];
    for (path, text) in FILES {
        let lower = text.to_lowercase();
        for word in BRITISH {
            let lines = lower.lines().filter(|l| l.contains(word)).collect::<Vec<_>>();
            assert!(lines.is_empty(), "{path}: “{word}” in {lines:?}");
        }
    }
    for item in &builtin().unwrap().items {
        assert!(item.question.chars().count() < 120, "{}", item.question);
        assert!(!item.why.is_empty() && item.why.chars().count() < 110, "{}", item.id);
        for option in item.answer.options() {
            assert!(option.label.chars().count() < 40, "{}: {}", item.id, option.label);
        }
    }
}

#[test]
fn nobody_is_asked_to_do_what_only_a_licensed_person_may() {
    for item in &builtin().unwrap().items {
        let question = item.question.to_lowercase();
        for phrase in
            ["climb", "on the roof", "remove the cover", "remove the panel", "cover off", "flip", "full tub"]
        {
            assert!(!question.contains(phrase), "{}: {question}", item.id);
        }
        for word in ["scrape", "pry", "drill", "turn"] {
            let asked = question.split(|c: char| !c.is_alphabetic()).any(|w| w == word);
            assert!(!asked || question.contains(&format!("not {word}")), "{}: {question}", item.id);
        }
    }
}

#[test]
fn lengths_and_other_quantities_are_told_apart() {
    let c = builtin().unwrap();
    let lengths: BTreeSet<&str> = c
        .items
        .iter()
        .filter(|i| matches!(i.answer, AnswerKind::Length { .. }))
        .map(|i| i.id.as_str())
        .collect();
    for id in ["stub-height", "bowl-depth", "gas-run-length", "floor-fall", "cabinet-toe-kick"] {
        assert!(lengths.contains(id), "{id}");
    }
    assert_eq!(lengths.len(), 18);
    let AnswerKind::Number { unit, .. } = &c.item("static-psi").unwrap().answer else { panic!() };
    assert_eq!(unit, "psi");
    assert_eq!(c.stations.iter().filter(|s| s.place == Place::House).count(), 17);
}
