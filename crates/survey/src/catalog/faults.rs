//! Places inside the documents of a catalog, and the faults found there.

use std::borrow::Cow;
use std::cell::OnceCell;
use std::rc::Rc;

use serde::de::DeserializeOwned;
use toml::Deserializer;
use toml::de::{DeArray, DeValue};

use super::error::Fault;
use super::overlay::{Doc, documents};
use super::source_file::{Node, Texts, Tree, holds};
use super::suggest;

/// A place: a document, and the keys and positions that lead there.
#[derive(Clone, Debug)]
pub(super) struct At {
    /// Index of the document.
    pub(super) doc: usize,
    last: Option<Rc<Link>>,
}

#[derive(Debug)]
struct Link {
    up: Option<Rc<Link>>,
    step: Step,
}

/// One step further in.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum Step {
    /// A key, or keys joined by dots.
    Key(Cow<'static, str>),
    /// A position in a list.
    Index(usize),
}

impl From<&'static str> for Step {
    fn from(key: &'static str) -> Self {
        Self::Key(key.into())
    }
}
impl From<String> for Step {
    fn from(key: String) -> Self {
        Self::Key(key.into())
    }
}
impl From<&String> for Step {
    fn from(key: &String) -> Self {
        Self::Key(key.clone().into())
    }
}
impl From<usize> for Step {
    fn from(position: usize) -> Self {
        Self::Index(position)
    }
}

impl At {
    /// The whole document.
    pub(super) fn new(doc: usize) -> Self {
        Self { doc, last: None }
    }
    /// One step further in.
    pub(super) fn to(&self, step: impl Into<Step>) -> Self {
        Self { doc: self.doc, last: Some(Rc::new(Link { up: self.last.clone(), step: step.into() })) }
    }
    /// The steps from the document inwards.
    pub(super) fn steps(&self) -> Vec<Step> {
        let mut steps = Vec::new();
        let mut link = self.last.as_deref();
        while let Some(l) = link {
            match &l.step {
                Step::Key(keys) if keys.contains('.') => {
                    steps.extend(keys.rsplit('.').map(|k| Step::Key(k.to_owned().into())));
                }
                step => steps.push(step.clone()),
            }
            link = l.up.as_deref();
        }
        steps.reverse();
        steps
    }
}

/// A fault, and the place it was found at if it was found at one.
pub(super) struct Found {
    pub(super) fault: Fault,
    pub(super) at: Option<At>,
}

/// Collects faults.
pub(super) struct Faults<'a> {
    texts: &'a Texts<'a>,
    docs: OnceCell<Vec<Doc<'a>>>,
    pub(super) list: Vec<Found>,
}

impl<'a> Faults<'a> {
    pub(super) fn new(texts: &'a Texts<'a>) -> Self {
        Self { texts, docs: OnceCell::new(), list: Vec::new() }
    }

    /// The documents as they were before they were read. Made anew, because reading takes them apart and faults are rare.
    fn docs(&self) -> &[Doc<'a>] {
        self.docs.get_or_init(|| documents(self.texts, &mut Vec::new()).0)
    }

    /// Records a fault at a place.
    pub(super) fn add(&mut self, at: &At, what: impl Into<String>, mend: Option<String>) {
        let offset = self.docs().get(at.doc).map(|d| (d.file, offset_of(&d.tree, &at.steps())));
        let (file, line) = offset.map_or_else(Default::default, |(file, o)| self.texts.line(file, o));
        self.list.push(Found { fault: Fault { file, line, what: what.into(), mend }, at: Some(at.clone()) });
    }

    /// Records a fault at an offset of the overlay.
    pub(super) fn at_offset(&mut self, offset: usize, what: String, mend: Option<String>) {
        let (file, line) = self.texts.line(usize::MAX, offset);
        self.list.push(Found { fault: Fault { file, line, what, mend }, at: None });
    }

    /// Records a fault about a whole file, or one that is not there.
    pub(super) fn file(&mut self, file: &str, what: impl Into<String>, mend: Option<String>) {
        let fault = Fault { file: file.to_owned(), line: 0, what: what.into(), mend };
        self.list.push(Found { fault, at: None });
    }

