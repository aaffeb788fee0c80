//! Laying an overlay over the documents of a catalog: heads first, then what is added, then what is changed, so that a
//! file can change what another one adds.

use std::collections::BTreeMap;

use serde::Deserialize as _;
use toml::de::{DeTable, DeValue, ValueDeserializer};

use super::super::digest;
use super::super::error::Fault;
use super::super::faults::{At, Found};
use super::super::source_file::{Key, Node, OVERLAY, Texts, Tree};
use super::super::suggest;
use super::backing::{Backed, Slip, WORDS};
use super::kinds::{Home, KINDS, Kind};
use super::{Added, Change, Overlay, Removed, WrittenAt};

/// One document: a file of the catalog with the overlay laid over it, or one that the overlay adds.
#[derive(Clone)]
pub(in super::super) struct Doc<'a> {
    /// Path inside the catalog, which says what it holds.
    pub(in super::super) path: String,
    /// Index of the catalog's file; beyond them for one that the overlay adds.
    pub(in super::super) file: usize,
    /// The whole of it; empty where it cannot be read.
    pub(in super::super) tree: Tree<'a>,
    /// True where it is not TOML, so that it would look empty.
    pub(in super::super) broken: bool,
}

/// What an overlay did, and where.
#[derive(Default)]
pub(in super::super) struct Laid {
    pub(super) name: Option<String>,
    pub(super) version: Option<u32>,
    pub(in super::super) changes: Vec<Change>,
    pub(in super::super) added: Vec<Added>,
    pub(super) removals: Vec<Removal>,
    /// WrittenAt of each change in the documents, and where it was written.
    pub(in super::super) marks: Vec<(At, usize)>,
    /// Sources named by changes, and where.
    pub(in super::super) sources: Vec<(String, usize)>,
}

/// A thing that is said not to be offered here.
pub(super) struct Removal {
    pub(super) kind: &'static Kind,
    pub(super) id: String,
    pub(super) reason: String,
    pub(super) at: usize,
}

impl Laid {
    /// True when the catalog is as it was.
    pub(in super::super) fn is_nothing(&self) -> bool {
        self.changes.is_empty() && self.added.is_empty() && self.removals.is_empty()
    }
}

/// The documents of a catalog with its overlay laid over them; what cannot be read or laid is a fault.
pub(in super::super) fn documents<'a>(texts: &Texts<'a>, faults: &mut Vec<Fault>) -> (Vec<Doc<'a>>, Laid) {
    let mut layer = Layer { texts, docs: Vec::new(), laid: Laid::default(), faults, seen: BTreeMap::new() };
    for (file, text) in texts.base.iter().enumerate() {
        let mut broken = false;
        let tree = text.parse().unwrap_or_else(|(offset, what)| {
            layer.fault_in(file, offset, what, None);
            broken = true;
            Tree::new(0..0, DeTable::new())
        });
        layer.docs.push(Doc { path: text.name.clone().into_owned(), file, tree, broken });
    }
    let mut changes = Vec::new();
    for text in &texts.overlay {
        match text.parse() {
            Ok(tree) => changes.extend(layer.file(tree.into_inner())),
            Err((offset, what)) => layer.fault(offset, what, None),
        }
    }
    for (change, head) in changes {
        layer.change(change, &head);
    }
    let mut laid = layer.laid;
    laid.changes.sort_by(|a, b| (&a.kind, &a.id, &a.key).cmp(&(&b.kind, &b.id, &b.key)));
    laid.removals.sort_by(|a, b| (a.kind.word, &a.id).cmp(&(b.kind.word, &b.id)));
    (layer.docs, laid)
}

/// Documents while an overlay is laid over them.
pub(super) struct Layer<'t, 'a> {
    pub(super) texts: &'t Texts<'a>,
    pub(super) docs: Vec<Doc<'a>>,
    pub(super) laid: Laid,
    faults: &'t mut Vec<Fault>,
    /// What was changed or removed so far, and where.
    seen: BTreeMap<String, usize>,
}

