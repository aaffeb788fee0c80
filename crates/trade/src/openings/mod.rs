//! Holes for each trade, patches, old materials, wishes for later.

pub mod grid;
pub mod hole;
#[cfg(test)]
mod laws;
pub mod lead;
pub mod lead_rule;
pub mod plane;
pub mod rects;
pub mod schedule;
mod schedule_run;
pub mod schedule_sheet;
pub mod spread;
pub mod suspects;
pub mod wishes;

use crate::calculation::Calculation;

/// What stands beside every answer about old surfaces.
pub const CAUTION: &str = "Nobody can tell by eye whether an old surface holds lead or asbestos. Until a qualified \
    person has tested it, do not cut, sand or scrape; price testing and protected work on lines of their own. A \
    certified renovator, a licensed asbestos professional and the local authority decide; state, local and worker rules \
    govern and can be stricter. A screening answer for pricing, not an approval.";

/// What this room answers.
pub const CALCULATIONS: &[Calculation] =
    &[schedule_run::CALCULATION, lead_rule::CALCULATION, wishes::CALCULATION];
