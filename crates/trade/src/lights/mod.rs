//! Ceiling lights: fixtures, joists, layout.

use survey::Phrase;

use crate::calculation::Calculation;

mod ceiling_checks;
pub mod ceiling_light;
pub mod clearance;
pub mod grid;
pub mod light_grid;

/// What this room answers.
pub const CALCULATIONS: &[Calculation] = &[ceiling_light::CALCULATION, light_grid::CALCULATION];

/// What stands beside every answer about lights.
pub const CAUTION: Phrase =
    Phrase("trade-screening-answer-pricing-not-approval-licensed-electrician-decides");
