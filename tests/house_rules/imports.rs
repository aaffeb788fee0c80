//! The import table in DEVELOPERS.md is the law: `cargo metadata` is held against it.

use std::collections::{BTreeMap, BTreeSet};

use crate::support::{cargo_metadata, root};

/// Rows of the table: crate → what it may import. "any" means anything of ours.
fn table() -> BTreeMap<String, BTreeSet<String>> {
    let text = std::fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let section =
        text.split("<!-- import table -->").nth(1).expect("DEVELOPERS.md marks its import table twice");
    let rows = section.lines().filter(|l| l.starts_with("| `"));
    let names =
        |cell: &str| -> BTreeSet<String> { cell.split('`').skip(1).step_by(2).map(str::to_owned).collect() };
    rows.map(|row| {
        let cells: Vec<&str> = row.split('|').collect();
        (names(cells[1]).into_iter().next().unwrap(), names(cells[2]))
    })
    .collect()
}

fn ours() -> BTreeMap<String, BTreeSet<String>> {
    let metadata = cargo_metadata(&["--no-deps"]);
    let packages = metadata["packages"].as_array().unwrap();
    let names: BTreeSet<String> = packages.iter().map(|p| p["name"].as_str().unwrap().to_owned()).collect();
    packages
        .iter()
        .map(|p| {
            let imports = p["dependencies"].as_array().unwrap().iter();
            // Test helpers may reach further; what ships may not.
            let shipped = imports.filter(|d| d["kind"].as_str() != Some("dev"));
            let imports =
                shipped.map(|d| d["name"].as_str().unwrap().to_owned()).filter(|d| names.contains(d));
            (p["name"].as_str().unwrap().to_owned(), imports.collect())
        })
        .collect()
}

/// What the code imports that the table does not allow, and rows without a crate or crates without a row.
fn disagreements(
    table: &BTreeMap<String, BTreeSet<String>>,
    ours: &BTreeMap<String, BTreeSet<String>>,
) -> Vec<String> {
    let mut found = Vec::new();
    for (name, imports) in ours {
        match table.get(name) {
            None => found.push(format!("{name} has no row in the import table of DEVELOPERS.md")),
            Some(allowed) if allowed.contains("any") => {}
            Some(allowed) => {
                found.extend(imports.difference(allowed).map(|i| format!("{name} must not import {i}")));
            }
        }
    }
    found.extend(
        table.keys().filter(|n| !ours.contains_key(*n)).map(|n| format!("{n} is in the table, but no crate")),
    );
    let reaches = |name: &str, what: &str| ours.get(name).is_some_and(|i| i.contains(what));
    for name in ours.keys().filter(|n| *n != "cli" && *n != "house-tests") {
        if reaches(name, "store") && reaches(name, "office") {
            found.push(format!("{name} reaches both store and office; only cli may"));
        }
    }
    found
}

#[test]
fn crates_import_only_what_the_table_allows() {
    let found = disagreements(&table(), &ours());
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn a_forbidden_import_would_be_found() {
    let (table, mut ours) = (table(), ours());
    ours.get_mut("trade").unwrap().insert("inference".into());
    ours.get_mut("shell").unwrap().insert("store".into());
    let found = disagreements(&table, &ours);
    assert!(found.contains(&"trade must not import inference".to_owned()), "{found:?}");
    assert!(found.contains(&"shell must not import store".to_owned()), "{found:?}");
}

#[test]
fn the_engine_and_the_trade_calculations_do_without_the_standard_library() {
    for name in ["inference", "trade"] {
        let text = std::fs::read_to_string(root().join("crates").join(name).join("src/lib.rs")).unwrap();
        assert!(text.contains("#![no_std]"), "{name}");
    }
}
