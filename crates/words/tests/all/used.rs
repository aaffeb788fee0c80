//! Every message that a source asks for is in the files, and every message in the files is asked for.

use std::collections::{BTreeMap, BTreeSet};

use words::{Language, files};

use crate::support::{messages, sources};

/// Ids between these signs, as `msg!("` and `"`.
fn between<'a>(text: &'a str, before: &str, after: char) -> impl Iterator<Item = &'a str> {
    text.split(before)
        .skip(1)
        .filter_map(move |rest| rest.split(after).next())
        .collect::<Vec<_>>()
        .into_iter()
}

/// Ids the program asks for, with the file.
fn asked_in_rust() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for folder in ["crates", "src-tauri"] {
        for (path, text) in sources(folder, &["rs"]) {
            if path.contains("/tests/") {
                continue;
            }
            // Tests inside a source make up ids; a macro call may go on on the next line.
            let text = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
            let flat: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
            // `msg!` makes a message, `say!` and `Phrase` make one where the language is not known yet.
            for before in [
                "msg!(\"",
                "msg!( \"",
                "say!(\"",
                "say!( \"",
                "Phrase(\"",
                "Phrase( \"",
                "words.plain(\"",
                "words.catalog(\"",
                "words.translated(\"",
            ] {
                for id in between(&flat, before, '"') {
                    found.insert(id.to_owned(), path.clone());
                }
            }
        }
    }
    for (path, text) in sources("crates/packet/templates", &["typ"]) {
        for id in between(&text, "w(\"", '"') {
            found.insert(id.to_owned(), path.clone());
        }
    }
    found
}

/// Files that screens carry: those of the tablet and of the office, and those of the office alone.
const SCREENS: [&str; 2] = ["screens", OFFICE];
const OFFICE: &str = "office-screens";
/// Sources of the office's screens.
const OF_OFFICE: &str = "ui/src/office/";

#[test]
fn every_message_the_program_asks_for_is_in_the_files() {
    let english = messages(Language::En);
    let asked = asked_in_rust();
    assert!(asked.len() > 200, "the sources are read: {}", asked.len());
    let texts = ["catalog-notice", "photos"]; // a text of the catalog; an example in a comment
    let unknown: Vec<_> =
        asked.iter().filter(|(id, _)| !english.contains_key(*id) && !texts.contains(&id.as_str())).collect();
    assert!(unknown.is_empty(), "{unknown:#?}");
}

#[test]
fn every_message_of_the_program_is_asked_for() {
    let asked = asked_in_rust();
    // Found by rule and not by name: options said alike (`catalog::option`), reasons (`phrases::why_words`), help, and
    // what a calculation asks for, with its words (`trade::given`), the services of a house (`trade::outages`), the
    // families of codes (`trade::cite`) and units the catalog has no use for.
    let rules = ["option-", "help-", "why-", "field-", "choice-", "service-", "code-", "appliance-", "unit-"];
    let by_rule = |id: &str| rules.iter().any(|start| id.starts_with(start));
    let english = messages(Language::En);
    let unused: Vec<_> = english
        .iter()
        .filter(|(id, m)| !SCREENS.contains(&m.file.as_str()) && !by_rule(id) && !asked.contains_key(*id))
        .map(|(id, _)| id)
        .collect();
    assert!(unused.is_empty(), "{unused:#?}");
}

#[test]
fn every_message_of_the_screens_is_asked_for_and_there() {
    let english = messages(Language::En);
    let of = |file: &str| english.iter().filter(|(_, m)| m.file == file).map(|(id, _)| id).collect();
    let (screens, office): (BTreeSet<&String>, BTreeSet<&String>) = (of("screens"), of(OFFICE));
    let texts: Vec<(String, String)> = sources("ui/src", &["svelte", "ts"])
        .into_iter()
        .filter(|(path, _)| !path.ends_with(".test.ts") && !path.contains("/bindings/"))
        .collect();
    let quoted: BTreeSet<&str> =
        texts.iter().flat_map(|(_, text)| text.split('\'').skip(1).step_by(1)).collect();
    let unused: Vec<_> = screens.union(&office).filter(|id| !quoted.contains(id.as_str())).collect();
    assert!(unused.is_empty(), "no screen says {unused:#?}");
    for (path, text) in &texts {
        for said in between(text, "words.say(", ')') {
            // the id, or the two of a choice, stand before the values
            let ids = said.split(", {").next().unwrap_or_default();
            for id in ids.split('\'').skip(1).step_by(2) {
                let id = &id.to_owned();
                let there = screens.contains(id) || (path.contains(OF_OFFICE) && office.contains(id));
                assert!(there, "{path} says “{id}”, which is in no file it carries");
            }
        }
    }
}

#[test]
fn only_screens_are_carried_by_the_screens() {
    let names: Vec<&str> = files(Language::En).iter().map(|f| f.name).collect();
    assert!(names.contains(&"screens"));
    for (path, text) in sources("ui/src", &["ts", "svelte"]) {
        for file in between(&text, "/words/", '?') {
            if file.contains(".ftl") {
                let its = file.ends_with("/screens.ftl")
                    // The tests of the screens read the words of both.
                    || ((path.contains(OF_OFFICE) || path.ends_with(".test.ts"))
                        && file.ends_with("/office-screens.ftl"));
                assert!(its, "{path} carries {file}");
            }
        }
    }
}
