//! Clues: what an answer says, common causes, and checks that find out more.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::condition::{Basis, Three, ThreeMoney};
use super::predicate::{Answers, Bound, Chosen, Compare, Predicate, chosen, compare, states_nothing};

/// What an answer says about concealed conditions.
#[derive(Clone, PartialEq, Debug)]
pub struct Clue {
    /// Id.
    pub id: String,
    /// Words shown.
    pub words: String,
    /// Item it is read from.
    pub item: String,
    /// When it is true.
    pub true_when: TrueWhen,
    /// The threshold by plumbing code ("upc", "ipc", "irc"), where codes differ.
    pub by_code: BTreeMap<String, Bound>,
    /// Options that hide what it asks for: neither true nor false.
    pub neutral_on: Vec<String>,
    /// Certainly true: a false reading is hidden.
    pub neutral_if: Option<Predicate>,
    /// Common cause; clues that share one are not independent.
    pub cause: Option<String>,
    /// It speaks against its conditions (a clear laboratory paper).
    pub lowers: bool,
    /// Basis of a threshold.
    pub basis: Basis,
    /// Published sources of a threshold.
    pub sources: Vec<String>,
    /// Remark.
    pub note: Option<String>,
}

/// When a clue is true.
#[derive(Clone, PartialEq, Debug)]
pub enum TrueWhen {
    /// The single answer is one of these.
    In(Vec<String>),
    /// The answers hold one of these.
    Has(Vec<String>),
    /// A number or length compared.
    Compare(Compare, Bound),
}

impl Clue {
    /// True, false, or no evidence (`None`): unanswered, "can't tell", not done, or hidden.
    pub fn state(&self, answers: &dyn Answers) -> Option<bool> {
        let value = answers.value(&self.item)?;
        let found = match (&self.true_when, chosen(value)) {
            (TrueWhen::Compare(how, bound), _) => compare(value, *how, *bound)?,
            (TrueWhen::In(wanted) | TrueWhen::Has(wanted), Some(Chosen::One(option))) => {
                if wanted.iter().any(|w| w == option) {
                    return Some(true);
                }
                if states_nothing(option) || self.neutral_on.iter().any(|n| n == option) {
                    return None;
                }
                false
            }
            (TrueWhen::In(wanted) | TrueWhen::Has(wanted), Some(Chosen::Several(options))) => {
                if options.iter().any(|o| wanted.contains(o)) {
                    return Some(true);
                }
                let hides = |o: &String| states_nothing(o) || self.neutral_on.contains(o);
                if options.is_empty() || options.iter().any(hides) {
                    return None;
                }
                false
            }
            (_, None) => return None,
        };
        if !found && self.neutral_if.as_ref().is_some_and(|p| p.holds(answers) == Some(true)) {
            return None;
        }
        Some(found)
    }
}

/// A common cause of several clues or conditions.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cause {
    /// Id.
    pub id: String,
    /// Words.
    pub words: String,
}

/// What a check, made once, tells of where a house has several of a kind.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Serves {
    /// One place: each soffit is knocked on by itself.
    #[default]
    Place,
    /// Every place of the house: one way down to the basement shows what lies under all walls.
    House,
}

/// A way to find out more.
#[derive(Clone, PartialEq, Debug)]
pub struct Check {
    /// Id.
    pub id: String,
    /// Words shown.
    pub name: String,
    /// 0 look, 1 touch or instrument, 2 removes a part or a licensed cover, 3 pinhole, 4 small opening, 5 reserved.
    pub invasive: u8,
    /// Minutes: low, likely, high.
    pub minutes: Three,
    /// Cost: low, likely, high.
    pub cost: ThreeMoney,
    /// Who does it.
    pub who: String,
    /// What one time of it tells of, where a house has several of a kind.
    pub serves: Serves,
    /// Remark.
    pub note: Option<String>,
    /// Certainly true: not offered. Unknown: asked before it is offered.
    pub blocked_if: Vec<Predicate>,
    /// What is asked before it is offered; any yes blocks it.
    pub not_while: Vec<String>,
    /// Basis of minutes and cost.
    pub basis: Basis,
    /// Published sources by id.
    pub sources: Vec<String>,
}
