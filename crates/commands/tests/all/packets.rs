//! Sealing a house and handing the packet over, as the screens do it.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use std::fs;
use std::path::{Path, PathBuf};

use crate::support::{ask, world};
use commands::{Photo, Place};
use serde_json::{Value, json};
use survey::Digest;
use tempfile::{TempDir, tempdir};

const PHOTOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../sample-surveys/alder-street/photos/");

struct Tablet {
    home: TempDir,
    downloads: TempDir,
}

impl Tablet {
    fn new() -> Self {
        Self { home: tempdir().unwrap(), downloads: tempdir().unwrap() }
    }
    fn place(&self) -> Place {
        let mut world = world();
        world.downloads = Some(self.downloads.path().to_owned());
        Place::new(Some(self.home.path().to_owned()), world)
    }
    /// Every file below the folder of packets.
    fn packets(&self) -> Vec<PathBuf> {
        files(&self.home.path().join("packets"))
    }
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = entries.map(|e| e.unwrap().path()).collect();
    paths.sort();
    paths
}

/// A house with two photographs.
fn house(place: &Place) -> String {
    let new =
        json!({ "label": "Mill Lane kitchen", "within": 0, "planned": ["deep-sink"], "by": "Rosa Lind" });
    let survey = ask(place, "start-house", new).unwrap()["survey"].as_str().unwrap().to_owned();
    for name in ["under-sink.jpg", "soffit.jpg"] {
        let bytes = fs::read(PHOTOS.to_owned() + name).unwrap();
        place.take_photo("en", &Photo { survey: &survey, key: None, name, bytes: &bytes }).unwrap();
    }
    survey
}

/// Calls until the packet is whole; what was said on the way.
fn sealed(place: &Place, survey: &str) -> (Vec<u64>, Value) {
    let mut said = ask(place, "seal", json!({ "survey": survey })).unwrap();
    let mut counts = Vec::new();
    loop {
        assert_eq!(said["photos"], 2);
        counts.push(said["photosWritten"].as_u64().unwrap());
        if !said["packet"].is_null() {
            return (counts, said["packet"].clone());
        }
        said = ask(place, "seal-on", json!({ "survey": survey })).unwrap();
    }
}

#[test]
fn a_house_is_sealed_in_steps_that_can_be_watched_and_the_packet_is_listed() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let survey = house(&place);
    ask(&place, "set", json!({ "setting": "firm", "value": "Hale & Daughter" })).unwrap();
    let before = ask(&place, "packets", json!({ "survey": survey })).unwrap();
    assert_eq!((&before["packets"], &before["firm"]), (&json!([]), &json!("Hale & Daughter")));
    let (mut counts, packet) = sealed(&place, &survey);
    counts.dedup();
    assert_eq!(counts, [0, 1, 2]);
    let path = packet["path"].as_str().unwrap();
    assert_eq!(tablet.packets(), [PathBuf::from(path)]);
    assert_eq!(packet["digest"], Digest::of(&fs::read(path).unwrap()).to_string());
    assert_eq!(packet["name"], "mill-lane-kitchen-1.zip");
    assert_eq!((&packet["photos"], &packet["there"]), (&json!(2), &json!(true)));
    drop(place);
    let again = ask(&tablet.place(), "packets", json!({ "survey": survey })).unwrap();
    assert_eq!((&again["packets"], &again["since"]), (&json!([packet]), &json!(0)));
    let text = String::from_utf8_lossy(&fs::read(path).unwrap()).into_owned();
    assert!(text.contains("Hale & Daughter"), "the firm stands in the packet");
}

#[test]
fn a_second_packet_names_the_first_and_says_how_much_was_recorded_since() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let survey = house(&place);
    let (_, first) = sealed(&place, &survey);
    let card = json!({ "survey": survey, "key": "bowl-depth", "answer": ["10"] });
    ask(&place, "answer", card).unwrap();
    let between = ask(&place, "packets", json!({ "survey": survey })).unwrap();
    assert_eq!(between["since"], 1);
    let (_, second) = sealed(&place, &survey);
    assert_eq!(second["number"], 2);
    let text = String::from_utf8_lossy(&fs::read(second["path"].as_str().unwrap()).unwrap()).into_owned();
    assert!(text.contains(first["digest"].as_str().unwrap()), "the second packet names the first by its sum");
}

#[test]
fn the_language_of_the_households_pages_is_one_there_is() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let survey = house(&place);
    let seal = |household: &str| ask(&place, "seal", json!({ "survey": survey, "household": household }));
    assert_eq!(seal("fr").unwrap_err().kind, "input");
    assert_eq!(seal("es").unwrap()["photosWritten"], 0);
}

