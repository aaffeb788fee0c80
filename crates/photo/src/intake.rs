//! Taking a photograph in: what is kept of it, by what digest, which way up, taken when.

use serde::{Deserialize, Serialize};
use survey::{Digest, Stamp};

use crate::error::{PhotoError, Problem};
use crate::exif_block::{exif_in, xmp_in};
use crate::facts::{self, Facts};
use crate::jpeg::{End, Frame, Piece, SOS, Walk, must_be_jpeg, no_picture};

/// What is known of a photograph once its bytes are here. Nothing in it tells where the photograph was taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Intake {
    /// SHA-256 of the bytes as received.
    pub digest: Digest,
    /// Length of the file in bytes.
    pub bytes: u64,
    /// Width in pixels, shown upright.
    pub width: u32,
    /// Height in pixels, shown upright.
    pub height: u32,
    /// Width in pixels as stored.
    pub stored_width: u32,
    /// Height in pixels as stored.
    pub stored_height: u32,
    /// EXIF orientation 1 to 8; 1 when absent or unusable (CIPA DC-008-2019 4.6.4 A).
    pub orientation: u8,
    /// When it was taken, if the camera wrote its offset from UTC.
    pub taken: Option<Stamp>,
    /// When it was taken by the camera's clock (RFC 3339 without an offset), if the offset is not known.
    pub taken_local: Option<String>,
    /// Whether the file tells where it was taken, in EXIF or XMP. Lack of it proves nothing: phones and file pickers
    /// blank it. What may follow the end of the picture is not looked into.
    pub gps_present: bool,
    /// What was wrong without making the picture unusable, one sentence each.
    pub complaints: Vec<String>,
}

/// What one walk over the file finds.
struct Seen<'a> {
    frame: Frame,
    exif: Vec<&'a [u8]>,
    xmp: Vec<&'a [u8]>,
    frames: u32,
    stray: Option<usize>,
    end: End,
}

fn look_over(bytes: &[u8]) -> Result<Seen<'_>, Problem> {
    must_be_jpeg(bytes)?;
    let (mut frame, mut frames, mut scanned) = (None, 0, false);
    let (mut exif, mut xmp) = (Vec::new(), Vec::new());
    let mut walk = Walk::new(bytes);
    for piece in walk.by_ref() {
        if let Some(found) = Frame::of(&piece) {
            frames += 1;
            if frame.is_none() {
                let found = found?;
                found.check_size()?;
                frame = Some(found);
            }
        }
        exif.extend(exif_in(&piece));
        xmp.extend(xmp_in(&piece));
        scanned |= matches!(piece, Piece::Segment { marker: SOS, .. });
    }
    match frame {
        Some(frame) if scanned => Ok(Seen { frame, exif, xmp, frames, stray: walk.stray(), end: walk.end() }),
        _ => Err(no_picture(walk.end(), bytes)),
    }
}

/// The facts that also go into a copy without location.
pub(crate) fn facts_of(bytes: &[u8]) -> Result<Facts, Problem> {
    let seen = look_over(bytes)?;
    Ok(facts::read(&seen.exif, &seen.xmp))
}

/// Takes in a JPEG photograph. `name` is only for messages. Nothing is decoded: the declared size is checked, EXIF is
/// read as far as it goes, and what is odd becomes a complaint.
///
/// # Errors
/// The file is empty, no JPEG, cut off before its picture data, broken before it, or declares a size that is absurd
/// or above [`crate::MAX_PIXELS`].
pub fn intake(bytes: &[u8], name: &str) -> Result<Intake, PhotoError> {
    let seen = look_over(bytes).map_err(|problem| PhotoError::unnamed(problem).named(name))?;
    let facts = facts::read(&seen.exif, &seen.xmp);
    let mut complaints = facts.complaints;
    complaints.extend(oddities(&seen, bytes.len()));
    let (stored_width, stored_height) = (seen.frame.width, seen.frame.height);
    let lies = facts.orientation >= 5; // 5 to 8 exchange rows and columns
    let (width, height) = if lies { (stored_height, stored_width) } else { (stored_width, stored_height) };
    let taken = facts.taken.as_ref().and_then(|taken| taken.stamp());
    let taken_local = facts.taken.filter(|_| taken.is_none()).map(|taken| taken.local());
    Ok(Intake {
        digest: Digest::of(bytes),
        bytes: bytes.len() as u64,
        width,
        height,
        stored_width,
        stored_height,
        orientation: facts.orientation,
        taken,
        taken_local,
        gps_present: facts.located,
        complaints,
    })
}

/// Complaints about the structure of the file.
fn oddities(seen: &Seen<'_>, length: usize) -> Vec<String> {
    let mut out = Vec::new();
    match seen.end {
        End::Image { after } if after < length => out.push(format!(
            "{} bytes follow the end of the picture (often a second picture or a short film); they stay in the \
             original and are left out of copies without location",
            length - after
        )),
        End::Image { .. } => {}
        End::Broken { at, what } => out.push(format!("the file is damaged at byte {at} ({what}); part may be missing")),
        End::RanOut { .. } | End::Walking => out.push(format!(
            "the file stops at byte {length} before the picture's end; the lower part may be missing: copy it again"
        )),
    }
    if let Some(at) = seen.stray {
        out.push(format!("the picture data is damaged at byte {at}; part of it may look wrong"));
    }
    if seen.frames > 1 {
        out.push(format!("{} frame headers; the size is that of the first", seen.frames));
    }
    if let Some(why) = seen.frame.no_preview() {
        out.push(format!("no preview: {why}; the original is kept"));
    }
    out
}
