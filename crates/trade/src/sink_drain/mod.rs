//! Will the planned sink drain into the stub that is there?
//!
//! A vertical chain from the counter top down to the stub-out in the wall, every height above the finished new floor:
//! counter, bowl, shell, disposer or strainer, trap, fall of the arm. The chain is our own derivation; its default
//! drops are common practice without a published source, its limits carry theirs ([`crate::limits`]). The weir
//! decides, not the centerline: water stands level with the bottom of the trap arm's bore.
//!
//! A stub above STUB_MAX can be reached only by stretching the trap's outlet leg; above STUB_ABS the seal would pass
//! 4 in or water would stand in the disposer, so the stub must move. Below STUB_MIN_CODE the outlet lies more than
//! 24 in above the weir. Spread: independent normal errors, one per term, added as squares.

mod chain;
mod defaults;
mod fit;
mod lines;
mod plan;
mod remedies;

pub use chain::{
    Chain, Connection, Levels, Odds, Sigmas, Verdict, levels, odds, required_below_counter_plane, verdict,
    without_disposer_gain,
};
pub use defaults::{DrainDefaults, Term};
pub use fit::fit;
pub use lines::Line;
pub use plan::{Assumed, CAUTION, Datum, DrainAnswer, DrainFit, Mount, Shell, SinkPlan};
pub use remedies::{Remedy, RemedyKind};
