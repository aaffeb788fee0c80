//! Reading the Fluent files as their syntax, and the sources of the project.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use words::{File, Language, files};

/// The project's folder.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// A message as its file has it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Written {
    /// File it stands in.
    pub(crate) file: String,
    /// Its text, every variant one after the other, places as `{$name}` and other messages as `{id}`.
    pub(crate) text: String,
    /// Names of its places.
    pub(crate) places: BTreeSet<String>,
    /// Other messages in it.
    pub(crate) references: BTreeSet<String>,
}

/// Every message of a language; a text that does not parse or an id that comes twice fails.
pub(crate) fn messages(language: Language) -> BTreeMap<String, Written> {
    let mut all = BTreeMap::new();
    for File { name, text, .. } in files(language) {
        let resource = fluent_syntax::parser::parse(*text)
            .unwrap_or_else(|(_, e)| panic!("{language}/{name}.ftl: {e:?}"));
        for entry in resource.body {
            match entry {
                Entry::Message(message) => {
                    assert!(message.attributes.is_empty(), "{}: attributes are not used", message.id.name);
                    let mut written = Written { file: (*name).to_owned(), ..Written::default() };
                    pattern(message.value.as_ref().expect("a message has words"), &mut written);
                    let before = all.insert(message.id.name.to_owned(), written);
                    assert_eq!(before, None, "{language}: {} stands twice", message.id.name);
                }
                Entry::Term(term) => panic!("{}: terms are not used", term.id.name),
                Entry::Junk { content } => panic!("{language}/{name}.ftl: {content}"),
                _ => {}
            }
        }
    }
    all
}

fn pattern(of: &Pattern<&str>, into: &mut Written) {
    for element in &of.elements {
        match element {
            PatternElement::TextElement { value } => into.text.push_str(value),
            PatternElement::Placeable { expression } => placed(expression, into),
        }
    }
}

fn placed(of: &Expression<&str>, into: &mut Written) {
    match of {
        Expression::Inline(inline) => inlined(inline, into, true),
        Expression::Select { selector, variants } => {
            inlined(selector, into, false);
            for variant in variants {
                pattern(&variant.value, into);
                into.text.push('\n');
            }
        }
    }
}

fn inlined(of: &InlineExpression<&str>, into: &mut Written, shown: bool) {
    match of {
        InlineExpression::VariableReference { id } => {
            into.places.insert(id.name.to_owned());
            if shown {
                into.text.push_str(&format!("{{${}}}", id.name));
            }
        }
        InlineExpression::MessageReference { id, attribute: None } => {
            into.references.insert(id.name.to_owned());
            into.text.push_str(&format!("{{{}}}", id.name));
        }
        other => panic!("only places and messages stand in a message: {other:?}"),
    }
}

/// Files of the project with one of these endings below a folder.
pub(crate) fn sources(folder: &str, ends: &[&str]) -> Vec<(String, String)> {
    fn collect(folder: &Path, ends: &[&str], found: &mut Vec<PathBuf>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.is_dir() && !["target", "node_modules", "dist", "out"].contains(&name.as_str()) {
                collect(&path, ends, found);
            } else if path.extension().is_some_and(|e| ends.iter().any(|end| e == *end)) {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    collect(&root().join(folder), ends, &mut found);
    found.sort();
    let read = |path: PathBuf| (path.display().to_string(), std::fs::read_to_string(&path).unwrap());
    found.into_iter().map(read).collect()
}
