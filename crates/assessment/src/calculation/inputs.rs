//! From answers of the walk to what a calculation asks.

use std::cell::RefCell;

use survey::catalog::Catalog;
use survey::log::Value;
use survey::model::At;
use survey::{Phrase, Said};
use trade::Assumed;
use trade::tolerance::Reading;

/// Answers gathered for one calculation.
pub(super) struct Inputs<'a> {
    pub(super) catalog: &'a Catalog,
    /// The answers as the place it is worked out for sees them.
    pub(super) here: At<'a>,
    pub(super) answers: Vec<(String, String)>,
    pub(super) lengths: Vec<(&'static str, Reading)>,
    /// What stands in for something nobody recorded.
    pub(super) assumed: Vec<Assumed>,
    /// What else to know.
    pub(super) notes: Vec<Said>,
    /// Why nothing can be said, what is missing, and who decides: where a part of the answers would mislead.
    pub(super) cannot_say: Option<(Phrase, Vec<Said>, Phrase)>,
    /// The answers show that the calculation has no object here.
    pub(super) beside_the_point: bool,
    /// Questions of the walk that were looked at, in that order, answered or not.
    asked: RefCell<Vec<String>>,
}

impl<'a> Inputs<'a> {
    pub(super) fn new(catalog: &'a Catalog, here: At<'a>) -> Self {
        Self {
            catalog,
            here,
            answers: Vec::new(),
            lengths: Vec::new(),
            assumed: Vec::new(),
            notes: Vec::new(),
            cannot_say: None,
            beside_the_point: false,
            asked: RefCell::new(Vec::new()),
        }
    }
    /// Notes that a question of the walk bears on the calculation.
    pub(super) fn asks(&self, item: &str) {
        let mut asked = self.asked.borrow_mut();
        if !asked.iter().any(|known| known == item) {
            asked.push(item.to_owned());
        }
    }
    /// Every question of the walk that was looked at.
    pub(super) fn asked(&self) -> Vec<String> {
        self.asked.borrow().clone()
    }
    /// The option chosen.
    pub(super) fn choice(&self, item: &str) -> Option<&'a str> {
        self.asks(item);
        match self.here.value(item) {
            Some(Value::Choice(option)) => Some(option),
            _ => None,
        }
    }
    /// The options ticked; none if nobody answered.
    pub(super) fn ticked(&self, item: &str) -> &'a [String] {
        self.asks(item);
        match self.here.value(item) {
            Some(Value::Choices(options)) => options,
            _ => &[],
        }
    }
    /// Whether an option is ticked.
    pub(super) fn has(&self, item: &str, option: &str) -> bool {
        self.ticked(item).iter().any(|o| o == option)
    }
    /// The number entered.
    pub(super) fn number(&self, item: &str) -> Option<f64> {
        self.asks(item);
        match self.here.value(item) {
            Some(Value::Number(quantity)) => Some(quantity.get()),
            _ => None,
        }
    }
    /// A text under a field.
    pub(super) fn put(&mut self, field: &str, text: impl Into<String>) {
        self.answers.push((field.to_owned(), text.into()));
    }
    /// A measured length with its tolerance, as it stands in the log.
    pub(super) fn length(&mut self, field: &'static str, item: &str) {
        self.asks(item);
        if let Some(answer) = self.here.answer(item)
            && let Value::Length(value) = answer.value
        {
            self.lengths.push((field, Reading { value, tolerance: answer.tolerance }));
        }
    }
    /// A choice translated by (option, word) pairs; an option without a word is left out.
    pub(super) fn word(&mut self, field: &str, item: &str, words: &[(&str, &str)]) {
        let chosen = self.choice(item);
        if let Some((_, word)) = chosen.and_then(|c| words.iter().find(|(option, _)| *option == c)) {
            self.put(field, *word);
        }
    }
    /// A choice whose options are the words.
    pub(super) fn same_word(&mut self, field: &str, item: &str) {
        if let Some(option) = self.choice(item).filter(|o| !survey::catalog::NO_STATEMENT.contains(o)) {
            self.put(field, option);
        }
    }
}
