//! One test binary: stories from end to end, checks against what others published or computed, house rules.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]
#![allow(unreachable_pub, reason = "a test binary has no outside")]
#![allow(clippy::disallowed_methods, reason = "tests read the environment and make folders")]

mod house_rules;
mod outside;
mod stories;
mod support;
