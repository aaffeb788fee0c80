//! Ceiling lights: fixtures, joists, layout.

use crate::calculation::Calculation;

mod ceiling_checks;
pub mod ceiling_light;
pub mod clearance;
pub mod grid;
pub mod light_grid;

/// What this room answers.
pub const CALCULATIONS: &[Calculation] = &[ceiling_light::CALCULATION, light_grid::CALCULATION];

/// What stands beside every answer about lights.
pub const CAUTION: &str = "A screening answer for pricing, not an approval. A licensed electrician decides, the \
    maker's sheet for the light outranks every default, and the local electrical code as adopted governs. Joists are \
    not cut for a light.";
