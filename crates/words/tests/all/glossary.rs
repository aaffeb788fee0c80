//! Trade terms are said with one word in Spanish. The table stands in `docs/spanish-terms.md`.

use std::collections::BTreeMap;

use survey::catalog::builtin;
use words::{Language, catalog};

use crate::support::{messages, root};

/// A row of the table: the English term and the beginnings of Spanish words of which one must be there.
struct Term {
    english: Vec<String>,
    stems: Vec<String>,
}

fn terms() -> Vec<Term> {
    let text = std::fs::read_to_string(root().join("docs/spanish-terms.md")).unwrap();
    let table = text.split("<!-- terms -->").nth(1).expect("docs/spanish-terms.md marks its table twice");
    let cell = |cell: &str| cell.split(',').map(|t| t.trim().trim_matches('`').to_lowercase()).collect();
    table
        .lines()
        .filter(|line| line.starts_with("| ") && !line.starts_with("| English") && !line.starts_with("| ---"))
        .map(|line| {
            let cells: Vec<&str> = line.split('|').map(str::trim).collect();
            Term { english: cell(cells[1]), stems: cell(cells[3]) }
        })
        .collect()
}

/// True if the term stands in the text as a word of its own, also with a plural s.
fn says(text: &str, term: &str) -> bool {
    text.match_indices(term).any(|(at, found)| {
        let before = text[..at].chars().next_back();
        let rest = &text[at + found.len()..];
        let rest = rest.strip_prefix("es").or_else(|| rest.strip_prefix('s')).unwrap_or(rest);
        let letter = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '-');
        !letter(before) && !letter(rest.chars().next())
    })
}

/// The text without the names of its places.
fn without_places(text: &str) -> String {
    text.split("{$")
        .enumerate()
        .map(|(n, part)| if n == 0 { part } else { part.split_once('}').map_or("", |p| p.1) })
        .collect()
}

#[test]
fn every_trade_term_is_said_with_its_word() {
    let (english, spanish) = (messages(Language::En), messages(Language::Es));
    let shipped = builtin().unwrap();
    let mut sources: BTreeMap<String, String> =
        catalog::texts(&shipped).into_iter().map(|(id, text)| (id, text.to_owned())).collect();
    sources.extend(english.into_iter().map(|(id, message)| (id, message.text)));
    let terms = terms();
    assert!(terms.len() > 40, "{}", terms.len());
    let mut wrong = Vec::new();
    let mut met = vec![0; terms.len()];
    for (id, source) in &sources {
        let mut text = spanish[id].text.to_lowercase();
        for other in &spanish[id].references {
            text.push_str(&spanish[other].text.to_lowercase());
        }
        let mut source = without_places(&source.to_lowercase());
        // Longer terms come first in the table and are taken out, so that "trap arm" is not also "trap".
        for (n, term) in terms.iter().enumerate() {
            for english in &term.english {
                if !says(&source, english) {
                    continue;
                }
                met[n] += 1;
                if !term.stems.iter().any(|stem| text.contains(stem.as_str())) {
                    wrong.push(format!("{id}: “{english}” without {:?}: {text}", term.stems));
                }
                source = source.replace(english.as_str(), "·");
            }
        }
    }
    assert!(wrong.is_empty(), "{} of them:\n{}", wrong.len(), wrong.join("\n"));
    let idle: Vec<_> = terms.iter().zip(&met).filter(|(_, n)| **n == 0).map(|(t, _)| &t.english).collect();
    assert!(idle.is_empty(), "terms that no text uses: {idle:?}");
}
