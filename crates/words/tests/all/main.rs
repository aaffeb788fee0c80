//! What is held of the words: whole in both languages, used, consistent, and written as the screens write them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod figures;
mod glossary;
mod lengths;
mod saying;
mod support;
mod used;
mod whole;
