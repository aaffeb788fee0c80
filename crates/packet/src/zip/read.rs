//! Reading the directory: strictly, and byte by byte against what the writer would have written for that list.

use std::io::{self, Read, Seek, SeekFrom};

use super::layout::{Member, central_header, end_records, field_at};
use crate::{PacketError, limits, names};

const CENTRAL: usize = 46;
const END: u64 = 22;
const ZIP64: u64 = 56 + 20;
/// Longest record of the directory: fixed part, name, ZIP64 offset.
const LONGEST: u64 = CENTRAL as u64 + limits::PATH as u64 + 12;

/// The list of files, and the bytes from the directory to the end (to be hashed with the rest).
#[derive(Debug)]
pub(crate) struct Directory {
    pub(crate) members: Vec<Member>,
    pub(crate) tail: Vec<u8>,
}

/// Reads the directory of a zip that is `len` bytes long and checks everything but local headers and content.
pub(crate) fn directory<R: Read + Seek>(from: &mut R, len: u64) -> Result<Directory, PacketError> {
    let (count, size, offset, end) = end(from, len)?;
    let whole = offset.checked_add(size).and_then(|n| n.checked_add(end));
    if whole != Some(len) {
        let reason =
            "bytes were added before the first file, between directory and end, or taken out".to_owned();
        return Err(PacketError::NotWhole { reason });
    }
    if count > limits::FILES as u64 {
        let limit = limits::FILES as u64;
        return Err(PacketError::TooLarge { file: "the number of files".to_owned(), found: count, limit });
    }
    if size > count * LONGEST {
        return Err(not_whole("its directory is longer than its number of files allows"));
    }
    let tail = bytes_at(from, offset, size + end)?;
    let (records, end) = tail.split_at(size as usize);
    let members = parse(records, count)?;
    check(&members, offset)?;
    let expected = end_records(count, offset, size);
    if end != expected {
        return Err(not_whole("the record at its very end is not as sealing writes it"));
    }
    Ok(Directory { members, tail })
}

fn not_whole(reason: &str) -> PacketError {
    PacketError::NotWhole { reason: reason.to_owned() }
}

/// Bytes at a place; a file that ends too early is "not whole".
pub(crate) fn bytes_at<R: Read + Seek>(from: &mut R, offset: u64, size: u64) -> Result<Vec<u8>, PacketError> {
    let mut out = Vec::new();
    let read =
        from.seek(SeekFrom::Start(offset)).and_then(|_| from.by_ref().take(size).read_to_end(&mut out));
    match read {
        Ok(_) if out.len() as u64 == size => Ok(out),
        Ok(_) => Err(not_whole("it ends before its directory says it does")),
        Err(source) => Err(reading(source)),
    }
}

pub(crate) fn reading(source: io::Error) -> PacketError {
    PacketError::Io { doing: "reading", path: "the packet".to_owned(), source }
}

fn number(bytes: &[u8], at: usize, width: usize) -> u64 {
    let field = bytes.get(at..at + width).unwrap_or_default();
    field.iter().rev().fold(0, |n, b| n << 8 | u64::from(*b))
}

/// Count, size and offset of the directory, and the length of what follows it.
fn end<R: Read + Seek>(from: &mut R, len: u64) -> Result<(u64, u64, u64, u64), PacketError> {
    if len < END {
        return Err(not_whole("it is empty or nearly so"));
    }
    let end = bytes_at(from, len - END, END)?;
    if !end.starts_with(b"PK\x05\x06") {
        return Err(misplaced_end(from, len)?);
    }
    let (count, size, offset) = (number(&end, 10, 2), number(&end, 12, 4), number(&end, 16, 4));
    let marked = count == 0xffff || size == 0xffff_ffff || offset == 0xffff_ffff;
    if !marked {
        return Ok((count, size, offset, END));
    }
    if len < END + ZIP64 {
        return Err(not_whole("its ZIP64 records are missing"));
    }
    let far = bytes_at(from, len - END - ZIP64, ZIP64)?;
    Ok((number(&far, 32, 8), number(&far, 40, 8), number(&far, 48, 8), END + ZIP64))
}

/// Why the end is not at the end: something behind it, or cut off.
fn misplaced_end<R: Read + Seek>(from: &mut R, len: u64) -> Result<PacketError, PacketError> {
    let look = len.min(END + 0xffff);
    let tail = bytes_at(from, len - look, look)?;
    let found = tail.windows(4).rposition(|w| w == b"PK\x05\x06");
    Ok(match found {
        Some(at) if (tail.len() - at) as u64 > END => {
            let behind = (tail.len() - at) as u64 - END;
            not_whole(&format!("{behind} bytes follow its end (a comment, or something added)"))
        }
        _ => not_whole("it does not end as a zip ends: it was cut short, or it is another kind of file"),
    })
}

fn parse(records: &[u8], count: u64) -> Result<Vec<Member>, PacketError> {
    let mut rest = records;
    let mut members: Vec<Member> = Vec::new();
    while members.len() as u64 != count || !rest.is_empty() {
        let before = members.last().map_or("the first file", |m| m.name.as_str());
        let unreadable = || PacketError::Header { file: format!("after {before}"), part: "directory" };
        let (fixed, more) = rest.split_at_checked(CENTRAL).ok_or_else(unreadable)?;
        let (name_len, extra_len) = (number(fixed, 28, 2) as usize, number(fixed, 30, 2) as usize);
        let (name, more) = more.split_at_checked(name_len).ok_or_else(unreadable)?;
        let (extra, more) = more.split_at_checked(extra_len).ok_or_else(unreadable)?;
        if !fixed.starts_with(b"PK\x01\x02") {
            return Err(unreadable());
        }
        let name = names::check(name)?.to_owned();
        let offset = match number(fixed, 42, 4) {
            0xffff_ffff => number(extra, 4, 8),
            near => near,
        };
        let member =
            Member { name, size: number(fixed, 24, 4) as u32, crc: number(fixed, 16, 4) as u32, offset };
        let found = rest.get(..CENTRAL + name_len + extra_len).unwrap_or_default();
        compare(&member.name, found, &central_header(&member))?;
        members.push(member);
        rest = more;
    }
    Ok(members)
}

/// Names the first field in which a record differs from the one expected.
pub(crate) fn compare(file: &str, found: &[u8], expected: &[u8]) -> Result<(), PacketError> {
    if found == expected {
        return Ok(());
    }
    let at = found.iter().zip(expected).position(|(a, b)| a != b);
    let part = field_at(expected, at.unwrap_or(expected.len()));
    Err(PacketError::Header { file: file.to_owned(), part })
}

fn check(members: &[Member], directory: u64) -> Result<(), PacketError> {
    names::check_all(members.iter().map(|m| m.name.as_str()))?;
    let mut expected = 0u64;
    let mut before = None;
    for member in members {
        if member.offset != expected {
            let file = before.unwrap_or(&member.name).to_string();
            return Err(PacketError::Header { file, part: "size, or the offset of the file after it," });
        }
        expected = member.end();
        before = Some(&member.name);
    }
    if expected != directory {
        let file = before.map(String::as_str).unwrap_or("the directory").to_owned();
        return Err(PacketError::Header { file, part: "size, or the offset of the directory," });
    }
    Ok(())
}
