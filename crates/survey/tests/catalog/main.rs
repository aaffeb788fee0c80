//! The catalog that ships: complete, consistent, and read the same way as by a separate program.
#![allow(clippy::unwrap_used, clippy::panic)] // tests stop at the first surprise

mod faults;
mod houses;
mod mutations;
mod overlay;
mod places;
mod shipped;
mod unrolled;
