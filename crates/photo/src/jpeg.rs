//! The structure of a JPEG file (ITU-T T.81 annex B): its segments, its scans, its declared size.
//!
//! Reads markers only, decodes nothing, allocates nothing.

use crate::complaint::{Damage, Reason};
use crate::error::Problem;
use crate::size::{check_size, too_much_memory};

pub(crate) const SOI: [u8; 2] = [0xff, 0xd8];
pub(crate) const EOI: [u8; 2] = [0xff, 0xd9];
pub(crate) const SOS: u8 = 0xda;
pub(crate) const APP0: u8 = 0xe0;
pub(crate) const APP1: u8 = 0xe1;
pub(crate) const APP2: u8 = 0xe2;
pub(crate) const APP14: u8 = 0xee;

/// One piece of a JPEG file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Piece<'a> {
    /// A marker with a length: `body` is what follows the two length bytes, `at` where the marker's 0xFF is.
    Segment { marker: u8, at: usize, body: &'a [u8] },
    /// Entropy-coded data of one scan, restart markers included.
    Scan { data: &'a [u8] },
}

/// How the walk ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum End {
    /// Not yet.
    Walking,
    /// At the end-of-image marker; `after` is the first byte behind it.
    Image { after: usize },
    /// The file stops inside the part that starts at `at`.
    RanOut { at: usize },
    /// Something that cannot stand where it stands.
    Broken { at: usize, what: Damage },
}

/// Walks a JPEG from its start-of-image marker to the first end-of-image marker. Bytes between segments that are
/// no marker are passed over, as decoders do.
#[derive(Debug, Clone)]
pub(crate) struct Walk<'a> {
    bytes: &'a [u8],
    at: usize,
    in_scan: bool,
    /// Whether a scan has been met.
    scanned: bool,
    stray: Option<usize>,
    end: End,
}

impl<'a> Walk<'a> {
    /// A walk over bytes that start with the SOI marker.
    pub(crate) fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: SOI.len(), in_scan: false, scanned: false, stray: None, end: End::Walking }
    }
    /// Where bytes were passed over behind the first scan. Before it they are padding; behind it they are picture
    /// data in which a marker was made by damage.
    pub(crate) fn stray(&self) -> Option<usize> {
        self.stray
    }
    fn pass_over(&mut self, at: usize) {
        if self.scanned {
            self.stray = self.stray.or(Some(at));
        }
    }
    /// How the walk ended, once it has.
    pub(crate) fn end(&self) -> End {
        self.end
    }
    fn byte(&self, at: usize) -> Option<u8> {
        self.bytes.get(at).copied()
    }
    fn stop(&mut self, end: End) -> Option<Piece<'a>> {
        self.end = end;
        None
    }

    /// The entropy-coded data up to the next marker that is no restart marker (T.81 B.1.1.5).
    fn scan(&mut self) -> Piece<'a> {
        let start = self.at;
        let mut from = start;
        let stop = loop {
            let rest = self.bytes.get(from..).unwrap_or_default();
            let Some(found) = rest.iter().position(|&byte| byte == 0xff) else {
                break self.bytes.len();
            };
            let first = from + found;
            let mut code = first + 1;
            while self.byte(code) == Some(0xff) {
                code += 1; // fill bytes
            }
            match self.byte(code) {
                Some(0x00 | 0xd0..=0xd7) => from = code + 1,
                Some(_) => break first,
                None => break self.bytes.len(),
            }
        };
        self.at = stop;
        self.in_scan = false;
        Piece::Scan { data: self.bytes.get(start..stop).unwrap_or_default() }
    }

    fn segment(&mut self) -> Option<Piece<'a>> {
        let (at, marker) = loop {
            let rest = self.bytes.get(self.at..).unwrap_or_default();
            let Some(found) = rest.iter().position(|&byte| byte == 0xff) else {
                if !rest.is_empty() {
                    self.pass_over(self.at);
                }
                return self.stop(End::RanOut { at: self.at });
            };
            if found > 0 {
                self.pass_over(self.at);
            }
            let first = self.at + found;
            let mut code = first + 1;
            while self.byte(code) == Some(0xff) {
                code += 1;
            }
            let Some(marker) = self.byte(code) else {
                return self.stop(End::RanOut { at: first });
            };
            self.at = code + 1;
            match marker {
                0x00 | 0x01 | 0xd0..=0xd7 => self.pass_over(first), // stuffing, TEM, restart: nothing out here
                0xd8 => return self.stop(End::Broken { at: first, what: Damage::SecondStart }),
                0xd9 => return self.stop(End::Image { after: code + 1 }),
                _ => break (first, marker),
            }
        };
        let (Some(high), Some(low)) = (self.byte(self.at), self.byte(self.at + 1)) else {
            return self.stop(End::RanOut { at });
        };
        let length = usize::from(u16::from_be_bytes([high, low]));
        if length < 2 {
            return self.stop(End::Broken { at, what: Damage::ShortSegment });
        }
        let Some(body) = self.bytes.get(self.at + 2..self.at + length) else {
            return self.stop(End::RanOut { at });
        };
        self.at += length;
        self.in_scan = marker == SOS;
        self.scanned |= self.in_scan;
        Some(Piece::Segment { marker, at, body })
    }
}

