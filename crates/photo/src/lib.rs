//! Photographs: what a JPEG says of itself, an upright preview, and a copy that tells nobody where it was taken.
//!
//! The original bytes are evidence and are never changed here; everything else is derived from them and can be
//! made again. Only JPEG (ITU-T T.81) is taken in; any other file is refused with the name of what it looks like.
//! Facts come from EXIF 2.32 (CIPA DC-008): a broken block gives what can be read plus complaints, and a picture
//! that decodes is never refused for its EXIF. A preview keeps no colour profile, so wide-gamut pictures look a
//! little duller in it than in the original.

mod clean;
mod digest;
mod error;
mod exif_block;
mod facts;
mod intake;
mod jpeg;
mod looks;
mod preview;
mod shrink;
mod tables;
mod taken;

pub use clean::without_location;
pub use digest::digest_reader;
pub use error::{PhotoError, Problem};
pub use intake::{Intake, intake};
pub use jpeg::{MAX_PIXELS, MAX_PROGRESSIVE_PIXELS, MAX_RATIO};
pub use looks::Looks;
pub use preview::thumbnail;
