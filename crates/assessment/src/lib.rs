//! From what was observed to what it implies: evidence, the network of one house, odds, what to do about each
//! condition, what to look at next, money and days, frozen with digests.
//!
//! Pure: no storage, no screens, no clock; the moment and the seed are handed in. Findings after demolition are
//! unknown here, and no crate that knows them may be imported: a forecast cannot have seen its outcome.

mod advice;
mod assess;
mod calculation;
pub mod clue_fit;
mod clue_table;
pub mod decision;
mod error;
mod evidence;
pub mod forecast;
mod house_network;
mod looks;
mod mediators;
mod priors;
mod rates;
mod scope;
pub mod simulate;
pub mod sum;

pub use advice::advise;
pub use assess::{DRAWS, ENGINE, Request, STAGES, assess};
pub use calculation::{Calculated, calculate, run_here};
pub use clue_table::{AskedGot, ClueTables, Probability};
pub use error::AssessError;
pub use evidence::{Finding, HouseEvidence, Setting, house_evidence};
pub use forecast::Forecast;
pub use house_network::{HouseNetwork, Measured, bif};
pub use looks::rank_looks;
pub use scope::{Scoped, scope_of};
pub use trade::pert::{Pert, PertError, uniform};
