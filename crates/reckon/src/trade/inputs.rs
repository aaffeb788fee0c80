//! The inputs of one case; every look-up names what is missing.

use serde_json::{Value, json};
use survey::catalog::{Book, Family, Shelf};

use super::Answer;
use super::english;

/// The inputs of one case, and the code books to answer from.
pub(super) struct Inputs<'a> {
    value: &'a Value,
    shelf: &'a Shelf,
}

impl<'a> Inputs<'a> {
    pub(super) fn new(value: &'a Value, shelf: &'a Shelf) -> Self {
        Self { value, shelf }
    }
    /// Inputs inside an object of this case.
    pub(super) fn nested(&self, key: &str) -> Result<Self, String> {
        Ok(Self { value: self.get(key)?, shelf: self.shelf })
    }
    pub(super) fn get(&self, key: &str) -> Result<&'a Value, String> {
        self.value.get(key).ok_or_else(|| format!("input “{key}” is missing"))
    }
    pub(super) fn has(&self, key: &str) -> bool {
        self.value.get(key).is_some_and(|v| !v.is_null())
    }
    pub(super) fn number(&self, key: &str) -> Result<f64, String> {
        let value = self.get(key)?.as_f64().filter(|n| n.is_finite());
        value.ok_or_else(|| format!("input “{key}” is not a finite number"))
    }
    /// A number, or another where it is absent.
    pub(super) fn number_or(&self, key: &str, absent: f64) -> Result<f64, String> {
        if self.has(key) { self.number(key) } else { Ok(absent) }
    }
    /// A whole number that is not negative.
    pub(super) fn count(&self, key: &str) -> Result<u32, String> {
        let whole = self.get(key)?.as_u64().and_then(|n| u32::try_from(n).ok());
        whole.ok_or_else(|| format!("input “{key}” is not a count"))
    }
    /// Yes or no.
    pub(super) fn yes(&self, key: &str) -> Result<bool, String> {
        self.get(key)?.as_bool().ok_or_else(|| format!("input “{key}” is neither true nor false"))
    }
    /// Yes or no; no where it is absent.
    pub(super) fn yes_or_no(&self, key: &str) -> Result<bool, String> {
        if self.has(key) { self.yes(key) } else { Ok(false) }
    }
    /// A list of finite numbers.
    pub(super) fn numbers(&self, key: &str) -> Result<Vec<f64>, String> {
        let not_numbers = || format!("input “{key}” is not a list of finite numbers");
        let list = self.get(key)?.as_array().ok_or_else(not_numbers)?;
        list.iter().map(|v| v.as_f64().filter(|n| n.is_finite()).ok_or_else(not_numbers)).collect()
    }
    /// A list of texts.
    pub(super) fn texts(&self, key: &str) -> Result<Vec<&'a str>, String> {
        let not_texts = || format!("input “{key}” is not a list of texts");
        let list = self.get(key)?.as_array().ok_or_else(not_texts)?;
        list.iter().map(|v| v.as_str().ok_or_else(not_texts)).collect()
    }
    pub(super) fn text(&self, key: &str) -> Result<&'a str, String> {
        self.get(key)?.as_str().ok_or_else(|| format!("input “{key}” is not a text"))
    }
    /// A word that `parse` knows.
    pub(super) fn word<T>(
        &self,
        key: &str,
        parse: impl Fn(&str) -> Option<T>,
        known: &str,
    ) -> Result<T, String> {
        let word = self.text(key)?;
        let short = || word.chars().take(60).collect::<String>();
        parse(word).ok_or_else(|| format!("“{}” is no {key} this knows; known are {known}", short()))
    }
    /// The plumbing book that the input `code` means.
    pub(super) fn code(&self) -> Result<&'a Book, String> {
        ::trade::limits::plumbing_book(self.shelf, self.text("code")?).map_err(english)
    }
    /// The one book of a family, or the firm's choice, or the first.
    pub(super) fn book(&self, family: Family) -> Result<&'a Book, String> {
        let books = ::trade::cite::books(self.shelf, family).map_err(english)?;
        books.0.first().copied().ok_or_else(|| format!("there is no code book for {}", family.word()))
    }
    /// A book by id.
    pub(super) fn book_by_id(&self, id: &str) -> Result<&'a Book, String> {
        self.shelf.book(id).ok_or_else(|| format!("there is no code book “{id}”"))
    }
}

/// A number, if it stayed finite.
pub(super) fn number(value: f64) -> Answer {
    if value.is_finite() { Ok(json!(value)) } else { Err("the result is too large for a number".to_owned()) }
}

/// A text, or why there is none.
pub(super) fn text(result: Result<String, ::trade::TradeError>) -> Answer {
    result.map(Value::String).map_err(english)
}
