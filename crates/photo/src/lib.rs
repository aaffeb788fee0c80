//! Photographs: what a file says of itself, upright previews, and a copy that tells nobody where it was taken.
//!
//! The original bytes are evidence and are never changed here; everything else is derived from them and can be
//! made again. JPEG (ITU-T T.81), PNG and WebP are taken in and decoded; HEIC and AVIF are taken in, read and kept, and
//! get no preview, but for HEIC where this is built with the feature `heic`; any other file is refused with the name of what it looks like.
//! Facts come from EXIF 2.32 (CIPA DC-008): a broken block gives what can be read plus complaints, and a picture
//! is never refused for its EXIF. Previews are in sRGB, whatever color profile the camera wrote.

mod blocks;
mod clean;
mod codes;
mod color;
mod complaint;
mod digest;
mod drawn_over;
mod error;
mod exif_block;
mod facts;
mod found;
#[cfg(feature = "heic")]
mod heic;
mod heif;
mod intake;
mod jpeg;
mod look;
mod looks;
mod pixels;
mod png;
mod preview;
mod size;
mod tables;
mod taken;
mod turn;
mod webp;

pub use clean::without_location;
pub use codes::codes;
pub use complaint::{Complaint, Damage, Reason};
pub use digest::digest_reader;
pub use drawn_over::{Drawing, drawn_over};
pub use error::{PhotoError, Problem};
pub use facts::Gps;
pub use intake::{Format, Intake, intake, intake_and_place};
pub use look::{Look, Warning};
pub use looks::Looks;
pub use preview::{LIST, Preview, Previews, SCREEN, previews, thumbnail};
pub use size::{MAX_MEMORY, MAX_PIXELS, MAX_RATIO};
