//! What EXIF says that matters here: which way is up, when it was taken, whether it tells where.
//!
//! Reading goes on after an error and keeps what could be read: a strict reader gives nothing at all for directories
//! that many ordinary cameras and programs write slightly wrong, and the picture would lie on its side.

use exif::{Context, Exif, Field, In, Rational, Reader, Tag, Value};
use serde::{Deserialize, Serialize};

use crate::complaint::Complaint;
use crate::error::tidy;
use crate::taken::{self, Taken};

/// The facts of one picture and the complaints met while reading them.
#[derive(Debug, Default)]
pub(crate) struct Facts {
    /// 1 to 8; 1 when absent or unusable.
    pub(crate) orientation: u8,
    /// When it was taken.
    pub(crate) taken: Option<Taken>,
    /// Whether EXIF or, where asked, XMP said which way is up.
    turned: bool,
    /// Focal length that gives the same view on 35 mm film, mm (EXIF 2.32, tag A405h); 0 means not known there.
    pub(crate) focal: Option<u16>,
    /// Whether any field tells where; true when that cannot be excluded.
    pub(crate) located: bool,
    /// Where, if latitude and longitude can be read.
    pub(crate) place: Option<Gps>,
    /// What was wrong.
    pub(crate) complaints: Vec<Complaint>,
}

/// Where a photograph was taken, in degrees; north and east are positive.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Gps {
    /// Latitude, -90 to 90.
    pub latitude: f64,
    /// Longitude, -180 to 180.
    pub longitude: f64,
}

/// Who else may say which way is up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Turned {
    /// EXIF alone: what shows a JPEG reads nothing else.
    ByExif,
    /// XMP too, where EXIF says nothing.
    ByXmpToo,
    /// Neither: the container has turned it already.
    Already,
}

/// At most this many EXIF blocks are searched for a location.
const BLOCKS: usize = 16;

/// Reads every EXIF block for location and the first for all else, and the XMP blocks for location.
pub(crate) fn read(exif_blocks: &[&[u8]], xmp_blocks: &[&[u8]], way: Turned) -> Facts {
    let mut facts = Facts { orientation: 1, ..Facts::default() };
    if exif_blocks.len() > 1 {
        facts.complaints.push(Complaint::Blocks { count: exif_blocks.len() as u32 });
    }
    for (place, block) in exif_blocks.iter().take(BLOCKS).enumerate() {
        let mut faults = Vec::new();
        let parsed = Reader::new()
            .continue_on_error(true)
            .read_raw(block.to_vec())
            .or_else(|e| e.distill_partial_result(|met| faults.extend(met.iter().map(ToString::to_string))));
        let parsed = match parsed {
            Ok(parsed) => Some(parsed),
            Err(e) => {
                faults.push(e.to_string());
                None
            }
        };
        facts.located |= location(parsed.as_ref(), block, !faults.is_empty(), &mut facts.complaints);
        if facts.place.is_none() {
            facts.place = parsed.as_ref().and_then(|parsed| place_of(parsed, &mut facts.complaints));
        }
        if place > 0 {
            continue;
        }
        if !faults.is_empty() {
            facts.complaints.push(Complaint::Exif { faults: list(&faults) });
        }
        if let Some(parsed) = parsed {
            if way != Turned::Already {
                let said = orientation(&parsed, &mut facts.complaints);
                (facts.orientation, facts.turned) = (said.unwrap_or(1), said.is_some());
            }
            let focal = parsed.get_field(Tag::FocalLengthIn35mmFilm, In::PRIMARY);
            let focal = focal.and_then(|field| field.value.get_uint(0)).and_then(|mm| u16::try_from(mm).ok());
            facts.focal = focal.filter(|mm| (1..=2_000).contains(mm));
            let bytes = |tag| parsed.get_field(tag, In::PRIMARY).and_then(raw);
            facts.taken = taken::read(
                bytes(Tag::DateTimeOriginal),
                bytes(Tag::OffsetTimeOriginal),
                bytes(Tag::SubSecTimeOriginal),
                &mut facts.complaints,
            );
        }
    }
    let names: [&[u8]; 2] = [b"GPSLatitude", b"GPSLongitude"];
    facts.located |= xmp_blocks.iter().any(|block| names.iter().any(|name| holds(block, name)));
    if way == Turned::ByXmpToo && !facts.turned {
        facts.orientation = xmp_blocks.iter().find_map(|block| xmp_orientation(block)).unwrap_or(1);
    }
    facts
}

/// The first three different faults, and how many more there are.
fn list(faults: &[String]) -> String {
    let mut kinds: Vec<&str> = faults.iter().map(String::as_str).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let shown = kinds.iter().take(3).map(|fault| tidy(fault, 60)).collect::<Vec<_>>().join("; ");
    if kinds.len() > 3 { format!("{shown}; … + {}", kinds.len() - 3) } else { shown }
}

