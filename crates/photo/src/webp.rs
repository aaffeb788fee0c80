//! The structure of a WebP file (WebP Container Specification; RFC 6386 9.1 and 19.1 for VP8, RFC 9649 for VP8L).

use crate::complaint::Damage;
use crate::error::Problem;
use crate::found::Found;
use crate::size::check_size;

/// One chunk of the RIFF container.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Chunk<'a> {
    pub(crate) kind: [u8; 4],
    pub(crate) at: usize,
    pub(crate) body: &'a [u8],
}

/// Walks the chunks inside the length that the file's header says.
#[derive(Debug, Clone)]
pub(crate) struct Chunks<'a> {
    bytes: &'a [u8],
    at: usize,
    /// Where the container ends by its own word.
    end: usize,
}

impl<'a> Chunks<'a> {
    /// A walk over bytes that start with RIFF, a length and WEBP.
    pub(crate) fn new(bytes: &'a [u8]) -> Self {
        let length = bytes.get(4..8).and_then(|four| four.try_into().ok()).map_or(0, u32::from_le_bytes);
        let end = usize::try_from(length).unwrap_or(usize::MAX).saturating_add(8);
        Self { bytes, at: 12, end }
    }
    /// Where it stands and where the container says it ends.
    pub(crate) fn end(&self) -> (usize, usize) {
        (self.at, self.end)
    }
}

impl<'a> Iterator for Chunks<'a> {
    type Item = Chunk<'a>;
    fn next(&mut self) -> Option<Chunk<'a>> {
        let at = self.at;
        let rest = self.bytes.get(at..self.end.min(self.bytes.len()))?;
        let (&[k0, k1, k2, k3, l0, l1, l2, l3], behind) = rest.split_first_chunk()?;
        let length = usize::try_from(u32::from_le_bytes([l0, l1, l2, l3])).ok()?;
        let body = behind.get(..length)?;
        self.at = at + 8 + length + length % 2; // chunks start on even bytes
        Some(Chunk { kind: [k0, k1, k2, k3], at, body })
    }
}

/// What a WebP declares.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Header {
    pub(crate) at: usize,
    pub(crate) width: u32,
    pub(crate) height: u32,
    /// Stored without loss, which takes more memory to decode.
    pub(crate) lossless: bool,
    /// May hold transparency.
    pub(crate) alpha: bool,
    /// Several pictures after each other.
    pub(crate) moving: bool,
}

/// The header, its size checked.
pub(crate) fn header(bytes: &[u8]) -> Result<Header, Problem> {
    let cut = || Problem::CutOff { at: 12, bytes: bytes.len() as u64 };
    let mut chunks = Chunks::new(bytes);
    let first = chunks.next().or_else(|| first_cut(bytes)).ok_or_else(cut)?;
    let mut header =
        declared(&first).ok_or(Problem::Damaged { at: first.at as u64, what: Damage::NoPictureFirst })?;
    header.lossless |= chunks.any(|chunk| &chunk.kind == b"VP8L");
    check_size(header.at, header.width, header.height)?;
    Ok(header)
}

/// The first chunk of a file that stops inside it.
fn first_cut(bytes: &[u8]) -> Option<Chunk<'_>> {
    let (&[k0, k1, k2, k3, ..], body) = bytes.get(12..)?.split_first_chunk::<8>()?;
    Some(Chunk { kind: [k0, k1, k2, k3], at: 12, body })
}

fn declared(first: &Chunk<'_>) -> Option<Header> {
    let plain = Header { at: first.at, width: 0, height: 0, lossless: false, alpha: false, moving: false };
    match (&first.kind, first.body) {
        (b"VP8X", &[flags, _, _, _, w0, w1, w2, h0, h1, h2, ..]) => Some(Header {
            width: u32::from_le_bytes([w0, w1, w2, 0]) + 1,
            height: u32::from_le_bytes([h0, h1, h2, 0]) + 1,
            alpha: flags & 0x10 != 0,
            moving: flags & 0x02 != 0,
            ..plain
        }),
        // A frame tag, a start code, then 14 bits of size and two of a hint for showing it larger.
        (b"VP8 ", &[_, _, _, 0x9d, 0x01, 0x2a, w0, w1, h0, h1, ..]) => Some(Header {
            width: u32::from(u16::from_le_bytes([w0, w1]) & 0x3fff),
            height: u32::from(u16::from_le_bytes([h0, h1]) & 0x3fff),
            ..plain
        }),
        (b"VP8L", &[0x2f, b0, b1, b2, b3, ..]) => {
            let bits = u32::from_le_bytes([b0, b1, b2, b3]);
            let (width, height) = ((bits & 0x3fff) + 1, (bits >> 14 & 0x3fff) + 1);
            Some(Header { width, height, lossless: true, alpha: bits >> 28 & 1 == 1, ..plain })
        }
        _ => None,
    }
}

/// Reads chunks and decodes nothing.
pub(crate) fn look_over(bytes: &[u8]) -> Result<Found<Header>, Problem> {
    let header = header(bytes)?;
    let mut found = Found::new(header);
    let mut chunks = Chunks::new(bytes);
    let mut pictures = 0;
    for chunk in chunks.by_ref() {
        match &chunk.kind {
            // Some writers put the head of a JPEG segment before it.
            b"EXIF" => found.exif.push(chunk.body.strip_prefix(b"Exif\0\0").unwrap_or(chunk.body).to_vec()),
            b"XMP " => found.xmp.push(chunk.body.to_vec()),
            b"VP8 " | b"VP8L" | b"ANMF" => pictures += 1,
            _ => {}
        }
    }
    let (at, end) = chunks.end();
    if at < end.saturating_sub(1) || end > bytes.len() {
        if pictures == 0 && first_cut(bytes).is_none_or(|chunk| !matches!(&chunk.kind, b"VP8 " | b"VP8L")) {
            return Err(Problem::CutOff { at: at as u64, bytes: bytes.len() as u64 });
        }
        found.complaints.push(crate::intake::stops(bytes.len()));
    } else if end < bytes.len() {
        found.complaints.push(crate::intake::trailing(bytes.len() - end));
    }
    Ok(found)
}
