//! The end of the walk: demolition was declared, or a declaration was withdrawn.
//!
//! It is declared for the whole house, never for a place. What is seen through a first opening tells of the rest: the
//! same hands built it, the same pipe runs on, and all conditions of a house hang together in one network. Answers about a
//! place that is still closed would know of the one that is open.

use serde::{Deserialize, Serialize};

use crate::EntryId;

/// Demolition was declared: what is seen from here on is a finding, and no entry of the walk counts any more.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Demolition {
    /// A remark: what was opened, and where.
    pub reason: Option<String>,
}

/// Declarations were withdrawn: nothing had been opened. What was recorded meanwhile counts again.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DemolitionWithdrawn {
    /// The entries that declared it.
    pub declared: Vec<EntryId>,
    /// Why.
    pub reason: String,
}
