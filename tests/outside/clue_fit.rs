//! What the fitted clue tables give back of the catalog's numbers, published in `docs/clue-fit.md`.

use std::fmt::Write as _;

use assessment::{AskedGot, ClueTables};

use crate::support::{catalog, root};

/// The largest difference a table may have from a number of the catalog.
const WORST: f64 = 0.05;

fn page(rows: &[AskedGot]) -> String {
    let shared: Vec<&AskedGot> = {
        let clues = |r: &&AskedGot| rows.iter().filter(|o| o.clue == r.clue && o.band == r.band).count() > 1;
        rows.iter().filter(clues).collect()
    };
    let beyond: Vec<&&AskedGot> = shared.iter().filter(|r| r.worst() > WORST).collect();
    let worst = rows.iter().map(AskedGot::worst).fold(0.0, f64::max);
    let mut text = String::from(
        "# Clue tables: asked and got\n\n\
         Made by the test `outside::clue_fit`; run it with `UPDATE_DOCS=1` to write this page.\n\n\
         The catalog says P(clue | condition present) and P(clue | absent) pair by pair.\n\
         A clue that several conditions can cause has one table (noisy-OR, fitted by least squares on log-odds), which \
         cannot give every pair back when pairs contradict each other.\n\
         A clue of one condition is exact and not listed.\n\n",
    );
    let _ = writeln!(text, "Pairs in all: {}; of clues with several conditions: {}.", rows.len(), shared.len());
    let _ = writeln!(text, "Worst difference: {worst:.4}; beyond {WORST}: {}.\n", beyond.len());
    text.push_str("| clue | condition | era | asked present | got | asked absent | got |\n|---|---|---|---|---|---|---|\n");
    for r in shared {
        let _ = writeln!(
            text,
            "| {} | {} | {} | {:.3} | {:.3} | {:.3} | {:.3} |",
            r.clue,
            r.condition,
            r.band.as_deref().unwrap_or("all"),
            r.asked.0,
            r.got.0,
            r.asked.1,
            r.got.1
        );
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
        .filter(|r| r.worst() > WORST)
        .map(|r| format!("{} {} {:?}: asked {:?} got {:?}", r.clue, r.condition, r.band, r.asked, r.got))
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
