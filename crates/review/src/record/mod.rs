//! The track record of a firm: what was forecast for many houses, held against what was found in them.
//!
//! Everything here is told in numbers that can be checked: each carries the list of its houses, and the small ones are
//! called small. Rules, each held by a test:
//!
//! - A house is judged by the first of its forecasts that the office had before anything was found there ([`choose()`]).
//!   A later one is scored apart, as a forecast made again.
//! - What was not opened is in no score; it is counted beside.
//! - A forecast made by a catalog that had learned from the very house is left out ([`Trained`]).
//! - The base rate a forecast is held against never contains the house itself ([`base`]).
//!
//! `docs/track-record.md` has formulas, sources and limits.

mod amounts;
pub mod base;
mod choose;
mod group;
mod house;
mod summary;
#[cfg(test)]
pub(crate) mod testing;
mod track;
mod trained;

pub use amounts::{AmountScores, Amounts};
pub use choose::{Again, Choice, choose};
pub use group::By;
pub use house::{JudgedCondition, JudgedHouse, JudgedSum, Known, NotJudged};
pub use summary::{BINS, BinRow, ConditionScores, Record, SMALL_HOUSES, SMALL_OUTCOMES, is_small};
pub use track::{Group, LeftOut, Track, Why, track};
pub use trained::{Trained, saw};