    /// Reads one document; a fault for each part of it that does not fit instead of `None`.
    pub(super) fn read<T: DeserializeOwned>(&mut self, doc: usize, tree: Tree<'_>) -> Option<T> {
        let mut error = match T::deserialize(Deserializer::from(tree)) {
            Ok(value) => return Some(value),
            Err(error) => error,
        };
        let mut rest = self.docs().get(doc).map(|d| (d.file, d.tree.clone()))?;
        loop {
            let message = error.message().lines().collect::<Vec<_>>().join(" ");
            let offset = error.span().map_or(0, |span| span.start);
            let mend = unknown_word(&message);
            let (file, line) = self.texts.line(rest.0, offset);
            let fault = Fault { file, line, what: message, mend };
            self.list.push(Found { fault, at: Some(At::new(doc)) });
            // Once more without the part that is broken, so that all faults come at once.
            if !without(&mut rest.1, offset) {
                return None;
            }
            match T::deserialize(Deserializer::from(rest.1.clone())) {
                Ok(_) => return None,
                Err(next) => error = next,
            }
        }
    }

    /// Checks that an id is one of the known ones.
    pub(super) fn known<'k>(
        &mut self,
        at: &At,
        kind: &str,
        id: &str,
        known: impl IntoIterator<Item = &'k str> + Clone,
    ) -> bool {
        if known.clone().into_iter().any(|k| k == id) {
            return true;
        }
        self.add(at, format!("there is no {kind} “{id}”"), suggest::mend(id, known));
        false
    }
}

/// Takes out the part of a list at the top of a document in which something begins at an offset.
fn without(tree: &mut Tree<'_>, offset: usize) -> bool {
    for (_, value) in tree.get_mut().iter_mut() {
        if let DeValue::Array(list) = value.get_mut()
            && let Some(bad) = list.iter().position(|v| holds(v, offset))
        {
            let mut parts: Vec<Node<'_>> = core::mem::replace(list, DeArray::new()).into_iter().collect();
            parts.remove(bad);
            *list = parts.into_iter().collect::<DeArray<'_>>();
            return true;
        }
    }
    false
}

/// For "unknown field `x`, expected one of `a`, `b`": the nearest of the words expected.
pub(super) fn unknown_word(message: &str) -> Option<String> {
    let words: Vec<&str> = message.split('`').skip(1).step_by(2).collect();
    let (written, known) = words.split_first()?;
    (message.starts_with("unknown ")).then(|| suggest::mend(written, known.iter().copied()))?
}

/// Where the last step begins that can be followed.
fn offset_of(tree: &Tree<'_>, steps: &[Step]) -> usize {
    let mut offset = tree.span().start;
    let mut steps = steps.iter();
    let step = |value: Option<&Node<'_>>, offset: &mut usize| {
        if let Some(v) = value {
            *offset = v.span().start;
        }
    };
    let Some(Step::Key(first)) = steps.next() else { return offset };
    let mut node = tree.get_ref().get(first.as_ref());
    step(node, &mut offset);
    for next in steps {
        node = match (node.map(|n| n.get_ref()), next) {
            (Some(DeValue::Array(list)), Step::Index(i)) => list.get(*i),
            (Some(DeValue::Table(table)), Step::Key(key)) => table.get(key.as_ref()),
            _ => None,
        };
        if node.is_none() {
            break;
        }
        step(node, &mut offset);
    }
    offset
}

#[cfg(test)]
mod tests {
    use super::super::source_file::{Text, line_at};
    use super::*;

    #[test]
    fn a_path_leads_to_its_line_and_a_broken_path_to_the_last_step_found() {
        let text =
            "a = 1\n\n[[c]]\nid = \"x\"\n\n[[c]]\nid = \"y\"\nlist = [\n  { k = 1 },\n  { k = 2 },\n]\n";
        let tree = Text { name: "f".into(), text, start: 0 }.parse().unwrap();
        let top = At::new(0);
        let second = top.to("c").to(1);
        for (at, line) in [
            (top.to("a"), 1),
            (second.to("id"), 7),
            (second.clone(), 6),
            (second.to("list").to(1).to("k"), 10),
            (second.to("list").to(1).to("zzz"), 10),
            (top.clone(), 1),
        ] {
            assert_eq!(line_at(text, offset_of(&tree, &at.steps())), line, "{at:?}");
        }
        assert_eq!(top.to("a.b").to(0).steps(), [Step::from("a"), Step::from("b"), Step::from(0)]);
    }
}
