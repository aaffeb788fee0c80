//! EXIF inside a JPEG: finding the block, and writing a fresh one that holds nothing but orientation and time.
//!
//! Source: CIPA DC-008-2019 (Exif 2.32) 4.5 and 4.6, TIFF 6.0 for the directory layout.

use crate::jpeg::{APP1, Piece};

/// What an EXIF APP1 segment begins with.
pub(crate) const EXIF_HEAD: &[u8] = b"Exif\0\0";
/// What an XMP APP1 segment begins with, and the further parts of a long one.
const XMP_HEADS: [&[u8]; 2] = [b"http://ns.adobe.com/xap/1.0/\0", b"http://ns.adobe.com/xmp/extension/\0"];

/// The TIFF structure inside an EXIF segment.
pub(crate) fn exif_in<'a>(piece: &Piece<'a>) -> Option<&'a [u8]> {
    match piece {
        Piece::Segment { marker: APP1, body, .. } => body.strip_prefix(EXIF_HEAD),
        _ => None,
    }
}

/// The text inside an XMP segment.
pub(crate) fn xmp_in<'a>(piece: &Piece<'a>) -> Option<&'a [u8]> {
    match piece {
        Piece::Segment { marker: APP1, body, .. } => {
            XMP_HEADS.iter().find_map(|head| body.strip_prefix(*head))
        }
        _ => None,
    }
}

/// One field of a fresh directory.
struct Entry {
    tag: u16,
    kind: u16,
    count: u32,
    /// At most 4 bytes go into the entry itself, longer ones behind the directory.
    value: Vec<u8>,
}

const ASCII: u16 = 2;
const SHORT: u16 = 3;
const LONG: u16 = 4;

impl Entry {
    fn text(tag: u16, text: &str) -> Self {
        let mut value = text.as_bytes().to_vec();
        value.push(0);
        Self { tag, kind: ASCII, count: value.len() as u32, value }
    }
    fn short(tag: u16, value: u16) -> Self {
        Self { tag, kind: SHORT, count: 1, value: value.to_be_bytes().to_vec() }
    }
    fn long(tag: u16, value: u32) -> Self {
        Self { tag, kind: LONG, count: 1, value: value.to_be_bytes().to_vec() }
    }
}

/// The directory that starts `start` bytes into the TIFF structure, with its long values behind it.
fn directory(start: u32, entries: &[Entry]) -> Vec<u8> {
    let mut head = (entries.len() as u16).to_be_bytes().to_vec();
    let mut tail: Vec<u8> = Vec::new();
    let tail_start = start + 2 + 12 * entries.len() as u32 + 4;
    for entry in entries {
        head.extend(entry.tag.to_be_bytes());
        head.extend(entry.kind.to_be_bytes());
        head.extend(entry.count.to_be_bytes());
        if entry.value.len() <= 4 {
            let mut inline = [0; 4];
            for (to, from) in inline.iter_mut().zip(&entry.value) {
                *to = *from;
            }
            head.extend(inline);
        } else {
            head.extend((tail_start + tail.len() as u32).to_be_bytes());
            tail.extend(&entry.value);
            if tail.len() % 2 == 1 {
                tail.push(0); // values start on even bytes (TIFF 6.0 section 2)
            }
        }
    }
    head.extend([0; 4]); // no next directory, so no embedded thumbnail
    head.extend(tail);
    head
}

/// A TIFF structure: orientation, and the time if there is one.
/// `time` is DateTimeOriginal, OffsetTimeOriginal and SubSecTimeOriginal in EXIF's own spelling.
pub(crate) fn fresh(orientation: u8, time: Option<(&str, Option<&str>, Option<&str>)>) -> Vec<u8> {
    const FIRST: u32 = 8;
    let mut main = vec![Entry::short(0x0112, u16::from(orientation))];
    let mut exif = Vec::new();
    if let Some((date, offset, fraction)) = time {
        let second = FIRST + 2 + 2 * 12 + 4;
        main.push(Entry::long(0x8769, second));
        let mut fields = vec![Entry::text(0x9003, date)];
        fields.extend(offset.map(|text| Entry::text(0x9011, text)));
        fields.extend(fraction.map(|text| Entry::text(0x9291, text)));
        exif = directory(second, &fields);
    }
    let mut body = b"MM\0*".to_vec();
    body.extend(FIRST.to_be_bytes());
    body.extend(directory(FIRST, &main));
    body.extend(exif);
    body // at most about 150 bytes
}
