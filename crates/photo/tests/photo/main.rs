//! Photographs against outside readers: `exiftool` (required), `exifread` (when `UNDERLATH_TEST_PYTHON` names a
//! Python that has it), drawn pictures in all eight orientations, broken and hostile files.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "tests; what is measured is told"
)]

mod arbitrary;
mod clean_copy;
mod formats;
mod heic;
mod laws;
mod looks;
mod memory;
mod outside;
mod readers;
mod real;
mod refusals;
mod support;
mod upright;
