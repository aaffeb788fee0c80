//! The store held to what it promises, on real files.
#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::panic)] // a test may stop where it stands

mod damage;
mod forecasts;
mod fsync;
mod full_disk;
mod import;
mod keeping;
mod kill;
mod photographs;
mod previews;
mod refusal;
mod support;
mod upkeep;
