//! Invented firms: what is learned from their houses, and that no forecast can have seen a finding.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]
#![allow(unreachable_pub, reason = "a test binary has no outside")]

mod firm;
mod honesty;
mod learning;
