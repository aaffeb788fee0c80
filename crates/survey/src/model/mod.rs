//! The current picture of a house, folded from the log.

mod at;
mod fold;
mod places;

pub use at::At;
pub use fold::{Claim, PhotoSeen, Picture, Standing, fold};
pub use places::PlaceSeen;
