//! One error for all doors: a kind for programs, a message for people, and how to mend it.

use std::fmt;

use words::{Arg, Language, Words, msg};

/// What kind of trouble, for programs: doors map it to exit codes and responses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// What was given cannot be taken.
    Input,
    /// What was named is not there.
    Missing,
    /// It clashes with what stands.
    Conflict,
    /// Something recorded is damaged.
    Damaged,
    /// No room, no rights, or a fault of ours.
    Internal,
}

/// What went wrong, where, and how to mend it.
#[derive(Clone, Debug, PartialEq)]
pub struct Error {
    /// For programs.
    pub kind: Kind,
    /// For people: what and where, before it is known in which language.
    pub message: Arg,
    /// How to mend it.
    pub hint: Option<Arg>,
}

impl Error {
    /// An error without a hint.
    pub fn new(kind: Kind, message: impl Into<Arg>) -> Self {
        Self { kind, message: message.into(), hint: None }
    }
    /// The same with a hint.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<Arg>) -> Self {
        self.hint = Some(hint.into());
        self
    }
    /// What and where, in a language.
    pub fn say(&self, words: &Words) -> String {
        words.text(&self.message)
    }
    /// How to mend it, in a language.
    pub fn say_hint(&self, words: &Words) -> Option<String> {
        self.hint.as_ref().map(|hint| words.text(hint))
    }
    /// What is wrong and how to mend it, one after the other, in a language.
    pub fn say_whole(&self, words: &Words) -> String {
        match self.say_hint(words) {
            Some(hint) => words.say(&msg!("sending-said", message = self.say(words), hint = hint)),
            None => self.say(words),
        }
    }
    /// The kind in one word.
    pub fn kind_word(&self) -> &'static str {
        match self.kind {
            Kind::Input => "input",
            Kind::Missing => "missing",
            Kind::Conflict => "conflict",
            Kind::Damaged => "damaged",
            Kind::Internal => "internal",
        }
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.say(Words::of(Language::En)))
    }
}

impl std::error::Error for Error {}
