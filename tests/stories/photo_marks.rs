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
