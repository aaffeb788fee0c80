//! What tests of this crate share.

#![allow(clippy::unwrap_used, reason = "helpers of tests may stop the test")]

use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec::Vec;

use survey::Said;
use survey::catalog::{Catalog, builtin};

#[path = "../tests/all/english.rs"]
mod read;

pub(crate) use read::{English, EnglishList};

use crate::calculation::Calculation;
use crate::given::Given;
use crate::sheet::Sheet;

/// The catalog that ships.
pub(crate) fn catalog() -> Catalog {
    builtin().unwrap()
}

/// What is said, in English.
pub(crate) fn english(said: impl Into<Said>) -> String {
    said.into().en()
}

/// Runs a calculation on written answers.
pub(crate) fn run_words(calculation: &Calculation, answers: &[(&str, &str)], catalog: &Catalog) -> Sheet {
    let answers: Vec<_> = answers.iter().map(|(n, t)| ((*n).to_owned(), (*t).to_owned())).collect();
    (calculation.run)(&Given::read(calculation.fields, &answers).unwrap(), catalog).unwrap()
}
