//! Conditions on answers: one grammar for skipping, promoting, applying, hiding and blocking.
//!
//! Three-valued: an item that is unanswered, "can't tell" or out of reach makes a test unknown (`None`), never false.
//! So an unknown skip rule does not skip, and an unknown scope rule keeps its condition.
//!
//! A rule that reads from outside an item asked at each of several places looks at all of them: see [`Test::over`].

use std::collections::{BTreeMap, BTreeSet};

use crate::log::Value;
use crate::units::Length;

/// Where answers are looked up.
pub trait Answers {
    /// The settled value of an item; `None` when nobody answered or answers disagree.
    fn value(&self, item: &str) -> Option<&Value>;
    /// The settled value at each place where the item is asked; one entry unless there are several such places and
    /// the rule that reads it belongs to none of them. Never empty.
    fn each(&self, item: &str) -> Vec<Option<&Value>> {
        vec![self.value(item)]
    }
}

impl Answers for BTreeMap<String, Value> {
    fn value(&self, item: &str) -> Option<&Value> {
        self.get(item)
    }
}

/// Option ids by which an answer says that it says nothing about the house.
pub const NO_STATEMENT: [&str; 4] = ["cant-tell", "cant-see", "not-done", "not-opened"];
/// Option ids that mean the same as [`Value::CantTell`].
pub const UNSURE: [&str; 2] = ["cant-tell", "cant-see"];

/// A condition on answers.
#[derive(Clone, PartialEq, Debug)]
pub enum Predicate {
    /// True when one is; unknown when none is and one is unknown.
    Any(Vec<Predicate>),
    /// False when one is; unknown when none is and one is unknown.
    All(Vec<Predicate>),
    /// The opposite; unknown stays unknown.
    Not(Box<Predicate>),
    /// One test of one item.
    Item {
        /// The item.
        item: String,
        /// The test.
        test: Test,
    },
}

/// One test of one item's answer.
#[derive(Clone, PartialEq, Debug)]
pub enum Test {
    /// The single answer is one of these.
    In(Vec<String>),
    /// The single answer is none of these.
    NotIn(Vec<String>),
    /// The answers hold at least one of these.
    Has(Vec<String>),
    /// The answers hold none of these.
    Lacks(Vec<String>),
    /// A number or length compared.
    Compare(Compare, Bound),
    /// The item is unanswered or "can't tell" (`true`), or is answered (`false`).
    Unknown(bool),
}

/// How a number is compared.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Compare {
    /// At least.
    Gte,
    /// At most.
    Lte,
    /// More than.
    Gt,
    /// Less than.
    Lt,
}

/// A threshold in the unit of its item, exact.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Bound {
    /// A length.
    Length(Length),
    /// Thousandths of the item's unit.
    Milli(i64),
}

impl Compare {
    fn holds<T: Ord>(self, a: &T, b: &T) -> bool {
        match self {
            Self::Gte => a >= b,
            Self::Lte => a <= b,
            Self::Gt => a > b,
            Self::Lt => a < b,
        }
    }
}

/// Compares an answer with a threshold; `None` when it is not that kind of number.
pub(super) fn compare(value: &Value, how: Compare, bound: Bound) -> Option<bool> {
    match (value, bound) {
        (Value::Length(length), Bound::Length(limit)) => Some(how.holds(length, &limit)),
        (Value::Number(number), Bound::Milli(limit)) => Some(how.holds(&number.milli, &limit)),
        _ => None,
    }
}

/// An answer as option ids; `None` for numbers, words and what states nothing at all.
pub(super) enum Chosen<'a> {
    One(&'a str),
    Several(&'a [String]),
}

pub(super) fn chosen(value: &Value) -> Option<Chosen<'_>> {
    match value {
        Value::Choice(option) => Some(Chosen::One(option)),
        Value::Choices(options) => Some(Chosen::Several(options)),
        Value::CantTell => Some(Chosen::One(UNSURE[0])),
        _ => None,
    }
}

pub(super) fn states_nothing(option: &str) -> bool {
    NO_STATEMENT.contains(&option)
}

fn among(options: &[String], wanted: &[String]) -> bool {
    options.iter().any(|o| wanted.contains(o))
}

