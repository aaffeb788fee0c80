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

use survey::Phrase;

use crate::calculation::Calculation;

/// What stands beside every answer about old surfaces.
pub const CAUTION: Phrase = Phrase("trade-nobody-can-tell-eye");

/// What this room answers.
pub const CALCULATIONS: &[Calculation] =
    &[schedule_run::CALCULATION, lead_rule::CALCULATION, wishes::CALCULATION];
