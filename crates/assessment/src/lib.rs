//! From what was observed to what it implies: evidence, the network of one house, odds, what to do about each
//! condition, what to look at next, money and days, frozen with digests.
//!
//! Pure: no storage, no screens, no clock; the moment and the seed are handed in. Findings after demolition are
//! unknown here, and no crate that knows them may be imported: a forecast cannot have seen its outcome.

mod advice;
mod assess;
mod band;
mod bearing;
mod calculation;
mod calculation_said;
pub mod calibrate;
mod clashes;
pub mod clue_fit;
mod clue_table;
mod coverage;
pub mod decision;
mod error;
mod evidence;
pub mod forecast;
mod freeze;
mod house_draws;
mod house_network;
mod house_seen;
mod live;
mod looks;
mod loss_curve;
mod mediators;
mod path;
mod priors;
pub mod promise;
mod questions;
mod rates;
mod reasons;
mod scope;
pub mod simulate;
mod stakes;
pub mod sum;
pub mod suppose;
mod together;

pub use advice::advise;
pub use assess::{DRAWS, ENGINE, Request, assess};
pub use bearing::Bearing;
pub use calculation::{Calculated, calculate, on_answers, run_here};
pub use clashes::{Clash, Clashes};
pub use clue_table::{AskedGot, ClueTables, Probability};
pub use coverage::Coverage;
pub use error::AssessError;
pub use evidence::{Finding, HouseEvidence, Setting, house_evidence};
pub use forecast::Forecast;
pub use freeze::{Depth, STAGES};
pub use house_network::{HouseNetwork, Measured, PriorRow, PriorRows, bif};
pub use house_seen::{SeenCheck, SeenClue, SeenCondition, SeenHouse};
pub use live::{Live, Odds};
pub use looks::after_report;
pub use questions::Questions;
pub use scope::{Scope, Scoped, scope_of};
pub use trade::pert::{Pert, PertError, Quantiles};
