//! One thing as it is written, key by key, with what stands behind each number and what the overlay made of it.

use toml::de::{DeTable, DeValue};

use super::super::source_file::Texts;
use super::super::standing::Standing;
use super::super::{Catalog, suggest};
use super::kinds::{Home, KINDS, Kind, Spec};
use super::lay::{Doc, documents, id_of, things};
use super::text::{has_number, shown};
use super::{Change, Place, Removed};

/// One thing as it is written.
#[derive(Clone, PartialEq, Debug)]
pub struct Written {
    /// Kind.
    pub kind: String,
    /// Id; empty for a table that is there once.
    pub id: String,
    /// Where it is written.
    pub place: Place,
    /// Its keys, in the order written; what the overlay sets anew comes last.
    pub rows: Vec<Row>,
    /// Set where it is not offered here.
    pub removed: Option<Removed>,
}

/// One key.
#[derive(Clone, PartialEq, Debug)]
pub struct Row {
    /// The key as an overlay names it, with dots.
    pub key: String,
    /// The value as written in TOML.
    pub value: String,
    /// What stands behind it, where it is a number.
    pub standing: Option<Standing>,
    /// How the overlay changed it.
    pub change: Option<Change>,
}

/// Finds one thing in the files of a catalog that was loaded from them. The error says what is not there and what is
/// near.
pub fn written(
    files: &[(&str, &str)],
    overlay: &[(&str, &str)],
    catalog: &Catalog,
    kind: &str,
    id: &str,
) -> Result<Written, String> {
    let Some(kind) = Kind::of(kind) else {
        return Err(missing("kind of thing", kind, KINDS.iter().map(|k| k.word)));
    };
    let texts = Texts::new(files.to_vec(), overlay.to_vec());
    // The catalog was loaded from these files, so they have no faults.
    let (docs, _) = documents(&texts, &mut Vec::new());
    let single = matches!(kind.home, Home::Table(_));
    let of = |docs: &[Doc<'_>]| -> Option<(Place, Vec<Leaf>)> {
        let is_it = |thing: &DeTable<'_>| single || id_of(thing) == Some(id);
        let (doc, position, thing) = things(docs, kind).find(|(_, _, thing)| is_it(thing))?;
        let list = docs[doc].tree.get_ref().get(kind.key).map(toml::Spanned::get_ref);
        let node = position.and_then(|i| list.and_then(DeValue::as_array).and_then(|l| l.get(i)));
        let start = node.map(toml::Spanned::span).or_else(|| docs[doc].tree.get_ref().get(kind.key).map(toml::Spanned::span));
        let (file, line) = texts.line(docs[doc].file, start.unwrap_or_default().start);
        let mut leaves = Vec::new();
        walk(thing, kind.change.ok().as_ref(), "", &mut leaves);
        Some((Place { file, line }, leaves))
    };
    let Some((place, mut leaves)) = of(&docs) else {
        let known: Vec<String> = things(&docs, kind).filter_map(|(_, _, t)| id_of(t).map(str::to_owned)).collect();
        return Err(missing(kind.word, id, known.iter().map(String::as_str)));
    };
    let bare = Texts::new(files.to_vec(), Vec::new());
    let before = of(&documents(&bare, &mut Vec::new()).0).map(|(_, leaves)| leaves).unwrap_or_default();
    let place_of = |key: &str| before.iter().find(|l| l.key == key).map_or((true, 0), |l| (false, l.start));
    leaves.sort_by_key(|leaf| (place_of(&leaf.key), leaf.start));
    let id = if single { "" } else { id };
    let changes: Vec<&Change> = catalog
        .overlay
        .iter()
        .flat_map(|o| &o.changes)
        .filter(|c| c.kind == kind.word && c.id == id)
        .collect();
    let rows = leaves.into_iter().map(|leaf| Row {
        standing: leaf.number.then(|| catalog.standing(kind.word, id, &leaf.key)).flatten(),
        change: changes.iter().find(|c| c.key == leaf.key).map(|c| (*c).clone()),
        key: leaf.key,
        value: leaf.value,
    });
    let removed = catalog.overlay.iter().flat_map(|o| &o.removed).find(|r| r.kind == kind.word && r.id == id);
    Ok(Written {
        kind: kind.word.to_owned(),
        id: id.to_owned(),
        place,
        rows: rows.collect(),
        removed: removed.cloned(),
    })
}

fn missing<'k>(what: &str, word: &str, known: impl IntoIterator<Item = &'k str>) -> String {
    let mend = suggest::mend(word, known).map(|m| format!("; {m}")).unwrap_or_default();
    format!("there is no {what} “{word}”{mend}")
}

struct Leaf {
    key: String,
    value: String,
    number: bool,
    start: usize,
}

/// The keys of a thing that an overlay can name, each with its value.
fn walk(thing: &DeTable<'_>, spec: Option<&Spec>, before: &str, leaves: &mut Vec<Leaf>) {
    for (key, value) in thing {
        let word = key.get_ref().as_ref();
        let path = format!("{before}{word}");
        let parts = spec.and_then(|s| s.parts(word)).zip(value.get_ref().as_array());
        let map = spec.filter(|s| s.maps.contains(&word)).and(value.get_ref().as_table());
        if let Some((parts, list)) = parts {
            for part in list.iter().filter_map(|v| v.get_ref().as_table()) {
                let names = parts.named_by.iter().filter_map(|by| part.get(*by)?.get_ref().as_str());
                let path = names.fold(path.clone(), |path, name| format!("{path}.{name}"));
                let inner: DeTable<'_> = part
                    .iter()
                    .filter(|(k, _)| !parts.named_by.contains(&k.get_ref().as_ref()))
                    .map(|(k, v)| (k.clone(), v.clone()))
                    .collect();
                walk(&inner, Some(&parts.spec), &format!("{path}."), leaves);
            }
        } else if let Some(map) = map {
            for (key, value) in map {
                leaves.push(leaf(format!("{path}.{}", key.get_ref()), key.span().start, value));
            }
        } else {
            leaves.push(leaf(path, key.span().start, value));
        }
    }
}

fn leaf(key: String, start: usize, value: &super::super::source_file::Node<'_>) -> Leaf {
    Leaf { key, value: shown(value), number: has_number(value), start }
}
