//! What comes out of a fit: levels, verdict, odds and everything needed to redo and to doubt them.

use alloc::{boxed::Box, vec::Vec};

use survey::{Phrase, Said};

use super::also::Broken;
use super::chain::{Chain, Levels, Verdict};
use super::remedies::Remedy;
use crate::sheet::{Assumed, Limit, Line};
use crate::tolerance::Budget;
use crate::trap_arm;

/// The answer to one plan.
#[derive(Clone, PartialEq, Debug)]
pub enum DrainAnswer {
    /// Something without which no answer makes sense is missing.
    CannotSay {
        /// What, in words.
        missing: Vec<Phrase>,
    },
    /// The answer.
    Fit(Box<DrainFit>),
}

/// One bowl with its own chain. Inches, heights above the finished new floor.
#[derive(Clone, PartialEq, Debug)]
pub struct BowlFit {
    /// What went into its chain; the trap drop of a second bowl holds the fall of its continuous waste.
    pub chain: Chain,
    /// Length of its continuous waste; 0 over the trap.
    pub waste_run: f64,
    /// Fall of its continuous waste to the shared trap.
    pub waste_fall: f64,
    /// Its own levels.
    pub levels: Levels,
}

/// Levels, verdict, odds and what they rest on. Heights in inches above the finished new floor.
#[derive(Clone, PartialEq, Debug)]
pub struct DrainFit {
    /// The bowl over the trap.
    pub first: BowlFit,
    /// The other bowl of a double sink.
    pub second: Option<BowlFit>,
    /// The chain that governs from above: of two bowls the one whose highest practical stub is the lower.
    pub chain: Chain,
    /// The levels that govern.
    pub levels: Levels,
    /// The stub's centerline.
    pub stub: f64,
    /// How it lies.
    pub verdict: Verdict,
    /// Highest practical stub less the stub; negative when it is too high.
    pub margin: f64,
    /// Errors of the stub less the highest practical one, by source.
    pub over: Budget,
    /// Errors of the lowest stub less the stub, by source.
    pub under: Budget,
    /// σ of the margin.
    pub sigma: f64,
    /// σ of the stub alone.
    pub stub_sigma: f64,
    /// σ of the highest practical stub alone.
    pub stub_max_sigma: f64,
    /// P(stub above the highest practical): the probability that it should be moved.
    pub p_over_practical: f64,
    /// P(stub above what any allowed trap reaches): the probability that it must be moved.
    pub p_over_absolute: f64,
    /// P(stub below the outlet-to-weir limit).
    pub p_too_low: f64,
    /// Seal of a trap stretched to reach the stub as it is; the unmodified trap's own where no stretch is needed.
    pub seal: f64,
    /// Single changes that would help; empty when it fits.
    pub remedies: Vec<Remedy>,
    /// What the plan breaks beside the height of the stub.
    pub also: Vec<Broken>,
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
    pub notes: Vec<Said>,
    /// Who decides.
    pub caution: Phrase,
}

impl DrainFit {
    /// P(stub must change one way or the other): above the highest practical or below the lowest. The two cannot
    /// both be true, so they add.
    pub fn p_outside(&self) -> f64 {
        libm::fmin(self.p_over_practical + self.p_too_low, 1.0)
    }
    /// Whether the second bowl governs from above.
    pub fn second_governs(&self) -> bool {
        self.second.as_ref().is_some_and(|second| second.levels.stub_max < self.first.levels.stub_max)
    }
}
