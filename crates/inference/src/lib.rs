//! Exact reasoning on discrete Bayesian networks: posteriors, the probability of the evidence, small
//! joints, exact joint samples, and the BIF interchange format.
//!
//! Works on any discrete network and knows nothing of what its nodes mean. No input or output, no clock,
//! no randomness of its own (a generator is handed in), no standard library: `alloc` is enough.
//! Sums run in a fixed order and logarithms come from `libm`, so the same input gives the same bits
//! everywhere.
//!
//! The method is variable elimination organised as a bucket tree: R. Dechter, "Bucket elimination: a
//! unifying framework for reasoning", Artificial Intelligence 113 (1999) 41-85; the outward pass divides
//! by what came in, as in F. V. Jensen, S. L. Lauritzen, K. G. Olesen, "Bayesian updating in causal
//! probabilistic networks by local computations", Computational Statistics Quarterly 4 (1990) 269-282.
//! Nothing is ever approximated: a network that would need too large a table is refused in words.
#![no_std]
#![forbid(unsafe_code)]

extern crate alloc;

pub mod bif;
mod calibrated;
mod conflict;
mod eliminate;
mod engine;
mod error;
mod evidence;
mod kernel;
pub mod learn;
mod mpe;
mod network;
pub mod noisy_or;
mod number;
mod order;
mod plan;
mod query;
mod sample;
mod value;
mod weight;

pub use calibrated::{Calibrated, Changed, Given, Split, posterior_by_cases};
pub use conflict::{Disagreement, Pair, disagreement};
pub use engine::{Engine, Finding, Session};
pub use error::{InferError, NetworkError};
pub use evidence::Evidence;
pub use mpe::{Mpe, TIE, mpe};
pub use network::{Network, NetworkBuilder, Node, NodeId};
pub use noisy_or::Noisy;
pub use plan::{CLUSTER_LIMIT, TOTAL_LIMIT};
pub use query::{Posterior, joint, log_p_evidence, posterior};
pub use sample::{Sampler, sampler};
pub use value::{Decision, Observation, mutual_information, value};
pub use weight::{DECIBANS, Weights, weights};
