//! The bytes of each record, from the list of files.

const VERSION_STORED: u16 = 20;
const VERSION_ZIP64: u16 = 45;
/// Host 3 (Unix) in the upper byte, so that the mode below means something to readers.
const MADE_BY: u16 = 3 << 8 | VERSION_ZIP64;
const TIME: u16 = 0;
/// 1980-01-01, the first date a zip can say.
const DATE: u16 = 1 << 5 | 1;
/// Regular file, rw-r--r--.
const ATTRIBUTES: u32 = 0o100_644 << 16;

/// One file of the zip.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Member {
    pub(crate) name: String,
    /// Bytes; below 4 GiB.
    pub(crate) size: u32,
    pub(crate) crc: u32,
    /// Where its local header begins.
    pub(crate) offset: u64,
}

impl Member {
    pub(crate) fn far(&self) -> bool {
        self.offset >= u64::from(u32::MAX)
    }
    /// Where its content begins.
    pub(crate) fn content(&self) -> u64 {
        self.offset + 30 + self.name.len() as u64
    }
    /// Where the next record begins.
    pub(crate) fn end(&self) -> u64 {
        self.content() + u64::from(self.size)
    }
    fn version(&self) -> u16 {
        if self.far() { VERSION_ZIP64 } else { VERSION_STORED }
    }
}

struct Bytes(Vec<u8>);

impl Bytes {
    fn u16(mut self, v: u16) -> Self {
        self.0.extend(v.to_le_bytes());
        self
    }
    fn u32(mut self, v: u32) -> Self {
        self.0.extend(v.to_le_bytes());
        self
    }
    fn u64(mut self, v: u64) -> Self {
        self.0.extend(v.to_le_bytes());
        self
    }
    /// What the local and the central header have in common: version to the length of the name.
    fn common(self, m: &Member) -> Self {
        let flags_and_method = 0;
        self.u16(m.version())
            .u32(flags_and_method)
            .u16(TIME)
            .u16(DATE)
            .u32(m.crc)
            .u32(m.size)
            .u32(m.size)
            .u16(m.name.len() as u16)
    }
    fn name(mut self, m: &Member) -> Vec<u8> {
        self.0.extend(m.name.as_bytes());
        self.0
    }
}

/// The record before a file's content: 30 bytes and the name.
pub(crate) fn local_header(m: &Member) -> Vec<u8> {
    let no_extra = 0;
    Bytes(b"PK\x03\x04".to_vec()).common(m).u16(no_extra).name(m)
}

/// The record in the directory: 46 bytes, the name and, past 4 GiB, 12 bytes of ZIP64 offset.
pub(crate) fn central_header(m: &Member) -> Vec<u8> {
    let (extra, offset) = if m.far() { (12, u32::MAX) } else { (0, m.offset as u32) };
    let mut out = Bytes(b"PK\x01\x02".to_vec())
        .u16(MADE_BY)
        .common(m)
        .u16(extra)
        .u16(0) // comment
        .u16(0) // disk
        .u16(0) // internal attributes
        .u32(ATTRIBUTES)
        .u32(offset)
        .name(m);
    if m.far() {
        out = Bytes(out).u16(1).u16(8).u64(m.offset).0;
    }
    out
}

/// The records after the directory: 22 bytes, or 98 where a count or an offset needs ZIP64.
pub(crate) fn end_records(count: u64, offset: u64, size: u64) -> Vec<u8> {
    let mut out = Bytes(Vec::new());
    if needs_zip64(count, offset, size) {
        out.0.extend(b"PK\x06\x06");
        out = out
            .u64(44)
            .u16(MADE_BY)
            .u16(VERSION_ZIP64)
            .u32(0)
            .u32(0)
            .u64(count)
            .u64(count)
            .u64(size)
            .u64(offset);
        out.0.extend(b"PK\x06\x07");
        out = out.u32(0).u64(offset + size).u32(1);
    }
    let count = u16::try_from(count).unwrap_or(u16::MAX);
    let short = |v: u64| u32::try_from(v).unwrap_or(u32::MAX);
    out.0.extend(b"PK\x05\x06");
    out.u32(0).u16(count).u16(count).u32(short(size)).u32(short(offset)).u16(0).0
}

fn needs_zip64(count: u64, offset: u64, size: u64) -> bool {
    count >= u64::from(u16::MAX) || offset >= u64::from(u32::MAX) || size >= u64::from(u32::MAX)
}

/// Words for the field at this byte of a header, for the message when it differs.
pub(crate) fn field_at(header: &[u8], at: usize) -> &'static str {
    let central = header.starts_with(b"PK\x01\x02");
    let shared = if central { at.wrapping_sub(2) } else { at };
    match (central, at, shared) {
        (_, 0..4, _) => "record mark",
        (true, 4..6, _) => "version made by",
        (_, _, 4..6) => "version needed",
        (_, _, 6..8) => "flags (encryption, data descriptor, name encoding)",
        (_, _, 8..10) => "method (only stored files are allowed)",
        (_, _, 10..14) => "time or date",
        (_, _, 14..18) => "CRC-32",
        (_, _, 18..26) => "size",
        (_, _, 26..28) => "length of the name",
        (_, _, 28..30) => "length of the extra field",
        (true, 32..34, _) => "comment",
        (true, 34..36, _) => "disk number",
        (true, 36..42, _) => "attributes (a packet has regular files only)",
        (true, 42..46, _) => "offset",
        _ => "name or extra field",
    }
}
