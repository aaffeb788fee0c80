//! The structure of a HEIF file (ISO/IEC 23008-12 and 14496-12): size and turn of its primary picture, its EXIF.
//!
//! Nothing is decoded. The container itself says how the picture is turned for showing (`irot`); EXIF's orientation
//! says the same again for programs that do not know that, and applying both would turn the picture twice. EXIF is
//! read here and not by the EXIF library, which stops at 64 kB; phones write more.

use crate::complaint::{Complaint, Damage};
use crate::error::Problem;
use crate::size::MAX_RATIO;

/// The most items that are looked at: a large picture is put together of a few hundred tiles.
const MAX_ITEMS: usize = 20_000;
/// The most pieces all items together may be in.
const MAX_PIECES: usize = 100_000;
/// The most EXIF and XMP items that are read.
const MAX_READ: usize = 16;
/// The most bytes of metadata gathered from a file.
const MAX_GATHERED: usize = 16 << 20;

/// What a HEIF file says of its primary picture.
#[derive(Debug, Default)]
pub(crate) struct Found {
    /// Size as stored.
    pub(crate) width: u32,
    pub(crate) height: u32,
    /// Size that is left where the container crops it (`clap`), before turning.
    cropped: Option<(u32, u32)>,
    /// Whether showing it exchanges rows and columns.
    pub(crate) lies: bool,
    /// The EXIF orientation that turns it as the container does (1, 3, 6 or 8), where turning is all the container does.
    #[cfg_attr(not(feature = "heic"), allow(dead_code, reason = "only what is decoded is turned"))]
    pub(crate) turned: Option<u8>,
    pub(crate) exif: Vec<Vec<u8>>,
    pub(crate) xmp: Vec<Vec<u8>>,
    pub(crate) complaints: Vec<Complaint>,
}

impl Found {
    /// Width and height as the container has the picture shown: cropped and turned.
    pub(crate) fn shown(&self) -> (u32, u32) {
        let (width, height) = self.cropped.unwrap_or((self.width, self.height));
        if self.lies { (height, width) } else { (width, height) }
    }
}

/// Reads big-endian numbers; every read past the end is `None`.
#[derive(Clone, Copy)]
struct Reader<'a>(&'a [u8]);

impl<'a> Reader<'a> {
    fn take(&mut self, count: usize) -> Option<&'a [u8]> {
        let (now, later) = self.0.split_at_checked(count)?;
        self.0 = later;
        Some(now)
    }
    /// A number of 0, 1, 2, 4 or 8 bytes.
    fn number(&mut self, bytes: usize) -> Option<u64> {
        Some(self.take(bytes)?.iter().fold(0, |value, &byte| value << 8 | u64::from(byte)))
    }
    fn small(&mut self, bytes: usize) -> Option<u32> {
        u32::try_from(self.number(bytes)?).ok()
    }
    fn kind(&mut self) -> Option<[u8; 4]> {
        self.take(4)?.try_into().ok()
    }
    /// Version and flags of a full box.
    fn version(&mut self) -> Option<(u8, u32)> {
        let version = self.small(1)?;
        Some((version as u8, self.small(3)?)) // one byte was read
    }
    /// The next box: kind and content. A box of size 0 goes to the end; one that is cut off ends with the file.
    fn boxed(&mut self) -> Option<([u8; 4], Reader<'a>)> {
        let size = self.number(4)?;
        let kind = self.kind()?;
        let content = match size {
            0 => self.0.len(),
            1 => usize::try_from(self.number(8)?.checked_sub(16)?).ok()?,
            size => usize::try_from(size.checked_sub(8)?).ok()?,
        };
        let content = self.take(content.min(self.0.len()))?;
        Some((kind, Reader(content)))
    }
}

/// Where the bytes of an item are: from the start of the file or of the item data box, in pieces.
struct Located {
    id: u32,
    in_box: bool,
    pieces: Vec<(u64, u64)>,
}

#[derive(Default)]
struct Meta<'a> {
    primary: Option<u32>,
    /// Number and kind; `mime` only where it is XMP.
    items: Vec<(u32, [u8; 4])>,
    located: Vec<Located>,
    properties: Vec<([u8; 4], &'a [u8])>,
    /// Item and the numbers of its properties, from 1.
    associations: Vec<(u32, Vec<u32>)>,
    data: &'a [u8],
}

