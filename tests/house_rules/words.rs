//! Words we never say. The tool advises; it does not declare anything safe, compliant or clear to cut.

use crate::support::{catalog, root};

/// A claim nobody may make on a screen, a page or a line.
const NEVER: [&str; 10] = [
    "is safe",
    "are safe",
    "it's safe",
    "code-compliant",
    "clear to cut",
    "meets code",
    "es seguro",
    "es segura",
    "cumple con el código",
    "se puede cortar",
];

fn claims(text: &str) -> Option<&'static str> {
    let lower = text.to_lowercase();
    NEVER.iter().copied().find(|n| lower.contains(n))
}

#[test]
fn the_catalog_and_the_words_never_claim_that_anything_is_safe() {
    let mut files = Vec::new();
    super::size::sources(&root().join("catalog"), &["toml", "md"], &mut files);
    super::size::sources(&root().join("ui/src"), &["svelte"], &mut files);
    super::size::sources(&root().join("words"), &["ftl"], &mut files);
    assert!(files.len() > 20);
    for path in files {
        for (n, line) in std::fs::read_to_string(&path).unwrap().lines().enumerate() {
            assert_eq!(claims(line), None, "{}:{}: {line}", path.display(), n + 1);
        }
    }
}

#[test]
fn every_hazard_names_who_decides() {
    let catalog = catalog();
    let hazardous = ["electrical", "gas", "structure"];
    for c in &catalog.conditions {
        assert!(!c.caution.trim().is_empty(), "{} has no caution", c.id);
        let gated = c.decision.is_some();
        if gated || hazardous.contains(&c.group.as_str()) {
            let named = c.decides.is_some()
                || ["licensed", "certified", "engineer", "electrician", "plumber", "gas fitter", "lab"]
                    .iter()
                    .any(|w| c.caution.to_lowercase().contains(w));
            assert!(named, "{} does not say who decides: {}", c.id, c.caution);
        }
    }
}
