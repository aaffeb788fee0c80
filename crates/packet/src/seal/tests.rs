use std::collections::BTreeMap;
use std::io::Read;
use std::process::Command;
use std::{fs, io};

use super::*;
use crate::sample::{House, append, house, key, taken};
use crate::stream::copy;

fn refusal(house: &House, contents: &Contents<'_>, photos: &BTreeMap<Digest, Vec<u8>>) -> String {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    let error = seal(&path, contents, &mut photos.clone(), &key()).unwrap_err();
    let left: Vec<_> = fs::read_dir(folder.path()).unwrap().collect();
    assert!(left.is_empty(), "a refusal leaves nothing behind: {left:?}");
    assert!(!error.hint().is_empty() && !house.entries.is_empty());
    error.to_string()
}

#[test]
fn the_same_contents_give_the_same_bytes_in_any_order_of_entries() {
    let mut house = house();
    let first = house.packet();
    house.entries.reverse();
    assert_eq!(house.packet(), first);
}

#[test]
fn the_same_packet_may_be_sealed_again_but_no_other_file_is_written_over() {
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    let once = seal(&path, &house.contents(), &mut house.photos.clone(), &key()).unwrap();
    assert_eq!(seal(&path, &house.contents(), &mut house.photos.clone(), &key()).unwrap(), once);
    let other = Contents { number: 2, ..house.contents() };
    let error = seal(&path, &other, &mut house.photos.clone(), &key()).unwrap_err();
    assert!(matches!(error, PacketError::Exists { .. }));
    assert_eq!(Digest::of(&fs::read(&path).unwrap()), once.digest);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
}

#[test]
fn a_name_that_could_steer_a_screen_is_refused() {
    let house = house();
    for label in ["12 Oak St\n  certified", "12 Oak St\u{1b}[8m", "\u{202e}tS kaO 21"] {
        let said = refusal(&house, &Contents { label, ..house.contents() }, &house.photos);
        assert!(said.contains("steer a screen"), "{said}");
    }
}

#[test]
fn a_packet_written_in_steps_counts_its_photographs_and_is_the_same_packet() {
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    let photos = &mut house.photos.clone();
    let mut sealing = Sealing::begin(&path, &house.contents(), photos).unwrap();
    let mut counts = vec![sealing.photos_written()];
    while sealing.step(photos).unwrap() {
        assert!(!path.exists(), "a packet has its name only once it is whole");
        counts.push(sealing.photos_written());
    }
    counts.dedup();
    assert_eq!(counts, [0, 1, 2]);
    assert_eq!(sealing.photos(), 2);
    let sealed = sealing.finish(photos, &key()).unwrap();
    assert_eq!(seal(&path, &house.contents(), photos, &key()).unwrap(), sealed);
    assert_eq!(fs::read(&path).unwrap(), house.packet());
}

#[test]
fn a_sealing_that_is_stopped_half_way_leaves_nothing_behind() {
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let photos = &mut house.photos.clone();
    let mut sealing = Sealing::begin(&folder.path().join("p.zip"), &house.contents(), photos).unwrap();
    assert!(sealing.step(photos).unwrap());
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    drop(sealing);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
}

#[test]
fn a_sealing_that_is_stopped_after_any_file_leaves_nothing_behind_and_can_be_begun_again() {
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    for stop in 0.. {
        let photos = &mut house.photos.clone();
        let mut sealing = Sealing::begin(&path, &house.contents(), photos).unwrap();
        let went_on = (0..stop).all(|_| sealing.step(photos).unwrap());
        drop(sealing);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0, "stopped after {stop}");
        if !went_on {
            assert!(stop > 8, "payload and tag files: {stop}");
            break;
        }
    }
    seal(&path, &house.contents(), &mut house.photos.clone(), &key()).unwrap();
    assert_eq!(fs::read(&path).unwrap(), house.packet());
}

#[test]
fn a_damaged_missing_or_shortened_photograph_is_refused_by_name() {
    let house = house();
    let digest = *house.photos.keys().next().unwrap();
    let name = digest.short();
    let with = |change: fn(&mut Vec<u8>)| {
        let mut photos = house.photos.clone();
        change(photos.get_mut(&digest).unwrap());
        refusal(&house, &house.contents(), &photos)
    };
    let damaged = with(|b| b[3] ^= 1);
    assert!(damaged.contains(&name) && damaged.contains("not those the log names"), "{damaged}");
    assert!(with(|b| b.truncate(3)).contains("it has 3 bytes where the log says"));
    let mut gone = house.photos.clone();
    gone.remove(&digest);
    assert!(refusal(&house, &house.contents(), &gone).contains(&name));
}

#[test]
fn a_photograph_that_changes_between_the_two_readings_is_refused() {
    struct Fickle(BTreeMap<Digest, Vec<u8>>, u32);
    impl PhotoSource for Fickle {
        fn size(&mut self, digest: &Digest) -> io::Result<u64> {
            self.0.size(digest)
        }
        fn open(&mut self, digest: &Digest) -> io::Result<Box<dyn Read + '_>> {
            self.1 += 1;
            if self.1 == 2 {
                self.0.get_mut(digest).unwrap()[3] ^= 1;
            }
            self.0.open(digest)
        }
    }
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let error =
        seal(&folder.path().join("p.zip"), &house.contents(), &mut Fickle(house.photos.clone(), 0), &key())
            .unwrap_err();
    assert!(error.to_string().contains("changed while it was being sealed"), "{error}");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
}

