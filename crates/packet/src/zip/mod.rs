//! The one zip form a packet has, so small that every byte of it is known from the list of files.
//!
//! Stored entries only, in bytewise order of their names, without gaps; time 1980-01-01 00:00; regular file, mode
//! 644, made on Unix; no comment, no data descriptor, no extra field but the ZIP64 one where an offset needs it;
//! ASCII names. Field layout: PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.14 to 4.3.16. A file's size stays
//! below 4 GiB (`limits::PHOTO`), so local headers never need ZIP64; offsets, counts and the directory may.

mod layout;
mod read;
mod write;

pub(crate) use layout::{Member, local_header};
pub(crate) use read::{bytes_at, compare, directory, reading};
pub(crate) use write::ZipWriter;

#[cfg(test)]
mod tests;
