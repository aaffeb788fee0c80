use std::collections::BTreeMap;
use std::process::Command;

use survey::log::{Body, Entry};

use super::*;
use crate::bent::{check, mend, mend_tags, pack, unpack};
use crate::sample::{House, append, house, key, python, taken, zip};

pub(super) fn refusal(bytes: &[u8]) -> String {
    check(bytes).map(|_| ()).unwrap_err().to_string()
}

/// Takes a packet apart, changes it, mends the lists and says why it is refused.
fn forged(change: impl FnOnce(&mut BTreeMap<String, Vec<u8>>)) -> String {
    let (folder, mut files) = unpack(&house().packet());
    change(&mut files);
    mend(&mut files);
    refusal(&pack(&folder, &files))
}

fn edit_info(files: &mut BTreeMap<String, Vec<u8>>, change: impl FnOnce(&mut Info)) {
    let mut info = Info::from_text(&files[names::PACKET_JSON]).unwrap();
    change(&mut info);
    files.insert(names::PACKET_JSON.into(), info.to_text());
}

#[test]
fn what_was_sealed_is_what_opens() {
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("elm.zip");
    let sealed = crate::seal(&path, &house.contents(), &mut house.photos.clone(), &key()).unwrap();
    let mut packet = open(&path).unwrap();
    assert_eq!((packet.digest(), packet.bytes()), (sealed.digest, sealed.bytes));
    assert_eq!(packet.digest(), Digest::of(&std::fs::read(&path).unwrap()));
    assert_eq!(packet.files().count() as u64, sealed.files);
    assert_eq!(packet.entries(), house.entries);
    assert_eq!(packet.assessment(), house.assessment);
    assert_eq!(packet.network(), house.network);
    assert_eq!((packet.info().entries, packet.info().log_position, packet.info().pages.len()), (6, 5, 0));
    for (digest, original) in &house.photos {
        let mut read = Vec::new();
        packet.photo(digest).unwrap().read_to_end(&mut read).unwrap();
        assert_eq!(&read, original);
    }
    assert!(matches!(packet.photo(&Digest::of(b"other")), Err(PacketError::Missing { .. })));
}

#[test]
fn a_packet_changed_while_it_is_open_does_not_read_to_its_end() {
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("elm.zip");
    crate::seal(&path, &house.contents(), &mut house.photos.clone(), &key()).unwrap();
    let mut packet = open(&path).unwrap();
    let mut bytes = std::fs::read(&path).unwrap();
    let (digest, original) = house.photos.first_key_value().unwrap();
    let at = bytes.windows(original.len()).position(|w| w == original).unwrap();
    bytes[at + 4] ^= 1;
    std::fs::write(&path, bytes).unwrap();
    let error = packet.photo(digest).unwrap().read_to_end(&mut Vec::new()).unwrap_err();
    assert_eq!(error.kind(), io::ErrorKind::InvalidData);
}

/// Every bit of every byte, payload or not, but for most of the schemas: refused, and the file it belongs to is named.
#[test]
fn every_flipped_bit_is_found_and_named() {
    let mut bytes = house().packet();
    let found = check(&bytes).unwrap();
    let owner: Vec<(u64, &str)> = found.members.iter().map(|(n, m, _)| (m.end(), n.as_str())).collect();
    let mut tried = 0;
    for at in 0..bytes.len() {
        let file = owner.iter().find(|(end, _)| (at as u64) < *end).map(|(_, name)| *name);
        // The schemas are long and all alike: one byte in 41 of them.
        if file.is_some_and(|name| name.starts_with("data/schemas/")) && at % 41 != 0 {
            continue;
        }
        for bit in 0..8 {
            bytes[at] ^= 1 << bit;
            let error = check(&bytes).map(|_| ()).unwrap_err();
            let words = error.to_string();
            match file {
                Some(file) => assert!(words.contains(file), "byte {at} bit {bit} of {file}: {words}"),
                None => assert!(
                    matches!(
                        error,
                        PacketError::Header { .. }
                            | PacketError::Name { .. }
                            | PacketError::NotWhole { .. }
                            | PacketError::TooLarge { .. }
                    ),
                    "byte {at} bit {bit} of the directory: {words}"
                ),
            }
            bytes[at] ^= 1 << bit;
            tried += 1;
        }
    }
    assert!(tried > 60_000, "{tried}");
    assert!(check(&bytes).is_ok());
}

#[test]
fn every_cut_and_every_byte_added_is_refused() {
    let bytes = house().packet();
    for cut in (0..bytes.len()).filter(|at| at % 7 == 0 || bytes.len() - at < 2_000) {
        assert!(check(&bytes[..cut]).is_err(), "cut at {cut}");
    }
    assert!(refusal(&[bytes.clone(), vec![0]].concat()).contains("follow its end"));
    assert!(refusal(&[vec![0], bytes].concat()).contains("added before"));
}

