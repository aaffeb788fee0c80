//! Trade calculations, one file per calculation, each number with its document, edition and table beside it.
//!
//! Everything here is a screening answer for pricing. It is never an approval: the licensed trade decides, the
//! local code as adopted and amended governs, and a product's own sheet outranks every default. Formulas work in
//! inches as floats; what a person measured arrives as exact [`survey::units::Length`]. Published numbers come from
//! the code books in the catalog ([`cite`]), so that an edition is data and a number carries its place.
//!
//! A calculation is one file: typed input with checked ranges, the formula, a [`Sheet`] as answer, and a
//! [`Calculation`] that says what it asks.
//!
//! Pure and without the standard library: no logs, photographs, costs or networks.

#![no_std]

extern crate alloc;

mod calculation;
pub mod cite;
pub mod datum;
pub mod dishwasher;
pub mod drainage;
pub mod electrical;
mod error;
pub mod framing;
pub mod gas;
pub mod given;
pub mod lights;
pub mod limits;
pub mod measure;
pub mod normal;
pub mod number;
pub mod openings;
pub mod outages;
pub mod pert;
pub mod picture;
pub mod risk;
mod sheet;
pub mod sink_drain;
pub mod takeoff;
pub mod tape;
#[cfg(test)]
mod testing;
pub mod tolerance;
pub mod trap_arm;
pub mod trap_seal;
mod written;

pub use calculation::{Calculation, Trade, by_trade, calculations, find};
pub use error::TradeError;
pub use sheet::{Assumed, Change, Limit, Line, Sheet, Standing};
pub use sink_drain::{
    Datum, DrainAnswer, DrainDefaults, DrainFit, Mount, Shell, SinkPlan, Term, Verdict, fit, levels, verdict,
};
