//! Changing single numbers and words.

use toml::de::{DeArray, DeTable, DeValue};

use super::super::condition::needs_source;
use super::super::faults::{At, Step};
use super::super::source_file::{Key, Node};
use super::Change;
use super::backing::{Backed, WORDS};
use super::kinds::{Kind, Parts, Spec};
use super::lay::Layer;
use super::text::{has_number, shown};

/// What is being changed.
struct Target {
    kind: &'static Kind,
    id: String,
}

impl Target {
    fn words(&self) -> String {
        if self.id.is_empty() {
            self.kind.word.to_owned()
        } else {
            format!("{} “{}”", self.kind.word, self.id)
        }
    }
    /// The heading under which a key of it is changed.
    fn heading(&self) -> String {
        let id = if self.id.is_empty() { String::new() } else { format!(".{}", self.id) };
        format!("change.{}{id}", self.kind.word)
    }
}

/// Where in a thing, for people and for the loader.
#[derive(Clone)]
struct Inside {
    key: String,
    at: At,
}

impl Inside {
    fn to(&self, key: &str) -> Self {
        let dot = if self.key.is_empty() { "" } else { "." };
        Self { key: format!("{}{dot}{key}", self.key), at: self.at.to(Step::from(key.to_owned())) }
    }
}

impl<'a> Layer<'_, 'a> {
    /// Applies the table `change` of one file.
    pub(super) fn change(&mut self, node: Node<'a>, head: &Backed) {
        let at = node.span().start;
        let DeValue::Table(kinds) = node.into_inner() else {
            return self.fault(at, "change holds tables", Some("write [change.KIND.ID]".into()));
        };
        for (word, things) in kinds {
            let Some(kind) = self.kind(&word, |k| k.change.is_ok(), "be changed") else { continue };
            let Some(things) = self.table(things, &format!("change.{}", kind.word)) else { continue };
            if kind.is_single() {
                self.change_thing(kind, "", things, head);
                continue;
            }
            let inner = self.backed(head, &things);
            for (id, patch) in things.into_iter().filter(|(k, _)| !WORDS.contains(&k.get_ref().as_ref())) {
                let heading = format!("change.{}.{}", kind.word, id.get_ref());
                let Some(patch) = self.table(patch, &heading) else { continue };
                if self.find(kind, id.get_ref()).is_none() {
                    self.unknown_id(kind, &id);
                } else {
                    self.change_thing(kind, id.get_ref(), patch, &inner);
                }
            }
        }
    }

    fn change_thing(&mut self, kind: &'static Kind, id: &str, patch: DeTable<'a>, around: &Backed) {
        let (found, Ok(spec)) =
            (if kind.is_single() { self.first(kind) } else { self.find(kind, id) }, kind.change)
        else {
            return;
        };
        let Some((doc, position)) = found else { return };
        let at = At::new(doc).to(kind.key);
        let at = position.map_or(at.clone(), |i| at.to(i));
        let target = Target { kind, id: id.to_owned() };
        let mut table = self.thing(doc, kind, position).map(core::mem::take).unwrap_or_default();
        self.patch(&target, &spec, &mut table, &Inside { key: String::new(), at }, patch, around);
        if let Some(place) = self.thing(doc, kind, position) {
            *place = table;
        }
    }

    fn first(&self, kind: &Kind) -> Option<(usize, Option<usize>)> {
        self.things(kind).next().map(|(doc, i, _)| (doc, i))
    }

    fn thing(&mut self, doc: usize, kind: &Kind, position: Option<usize>) -> Option<&mut DeTable<'a>> {
        let node = self.docs.get_mut(doc)?.tree.get_mut().get_mut(kind.key)?.get_mut();
        match (node, position) {
            (DeValue::Table(table), None) => Some(table),
            (DeValue::Array(list), Some(i)) => as_table(list.get_mut(i)?),
            _ => None,
        }
    }

    /// A value that must be a table.
    fn table(&mut self, node: Node<'a>, heading: &str) -> Option<DeTable<'a>> {
        let at = node.span().start;
        match node.into_inner() {
            DeValue::Table(table) => Some(table),
            _ => {
                self.fault(at, format!("“{heading}” is a table"), Some(format!("write [{heading}]")));
                None
            }
        }
    }

    fn backed(&mut self, around: &Backed, table: &DeTable<'a>) -> Backed {
        let mut slips = Vec::new();
        let inner = around.inner(table, &mut slips);
        self.slips(slips);
        inner
    }

    /// Lays a table of changes over a thing or a part of one.
    fn patch(
        &mut self,
        target: &Target,
        spec: &Spec,
        table: &mut DeTable<'a>,
        inside: &Inside,
        patch: DeTable<'a>,
        around: &Backed,
    ) {
        let backed = self.backed(around, &patch);
        for (key, value) in patch {
            let word = key.get_ref().clone().into_owned();
            if WORDS.contains(&word.as_str()) {
                continue;
            }
            let inside = inside.to(&word);
            if let Some(why) = spec.fixed(&word) {
                let what = format!("“{}” of {} stays as it is", inside.key, target.words());
                self.fault(key.span().start, what, Some(why.to_owned()));
            } else if let Some(parts) = spec.parts(&word) {
                self.patch_parts(target, parts, table, &inside, value, &backed);
            } else if spec.maps.contains(&word.as_str()) {
                self.patch_map(target, spec, table, (key, value), &inside, &backed);
            } else {
                if let Some(other) = spec.either.and_then(|pair| other_of(pair, &word)) {
                    table.remove(other);
                }
                self.set(target, table, (key, value), &inside, &backed);
                follow(table, spec, &word, &backed);
            }
        }
    }

    /// Entries of a table that are set one by one.
    fn patch_map(
        &mut self,
        target: &Target,
        spec: &Spec,
        table: &mut DeTable<'a>,
        (key, value): (Key<'a>, Node<'a>),
        inside: &Inside,
        around: &Backed,
    ) {
        let (word, span) = (key.get_ref().clone().into_owned(), value.span());
        let Some(entries) = self.table(value, &format!("{}.{}", target.heading(), inside.key)) else {
            return;
        };
        let backed = self.backed(around, &entries);
        if let Some(other) = spec.either.and_then(|pair| other_of(pair, &word)) {
            table.remove(other);
        }
        let mut map = table
            .remove_entry(word.as_str())
            .unwrap_or_else(|| (key, Node::new(span, DeValue::Table(DeTable::new()))));
        if let Some(map) = as_table(&mut map.1) {
            for (key, value) in entries.into_iter().filter(|(k, _)| !WORDS.contains(&k.get_ref().as_ref())) {
                let inside = inside.to(key.get_ref());
                self.set(target, map, (key, value), &inside, &backed);
            }
        }
        table.insert(map.0, map.1);
        if spec.basis(&word).is_some_and(|place| missing(table, place)) {
            follow(table, spec, &word, &backed);
        }
    }

    /// Parts of a list, addressed by what they name; one that is not there yet is added.
    fn patch_parts(
        &mut self,
        target: &Target,
        parts: &Parts,
        table: &mut DeTable<'a>,
        inside: &Inside,
        value: Node<'a>,
        around: &Backed,
    ) {
        let heading = format!("{}.{}", target.heading(), inside.key);
        let span = value.span();
        if value.get_ref().as_array().is_some() {
            let names = parts.named_by.iter().map(|n| n.to_uppercase()).collect::<Vec<_>>().join(".");
            let what = format!("“{}” of {} is changed part by part", inside.key, target.words());
            return self.fault(span.start, what, Some(format!("write [{heading}.{names}]")));
        }
        let mut named = vec![(Vec::<Key<'a>>::new(), value, around.clone())];
        for _ in parts.named_by {
            let mut next = Vec::new();
            for (names, value, around) in named {
                let Some(entries) = self.table(value, &heading) else { continue };
                let inner = self.backed(&around, &entries);
                for (key, value) in
                    entries.into_iter().filter(|(k, _)| !WORDS.contains(&k.get_ref().as_ref()))
                {
                    next.push(([names.clone(), vec![key]].concat(), value, inner.clone()));
                }
            }
            named = next;
        }
        let mut list = match table.remove_entry(parts.key) {
            Some((key, node)) => (key, node),
            None => {
                (Key::new(span.clone(), parts.key.into()), Node::new(span, DeValue::Array(DeArray::new())))
            }
        };
        if let DeValue::Array(list) = list.1.get_mut() {
            for (names, value, around) in named {
                let names_joined: Vec<&str> = names.iter().map(|n| n.get_ref().as_ref()).collect();
                let key = format!("{}.{}", inside.key, names_joined.join("."));
                let Some(patch) = self.table(value, &format!("{}.{key}", target.heading())) else { continue };
                let is_it = |node: &Node<'_>| {
                    let part = node.get_ref().as_table();
                    parts.named_by.iter().zip(&names).all(|(by, name)| {
                        let own = part.and_then(|p| p.get(*by)).and_then(|v| v.get_ref().as_str());
                        own == Some(name.get_ref().as_ref())
                    })
                };
                let position = list.iter().position(is_it);
                let position = position.unwrap_or_else(|| {
                    list.push(part_named(parts, &names));
                    list.len() - 1
                });
                let inside = Inside { key, at: inside.at.to(position) };
                if let Some(part) = list.get_mut(position).and_then(as_table) {
                    self.patch(target, &parts.spec, part, &inside, patch, &around);
                }
            }
        }
        table.insert(list.0, list.1);
    }

    /// Sets one key, and notes what it was and what stands behind the change.
    fn set(
        &mut self,
        target: &Target,
        table: &mut DeTable<'a>,
        (key, value): (Key<'a>, Node<'a>),
        inside: &Inside,
        backed: &Backed,
    ) {
        let at = key.span().start;
        if !self.once(format!("“{}” of {}", inside.key, target.words()), at) {
            return;
        }
        let backing = &backed.backing;
        if backing.reason.is_empty() {
            let what = format!("“{}” of {} is changed without a reason", inside.key, target.words());
            self.fault(at, what, Some("write reason = \"…\" beside it, or at the head of the file".into()));
        }
        match backing.basis {
            None if has_number(&value) => {
                let what = format!("the number “{}” of {} has no basis", inside.key, target.words());
                let mend = "write basis = \"firm\" or \"judgment\" beside it, or at the head of the file";
                self.fault(at, what, Some(mend.into()));
            }
            Some(basis) if needs_source(basis) && backing.sources.is_empty() => {
                let what = format!(
                    "“{}” of {} claims a published basis and names no source",
                    inside.key,
                    target.words()
                );
                self.fault(at, what, Some("add sources = [\"…\"], or say firm or judgment".into()));
            }
            _ => {}
        }
        let named = backing.sources.iter().cloned().zip(backed.sources_at.iter().copied());
        self.laid.sources.extend(named);
        self.laid.marks.push((inside.at.clone(), at));
        self.laid.changes.push(Change {
            kind: target.kind.word.to_owned(),
            id: target.id.clone(),
            key: inside.key.clone(),
            old: table.get(key.get_ref().as_ref()).map(shown),
            new: shown(&value),
            backing: backing.clone(),
            place: self.place(at),
        });
        // Taken out first: a table keeps the key it has, and with it the place where that was written.
        table.remove(key.get_ref().as_ref());
        table.insert(key, value);
    }
}

fn other_of(pair: [&'static str; 2], key: &str) -> Option<&'static str> {
    let [a, b] = pair;
    if key == a { Some(b) } else { (key == b).then_some(a) }
}

fn as_table<'x, 'a>(node: &'x mut Node<'a>) -> Option<&'x mut DeTable<'a>> {
    match node.get_mut() {
        DeValue::Table(table) => Some(table),
        _ => None,
    }
}

/// A part of a list that holds its names and nothing else yet.
fn part_named<'a>(parts: &Parts, names: &[Key<'a>]) -> Node<'a> {
    let named = parts.named_by.iter().zip(names);
    let table: DeTable<'a> = named
        .map(|(by, name)| {
            let span = name.span();
            (Key::new(span.clone(), (*by).into()), Node::new(span, DeValue::String(name.get_ref().clone())))
        })
        .collect();
    Node::new(names.first().map(toml::Spanned::span).unwrap_or_default(), DeValue::Table(table))
}

