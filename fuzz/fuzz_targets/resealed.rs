//! Any bytes in the place of one text of a packet, lists and seal made right again: never a panic, and what opens is what it
//! says.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| packet::bent::resealed(bytes));