impl<'a> Layer<'_, 'a> {
    fn fault_in(&mut self, file: usize, offset: usize, what: String, mend: Option<String>) {
        let (file, line) = self.texts.line(file, offset);
        self.faults.push(Fault { file, line, what, mend });
    }
    /// Records a fault at an offset of the overlay.
    pub(super) fn fault(&mut self, offset: usize, what: impl Into<String>, mend: Option<String>) {
        self.fault_in(usize::MAX, offset, what.into(), mend);
    }
    pub(super) fn slips(&mut self, slips: Vec<Slip>) {
        for (offset, what, mend) in slips {
            self.fault(offset, what, mend);
        }
    }
    /// Name and line of an offset of the overlay.
    pub(super) fn place(&self, offset: usize) -> WrittenAt {
        let (file, line) = self.texts.line(usize::MAX, offset);
        WrittenAt { file, line }
    }
    /// Notes that something is said, once; a fault that names both places if it is said again.
    pub(super) fn once(&mut self, what: String, offset: usize) -> bool {
        if let Some(first) = self.seen.get(&what) {
            let first = self.place(*first);
            self.fault(offset, format!("{what} is said twice: here and at {first}"), Some("keep one".into()));
            return false;
        }
        self.seen.insert(what, offset);
        true
    }

    /// Reads one file of the overlay: its head, what it adds and what it takes out. Its changes come back with its head.
    fn file(&mut self, mut table: DeTable<'a>) -> Option<(Node<'a>, Backed)> {
        let mut slips = Vec::new();
        let head = Backed::default().inner(&table, &mut slips);
        self.slips(slips);
        for word in WORDS {
            table.remove(word);
        }
        self.title(&mut table);
        for kind in KINDS.iter().filter(|k| k.add) {
            if let Some(list) = table.remove(kind.word) {
                self.add_all(kind, list, &head);
            }
        }
        if let Some(removals) = table.remove("remove") {
            self.read_removals(removals);
        }
        let change = table.remove("change");
        for (key, _) in table {
            let known = KINDS.iter().filter(|k| k.add).map(|k| k.word);
            let known = known.chain(WORDS).chain(["name", "version", "change", "remove"]);
            let what = format!("an overlay has no key “{}”", key.get_ref());
            let mend = suggest::mend(key.get_ref(), known).or_else(|| {
                Some(
                    "to change a thing write [change.KIND.ID], to add one [[KIND]]: see catalog/README.md"
                        .into(),
                )
            });
            self.fault(key.span().start, what, mend);
        }
        change.map(|change| (change, head))
    }

    fn title(&mut self, table: &mut DeTable<'a>) {
        if let Some(node) = table.remove("name") {
            match node.get_ref() {
                DeValue::String(words) if !words.trim().is_empty() => {
                    if self.once("the name of the overlay".into(), node.span().start) {
                        self.laid.name = Some(words.trim().to_owned());
                    }
                }
                _ => self.fault(node.span().start, "a name is said in words", None),
            }
        }
        if let Some(node) = table.remove("version") {
            let at = node.span().start;
            match u32::deserialize(ValueDeserializer::from(node)) {
                Ok(version) => {
                    if self.once("the version of the overlay".into(), at) {
                        self.laid.version = Some(version);
                    }
                }
                Err(_) => self.fault(at, "a version is a whole number", None),
            }
        }
    }

    fn read_removals(&mut self, node: Node<'a>) {
        let at = node.span().start;
        let DeValue::Table(kinds) = node.into_inner() else {
            return self.fault(
                at,
                "remove holds tables",
                Some("write [remove.KIND] with id = \"reason\"".into()),
            );
        };
        for (word, things) in kinds {
            let Some(kind) = self.kind(&word, |k| k.remove, "be left out") else { continue };
            let at = things.span().start;
            let DeValue::Table(things) = things.into_inner() else {
                self.fault(
                    at,
                    "what is not offered here is listed with its reason",
                    Some("id = \"reason\"".into()),
                );
                continue;
            };
            for (id, reason) in things {
                let at = id.span().start;
                let reason = reason.get_ref().as_str().map(str::trim).unwrap_or_default().to_owned();
                if reason.is_empty() {
                    let mend = format!("{} = \"we do no such work\"", id.get_ref());
                    self.fault(at, format!("“{}” is left out without a reason", id.get_ref()), Some(mend));
                    continue;
                }
                if self.find(kind, id.get_ref()).is_none() {
                    self.unknown_id(kind, &id);
                } else if self.once(format!("that {} “{}” is left out", kind.word, id.get_ref()), at) {
                    let id = id.get_ref().clone().into_owned();
                    self.laid.removals.push(Removal { kind, id, reason, at });
                }
            }
        }
    }

    /// A kind by its word; a fault with the nearest one if there is none of which this can be done.
    pub(super) fn kind(
        &mut self,
        word: &Key<'a>,
        can: fn(&Kind) -> bool,
        done: &str,
    ) -> Option<&'static Kind> {
        let found = Kind::of(word.get_ref());
        if let Some(kind) = found.filter(|k| can(k)) {
            return Some(kind);
        }
        let known: Vec<&str> = KINDS.iter().filter(|k| can(k)).map(|k| k.word).collect();
        let what = match found {
            Some(kind) => format!("a {} cannot {done}", kind.word),
            None => format!("there is no kind of thing “{}” that can {done}", word.get_ref()),
        };
        let mend = match found.map(|k| k.change) {
            Some(Err(why)) if done == "be changed" => Some(why.to_owned()),
            _ => suggest::mend(word.get_ref(), known),
        };
        self.fault(word.span().start, what, mend);
        None
    }

    pub(super) fn unknown_id(&mut self, kind: &'static Kind, id: &Key<'a>) {
        let known = self.ids(kind);
        let mend = suggest::mend(id.get_ref(), known.iter().map(String::as_str));
        let what = format!("there is no {} “{}”", kind.word, id.get_ref());
        self.fault(id.span().start, what, mend);
    }

    /// Where a thing is: its document, and its position in the list there.
    pub(super) fn find(&self, kind: &Kind, id: &str) -> Option<(usize, Option<usize>)> {
        self.things(kind).find(|(_, _, thing)| id_of(thing) == Some(id)).map(|(doc, i, _)| (doc, i))
    }

    fn ids(&self, kind: &Kind) -> Vec<String> {
        self.things(kind).filter_map(|(_, _, thing)| id_of(thing).map(str::to_owned)).collect()
    }

    /// Every thing of a kind: document, position in its list, table.
    pub(super) fn things(&self, kind: &Kind) -> impl Iterator<Item = (usize, Option<usize>, &DeTable<'a>)> {
        things(&self.docs, kind)
    }
}

