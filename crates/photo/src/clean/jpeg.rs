//! A clean JPEG: the coded picture is copied unchanged, so every pixel is the same.
//!
//! JFIF (without its thumbnail), a whole color profile and the Adobe color segment stay because the colors need them;
//! application segments, comments and everything after the end of the picture stay behind.

use super::whole_profile;
use crate::complaint::Damage;
use crate::error::Problem;
use crate::exif_block::EXIF_HEAD;
use crate::jpeg::{APP0, APP1, APP2, APP14, EOI, End, Piece, SOI, Walk};
use crate::tables::well_formed;

/// The copy. A segment that is neither a well-formed part of a picture nor known extra data refuses it, because then
/// nobody can say what it holds; a file that merely stops within its picture data gives a copy that stops there too.
pub(super) fn clean(bytes: &[u8], exif: &[u8]) -> Result<Vec<u8>, Problem> {
    let colors = profile_is_whole(bytes);
    let mut out = Vec::with_capacity(bytes.len());
    out.extend(SOI);
    let mut rest = Vec::with_capacity(bytes.len());
    let mut head = Vec::new();
    let mut walk = Walk::new(bytes);
    for piece in walk.by_ref() {
        match piece {
            Piece::Scan { data } => rest.extend(data),
            Piece::Segment { marker, at, body } => match kept(marker, body, colors) {
                Some(Kept::First(body)) if head.is_empty() => segment(&mut head, marker, &body),
                Some(Kept::First(_)) | None => {}
                Some(Kept::AsIs) => segment(&mut rest, marker, body),
                Some(Kept::Cut(body)) => segment(&mut rest, marker, body),
                Some(Kept::Never) => {
                    let what = Damage::UnknownSegment;
                    return Err(Problem::Damaged { at: at as u64, what });
                }
            },
        }
    }
    if let Some(at) = walk.stray() {
        return Err(Problem::Damaged { at: at as u64, what: Damage::StrayData });
    }
    match walk.end() {
        End::Broken { at, what } => return Err(Problem::Damaged { at: at as u64, what }),
        End::Image { .. } => rest.extend(EOI),
        End::RanOut { at } if at < bytes.len() => {
            let what = Damage::LongSegment;
            return Err(Problem::Damaged { at: at as u64, what });
        }
        // Stops early, and so does the copy: decoders fill the missing part differently when an end is pretended.
        End::RanOut { .. } | End::Walking => {}
    }
    out.extend(head);
    segment(&mut out, APP1, &[EXIF_HEAD, exif].concat());
    out.extend(rest);
    Ok(out)
}

/// What a color profile segment begins with (ICC.1:2022 annex B.4); two bytes of number and count follow.
const ICC: &[u8] = b"ICC_PROFILE\0";

/// Whether the color profile segments together are a whole profile.
fn profile_is_whole(bytes: &[u8]) -> bool {
    let mut profile = Vec::new();
    for piece in Walk::new(bytes) {
        if let Piece::Segment { marker: APP2, body, .. } = piece {
            profile.extend(body.strip_prefix(ICC).and_then(|part| part.get(2..)).unwrap_or_default());
        }
    }
    whole_profile(&profile)
}

enum Kept<'a> {
    /// Goes to the front, once.
    First(Vec<u8>),
    /// Needed to decode.
    AsIs,
    /// Needed, but only this much of it.
    Cut(&'a [u8]),
    /// Reserved, unknown or malformed.
    Never,
}

/// What of a segment goes into the copy; `None` for application data and comments that stay behind.
fn kept(marker: u8, body: &[u8], colors: bool) -> Option<Kept<'_>> {
    match marker {
        APP0 => match body {
            // Identifier, version, units and densities; the thumbnail is declared 0 × 0 (JFIF 1.02).
            &[b'J', b'F', b'I', b'F', 0, a, b, c, d, e, f, g, ..] => {
                Some(Kept::First(vec![b'J', b'F', b'I', b'F', 0, a, b, c, d, e, f, g, 0, 0]))
            }
            _ => None,
        },
        APP2 if body.starts_with(ICC) => colors.then_some(Kept::AsIs),
        // Version, two flags and the color transform: 12 bytes (Adobe Technical Note 5116), whatever more was hung on.
        APP14 if body.starts_with(b"Adobe") => body.get(..12).map(Kept::Cut),
        0xe0..=0xef | 0xfe => None,
        // A table that is not exactly a table could be anything, for example EXIF behind a flipped bit.
        _ if well_formed(marker, body) => Some(Kept::AsIs),
        _ => Some(Kept::Never),
    }
}

fn segment(out: &mut Vec<u8>, marker: u8, body: &[u8]) {
    let length = u16::try_from(body.len() + 2).unwrap_or(u16::MAX); // bodies come from segments, so they fit
    out.extend([0xff, marker]);
    out.extend(length.to_be_bytes());
    out.extend(body);
}
