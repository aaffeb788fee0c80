//! What EXIF says that matters here: which way is up, when it was taken, whether it tells where.
//!
//! Reading goes on after an error and keeps what could be read: a strict reader gives nothing at all for directories
//! that many ordinary cameras and programs write slightly wrong, and the picture would lie on its side.

use exif::{Context, Exif, Field, In, Reader, Tag, Value};

use crate::error::tidy;
use crate::taken::{self, Taken};

/// The facts of one picture and the complaints met while reading them.
#[derive(Debug, Default)]
pub(crate) struct Facts {
    /// 1 to 8; 1 when absent or unusable.
    pub(crate) orientation: u8,
    /// When it was taken.
    pub(crate) taken: Option<Taken>,
    /// Whether any field tells where; true when that cannot be excluded.
    pub(crate) located: bool,
    /// What was wrong.
    pub(crate) complaints: Vec<String>,
}

/// At most this many EXIF blocks are searched for a location.
const BLOCKS: usize = 16;

/// Reads every EXIF block for location and the first for all else, and the XMP blocks for location.
pub(crate) fn read(exif_blocks: &[&[u8]], xmp_blocks: &[&[u8]]) -> Facts {
    let mut facts = Facts { orientation: 1, ..Facts::default() };
    if exif_blocks.len() > 1 {
        facts.complaints.push(format!("{} EXIF blocks; the first one counts", exif_blocks.len()));
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
        if place > 0 {
            continue;
        }
        if !faults.is_empty() {
            facts.complaints.push(format!("EXIF is damaged ({}); what could be read is used", list(&faults)));
        }
        if let Some(parsed) = parsed {
            facts.orientation = orientation(&parsed, &mut facts.complaints);
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
    facts
}

/// The first three different faults, and how many more there are.
fn list(faults: &[String]) -> String {
    let mut kinds: Vec<&str> = faults.iter().map(String::as_str).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let shown = kinds.iter().take(3).map(|fault| tidy(fault, 60)).collect::<Vec<_>>().join("; ");
    if kinds.len() > 3 { format!("{shown}; {} more kinds", kinds.len() - 3) } else { shown }
}

fn orientation(exif: &Exif, complaints: &mut Vec<String>) -> u8 {
    let Some(field) = exif.get_field(Tag::Orientation, In::PRIMARY) else { return 1 };
    match field.value.get_uint(0) {
        Some(value @ 1..=8) => value as u8,
        Some(value) => {
            complaints.push(format!("EXIF orientation {value} is not one of 1 to 8; shown as stored"));
            1
        }
        None => {
            complaints.push("EXIF orientation is not a number; shown as stored".into());
            1
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
fn location(exif: Option<&Exif>, block: &[u8], faulty: bool, complaints: &mut Vec<String>) -> bool {
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
        complaints.push("EXIF location fields are all zero: blanked before the picture came here".into());
    }
    if !any && faulty && points_to_location(block) {
        complaints
            .push("EXIF points to a location that cannot be read; the picture counts as located".into());
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
