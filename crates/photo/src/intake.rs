//! Taking a photograph in: what is kept of it, by what digest, which way up, taken when.

use serde::{Deserialize, Serialize};
use survey::{Digest, Stamp};

use crate::complaint::{Complaint, Reason};
use crate::error::{PhotoError, Problem};
use crate::exif_block::{exif_in, xmp_in};
use crate::facts::{self, Facts, Gps, Turned};
use crate::jpeg::{End, Frame, Piece, SOS, Walk, no_picture};
use crate::looks::{Looks, looks};
use crate::pixels::{png_memory, webp_memory};
use crate::size::too_much_memory;
use crate::{heif, png, webp};

/// The kind of a photograph that is taken in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Format {
    /// JPEG (ITU-T T.81), also with further pictures behind it.
    Jpeg,
    /// PNG (W3C).
    Png,
    /// WebP (RFC 9649).
    WebP,
    /// HEIF with HEVC or AVC inside (ISO/IEC 23008-12).
    Heic,
    /// HEIF with AV1 inside.
    Avif,
}

impl Format {
    /// What the bytes are, if it is one of these.
    pub(crate) fn of(bytes: &[u8]) -> Result<Self, Problem> {
        match bytes {
            [] => return Err(Problem::Empty),
            [0xff] | [0xff, 0xd8] => return Err(Problem::CutOff { at: 0, bytes: bytes.len() as u64 }),
            _ => {}
        }
        match looks(bytes) {
            Looks::Jpeg => Ok(Self::Jpeg),
            Looks::Png => Ok(Self::Png),
            Looks::WebP => Ok(Self::WebP),
            Looks::Heic => Ok(Self::Heic),
            Looks::Avif => Ok(Self::Avif),
            other => Err(Problem::NotAPhotograph(other)),
        }
    }
}

/// What is known of a photograph once its bytes are here. Nothing in it tells where the photograph was taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Intake {
    /// The kind of file.
    pub format: Format,
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
    /// EXIF orientation 1 to 8; 1 when absent or unusable (CIPA DC-008-2019 4.6.4 A), and in HEIC and AVIF, whose
    /// container turns the picture by itself.
    pub orientation: u8,
    /// When it was taken, if the camera wrote its offset from UTC.
    pub taken: Option<Stamp>,
    /// When it was taken by the camera's clock (RFC 3339 without an offset), if the offset is not known.
    pub taken_local: Option<String>,
    /// Focal length that gives the same view on 35 mm film, mm, if the camera wrote it.
    pub focal_35mm: Option<u16>,
    /// Whether the file tells where it was taken, in EXIF or XMP. Lack of it proves nothing: phones and file pickers
    /// blank it. What may follow the end of the picture is not looked into.
    pub gps_present: bool,
    /// Why no preview can be made, if none can.
    pub no_preview: Option<Reason>,
    /// What was wrong without making the picture unusable.
    pub complaints: Vec<Complaint>,
}

/// What one look over the file finds, whatever its kind.
struct Seen {
    format: Format,
    width: u32,
    height: u32,
    /// What the container leaves of it for showing, cropped and turned; EXIF's orientation comes on top.
    shown: (u32, u32),
    facts: Facts,
    /// Complaints about the structure of the file.
    complaints: Vec<Complaint>,
    no_preview: Option<Reason>,
}

fn refs(blocks: &[Vec<u8>]) -> Vec<&[u8]> {
    blocks.iter().map(Vec::as_slice).collect()
}

fn look_over(bytes: &[u8]) -> Result<Seen, Problem> {
    let format = Format::of(bytes)?;
    let (size, shown, exif, xmp, complaints, no_preview, way) = match format {
        Format::Jpeg => return look_over_jpeg(bytes),
        Format::Png => {
            let found = png::look_over(bytes)?;
            let size = (found.header.width, found.header.height);
            let why = too_much_memory(png_memory(&found.header));
            (size, size, found.exif, found.xmp, found.complaints, why, Turned::ByXmpToo)
        }
        Format::WebP => {
            let found = webp::look_over(bytes)?;
            let size = (found.header.width, found.header.height);
            let why = too_much_memory(webp_memory(&found.header));
            (size, size, found.exif, found.xmp, found.complaints, why, Turned::ByXmpToo)
        }
        Format::Heic | Format::Avif => {
            let found = heif::look_over(bytes)?;
            let why = heif_not_shown(format, &found);
            let (size, shown) = ((found.width, found.height), found.shown());
            (size, shown, found.exif, found.xmp, found.complaints, why, Turned::Already)
        }
    };
    let facts = facts::read(&refs(&exif), &refs(&xmp), way);
    Ok(Seen { format, width: size.0, height: size.1, shown, facts, complaints, no_preview })
}

