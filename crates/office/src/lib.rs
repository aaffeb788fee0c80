//! The office desk: takes packets in once however often they come, keeps findings after demolition, compares.
//!
//! Knows neither the device's database nor how a bag is laid out; formulas live in `review`.

mod desk;
mod error;
mod migrate;

pub use desk::{Desk, Receipt, ReceivedPacket};
pub use error::OfficeError;
