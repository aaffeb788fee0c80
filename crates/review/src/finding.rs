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

/// Who bore a cost that was found. What stood in the price itself needs no word of it: [`Finding::priced_before_signing`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PaidBy {
    /// The firm.
    Absorbed,
    /// An allowance of the contract.
    Allowance,
    /// The client, by a change order.
    ChangeOrder,
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
    /// Who bore the cost; left out of the record where nobody said, so that findings entered before keep their bytes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paid_by: Option<PaidBy>,
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
    /// Somebody paid for something that was not found.
    #[error("“{condition}” was {outcome}, so nobody paid for it; enter it as found, or leave out who paid")]
    PaidWithoutFinding {
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
    /// Checks that cost, days and who paid fit the outcome.
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
        if self.outcome != Outcome::Found && self.paid_by.is_some() {
            return Err(FindingError::PaidWithoutFinding {
                condition: self.condition.clone(),
                outcome: self.outcome,
            });
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found() -> Finding {
        Finding {
            condition: "lead-paint".into(),
            outcome: Outcome::Found,
            cost: Money::from_dollars(300),
            days: 0.5,
            priced_before_signing: false,
            paid_by: None,
            note: String::new(),
            photo: None,
            by: "R. Ames".into(),
            at: "2026-04-14T09:10:00-05:00".parse().unwrap(),
        }
    }

    #[test]
    fn a_finding_entered_before_anybody_said_who_paid_is_read_and_keeps_its_bytes() {
        let text = serde_json::to_string(&found()).unwrap();
        assert!(!text.contains("paid_by"), "{text}");
        let read: Finding = serde_json::from_str(&text).unwrap();
        assert_eq!((read.paid_by, serde_json::to_string(&read).unwrap()), (None, text));
        for (paid_by, word) in [
            (PaidBy::Absorbed, "absorbed"),
            (PaidBy::Allowance, "allowance"),
            (PaidBy::ChangeOrder, "change-order"),
        ] {
            let said = Finding { paid_by: Some(paid_by), ..found() };
            let text = serde_json::to_string(&said).unwrap();
            assert!(text.contains(&format!("\"paid_by\":\"{word}\"")), "{text}");
            assert_eq!(serde_json::from_str::<Finding>(&text).unwrap(), said);
        }
    }

    #[test]
    fn nobody_paid_for_what_was_not_found() {
        assert_eq!(Finding { paid_by: Some(PaidBy::Absorbed), ..found() }.check(), Ok(()));
        for outcome in [Outcome::NotThere, Outcome::NotOpened] {
            let paid = Finding {
                outcome,
                cost: Money::ZERO,
                days: 0.0,
                paid_by: Some(PaidBy::Allowance),
                ..found()
            };
            assert!(matches!(paid.check(), Err(FindingError::PaidWithoutFinding { .. })), "{outcome}");
            assert_eq!(Finding { paid_by: None, ..paid }.check(), Ok(()));
        }
    }
}