/// Why a HEIF gets no preview, if it gets none.
fn heif_not_shown(format: Format, found: &heif::Found) -> Option<Reason> {
    match format {
        #[cfg(feature = "heic")]
        Format::Heic => too_much_memory(crate::heic::heic_memory(found)),
        #[cfg(not(feature = "heic"))]
        Format::Heic => {
            let _ = found;
            Some(Reason::NotDecoded { kind: "HEIC" })
        }
        _ => Some(Reason::NotDecoded { kind: "AVIF" }),
    }
}

fn look_over_jpeg(bytes: &[u8]) -> Result<Seen, Problem> {
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
    let Some(frame) = frame.filter(|_| scanned) else { return Err(no_picture(walk.end(), bytes)) };
    Ok(Seen {
        format: Format::Jpeg,
        width: frame.width,
        height: frame.height,
        shown: (frame.width, frame.height),
        facts: facts::read(&exif, &xmp, Turned::ByExif),
        complaints: oddities(&walk, frames, bytes.len()),
        no_preview: frame.no_preview(),
    })
}

/// The facts that also go into a copy without location.
pub(crate) fn facts_of(bytes: &[u8]) -> Result<Facts, Problem> {
    Ok(look_over(bytes)?.facts)
}

/// Takes in a photograph: JPEG, PNG, WebP, HEIC or AVIF. `name` is only for messages. Nothing is decoded: the
/// declared size is checked, EXIF is read as far as it goes, and what is odd becomes a complaint.
///
/// # Errors
/// The file is empty, no photograph, cut off before its picture data, broken before it, or declares a size that is
/// absurd or above [`crate::MAX_PIXELS`].
pub fn intake(bytes: &[u8], name: &str) -> Result<Intake, PhotoError> {
    Ok(intake_and_place(bytes, name)?.0)
}

/// As [`intake()`], and where the photograph was taken, if the file says so. For the person who asks about a file of
/// their own; a record of a survey gets what [`intake()`] gives.
///
/// # Errors
/// As [`intake()`].
pub fn intake_and_place(bytes: &[u8], name: &str) -> Result<(Intake, Option<Gps>), PhotoError> {
    let seen = look_over(bytes).map_err(|problem| PhotoError::unnamed(problem).named(name))?;
    let facts = seen.facts;
    let mut complaints = facts.complaints;
    complaints.extend(seen.complaints);
    if let Some(why) = &seen.no_preview {
        complaints.push(Complaint::NoPreview(why.clone()));
    }
    let (stored_width, stored_height) = (seen.width, seen.height);
    let (width, height) = match facts.orientation {
        5..=8 => (seen.shown.1, seen.shown.0), // rows and columns exchanged
        _ => seen.shown,
    };
    let taken = facts.taken.as_ref().and_then(|taken| taken.stamp());
    let taken_local = facts.taken.filter(|_| taken.is_none()).map(|taken| taken.local());
    let intake = Intake {
        format: seen.format,
        digest: Digest::of(bytes),
        bytes: bytes.len() as u64,
        width,
        height,
        stored_width,
        stored_height,
        orientation: facts.orientation,
        taken,
        taken_local,
        focal_35mm: facts.focal,
        gps_present: facts.located,
        no_preview: seen.no_preview,
        complaints,
    };
    Ok((intake, facts.place))
}

/// What is said of bytes behind the end of a picture.
pub(crate) fn trailing(bytes: usize) -> Complaint {
    Complaint::Behind { bytes: bytes as u64 }
}

/// What is said of a file that stops before its picture does.
pub(crate) fn stops(at: usize) -> Complaint {
    Complaint::Stops { at: at as u64 }
}

/// Complaints about the structure of a JPEG.
fn oddities(walk: &Walk<'_>, frames: u32, length: usize) -> Vec<Complaint> {
    let mut out = Vec::new();
    match walk.end() {
        End::Image { after } if after < length => out.push(trailing(length - after)),
        End::Image { .. } => {}
        End::Broken { at, what } => out.push(Complaint::Damaged { at: at as u64, what }),
        End::RanOut { .. } | End::Walking => out.push(stops(length)),
    }
    if let Some(at) = walk.stray() {
        out.push(Complaint::DataDamaged { at: at as u64 });
    }
    if frames > 1 {
        out.push(Complaint::Frames { count: frames });
    }
    out
}