impl Predicate {
    /// True, false, or unknown (`None`).
    pub fn holds(&self, answers: &dyn Answers) -> Option<bool> {
        match self {
            Self::Any(parts) => {
                let mut result = Some(false);
                for part in parts {
                    match part.holds(answers) {
                        Some(true) => return Some(true),
                        None => result = None,
                        Some(false) => {}
                    }
                }
                result
            }
            Self::All(parts) => {
                let mut result = Some(true);
                for part in parts {
                    match part.holds(answers) {
                        Some(false) => return Some(false),
                        None => result = None,
                        Some(true) => {}
                    }
                }
                result
            }
            Self::Not(part) => part.holds(answers).map(|b| !b),
            Self::Item { item, test } => test.over(&answers.each(item)),
        }
    }

    /// The items it reads, sorted.
    pub fn items(&self) -> BTreeSet<&str> {
        match self {
            Self::Any(parts) | Self::All(parts) => parts.iter().flat_map(Self::items).collect(),
            Self::Not(part) => part.items(),
            Self::Item { item, .. } => BTreeSet::from([item.as_str()]),
        }
    }
}

impl Test {
    /// The test of an item over several places. What asks for something (`in`, `has`, the comparisons,
    /// `unknown = false`) is true when it is true at one of them, and false only when it is false at all. What asks
    /// for its absence (`not-in`, `lacks`, `unknown = true`) is true only when it is true at all of them. Otherwise
    /// unknown.
    pub fn over(&self, values: &[Option<&Value>]) -> Option<bool> {
        let asks_absence = matches!(self, Self::NotIn(_) | Self::Lacks(_) | Self::Unknown(true));
        let mut result = Some(asks_absence);
        for value in values {
            match self.holds(*value) {
                Some(holds) if holds != asks_absence => return Some(holds),
                None => result = None,
                Some(_) => {}
            }
        }
        result
    }
    /// The test of one answer; `value` is `None` when there is none.
    pub fn holds(&self, value: Option<&Value>) -> Option<bool> {
        if let Self::Unknown(wanted) = self {
            return Some(is_unknown(value) == *wanted);
        }
        let value = value?;
        if let Self::Compare(how, bound) = self {
            return compare(value, *how, *bound);
        }
        match chosen(value)? {
            Chosen::Several(options) => self.holds_for_several(options),
            // "Can't tell" of a multiple choice is a list of that one option.
            Chosen::One(option) if matches!(self, Self::Has(_) | Self::Lacks(_)) => {
                self.holds_for_several(&[option.to_owned()])
            }
            Chosen::One(option) => match self {
                Self::In(wanted) if wanted.iter().any(|w| w == option) => Some(true),
                _ if states_nothing(option) => None,
                Self::In(_) => Some(false),
                Self::NotIn(unwanted) => Some(!unwanted.iter().any(|w| w == option)),
                _ => None,
            },
        }
    }

    fn holds_for_several(&self, options: &[String]) -> Option<bool> {
        let nothing = !options.is_empty() && options.iter().all(|o| states_nothing(o));
        match self {
            Self::Has(wanted) if among(options, wanted) => Some(true),
            Self::Lacks(unwanted) if among(options, unwanted) => Some(false),
            Self::Has(_) | Self::Lacks(_) if nothing => None,
            Self::Has(_) => Some(false),
            Self::Lacks(_) => Some(true),
            Self::In(wanted) => Some(among(options, wanted)),
            Self::NotIn(unwanted) => Some(!among(options, unwanted)),
            Self::Compare(..) | Self::Unknown(_) => None,
        }
    }
}

fn is_unknown(value: Option<&Value>) -> bool {
    match value {
        None | Some(Value::CantTell | Value::CouldNotReach(_) | Value::Withdrawn) => true,
        Some(Value::Choice(option)) => UNSURE.contains(&option.as_str()),
        Some(Value::Choices(options)) => options.iter().all(|o| UNSURE.contains(&o.as_str())),
        Some(_) => false,
    }
}

#[cfg(test)]
#[path = "predicate_tests.rs"]
mod tests;
