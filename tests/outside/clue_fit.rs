//! What the fitted clue tables give back of the catalog's numbers, published in `docs/clue-fit.md`.

use std::fmt::Write as _;

use assessment::{AskedGot, ClueTables, Probability};

use crate::support::{catalog, root};

/// The largest difference a table may have from a number of the catalog.
const WORST: f64 = 0.05;

fn page(rows: &[AskedGot]) -> String {
    let conditions = |clue: &str| {
        let mut ids: Vec<&str> =
            rows.iter().filter(|r| r.clue == clue).map(|r| r.condition.as_str()).collect();
        ids.dedup();
        ids.len()
    };
    let shared: Vec<&AskedGot> = rows.iter().filter(|r| conditions(&r.clue) > 1).collect();
    let worst = rows.iter().map(AskedGot::off).fold(0.0, f64::max);
    let mut text = String::from(
        "# Clue tables: asked and got\n\n\
         Made by the test `outside::clue_fit`; run it with `UPDATE_DOCS=1` to write this page.\n\n\
         The catalog says P(clue | condition present) and P(clue | absent) pair by pair.\n\
         A clue that several conditions can cause has one table (noisy-OR, fitted by least squares on log-odds, at the \
         base rates the catalog states), which cannot give every pair back when pairs contradict each other.\n\
         Where the false positives of a clue depend on the era, its table has one leak for each era and shared weights; \
         P(clue | present) is then over all houses that have the condition.\n\
         Clues of a single condition are given back exactly and not listed.\n\n",
    );
    let _ =
        writeln!(text, "Numbers in all: {}; of clues with several conditions: {}.", rows.len(), shared.len());
    let _ = writeln!(text, "Worst difference: {worst:.3}.\n");
    text.push_str("| clue | condition | P(clue given) | era | asked | got |\n|---|---|---|---|---|---|\n");
    for r in shared {
        let of = match r.of {
            Probability::IfPresent => "present",
            Probability::IfAbsent => "absent",
        };
        let era = r.band.as_deref().unwrap_or("all");
        let _ =
            writeln!(text, "| {} | {} | {of} | {era} | {:.3} | {:.3} |", r.clue, r.condition, r.asked, r.got);
    }
    text
}

#[test]
fn fitted_tables_give_the_catalogs_numbers_back_within_a_twentieth() {
    let catalog = catalog();
    let rows = ClueTables::fit(&catalog).asked_and_got(&catalog);
    assert!(rows.len() > 250, "{}", rows.len());
    let beyond: Vec<String> = rows
        .iter()
        .filter(|r| r.off() > WORST)
        .map(|r| {
            format!("{} {} {:?} {:?}: asked {} got {:.3}", r.clue, r.condition, r.of, r.band, r.asked, r.got)
        })
        .collect();
    let text = page(&rows);
    let path = root().join("docs/clue-fit.md");
    if std::env::var_os("UPDATE_DOCS").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, &text).unwrap();
    }
    assert!(beyond.is_empty(), "mend the catalog:\n{}", beyond.join("\n"));
    assert_eq!(std::fs::read_to_string(&path).unwrap_or_default(), text, "docs/clue-fit.md is stale");
}
