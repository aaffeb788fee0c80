//! What a screen is told when something cannot be done: kind, message and how to mend it.

use serde::Serialize;

/// An error of an action in the form the screens read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Refused {
    /// For programs: input, missing, conflict, damaged, internal.
    pub kind: &'static str,
    /// For people: what and where.
    pub message: String,
    /// How to mend it.
    pub hint: Option<String>,
}

impl From<actions::Error> for Refused {
    fn from(error: actions::Error) -> Self {
        Self { kind: error.kind_word(), message: error.message, hint: error.hint }
    }
}
