//! One thing as it is written, key by key, with what stands behind each number and what the overlay made of it.

use toml::de::DeTable;

use super::super::source_file::Texts;
use super::super::standing::Standing;
use super::super::{Catalog, suggest};
use super::kinds::{Home, KINDS, Kind, Spec};
use super::lay::{Doc, documents, id_of, things};
use super::text::{has_number, shown};
use super::{Change, Removed, WrittenAt};

/// One thing as it is written.
#[derive(Clone, PartialEq, Debug)]
pub struct Written {
    /// Kind.
    pub kind: String,
    /// Id; empty for a table that is there once.
    pub id: String,
    /// Where it is written.
    pub place: WrittenAt,
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

/// The files of a catalog and of its overlay, read so that things can be looked up as they are written.
pub struct Writing<'a> {
    texts: Texts<'a>,
    laid: Vec<Doc<'a>>,
    /// The same without the overlay.
    bare: Vec<Doc<'a>>,
}

impl<'a> Writing<'a> {
    /// Reads the files a catalog was loaded from: (path, text) pairs of the catalog, and of the overlay.
    pub fn new(files: &[(&'a str, &'a str)], overlay: &[(&'a str, &'a str)]) -> Self {
        let texts = Texts::new(files.to_vec(), overlay.to_vec());
        let bare = Texts::new(files.to_vec(), Vec::new());
        // The catalog was loaded from these files, so they have no faults.
        let [laid, bare] = [&texts, &bare].map(|texts| documents(texts, &mut Vec::new()).0);
        Self { texts, laid, bare }
    }

    /// One thing. The error says what is not there and what is near.
    pub fn thing(&self, catalog: &Catalog, kind: &str, id: &str) -> Result<Written, String> {
        let Some(kind) = Kind::of(kind) else {
            return Err(missing("kind of thing", kind, KINDS.iter().map(|k| k.word)));
        };
        let id = if matches!(kind.home, Home::Table(_)) { "" } else { id };
        let Some((place, mut leaves)) = self.leaves(&self.laid, kind, id) else {
            let ids = things(&self.laid, kind).filter_map(|(_, _, t)| id_of(t));
            return Err(missing(kind.word, id, ids));
        };
        let before = self.leaves(&self.bare, kind, id).map(|(_, leaves)| leaves).unwrap_or_default();
        let place_of =
            |key: &str| before.iter().find(|l| l.key == key).map_or((true, 0), |l| (false, l.start));
        leaves.sort_by_key(|leaf| (place_of(&leaf.key), leaf.start));
        let overlay = catalog.overlay.as_ref();
        let is_it = |(of, by): (&String, &String)| of == kind.word && by == id;
        let changes = overlay.map(|o| o.changes.as_slice()).unwrap_or_default();
        let rows = leaves.into_iter().map(|leaf| Row {
            standing: leaf.number.then(|| catalog.standing(kind.word, id, &leaf.key)).flatten(),
            change: changes.iter().find(|c| is_it((&c.kind, &c.id)) && c.key == leaf.key).cloned(),
            key: leaf.key,
            value: leaf.value,
        });
        let rows = rows.collect();
        let removed = overlay.and_then(|o| o.removed.iter().find(|r| is_it((&r.kind, &r.id)))).cloned();
        Ok(Written { kind: kind.word.to_owned(), id: id.to_owned(), place, rows, removed })
    }

    /// The ids of a kind in the order written; none for a table that is there once. The error says what is not there.
    pub fn ids(&self, kind: &str) -> Result<Vec<&str>, String> {
        let Some(kind) = Kind::of(kind) else {
            return Err(missing("kind of thing", kind, KINDS.iter().map(|k| k.word)));
        };
        Ok(things(&self.laid, kind).filter_map(|(_, _, thing)| id_of(thing)).collect())
    }

    /// The keys of a thing in some documents, and where it is written. Without an id the table that is there once.
    fn leaves(&self, docs: &[Doc<'_>], kind: &Kind, id: &str) -> Option<(WrittenAt, Vec<Leaf>)> {
        let is_it = |thing: &DeTable<'_>| id.is_empty() || id_of(thing) == Some(id);
        let (doc, position, thing) = things(docs, kind).find(|(_, _, thing)| is_it(thing))?;
        let node = docs[doc].tree.get_ref().get(kind.key);
        let listed = position.and_then(|i| node?.get_ref().as_array()?.get(i)).or(node);
        let (file, line) = self.texts.line(docs[doc].file, listed.map_or(0, |n| n.span().start));
        let mut leaves = Vec::new();
        walk(thing, kind.change.ok().as_ref(), "", &mut leaves);
        Some((WrittenAt { file, line }, leaves))
    }
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
