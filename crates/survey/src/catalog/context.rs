//! Context: facts about the house that move base odds, each read from one item.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::condition::Basis;
use super::predicate::Answers;
use crate::log::Value;

/// A context factor.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Factor {
    /// Id.
    pub id: String,
    /// Words shown.
    pub name: String,
    /// Item it is read from.
    pub item: String,
    /// Its levels, in order.
    pub levels: Vec<Level>,
    /// Its shares once another factor is known.
    pub given: Option<Given>,
    /// Basis of the shares.
    pub basis: Basis,
    /// Published source of the shares.
    pub source: Option<String>,
    /// Remark.
    pub note: Option<String>,
}

/// One level of a factor.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Level {
    /// Id.
    pub id: String,
    /// First year, for eras; open below without it.
    pub from: Option<i64>,
    /// Last year, for eras; open above without it.
    pub to: Option<i64>,
    /// Answers that mean this level, for choices.
    #[serde(default)]
    pub answers: Vec<String>,
    /// Share of houses when nothing was answered.
    pub prior: f64,
}

impl Level {
    /// True for the level of an era factor that holds the year.
    pub fn holds_year(&self, year: i64) -> bool {
        self.from.is_none_or(|from| year >= from) && self.to.is_none_or(|to| year <= to)
    }
}

/// Shares of a factor given another.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Given {
    /// The other factor.
    pub factor: String,
    /// Shares for each of its levels.
    pub when: Vec<GivenLevel>,
}

/// Shares given one level of another factor.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GivenLevel {
    /// Level of the other factor.
    pub level: String,
    /// Shares by own level.
    pub priors: BTreeMap<String, f64>,
    /// True where shares of 0 and 1 are meant.
    #[serde(default)]
    pub certain: bool,
}

impl Factor {
    /// The level the answers show, or `None`. An era is read from a whole year.
    pub fn level(&self, answers: &dyn Answers) -> Option<&str> {
        match answers.value(&self.item)? {
            Value::Choice(option) => {
                self.levels.iter().find(|l| l.answers.contains(option)).map(|l| l.id.as_str())
            }
            Value::Number(year) => self.band_of_year(year.milli.div_euclid(1000)),
            _ => None,
        }
    }
    /// The era band that holds a year; `None` for factors that are not eras.
    pub fn band_of_year(&self, year: i64) -> Option<&str> {
        let dated = self.levels.iter().filter(|l| l.from.is_some() || l.to.is_some());
        dated.into_iter().find(|l| l.holds_year(year)).map(|l| l.id.as_str())
    }
}
