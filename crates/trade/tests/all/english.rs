//! What is said, read in English by tests of the crate and beside it.

extern crate alloc;

use alloc::string::String;
use alloc::vec::Vec;

use survey::{Message, Said};
use words::{Language, Words};

/// English of a thing said.
#[allow(dead_code, reason = "not every test that shares this file asks all of it")]
pub(crate) trait English {
    /// The text.
    fn en(&self) -> String;
    /// The text, kept until the test ends, to stand where one is compared.
    fn read(&self) -> &'static str {
        self.en().leak()
    }
    /// Whether the text holds another.
    fn contains(&self, text: &str) -> bool {
        self.en().contains(text)
    }
    /// Whether the text begins so.
    fn starts_with(&self, text: &str) -> bool {
        self.en().starts_with(text)
    }
    /// Whether the text ends so.
    fn ends_with(&self, text: &str) -> bool {
        self.en().ends_with(text)
    }
    /// Whether there is no text.
    fn is_empty(&self) -> bool {
        self.en().is_empty()
    }
}

impl English for Said {
    fn en(&self) -> String {
        Words::of(Language::En).text(self)
    }
}
impl English for &Said {
    fn en(&self) -> String {
        Words::of(Language::En).text(self)
    }
}
impl English for survey::Phrase {
    fn en(&self) -> String {
        Words::of(Language::En).text(&(*self).into())
    }
}
impl English for Message {
    fn en(&self) -> String {
        Words::of(Language::En).say(self)
    }
}
impl English for Option<Said> {
    fn en(&self) -> String {
        self.as_ref().map(English::en).unwrap_or_default()
    }
}

/// English of several things said.
#[allow(dead_code, reason = "not every test that shares this file reads lists")]
pub(crate) trait EnglishList {
    /// The texts.
    fn en_all(&self) -> Vec<String>;
    /// The texts, kept until the test ends.
    fn read_all(&self) -> Vec<&'static str> {
        self.en_all().into_iter().map(|text| &*text.leak()).collect()
    }
    /// The texts with something between.
    fn join(&self, between: &str) -> String {
        self.en_all().join(between)
    }
}

impl EnglishList for [Said] {
    fn en_all(&self) -> Vec<String> {
        self.iter().map(English::en).collect()
    }
}
