//! Packets that are not as they were sealed: which file, why, how to mend it; the office takes none of them.

use std::path::{Path, PathBuf};

use survey::Digest;

use super::steps::{DAMAGED, HOUSE, NOT_THERE, a_house, entries, json, photo, record, refuses, seal, tries};
use crate::support::python;

fn sealed(dir: &Path) -> (PathBuf, Vec<u8>) {
    a_house(dir);
    record(dir, "stub-height", &["19 1/4", "--photo", &photo()]);
    let path = seal(dir);
    let bytes = std::fs::read(&path).unwrap();
    (path, bytes)
}

/// Name, place of the record and place of the content of each file: walks the local headers (PKWARE APPNOTE 4.3.7).
fn members(zip: &[u8]) -> Vec<(String, usize, std::ops::Range<usize>)> {
    let (mut at, mut list) = (0, Vec::new());
    while zip[at..].starts_with(b"PK\x03\x04") {
        let short = |o: usize| usize::from(u16::from_le_bytes([zip[at + o], zip[at + o + 1]]));
        let size = u32::from_le_bytes(zip[at + 18..at + 22].try_into().unwrap()) as usize;
        let name_at = at + 30;
        let start = name_at + short(26) + short(28);
        let name = String::from_utf8(zip[name_at..name_at + short(26)].to_vec()).unwrap();
        list.push((name, at, start..start + size));
        at = start + size;
    }
    assert!(list.len() >= 9, "{list:?}");
    list
}

/// Both doors refuse the file with these words.
fn both_refuse(dir: &Path, bytes: &[u8], words: &[&str]) {
    std::fs::write(dir.join("altered.zip"), bytes).unwrap();
    refuses(dir, &["verify", "altered.zip"], DAMAGED, words);
    let told = refuses(dir, &["receive", "altered.zip"], DAMAGED, words);
    assert!(told.contains("was not received"), "{told}");
}

#[test]
fn one_flipped_bit_in_any_file_or_record_is_found_and_named() {
    let dir = tempfile::tempdir().unwrap();
    let (path, whole) = sealed(dir.path());
    for (name, record, content) in members(&whole) {
        let inside = name.split_once('/').unwrap().1;
        let mut bytes = whole.clone();
        bytes[content.start + content.len() / 2] ^= 0x10;
        both_refuse(dir.path(), &bytes, &[inside]);
        let mut bytes = whole.clone();
        bytes[record + 10] ^= 1; // its time
        both_refuse(dir.path(), &bytes, &[inside]);
    }
    let mut bytes = whole.clone();
    *bytes.last_mut().unwrap() ^= 1;
    both_refuse(dir.path(), &bytes, &[]);
    json(dir.path(), &["receive", path.to_str().unwrap()]);
    let held = std::fs::read_dir(dir.path().join("office/packets")).unwrap().count();
    assert_eq!(held, 1, "only the whole one is on the desk");
}

#[test]
fn a_packet_cut_short_or_lengthened_is_not_whole() {
    let dir = tempfile::tempdir().unwrap();
    let (_, whole) = sealed(dir.path());
    for cut in [0, 10, whole.len() / 2, whole.len() - 1] {
        both_refuse(dir.path(), &whole[..cut], &["packet"]);
    }
    let mut longer = whole.clone();
    longer.push(0);
    both_refuse(dir.path(), &longer, &["packet"]);
    both_refuse(dir.path(), b"PK this is a letter", &["packet"]);
    for verb in ["verify", "receive"] {
        refuses(dir.path(), &[verb, "nowhere.zip"], NOT_THERE, &["nowhere.zip"]);
    }
    assert_eq!(entries(dir.path()), 8, "the device's records are as they were");
}

#[test]
fn a_packet_packed_again_by_another_program_is_not_the_one_sealed() {
    let dir = tempfile::tempdir().unwrap();
    let (path, _) = sealed(dir.path());
    let script = "import sys,zipfile\n\
                  a=zipfile.ZipFile(sys.argv[1]); b=zipfile.ZipFile(sys.argv[2],'w',zipfile.ZIP_DEFLATED)\n\
                  [b.writestr(n,a.read(n)) for n in a.namelist()]\n\
                  b.close()\n";
    let again = dir.path().join("again.zip");
    let output = python().args(["-c", script]).arg(&path).arg(&again).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let bytes = std::fs::read(again).unwrap();
    both_refuse(dir.path(), &bytes, &["bag-info.txt", "not as sealing writes it", "do not repack"]);
}

/// CRC-32 of a zip's file (PKWARE APPNOTE 4.4.7), bit by bit.
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0u32, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |c, _| if c & 1 == 1 { (c >> 1) ^ 0xEDB8_8320 } else { c >> 1 })
    })
}

/// Puts `new` in place of `old`, wherever it stands.
fn put(bytes: &mut [u8], old: &[u8], new: &[u8], times: usize) {
    assert_eq!(old.len(), new.len());
    let places: Vec<usize> =
        bytes.windows(old.len()).enumerate().filter(|(_, w)| *w == old).map(|(at, _)| at).collect();
    assert_eq!(places.len(), times);
    places.into_iter().for_each(|at| bytes[at..at + new.len()].copy_from_slice(new));
}

#[test]
fn a_packet_of_a_newer_program_says_so_and_is_not_called_damaged_by_accident() {
    let dir = tempfile::tempdir().unwrap();
    let (_, mut bytes) = sealed(dir.path());
    // As a newer program would seal it: the version raised and every sum above it made right again.
    let find = |bytes: &[u8], name: &str| {
        members(bytes).into_iter().find(|(n, ..)| n.ends_with(name)).map(|(_, _, content)| content).unwrap()
    };
    let mut change = |name: &str, old: &[u8], new: &[u8]| -> (Digest, Digest) {
        let content = find(&bytes, name);
        let before = bytes[content.clone()].to_vec();
        put(&mut bytes[content.clone()], old, new, 1);
        let after = bytes[content].to_vec();
        put(&mut bytes, &crc32(&before).to_le_bytes(), &crc32(&after).to_le_bytes(), 2);
        (Digest::of(&before), Digest::of(&after))
    };
    let (old, new) = change("data/packet.json", b"\"version\": 1", b"\"version\": 2");
    let (old, new) = change("/manifest-sha256.txt", old.to_string().as_bytes(), new.to_string().as_bytes());
    change("/tagmanifest-sha256.txt", old.to_string().as_bytes(), new.to_string().as_bytes());
    both_refuse(
        dir.path(),
        &bytes,
        &["packet.json has version 2", "reads up to 1", "Use a newer version of this program"],
    );
    let (code, _, told) = tries(dir.path(), &["finding", HOUSE, "bulkhead-duct", "found"]);
    assert_eq!(code, NOT_THERE, "the office has no such house: {told}");
}
