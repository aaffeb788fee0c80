//! The current picture of a house, folded from the log.

mod at;
mod fold;

pub use at::At;
pub use fold::{Claim, PhotoSeen, Picture, Standing, fold};
