//! Marks beside a photograph, and a length measured on one.

use std::path::Path;

use serde_json::Value;

use crate::support::{refused, run, sample_photo};

const HOUSE: &str = "Mill Lane";

fn json(dir: &Path, args: &[&str]) -> Value {
    let args: Vec<&str> = std::iter::once("--json").chain(args.iter().copied()).collect();
    serde_json::from_str(&run(dir, &args)).unwrap()
}

/// A house with one picture, 1280 by 960; its digest.
fn with_photo(dir: &Path) -> String {
    run(dir, &["new", HOUSE]);
    run(dir, &["record", HOUSE, "planned-work", "deep-sink"]);
    let file = sample_photo();
    json(dir, &["photo", HOUSE, file.to_str().unwrap()])["digest"].as_str().unwrap().to_owned()
}

fn original(dir: &Path, photo: &str) -> Vec<u8> {
    let mut folders = vec![dir.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
            let path = entry.path();
            match path.is_dir() {
                true => folders.push(path),
                false if path.to_string_lossy().replace('/', "").contains(photo) => {
                    return std::fs::read(path).unwrap();
                }
                false => {}
            }
        }
    }
    panic!("no file {photo}");
}

#[test]
fn marks_are_kept_drawn_taken_back_and_never_touch_the_original() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let photo = with_photo(dir);
    let (start, before) = (&photo[..8], original(dir, &photo));
    run(dir, &["photo", "mark", HOUSE, start, "--arrow", "100,100", "400,300"]);
    run(dir, &["photo", "mark", HOUSE, start, "--words", "wet <here>", "--at", "420,310"]);
    let ring = json(dir, &["photo", "mark", HOUSE, start, "--ring", "640,480", "700,480"]);
    let ring = ring["entry"]["id"].as_str().unwrap().to_owned();
    run(
        dir,
        &[
            "photo",
            "mark",
            HOUSE,
            start,
            "--dimension",
            "10,900",
            "900,900",
            "--length",
            "19 3/8",
            "--tolerance",
            "1/8",
        ],
    );

    let drawn = dir.join("drawn.svg");
    let listed = run(dir, &["photo", "marks", HOUSE, start, "--drawn", drawn.to_str().unwrap()]);
    assert!(
        listed.contains("arrow") && listed.contains("wet <here>") && listed.contains("19-3/8\" ± 1/8\""),
        "{listed}"
    );
    let svg = std::fs::read_to_string(&drawn).unwrap();
    assert!(svg.contains("viewBox=\"0 0 1280 960\"") && svg.contains("data:image/jpeg;base64,"));
    assert!(svg.contains("wet &lt;here&gt;") && svg.contains("<circle cx=\"640\" cy=\"480\" r=\"60\"/>"));

    run(dir, &["photo", "mark", HOUSE, start, "--take-back", &ring]);
    assert_eq!(json(dir, &["photo", "marks", HOUSE, start])["marks"].as_array().unwrap().len(), 3);
    let (code, words) = refused(dir, &["photo", "mark", HOUSE, start, "--take-back", &ring]);
    assert!(code == 3 && words.contains("photo marks"), "{code} {words}");
    let (code, words) = refused(dir, &["photo", "mark", HOUSE, start, "--arrow", "100,100", "1400,300"]);
    assert!(code == 2 && words.contains("1400,300") && words.contains("1280 by 960"), "{code} {words}");
    let (code, _) = refused(dir, &["photo", "mark", HOUSE, "0000", "--arrow", "1,1", "2,2"]);
    assert_eq!(code, 3);
    assert_eq!(original(dir, &photo), before);
    // The pages are set with the marks over the picture.
    run(dir, &["assess", HOUSE]);
    run(dir, &["seal", HOUSE, "--into", dir.to_str().unwrap()]);
}

#[test]
fn a_length_on_a_photograph_becomes_an_answer_with_its_tolerance_and_the_picture_as_evidence() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let photo = with_photo(dir);
    let start = &photo[..8];
    // Letter paper seen straight on, 40 pixels an inch; the ends are 775 pixels apart: 19 3/8 in.
    let corners = ["--corners", "100,100", "440,100", "440,540", "100,540"];
    let ends = ["--ends", "200,150", "200,925"];
    let measure = |more: &[&'static str]| -> Vec<&str> {
        [&["photo", "measure", HOUSE, start][..], &corners, &ends, more].concat()
    };
    let call = |more: &[&'static str]| json(dir, &measure(more));

    let looked = call(&[]);
    assert!((looked["inches"].as_f64().unwrap() - 19.375).abs() < 1e-6, "{looked}");
    assert!(looked["entry"].is_null() && looked["marks"].as_array().unwrap().is_empty());
    let flat = call(&["--off-plane", "1/64"])["sigma_inches"].as_f64().unwrap();
    assert!(flat < looked["sigma_inches"].as_f64().unwrap(), "what may stand off the plane is part of it");

    let recorded = call(&["--item", "stub-height"]);
    let answer = &recorded["entry"]["body"];
    assert_eq!(answer["value"]["length"], recorded["length_eighth_um"], "{answer}");
    assert_eq!(answer["photos"][0], photo.as_str());
    assert!(answer["tolerance"].as_i64().unwrap() > 0);
    let marks = json(dir, &["photo", "marks", HOUSE, start]);
    let shapes: Vec<&str> =
        marks["marks"].as_array().unwrap().iter().map(|m| m["mark"]["shape"].as_str().unwrap()).collect();
    assert_eq!(shapes, ["paper", "dimension"]);
    assert!(run(dir, &["show", HOUSE]).contains("stub-height"));

    let bad = measure(&["--item", "no-such-item"]);
    let (code, _) = refused(dir, &bad);
    assert_ne!(code, 0);
    assert_eq!(
        json(dir, &["photo", "marks", HOUSE, start])["marks"].as_array().unwrap().len(),
        2,
        "nothing half done"
    );
    let crossed = [
        "photo",
        "measure",
        HOUSE,
        start,
        "--corners",
        "100,100",
        "440,540",
        "440,100",
        "100,540",
        "--ends",
        "1,1",
        "9,9",
    ];
    let (code, words) = refused(dir, &crossed);
    assert!(code == 2 && words.contains("one after the other"), "{code} {words}");
}

