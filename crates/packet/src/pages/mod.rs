//! The readable pages of a packet: US Letter, tagged PDF, set by the typst compiler from a template and plain data.
//!
//! No file, clock, network or environment is reached: template, faces and data are handed to the compiler by name
//! (`world.rs`), the date is the sealing date, and equal data give equal bytes. People's words enter as JSON strings
//! and are never parsed as markup. Faces: Vollkorn and Routed Gothic, SIL Open Font License 1.1, in `fonts/`.

mod data;

#[cfg(feature = "pdf")]
mod clean;
#[cfg(feature = "pdf")]
mod fill;
#[cfg(feature = "pdf")]
mod set;
#[cfg(feature = "pdf")]
mod world;

pub use data::*;
#[cfg(feature = "pdf")]
pub use set::pages;

#[cfg(feature = "pdf")]
#[cfg(test)]
mod tests;
