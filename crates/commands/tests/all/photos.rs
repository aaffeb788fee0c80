//! Photographs through the commands, as the screens take, mark and measure them.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use crate::support::{ask, place};
use commands::{Photo, Place};
use serde_json::{Value, json};
use survey::log::{Shape, Spot};
use survey::units::Length;
use tempfile::tempdir;

/// A photograph of the sample houses, 1280 by 960.
const SAMPLE: &str =
    concat!(env!("CARGO_MANIFEST_DIR"), "/../../sample-surveys/alder-street/photos/under-sink.jpg");

fn started(place: &Place) -> String {
    let house =
        json!({ "label": "Mill Lane kitchen", "within": 0, "planned": ["deep-sink"], "by": "Rosa Lind" });
    let walk = ask(place, "start-house", house).unwrap();
    walk["survey"].as_str().unwrap().to_owned()
}

fn taken(place: &Place, survey: &str, key: Option<&str>, bytes: &[u8]) -> Value {
    place.take_photo("en", &Photo { survey, key, name: "under-sink.jpg", bytes }).unwrap()
}

/// A house with one photograph of the drain stub; its survey and the digest.
fn with_photo(place: &Place) -> (String, String) {
    let survey = started(place);
    let said = taken(place, &survey, Some("stub-height"), &std::fs::read(SAMPLE).unwrap());
    let digest = said["digest"].as_str().unwrap().to_owned();
    (survey, digest)
}

#[test]
fn a_photograph_stands_with_its_place_and_question_and_is_wanted_no_more() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let survey = started(&place);
    let before = ask(&place, "photos", json!({ "survey": survey })).unwrap();
    let wanted = |view: &Value| view["wanted"].as_array().unwrap().clone();
    let needed = wanted(&before)[0]["key"].as_str().unwrap().to_owned();
    let bytes = std::fs::read(SAMPLE).unwrap();
    let said = taken(&place, &survey, Some(&needed), &bytes);
    assert_eq!((&said["known"], said["complaints"].as_array().unwrap().len()), (&json!(false), 0), "{said}");
    let again = taken(&place, &survey, Some(&needed), &bytes);
    assert_eq!((&again["known"], &again["digest"]), (&json!(true), &said["digest"]));
    let after = ask(&place, "photos", json!({ "survey": survey })).unwrap();
    assert_eq!(after["photos"], 1);
    assert!(wanted(&after).iter().all(|one| one["key"] != needed.as_str()), "{after}");
    let there = &after["places"][0];
    assert!(there["place"].is_string(), "{after}");
    assert_eq!(there["photos"][0]["digest"], said["digest"]);
    assert_eq!(there["photos"][0]["shows"].as_array().unwrap().len(), 1);
    let card = ask(&place, "photos", json!({ "survey": survey, "key": needed })).unwrap();
    assert_eq!((&card["about"]["key"], card["places"].as_array().unwrap().len()), (&json!(needed), 1));
    let other = ask(&place, "photos", json!({ "survey": survey, "key": "bowl-depth" })).unwrap();
    assert_eq!((other["photos"].as_u64(), other["places"].as_array().unwrap().len()), (Some(1), 0));
    let walk = ask(&place, "walk", json!({ "survey": survey, "key": needed })).unwrap();
    assert_eq!(walk["card"]["photos"], 1);
}

#[test]
fn a_photograph_taken_back_is_shown_no_more_its_original_stays_and_it_can_be_taken_again() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let (survey, digest) = with_photo(&place);
    let walk = ask(&place, "walk", json!({ "survey": survey, "key": "stub-height" })).unwrap();
    assert_eq!((&walk["undo"]["key"], &walk["card"]["photos"]), (&json!("stub-height"), &json!(1)));
    assert!(walk["undo"]["said"].as_str().unwrap().contains("under-sink.jpg"), "{walk}");
    let done = ask(&place, "undo", json!({ "survey": survey })).unwrap();
    assert_eq!(
        (&done["walk"]["card"]["key"], &done["walk"]["card"]["photos"]),
        (&json!("stub-height"), &json!(0))
    );
    let view = ask(&place, "photos", json!({ "survey": survey })).unwrap();
    assert_eq!(view["photos"], 0);
    assert!(place.picture("en", &digest).is_ok(), "the original stays until somebody clears the device");
    let said = taken(&place, &survey, Some("stub-height"), &std::fs::read(SAMPLE).unwrap());
    assert_eq!((&said["known"], &said["digest"]), (&json!(false), &json!(digest)));
    let view = ask(&place, "photos", json!({ "survey": survey })).unwrap();
    assert_eq!(view["photos"], 1);
}