/// True when no basis is written at a place of a thing.
fn missing(table: &DeTable<'_>, place: &str) -> bool {
    match place.split_once('.') {
        None => !table.contains_key(place),
        Some((outer, inner)) => {
            table.get(outer).and_then(|v| v.get_ref().as_table()).is_none_or(|t| !t.contains_key(inner))
        }
    }
}

/// Lets the basis and the sources of a thing follow from those of a change.
fn follow<'a>(table: &mut DeTable<'a>, spec: &Spec, key: &str, backed: &Backed) {
    let (Some(place), Some(basis)) = (spec.basis(key), backed.backing.basis) else { return };
    let span = backed.basis_at..backed.basis_at;
    let word = Node::new(span.clone(), DeValue::String(basis.word().into()));
    match place.split_once('.') {
        None => {
            table.remove(place);
            table.insert(Key::new(span.clone(), place.into()), word);
        }
        Some((outer, inner)) => {
            if let Some(DeValue::Table(bases)) = table.get_mut(outer).map(|v| v.get_mut()) {
                bases.remove(inner);
                bases.insert(Key::new(span.clone(), inner.into()), word);
            }
        }
    }
    let Some(place) = spec.sources else { return };
    for (id, at) in backed.backing.sources.iter().zip(&backed.sources_at) {
        if place == "source" {
            let id = Node::new(*at..*at, DeValue::String(id.clone().into()));
            table.remove(place);
            table.insert(Key::new(span.clone(), place.into()), id);
            return;
        }
        let id = Node::new(*at..*at, DeValue::String(id.clone().into()));
        match table.get_mut(place).map(|v| v.get_mut()) {
            Some(DeValue::Array(list)) => {
                if !list.iter().any(|s| s.get_ref().as_str() == id.get_ref().as_str()) {
                    list.push(id);
                }
            }
            _ => {
                let list = DeValue::Array([id].into_iter().collect());
                table.insert(Key::new(span.clone(), place.into()), Node::new(span.clone(), list));
            }
        }
    }
}
