//! By what a record is split.

use serde::Serialize;

use super::house::{JudgedCondition, JudgedHouse};

/// By what a record is split.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum By {
    /// Condition of the catalog, places taken together. Sums of a house do not split that way and are left out.
    Condition,
    /// Era by the year built.
    Era,
    /// Job planned. A house with several stands in several groups.
    Scope,
    /// Who recorded answers. A house walked by several stands in several groups.
    Surveyor,
    /// Month in which the forecast was frozen, by the clock of the device.
    Month,
}

impl By {
    /// True where a house belongs to groups as a whole.
    pub const fn is_of_houses(self) -> bool {
        !matches!(self, Self::Condition)
    }

    /// The groups a condition of a house belongs to. An empty name: not known.
    pub(crate) fn groups<'a>(
        self,
        house: &'a JudgedHouse,
        condition: Option<&'a JudgedCondition>,
    ) -> Vec<String> {
        let several = |list: &[String]| if list.is_empty() { vec![String::new()] } else { list.to_vec() };
        match self {
            Self::Condition => condition.map(|c| c.id.clone()).into_iter().collect(),
            Self::Era => vec![house.known.era.clone().unwrap_or_default()],
            Self::Scope => several(&house.known.scope),
            Self::Surveyor => several(&house.known.surveyors),
            // A stamp is written 2026-01-15T…: the month is its first seven letters.
            Self::Month => vec![house.made_at.to_string().chars().take(7).collect()],
        }
    }
}
