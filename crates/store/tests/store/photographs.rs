//! Photographs filed by digest.

use std::io::{Read, Write};

use store::{Blobs, ErrorKind};
use survey::Digest;

use crate::support::*;

fn read(blobs: &Blobs, digest: Digest) -> Vec<u8> {
    let mut bytes = Vec::new();
    blobs.open(digest).unwrap().read_to_end(&mut bytes).unwrap();
    bytes
}

#[test]
fn a_photograph_comes_back_byte_for_byte_under_its_digest() {
    let dir = tempfile::tempdir().unwrap();
    let blobs = Blobs::in_dir(dir.path()).unwrap();
    let bytes: Vec<u8> = (0..300_000u32).map(|i| (i * 31 % 251) as u8).collect();
    let digest = blobs.put(&bytes).unwrap();
    assert_eq!(digest, Digest::of(&bytes));
    assert_eq!(blobs.put_reader(&mut &bytes[..]).unwrap(), (digest, 300_000));
    assert_eq!(read(&blobs, digest), bytes);
    assert_eq!(blobs.verify(digest).unwrap(), 300_000);
    let hex = digest.hex();
    assert_eq!(blobs.path(digest), dir.path().join("blobs").join(&hex[..2]).join(&hex[2..]));
    assert_eq!(blobs.list().unwrap(), (vec![digest], vec![]));
    assert_eq!(std::fs::read_dir(dir.path().join("blobs/incoming")).unwrap().count(), 0);
    let empty = blobs.put(b"").unwrap();
    assert_eq!(read(&blobs, empty), b"");
}

#[test]
fn keeping_it_again_does_not_touch_the_file_and_mends_a_shortened_one() {
    let dir = tempfile::tempdir().unwrap();
    let blobs = Blobs::in_dir(dir.path()).unwrap();
    let digest = blobs.put(b"a photograph").unwrap();
    let before = blobs.path(digest).metadata().unwrap();
    blobs.put(b"a photograph").unwrap();
    blobs.put_reader(&mut &b"a photograph"[..]).unwrap();
    let after = blobs.path(digest).metadata().unwrap();
    assert_eq!(before.modified().unwrap(), after.modified().unwrap());
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        assert_eq!(before.ino(), after.ino());
    }
    std::fs::write(blobs.path(digest), b"a pho").unwrap();
    assert_eq!(blobs.verify(digest).unwrap_err().kind(), ErrorKind::Damaged);
    blobs.put(b"a photograph").unwrap();
    assert_eq!(blobs.verify(digest).unwrap(), 12);
}

#[test]
fn a_missing_and_a_changed_photograph_are_named() {
    let dir = tempfile::tempdir().unwrap();
    let blobs = Blobs::in_dir(dir.path()).unwrap();
    let absent = Digest::of(b"never kept");
    assert!(!blobs.has(absent));
    for error in [blobs.open(absent).map(drop).unwrap_err(), blobs.verify(absent).map(drop).unwrap_err()] {
        assert!(error.kind() == ErrorKind::Missing && said(&error).contains(&absent.short()), "{error}");
    }
    let digest = blobs.put(b"a photograph").unwrap();
    std::fs::write(blobs.path(digest), b"A photograph").unwrap();
    let error = blobs.verify(digest).unwrap_err();
    assert!(error.kind() == ErrorKind::Damaged && said(&error).contains(&digest.short()), "{error}");
}

#[test]
fn a_reader_that_fails_leaves_nothing_behind() {
    struct Falls(u8);
    impl Read for Falls {
        fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
            if self.0 == 0 {
                return Err(std::io::Error::other("the card was pulled out"));
            }
            self.0 -= 1;
            buffer.fill(7);
            Ok(buffer.len())
        }
    }
    let dir = tempfile::tempdir().unwrap();
    let blobs = Blobs::in_dir(dir.path()).unwrap();
    let error = blobs.put_reader(&mut Falls(3)).unwrap_err();
    assert!(error.kind() == ErrorKind::Io && said(&error).contains("pulled out"), "{error}");
    assert_eq!(blobs.list().unwrap(), (vec![], vec![]));
    assert_eq!(std::fs::read_dir(dir.path().join("blobs/incoming")).unwrap().count(), 0);
}

#[test]
fn what_a_crash_left_half_written_is_cleared_but_not_what_is_being_written() {
    struct Slow<'a>(&'a std::path::Path, u8);
    impl Read for Slow<'_> {
        fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
            // Somebody else opens the store in the middle of it.
            Blobs::in_dir(self.0).unwrap();
            if self.1 == 0 {
                return Ok(0);
            }
            self.1 -= 1;
            buffer[..3].copy_from_slice(b"abc");
            Ok(3)
        }
    }
    let dir = tempfile::tempdir().unwrap();
    let blobs = Blobs::in_dir(dir.path()).unwrap();
    let left = dir.path().join("blobs/incoming/4000000-0");
    std::fs::File::create(&left).unwrap().write_all(b"half").unwrap();
    let (digest, size) = blobs.put_reader(&mut Slow(dir.path(), 4)).unwrap();
    assert!(!left.exists());
    assert_eq!((digest, size), (Digest::of(b"abcabcabcabc"), 12));
    assert_eq!(read(&open(dir.path(), 1).blobs().clone(), digest), b"abcabcabcabc");
}
