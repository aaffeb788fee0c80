//! Drawings of results, from plain data: SVG for screens and pages, lettering for a terminal.
//!
//! A drawing is made for the width it is shown at and never shrunk, so that its lettering stays readable. What is cut
//! is drawn heavy and hatched, what is seen lighter, what is hidden or a limit dashed. One accent, the marking pencil,
//! lies on what was asked. Nothing says good or bad by color, and every drawing reads in gray.
//!
//! Numbers may be anything: what is not finite is left out and called "not known"; what is far out of range is drawn
//! at the edge and lettered with its true value.
//!
//! Pure and without the standard library; it does not know where a drawing is shown.

#![no_std]

extern crate alloc;
#[cfg(test)]
extern crate std;

mod chances;
mod finding;
mod reliability;
mod said;
mod setting;
mod svg;
#[cfg(test)]
mod testing;
mod text;
mod written;

pub use chances::{Chances, Flag, Plumb, Write};
pub use reliability::{Reliability, ReliabilityBin};
pub use setting::{Palette, Width};
pub use svg::{bars, dots, plumbed_bars, plumbed_dots, put, reliability, svg};
pub use text::{reliability_text, text};