fn orientation(exif: &Exif, complaints: &mut Vec<Complaint>) -> Option<u8> {
    let field = exif.get_field(Tag::Orientation, In::PRIMARY)?;
    match field.value.get_uint(0) {
        Some(value @ 1..=8) => Some(value as u8),
        Some(value) => {
            complaints.push(Complaint::Orientation { value });
            None
        }
        None => {
            complaints.push(Complaint::OrientationNoNumber);
            None
        }
    }
}

/// `tiff:Orientation` of an XMP text, as attribute or as element (XMP part 1, ISO 16684-1 7).
fn xmp_orientation(block: &[u8]) -> Option<u8> {
    let name = b"tiff:Orientation";
    let at = block.windows(name.len()).position(|window| window == name)? + name.len();
    let mut behind = block.get(at..)?.iter().take(8);
    let digit = *behind.find(|byte| !matches!(byte, b'=' | b'"' | b'\'' | b'>' | b' '))?;
    (b'1'..=b'8').contains(&digit).then(|| digit - b'0')
}

/// Latitude and longitude, if both can be read and lie on the earth. Two zeros are a blanked place, and the sea.
fn place_of(exif: &Exif, complaints: &mut Vec<Complaint>) -> Option<Gps> {
    let degrees = |tag, by, negative: u8| {
        let Value::Rational(parts) = &exif.get_field(tag, In::PRIMARY)?.value else { return None };
        let part = |n: usize| match parts.get(n) {
            Some(Rational { num, denom }) if *denom > 0 => Some(f64::from(*num) / f64::from(*denom)),
            // Written as 0/0 where a camera counts no seconds.
            Some(Rational { num: 0, .. }) | None if n > 0 => Some(0.0),
            _ => None,
        };
        let value = part(0)? + part(1)? / 60.0 + part(2)? / 3600.0;
        let way = exif.get_field(by, In::PRIMARY).and_then(raw).and_then(|text| text.first().copied());
        Some(if way.is_some_and(|way| way.eq_ignore_ascii_case(&negative)) { -value } else { value })
    };
    let there = |tag| exif.get_field(tag, In::PRIMARY).is_some_and(|field| !zero(&field.value));
    if !there(Tag::GPSLatitude) && !there(Tag::GPSLongitude) {
        return None;
    }
    let latitude = degrees(Tag::GPSLatitude, Tag::GPSLatitudeRef, b'S');
    let longitude = degrees(Tag::GPSLongitude, Tag::GPSLongitudeRef, b'W');
    match (latitude, longitude) {
        (Some(latitude), Some(longitude)) if latitude.abs() <= 90.0 && longitude.abs() <= 180.0 => {
            Some(Gps { latitude, longitude })
        }
        _ => {
            complaints.push(Complaint::Place);
            None
        }
    }
}

/// The bytes of a text field, also where a writer called it by another type of bytes.
fn raw(field: &Field) -> Option<&[u8]> {
    match &field.value {
        Value::Ascii(parts) => parts.first().map(Vec::as_slice),
        Value::Byte(bytes) | Value::Undefined(bytes, _) => Some(bytes),
        _ => None,
    }
}

/// Whether the block tells where the picture was taken. Fields that are all zero were blanked on the way here.
fn location(exif: Option<&Exif>, block: &[u8], faulty: bool, complaints: &mut Vec<Complaint>) -> bool {
    let telling = [
        Tag::GPSLatitude,
        Tag::GPSLongitude,
        Tag::GPSAltitude,
        Tag::GPSDestLatitude,
        Tag::GPSDestLongitude,
        Tag::GPSDestBearing,
        Tag::GPSDestDistance,
        Tag::GPSAreaInformation,
    ];
    let mut blanked = false;
    let mut any = false;
    for field in exif.into_iter().flat_map(Exif::fields).filter(|field| field.tag.context() == Context::Gps) {
        any = true;
        if telling.contains(&field.tag) {
            if !zero(&field.value) {
                return true;
            }
            blanked = true;
        }
    }
    if blanked {
        complaints.push(Complaint::PlaceBlanked);
    }
    if !any && faulty && points_to_location(block) {
        complaints.push(Complaint::PlaceUnread);
        return true;
    }
    false
}

fn zero(value: &Value) -> bool {
    match value {
        Value::Rational(parts) => parts.iter().all(|part| part.num == 0),
        Value::SRational(parts) => parts.iter().all(|part| part.num == 0),
        Value::Byte(bytes) | Value::Undefined(bytes, _) => bytes.iter().all(|&byte| byte == 0),
        Value::Ascii(parts) => parts.iter().flatten().all(|&byte| matches!(byte, 0 | b' ')),
        Value::Short(parts) => parts.iter().all(|&part| part == 0),
        Value::Long(parts) => parts.iter().all(|&part| part == 0),
        _ => false,
    }
}

/// Whether the bytes of the entry that points to a GPS directory occur (tag 0x8825, LONG, count 1, either order).
fn points_to_location(block: &[u8]) -> bool {
    holds(block, &[0x88, 0x25, 0, 4, 0, 0, 0, 1]) || holds(block, &[0x25, 0x88, 4, 0, 1, 0, 0, 0])
}

fn holds(hay: &[u8], needle: &[u8]) -> bool {
    hay.windows(needle.len()).any(|window| window == needle)
}
