//! What the screens may ask, by name: one table, JSON in and out.
//!
//! The window program and any other door that carries the screens share it. A command is a few lines: it reads its
//! arguments, calls one action and hands on what it gives. Where the records lie, the clock, random bits and who walks
//! are handed in by the door.

mod arguments;
mod line;
mod place;
mod refused;
mod table;

pub use line::{carry, fetch, pair};
pub use place::{Photo, Place, World};
pub use refused::Refused;
pub use table::{COMMANDS, Command};
