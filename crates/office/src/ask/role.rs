//! What somebody may do; each may what those before may.

use serde::{Deserialize, Serialize};

/// A role at the office.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Reads.
    Estimator,
    /// Receives packets.
    Office,
    /// Enters findings.
    Reviewer,
    /// Everything, people too.
    Owner,
}
