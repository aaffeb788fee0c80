//! The current picture of a house, folded from the log.

mod at;
mod demolition;
mod fold;
mod places;

pub use at::At;
pub use demolition::{Closing, Declared, Withdrawn};
pub use fold::{Claim, PhotoSeen, Picture, Standing, fold};
pub use places::PlaceSeen;
