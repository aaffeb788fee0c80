use std::fs::OpenOptions;
use std::io::{Cursor, Seek as _, SeekFrom, Write as _};

use super::layout::{central_header, end_records};
use super::*;
use crate::sample::{python, zip};
use crate::stream::Sums;

fn read(bytes: &[u8]) -> Result<read::Directory, crate::PacketError> {
    directory(&mut Cursor::new(bytes), bytes.len() as u64)
}

fn two() -> Vec<u8> {
    zip(&[("a/one".into(), b"1".to_vec()), ("a/two".into(), vec![7; 300])])
}

#[test]
fn what_was_written_is_read() {
    let bytes = two();
    let found = read(&bytes).unwrap();
    assert_eq!(
        found.members.iter().map(|m| (m.name.as_str(), m.size)).collect::<Vec<_>>(),
        [("a/one", 1), ("a/two", 300)]
    );
    assert_eq!(found.members[1].offset, 30 + 5 + 1);
}

#[test]
fn the_bytes_of_a_small_zip_never_change() {
    // Read field by field against PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16.
    let expected = concat!(
        "504b0304", "1400", "0000", "0000", "0000", "2100", "b7efdc83", "01000000", "01000000", "0100",
        "0000", "61", "31", "504b0102", "2d03", "1400", "0000", "0000", "0000", "2100", "b7efdc83",
        "01000000", "01000000", "0100", "0000", "0000", "0000", "0000", "0000a481", "00000000", "61",
        "504b0506", "0000", "0000", "0100", "0100", "2f000000", "20000000", "0000",
    );
    let hex: String = zip(&[("a".into(), b"1".to_vec())]).iter().map(|b| format!("{b:02x}")).collect();
    assert_eq!(hex, expected);
}

#[test]
fn names_out_of_order_twice_or_unsafe_are_refused() {
    let of = |names: &[&str]| zip(&names.iter().map(|n| (n.to_string(), vec![])).collect::<Vec<_>>());
    for (names, reason) in [
        (&["b", "a"][..], "out of order"),
        (&["a", "a"], "twice"),
        (&["A", "a"], "case only"),
        (&["../a"], "climbs"),
        (&["/a"], "absolute"),
        (&["C:a"], "drive"),
        (&["a\\b"], "backslash"),
        (&["a/"], "folder entry"),
        (&["a\u{1}"], "control"),
    ] {
        let error = read(&of(names)).unwrap_err().to_string();
        assert!(error.contains(reason), "{names:?}: {error}");
    }
}

#[test]
fn added_and_missing_bytes_are_told_apart() {
    let bytes = two();
    let behind = [bytes.clone(), b"xyz".to_vec()].concat();
    assert!(read(&behind).unwrap_err().to_string().contains("3 bytes follow its end"));
    let before = [b"MZ".to_vec(), bytes.clone()].concat();
    assert!(read(&before).unwrap_err().to_string().contains("added before the first file"));
    for cut in 0..bytes.len() {
        assert!(matches!(read(&bytes[..cut]), Err(crate::PacketError::NotWhole { .. })), "cut at {cut}");
    }
}

#[test]
fn a_gap_between_files_is_refused_even_if_the_directory_agrees() {
    let bytes = two();
    let members = read(&bytes).unwrap().members;
    let mut moved = members.clone();
    moved[1].offset += 1;
    let mut out = bytes[..members[1].offset as usize].to_vec();
    out.push(0);
    out.extend(&bytes[members[1].offset as usize..members[1].end() as usize]);
    let at = out.len() as u64;
    moved.iter().for_each(|m| out.extend(central_header(m)));
    let size = out.len() as u64 - at;
    out.extend(end_records(2, at, size));
    let error = read(&out).unwrap_err().to_string();
    assert!(error.contains("a/one") && error.contains("offset of the file after it"), "{error}");
}

#[test]
fn past_65534_files_and_past_4_gib_python_reads_the_zip64_records() {
    let folder = tempfile::tempdir().unwrap();
    let many = folder.path().join("many.zip");
    let files: Vec<_> = (0..65_535).map(|n| (format!("f/{n:05}"), vec![])).collect();
    let bytes = zip(&files);
    assert_eq!(read(&bytes).unwrap().members.len(), 65_535);
    std::fs::write(&many, &bytes).unwrap();
    // A hole of 5 GiB as five contents takes no room on disk; only the last, small one is read by Python.
    let far = folder.path().join("far.zip");
    let mut file = OpenOptions::new().create_new(true).write(true).read(true).open(&far).unwrap();
    let (mut members, mut at) = (Vec::new(), 0);
    let last = b"found".to_vec();
    for n in 0..6u32 {
        let sums = Sums::of(&last);
        let size = if n == 5 { 5 } else { 1 << 30 };
        let member = Member { name: format!("f/{n}"), size, crc: sums.crc, offset: at };
        file.seek(SeekFrom::Start(at)).unwrap();
        file.write_all(&local_header(&member)).unwrap();
        at = member.end();
        members.push(member);
    }
    file.write_all(&last).unwrap();
    members.iter().for_each(|m| file.write_all(&central_header(m)).unwrap());
    let size = members.iter().map(|m| central_header(m).len() as u64).sum();
    file.write_all(&end_records(6, at, size)).unwrap();
    let len = file.metadata().unwrap().len();
    assert_eq!(directory(&mut file, len).unwrap().members, members);
    let script = "
import sys, zipfile
z = zipfile.ZipFile(sys.argv[1]); print(len(z.infolist()), z.infolist()[-1].filename)
z = zipfile.ZipFile(sys.argv[2]); print(z.infolist()[5].header_offset > 2**32, z.read('f/5').decode())
";
    assert_eq!(python(script, &[&many, &far]).unwrap(), "65535 f/65534\nTrue found\n");
}
