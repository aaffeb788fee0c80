//! Adding things.

use toml::de::{DeArray, DeTable, DeValue};

use super::super::source_file::{Key, Node, Tree};
use super::super::suggest;
use super::Added;
use super::backing::Backed;
use super::kinds::{Home, Kind};
use super::lay::{Doc, Layer, id_of};

impl<'a> Layer<'_, 'a> {
    /// Adds the things of one kind that one file lists.
    pub(super) fn add_all(&mut self, kind: &'static Kind, node: Node<'a>, head: &Backed) {
        let at = node.span().start;
        let DeValue::Array(list) = node.into_inner() else {
            let mend = format!("write [[{0}]] to add one, [change.{0}.ID] to change one", kind.word);
            return self.fault(at, format!("“{}” is a list of things to add", kind.word), Some(mend));
        };
        for node in list {
            let span = node.span();
            let DeValue::Table(mut thing) = node.into_inner() else {
                self.fault(
                    span.start,
                    format!("a {} is a table", kind.word),
                    Some(format!("write [[{}]]", kind.word)),
                );
                continue;
            };
            let id = id_of(&thing).map_or_else(|| joined(&thing), str::to_owned);
            if kind.basis_at_head
                && !thing.contains_key("basis")
                && let Some(basis) = head.backing.basis
            {
                let at = head.basis_at..head.basis_at;
                thing.insert(
                    Key::new(at.clone(), "basis".into()),
                    Node::new(at, DeValue::String(basis.word().into())),
                );
            }
            if kind.basis_at_head && !thing.contains_key("basis") {
                let mend = "write basis = \"judgment\" or \"firm\" in it, or at the head of the file";
                self.fault(span.start, format!("the {} “{id}” has no basis", kind.word), Some(mend.into()));
            }
            let placed = match kind.word {
                "condition" => self.add_condition(thing, span.clone()),
                "item" => self.add_item(thing, span.clone()),
                _ => self.add_thing(kind, thing, span.clone()),
            };
            if placed {
                let added = Added { kind: kind.word.to_owned(), id, place: self.place(span.start) };
                self.laid.added.push(added);
            }
        }
    }

    fn add_thing(&mut self, kind: &'static Kind, thing: DeTable<'a>, span: core::ops::Range<usize>) -> bool {
        let doc = match kind.home {
            Home::List(file) | Home::Table(file) => self.docs.iter().position(|d| d.path == file),
            Home::Lists(folder) | Home::Tables(folder) => {
                self.docs.iter().position(|d| d.path.starts_with(folder))
            }
            Home::Files(folder) => {
                let path = format!("{folder}added-{}.toml", self.docs.len());
                self.docs.push(Doc { path, file: usize::MAX, tree: Tree::new(span, thing), broken: false });
                return true;
            }
        };
        // Without its file the catalog has a fault of its own, which is told.
        let Some(doc) = doc else { return false };
        push(&mut self.docs[doc], kind.key, Node::new(span, DeValue::Table(thing)), None);
        true
    }

    /// A condition says its group, and stands with it.
    fn add_condition(&mut self, mut thing: DeTable<'a>, span: core::ops::Range<usize>) -> bool {
        let Some((key, group)) = thing.remove_entry("group") else {
            let mend = "write group = \"…\", one of the groups in catalog.toml or one of your own";
            self.fault(span.start, "a condition that is added says its group", Some(mend.into()));
            return false;
        };
        let same = |doc: &Doc<'_>| {
            let own = doc.tree.get_ref().get("group").and_then(|g| g.get_ref().as_str());
            doc.path.starts_with("conditions/") && own.is_some() && own == group.get_ref().as_str()
        };
        let node = Node::new(span.clone(), DeValue::Table(thing));
        if let Some(doc) = self.docs.iter().position(same) {
            push(&mut self.docs[doc], "condition", node, None);
            return true;
        }
        let path = format!("conditions/added-{}.toml", self.docs.len());
        let tree = Tree::new(span, [(key, group)].into_iter().collect());
        let mut doc = Doc { path, file: usize::MAX, tree, broken: false };
        push(&mut doc, "condition", node, None);
        self.docs.push(doc);
        true
    }

    /// A question says its station, and after which question it is asked; otherwise it is asked last there.
    fn add_item(&mut self, mut thing: DeTable<'a>, span: core::ops::Range<usize>) -> bool {
        let stations: Vec<(usize, String)> = self
            .docs
            .iter()
            .enumerate()
            .filter(|(_, doc)| doc.path.starts_with("walk/"))
            .filter_map(|(n, doc)| {
                let station = doc.tree.get_ref().get("station")?.get_ref().as_table()?;
                Some((n, id_of(station)?.to_owned()))
            })
            .collect();
        let known = stations.iter().map(|(_, id)| id.as_str());
        let Some(station) = thing.remove("station") else {
            let mend = suggest::mend("", known);
            self.fault(span.start, "a question that is added says its station", mend);
            return false;
        };
        let word = station.get_ref().as_str().unwrap_or_default();
        let Some((doc, _)) = stations.iter().find(|(_, id)| id == word) else {
            self.fault(
                station.span().start,
                format!("there is no station “{word}”"),
                suggest::mend(word, known),
            );
            return false;
        };
        let doc = *doc;
        let after = thing.remove("after");
        let node = Node::new(span, DeValue::Table(thing));
        let Some(after) = after else {
            push(&mut self.docs[doc], "item", node, None);
            return true;
        };
        let word = after.get_ref().as_str().unwrap_or_default();
        let list = self.docs[doc].tree.get_ref().get("item").and_then(|v| v.get_ref().as_array());
        let ids: Vec<&str> =
            list.into_iter().flat_map(|l| l.iter()).filter_map(|v| id_of(v.get_ref().as_table()?)).collect();
        let Some(position) = ids.iter().position(|id| *id == word) else {
            let mend = suggest::mend(word, ids);
            self.fault(after.span().start, format!("there is no question “{word}” at this station"), mend);
            return false;
        };
        push(&mut self.docs[doc], "item", node, Some(position + 1));
        true
    }
}

/// Puts a thing into a list of a document: at a position, or last.
fn push<'a>(doc: &mut Doc<'a>, key: &'static str, node: Node<'a>, position: Option<usize>) {
    let span = node.span();
    let table = doc.tree.get_mut();
    if let Some(DeValue::Array(list)) = table.get_mut(key).map(|v| v.get_mut()) {
        let mut parts: Vec<Node<'a>> = core::mem::replace(list, DeArray::new()).into_iter().collect();
        parts.insert(position.unwrap_or(parts.len()).min(parts.len()), node);
        *list = parts.into_iter().collect::<DeArray<'a>>();
    } else {
        let list = DeValue::Array([node].into_iter().collect());
        table.insert(Key::new(span.clone(), key.into()), Node::new(span, list));
    }
}

/// What a relation joins, in place of an id.
fn joined(thing: &DeTable<'_>) -> String {
    let words = ["pair", "if", "then", "condition"].iter().filter_map(|k| thing.get(*k));
    let words = words.flat_map(|v| match v.get_ref() {
        DeValue::Array(list) => list.iter().filter_map(|w| w.get_ref().as_str()).collect(),
        one => one.as_str().into_iter().collect::<Vec<_>>(),
    });
    words.collect::<Vec<_>>().join(" and ")
}
