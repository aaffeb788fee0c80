//! What was found about one condition once the house was open.

use serde::{Deserialize, Serialize};
use survey::units::Money;
use survey::{Digest, Stamp};

/// Outcome of one condition.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// It was there.
    Found,
    /// The place was opened and it was not there.
    NotThere,
    /// The place was never opened: no outcome, never counted as correct.
    NotOpened,
}

impl std::fmt::Display for Outcome {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Found => "found",
            Self::NotThere => "not there",
            Self::NotOpened => "not opened",
        })
    }
}

/// A finding about one condition.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Finding {
    /// Key of the condition ([`survey::Key`]): its id in the catalog, and the place where it is not at the first.
    pub condition: String,
    /// What was found.
    pub outcome: Outcome,
    /// What the work cost in the end.
    pub cost: Money,
    /// Working days it added.
    pub days: f64,
    /// True when it stood in the contract price because the survey or a check had shown it.
    pub priced_before_signing: bool,
    /// Words.
    pub note: String,
    /// Photograph, by digest.
    pub photo: Option<Digest>,
    /// Who entered it.
    pub by: String,
    /// When it was entered.
    pub at: Stamp,
}

/// A finding that cannot be kept.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FindingError {
    /// Money or days on something that was not found.
    #[error("“{condition}” was {outcome} but carries a cost or days; enter it as found, or leave both at 0")]
    CostWithoutFinding {
        /// The condition.
        condition: String,
        /// Its outcome.
        outcome: Outcome,
    },
    /// Money or days out of range.
    #[error(
        "cost {cost} and {days} days for “{condition}” cannot be kept; both must be 0 or more, days at most 1000"
    )]
    OutOfRange {
        /// The condition.
        condition: String,
        /// The cost.
        cost: Money,
        /// The days.
        days: f64,
    },
}

impl Finding {
    /// Checks that cost and days fit the outcome.
    pub fn check(&self) -> Result<(), FindingError> {
        if self.cost < Money::ZERO || self.cost > Money::MAX || !(0.0..=1000.0).contains(&self.days) {
            let condition = self.condition.clone();
            return Err(FindingError::OutOfRange { condition, cost: self.cost, days: self.days });
        }
        if self.outcome != Outcome::Found && (self.cost > Money::ZERO || self.days > 0.0) {
            return Err(FindingError::CostWithoutFinding {
                condition: self.condition.clone(),
                outcome: self.outcome,
            });
        }
        Ok(())
    }
}
