//! Small pictures beside the originals: both or neither with the entry, checked, swept, made anew, copied.

use std::io::Read as _;
use std::path::{Path, PathBuf};

use store::{Made, Next, Preview, Store};
use survey::Digest;
use survey::log::{Body, Entry, PhotoTaken};

use crate::support::{entry, house, open, opened, record, said};

const SCREEN: &[u8] = b"a preview for a screen";
const LIST: &[u8] = b"a preview for a list";

fn made(original: Digest) -> (Digest, [Preview<'static>; 2]) {
    let preview = |longest, bytes| Preview { longest, width: longest, height: longest / 2, bytes };
    (original, [preview(1600, SCREEN), preview(320, LIST)])
}

fn photo_entry(next: Next, digest: Digest, bytes: &[u8]) -> Entry {
    let taken = PhotoTaken {
        place: None,
        item: None,
        digest,
        name: "under-sink.jpg".into(),
        bytes: bytes.len() as u64,
        width: 1600,
        height: 800,
        orientation: 1,
        taken: None,
        taken_local: None,
        complaints: vec![],
        caption: None,
    };
    entry(next, Body::Photo(taken))
}

/// A store with one house.
fn home() -> (tempfile::TempDir, Store) {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    record(&mut store, house(1), opened("Mill Lane"));
    (dir, store)
}

/// The files among the previews.
fn files(dir: &Path) -> Vec<PathBuf> {
    let list = |dir: &Path| -> Vec<PathBuf> {
        std::fs::read_dir(dir).unwrap().map(|entry| entry.unwrap().path()).collect()
    };
    let shards = list(&dir.join("previews"));
    shards.iter().filter(|shard| !shard.ends_with("incoming")).flat_map(|shard| list(shard)).collect()
}

fn take_in(store: &mut Store, bytes: &[u8]) -> Digest {
    let original = store.blobs().put(bytes).unwrap();
    let (original, previews) = made(original);
    let made = Made { original, previews: &previews, seen: r#"{"light":90}"# };
    store.append_photo_with(house(1), Some(&made), |next| photo_entry(next, original, bytes)).unwrap();
    original
}

fn read(store: &Store, original: Digest, longest: u32) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    store.preview(original, longest).unwrap()?.read_to_end(&mut bytes).unwrap();
    Some(bytes)
}

#[test]
fn previews_stand_with_the_entry_and_one_made_twice_is_one_file() {
    let (dir, mut store) = home();
    let first = take_in(&mut store, b"one photograph");
    let second = take_in(&mut store, b"another photograph");
    for original in [first, second] {
        assert_eq!(read(&store, original, 1600).as_deref(), Some(SCREEN));
        assert_eq!(read(&store, original, 320).as_deref(), Some(LIST));
        assert_eq!(read(&store, original, 99), None);
        assert_eq!(store.seen(original).unwrap().as_deref(), Some(r#"{"light":90}"#));
    }
    let report = store.check();
    assert!(report.is_whole(), "{:?}", report.problems);
    assert_eq!((report.photos, report.previews, report.leftover_previews), (2, 4, 0));
    let files = files(dir.path());
    assert_eq!(files.len(), 2, "{files:?}");
}

#[test]
fn an_entry_that_is_refused_leaves_no_row_and_its_files_are_swept_but_no_original_is() {
    let (dir, mut store) = home();
    let original = store.blobs().put(b"a photograph").unwrap();
    let (_, previews) = made(original);
    let made = Made { original, previews: &previews, seen: "{}" };
    let refused = store.append_photo_with(house(1), Some(&made), |next| {
        let mut entry = photo_entry(next, original, b"a photograph");
        entry.seq += 1;
        entry
    });
    assert!(refused.is_err());
    assert_eq!((read(&store, original, 320), store.seen(original).unwrap()), (None, None));
    assert_eq!(files(dir.path()).len(), 2, "files come before rows");
    assert_eq!(store.check().leftover_previews, 2);
    assert_eq!(store.sweep_previews().unwrap(), 2);
    assert_eq!(store.sweep_previews().unwrap(), 0);
    assert_eq!((files(dir.path()).len(), store.check().leftover_previews), (0, 0));
    assert_eq!(store.blobs().verify(original).unwrap(), 12);
}

#[test]
fn a_damaged_or_missing_preview_is_named_and_keeping_it_again_mends_it() {
    for damage in ["cut", "bent", "gone"] {
        let (dir, mut store) = home();
        let original = take_in(&mut store, b"a photograph");
        let file = files(dir.path()).into_iter().find(|f| std::fs::read(f).unwrap() == LIST).unwrap();
        match damage {
            "cut" => std::fs::write(&file, &LIST[1..]).unwrap(),
            "bent" => std::fs::write(&file, LIST.to_ascii_uppercase()).unwrap(),
            _ => std::fs::remove_file(&file).unwrap(),
        }
        let report = store.check();
        assert_eq!((report.problems.len(), report.previews), (1, 1), "{damage}: {:?}", report.problems);
        assert!(said(&report.problems[0]).contains("--mend"), "{}", report.problems[0]);
        assert_eq!(store.without_previews().unwrap(), [original], "{damage}");
        let (original, previews) = made(original);
        store.keep_previews(&Made { original, previews: &previews, seen: "{}" }).unwrap();
        assert!(store.check().is_whole(), "{damage}");
        assert_eq!(store.without_previews().unwrap(), []);
    }
}

#[test]
fn a_backup_has_the_previews_too() {
    let (dir, mut store) = home();
    let original = take_in(&mut store, b"a photograph");
    let to = dir.path().join("backup");
    store.backup(&to).unwrap();
    let copy = open(&to, 1);
    assert!(copy.check().is_whole());
    assert_eq!(read(&copy, original, 320).as_deref(), Some(LIST));
}