#[test]
fn a_comment_a_data_descriptor_and_a_symbolic_link_are_refused() {
    let bytes = house().packet();
    let mut comment = bytes.clone();
    let end = comment.len();
    comment[end - 2..].copy_from_slice(&3u16.to_le_bytes());
    comment.extend(b"hey");
    assert!(refusal(&comment).contains("3 bytes follow its end (a comment"));
    let directory = bytes.windows(4).position(|w| w == b"PK\x01\x02").unwrap();
    let mut descriptor = bytes.clone();
    descriptor[directory + 8] |= 8;
    descriptor[6] |= 8;
    assert!(refusal(&descriptor).contains("flags (encryption, data descriptor"));
    let mut link = bytes.clone();
    link[directory + 40..directory + 42].copy_from_slice(&0o120_777u16.to_le_bytes());
    assert!(refusal(&link).contains("attributes (a packet has regular files only)"));
    let mut deflated = bytes;
    deflated[directory + 10] = 8;
    deflated[8] = 8;
    assert!(refusal(&deflated).contains("only stored files"));
}

#[test]
fn missing_files_are_named_whether_or_not_the_lists_were_mended() {
    let (folder, whole) = unpack(&house().packet());
    for name in whole.keys() {
        let mut files = whole.clone();
        files.remove(name);
        assert!(refusal(&pack(&folder, &files)).contains(name.as_str()), "{name}");
    }
    let schema = "data/schemas/entry.schema.json";
    for name in [names::LOG, names::ASSESSMENT, names::NETWORK, names::PACKET_JSON, schema] {
        let words = forged(|files| drop(files.remove(name)));
        assert!(words.contains(name) && words.contains("missing"), "{words}");
    }
    let photo = names::photo(house().photos.keys().next().unwrap());
    let words = forged(|files| drop(files.remove(&photo)));
    assert_eq!(words, format!("{photo} is missing, though data/log.jsonl names it"));
}

#[test]
fn extra_files_are_named_whether_or_not_the_lists_were_mended() {
    let other = names::photo(&Digest::of(b"other"));
    for name in ["data/readme.txt", "notes.txt", "data/photos/x.jpg", "data/pages/office.pdf", other.as_str()]
    {
        let (folder, mut files) = unpack(&house().packet());
        files.insert(name.into(), b"other".to_vec());
        assert!(refusal(&pack(&folder, &files)).contains(&format!("{name} does not belong")), "{name}");
        let words = forged(|files| drop(files.insert(name.into(), b"other".to_vec())));
        assert!(words.contains(&format!("{name} does not belong")), "{words}");
    }
}

#[test]
fn files_changed_without_mending_the_lists_do_not_agree_with_them() {
    for (name, list) in [
        (names::NETWORK, names::MANIFEST),
        (names::ASSESSMENT, names::MANIFEST),
        (names::BAG_INFO, names::TAG_MANIFEST),
        (names::MANIFEST, names::TAG_MANIFEST),
    ] {
        let (folder, mut files) = unpack(&house().packet());
        let bytes = files.get_mut(name).unwrap();
        bytes[0] = if bytes[0] == b'0' { b'1' } else { b'0' };
        assert_eq!(refusal(&pack(&folder, &files)), format!("{name}: its bytes do not agree with {list}"));
    }
}

#[test]
fn a_file_outside_the_folder_and_a_second_folder_are_refused() {
    let (folder, files) = unpack(&house().packet());
    let mut list: Vec<_> = files.iter().map(|(n, b)| (format!("{folder}/{n}"), b.clone())).collect();
    list.push(("zz".into(), vec![]));
    assert!(refusal(&zip(&list)).contains("outside the one folder"));
    list.pop();
    list.insert(0, ("../evil".into(), vec![]));
    assert!(refusal(&zip(&list)).contains("climbs"));
    assert!(refusal(&pack("another", &files)).contains("the zip's folder should be underlath-"));
    assert!(refusal(&zip(&[])).contains("no folder"));
    let reversed: Vec<_> = files.iter().rev().map(|(n, b)| (format!("{folder}/{n}"), b.clone())).collect();
    assert!(refusal(&zip(&reversed)).contains("out of order"));
}

#[test]
fn a_newer_version_is_called_newer_and_not_damaged() {
    let newer = |files: &mut BTreeMap<String, Vec<u8>>| {
        let text = String::from_utf8(files[names::PACKET_JSON].clone()).unwrap();
        let text = text.replace("\"version\": 1,", "\"version\": 2, \"of\": \"tomorrow\",");
        files.insert(names::PACKET_JSON.into(), text.into_bytes());
        files.insert("data/unheard-of.bin".into(), vec![1]);
    };
    assert_eq!(forged(newer), "data/packet.json has version 2; this program reads up to 1");
    let words = forged(|files| {
        let log = String::from_utf8(files[names::LOG].clone()).unwrap();
        files.insert(names::LOG.into(), log.replacen("{\"v\":1", "{\"v\":3", 1).into_bytes());
    });
    assert_eq!(words, "data/log.jsonl has version 3; this program reads up to 2");
}

