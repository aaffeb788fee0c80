//! The structure of a PNG file (W3C PNG third edition, 5 and 11): its chunks, its declared size, where EXIF hides.
//!
//! EXIF stands in an eXIf chunk; programs older than that chunk wrote it as hexadecimal text under a "raw profile"
//! keyword, and XMP stands in an iTXt chunk.

use std::io::Read as _;

use flate2::read::ZlibDecoder;

use crate::complaint::Damage;
use crate::error::Problem;
use crate::found::Found;
use crate::size::check_size;

pub(crate) const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";
/// The most bytes a compressed text is unpacked to.
const MAX_TEXT: u64 = 4 << 20;

/// One chunk.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Chunk<'a> {
    pub(crate) kind: [u8; 4],
    pub(crate) at: usize,
    pub(crate) body: &'a [u8],
    /// The whole chunk: length, kind, body, checksum.
    pub(crate) whole: &'a [u8],
}

/// Walks the chunks up to and with IEND.
#[derive(Debug, Clone)]
pub(crate) struct Chunks<'a> {
    bytes: &'a [u8],
    at: usize,
    ended: bool,
}

impl<'a> Chunks<'a> {
    /// A walk over bytes that start with the signature.
    pub(crate) fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: SIGNATURE.len(), ended: false }
    }
    /// Where it stands, and whether IEND has been met.
    pub(crate) fn end(&self) -> (usize, bool) {
        (self.at, self.ended)
    }
}

impl<'a> Iterator for Chunks<'a> {
    type Item = Chunk<'a>;
    fn next(&mut self) -> Option<Chunk<'a>> {
        if self.ended {
            return None;
        }
        let at = self.at;
        let rest = self.bytes.get(at..)?;
        let (&[l3, l2, l1, l0, k0, k1, k2, k3], _) = rest.split_first_chunk()?;
        let length = usize::try_from(u32::from_be_bytes([l3, l2, l1, l0])).ok()?;
        let whole = rest.get(..length.checked_add(12)?)?;
        let body = whole.get(8..8 + length)?;
        self.at = at + whole.len();
        let kind = [k0, k1, k2, k3];
        self.ended = &kind == b"IEND";
        Some(Chunk { kind, at, body, whole })
    }
}

/// What the header declares (11.2.1).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Header {
    pub(crate) width: u32,
    pub(crate) height: u32,
    /// All rows come seven times, so that none is whole before the end.
    pub(crate) interlaced: bool,
    /// Bytes for each pixel as the decoder gives it: at most 4 channels of 8 bits.
    pub(crate) channels: u8,
}

/// The header, its size checked.
pub(crate) fn header(bytes: &[u8]) -> Result<Header, Problem> {
    let at = SIGNATURE.len();
    let Some(first) = Chunks::new(bytes).next() else {
        return Err(Problem::CutOff { at: at as u64, bytes: bytes.len() as u64 });
    };
    let &[w3, w2, w1, w0, h3, h2, h1, h0, _, color, .., interlace] = first.body else {
        return Err(Problem::Damaged { at: at as u64, what: Damage::NoHeader });
    };
    if &first.kind != b"IHDR" || first.body.len() != 13 {
        return Err(Problem::Damaged { at: at as u64, what: Damage::NoHeader });
    }
    let (width, height) = (u32::from_be_bytes([w3, w2, w1, w0]), u32::from_be_bytes([h3, h2, h1, h0]));
    check_size(at, width, height)?;
    let channels = match color {
        0 => 1,
        4 => 2,
        2 => 3,
        _ => 4, // palettes too, which may hold transparency
    };
    Ok(Header { width, height, interlaced: interlace != 0, channels })
}

