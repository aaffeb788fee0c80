//! What the tests of these rooms share.

use std::sync::LazyLock;

use serde_json::Value;
use survey::catalog::{Catalog, builtin};
use survey::units::Length;
use trade::given::Given;
use trade::tolerance::Reading;
use trade::{Sheet, find};

/// The catalog that ships.
pub(crate) static CATALOG: LazyLock<Catalog> = LazyLock::new(|| builtin().unwrap());

/// A calculation on written answers.
pub(crate) fn answer(word: &str, answers: &[(&str, &str)]) -> Sheet {
    let calculation = find(word).unwrap();
    let answers: Vec<_> = answers.iter().map(|(n, t)| ((*n).to_owned(), (*t).to_owned())).collect();
    (calculation.run)(&Given::read(calculation.fields, &answers).unwrap(), &CATALOG).unwrap()
}

/// Value and "±" of a drawn case, inches.
pub(crate) fn reading(value: &Value) -> Reading {
    let inches = |n: usize| Length::from_inches(value[n].as_f64().unwrap()).unwrap();
    Reading { value: inches(0), tolerance: Some(inches(1)) }
}
