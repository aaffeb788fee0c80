//! What can be wrong with a network, and why a question cannot be answered.

use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

use crate::NodeId;

/// A network that may not be built, said with the node's name and how to mend it.
#[derive(Debug, Clone, PartialEq)]
pub enum NetworkError {
    /// Two nodes carry one name.
    DuplicateNode {
        /// The name used twice.
        name: String,
    },
    /// A node without states, or with more than 65,535.
    StateCount {
        /// The node.
        node: String,
        /// How many states it has.
        states: u64,
    },
    /// Two states of one node carry one name.
    DuplicateState {
        /// The node.
        node: String,
        /// The state named twice.
        state: String,
    },
    /// A node number that this builder never gave out.
    UnknownNode {
        /// The number.
        id: u64,
    },
    /// A node named twice among one node's parents, or as its own parent.
    BadParent {
        /// The child.
        node: String,
        /// The parent named wrongly.
        parent: String,
    },
    /// A second table for one node.
    TableTwice {
        /// The node.
        node: String,
    },
    /// A node without a table.
    NoTable {
        /// The node.
        node: String,
    },
    /// A table with too few or too many numbers.
    TableSize {
        /// The node.
        node: String,
        /// Product of the parents' state counts and the node's own.
        expected: u64,
        /// Numbers given.
        got: u64,
    },
    /// A number that is no probability: negative, infinite or not a number.
    BadEntry {
        /// The node.
        node: String,
        /// Which row, counted from 1, with the parents' states in words.
        row: String,
        /// The number.
        value: f64,
    },
    /// A row that does not sum to 1 within 1e-6.
    RowSum {
        /// The node.
        node: String,
        /// Which row, counted from 1, with the parents' states in words.
        row: String,
        /// What it sums to.
        sum: f64,
    },
    /// A node in a noisy-OR that does not have exactly two states.
    NotTwoStates {
        /// The node.
        node: String,
        /// How many states it has.
        states: u64,
    },
    /// The arrows run in a circle.
    Cycle {
        /// The nodes of one circle, each the parent of the next, the last of the first.
        nodes: Vec<String>,
    },
}

impl fmt::Display for NetworkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::DuplicateNode { name } => {
                write!(f, "two nodes are named \"{name}\"; give each node its own name")
            }
            Self::StateCount { node, states } => {
                write!(f, "node \"{node}\" has {states} states; it needs between 1 and 65535")
            }
            Self::DuplicateState { node, state } => {
                write!(f, "node \"{node}\" has two states named \"{state}\"; give each state its own name")
            }
            Self::UnknownNode { id } => {
                write!(f, "node number {id} is not in this network; add the node first")
            }
            Self::BadParent { node, parent } => {
                write!(
                    f,
                    "node \"{node}\" names \"{parent}\" as a parent twice, or itself; name each parent once"
                )
            }
            Self::TableTwice { node } => {
                write!(f, "node \"{node}\" is given a second probability table; keep one of them")
            }
            Self::NoTable { node } => write!(f, "node \"{node}\" has no probability table; add one"),
            Self::TableSize { node, expected, got } => write!(
                f,
                "the table of node \"{node}\" has {got} numbers and needs {expected}: \
                 one row per combination of its parents' states, one number per own state"
            ),
            Self::BadEntry { node, row, value } => write!(
                f,
                "the table of node \"{node}\", {row}, holds {value}; a probability lies between 0 and 1"
            ),
            Self::RowSum { node, row, sum } => {
                write!(
                    f,
                    "the table of node \"{node}\", {row}, sums to {sum}; a row must sum to 1 within 1e-6"
                )
            }
            Self::NotTwoStates { node, states } => write!(
                f,
                "node \"{node}\" has {states} states; a noisy-OR takes nodes of two, a noisy-MAX any number"
            ),
            Self::Cycle { nodes } => {
                write!(f, "the arrows run in a circle: ")?;
                for name in nodes {
                    write!(f, "\"{name}\" -> ")?;
                }
                write!(f, "\"{}\"; turn or drop one arrow", nodes.first().map_or("", String::as_str))
            }
        }
    }
}

impl core::error::Error for NetworkError {}

/// Why a question to a network has no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum InferError {
    /// The evidence has probability zero under the network.
    Impossible {
        /// Evidence nodes that cannot hold together: drop any one of them and the rest is possible.
        conflict: Vec<NodeId>,
    },
    /// A finding or a wanted node that does not fit the network.
    BadEvidence {
        /// The node number it was given for.
        node: NodeId,
        /// What is wrong with it, in words.
        reason: String,
    },
    /// The exact answer would need a larger table than is allowed; it is refused rather than approximated.
    TooLarge {
        /// Cells needed.
        cells: u64,
        /// Cells allowed.
        limit: u64,
        /// Names of the nodes that would have to be kept together in one table.
        cluster: Vec<String>,
    },
}

impl fmt::Display for InferError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Impossible { conflict } => write!(
                f,
                "the evidence is impossible under this network; {} findings clash (node numbers {conflict:?}): \
                 take back at least one of them",
                conflict.len()
            ),
            Self::BadEvidence { node, reason } => write!(f, "the finding on node number {node} {reason}"),
            Self::TooLarge { cells, limit, cluster } => {
                write!(
                    f,
                    "an exact answer needs a table of {cells} cells, more than the {limit} allowed, over "
                )?;
                for (i, name) in cluster.iter().take(12).enumerate() {
                    write!(f, "{}\"{name}\"", if i == 0 { "" } else { ", " })?;
                }
                if cluster.len() > 12 {
                    write!(f, " and {} more", cluster.len() - 12)?;
                }
                write!(f, "; give these nodes fewer common parents or children, or observe some of them")
            }
        }
    }
}

impl core::error::Error for InferError {}