fn log_of(entries: &[Entry]) -> Vec<u8> {
    entries.iter().flat_map(|e| [e.to_bytes(), b"\n".to_vec()].concat()).collect()
}

#[test]
fn a_forged_log_is_refused_with_its_line() {
    let entries = house().entries;
    let with = |entries: &[Entry]| {
        let log = log_of(entries);
        forged(|files| drop(files.insert(names::LOG.into(), log)))
    };
    let mut taken_out = entries.clone();
    taken_out.remove(1);
    assert!(with(&taken_out).contains("jumps to entry"), "{}", with(&taken_out));
    let mut changed = entries.clone();
    changed[0].by = "Somebody else".into();
    assert!(with(&changed).contains("does not follow from the entry before it"));
    let mut swapped = entries.clone();
    swapped.swap(0, 1);
    assert!(with(&swapped).contains("line 2: the entry comes twice or out of the log's order"));
    let mut doubled = entries.clone();
    doubled.insert(1, doubled[0].clone());
    assert!(with(&doubled).contains("line 2"));
    let mut foreign = entries.clone();
    foreign[2].survey = survey::SurveyId::from_bytes([9; 16]);
    assert!(with(&foreign).contains("line 3: the entry belongs to another survey"));
    let mut longer = entries;
    append(&mut longer, 1, taken(Digest::of(b"other"), 5, "o.jpg"));
    assert!(with(&longer).contains("packet.json: it counts 6 entries") || with(&longer).contains("missing"));
    let spaced = forged(|files| {
        let log = String::from_utf8(files[names::LOG].clone()).unwrap().replacen("\",\"", "\", \"", 1);
        files.insert(names::LOG.into(), log.into_bytes());
    });
    assert!(spaced.contains("data/log.jsonl, line 1: ") && spaced.contains("canonical"), "{spaced}");
    assert!(forged(|f| drop(f.insert(names::LOG.into(), vec![]))).contains("data/log.jsonl"));
}

#[test]
fn another_assessment_is_refused_by_record_and_log() {
    let other = b"{\"v\":2}".to_vec();
    let words = forged(|files| drop(files.insert(names::ASSESSMENT.into(), other.clone())));
    assert_eq!(words, "data/assessment.json: its bytes do not agree with data/packet.json");
    let words = forged(|files| {
        files.insert(names::ASSESSMENT.into(), other.clone());
        edit_info(files, |info| info.assessment = Digest::of(&other));
    });
    assert!(words.contains("its last “sealed” entry names another assessment"), "{words}");
}

#[test]
fn a_forged_record_is_refused() {
    for (change, words) in [
        ((|info| info.entries = 7) as fn(&mut Info), "it counts 7 entries"),
        (|info| info.log_position = 7, "7 assessed"),
        (|info| info.number = 2, "the zip's folder should be"),
        (|info| info.photos.reverse(), "list of photographs"),
        (|info| info.photos[0].name = None, "list of photographs"),
        (|info| info.pages = vec!["pages/office.pdf".into()], "data/pages/office.pdf is missing"),
        (|info| info.pages = vec!["packet.json".into()], "is no name for pages"),
        (|info| info.pages = vec!["pages/b.pdf".into(), "pages/a.pdf".into()], "out of order"),
        (|info| info.format = "other".into(), "format is not"),
        (|info| info.version = 0, "not spelled"),
    ] {
        let found = forged(|files| edit_info_raw(files, change));
        assert!(found.contains(words), "{found}");
    }
    let spaced = forged(|files| files.get_mut(names::PACKET_JSON).unwrap().push(b'\n'));
    assert!(spaced.contains("not spelled as sealing writes it"), "{spaced}");
}

fn edit_info_raw(files: &mut BTreeMap<String, Vec<u8>>, change: fn(&mut Info)) {
    edit_info(files, change);
}

#[test]
fn bag_info_and_declaration_must_be_the_ones_sealing_writes() {
    for (name, from, to, words) in [
        (names::BAG_INFO, "\nPayload-Oxum: ", "\nPayload-Oxum: 9", "bag-info.txt, line 5: Payload-Oxum"),
        (names::BAG_INFO, "Bagging-Date: 2026", "Bagging-Date: 2025", "bag-info.txt, line 2: Bagging-Date"),
        (names::BAGIT, "UTF-8", "UTF-7", "bagit.txt"),
        (names::BAGIT, "1.0", "1.1", "bagit.txt has version 1.1"),
    ] {
        let (folder, mut files) = unpack(&house().packet());
        let text = String::from_utf8(files[name].clone()).unwrap();
        assert!(text.contains(from));
        files.insert(name.into(), text.replace(from, to).into_bytes());
        mend_tags(&mut files);
        let found = refusal(&pack(&folder, &files));
        assert!(found.contains(words), "{found}");
    }
}

