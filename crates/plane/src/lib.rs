//! Lengths in a plane seen in a photograph: four corners of something of known size lying in the plane (a sheet of
//! paper, known points of a tape) give the projective map from the plane to the picture, and the map gives every other
//! length in that plane, with what it may be off.
//!
//! Pure and exact about what it assumes: the picture is a central projection but for a little distortion of the lens;
//! the corners are marked with a known care; the ends of what is measured may stand off the plane by a known amount.
//! All of these enter the uncertainty ([`Care`]), each by how far it moves the length (first order).
#![no_std]

mod camera;
mod error;
mod map;
mod measure;

pub use camera::{Camera, PHONE_FOCAL};
pub use error::PlaneError;
pub use map::{Map, Point};
pub use measure::{Care, Measured, Paper, measure};
