//! Copying and summing a stream in chunks of one fixed size.

use std::io::{self, Read, Write};

use sha2::{Digest as _, Sha256};
use survey::Digest;

use crate::limits::CHUNK;

/// Length, CRC-32 (the one of zip) and SHA-256 of a stream.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Sums {
    pub(crate) size: u64,
    pub(crate) crc: u32,
    pub(crate) digest: Digest,
}

impl Sums {
    pub(crate) fn of(bytes: &[u8]) -> Self {
        let size = bytes.len() as u64;
        Self { size, crc: crc32fast::hash(bytes), digest: Digest::of(bytes) }
    }
}

/// Passes everything on to `out` and sums it; stops with an error past `most` bytes.
pub(crate) fn copy(from: &mut dyn Read, out: &mut dyn Write, most: u64) -> io::Result<Sums> {
    let mut buffer = vec![0u8; CHUNK];
    let mut crc = crc32fast::Hasher::new();
    let mut sha = Sha256::new();
    let mut size = 0u64;
    loop {
        let n = match from.read(&mut buffer) {
            Ok(0) => break,
            Ok(n) => n,
            Err(e) if e.kind() == io::ErrorKind::Interrupted => continue,
            Err(e) => return Err(e),
        };
        size += n as u64;
        if size > most {
            return Err(io::Error::new(io::ErrorKind::InvalidData, "it is longer than its length says"));
        }
        let chunk = buffer.get(..n).unwrap_or_default();
        crc.update(chunk);
        sha.update(chunk);
        out.write_all(chunk)?;
    }
    Ok(Sums { size, crc: crc.finalize(), digest: Digest::from_bytes(sha.finalize().into()) })
}

/// A writer that sums what passes through it.
pub(crate) struct Hashing<W> {
    pub(crate) out: W,
    sha: Sha256,
    pub(crate) written: u64,
}

impl<W: Write> Hashing<W> {
    pub(crate) fn new(out: W) -> Self {
        Self { out, sha: Sha256::new(), written: 0 }
    }
    pub(crate) fn finish(self) -> (W, Digest, u64) {
        (self.out, Digest::from_bytes(self.sha.finalize().into()), self.written)
    }
}

impl<W: Write> Write for Hashing<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let n = self.out.write(bytes)?;
        self.sha.update(bytes.get(..n).unwrap_or_default());
        self.written += n as u64;
        Ok(n)
    }
    fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sums_of_a_stream_are_those_of_its_bytes() {
        let bytes: Vec<u8> = (0..300_000u32).map(|n| (n % 251) as u8).collect();
        let mut out = Vec::new();
        let sums = copy(&mut bytes.as_slice(), &mut out, 300_000).unwrap();
        assert_eq!(sums, Sums::of(&bytes));
        assert_eq!(out, bytes);
        // CRC-32 check value of "123456789" in the catalogue of parametrised CRC algorithms (CRC-32/ISO-HDLC).
        assert_eq!(Sums::of(b"123456789").crc, 0xCBF4_3926);
        assert!(copy(&mut bytes.as_slice(), &mut Vec::new(), 299_999).is_err());
    }
}