#[test]
fn the_household_reads_its_page_and_signs_it_before_the_packet_is_written() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let survey = house(&place);
    let of = |name: &str, strokes: Value| json!({ "survey": survey, "name": name, "strokes": strokes });
    let lines = json!([[[10, 20], [30, 40]], [[500, 300]]]);
    // Nothing is to be signed before sealing was begun so, nor where it was begun without.
    for begun in [false, true] {
        let signs = |args| ask(&place, "household-signs", args).unwrap_err().kind;
        assert_eq!(signs(of("Ada Alder", lines.clone())), if begun { "conflict" } else { "missing" });
        ask(&place, "seal", json!({ "survey": survey })).unwrap();
    }
    ask(&place, "stop-sealing", json!({ "survey": survey })).unwrap();
    let begun = json!({ "survey": survey, "household": "es", "signs": true });
    assert_eq!(ask(&place, "seal", begun).unwrap()["signs"], true);
    let page = ask(&place, "household-page", json!({ "survey": survey })).unwrap();
    assert_eq!((&page["language"], &page["wide"], &page["high"]), (&json!("es"), &json!(1000), &json!(320)));
    assert_eq!(page["said"], "He leído esta página. Firmarla no acepta ningún precio.");
    let (pictures, texts) = (page["pictures"].as_array().unwrap(), page["texts"].as_array().unwrap());
    assert!(!pictures.is_empty() && pictures.len() == texts.len());
    assert!(pictures.iter().all(|svg| svg.as_str().unwrap().starts_with("<svg")));
    let text: String = texts.iter().map(|t| t.as_str().unwrap()).collect();
    assert!(text.contains("Nadie puede ver"), "{text}");
    for (name, strokes) in [("  ", lines.clone()), ("Ada", json!([[[1001, 1]]])), ("Ada", json!([[]]))] {
        assert_eq!(ask(&place, "household-signs", of(name, strokes)).unwrap_err().kind, "input");
    }
    let signed = ask(&place, "household-signs", of(" Ada Alder ", lines)).unwrap();
    assert_eq!((&signed["signs"], &signed["packet"]), (&json!(false), &Value::Null));
    assert_eq!(ask(&place, "household-page", json!({ "survey": survey })).unwrap_err().kind, "conflict");
    let mut said = signed;
    while said["packet"].is_null() {
        said = ask(&place, "seal-on", json!({ "survey": survey })).unwrap();
    }
    assert_eq!(said["packet"]["signedBy"], "Ada Alder");
    let path = PathBuf::from(said["packet"]["path"].as_str().unwrap());
    let packet = packet::open(&path).unwrap();
    let found = packet.household().unwrap();
    assert_eq!((found.name.as_str(), found.page.as_str()), ("Ada Alder", "pages/household.pdf"));
    assert_eq!(found.strokes, [vec![[10, 20], [30, 40]], vec![[500, 300]]]);
    let listed = ask(&place, "packets", json!({ "survey": survey })).unwrap();
    assert_eq!(listed["packets"][0]["signedBy"], "Ada Alder");
    // Begun for a signature and sealed without one.
    ask(&place, "seal", json!({ "survey": survey, "signs": true })).unwrap();
    let bare = loop {
        let said = ask(&place, "seal-on", json!({ "survey": survey })).unwrap();
        assert_eq!(said["signs"], false);
        if !said["packet"].is_null() {
            break said["packet"].clone();
        }
    };
    assert!(packet::open(Path::new(bare["path"].as_str().unwrap())).unwrap().household().is_none());
}

#[test]
fn a_sealing_that_is_stopped_leaves_no_file_and_the_next_one_goes_through() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let survey = house(&place);
    ask(&place, "seal", json!({ "survey": survey })).unwrap();
    ask(&place, "seal-on", json!({ "survey": survey })).unwrap();
    let going = ask(&place, "packets", json!({ "survey": survey })).unwrap();
    assert_eq!(going["sealing"]["photos"], 2);
    // Something else may be asked meanwhile.
    ask(&place, "walk", json!({ "survey": survey })).unwrap();
    let stopped = ask(&place, "stop-sealing", json!({ "survey": survey })).unwrap();
    assert_eq!((&stopped["sealing"], tablet.packets().len()), (&Value::Null, 0));
    for name in ["seal-on", "stop-sealing"] {
        assert_eq!(ask(&place, name, json!({ "survey": survey })).unwrap_err().kind, "missing");
    }
    let (_, packet) = sealed(&place, &survey);
    assert_eq!(tablet.packets(), [PathBuf::from(packet["path"].as_str().unwrap())]);
}

