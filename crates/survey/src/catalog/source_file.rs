//! Files as handed in, and the line of a value inside one.

use serde::de::DeserializeOwned;
use toml::de::{DeTable, DeValue};

use super::error::Fault;
use super::suggest;

/// Collects faults against files handed in.
pub(super) struct Faults<'a> {
    files: &'a [(String, String)],
    pub(super) list: Vec<Fault>,
}

/// A place in a file: file index, path of keys and array positions joined by dots.
#[derive(Clone)]
pub(super) struct At {
    file: usize,
    path: String,
}

impl At {
    pub(super) fn new(file: usize) -> Self {
        Self { file, path: String::new() }
    }
    /// One step further in: a key or a position.
    pub(super) fn to(&self, step: impl core::fmt::Display) -> Self {
        let dot = if self.path.is_empty() { "" } else { "." };
        Self { file: self.file, path: format!("{}{dot}{step}", self.path) }
    }
}

impl<'a> Faults<'a> {
    pub(super) fn new(files: &'a [(String, String)]) -> Self {
        Self { files, list: Vec::new() }
    }

    /// Records a fault at a place.
    pub(super) fn add(&mut self, at: &At, what: impl Into<String>, mend: Option<String>) {
        let (file, text) = &self.files[at.file];
        let line = line_of_path(text, &at.path).unwrap_or(1);
        self.list.push(Fault { file: file.clone(), line, what: what.into(), mend });
    }

    /// Records a fault about a whole file, or one that is not there.
    pub(super) fn file(&mut self, file: &str, what: impl Into<String>, mend: Option<String>) {
        self.list.push(Fault { file: file.to_owned(), line: 0, what: what.into(), mend });
    }

    /// Reads one file; a fault instead of `None` is recorded.
    pub(super) fn parse<T: DeserializeOwned>(&mut self, index: usize) -> Option<T> {
        let (file, text) = &self.files[index];
        match toml::from_str::<T>(text) {
            Ok(value) => Some(value),
            Err(error) => {
                let line = error.span().map_or(1, |span| line_at(text, span.start));
                let message = error.message().lines().collect::<Vec<_>>().join(" ");
                let mend = unknown_word(&message);
                self.list.push(Fault { file: file.clone(), line, what: message, mend });
                None
            }
        }
    }

    /// Checks that an id is one of the known ones.
    pub(super) fn known<'k>(
        &mut self,
        at: &At,
        kind: &str,
        id: &str,
        known: impl IntoIterator<Item = &'k str>,
    ) -> bool {
        let known: Vec<&str> = known.into_iter().collect();
        if known.contains(&id) {
            return true;
        }
        self.add(at, format!("there is no {kind} “{id}”"), suggest::mend(id, known));
        false
    }
}

/// For "unknown field `x`, expected one of `a`, `b`": the nearest of the words expected.
fn unknown_word(message: &str) -> Option<String> {
    let words: Vec<&str> = message.split('`').skip(1).step_by(2).collect();
    let (written, known) = words.split_first()?;
    (message.starts_with("unknown ")).then(|| suggest::mend(written, known.iter().copied()))?
}

fn line_at(text: &str, offset: usize) -> u32 {
    let before = text.as_bytes().iter().take(offset).filter(|b| **b == b'\n').count();
    u32::try_from(before).unwrap_or(u32::MAX - 1) + 1
}

fn line_of_path(text: &str, path: &str) -> Option<u32> {
    let table = DeTable::parse(text).ok()?;
    let mut offset = table.span().start;
    let root = DeValue::Table(table.into_inner());
    let mut value = &root;
    for step in path.split('.').filter(|s| !s.is_empty()) {
        let found = match value {
            DeValue::Array(_) => step.parse::<usize>().ok().and_then(|i| value.get(i)),
            DeValue::Table(_) => value.get(step),
            _ => None,
        };
        let Some(next) = found else { break };
        offset = next.span().start;
        value = next.get_ref();
    }
    Some(line_at(text, offset))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_leads_to_its_line_and_a_broken_path_to_the_last_step_found() {
        let text =
            "a = 1\n\n[[c]]\nid = \"x\"\n\n[[c]]\nid = \"y\"\nlist = [\n  { k = 1 },\n  { k = 2 },\n]\n";
        for (path, line) in [("a", 1), ("c.1.id", 7), ("c.1.list.1.k", 10), ("c.1.list.1.zzz", 10), ("", 1)] {
            assert_eq!(line_of_path(text, path), Some(line), "{path}");
        }
    }
}
