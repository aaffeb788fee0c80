//! Rooms stay rooms: a source file above 800 lines needs a written reason.

use std::path::{Path, PathBuf};

use crate::support::root;

/// Files that may be longer, each with its reason.
const LONGER: [(&str, &str); 0] = [];
const LIMIT: usize = 800;

pub fn sources(folder: &Path, ends: &[&str], found: &mut Vec<PathBuf>) {
    const SKIPPED: [&str; 6] = ["target", "node_modules", "dist", ".git", "demo-made", ".venv"];
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() && !SKIPPED.contains(&name.as_str()) {
            sources(&path, ends, found);
        } else if path.extension().is_some_and(|e| ends.iter().any(|end| e == *end)) {
            found.push(path);
        }
    }
}

#[test]
fn no_source_file_is_a_hall() {
    let mut found = Vec::new();
    sources(&root(), &["rs", "ts", "svelte", "py"], &mut found);
    assert!(found.len() > 50);
    for path in found {
        let lines = std::fs::read_to_string(&path).unwrap().lines().count();
        let name = path.strip_prefix(root()).unwrap().to_string_lossy().into_owned();
        assert!(lines <= LIMIT || LONGER.iter().any(|(n, _)| *n == name), "{name} has {lines} lines");
    }
}
