//! Any bytes as a packet: never a panic, and what opens is what it says.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| packet::bent::opened(bytes));
