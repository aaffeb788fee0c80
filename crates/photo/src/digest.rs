//! The SHA-256 of a stream, so that a photograph can be filed without holding it in memory.

use std::io::{self, Read};

use sha2::{Digest as _, Sha256};
use survey::Digest;

/// How much is read at a time.
const STEP: usize = 64 * 1024;

/// The digest of everything the reader gives, and how many bytes that was. Interrupted reads are taken up again;
/// any other error of the reader is handed back.
pub fn digest_reader(mut reader: impl Read) -> io::Result<(Digest, u64)> {
    let mut hash = Sha256::new();
    let mut step = vec![0; STEP];
    let mut total = 0_u64;
    loop {
        match reader.read(&mut step) {
            Ok(0) => return Ok((Digest::from_bytes(hash.finalize().into()), total)),
            Ok(count) => {
                // A reader that claims more than it was given room for has broken its contract.
                let got =
                    step.get(..count).ok_or_else(|| io::Error::other("a reader returned too many bytes"))?;
                hash.update(got);
                total += got.len() as u64;
            }
            Err(e) if e.kind() == io::ErrorKind::Interrupted => {}
            Err(e) => return Err(e),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Gives three bytes at a time and is interrupted before every one of them.
    struct Stutter<'a>(&'a [u8], bool);

    impl Read for Stutter<'_> {
        fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
            self.1 = !self.1;
            if self.1 {
                return Err(io::ErrorKind::Interrupted.into());
            }
            let count = self.0.len().min(3).min(into.len());
            let (now, later) = self.0.split_at(count);
            into[..count].copy_from_slice(now);
            self.0 = later;
            Ok(count)
        }
    }

    #[test]
    fn a_stream_in_pieces_has_the_digest_of_the_whole() {
        let bytes: Vec<u8> = (0..200_000_u64).map(|n| (n * n % 251) as u8).collect();
        let whole = (Digest::of(&bytes), 200_000);
        assert_eq!(digest_reader(bytes.as_slice()).unwrap(), whole);
        assert_eq!(digest_reader(Stutter(&bytes, false)).unwrap(), whole);
    }

    #[test]
    fn the_digest_of_nothing_is_the_published_one() {
        // FIPS 180-4: SHA-256 of the empty message.
        let (digest, count) = digest_reader(io::empty()).unwrap();
        assert_eq!(digest.hex(), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
        assert_eq!(count, 0);
    }

    #[test]
    fn an_error_of_the_reader_is_handed_back() {
        struct Broken;
        impl Read for Broken {
            fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
                Err(io::ErrorKind::ConnectionReset.into())
            }
        }
        assert_eq!(digest_reader(Broken).unwrap_err().kind(), io::ErrorKind::ConnectionReset);
    }
}
