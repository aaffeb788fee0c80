//! Trade calculations against published tables, worked examples, reference draws and laws; one file for each room.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a helper of a test may stop the test")]

mod drainage;
mod electrical;
mod english;
mod framing;
mod gas;
mod lights;
mod openings;
mod outages;
mod plan;
mod properties;
mod sink;
mod support;
mod takeoff;
mod wishes;
mod worked_examples;