#[test]
fn contents_that_contradict_each_other_are_refused() {
    let house = house();
    let refused = |contents: Contents<'_>| refusal(&house, &contents, &house.photos);
    let c = || house.contents();
    assert!(refused(Contents { entries: &[], ..c() }).contains("the log is empty"));
    assert!(refused(Contents { entries: &house.entries[1..], ..c() }).contains("jumps to entry"));
    assert!(refused(Contents { assessment: b"{}", ..c() }).contains("names another assessment"));
    assert!(refused(Contents { log_position: 7, ..c() }).contains("more entries than the log has"));
    assert!(refused(Contents { survey: SurveyId::from_bytes([1; 16]), ..c() }).contains("another survey"));
    let unsealed = &house.entries[..5];
    assert!(refused(Contents { entries: unsealed, assessment: b"{", ..c() }).contains("not JSON"));
    let large = vec![b' '; limits::NETWORK as usize + 1];
    assert!(refused(Contents { network: &large, ..c() }).contains("data/network.bif is too large"));
}

#[test]
fn a_photograph_only_an_answer_points_to_goes_along() {
    let mut house = house();
    let bytes = b"\xff\xd8 only pointed to \xff\xd9".to_vec();
    let digest = Digest::of(&bytes);
    let sealed = house.entries.pop().unwrap();
    let mut answer = house.entries[3].body.clone();
    if let survey::log::Body::Answer(a) = &mut answer {
        a.photos = vec![digest];
    }
    append(&mut house.entries, 1, answer);
    append(&mut house.entries, 1, sealed.body);
    assert!(refusal(&house, &house.contents(), &house.photos).contains(&digest.short()));
    house.photos.insert(digest, bytes);
    let packet = house.packet();
    assert_eq!(
        crate::open::verify(&mut io::Cursor::new(&packet), packet.len() as u64).unwrap().info.photos.len(),
        3
    );
}

#[test]
fn pages_go_along_and_are_read_back() {
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    let file = |name: &str, bytes: &[u8]| PageFile { name: name.into(), bytes: bytes.into() };
    let pages = [file("pages/office.pdf", b"%PDF-invented"), file("pages/conditions.csv", b"a,b\r\n")];
    let contents = Contents { pages: &pages, ..house.contents() };
    seal(&path, &contents, &mut house.photos.clone(), &key()).unwrap();
    let mut packet = crate::open(&path).unwrap();
    assert_eq!(packet.info().pages, ["pages/conditions.csv", "pages/office.pdf"]);
    for PageFile { name, bytes } in &pages {
        let mut read = Vec::new();
        packet.page(name).unwrap().read_to_end(&mut read).unwrap();
        assert_eq!(read, *bytes, "{name}");
    }
    assert!(packet.page("pages/household.pdf").is_err() && packet.page("packet.json").is_err());
}

#[test]
fn pages_with_other_names_twice_or_without_end_are_refused() {
    let house = house();
    let pages = |names: &[&str]| -> Vec<PageFile> {
        names.iter().map(|name| PageFile { name: (*name).into(), bytes: b"x".to_vec() }).collect()
    };
    let many: Vec<String> = (0..=limits::PAGE_FILES).map(|n| format!("pages/p{n}.pdf")).collect();
    let many: Vec<&str> = many.iter().map(String::as_str).collect();
    for (names, words) in [
        (["pages/../log.pdf"].as_slice(), "is no name for pages"),
        (&["log.jsonl"], "is no name for pages"),
        (&["pages/a.pdf", "pages/a.pdf"], "names one twice"),
        (&many, "lists 65 pages where 64 is the most"),
    ] {
        let found = refusal(&house, &Contents { pages: &pages(names), ..house.contents() }, &house.photos);
        assert!(found.contains(words), "{found}");
    }
}

/// Photographs that are never in memory: 4 MB of bytes made from a number.
struct Made(BTreeMap<Digest, u64>);

const MADE: u64 = 4_000_000;

struct Stream(u64, u64);

impl Read for Stream {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let n = (buffer.len() as u64).min(MADE - self.1) as usize;
        for (byte, at) in buffer.iter_mut().take(n).zip(self.1..) {
            *byte = (at.wrapping_mul(self.0 * 2 + 1) >> 7) as u8;
        }
        self.1 += n as u64;
        Ok(n)
    }
}

impl PhotoSource for Made {
    fn size(&mut self, _: &Digest) -> io::Result<u64> {
        Ok(MADE)
    }
    fn open(&mut self, digest: &Digest) -> io::Result<Box<dyn Read + '_>> {
        Ok(Box::new(Stream(self.0[digest], 0)))
    }
}