/// Reads boxes and decodes nothing.
pub(crate) fn look_over(bytes: &[u8]) -> Result<Found, Problem> {
    let mut top = Reader(bytes);
    let mut meta = None;
    while let Some((kind, content)) = top.boxed() {
        if &kind == b"meta" && meta.is_none() {
            meta = Some(content);
        }
    }
    let cut = Problem::CutOff { at: 0, bytes: bytes.len() as u64 };
    let meta = read_meta(meta.ok_or(cut)?).unwrap_or_default();
    let mut found = Found { turned: Some(1), ..Found::default() };
    let properties = meta.primary.map(|id| properties_of(&meta, id)).unwrap_or_default();
    for (kind, body) in properties {
        match (kind, body) {
            (b"ispe", &[_, _, _, _, w3, w2, w1, w0, h3, h2, h1, h0, ..]) => {
                found.width = u32::from_be_bytes([w3, w2, w1, w0]);
                found.height = u32::from_be_bytes([h3, h2, h1, h0]);
            }
            // Cropping stands before turning (23008-12 6.5.1 lets a file order them so, and cameras do).
            (b"clap", body) => (found.cropped, found.turned) = (cropped(body), None),
            (b"imir", _) => found.turned = None,
            (b"irot", &[angle, ..]) => {
                found.lies ^= angle & 1 == 1;
                // A second turn is left to the decoder.
                found.turned = match (found.turned, angle & 3) {
                    (Some(1), quarters) => Some([1, 8, 3, 6][usize::from(quarters)]),
                    _ => None,
                };
            }
            _ => {}
        }
    }
    let (width, height) = (found.width, found.height);
    if width == 0 || height == 0 {
        return Err(Problem::Damaged { at: 0, what: Damage::NoSizeSaid });
    }
    if u64::from(width.max(height)) > u64::from(MAX_RATIO) * u64::from(width.min(height)) {
        return Err(Problem::TooNarrow { at: 0, width, height, limit: MAX_RATIO });
    }
    let end = |(start, length): &(u64, u64)| start.checked_add(*length);
    let within = |piece: &(u64, u64)| end(piece).is_some_and(|end| end <= bytes.len() as u64);
    let outside = |located: &Located| !located.in_box && !located.pieces.iter().all(within);
    let mut short = meta.items.len() >= MAX_ITEMS || meta.located.iter().any(outside);
    let told = meta.items.iter().filter(|(_, kind)| kind == b"Exif" || kind == b"mime");
    for (id, kind) in told.take(MAX_READ) {
        match gathered(bytes, &meta, *id) {
            Some(body) if kind == b"mime" => found.xmp.push(body),
            Some(body) => {
                // The item starts with how far behind its first four bytes the TIFF structure begins.
                let mut reader = Reader(&body);
                let from = reader.number(4).and_then(|skip| usize::try_from(skip).ok());
                match from.and_then(|from| reader.0.get(from..)) {
                    Some(tiff) => found.exif.push(tiff.to_vec()),
                    None => short = true,
                }
            }
            None => short = true,
        }
    }
    if short {
        found.complaints.push(Complaint::PartMissing);
    }
    Ok(found)
}

