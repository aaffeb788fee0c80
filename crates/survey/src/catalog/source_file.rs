//! Files as handed in, read as trees in which every node keeps where it was written.
//!
//! Spans of the catalog's own files count from 0. Spans of overlay files count from beyond the longest of those, each
//! file after the one before: so one number tells in which overlay file a node was written, wherever it has been moved.

use std::borrow::Cow;

use toml::Spanned;

pub(super) use super::faults::{At, Faults};
use toml::de::{DeString, DeTable, DeValue};

/// Marks the overlay's files in faults.
pub const OVERLAY: &str = "overlay/";

/// The table of a whole file.
pub(super) type Tree<'a> = Spanned<DeTable<'a>>;
/// A value with the place where it was written.
pub(super) type Node<'a> = Spanned<DeValue<'a>>;
/// A key with the place where it was written.
pub(super) type Key<'a> = Spanned<DeString<'a>>;

/// One file as handed in.
#[derive(Clone, Debug)]
pub(super) struct Text<'a> {
    /// Name shown in faults.
    pub(super) name: Cow<'a, str>,
    /// What is written in it.
    pub(super) text: &'a str,
    /// Where its spans begin.
    pub(super) start: usize,
}

/// The files of a catalog and those of an overlay, each in order of paths.
#[derive(Clone, Debug)]
pub(super) struct Texts<'a> {
    /// The catalog's own.
    pub(super) base: Vec<Text<'a>>,
    /// The overlay's.
    pub(super) overlay: Vec<Text<'a>>,
}

impl<'a> Texts<'a> {
    /// Takes (path, text) pairs in any order.
    pub(super) fn new(mut base: Vec<(&'a str, &'a str)>, mut overlay: Vec<(&'a str, &'a str)>) -> Self {
        base.sort_unstable();
        overlay.sort_unstable();
        let mut start = base.iter().map(|(_, text)| text.len()).max().unwrap_or(0) + 1;
        let base = base.into_iter().map(|(name, text)| Text { name: name.into(), text, start: 0 }).collect();
        let mut laid = Vec::new();
        for (name, text) in overlay {
            laid.push(Text { name: format!("{OVERLAY}{name}").into(), text, start });
            start += text.len() + 1;
        }
        Self { base, overlay: laid }
    }

    /// Name and line of an offset; `file` is the catalog file it lies in unless it lies in the overlay.
    pub(super) fn line(&self, file: usize, offset: usize) -> (String, u32) {
        let overlay = self.overlay.iter().rev().find(|t| t.start <= offset);
        match overlay.or_else(|| self.base.get(file)) {
            Some(t) => (t.name.clone().into_owned(), line_at(t.text, offset - t.start)),
            None => (String::new(), 0),
        }
    }
}

impl<'a> Text<'a> {
    /// Reads it as a tree. The error is the offset of what is wrong, and what it is.
    pub(super) fn parse(&self) -> Result<Tree<'a>, (usize, String)> {
        match DeTable::parse(self.text) {
            Ok(tree) if self.start == 0 => Ok(tree),
            Ok(tree) => {
                let span = shifted(tree.span(), self.start);
                Ok(Spanned::new(span, shift_table(tree.into_inner(), self.start)))
            }
            Err(e) => Err((self.start + e.span().map_or(0, |s| s.start), e.message().to_owned())),
        }
    }
}

fn shifted(span: core::ops::Range<usize>, by: usize) -> core::ops::Range<usize> {
    span.start + by..span.end + by
}

fn shift_table(table: DeTable<'_>, by: usize) -> DeTable<'_> {
    let entries = table.into_iter();
    entries.map(|(k, v)| (Spanned::new(shifted(k.span(), by), k.into_inner()), shift(v, by))).collect()
}

fn shift(node: Node<'_>, by: usize) -> Node<'_> {
    let span = shifted(node.span(), by);
    let moved = match node.into_inner() {
        DeValue::Array(list) => DeValue::Array(list.into_iter().map(|v| shift(v, by)).collect()),
        DeValue::Table(table) => DeValue::Table(shift_table(table, by)),
        plain => plain,
    };
    Spanned::new(span, moved)
}

/// Line of an offset, from 1.
pub(super) fn line_at(text: &str, offset: usize) -> u32 {
    let before = text.as_bytes().iter().take(offset).filter(|b| **b == b'\n').count();
    u32::try_from(before).unwrap_or(u32::MAX - 1) + 1
}

/// True when something inside a value begins at an offset: the value, a key or a value in it.
pub(super) fn holds(node: &Node<'_>, offset: usize) -> bool {
    node.span().start == offset
        || match node.get_ref() {
            DeValue::Array(list) => list.iter().any(|v| holds(v, offset)),
            DeValue::Table(table) => table.iter().any(|(k, v)| k.span().start == offset || holds(v, offset)),
            _ => false,
        }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_offset_of_the_overlay_tells_its_file_and_line_wherever_the_node_is_moved() {
        let texts = Texts::new(
            vec![("b.toml", "x = 1\n\ny = 2\n"), ("a.toml", "z = 0\n")],
            vec![("two.toml", "\nq = 1\n"), ("one.toml", "p = [1,\n 2]\n")],
        );
        assert_eq!(texts.line(1, 7), ("b.toml".into(), 3));
        let [one, two] = &texts.overlay[..] else { panic!("{texts:?}") };
        let tree = one.parse().unwrap();
        let DeValue::Array(list) = tree.get_ref().get("p").unwrap().get_ref() else { panic!() };
        assert_eq!(texts.line(0, list[1].span().start), ("overlay/one.toml".into(), 2));
        let tree = two.parse().unwrap();
        let at = tree.get_ref().get("q").unwrap().span().start;
        assert_eq!(texts.line(1, at), ("overlay/two.toml".into(), 2));
    }
}