/// Reads chunks and decodes nothing.
pub(crate) fn look_over(bytes: &[u8]) -> Result<Found<Header>, Problem> {
    let header = header(bytes)?;
    let mut found = Found::new(header);
    let mut chunks = Chunks::new(bytes);
    let mut pixels = false;
    let mut profiles = Vec::new();
    for chunk in chunks.by_ref() {
        match &chunk.kind {
            b"eXIf" => found.exif.push(chunk.body.strip_prefix(b"Exif\0\0").unwrap_or(chunk.body).to_vec()),
            b"tEXt" | b"zTXt" | b"iTXt" => match text(&chunk) {
                Some((b"XML:com.adobe.xmp", text)) => found.xmp.push(text),
                Some((b"Raw profile type exif" | b"Raw profile type APP1", text)) => {
                    profiles.extend(raw_profile(&text));
                }
                Some((b"Raw profile type xmp", text)) => found.xmp.extend(raw_profile(&text)),
                _ => {}
            },
            b"IDAT" => pixels = true,
            _ => {}
        }
    }
    for profile in profiles {
        match profile.strip_prefix(b"Exif\0\0") {
            Some(exif) => found.exif.push(exif.to_vec()),
            None if profile.starts_with(b"http") => found.xmp.push(profile),
            None => found.exif.push(profile),
        }
    }
    let (at, ended) = chunks.end();
    let begun = bytes.get(at + 4..at + 8) == Some(b"IDAT"); // the chunk the file stops in
    if !pixels && !begun {
        return Err(Problem::CutOff { at: at as u64, bytes: bytes.len() as u64 });
    }
    match (ended, bytes.len() - at) {
        (true, 0) => {}
        (true, more) => found.complaints.push(crate::intake::trailing(more)),
        (false, _) => found.complaints.push(crate::intake::stops(bytes.len())),
    }
    Ok(found)
}

/// Keyword and text of a text chunk, unpacked (11.3.3).
fn text<'a>(chunk: &Chunk<'a>) -> Option<(&'a [u8], Vec<u8>)> {
    let end = chunk.body.iter().position(|&byte| byte == 0)?;
    let (keyword, rest) = (chunk.body.get(..end)?, chunk.body.get(end + 1..)?);
    let text = match &chunk.kind {
        b"tEXt" => rest.to_vec(),
        b"zTXt" => unpacked(rest.get(1..)?)?,
        // Compression flag and method, then language and translated keyword, each ended by a zero.
        b"iTXt" => {
            let mut parts = rest.get(2..)?.splitn(3, |&byte| byte == 0);
            let text = parts.nth(2)?;
            if rest.first() == Some(&1) { unpacked(text)? } else { text.to_vec() }
        }
        _ => return None,
    };
    Some((keyword, text))
}

/// At most [`MAX_TEXT`] bytes of what was packed; what comes before an error counts.
pub(crate) fn unpacked(packed: &[u8]) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    let read = ZlibDecoder::new(packed).take(MAX_TEXT).read_to_end(&mut out);
    (read.is_ok() || !out.is_empty()).then_some(out)
}

/// The bytes of a raw profile: a name, a count and hexadecimal digits, each on lines of their own (common practice of
/// picture programs, no source).
fn raw_profile(text: &[u8]) -> Option<Vec<u8>> {
    let mut lines = text.split(|&byte| byte == b'\n').filter(|line| !line.is_empty());
    let count: usize = std::str::from_utf8(lines.nth(1)?).ok()?.trim().parse().ok()?;
    let digits: Vec<u8> = lines
        .flatten()
        .filter_map(|&digit| char::from(digit).to_digit(16))
        .map(|digit| digit as u8) // below 16
        .collect();
    let bytes = digits.chunks_exact(2).map(|pair| pair[0] << 4 | pair[1]).take(count).collect();
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_raw_profile_is_read_by_its_count_and_junk_is_none() {
        assert_eq!(raw_profile(b"\nexif\n      5\n4578\n6966\n00ff\n"), Some(b"Exif\0".to_vec()));
        assert_eq!(raw_profile(b"\nexif\n 99\n45"), Some(b"E".to_vec()));
        assert_eq!(raw_profile(b"exif"), None);
        assert_eq!(raw_profile(b"exif\nmany\n45"), None);
    }
}