#[test]
fn a_packet_and_its_pages_are_handed_over_once_and_nothing_else_is_written_over() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let survey = house(&place);
    let (_, packet) = sealed(&place, &survey);
    let other = tablet.downloads.path().join("mill-lane-kitchen-1.zip");
    fs::write(&other, "somebody else's").unwrap();
    let over = |pages: bool| {
        let asked = json!({ "survey": survey, "number": 1, "pages": pages });
        ask(&place, "hand-over", asked).map(|said| PathBuf::from(said["path"].as_str().unwrap()))
    };
    let copy = over(false).unwrap();
    assert_eq!(copy, tablet.downloads.path().join("mill-lane-kitchen-1 (2).zip"));
    assert_eq!(fs::read(&copy).unwrap(), fs::read(packet["path"].as_str().unwrap()).unwrap());
    assert_eq!(over(false).unwrap(), copy, "the same copy is not made twice");
    assert_eq!(fs::read_to_string(&other).unwrap(), "somebody else's");
    if packet["pages"] == json!(true) {
        let folder = over(true).unwrap();
        assert_eq!(folder, tablet.downloads.path().join("mill-lane-kitchen-1-pages"));
        for name in ["office.pdf", "household.pdf", "change-orders.pdf"] {
            assert!(fs::read(folder.join(name)).unwrap().starts_with(b"%PDF-"), "{name}");
        }
        assert!(fs::read(folder.join("tables.xlsx")).unwrap().starts_with(b"PK"));
        assert_eq!(over(true).unwrap(), folder, "nor are the same pages");
    } else {
        assert_eq!(over(true).unwrap_err().kind, "missing");
    }
    let refused = ask(&place, "hand-over", json!({ "survey": survey, "number": 7 })).unwrap_err();
    assert_eq!(refused.kind, "missing");
}

#[test]
fn a_packet_that_changed_or_went_is_not_handed_over() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let survey = house(&place);
    let (_, packet) = sealed(&place, &survey);
    let path = packet["path"].as_str().unwrap();
    let mut bytes = fs::read(path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    fs::write(path, bytes).unwrap();
    let over = || ask(&place, "hand-over", json!({ "survey": survey, "number": 1 })).unwrap_err();
    assert_eq!(over().kind, "damaged");
    fs::remove_file(path).unwrap();
    let gone = over();
    assert_eq!(gone.kind, "missing");
    assert_eq!(gone.hint.unwrap(), "seal the house again; nothing in the record is lost");
    let list = ask(&place, "packets", json!({ "survey": survey })).unwrap();
    assert_eq!(list["packets"][0]["there"], false);
    assert!(files(tablet.downloads.path()).is_empty());
}

#[test]
fn the_list_of_houses_says_what_is_sealed_and_is_the_same_whether_its_lines_were_kept() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let survey = house(&place);
    let list = || ask(&place, "houses", json!({})).unwrap();
    let first = list();
    assert_eq!((&first[0]["packet"], &first[0]["photos"]), (&Value::Null, &json!(2)));
    assert_eq!(list(), first, "from kept lines");
    sealed(&place, &survey);
    let whole = list();
    assert_eq!(whole[0]["packet"], json!({ "number": 1, "since": 0 }));
    assert_ne!(whole[0]["moneyP80Cents"], Value::Null, "a house is assessed when it is sealed");
    ask(&place, "answer", json!({ "survey": survey, "key": "bowl-depth", "answer": ["10"] })).unwrap();
    let after = list();
    assert_eq!(after[0]["packet"], json!({ "number": 1, "since": 1 }));
    assert_eq!(after[0]["answered"].as_u64(), whole[0]["answered"].as_u64().map(|n| n + 1));
    assert_eq!(list(), after);
}

#[test]
fn the_settings_say_which_key_seals_and_who_vouches_for_it() {
    let tablet = Tablet::new();
    let place = tablet.place();
    let settings = |language: &str| place.ask(language, "settings", json!({})).unwrap();
    assert_eq!(settings("en")["key"], "");
    assert!(settings("en")["keyState"].as_str().unwrap().contains("no key yet"));
    let survey = house(&place);
    sealed(&place, &survey);
    let said = settings("es");
    assert_eq!(said["key"].as_str().unwrap().len(), 43, "a thumbprint");
    assert!(said["keyState"].as_str().unwrap().contains("ninguna empresa responde por ella"), "{said}");
}
