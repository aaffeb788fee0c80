//! The arguments of the commands.

use actions::{CheckShown, Entered, NewHouse, Sure};
use serde::Deserialize;
use survey::log::CheckOutcome;
use survey::units::Money;

/// No arguments.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Nothing {}

/// One house: its id, the start of it, or its label.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct House {
    pub(crate) survey: String,
}

/// A card of a house; none: where it was left.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Card {
    pub(crate) survey: String,
    pub(crate) key: Option<String>,
}

/// An answer to a card.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub(crate) struct Answer {
    pub(crate) survey: String,
    pub(crate) key: String,
    /// Option ids, a length or a number as written, or "cant-tell".
    #[serde(default)]
    answer: Vec<String>,
    could_not_reach: Option<String>,
    tolerance: Option<String>,
    reason: Option<String>,
    /// A value outside the plausible range is meant.
    #[serde(default)]
    sure: bool,
}

impl Answer {
    pub(crate) fn entered(&self) -> Entered {
        Entered {
            answer: self.answer.clone(),
            could_not_reach: self.could_not_reach.clone(),
            tolerance: self.tolerance.clone(),
            reason: self.reason.clone(),
            sure: self.sure,
        }
    }
}

/// Words about a card.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Remark {
    pub(crate) survey: String,
    pub(crate) key: String,
    pub(crate) text: String,
}

/// A length as typed at a card.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Typed {
    pub(crate) key: String,
    pub(crate) text: String,
}

/// One more place of a station.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct NewPlace {
    pub(crate) survey: String,
    pub(crate) station: String,
    pub(crate) label: String,
}

/// What a look showed.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Shown {
    pub(crate) survey: String,
    pub(crate) check: String,
    shown: Vec<OneShown>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OneShown {
    condition: String,
    result: CheckOutcome,
}

impl Shown {
    pub(crate) fn list(&self) -> Vec<CheckShown> {
        let one = |s: &OneShown| CheckShown { condition: s.condition.clone(), result: s.result };
        self.shown.iter().map(one).collect()
    }
}

/// A house to start.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub(crate) struct Start {
    label: String,
    #[serde(default)]
    year: String,
    /// The year is right within so many years; 0 when it is known, none when nobody knows.
    within: Option<u32>,
    contract_cents: Option<i64>,
    contract_days: Option<u32>,
    #[serde(default)]
    planned: Vec<String>,
    by: Option<String>,
}

impl Start {
    pub(crate) fn house(self) -> NewHouse {
        NewHouse {
            label: self.label,
            year: self.year,
            sure: match self.within {
                Some(0) => Sure::Known,
                Some(years) => Sure::Within(years),
                None => Sure::NoIdea,
            },
            contract: self.contract_cents.map(Money::from_cents),
            contract_days: self.contract_days,
            planned: self.planned,
            by: self.by.filter(|by| !by.trim().is_empty()),
        }
    }
}
