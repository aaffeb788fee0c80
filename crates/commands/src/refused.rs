//! What a screen is told when something cannot be done: kind, message and how to mend it.

use serde::Serialize;
use words::Words;

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

impl Refused {
    /// An error in a language.
    pub fn new(error: &actions::Error, words: &Words) -> Self {
        Self { kind: error.kind_word(), message: error.say(words), hint: error.say_hint(words) }
    }
}