/// Seals and opens `count` photographs of 4 MB; the highest memory use of this process in KiB (Linux).
fn peak_kib(count: u64) -> u64 {
    let mut house = house();
    house.entries.pop();
    let mut made = Made(BTreeMap::new());
    for n in 0..count {
        let digest = copy(&mut Stream(n, 0), &mut io::sink(), MADE).unwrap().digest;
        made.0.insert(digest, n);
        append(&mut house.entries, 1, taken(digest, MADE, "made.jpg"));
    }
    house.entries.retain(|e| !matches!(&e.body, survey::log::Body::Photo(p) if p.bytes < 1000));
    let entries = std::mem::take(&mut house.entries);
    for entry in entries {
        let mut body = entry.body;
        if let survey::log::Body::Answer(answer) = &mut body {
            answer.photos.clear();
        }
        append(&mut house.entries, 1, body);
    }
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    let sealed = seal(&path, &house.contents(), &mut made, &key()).unwrap();
    assert!(sealed.bytes > count * MADE);
    assert_eq!(crate::open(&path).unwrap().digest(), sealed.digest);
    let status = fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:")).unwrap();
    line.trim().trim_end_matches(" kB").parse().unwrap()
}

#[test]
#[ignore = "run in a process of its own by the test below"]
#[allow(clippy::print_stdout, reason = "read by the parent process")]
fn child_seals_4() {
    println!("peak {} KiB", peak_kib(4));
}

#[test]
#[ignore = "run in a process of its own by the test below"]
#[allow(clippy::print_stdout, reason = "read by the parent process")]
fn child_seals_60() {
    println!("peak {} KiB", peak_kib(60));
}

#[cfg(target_os = "linux")]
#[test]
fn memory_does_not_grow_with_photographs() {
    let peak = |name: &str| -> u64 {
        let program = std::env::current_exe().unwrap();
        let test = format!("seal::tests::{name}");
        let out =
            Command::new(program).args(["--exact", &test, "--ignored", "--nocapture"]).output().unwrap();
        let text = String::from_utf8_lossy(&out.stdout).into_owned();
        let number =
            text.split("peak ").nth(1).and_then(|t| t.split(' ').next()).and_then(|n| n.parse().ok());
        number.unwrap_or_else(|| panic!("{text}{}", String::from_utf8_lossy(&out.stderr)))
    };
    let (few, many) = (peak("child_seals_4"), peak("child_seals_60"));
    assert!(many < few + 4 * 1024, "4 photographs: {few} KiB, 60: {many} KiB");
    assert!(many < 48 * 1024, "60 photographs of 4 MB: {many} KiB");
}

#[test]
fn a_photograph_taken_back_stays_behind_even_where_an_answer_points_to_it() {
    use survey::log::{Body, TakenBack};
    let mut house = house();
    let sealed = house.entries.pop().unwrap();
    let (photo, digest) = house
        .entries
        .iter()
        .find_map(|e| match &e.body {
            Body::Photo(photo) => Some((e.id, photo.digest)),
            _ => None,
        })
        .unwrap();
    append(&mut house.entries, 1, Body::TakenBack(TakenBack { entry: photo, reason: None }));
    append(&mut house.entries, 1, sealed.body.clone());
    // Its bytes are not even asked for.
    let bytes = house.photos.remove(&digest).unwrap();
    let inside = |house: &House| {
        let packet = house.packet();
        let opened = crate::open::verify(&mut io::Cursor::new(&packet), packet.len() as u64).unwrap();
        (opened.info.photos.iter().map(|p| p.digest).collect::<Vec<_>>(), packet)
    };
    let (photos, packet) = inside(&house);
    assert!(photos.len() == 1 && !photos.contains(&digest), "{photos:?}");
    assert!(!packet.windows(bytes.len()).any(|w| w == bytes));
    // Taken in once more it goes along again.
    house.entries.pop();
    append(&mut house.entries, 1, taken(digest, bytes.len() as u64, "IMG_1.jpg"));
    append(&mut house.entries, 1, sealed.body);
    house.photos.insert(digest, bytes);
    assert!(inside(&house).0.contains(&digest));
}

#[test]
fn what_came_after_demolition_goes_along_and_takes_nothing_back() {
    use survey::log::{Body, Demolition, TakenBack};
    let mut house = house();
    let sealed = house.entries.pop().unwrap();
    let photo = house.entries.iter().find(|e| matches!(e.body, Body::Photo(_))).unwrap().id;
    append(&mut house.entries, 1, Body::Demolition(Demolition { reason: None }));
    append(&mut house.entries, 2, Body::TakenBack(TakenBack { entry: photo, reason: None }));
    let late = b"\xff\xd8 the open wall \xff\xd9".to_vec();
    append(&mut house.entries, 2, taken(Digest::of(&late), late.len() as u64, "IMG_9.jpg"));
    house.photos.insert(Digest::of(&late), late);
    append(&mut house.entries, 1, sealed.body);
    let packet = house.packet();
    let opened = crate::open::verify(&mut io::Cursor::new(&packet), packet.len() as u64).unwrap();
    assert_eq!(opened.info.photos.len(), 3);
    let picture = survey::model::fold(&opened.entries);
    assert_eq!((picture.photos.len(), picture.set_aside.len()), (2, 2));
}
