//! Every dependency's licence is one we can ship under MIT OR Apache-2.0, and each comes from one registry, with its sum.

use std::collections::BTreeSet;

use spdx::{Expression, LicenseReq, ParseMode};

use crate::support::{cargo_metadata, root};

/// Permissive (IJG: that of the JPEG library an encoder began with, acknowledged in docs/photographs.md), or weak
/// copyleft that reaches only its own files (MPL-2.0); fonts under their own licence.
const ALLOWED: [&str; 17] = [
    "0BSD",
    "Apache-2.0",
    "BSD-1-Clause",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "CDLA-Permissive-2.0",
    "IJG",
    "ISC",
    "MIT",
    "MIT-0",
    "MPL-2.0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
    "OFL-1.1",
];

fn acceptable(licence: &str) -> bool {
    let Ok(expression) = Expression::parse_mode(licence, ParseMode::LAX) else { return false };
    expression.evaluate(|req: &LicenseReq| {
        let name = req.license.to_string();
        ALLOWED.contains(&name.as_str())
    })
}

#[test]
fn every_dependency_has_a_licence_we_can_ship() {
    let metadata = cargo_metadata(&["--locked"]);
    let packages = metadata["packages"].as_array().unwrap();
    assert!(packages.len() > 100, "the list is whole");
    let bad: Vec<String> = packages
        .iter()
        .filter(|p| !acceptable(p["license"].as_str().unwrap_or_default()))
        .map(|p| format!("{} {}: {}", p["name"], p["version"], p["license"]))
        .collect();
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}

#[test]
fn a_strong_copyleft_licence_would_be_found() {
    assert!(acceptable("MIT OR GPL-3.0-only"));
    assert!(acceptable("(MIT OR Apache-2.0) AND Unicode-3.0"));
    assert!(!acceptable("GPL-3.0-only") && !acceptable("MIT AND AGPL-3.0-only") && !acceptable(""));
}

#[test]
fn every_part_of_others_comes_from_one_registry_with_its_sum() {
    let text = std::fs::read_to_string(root().join("Cargo.lock")).unwrap();
    let lock: toml::Table = text.parse().unwrap();
    let (mut from, mut ours) = (BTreeSet::new(), BTreeSet::new());
    for package in lock["package"].as_array().unwrap() {
        let name = package["name"].as_str().unwrap();
        match package.get("source").and_then(toml::Value::as_str) {
            None => {
                ours.insert(name.to_owned());
            }
            Some(source) => {
                assert!(package.get("checksum").is_some(), "{name} has no sum");
                from.insert(source.to_owned());
            }
        }
    }
    assert!(from.len() == 1 && from.iter().all(|source| source.starts_with("registry+")), "{from:?}");
    let metadata = cargo_metadata(&["--no-deps"]);
    let members: BTreeSet<String> = metadata["packages"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| p["name"].as_str().unwrap().to_owned())
        .collect();
    assert_eq!(ours, members, "whatever has no source is a crate of this workspace");
    let text = std::fs::read_to_string(root().join("ui/package-lock.json")).unwrap();
    let lock: serde_json::Value = serde_json::from_str(&text).unwrap();
    let packages = lock["packages"].as_object().unwrap();
    assert!(packages.len() > 50);
    for (name, package) in packages.iter().filter(|(name, _)| !name.is_empty()) {
        assert!(package["integrity"].is_string() && package["link"].is_null(), "{name} has no sum");
    }
}
