//! Where a house can have several of something: what the catalog says about it, and faults in saying it.

use std::collections::{BTreeMap, BTreeSet};

use survey::catalog::{Several, builtin};

use crate::faults::{Plant, every_one_is_found, plant};

const WIRES: &str = "id = \"bulkhead-wires\"";
const BEAM: &str = "id = \"bulkhead-beam\"";
const STUB: &str = "id = \"drain-stub-high\"";

const PLANTS: &[Plant] = &[
    plant(
        "conditions/bulkhead.toml",
        (WIRES, "place = \"bulkhead\"", "place = \"bulkheads\""),
        ("there is no station “bulkheads”", "“bulkhead”", "bulkheads"),
    ),
    plant(
        "conditions/bulkhead.toml",
        (WIRES, "place = \"bulkhead\"", "place = \"sink\""),
        ("a house has the station “sink” once, so “bulkhead-wires” needs no place", "delete it", "sink"),
    ),
    plant(
        "conditions/bulkhead.toml",
        (BEAM, "clue = \"bulkhead-wall-above\"", "clue = \"wall-above\""),
        ("“wall-above” is read at each place of “walls”", "a clue of its own", "wall-above"),
    ),
    plant(
        "conditions/bulkhead.toml",
        (WIRES, "place = \"bulkhead\"\n", ""),
        (
            "“bulkhead-bare” and “bulkhead-wires” are not at the same place",
            "give both the same",
            "bulkhead-wires",
        ),
    ),
    plant(
        "conditions/bulkhead.toml",
        (
            "id = \"bulkhead-cable-bundle\"",
            "covers-cost-of = [\"bulkhead-wires\"]",
            "covers-cost-of = [\"pipes-in-wall\"]",
        ),
        (
            "“bulkhead-cable-bundle” is at each place of “bulkhead”, “pipes-in-wall” of “walls”",
            "",
            "pipes-in-wall",
        ),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "triggers = ", "place = \"bulkhead\"\ntriggers = "),
        ("nothing that measures “drain-stub-high” is asked at its place", "drop its place", "inputs"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "inputs = [\n  \"sink-mount\"", "inputs = [\n  \"bulkhead-form\""),
        ("“bulkhead-form” is measured at several places", "the same place", "inputs"),
    ),
    plant(
        "context.toml",
        ("id = \"heat\"", "item = \"heat-kind\"", "item = \"bulkhead-scan\""),
        ("“bulkhead-scan” is asked at several places", "asked once", "bulkhead-scan"),
    ),
    plant(
        "walk/06-bulkhead.toml",
        ("each = ", "one = \"soffit\"", "one = \"Soffit\""),
        ("lower-case words are wanted", "one = \"soffit\"", "Soffit"),
    ),
    plant(
        "walk/06-bulkhead.toml",
        ("each = ", "one = \"soffit\"", "on = \"soffit\""),
        ("unknown field `on`", "“one”", "each"),
    ),
    plant(
        "walk/06-bulkhead.toml",
        ("each = ", "most = 6", "most = 1"),
        ("most lies between 2 and 12", "", "most = 1"),
    ),
    plant(
        "walk/08-walls.toml",
        ("each = ", "one = \"wall\"", "one = \"soffit\""),
        ("another station has places that end in “soffit”", "another word", "soffit"),
    ),
    plant(
        "walk/08-walls.toml",
        ("each = ", "one = \"wall\"", "one = \"sink\""),
        ("the station “sink” could be taken for a sink", "another", "sink"),
    ),
    plant(
        "walk/03-office.toml",
        (
            "where = ",
            "where = \"office\"",
            "where = \"office\"\neach = { one = \"permit\", several = \"permits\", most = 3 }",
        ),
        ("is not in the house, where alone there can be several", "no each", "each"),
    ),
    plant(
        "walk/19-leaving.toml",
        (
            "where = ",
            "where = \"house\"",
            "where = \"house\"\neach = { one = \"door\", several = \"doors\", most = 3 }",
        ),
        ("check results name their place themselves", "once", "checks"),
    ),
];

#[test]
fn every_planted_fault_about_places_is_found_on_its_line_with_a_way_to_mend_it() {
    every_one_is_found(PLANTS);
}

#[test]
fn soffits_walls_to_open_and_baths_can_be_several_and_their_conditions_are_there_at_each() {
    let catalog = builtin().unwrap();
    let several: Vec<(&str, &str)> = catalog
        .stations
        .iter()
        .filter_map(|s| Some((s.id.as_str(), s.each.as_ref()?.one.as_str())))
        .collect();
    assert_eq!(several, [("bulkhead", "soffit"), ("walls", "wall"), ("bath", "bath")]);
    let mut at: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for c in &catalog.conditions {
        if let Some(place) = &c.place {
            at.entry(place).or_default().insert(&c.id);
        }
    }
    assert_eq!(at["bulkhead"].len(), catalog.conditions.iter().filter(|c| c.group == "bulkhead").count());
    assert!(at["walls"].contains("wall-carries-load") && at["walls"].len() == 9, "{:?}", at["walls"]);
    assert_eq!(at["bath"], BTreeSet::from(["drum-trap-bath", "shower-base-leak", "toilet-flange-rot"]));
    for item in &catalog.items {
        assert_eq!(item.at_each, several.iter().any(|(s, _)| *s == item.station), "{}", item.id);
    }
}

#[test]
fn the_id_of_an_added_place_comes_from_its_name() {
    let soffit = Several { one: "soffit".into(), several: "soffits".into(), most: 6 };
    let cases = [
        ("Soffit over the refrigerator", Some("over-refrigerator-soffit")),
        ("fridge", Some("fridge-soffit")),
        ("  North  SOFFIT, by door 2 ", Some("north-by-door-2-soffit")),
        ("Over a fridge!", Some("over-fridge-soffit")),
        ("— ?", None),
        ("", None),
    ];
    for (label, id) in cases {
        assert_eq!(soffit.place_id(label).as_deref(), id, "{label}");
    }
    // Other letters and the bare noun: the digest of the name, so that different names stay apart.
    let ids: BTreeSet<String> = ["над плитой", "над окном", "soffit", "the soffit"]
        .iter()
        .filter_map(|l| soffit.place_id(l))
        .collect();
    assert_eq!(ids.len(), 4);
    assert!(ids.iter().all(|id| id.ends_with("-soffit") && id.is_ascii()), "{ids:?}");
    assert_eq!(soffit.place_id("Над плитой"), soffit.place_id(" над  плитой"), "one name, one id");
}
