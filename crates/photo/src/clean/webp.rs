//! A clean WebP: the coded picture, its transparency and its color profile copied unchanged, and a fresh EXIF chunk.

use super::whole_profile;
use crate::complaint::Damage;
use crate::error::Problem;
use crate::webp::{Chunks, header};

const PROFILE: u8 = 0x20;
const ALPHA: u8 = 0x10;
const EXIF: u8 = 0x08;

/// The copy. XMP and unknown chunks stay behind; a moving picture is not copied, because every one of its parts can
/// hold chunks of its own.
pub(super) fn clean(bytes: &[u8], exif: &[u8]) -> Result<Vec<u8>, Problem> {
    let declared = header(bytes)?;
    let mut chunks = Vec::new();
    let (mut flags, mut pictures) = (EXIF, 0);
    if declared.alpha {
        flags |= ALPHA;
    }
    let mut walk = Chunks::new(bytes);
    for chunk in walk.by_ref() {
        match &chunk.kind {
            b"VP8 " | b"VP8L" => pictures += 1,
            b"ALPH" => {}
            b"ICCP" if whole_profile(chunk.body) => flags |= PROFILE,
            b"ANIM" | b"ANMF" => {
                let what = Damage::Moving;
                return Err(Problem::Damaged { at: chunk.at as u64, what });
            }
            _ => continue,
        }
        // The order the container asks for: profile, transparency, picture.
        let place = match &chunk.kind {
            b"ICCP" => 0,
            b"ALPH" => 1,
            _ => 2,
        };
        chunks.push((place, chunk));
    }
    let (at, _) = walk.end();
    if pictures != 1 {
        let what = Damage::NotOneWhole;
        return Err(Problem::Damaged { at: at as u64, what });
    }
    chunks.sort_by_key(|(place, _)| *place);
    let mut body = b"WEBP".to_vec();
    let mut head = vec![flags, 0, 0, 0];
    head.extend(declared.width.saturating_sub(1).to_le_bytes().into_iter().take(3));
    head.extend(declared.height.saturating_sub(1).to_le_bytes().into_iter().take(3));
    write(&mut body, *b"VP8X", &head);
    for (_, chunk) in &chunks {
        write(&mut body, chunk.kind, chunk.body);
    }
    write(&mut body, *b"EXIF", exif);
    let mut out = b"RIFF".to_vec();
    out.extend((body.len() as u32).to_le_bytes()); // parts of a file whose own length is such a number
    out.extend(body);
    Ok(out)
}

fn write(out: &mut Vec<u8>, kind: [u8; 4], body: &[u8]) {
    out.extend(kind);
    out.extend((body.len() as u32).to_le_bytes());
    out.extend(body);
    if !body.len().is_multiple_of(2) {
        out.push(0);
    }
}
