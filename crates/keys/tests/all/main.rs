//! Keys, signatures, and what they prove.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

mod catalog;
mod files;
mod strict;
mod vectors;
mod verdict;

use keys::SecretKey;
use survey::Stamp;

/// A key of the tests.
fn key(n: u8) -> SecretKey {
    SecretKey::from_random([n; 32]).unwrap()
}

fn at(text: &str) -> Stamp {
    text.parse().unwrap()
}
