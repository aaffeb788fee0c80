//! The current picture of a house, folded from the log.

mod fold;

pub use fold::{Claim, PhotoSeen, Picture, Standing, fold};
