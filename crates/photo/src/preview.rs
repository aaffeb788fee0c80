//! A small upright picture made from a photograph, carrying nothing of the original but its looks.

use jpeg_encoder::{ColorType, Encoder};

use crate::error::{PhotoError, Problem, tidy};
use crate::look::{Look, look};
use crate::pixels::{Pixels, small};

/// JPEG quality of previews (common practice, no source).
const QUALITY: u8 = 82;

/// A JPEG of the photograph turned upright and in sRGB, its longer side at most `longest` pixels and never enlarged,
/// without EXIF or any other metadata. `orientation` is EXIF's 1 to 8, as [`crate::Intake`] holds it; anything else is
/// taken as 1.
///
/// # Errors
/// As [`crate::intake()`], and when the picture itself cannot be decoded.
pub fn thumbnail(bytes: &[u8], orientation: u8, longest: u32) -> Result<Vec<u8>, PhotoError> {
    small(bytes, orientation, longest.clamp(1, MAX_SIDE))
        .and_then(|picture| encoded(&picture))
        .map_err(PhotoError::unnamed)
}

/// Longer side of the preview for a screen, in pixels: a letter-size page at 150 to 200 to the inch, or a tablet.
pub const SCREEN: u32 = 1600;
/// Longer side of the preview for a list, in pixels.
pub const LIST: u32 = 320;

/// One small picture as JPEG.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Preview {
    /// The file.
    pub jpeg: Vec<u8>,
    /// Width in pixels.
    pub width: u32,
    /// Height in pixels.
    pub height: u32,
}

/// What is made of a photograph when it is taken in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Previews {
    /// At most [`SCREEN`] pixels long.
    pub screen: Preview,
    /// At most [`LIST`] pixels long.
    pub list: Preview,
    /// What was seen of it on the way.
    pub look: Look,
}

/// Both previews and a look, from one decoding: the small one is made of the large one.
///
/// # Errors
/// As [`thumbnail()`].
pub fn previews(bytes: &[u8], orientation: u8) -> Result<Previews, PhotoError> {
    let made = || {
        let screen = small(bytes, orientation, SCREEN)?;
        let list = screen.smaller(LIST)?;
        let preview = |picture: &Pixels| {
            let jpeg = encoded(picture)?;
            Ok(Preview { jpeg, width: picture.width, height: picture.height })
        };
        Ok(Previews { screen: preview(&screen)?, list: preview(&list)?, look: look(&screen, &list) })
    };
    made().map_err(PhotoError::unnamed)
}

/// The longest side a JPEG can have that is written here.
pub(crate) const MAX_SIDE: u32 = 16_384;

/// The picture as JPEG with half the resolution for color, as cameras write it.
pub(crate) fn encoded(picture: &Pixels) -> Result<Vec<u8>, Problem> {
    let mut out = Vec::new();
    // At most MAX_SIDE, which is less than 65,536.
    let (width, height) = (picture.width as u16, picture.height as u16);
    Encoder::new(&mut out, QUALITY)
        .encode(&picture.rgb, width, height, ColorType::Rgb)
        .map_err(|e| Problem::Unencodable { reason: tidy(&e.to_string(), 200) })?;
    Ok(out)
}
