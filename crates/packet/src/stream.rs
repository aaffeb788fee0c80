//! Copying and summing a stream in chunks of one fixed size; all sums in the one pass.

use std::io::{self, Read, Write};

use sha2::{Digest as _, Sha256, Sha512};
use survey::Digest;

use crate::limits::CHUNK;

/// A SHA-512 digest (FIPS 180-4), in hexadecimal.
pub(crate) type Long = String;

fn hex(bytes: &[u8]) -> Long {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Length, CRC-32 (the one of zip), SHA-256 and SHA-512 of a stream.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Sums {
    pub(crate) size: u64,
    pub(crate) crc: u32,
    pub(crate) digest: Digest,
    pub(crate) long: Long,
}

impl Sums {
    pub(crate) fn of(bytes: &[u8]) -> Self {
        let size = bytes.len() as u64;
        let long = hex(&Sha512::digest(bytes));
        Self { size, crc: crc32fast::hash(bytes), digest: Digest::of(bytes), long }
    }
}

/// Length and CRC-32 alone, which the zip needs before the content; stops with an error past `most` bytes.
pub(crate) fn length_and_crc(from: &mut dyn Read, most: u64) -> io::Result<(u64, u32)> {
    let mut crc = crc32fast::Hasher::new();
    let size = chunks(from, most, &mut |chunk| {
        crc.update(chunk);
        Ok(())
    })?;
    Ok((size, crc.finalize()))
}

/// Passes everything on to `out` and sums it; stops with an error past `most` bytes.
pub(crate) fn copy(from: &mut dyn Read, out: &mut dyn Write, most: u64) -> io::Result<Sums> {
    let mut crc = crc32fast::Hasher::new();
    let (mut short, mut long) = (Sha256::new(), Sha512::new());
    let size = chunks(from, most, &mut |chunk| {
        crc.update(chunk);
        short.update(chunk);
        long.update(chunk);
        out.write_all(chunk)
    })?;
    let (digest, long) = (Digest::from_bytes(short.finalize().into()), hex(&long.finalize()));
    Ok(Sums { size, crc: crc.finalize(), digest, long })
}

/// Hands on chunk after chunk; the length of all.
fn chunks(from: &mut dyn Read, most: u64, each: &mut dyn FnMut(&[u8]) -> io::Result<()>) -> io::Result<u64> {
    let mut buffer = vec![0u8; CHUNK];
    let mut size = 0u64;
    loop {
        let n = match from.read(&mut buffer) {
            Ok(0) => return Ok(size),
            Ok(n) => n,
            Err(e) if e.kind() == io::ErrorKind::Interrupted => continue,
            Err(e) => return Err(e),
        };
        size += n as u64;
        if size > most {
            return Err(io::Error::new(io::ErrorKind::InvalidData, "it is longer than its length says"));
        }
        each(buffer.get(..n).unwrap_or_default())?;
    }
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
        // FIPS 180-4, example of SHA-512 for the message "abc".
        let abc = "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f";
        assert_eq!(Sums::of(b"abc").long, abc);
        assert_eq!(length_and_crc(&mut bytes.as_slice(), 300_000).unwrap(), (300_000, sums.crc));
        assert!(copy(&mut bytes.as_slice(), &mut Vec::new(), 299_999).is_err());
    }
}
