//! After demolition: what was found, held against the frozen forecast, and honest scores.
//!
//! Reads forecasts, never edits one, and never touches a log. No HTTP, no SQL.

mod compare;
mod differences;
pub mod factor;
mod finding;
pub mod learn;
mod misled;
pub mod record;
pub mod scores;

pub use compare::{Comparison, FALSE_ALARM_FROM, MISSED_BELOW, MoneyCheck, Row, Scores, compare};
pub use differences::{Difference, differences};
pub use finding::{Finding, FindingError, Outcome, PaidBy};
pub use misled::misled;
