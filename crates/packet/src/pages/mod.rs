//! The readable pages of a packet, a document for each reader: US Letter, tagged PDF, set by the typst compiler from
//! templates and plain data.
//!
//! No file, clock, network or environment is reached: templates, faces and data are handed to the compiler by name
//! (`world.rs`), the date is the sealing date, and equal data give equal bytes. Each document gets one JSON text of its
//! own, and the photographs and drawings it shows: what is not meant for a reader is not there to be shown.
//! The compiler cannot be interrupted; what it is given is bounded instead (`bounds.rs`). People's words enter as JSON strings
//! and are never parsed as markup. Faces: Vollkorn and Routed Gothic, SIL Open Font License 1.1, in `fonts/`.

mod book;
mod data;

#[cfg(feature = "pdf")]
mod bounds;
#[cfg(feature = "pdf")]
mod clean;
#[cfg(feature = "pdf")]
mod fill;
#[cfg(feature = "pdf")]
mod set;
#[cfg(feature = "pdf")]
mod shown;
#[cfg(feature = "pdf")]
mod world;

pub use book::*;
pub use data::*;
#[cfg(feature = "pdf")]
pub use set::{book, shown};
#[cfg(feature = "pdf")]
pub use shown::ShownPages;

#[cfg(feature = "pdf")]
#[cfg(test)]
mod tests;