/// Red, green and blue of a JPEG, upright as it is stored.
fn pixels(jpeg: &[u8]) -> (usize, Vec<[u8; 3]>) {
    let mut decoder = image::ImageReader::with_format(std::io::Cursor::new(jpeg), image::ImageFormat::Jpeg);
    decoder.no_limits();
    let picture = decoder.decode().unwrap().into_rgb8();
    (picture.width() as usize, picture.pixels().map(|p| p.0).collect())
}

#[test]
fn a_marked_copy_differs_from_the_photograph_where_the_marks_lie_and_tells_no_more_than_a_clean_one() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let photo = with_photo(dir);
    let (start, before) = (&photo[..8], original(dir, &photo));
    let (code, words) = refused(dir, &["photo", "copy", "--marked", HOUSE, "--into", "out"]);
    assert!(code == 3 && words.contains("bears marks"), "{code} {words}");
    let bare = dir.join("bare.jpg");
    run(dir, &["photo", "marks", HOUSE, start, "--drawn", bare.to_str().unwrap()]);
    run(dir, &["photo", "mark", HOUSE, start, "--arrow", "100,100", "500,100"]);
    run(dir, &["photo", "mark", HOUSE, start, "--words", "WET", "--at", "700,700"]);

    let told = json(dir, &["photo", "copy", "--marked", HOUSE, "--into", "out"]);
    let stem = sample_photo().file_stem().unwrap().to_string_lossy().into_owned();
    let name = format!("{stem}-{}.jpg", &photo[..12]);
    assert!(
        told[0]["file"].as_str().unwrap().ends_with(&name) && told.as_array().unwrap().len() == 1,
        "{told}"
    );
    let copy = std::fs::read(dir.join("out").join(&name)).unwrap();
    let drawn = dir.join("drawn.jpg");
    run(dir, &["photo", "marks", HOUSE, start, "--drawn", drawn.to_str().unwrap()]);
    assert_eq!(std::fs::read(&drawn).unwrap(), copy);

    let ((wide, marked), (_, unmarked)) = (pixels(&copy), pixels(&std::fs::read(&bare).unwrap()));
    let apart = |(one, other): (&[u8; 3], &[u8; 3])| {
        one.iter().zip(other).map(|(a, b)| u32::from(a.abs_diff(*b))).max().unwrap()
    };
    let far: Vec<(usize, usize)> = marked
        .iter()
        .zip(&unmarked)
        .enumerate()
        .filter(|(_, pair)| apart(*pair) > 48)
        .map(|(at, _)| (at % wide, at / wide))
        .collect();
    let within = |(x, y): (usize, usize)| {
        let arrow = (80..=520).contains(&x) && (70..=130).contains(&y);
        let words = (680..=840).contains(&x) && (630..=730).contains(&y);
        (arrow, words)
    };
    let arrow = far.iter().filter(|spot| within(**spot).0).count();
    let words = far.iter().filter(|spot| within(**spot).1).count();
    // A line of 400 pixels, 1280 / 240 wide and its halo as wide on both sides; three letters 48 pixels high.
    assert!((2_000..12_000).contains(&arrow) && (500..8_000).contains(&words), "{arrow} {words}");
    assert_eq!(arrow + words, far.len(), "nothing is drawn elsewhere");
    // On the line itself the pencil's color, as near as JPEG keeps it.
    let on_line = marked[100 * wide + 300];
    assert!(on_line.iter().zip([0x4b_u8, 0x23, 0x94]).all(|(a, b)| a.abs_diff(b) < 40), "{on_line:?}");

    let facts = json(dir, &["photo", "facts", dir.join("out").join(&name).to_str().unwrap()]);
    let was = json(dir, &["photo", "facts", sample_photo().to_str().unwrap()]);
    assert_eq!(facts[0]["gps"], serde_json::json!({ "present": false, "place": null }));
    assert_eq!((&facts[0]["taken"], &facts[0]["orientation"]), (&was[0]["taken"], &serde_json::json!(1)));
    assert_eq!(original(dir, &photo), before, "the original is as it was");
}