#[test]
fn a_changed_photograph_is_found_by_its_name_even_if_the_lists_were_mended() {
    let photo = names::photo(house().photos.keys().next().unwrap());
    let words = forged(|files| files.get_mut(&photo).unwrap()[3] ^= 1);
    assert_eq!(words, format!("{photo}: its bytes do not agree with data/log.jsonl"));
}

#[test]
fn a_folder_a_picture_and_an_empty_file_are_not_packets() {
    let folder = tempfile::tempdir().unwrap();
    assert!(open(folder.path()).unwrap_err().to_string().contains("not a file"));
    let path = folder.path().join("x.zip");
    std::fs::write(&path, b"").unwrap();
    assert!(open(&path).unwrap_err().to_string().contains("empty"));
    std::fs::write(&path, vec![0xff; 4000]).unwrap();
    let error = open(&path).unwrap_err();
    assert!(error.to_string().contains("another kind of file") && !error.hint().is_empty());
    assert!(matches!(open(&folder.path().join("none.zip")), Err(PacketError::Io { .. })));
}

/// Independent readers: Python's `zipfile`, the `bagit` package of the Library of Congress, and Info-ZIP's `unzip`.
#[test]
fn independent_programs_find_the_packet_whole_and_a_changed_bag_not() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("elm.zip");
    std::fs::write(&path, big(&house())).unwrap();
    let script = "
import sys, os, zipfile, bagit
z = zipfile.ZipFile(sys.argv[1]); assert z.testzip() is None
z.extractall(sys.argv[2])
top, = os.listdir(sys.argv[2])
bag = bagit.Bag(os.path.join(sys.argv[2], top))
bag.validate()
print(bag.version, bag.info['Payload-Oxum'], bag.info['External-Description'], len(bag.payload_entries()))
with open(os.path.join(sys.argv[2], top, 'data', 'log.jsonl'), 'r+b') as f:
    f.seek(9); f.write(b'x')
try: bag.validate(); print('unseen')
except bagit.BagValidationError as e: print('found')
";
    let out = python(script, &[&path, &folder.path().join("out")]).unwrap();
    let oxum = check(&std::fs::read(&path).unwrap()).unwrap();
    let payload: Vec<_> = oxum.members.iter().filter(|(n, ..)| n.starts_with("data/")).collect();
    let bytes: u64 = payload.iter().map(|(_, m, _)| u64::from(m.size)).sum();
    let expected = format!(
        "1.0 {bytes}.{n} Survey of concealed conditions, packet 1 of Elm St 3 Payload-Oxum: 0.0 {n}\nfound\n",
        n = payload.len()
    );
    assert_eq!(out, expected);
    let unzip = Command::new("unzip").arg("-t").arg(&path).output();
    let unzip = unzip.unwrap_or_else(|e| panic!("unzip: {e}; install it: apt-get install unzip"));
    assert!(unzip.status.success(), "{}", String::from_utf8_lossy(&unzip.stdout));
}

/// The house with two hundred more photographs, so that the lists are longer than a screen.
fn big(house: &House) -> Vec<u8> {
    let mut entries = house.entries.clone();
    let sealed = entries.pop().unwrap();
    let mut photos = house.photos.clone();
    for n in 0..200u32 {
        let bytes = n.to_le_bytes().repeat(999);
        append(&mut entries, 2, taken(Digest::of(&bytes), bytes.len() as u64, &format!("IMG {n}.jpg")));
        photos.insert(Digest::of(&bytes), bytes);
    }
    append(&mut entries, 1, Body::clone(&sealed.body));
    House {
        entries,
        photos,
        assessment: house.assessment.clone(),
        network: house.network.clone(),
        key: house.key,
    }
    .packet()
}

/// Sealed when the log had one form only: its entries, its digests and the schemas it brought are read as they were.
#[test]
fn a_packet_from_before_demolition_could_be_declared_opens_as_it_did() {
    let bytes = include_bytes!("../../fixtures/form-1.zip");
    let opened = check(bytes).unwrap();
    assert!(opened.entries.iter().all(|e| e.v == 1) && !opened.entries.is_empty());
    assert_eq!(opened.digest, Digest::of(bytes));
    assert!(!bytes.windows(20).any(|w| w == b"demolition-withdrawn"), "it brings the schema of its day");
}
