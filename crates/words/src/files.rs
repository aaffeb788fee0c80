//! The Fluent files inside the program.

use crate::Language;

/// One file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct File {
    /// Folder, "en" or "es".
    pub folder: &'static str,
    /// Name without ending.
    pub name: &'static str,
    /// Its text.
    pub text: &'static str,
}

macro_rules! list {
    ($folder:literal: $($name:literal),* $(,)?) => {
        &[$(File {
            folder: $folder,
            name: $name,
            text: include_str!(concat!("../../../words/", $folder, "/", $name, ".ftl")),
        }),*]
    };
}

const EN: &[File] = list![
    "en":
    "answers", "drawing", "errors", "help", "lines", "office-door", "office-screens", "pages", "photographs",
    "screens", "store", "trade-drainage",
    "trade-electrical", "trade-fields", "trade-framing", "trade-gas", "trade-lights", "trade-openings",
    "trade-outages", "trade-sheet", "trade-sink-drain", "trade-takeoff", "trade-trap-arm", "units",
];
const ES: &[File] = list![
    "es":
    "answers", "catalog-checks", "catalog-clues", "catalog-codes", "catalog-conditions", "catalog-house",
    "catalog-people", "catalog-walk", "drawing", "errors", "help", "lines", "office-door", "office-screens", "pages",
    "photographs", "screens", "store", "trade-drainage", "trade-electrical", "trade-fields", "trade-framing", "trade-gas", "trade-lights",
    "trade-openings", "trade-outages", "trade-sheet", "trade-sink-drain", "trade-takeoff", "trade-trap-arm",
    "units",
];

/// The files of a language, in order of name.
pub const fn files(language: Language) -> &'static [File] {
    match language {
        Language::En | Language::Qps => EN,
        Language::Es => ES,
    }
}
