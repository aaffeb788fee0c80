//! A clean PNG: the chunks that make the picture and its colors, copied unchanged, and a fresh eXIf.

use std::io::Write as _;

use flate2::Compression;
use flate2::write::ZlibEncoder;

use super::whole_profile;
use crate::complaint::Damage;
use crate::error::Problem;
use crate::png::{Chunk, Chunks, SIGNATURE, unpacked};

/// The copy. Texts, times, histograms, further pictures of a moving one and unknown chunks stay behind; an unknown
/// chunk that decoding would need (5.4) refuses the copy.
pub(super) fn clean(bytes: &[u8], exif: &[u8]) -> Result<Vec<u8>, Problem> {
    let mut out = SIGNATURE.to_vec();
    let mut with_exif = false;
    let mut ended = false;
    for chunk in Chunks::new(bytes) {
        if &chunk.kind == b"IDAT" && !with_exif {
            // Before the picture, where a reader that stops early still meets it.
            out.extend(written(*b"eXIf", exif));
            with_exif = true;
        }
        match kept(&chunk) {
            Some(true) if &chunk.kind == b"iCCP" => {
                // Its name could tell something, and so could bytes behind the packed profile: both are made anew.
                out.extend(profile(chunk.body).map(|body| written(*b"iCCP", &body)).unwrap_or_default());
            }
            Some(true) => out.extend(chunk.whole),
            Some(false) => {}
            None => {
                let what = Damage::UnknownChunk;
                return Err(Problem::Damaged { at: chunk.at as u64, what });
            }
        }
        ended |= &chunk.kind == b"IEND";
    }
    if !ended {
        let what = Damage::StopsBeforeLast;
        return Err(Problem::Damaged { at: bytes.len() as u64, what });
    }
    Ok(out)
}

/// Whether a chunk goes into the copy; `None` when nobody can say what it holds. Chunks of a fixed length (11.2, 11.3)
/// stay only at that length.
fn kept(chunk: &Chunk<'_>) -> Option<bool> {
    let length = chunk.body.len();
    match &chunk.kind {
        b"IHDR" => (length == 13).then_some(true),
        b"PLTE" => (length <= 768 && length.is_multiple_of(3)).then_some(true),
        b"IDAT" => Some(true),
        b"IEND" => (length == 0).then_some(true),
        b"tRNS" => Some(length <= 256),
        b"gAMA" => Some(length == 4),
        b"cHRM" => Some(length == 32),
        b"sRGB" => Some(length == 1),
        b"sBIT" | b"cICP" => Some(length <= 4),
        b"pHYs" => Some(length == 9),
        b"iCCP" => Some(true),
        // A small first letter: a reader may pass it over (5.4).
        kind => kind[0].is_ascii_lowercase().then_some(false),
    }
}

/// The body of a profile chunk under a plain name, if the profile in this one is whole.
fn profile(body: &[u8]) -> Option<Vec<u8>> {
    let end = body.iter().position(|&byte| byte == 0)?;
    let profile = unpacked(body.get(end + 2..)?).filter(|profile| whole_profile(profile))?;
    let mut packer = ZlibEncoder::new(b"icc\0\0".to_vec(), Compression::default());
    packer.write_all(&profile).ok()?;
    packer.finish().ok()
}

fn written(kind: [u8; 4], body: &[u8]) -> Vec<u8> {
    let mut out = (body.len() as u32).to_be_bytes().to_vec(); // small: a fresh block, a profile
    out.extend(kind);
    out.extend(body);
    let sum = crc32fast::hash(out.get(4..).unwrap_or_default());
    out.extend(sum.to_be_bytes());
    out
}
