//! Trade calculations, one file per calculation, each number with its document, edition and table beside it.
//!
//! Everything here is a screening answer for pricing. It is never an approval: the licensed trade decides, the
//! local code as adopted and amended governs, and a product's own sheet outranks every default. Formulas work in
//! inches as floats; what a person measured arrives as exact [`survey::units::Length`].
//!
//! Pure and without the standard library: no logs, photographs, costs or networks.

#![no_std]

extern crate alloc;

pub mod datum;
pub mod dishwasher;
mod error;
pub mod limits;
pub mod normal;
pub mod sink_drain;
pub mod tape;
pub mod trap_arm;
pub mod trap_seal;

pub use error::TradeError;
pub use limits::{Code, Limit};
pub use sink_drain::{
    Datum, DrainAnswer, DrainDefaults, DrainFit, Mount, Shell, SinkPlan, Term, Verdict, fit, levels, verdict,
};