/// Every thing of a kind in the documents: document, position in its list if it is in one, table.
pub(super) fn things<'d, 'a>(
    docs: &'d [Doc<'a>],
    kind: &Kind,
) -> impl Iterator<Item = (usize, Option<usize>, &'d DeTable<'a>)> {
    let (home, key) = (kind.home, kind.key);
    let holds = move |doc: &Doc<'_>| match home {
        Home::List(file) | Home::Table(file) => doc.path == file,
        Home::Lists(folder) | Home::Tables(folder) | Home::Files(folder) => doc.path.starts_with(folder),
    };
    docs.iter().enumerate().filter(move |(_, doc)| holds(doc)).flat_map(move |(n, doc)| {
        let whole = matches!(home, Home::Files(_)).then(|| doc.tree.get_ref());
        let node = doc.tree.get_ref().get(key).map(toml::Spanned::get_ref);
        let alone = whole.or_else(|| node.and_then(DeValue::as_table)).map(|t| (n, None, t));
        let list = node.and_then(DeValue::as_array).map(AsRef::as_ref).unwrap_or_default();
        let listed =
            list.iter().enumerate().filter_map(move |(i, v)| Some((n, Some(i), v.get_ref().as_table()?)));
        alone.into_iter().chain(listed)
    })
}

/// The id of a thing.
pub(super) fn id_of<'d>(thing: &'d DeTable<'_>) -> Option<&'d str> {
    thing.get("id")?.get_ref().as_str()
}

impl Laid {
    /// What it did, for the catalog to tell.
    pub(in super::super) fn told(self, texts: &Texts<'_>, removed: Vec<Removed>) -> Overlay {
        Overlay {
            name: self.name,
            version: self.version,
            digest: digest(texts.overlay.iter()),
            changes: self.changes,
            added: self.added,
            removed,
        }
    }

    /// Faults of a catalog that has none without its overlay: each names the place of the overlay that brought it.
    pub(in super::super) fn blamed(&self, texts: &Texts<'_>, found: Vec<Found>) -> Vec<Fault> {
        let blame = |found: Found| {
            if found.fault.file.starts_with(OVERLAY) {
                return found.fault;
            }
            let place = self.nearest(texts, &found);
            let Some((file, line)) = place else { return found.fault };
            let there = match found.fault.line {
                0 => found.fault.file.clone(),
                line => format!("{}:{line}", found.fault.file),
            };
            Fault {
                file,
                line,
                what: format!("{} (seen at {there})", found.fault.what),
                mend: found.fault.mend,
            }
        };
        found.into_iter().map(blame).collect()
    }

    /// The change that lies nearest to a fault in the documents; otherwise one of something that the fault names;
    /// otherwise the first thing that the overlay does.
    fn nearest(&self, texts: &Texts<'_>, found: &Found) -> Option<(String, u32)> {
        // Two steps in common, such as `condition` and a position, are the least that makes two places near.
        const NEAR: usize = 2;
        let steps = found.at.as_ref().map(|at| (at.doc, at.steps()));
        let common = |at: &At| match &steps {
            Some((doc, steps)) if *doc == at.doc => {
                at.steps().iter().zip(steps).take_while(|(a, b)| a == b).count()
            }
            _ => 0,
        };
        let near = self.marks.iter().map(|(at, offset)| (common(at), *offset)).filter(|(n, _)| *n >= NEAR);
        // The first of the nearest, so that nothing depends on chance.
        let near = near.fold(None, |best: Option<(usize, usize)>, this| match best {
            Some(best) if best.0 >= this.0 => Some(best),
            _ => Some(this),
        });
        if let Some((_, offset)) = near {
            return Some(texts.line(usize::MAX, offset));
        }
        let names = |id: &str| !id.is_empty() && found.fault.what.contains(&format!("“{id}”"));
        let changed = self.changes.iter().map(|c| (&c.id, &c.place));
        let told: Vec<(&String, &WrittenAt)> =
            changed.chain(self.added.iter().map(|a| (&a.id, &a.place))).collect();
        let place = told.iter().find(|(id, _)| names(id)).or(told.first());
        place.map(|(_, place)| (place.file.clone(), place.line))
    }
}
