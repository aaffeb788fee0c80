//! Both languages say the same things.

use std::collections::{BTreeMap, BTreeSet};

use survey::catalog::builtin;
use words::{Language, catalog, files};

use crate::support::{messages, root};

/// Messages that read alike in both languages, each with its reason.
const ALIKE: [(&str, &str); 72] = [
    ("pages-clue", "only places: a question and its answer"),
    ("pages-household-what", "only places: a name and a sentence"),
    ("pages-look-short", "places and the unit min"),
    ("app", "a name"),
    ("answer-with-remark", "places and signs only"),
    ("as-it-is", "a place only"),
    ("at-place", "places and signs only"),
    ("by-at", "places and signs only"),
    ("error-about-item", "places and signs only"),
    ("error-key-file", "places and signs only"),
    ("error-verify-key", "places and signs only"),
    ("error-length-hint", "a place only"),
    ("error-store", "places and signs only"),
    ("calc-trade-gas", "the same word"),
    ("choice-cpvc-cts", "a name"),
    ("choice-no", "the same word"),
    ("choice-pex", "a name"),
    ("choice-pvc-abs-dwv", "a name"),
    ("drawing-name-figure", "places only"),
    ("drawing-name-is", "places and signs only"),
    ("drawing-with-note", "places and signs only"),
    ("group-gas", "the same word"),
    ("kilobytes", "a place and a symbol"),
    ("letter-days", "the same letter"),
    ("learned-line", "places and signs only"),
    ("letter-not-there", "the same letter"),
    ("letter-refuse", "the same letter"),
    ("letter-take", "the same letter"),
    ("look-how", "places and signs only"),
    ("megabytes", "a place and a symbol"),
    ("min", "a symbol"),
    ("minutes", "a place and a symbol"),
    ("packet-megabytes", "a place and a symbol"),
    ("next-question-at", "places, an option and signs only"),
    ("item-drops-seen-option-cables", "the same word"),
    ("item-house-pipe-option-pex", "a name"),
    ("item-low-volt-option-internet", "the same word"),
    ("item-main-size-option-100", "a number and a symbol"),
    ("item-main-size-option-125", "a number and a symbol"),
    ("item-main-size-option-150", "a number and a symbol"),
    ("item-main-size-option-60", "a number and a symbol"),
    ("item-under-wall-runs-option-cables", "the same word"),
    ("named", "places and signs only"),
    ("off-gas", "the same word"),
    ("off-internet", "the same word"),
    ("option-no", "the same word"),
    ("p80", "a name and a place"),
    ("pair-not", "the same word"),
    ("pages-minutes", "the same symbol"),
    ("quantity", "places only"),
    ("record-done", "places only"),
    ("rival-answer", "places and signs only"),
    ("scope-internet", "the same word"),
    ("score-brier", "a name"),
    ("service-gas", "the same word"),
    ("service-internet", "the same word"),
    ("sheet-a4", "the name of a size (ISO 216)"),
    ("store-about", "places and signs only"),
    ("store-error", "places and signs only"),
    ("trade-horizontal", "the same word"),
    ("trade-hvac", "the same letters"),
    ("trade-material", "the same word"),
    ("trade-name-at", "places and signs only"),
    ("unit-btu-h", "the same symbol"),
    ("unit-cfm", "the same symbol"),
    ("unit-gpm", "the same symbol"),
    ("unit-kbtu-h", "the same symbol"),
    ("unit-percent", "the same symbol"),
    ("unit-psi", "the same symbol"),
    ("unit-s", "the same symbol"),
    ("unit-va", "the same symbol"),
    ("verify-sum", "a name"),
];

#[test]
fn the_list_of_files_is_what_lies_in_the_folders() {
    for language in Language::WRITTEN {
        let folder = root().join("words").join(language.folder());
        let mut lying: Vec<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|e| e.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned())
            .collect();
        lying.sort();
        assert_eq!(files(language).iter().map(|f| f.name).collect::<Vec<_>>(), lying, "{language}");
    }
}

#[test]
fn every_message_and_every_text_of_the_catalog_has_spanish_and_nothing_else_has() {
    let (english, spanish) = (messages(Language::En), messages(Language::Es));
    let shipped = builtin().unwrap();
    let texts: BTreeSet<String> = catalog::texts(&shipped).into_iter().map(|(id, _)| id).collect();
    let wanted: BTreeSet<&String> = english.keys().chain(&texts).collect();
    let there: BTreeSet<&String> = spanish.keys().collect();
    let missing: Vec<_> = wanted.difference(&there).collect();
    assert!(missing.is_empty(), "without Spanish: {missing:#?}");
    let left: Vec<_> = there.difference(&wanted).collect();
    assert!(left.is_empty(), "Spanish of nothing: {left:#?}");
    assert!(texts.len() > 1500, "the catalog is read: {}", texts.len());
}

#[test]
fn an_id_of_the_catalog_stands_for_one_text_only() {
    let shipped = builtin().unwrap();
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    for item in &shipped.items {
        for choice in item.answer.options() {
            let id = catalog::option(&item.id, &choice.id, &choice.label);
            let text = seen.entry(id.clone()).or_insert(&choice.label);
            assert_eq!(*text, choice.label, "{id}");
        }
    }
    for word in shipped.conditions.iter().flat_map(|c| &c.trades) {
        assert_eq!(*seen.entry(format!("trade-{}", catalog::slug(word))).or_insert(word), word);
    }
    for word in shipped.conditions.iter().filter_map(|c| c.decides.as_ref()) {
        assert_eq!(*seen.entry(format!("decides-{}", catalog::slug(word))).or_insert(word), word);
    }
    for outage in &shipped.outages {
        for word in &outage.off {
            assert_eq!(*seen.entry(format!("off-{}", catalog::slug(word))).or_insert(word), word);
        }
    }
}

#[test]
fn the_common_options_have_the_english_of_the_catalog() {
    let shipped = builtin().unwrap();
    let english = messages(Language::En);
    for (id, text) in catalog::texts(&shipped) {
        if let Some(message) = english.get(&id) {
            assert_eq!(message.text, text, "{id}");
        }
    }
}

#[test]
fn a_message_has_the_same_places_in_both_languages() {
    let (english, spanish) = (messages(Language::En), messages(Language::Es));
    for (id, message) in &english {
        assert_eq!(message.places, spanish[id].places, "{id}");
    }
    for (id, message) in spanish.iter().filter(|(id, _)| !english.contains_key(*id)) {
        assert!(message.places.is_empty(), "{id}: a text of the catalog has no places");
        for other in &message.references {
            assert!(spanish.contains_key(other), "{id} refers to {other}");
        }
    }
}

#[test]
fn spanish_differs_from_english_except_where_it_says_why() {
    let (english, spanish) = (messages(Language::En), messages(Language::Es));
    let shipped = builtin().unwrap();
    let catalog: BTreeMap<String, &str> = catalog::texts(&shipped).into_iter().collect();
    let source = |id: &str| match english.get(id) {
        Some(message) => message.text.clone(),
        None => catalog[id].to_owned(),
    };
    let listed = |id: &str| ALIKE.iter().any(|(known, _)| *known == id);
    let alike: Vec<&String> =
        spanish.iter().filter(|(id, m)| m.text == source(id)).map(|(id, _)| id).collect();
    let unlisted: Vec<_> = alike.iter().filter(|id| !listed(id)).collect();
    assert!(unlisted.is_empty(), "left in English, or to be listed with a reason: {unlisted:#?}");
    for (id, reason) in &ALIKE {
        assert!(alike.iter().any(|a| a == id), "{id} is listed ({reason}) but differs");
    }
}
