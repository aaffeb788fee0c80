//! Fuel gas pipes: what a steel run carries by table and form, the longest-length method, fittings, typical inputs.
//!
//! Corrugated tube, copper, propane and 2 psi have tables of their own that are not on the shelf, so they answer
//! "cannot say". A licensed gas fitter decides; a tightness test says nothing about capacity.

mod ask;
pub mod capacity;
pub mod form;
pub mod loads;
pub mod plan;
mod remedies;
pub mod run;
pub mod section;

use crate::calculation::Calculation;

/// What this room answers.
pub const CALCULATIONS: &[Calculation] = &[ask::CALCULATION];
