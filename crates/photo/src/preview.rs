//! A small upright picture made from a photograph, carrying nothing of the original but its looks.

use std::io::Cursor;

use image::codecs::jpeg::{JpegDecoder, JpegEncoder};
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, Limits};

use crate::error::{PhotoError, Problem, tidy};
use crate::jpeg::declared_frame;
use crate::shrink::shrink;

/// JPEG quality of previews (common practice, no source).
const QUALITY: u8 = 82;

/// A JPEG of the photograph turned upright, its longer side at most `longest` pixels and never enlarged, without
/// EXIF or any other metadata. `orientation` is EXIF's 1 to 8, as [`crate::Intake`] holds it; anything else is taken
/// as 1.
///
/// # Errors
/// As [`crate::intake()`], and when the picture itself cannot be decoded.
pub fn thumbnail(bytes: &[u8], orientation: u8, longest: u32) -> Result<Vec<u8>, PhotoError> {
    small(bytes, orientation, longest.max(1)).map_err(PhotoError::unnamed)
}

fn small(bytes: &[u8], orientation: u8, longest: u32) -> Result<Vec<u8>, Problem> {
    // Shrunk first and turned afterwards: turning the small picture costs next to nothing.
    let mut picture = shrink(decode(bytes)?, longest);
    picture.apply_orientation(Orientation::from_exif(orientation).unwrap_or(Orientation::NoTransforms));
    let mut out = Vec::new();
    JpegEncoder::new_with_quality(&mut out, QUALITY)
        .encode_image(&picture)
        .map_err(|e| Problem::Unencodable { reason: tidy(&e.to_string(), 200) })?;
    Ok(out)
}

fn decode(bytes: &[u8]) -> Result<DynamicImage, Problem> {
    let frame = declared_frame(bytes)?;
    if let Some(reason) = frame.no_preview() {
        return Err(Problem::Undecodable { reason });
    }
    let cannot = |e: image::ImageError| Problem::Undecodable { reason: tidy(&e.to_string(), 200) };
    let mut decoder = JpegDecoder::new(Cursor::new(bytes)).map_err(cannot)?;
    // The decoder may have found another frame header than ours in a broken file.
    if decoder.dimensions() != (frame.width, frame.height) {
        return Err(Problem::Undecodable { reason: "it declares two different sizes".into() });
    }
    let mut limits = Limits::no_limits();
    limits.max_image_width = Some(frame.width);
    limits.max_image_height = Some(frame.height);
    decoder.set_limits(limits).map_err(cannot)?;
    DynamicImage::from_decoder(decoder).map_err(cannot)
}
