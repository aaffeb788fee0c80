//! Writing the zip as a stream, in one go from front to back.

use std::io::{self, Read, Write};

use survey::Digest;

use super::layout::{Member, central_header, end_records, local_header};
use crate::stream::{Hashing, pass_on};

/// Writes members in the order given; the caller keeps that order bytewise by name.
pub(crate) struct ZipWriter<W> {
    out: Hashing<W>,
    members: Vec<Member>,
}

impl<W: Write> ZipWriter<W> {
    pub(crate) fn new(out: W) -> Self {
        Self { out: Hashing::new(out), members: Vec::new() }
    }

    /// Writes one file whose length and CRC-32 are known beforehand; an error of kind `InvalidData` says that `content`
    /// turned out otherwise.
    pub(crate) fn add(
        &mut self,
        name: String,
        (size, crc): (u64, u32),
        content: &mut dyn Read,
    ) -> io::Result<()> {
        let other =
            || io::Error::new(io::ErrorKind::InvalidData, "the content changed while it was being sealed");
        let short = u32::try_from(size).map_err(|_| other())?;
        let member = Member { name, size: short, crc, offset: self.out.written };
        self.out.write_all(&local_header(&member))?;
        let found = pass_on(content, &mut self.out, size)?;
        self.members.push(member);
        if found == (size, crc) { Ok(()) } else { Err(other()) }
    }

    /// Writes the directory; gives back the writer, the digest of everything written, its length and the count.
    pub(crate) fn finish(mut self) -> io::Result<(W, Digest, u64, u64)> {
        let offset = self.out.written;
        for member in &self.members {
            self.out.write_all(&central_header(member))?;
        }
        let count = self.members.len() as u64;
        let end = end_records(count, offset, self.out.written - offset);
        self.out.write_all(&end)?;
        self.out.flush()?;
        let (out, digest, bytes) = self.out.finish()?;
        Ok((out, digest, bytes, count))
    }
}