impl<'a> Iterator for Walk<'a> {
    type Item = Piece<'a>;
    fn next(&mut self) -> Option<Piece<'a>> {
        match self.end {
            End::Walking if self.in_scan => Some(self.scan()),
            End::Walking => self.segment(),
            _ => None,
        }
    }
}

/// What a frame header declares (T.81 B.2.2).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Frame {
    /// Where its marker is.
    pub(crate) at: usize,
    /// The last digit of its marker: 0 baseline, 1 extended, 2 progressive, others not decoded here.
    pub(crate) process: u8,
    /// Bits per sample.
    pub(crate) precision: u8,
    /// Number of color components.
    pub(crate) components: u8,
    /// Declared size as stored.
    pub(crate) width: u32,
    pub(crate) height: u32,
    /// Samples of all components together for every 64 pixels of the picture.
    samples_per_64: u32,
}

impl Frame {
    /// The frame header in this piece, if it is one.
    pub(crate) fn of(piece: &Piece<'_>) -> Option<Result<Self, Problem>> {
        let Piece::Segment { marker: marker @ 0xc0..=0xcf, at, body } = *piece else { return None };
        if matches!(marker, 0xc4 | 0xc8 | 0xcc) {
            return None; // Huffman tables, a reserved code, arithmetic conditioning
        }
        let &[precision, h1, h0, w1, w0, components, ref each @ ..] = body else {
            let what = Damage::ShortFrame;
            return Some(Err(Problem::Damaged { at: at as u64, what }));
        };
        Some(Ok(Self {
            at,
            process: marker & 0x0f,
            precision,
            components,
            width: u32::from(u16::from_be_bytes([w1, w0])),
            height: u32::from(u16::from_be_bytes([h1, h0])),
            samples_per_64: samples_per_64(each),
        }))
    }

    /// Refuses a size that no camera stores or that would exhaust memory, by declaration alone.
    pub(crate) fn check_size(&self) -> Result<(), Problem> {
        check_size(self.at, self.width, self.height)
    }

    /// Bytes held at once when it is decoded small: a progressive picture keeps every coefficient (two bytes each)
    /// until its last scan, a sequential one next to nothing.
    fn memory(&self) -> u64 {
        if self.process != 2 {
            return 0;
        }
        u64::from(self.width) * u64::from(self.height) * u64::from(self.samples_per_64) * 2 / 64
    }

    /// Why this kind of JPEG gets no preview here, if it gets none.
    pub(crate) fn no_preview(&self) -> Option<Reason> {
        match (self.process, self.precision, self.components) {
            (0..=2, 8, 1 | 3 | 4) => too_much_memory(self.memory()),
            (0..=2, 8, n) => Some(Reason::Components { count: n }),
            (0..=2, bits, _) => Some(Reason::Bits { bits }),
            (process, ..) => Some(Reason::Process { process }),
        }
    }
}

