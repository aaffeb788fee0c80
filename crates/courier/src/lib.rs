//! Carries a packet file from a tablet to its office over a line that breaks, without loss and without doubles.
//!
//! A file travels as a [`Recipe`]: the ordered list of segments whose concatenation it is. The office answers which of them
//! it lacks and how much of each it has, so a line that broke costs a piece at most, and a photograph that came with an
//! earlier packet does not travel again. [`Sending`] is the tablet's side as a state machine: what to ask next, what was
//! heard; it opens no socket, reads no clock and draws no random bits. With the feature `wire` the module [`wire`] is the
//! socket: TLS to exactly the certificate that was seen at pairing.
//!
//! Knows no house, no zip and no database. What is said between the two sides: `talk`.

mod link;
mod recipe;
mod sending;
pub mod talk;
#[cfg(feature = "wire")]
pub mod wire;

pub use link::{Fingerprint, Link, LinkError};
pub use recipe::{
    MOST_BYTES, MOST_JSON, MOST_SEGMENT, MOST_SEGMENTS, Place, Recipe, RecipeError, Segment, recipe,
};
pub use sending::{Ask, Heard, LARGEST_PIECE, Next, Over, SMALLEST_PIECE, Sending, Trouble};