#[test]
fn a_photograph_of_no_place_stands_last() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let (survey, digest) = with_photo(&place);
    let other = std::fs::read(SAMPLE.replace("under-sink", "soffit")).unwrap();
    let said = taken(&place, &survey, None, &other);
    let view = ask(&place, "photos", json!({ "survey": survey })).unwrap();
    let places = view["places"].as_array().unwrap();
    assert_eq!((places.len(), &places[0]["photos"][0]["digest"]), (2, &json!(digest)));
    assert_eq!((&places[1]["place"], &places[1]["photos"][0]["digest"]), (&Value::Null, &said["digest"]));
}

#[test]
fn marks_are_made_and_taken_back_and_what_cannot_be_is_refused() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let (survey, photo) = with_photo(&place);
    let mark = |mark: Value| ask(&place, "mark", json!({ "survey": survey, "photo": photo, "mark": mark }));
    mark(json!({ "kind": "ring", "points": [[640, 480], [700, 480]] })).unwrap();
    mark(json!({ "kind": "words", "points": [[420, 310]], "text": "wet <here>" })).unwrap();
    mark(json!({ "kind": "arrow", "points": [[1, 2], [3.5, 4]] })).unwrap();
    let lines = [[10, 900], [900, 900]];
    let view = mark(json!({ "kind": "dimension", "points": lines, "length": "19 3/8", "tolerance": "1/8" }))
        .unwrap();
    let kinds: Vec<_> =
        view["marks"].as_array().unwrap().iter().map(|m| m["kind"].as_str().unwrap()).collect();
    assert_eq!(kinds, ["ring", "words", "arrow", "dimension"]);
    assert_eq!((&view["width"], &view["height"]), (&json!(1280), &json!(960)));
    assert_eq!(view["marks"][1]["text"], "wet <here>");
    assert_eq!(view["marks"][2]["points"], json!([[1.0, 2.0], [3.5, 4.0]]));
    assert_eq!(view["marks"][3]["text"], "19-3/8\" ± 1/8\"");
    for bad in [
        json!({ "kind": "ring", "points": [[640, 480], [1700, 480]] }),
        json!({ "kind": "words", "points": [[1, 1]], "text": " " }),
        json!({ "kind": "dimension", "points": lines, "length": "a foot" }),
        json!({ "kind": "dimension", "points": lines, "length": "0" }),
        json!({ "kind": "dimension", "points": lines, "length": "4", "tolerance": "much" }),
        json!({ "kind": "star", "points": [[1, 1]] }),
    ] {
        let refused = mark(bad.clone()).unwrap_err();
        assert_eq!(refused.kind, "input", "{bad}: {refused:?}");
    }
    let back =
        |id: &Value| ask(&place, "take-mark-back", json!({ "survey": survey, "photo": photo, "mark": id }));
    let view = back(&view["marks"][1]["id"]).unwrap();
    assert_eq!(view["marks"].as_array().unwrap().len(), 3);
    assert_eq!(back(&json!("none")).unwrap_err().kind, "input");
}

#[test]
fn a_length_on_a_photograph_is_shown_first_and_recorded_on_asking() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let (survey, photo) = with_photo(&place);
    let seen = ask(&place, "photo", json!({ "survey": survey, "photo": photo })).unwrap();
    assert_eq!(seen["lengths"][0]["key"], "stub-height", "{seen}");
    // Letter paper of 40 pixels an inch, seen straight on: 775 pixels are 19 3/8 in.
    let mut asked = json!({
        "survey": survey, "photo": photo, "sheet": { "kind": "letter" },
        "corners": [[100, 100], [440, 100], [440, 540], [100, 540]], "ends": [[200, 150], [200, 925]],
    });
    let measure = |asked: &Value| ask(&place, "measure-on-photo", asked.clone());
    let shown = measure(&asked).unwrap();
    assert_eq!((&shown["inches"], &shown["recorded"]), (&json!("19-3/8\""), &Value::Null), "{shown}");
    assert_eq!(shown["metric"], "492 mm");
    let nothing = ask(&place, "photo", json!({ "survey": survey, "photo": photo })).unwrap();
    assert_eq!(nothing["marks"], json!([]));
    // The same sheet by its sides, and lying: with its long side first.
    asked["sheet"] = json!({ "kind": "own", "width": "8 1/2", "height": "11" });
    assert_eq!(measure(&asked).unwrap()["inches"], "19-3/8\"");
    let turned = json!([[440, 100], [440, 540], [100, 540], [100, 100]]);
    let lying = json!({ "survey": survey, "photo": photo, "sheet": { "kind": "letter" }, "lying": true,
        "corners": turned, "ends": asked["ends"] });
    assert_eq!(measure(&lying).unwrap()["inches"], "19-3/8\"");
    asked["key"] = json!("stub-height");
    let kept = measure(&asked).unwrap();
    assert!(kept["recorded"].as_str().unwrap().starts_with("19-3/8"), "{kept}");
    let seen = ask(&place, "photo", json!({ "survey": survey, "photo": photo })).unwrap();
    let kinds: Vec<_> =
        seen["marks"].as_array().unwrap().iter().map(|m| m["kind"].as_str().unwrap()).collect();
    assert_eq!(kinds, ["paper", "dimension"]);
    let walk = ask(&place, "walk", json!({ "survey": survey, "key": "stub-height" })).unwrap();
    assert_eq!(walk["card"]["standing"]["kind"], "answer");
    asked["corners"] = json!([[100, 100], [440, 540], [440, 100], [100, 540]]);
    assert_eq!(measure(&asked).unwrap_err().kind, "input");
}

