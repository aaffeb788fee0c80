//! What the program says, in English and Spanish, and how it writes numbers, money and dates.
//!
//! One set of Fluent files in `words/` serves this crate and the screens. What the catalog says in English stays in
//! the catalog, which a firm edits; its Spanish lies in `words/es/catalog-*.ftl` under ids made from the catalog's own
//! ids ([`catalog`]). A text without a translation is said in the catalog's English, and [`Words::untranslated`]
//! lists it.
//!
//! Pure: the files are inside the program, the language is handed in.

pub mod catalog;
mod figures;
mod files;
mod language;
mod pseudo;
mod say;

pub use catalog::CatalogWords;
pub use figures::{date, minutes, money, number, percent, round_money, when, whole_money};
pub use files::{File, files};
pub use language::Language;
pub use say::{FileFault, Words};
pub use survey::said::{Message, Phrase, Said, Said as Arg};
pub use survey::{msg, say};
