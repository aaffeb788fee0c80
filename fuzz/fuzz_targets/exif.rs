//! Any bytes as the EXIF block of a good picture: never a panic, never a refusal, and no place in the copy.
#![no_main]

#[allow(dead_code, reason = "each target holds one law")]
#[path = "../../crates/photo/tests/photo/laws.rs"]
mod laws;

libfuzzer_sys::fuzz_target!(|tiff: &[u8]| laws::any_exif(tiff));
