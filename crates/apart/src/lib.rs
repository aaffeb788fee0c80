//! Pictures of photographs that came from nobody knows whom, made in a process of its own.
//!
//! A packet is opened only when its seal holds, but a stolen tablet seals too, and a photograph is decoded by a hundred
//! thousand lines. So the office decodes none itself: it starts its own program again with [`WORD`], hands the bytes in,
//! and takes two JPEGs out ([`Apart`]). That process has an empty environment, no file but its three pipes, little memory
//! and little time ([`serve`]); on Linux the kernel also refuses it every path and every port. What it answers is bytes of
//! a JPEG that browsers decode in a process of their own, or a message of this project.
//!
//! Where the kernel knows no such refusal (Landlock, Linux 5.13; ports 6.7), the limits of the process stand alone.

mod limits;
mod parent;
mod talk;

use std::io::{self, Read as _, Write as _};

pub use limits::{ByTheKernel, shut_in};
pub use parent::{Apart, ApartError};
pub use talk::Made;

/// The word by which a program is told to be such a process. Not for people; it stands in no help.
pub const WORD: &str = "make-pictures-apart";

/// Largest photograph, as much as the office takes in.
pub const MOST_BYTES: u64 = 256 << 20;

/// What the process does: shuts itself in, reads a photograph to the end of its input, writes pictures or why not.
///
/// # Errors
/// Pipes that break; limits the system refuses, so that nothing is ever decoded without them.
pub fn serve() -> io::Result<()> {
    // Before a byte of the photograph is read.
    shut_in()?;
    let mut original = Vec::new();
    io::stdin().lock().take(MOST_BYTES + 1).read_to_end(&mut original)?;
    let made = pictures(&original);
    let mut out = io::stdout().lock();
    talk::write(&mut out, made.as_ref().map_err(photo::PhotoError::said))?;
    out.flush()
}

/// Both pictures of a photograph, in this process.
///
/// # Errors
/// What is no photograph, or one that cannot be shown.
pub fn pictures(original: &[u8]) -> Result<Made, photo::PhotoError> {
    let facts = photo::intake(original, "")?;
    let made = photo::previews(original, facts.orientation)?;
    Ok(Made { screen: made.screen.jpeg, list: made.list.jpeg })
}
