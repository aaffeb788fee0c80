//! The crate from outside: reference results, brute force, sampling, the BIF format.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may fail loudly")]

mod bif;
mod calibrated;
mod engine;
mod errors;
mod learn;
mod mpe;
mod noisy_or;
mod random;
mod reference;
mod sampling;
mod split;
mod support;
mod value;
mod vectors;
mod weight;
