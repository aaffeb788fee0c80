//! Searches the bytes of a database and its write-ahead log for entries.
//!
//! Source: SQLite documentation, "Database File Format": 1.6 (b-tree pages, cell payload and overflow), 2.1 (record
//! format), 4.1 (write-ahead log). A record of table `entry` holds, in this order: survey, device, seq, id, lamport,
//! prev, hash, line. So the hash stands in the 32 bytes before the line, and a line that does not fit in its page
//! goes on in overflow pages whose first number stands where the local part ends.

use serde_json::de::IoRead;
use survey::Digest;
use survey::log::Entry;

use super::Found;

/// Page size of every database we make.
const PAGE: usize = 4096;
/// How every line begins.
const BEGIN: &[u8] = br#"{"v":"#;
/// Largest and smallest local part of an index b-tree cell (file format 1.6), with no reserved bytes.
const MOST_LOCAL: usize = (PAGE - 12) * 64 / 255 - 23;
const LEAST_LOCAL: usize = (PAGE - 12) * 32 / 255 - 23;
/// Farthest a cell can begin before its line: sizes, header and the columns before it.
const FARTHEST: usize = 176;
/// Longer lines than this are not looked for.
const LONGEST: usize = 1 << 20;

pub(super) fn search(database: &[u8], log: &[u8], found: &mut Found) {
    let frames: Vec<(u32, &[u8])> = log
        .get(32..)
        .unwrap_or_default()
        .chunks(24 + PAGE)
        .filter_map(|frame| Some((number(frame, 0)?, frame.get(24..)?)))
        .collect();
    let book = Book { database, frames: &frames };
    for page in database.chunks(PAGE).chain(frames.iter().map(|(_, page)| *page)) {
        for at in places(page) {
            look(page, at, &book, found);
        }
    }
}

/// Where pages are found by number.
struct Book<'a> {
    database: &'a [u8],
    frames: &'a [(u32, &'a [u8])],
}

impl<'a> Book<'a> {
    fn page(&self, number: u32, log_first: bool) -> Option<&'a [u8]> {
        let start = (number as usize).checked_sub(1)?.checked_mul(PAGE)?;
        let in_file = self.database.get(start..start.checked_add(PAGE)?);
        let in_log =
            self.frames.iter().rev().find(|(n, page)| *n == number && page.len() == PAGE).map(|(_, p)| *p);
        if log_first { in_log.or(in_file) } else { in_file.or(in_log) }
    }
}

/// Offsets at which a line may begin.
fn places(page: &[u8]) -> impl Iterator<Item = usize> {
    page.windows(BEGIN.len()).enumerate().filter(|(_, bytes)| *bytes == BEGIN).map(|(at, _)| at)
}

fn look(page: &[u8], at: usize, book: &Book<'_>, found: &mut Found) {
    let Some(hash) = at.checked_sub(32).and_then(|start| page.get(start..at)) else { return };
    let fits = |line: &[u8]| Digest::of(line).as_bytes() == hash;
    let in_page = object_length(&page[at..]).map(|length| &page[at..at + length]);
    if let Some(line) = in_page.filter(|line| fits(line)) {
        found.entries_of(line, true);
        return;
    }
    for log_first in [true, false] {
        if let Some(line) = across_pages(page, at, book, log_first).filter(|line| fits(line)) {
            found.entries_of(&line, true);
            return;
        }
    }
    if let Some(line) = in_page {
        found.entries_of(line, false);
    }
}

impl Found {
    fn entries_of(&mut self, line: &[u8], fits: bool) {
        match Entry::from_bytes(line) {
            Ok(entry) if fits => self.whole(entry),
            Ok(entry) => self.bent(&entry),
            Err(_) => {}
        }
    }
}

/// Length of the JSON object that begins here.
fn object_length(bytes: &[u8]) -> Option<usize> {
    let mut objects = serde_json::StreamDeserializer::<_, serde::de::IgnoredAny>::new(IoRead::new(bytes));
    objects.next()?.ok()?;
    Some(objects.byte_offset())
}

/// The line at `at`, continued in overflow pages: the cell it belongs to is the one whose sizes lead exactly there.
fn across_pages(page: &[u8], at: usize, book: &Book<'_>, log_first: bool) -> Option<Vec<u8>> {
    (at.saturating_sub(FARTHEST)..at).find_map(|start| {
        let (payload, used) = varint(page.get(start..)?)?;
        let payload_start = start + used;
        let (line_offset, line_length) = record(page.get(payload_start..at)?)?;
        let payload = usize::try_from(payload).ok()?;
        let whole = line_offset + line_length == payload && payload_start + line_offset == at;
        if !whole || line_length > LONGEST || payload <= MOST_LOCAL {
            return None;
        }
        let wanted = LEAST_LOCAL + (payload - LEAST_LOCAL) % (PAGE - 4);
        let local = if wanted <= MOST_LOCAL { wanted } else { LEAST_LOCAL };
        let end = payload_start + local;
        let mut line = page.get(at..end)?.to_vec();
        let mut next = number(page, end)?;
        while line.len() < line_length {
            let more = book.page(next, log_first)?;
            let wanted = (line_length - line.len()).min(PAGE - 4);
            line.extend_from_slice(more.get(4..4 + wanted)?);
            next = number(more, 0)?;
        }
        Some(line)
    })
}

/// Offset and length of the line in a record of table `entry`, from its header alone.
fn record(payload: &[u8]) -> Option<(usize, usize)> {
    let (header, mut at) = varint(payload)?;
    let header = usize::try_from(header).ok()?;
    let mut sizes = [0usize; 8];
    for size in &mut sizes {
        let (kind, used) = varint(payload.get(at..header)?)?;
        at += used;
        *size = match kind {
            0 | 8 | 9 => 0,
            1..=4 => usize::try_from(kind).ok()?,
            5 => 6,
            6 => 8,
            12.. => usize::try_from((kind - 12) / 2).ok()?,
            _ => return None,
        };
    }
    let [survey, device, _, id, _, prev, hash, line] = sizes;
    let ours = (survey, device, id, hash) == (16, 16, 16, 32) && (prev == 0 || prev == 32) && at == header;
    ours.then(|| (header + sizes[..7].iter().sum::<usize>(), line))
}

/// A variable-length integer of SQLite and how many bytes it took.
fn varint(bytes: &[u8]) -> Option<(u64, usize)> {
    let mut value = 0u64;
    for (place, byte) in bytes.iter().take(9).enumerate() {
        if place == 8 {
            return Some((value << 8 | u64::from(*byte), 9));
        }
        value = value << 7 | u64::from(byte & 0x7f);
        if byte & 0x80 == 0 {
            return Some((value, place + 1));
        }
    }
    None
}

/// A big-endian 32-bit number.
fn number(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(at..at.checked_add(4)?)?.try_into().ok()?))
}
