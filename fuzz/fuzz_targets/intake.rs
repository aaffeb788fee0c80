//! Any bytes as a photograph: never a panic, and what is said of them holds for the copy too.
#![no_main]

#[allow(dead_code, reason = "each target holds one law")]
#[path = "../../crates/photo/tests/photo/laws.rs"]
mod laws;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| laws::taken_in(bytes));
