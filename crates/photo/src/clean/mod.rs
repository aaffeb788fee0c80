//! A copy of a photograph for what leaves the firm: the same picture, upright and dated, and nothing else.

use crate::error::{PhotoError, Problem};
use crate::exif_block::fresh;
use crate::facts::Facts;
use crate::intake::{Format, facts_of};
use crate::looks::Looks;

mod jpeg;
mod png;
mod webp;

/// A copy without location, maker notes, serial numbers, embedded thumbnail, XMP, IPTC, comments, unknown parts and
/// everything after the end of the picture. The coded picture is copied unchanged, so every pixel is the same; what
/// the colors need stays. A fresh EXIF block holds orientation, the time taken and its offset and part of a second,
/// nothing more, so the copy still shows upright and dated.
///
/// # Errors
/// As [`crate::intake()`]; when the file is HEIC or AVIF, which are not rewritten here; and when part of it is neither
/// a well-formed part of a picture nor known extra data, because then nobody can say what it holds.
pub fn without_location(bytes: &[u8]) -> Result<Vec<u8>, PhotoError> {
    clean(bytes).map_err(PhotoError::unnamed)
}

fn clean(bytes: &[u8]) -> Result<Vec<u8>, Problem> {
    let format = Format::of(bytes)?;
    let facts = facts_of(bytes)?;
    let exif = exif(&facts, facts.orientation);
    match format {
        Format::Jpeg => jpeg::clean(bytes, &exif),
        Format::Png => png::clean(bytes, &exif),
        Format::WebP => webp::clean(bytes, &exif),
        Format::Heic => Err(Problem::NoCopy(Looks::Heic)),
        Format::Avif => Err(Problem::NoCopy(Looks::Avif)),
    }
}

/// A block with the time a photograph was taken and this orientation.
fn exif(facts: &Facts, orientation: u8) -> Vec<u8> {
    let time = facts.taken.as_ref().map(|taken| taken.exif());
    fresh(orientation, time.as_ref().map(|(date, offset, sub)| (date.as_str(), *offset, *sub)))
}

/// A JPEG that was made upright of a photograph with these facts, with the time that one was taken.
pub(crate) fn upright_and_dated(made: &[u8], facts: &Facts) -> Result<Vec<u8>, Problem> {
    jpeg::clean(made, &exif(facts, 1))
}

/// Whether a color profile is exactly as long as it says it is (ICC.1:2022 7.2.2) and bears its signature. Decoders
/// ignore other ones, and something else might be hiding behind a wrong length.
fn whole_profile(profile: &[u8]) -> bool {
    let said = profile.first_chunk().map(|size: &[u8; 4]| u64::from(u32::from_be_bytes(*size)));
    said == Some(profile.len() as u64) && profile.get(36..40) == Some(b"acsp")
}