fn read_meta(mut meta: Reader<'_>) -> Option<Meta<'_>> {
    meta.version()?;
    let mut out = Meta::default();
    while let Some((kind, mut content)) = meta.boxed() {
        // A part that cannot be read leaves the others standing.
        let _read = match &kind {
            b"pitm" => content.version().and_then(|(version, _)| {
                out.primary = content.small(if version == 0 { 2 } else { 4 });
                out.primary
            }),
            b"iinf" => items(content, &mut out.items),
            b"iloc" => locations(content, &mut out.located),
            b"iprp" => properties(content, &mut out),
            b"idat" => {
                out.data = content.0;
                Some(0)
            }
            _ => None,
        };
    }
    Some(out)
}

/// Item information (14496-12 8.11.6).
fn items(mut content: Reader<'_>, out: &mut Vec<(u32, [u8; 4])>) -> Option<u32> {
    let (version, _) = content.version()?;
    let count = content.small(if version == 0 { 2 } else { 4 })?;
    while let Some((kind, mut entry)) = content.boxed().filter(|_| out.len() < MAX_ITEMS) {
        let (version, _) = entry.version()?;
        if &kind != b"infe" || version < 2 {
            continue;
        }
        let id = entry.small(if version == 2 { 2 } else { 4 })?;
        entry.small(2)?; // protection
        let what = entry.kind()?;
        // A mime item's name and content type follow, each ended by a zero.
        let is_xmp = || entry.0.split(|&byte| byte == 0).nth(1) == Some(b"application/rdf+xml");
        if &what != b"mime" || is_xmp() {
            out.push((id, what));
        }
    }
    Some(count)
}

/// Item locations (14496-12 8.11.3).
fn locations(mut content: Reader<'_>, out: &mut Vec<Located>) -> Option<u32> {
    let (version, _) = content.version()?;
    let sizes = content.small(2)?;
    let size = |shift: u32| (sizes >> shift & 15) as usize;
    let (offset, length, base, index) = (size(12), size(8), size(4), if version == 0 { 0 } else { size(0) });
    let wide = if version < 2 { 2 } else { 4 };
    let count = content.small(wide)?;
    let mut left = MAX_PIECES; // a piece may be said in no bytes at all
    for _ in 0..count.min(MAX_ITEMS as u32) {
        let id = content.small(wide)?;
        let in_box = version > 0 && content.small(2)? & 15 == 1;
        content.small(2)?; // which file: always this one
        let start = content.number(base)?;
        let mut pieces = Vec::new();
        for _ in 0..content.small(2)? {
            left = left.checked_sub(1)?;
            content.number(index)?;
            let piece = (start.checked_add(content.number(offset)?)?, content.number(length)?);
            pieces.push(piece);
        }
        out.push(Located { id, in_box, pieces });
    }
    Some(count)
}

/// Properties and which item has which (23008-12 9.3).
fn properties<'a>(mut content: Reader<'a>, out: &mut Meta<'a>) -> Option<u32> {
    while let Some((kind, mut inside)) = content.boxed() {
        match &kind {
            b"ipco" => {
                while let Some((kind, body)) = inside.boxed().filter(|_| out.properties.len() < MAX_ITEMS) {
                    out.properties.push((kind, body.0));
                }
            }
            b"ipma" => {
                let (version, flags) = inside.version()?;
                for _ in 0..inside.small(4)?.min(MAX_ITEMS as u32) {
                    let id = inside.small(if version == 0 { 2 } else { 4 })?;
                    let mut numbers = Vec::new();
                    for _ in 0..inside.small(1)? {
                        let wide = flags & 1 == 1;
                        let number = inside.small(if wide { 2 } else { 1 })?;
                        numbers.push(number & if wide { 0x7fff } else { 0x7f });
                    }
                    out.associations.push((id, numbers));
                }
            }
            _ => {}
        }
    }
    Some(0)
}

/// Width and height of a clean aperture (14496-12 12.1.4), where they are whole pixels.
fn cropped(body: &[u8]) -> Option<(u32, u32)> {
    let mut reader = Reader(body);
    let mut side = || {
        let (over, under) = (reader.small(4)?, reader.small(4)?);
        (over > 0 && under > 0 && over % under == 0).then(|| over / under)
    };
    Some((side()?, side()?))
}

fn properties_of<'m>(meta: &'m Meta<'_>, id: u32) -> Vec<(&'m [u8; 4], &'m [u8])> {
    let numbers = meta.associations.iter().filter(|(of, _)| *of == id).flat_map(|(_, numbers)| numbers);
    let property = |number: &u32| meta.properties.get((*number as usize).checked_sub(1)?);
    numbers.filter_map(property).map(|(kind, body)| (kind, *body)).collect()
}

/// The bytes of an item put together; `None` when part of them is not in the file.
fn gathered(bytes: &[u8], meta: &Meta<'_>, id: u32) -> Option<Vec<u8>> {
    let at = meta.located.iter().find(|located| located.id == id)?;
    let from = if at.in_box { meta.data } else { bytes };
    let mut out = Vec::new();
    for (start, length) in &at.pieces {
        let rest = from.get(usize::try_from(*start).ok()?..)?;
        let length = if *length == 0 { rest.len() } else { usize::try_from(*length).ok()? };
        let piece = rest.get(..length)?;
        if out.len() + piece.len() > MAX_GATHERED {
            return None;
        }
        out.extend(piece);
    }
    Some(out)
}
