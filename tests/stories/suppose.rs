//! What would be if, and what a promise costs: asked, never recorded.

use super::steps::{HOUSE, a_house, entries, json};
use crate::support::{refused, run};

#[test]
fn what_is_supposed_is_told_and_nothing_is_recorded() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let before = entries(dir);
    let odds = |told: &serde_json::Value, branch: usize, key: &str| {
        let moved = told["would_be"]["branches"][branch]["moved"].as_array().unwrap();
        moved.iter().find(|m| m["key"] == key).map(|m| (m["before"].as_f64(), m["after"].as_f64()))
    };
    // A look has two results; together they leave the odds where they are.
    let told = json(dir, &["suppose", HOUSE, "--look", "lift-trim", "bulkhead-duct"]);
    let branches = told["would_be"]["branches"].as_array().unwrap();
    let chance = |i: usize| branches[i]["chance"].as_f64().unwrap();
    assert!((chance(0) + chance(1) - 1.0).abs() < 1e-5);
    let (shows, not) = (odds(&told, 0, "bulkhead-duct").unwrap(), odds(&told, 1, "bulkhead-duct").unwrap());
    let back = chance(0) * shows.1.unwrap() + chance(1) * not.1.unwrap();
    assert!((back - shows.0.unwrap()).abs() < 1e-4, "{back} {shows:?}");
    // What is priced in leaves the unknown.
    let mean =
        |told: &serde_json::Value, at: &str| told.pointer(at).unwrap()["money"]["mean"].as_f64().unwrap();
    let priced = json(dir, &["suppose", HOUSE, "--priced-in", "bulkhead-duct"]);
    assert!(mean(&priced, "/would_be/branches/0/then") < mean(&priced, "/would_be/now"));
    assert_eq!(entries(dir), before);
    let (code, words) = refused(dir, &["suppose", HOUSE]);
    assert!(code == 2 && words.contains("nothing is supposed"), "{words}");
}

#[test]
fn a_promise_is_priced_and_no_gated_hazard_is_promised_away() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let before = entries(dir);
    let cover = "bulkhead-duct,steel-supply-rusted";
    let price = |cap: &str| json(dir, &["promise", HOUSE, "--cover", cover, "--cap", cap])["price"].clone();
    let (small, large) = (price("500"), price("6000"));
    let of = |price: &serde_json::Value, key: &str| price[key].as_f64().unwrap();
    assert!(of(&small, "mean") < of(&large, "mean") && of(&small, "cap_reached") > of(&large, "cap_reached"));
    // mean + λ·(P90 − mean), λ one half, to the cent.
    let premium = of(&large, "mean") + 0.5 * (of(&large, "p90") - of(&large, "mean"));
    assert!((of(&large, "premium") - premium).abs() <= 1.0, "{large}");
    let (code, words) = refused(dir, &["promise", HOUSE, "--cover", "lead-paint", "--cap", "500"]);
    assert!(code == 2 && words.contains("lead"), "{words}");
    assert!(run(dir, &["promise", HOUSE, "--cover", cover, "--cap", "500"]).contains("local code governs"));
    assert_eq!(entries(dir), before);
}
