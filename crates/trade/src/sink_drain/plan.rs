//! What goes in and what comes out of a fit: plain data.

use alloc::{boxed::Box, string::String, vec::Vec};

use survey::units::Length;

use super::chain::{Chain, Levels, Sigmas, Verdict};
use super::lines::Line;
use super::remedies::Remedy;
use crate::limits::{Code, Limit};
use crate::trap_arm;

/// How the sink is mounted.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Mount {
    /// Under the counter.
    Undermount,
    /// On a rim on the counter.
    DropIn,
    /// With its own front, taken as under the counter.
    ApronFront,
}

/// What the bowl is made of.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Shell {
    /// Stainless steel.
    Steel,
    /// Composite.
    Composite,
    /// Fireclay.
    Fireclay,
    /// Cast iron.
    CastIron,
}

/// Plane the stub reading starts from.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Datum {
    /// The finished floor of today.
    FinishedFloor,
    /// The floor of the sink cabinet.
    CabinetFloor,
}

/// What is known of the planned sink and the stub that is there. None means nobody said.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct SinkPlan {
    /// Mount.
    pub mount: Option<Mount>,
    /// Inside bowl depth; without it there is no answer.
    pub bowl_depth: Option<Length>,
    /// Bowl material.
    pub shell: Option<Shell>,
    /// Counter top above the finished new floor.
    pub counter_height: Option<Length>,
    /// Counter thickness.
    pub counter_thick: Option<Length>,
    /// Rise of the finished floor by the work; zero if none is planned.
    pub floor_buildup: Option<Length>,
    /// Whether a disposer is planned.
    pub disposer: Option<bool>,
    /// Bowl underside to the disposer's outlet center, from its sheet.
    pub disposer_drop: Option<Length>,
    /// Whether a dishwasher drains at the sink.
    pub dishwasher: Option<bool>,
    /// Level run from trap to stub.
    pub run: Option<Length>,
    /// Stub reading and its tolerance (“± x”, taken as two standard deviations); without it there is no answer.
    pub stub: Option<(Length, Length)>,
    /// Where the reading starts.
    pub stub_datum: Option<Datum>,
    /// Toe kick.
    pub toe_kick: Option<Length>,
    /// Cabinet floor thickness.
    pub cabinet_floor_thick: Option<Length>,
    /// Family of code.
    pub code: Option<Code>,
}

/// A default that stands in for something missing.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Assumed {
    /// What is missing, in words.
    pub item: &'static str,
    /// What was taken, with its unit.
    pub value: String,
}

/// What always stands beside the answer.
pub const CAUTION: &str = "A screening answer for pricing, not an approval. A licensed plumber decides; the local \
    plumbing code as adopted and its inspector govern; the sheets of the sink and the disposer outrank every default \
    here.";

/// The answer to one plan.
#[derive(Clone, PartialEq, Debug)]
pub enum DrainAnswer {
    /// Something without which no answer makes sense is missing.
    CannotSay {
        /// What, in words.
        missing: Vec<&'static str>,
    },
    /// The answer.
    Fit(Box<DrainFit>),
}

/// Levels, verdict, odds and everything needed to redo and to doubt them. Heights in inches above the finished new
/// floor.
#[derive(Clone, PartialEq, Debug)]
pub struct DrainFit {
    /// What went into the chain.
    pub chain: Chain,
    /// The levels.
    pub levels: Levels,
    /// The stub's centerline.
    pub stub: f64,
    /// How it lies.
    pub verdict: Verdict,
    /// Highest practical stub less the stub; negative when it is too high.
    pub margin: f64,
    /// σ of every term.
    pub sigmas: Sigmas,
    /// σ of the margin.
    pub sigma: f64,
    /// P(stub above the highest practical): the probability that it should be moved.
    pub p_over_practical: f64,
    /// P(stub above what any allowed trap reaches): the probability that it must be moved.
    pub p_over_absolute: f64,
    /// P(stub below the outlet-to-weir limit).
    pub p_too_low: f64,
    /// Single changes that would help; empty when it fits.
    pub remedies: Vec<Remedy>,
    /// The run against the trap-arm limits: at least this much arm lies before the vent. None if the size is in no
    /// table.
    pub trap_arm: Option<trap_arm::TrapArm>,
    /// The arithmetic, line by line.
    pub lines: Vec<Line>,
    /// The limits used.
    pub limits: Vec<Limit>,
    /// Everything assumed.
    pub assumed: Vec<Assumed>,
    /// What else to know: what to ask for, what the code family says.
    pub notes: Vec<String>,
    /// Who decides.
    pub caution: &'static str,
}

impl DrainFit {
    /// P(stub must change one way or the other): above the highest practical or below the lowest. The two cannot
    /// both be true, so they add.
    pub fn p_outside(&self) -> f64 {
        libm::fmin(self.p_over_practical + self.p_too_low, 1.0)
    }
}
