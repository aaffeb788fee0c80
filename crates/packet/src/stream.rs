//! Copying and summing a stream in chunks of one fixed size; all sums in the one pass.

use std::io::{self, Read, Write};
use std::mem;
use std::sync::mpsc::{Receiver, SyncSender, channel, sync_channel};
use std::thread::{self, JoinHandle};

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

/// Passes everything on to `out`; its length and CRC-32. Stops with an error past `most` bytes.
pub(crate) fn pass_on(from: &mut dyn Read, out: &mut dyn Write, most: u64) -> io::Result<(u64, u32)> {
    let mut crc = crc32fast::Hasher::new();
    let size = chunks(from, most, &mut |chunk| {
        crc.update(chunk);
        out.write_all(chunk)
    })?;
    Ok((size, crc.finalize()))
}

/// Passes everything on to `out` and makes every sum of it; stops with an error past `most` bytes.
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

/// A writer that sums what passes through it, beside the writing.
pub(crate) struct Hashing<W> {
    out: W,
    sum: Beside,
    pub(crate) written: u64,
}

impl<W: Write> Hashing<W> {
    pub(crate) fn new(out: W) -> Self {
        Self { out, sum: Beside::new(), written: 0 }
    }
    /// The writer, the digest of all that was written, and its length.
    pub(crate) fn finish(self) -> io::Result<(W, Digest, u64)> {
        Ok((self.out, self.sum.finish()?, self.written))
    }
}

impl<W: Write> Write for Hashing<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let n = self.out.write(bytes)?;
        self.sum.update(bytes.get(..n).unwrap_or_default())?;
        self.written += n as u64;
        Ok(n)
    }
    fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }
}

/// Chunks that wait to be summed at most.
const WAITING: usize = 4;

/// SHA-256 by a thread of its own: it takes as long as the copying. Where no thread is to be had, it is made at once.
enum Beside {
    Here(Sha256),
    There {
        /// What is to be summed next.
        next: Vec<u8>,
        full: SyncSender<Vec<u8>>,
        empty: Receiver<Vec<u8>>,
        thread: JoinHandle<Sha256>,
    },
}

impl Beside {
    fn new() -> Self {
        let (full, chunks) = sync_channel::<Vec<u8>>(WAITING);
        let (back, empty) = channel();
        let work = move || {
            let mut sha = Sha256::new();
            for chunk in chunks {
                sha.update(&chunk);
                let _ = back.send(chunk); // nobody waits for the last ones
            }
            sha
        };
        match thread::Builder::new().name("sum of the packet".to_owned()).spawn(work) {
            Ok(thread) => Self::There { next: Vec::with_capacity(CHUNK), full, empty, thread },
            Err(_) => Self::Here(Sha256::new()),
        }
    }

    fn update(&mut self, bytes: &[u8]) -> io::Result<()> {
        match self {
            Self::Here(sha) => sha.update(bytes),
            Self::There { next, full, empty, .. } => {
                next.extend_from_slice(bytes);
                if next.len() >= CHUNK {
                    let fresh = empty.try_recv().unwrap_or_default();
                    full.send(mem::replace(next, fresh)).map_err(|_| ended())?;
                    next.clear();
                }
            }
        }
        Ok(())
    }

    fn finish(self) -> io::Result<Digest> {
        let sha = match self {
            Self::Here(sha) => sha,
            Self::There { next, full, thread, .. } => {
                full.send(next).map_err(|_| ended())?;
                drop(full);
                thread.join().map_err(|_| ended())?
            }
        };
        Ok(Digest::from_bytes(sha.finalize().into()))
    }
}

fn ended() -> io::Error {
    io::Error::other("what sums the packet ended before it was written")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_summed_beside_is_what_was_written_in_pieces_of_any_size() {
        let bytes: Vec<u8> = (0..3_000_000u32).map(|n| (n % 241) as u8).collect();
        for sum in [Beside::new(), Beside::Here(Sha256::new())] {
            let (mut out, mut left, mut size) = (Hashing { out: Vec::new(), sum, written: 0 }, &*bytes, 1);
            while !left.is_empty() {
                let (piece, rest) = left.split_at(size.min(left.len()));
                out.write_all(piece).unwrap();
                (left, size) = (rest, size * 3 % 400_009);
            }
            let (out, digest, written) = out.finish().unwrap();
            assert_eq!((digest, written), (Digest::of(&bytes), 3_000_000));
            assert!(out == bytes);
        }
        assert_eq!(Hashing::new(Vec::new()).finish().unwrap().1, Digest::of(b""));
        // Left half way, its thread ends too.
        drop(Hashing::new(Vec::new()));
    }

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
        let mut out = Vec::new();
        assert_eq!(pass_on(&mut bytes.as_slice(), &mut out, 300_000).unwrap(), (300_000, sums.crc));
        assert_eq!(out, bytes);
        assert!(copy(&mut bytes.as_slice(), &mut Vec::new(), 299_999).is_err());
        assert!(pass_on(&mut bytes.as_slice(), &mut Vec::new(), 299_999).is_err());
    }
}