/// How many samples the components (identifier, sampling factors, table: three bytes each) have for 64 pixels.
fn samples_per_64(components: &[u8]) -> u32 {
    let factors = || components.chunks_exact(3).map(|c| (u32::from(c[1] >> 4), u32::from(c[1] & 15)));
    let across = factors().map(|(h, _)| h).max().unwrap_or(1).max(1);
    let down = factors().map(|(_, v)| v).max().unwrap_or(1).max(1);
    factors().map(|(h, v)| (64 * h * v).div_ceil(across * down)).sum::<u32>().max(64)
}

/// The size declared by the first frame header, checked; bytes after the frame header are not looked at.
pub(crate) fn declared_frame(bytes: &[u8]) -> Result<Frame, Problem> {
    let mut walk = Walk::new(bytes);
    let frame =
        walk.by_ref().find_map(|piece| Frame::of(&piece)).ok_or_else(|| no_picture(walk.end(), bytes))??;
    frame.check_size()?;
    Ok(frame)
}

/// What to say when the walk ended before there was a picture.
pub(crate) fn no_picture(end: End, bytes: &[u8]) -> Problem {
    match end {
        End::Broken { at, what } => Problem::Damaged { at: at as u64, what },
        End::Image { after } => Problem::Damaged { at: after as u64, what: Damage::EndsBefore },
        End::RanOut { at } => Problem::CutOff { at: at as u64, bytes: bytes.len() as u64 },
        End::Walking => Problem::CutOff { at: 0, bytes: bytes.len() as u64 },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frame(process: u8, width: u16, height: u16) -> Vec<u8> {
        let mut bytes = vec![0xff, 0xd8, 0xff, 0xc0 + process, 0, 11, 8];
        bytes.extend(height.to_be_bytes());
        bytes.extend(width.to_be_bytes());
        bytes.extend([1, 1, 0x11, 0]);
        bytes
    }

    #[test]
    fn stuffing_restarts_and_fill_bytes_stay_in_the_scan_and_the_marker_ends_it() {
        let mut bytes = SOI.to_vec();
        bytes.extend([0xff, 0xff, SOS, 0, 3, 7]); // a fill byte before the marker
        bytes.extend([1, 0xff, 0, 2, 0xff, 0xd3, 3, 0xff, 0xff, 0, 4, 0xff, 0xff]);
        bytes.extend([0xd9, 9, 9]);
        let mut walk = Walk::new(&bytes);
        let pieces: Vec<_> = walk.by_ref().collect();
        let data: &[u8] = &[1, 0xff, 0, 2, 0xff, 0xd3, 3, 0xff, 0xff, 0, 4];
        assert_eq!(pieces, [Piece::Segment { marker: SOS, at: 2, body: &[7] }, Piece::Scan { data }]);
        assert_eq!(walk.end(), End::Image { after: bytes.len() - 2 });
    }

    #[test]
    fn a_progressive_picture_is_counted_with_all_its_coefficients() {
        let frame = |process: u8, components: &[u8]| {
            let mut body = vec![8, 0x17, 0xa0, 0x1f, 0x80, components.len() as u8 / 3]; // 6048 lines of 8064
            body.extend(components);
            Frame::of(&Piece::Segment { marker: 0xc0 + process, at: 0, body: &body }).unwrap().unwrap()
        };
        let (quarter, full) = ([1, 0x22, 0, 2, 0x11, 1, 3, 0x11, 1], [1, 0x11, 0, 2, 0x11, 1, 3, 0x11, 1]);
        assert_eq!(frame(2, &quarter).memory(), 8064 * 6048 * 3 / 2 * 2);
        assert_eq!(frame(2, &full).memory(), 8064 * 6048 * 3 * 2);
        assert_eq!((frame(0, &full).memory(), frame(0, &full).no_preview()), (0, None));
        assert_eq!(frame(2, &quarter).no_preview(), None);
        assert!(frame(2, &full).no_preview().unwrap().to_string().contains("292 MB"));
    }

    #[test]
    fn the_header_cut_at_every_byte_is_an_error_that_says_where() {
        let whole = frame(0, 40, 30);
        for cut in 1..whole.len() {
            let problem = declared_frame(&whole[..cut]).unwrap_err();
            assert!(
                matches!(problem, Problem::CutOff { bytes, .. } if bytes == cut as u64),
                "{cut}: {problem:?}"
            );
        }
    }
}