/// Marks and their drawing for the screens, which draw live by the same rules; `UPDATE_BINDINGS=1` writes it.
#[test]
fn the_drawing_the_screens_are_held_to_is_the_one_of_pages_and_copies() {
    let inch = |x| Length::from_inches(x).unwrap();
    let spot = |x, y| Spot::from_pixels(x, y).unwrap();
    let marks = [
        Shape::Arrow { from: spot(1300.0, 820.0), to: spot(1080.0, 520.0) },
        Shape::Ring { middle: spot(620.0, 600.0), through: spot(650.0, 640.0) },
        Shape::Words { at: spot(760.0, 760.0), text: "wet to the touch".into() },
        Shape::Dimension {
            from: spot(100.0, 100.0),
            to: spot(140.0, 1000.0),
            length: inch(19.375),
            tolerance: Some(inch(0.125)),
        },
        Shape::Paper {
            corners: [spot(210.0, 380.0), spot(475.0, 395.0), spot(470.0, 745.0), spot(200.0, 735.0)],
            width: inch(8.5),
            height: inch(11.0),
        },
    ];
    let (width, height) = (1600, 1200);
    let list: Vec<_> = marks.iter().map(|mark| views::photos::mark(String::new(), "", mark)).collect();
    let svg = views::marks::overlay(&marks, width, height);
    let drawn = json!({ "width": width, "height": height, "marks": list, "svg": svg });
    let text = format!("{}\n", serde_json::to_string_pretty(&drawn).unwrap());
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../ui/e2e/page/marks.json");
    #[allow(clippy::disallowed_methods, reason = "a switch of this test only")]
    if std::env::var_os("UPDATE_BINDINGS").is_some() {
        std::fs::write(path, &text).unwrap();
    }
    let committed = std::fs::read_to_string(path).unwrap_or_default();
    assert!(committed == text, "{path} is stale: run UPDATE_BINDINGS=1 cargo test --workspace -p commands");
}

/// Width and height a JPEG declares: its frame header is the only place these two bytes stand in a row before it.
fn size(jpeg: &[u8]) -> (u16, u16) {
    let frame = jpeg.windows(9).find(|w| w.starts_with(&[0xff, 0xc0])).unwrap();
    let side = |at: usize| u16::from_be_bytes([frame[at], frame[at + 1]]);
    (side(7), side(5))
}

#[test]
fn a_photograph_is_shown_alone_and_among_others_by_its_digest_also_where_its_small_pictures_got_lost() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let (_, digest) = with_photo(&place);
    let (alone, among) = (place.picture("en", &digest).unwrap(), place.thumbnail("en", &digest).unwrap());
    assert_eq!((size(&alone), size(&among)), ((1280, 960), (320, 240)));
    assert!(among.len() * 4 < alone.len(), "{} {}", among.len(), alone.len());
    std::fs::remove_dir_all(folder.path().join("previews")).unwrap();
    assert_eq!(place.thumbnail("en", &digest).unwrap(), among, "made anew, the same");
    assert_eq!(place.picture("en", &digest).unwrap(), alone);
    for show in [Place::picture, Place::thumbnail] {
        assert_eq!(show(&place, "en", "no digest").unwrap_err().kind, "missing");
        assert_eq!(show(&place, "en", &"00".repeat(32)).unwrap_err().kind, "missing");
    }
}
