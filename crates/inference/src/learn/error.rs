//! Why nothing was learned.

use alloc::string::String;
use core::fmt;

use crate::{InferError, NetworkError};

/// What stands in the way of learning. Records are counted from 1 in messages, from 0 in fields.
#[derive(Debug, Clone, PartialEq)]
pub enum LearnError {
    /// A record that the network cannot answer for: impossible, not fitting, or too large.
    Record {
        /// The first record of its kind, by place in the list.
        record: usize,
        /// What is wrong with it.
        cause: InferError,
    },
    /// A weight, strength or pseudo-count that is negative, infinite or not a number.
    Amount {
        /// What it is, with its place.
        what: String,
        /// The number.
        value: f64,
    },
    /// Two networks that should have the same nodes, states and parents.
    Shape {
        /// The first node that differs.
        node: String,
    },
    /// A family kept factored: it has no cells to count in.
    Factored {
        /// The first such node.
        node: String,
    },
    /// A row that the node does not have.
    NoRow {
        /// The node's number.
        node: usize,
        /// The row, counted from 0.
        row: usize,
    },
    /// A learned table that is no table, as from weights beyond all measure.
    Table(NetworkError),
    /// The log posterior fell by more than rounding explains: a fault of this program.
    Fell {
        /// After how many maximisations.
        iteration: usize,
        /// Log posterior before it, natural logarithm.
        before: f64,
        /// Log posterior after it.
        after: f64,
    },
}

impl fmt::Display for LearnError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Record { record, cause } => write!(f, "record {}: {cause}", record + 1),
            Self::Amount { what, value } => {
                write!(f, "{what} is {value}; it must be finite and not negative")
            }
            Self::Shape { node } => write!(
                f,
                "the networks differ at node \"{node}\"; they need the same nodes, states and parents in the \
                 same order"
            ),
            Self::Factored { node } => write!(
                f,
                "node \"{node}\" is kept factored and has no table to count in; write the network out with \
                 `Network::tabled` and learn from that"
            ),
            Self::NoRow { node, row } => {
                write!(f, "node number {node} has no row {row} (rows count from 0); name a row it has")
            }
            Self::Table(cause) => write!(f, "what was learned is no table: {cause}"),
            Self::Fell { iteration, before, after } => write!(
                f,
                "the log posterior fell from {before} to {after} at iteration {iteration}, which must never \
                 happen; nothing learned may be used"
            ),
        }
    }
}

impl core::error::Error for LearnError {}
