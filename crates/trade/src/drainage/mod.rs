//! Drainage units, drain and stack sizes, vents: one file each.

use crate::calculation::Calculation;

pub mod branch;
pub mod building_drain;
mod by_book;
pub mod demand;
mod drain_changes;
mod drain_fields;
mod drain_lines;
pub mod drain_size;
pub(crate) mod enough;
pub mod fixture;
pub mod flat_fall;
mod margin;
pub mod reroute;
pub mod rim;
mod route_checks;
mod route_fields;
mod route_notes;
pub mod slope;
pub mod stack;
pub mod units;
pub mod valve;
pub mod vent;
pub mod vent_route;
pub mod vent_size;
pub mod window;

/// What this room answers.
pub const CALCULATIONS: &[Calculation] =
    &[drain_size::CALCULATION, vent_size::CALCULATION, vent_route::CALCULATION];
