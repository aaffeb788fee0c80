//! Will the planned sink drain into the stub that is there?
//!
//! A vertical chain from the counter top down to the stub-out in the wall, every height above the finished new floor:
//! counter, bowl, shell, disposer or strainer, trap, fall of the arm. The chain is our own derivation; its default
//! drops are common practice without a published source, its limits stand in the plumbing books ([`crate::limits`]).
//! The weir decides, not the centerline: water stands level with the bottom of the trap arm's bore.
//!
//! A stub above STUB_MAX can be reached only by stretching the trap's outlet leg; above STUB_ABS the seal would pass
//! its deepest or water would stand in the disposer, so the stub must move. Below STUB_MIN_CODE the outlet lies too
//! far above the weir. Two bowls have a chain each; the lower highest stub governs. Spread: normal errors by source,
//! added with their signs and then as squares.

mod also;
mod answer;
mod chain;
mod defaults;
mod fields;
mod fit;
mod lines;
mod notes;
mod plan;
mod remedies;
mod resolve;
mod sheet;
mod sources;
mod spread;
mod terms;

pub use also::Broken;
pub use answer::{BowlFit, DrainAnswer, DrainFit};
pub use chain::{
    Chain, Connection, Levels, Verdict, levels, required_below_counter_plane, verdict, without_disposer_gain,
};
pub use defaults::{DrainDefaults, Term};
pub use fields::CALCULATIONS;
pub use fit::{fit, fit_under};
pub use plan::{CAUTION, CounterDatum, Datum, Mount, SecondBowl, Shell, SinkPlan};
pub use remedies::{Bowls, Remedy, RemedyKind};
pub use sheet::judge;
pub use spread::{Odds, Sigmas, odds};
