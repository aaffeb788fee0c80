//! Photographs as a person handles them: what files tell of themselves, taking one in twice, a clock that is wrong,
//! small pictures that got lost, a copy for the plumber.

use std::path::Path;
use std::process::Command;

use crate::support::{refused, root, run, underlath};

const HOUSE: &str = "Mill Lane";

fn sample(dir: &Path, from: &str, to: &str) {
    let from = root().join("sample-surveys/alder-street/photos").join(from);
    std::fs::copy(from, dir.join(to)).unwrap();
}

fn json(text: &str) -> serde_json::Value {
    serde_json::from_str(text).unwrap_or_else(|e| panic!("{e}: {text}"))
}

/// The files among the small pictures.
fn small_pictures(dir: &Path) -> Vec<std::path::PathBuf> {
    let list = |dir: &Path| -> Vec<_> {
        std::fs::read_dir(dir).unwrap().map(|entry| entry.unwrap().path()).collect()
    };
    let shards = list(&dir.join("device/previews"));
    shards.iter().filter(|shard| !shard.ends_with("incoming")).flat_map(|shard| list(shard)).collect()
}

#[test]
fn facts_are_told_of_every_file_and_a_refused_one_is_named_with_the_exit_code() {
    let dir = tempfile::tempdir().unwrap();
    sample(dir.path(), "under-sink.jpg", "sink.jpg");
    std::fs::write(dir.path().join("list.jpg"), "under the sink, behind the bin").unwrap();
    let told = json(&run(dir.path(), &["photo", "facts", "sink.jpg", "--json"]));
    let facts = &told[0];
    let bytes = std::fs::read(dir.path().join("sink.jpg")).unwrap();
    assert_eq!(facts["sha256"], survey::Digest::of(&bytes).hex());
    assert_eq!((&facts["format"], facts["bytes"].as_u64()), (&"jpeg".into(), Some(bytes.len() as u64)));
    assert!(facts["width"].as_u64() > Some(100) && facts["gps"]["present"].is_boolean(), "{facts}");

    let both =
        underlath(dir.path()).args(["photo", "facts", "sink.jpg", "list.jpg", "--json"]).output().unwrap();
    let told = json(&String::from_utf8(both.stdout).unwrap());
    assert_eq!((both.status.code(), told.as_array().unwrap().len()), (Some(2), 2));
    assert!(told[1]["refused"].as_str().unwrap().contains("plain text"), "{told}");
    assert!(!dir.path().join("device").exists(), "nothing is recorded");
    let words = run(dir.path(), &["photo", "facts", "sink.jpg", "--language", "es"]);
    assert!(words.contains("píxeles") && words.contains("ubicación") || words.contains("se tomó"), "{words}");
}

#[test]
fn a_house_still_takes_photographs_in_and_small_pictures_that_got_lost_are_made_anew() {
    let dir = tempfile::tempdir().unwrap();
    let at = dir.path();
    sample(at, "under-sink.jpg", "sink.jpg");
    run(at, &["new", HOUSE]);
    let first = json(&run(at, &["photo", HOUSE, "sink.jpg", "--caption", "left of the trap", "--json"]));
    assert!(first["entry"].is_object(), "{first}");
    // The sample's invented time lies far from this machine's clock.
    assert!(first["clocks"]["minutes_apart"].as_i64().unwrap().abs() > 2, "{first}");
    let again = json(&run(at, &["photo", HOUSE, "sink.jpg", "--json"]));
    assert!(again["entry"].is_null() && again["digest"] == first["digest"], "{again}");
    assert_eq!(again["alike"], serde_json::json!([]), "it is not told to be like itself");

    let files = small_pictures(at);
    assert_eq!(files.len(), 2);
    let checked = json(&run(at, &["check", "--json"]));
    assert_eq!((&checked["photos"], &checked["previews"]), (&1.into(), &2.into()));

    std::fs::remove_file(&files[0]).unwrap();
    std::fs::write(&files[1], b"bent").unwrap();
    let (code, _) = refused(at, &["check"]);
    assert_eq!(code, 5);
    let mended = json(&run(at, &["check", "--mend", "--json"]));
    assert_eq!((&mended["previews"], &mended["mended"]["made"]), (&2.into(), &1.into()), "{mended}");
    run(at, &["check"]);

    // A file that no photograph has is counted, and taken away.
    let stray = survey::Digest::of(b"left by a crash").hex();
    let shard = at.join("device/previews").join(&stray[..2]);
    std::fs::create_dir_all(&shard).unwrap();
    std::fs::write(shard.join(&stray[2..]), b"left by a crash").unwrap();
    assert!(run(at, &["check"]).contains("--mend"));
    assert!(run(at, &["check", "--mend"]).contains("1 leftover"), "swept");
    assert_eq!(small_pictures(at).len(), 2);
}

#[test]
fn a_copy_for_somebody_outside_is_made_once_and_never_over_a_file() {
    let dir = tempfile::tempdir().unwrap();
    sample(dir.path(), "under-sink.jpg", "sink.jpg");
    let into = ["photo", "copy", "sink.jpg", "--into", "for-the-plumber"];
    assert!(run(dir.path(), &into).contains("sink.jpg"));
    let copy = dir.path().join("for-the-plumber/sink.jpg");
    let facts = json(&run(dir.path(), &["photo", "facts", copy.to_str().unwrap(), "--json"]));
    assert_eq!(facts[0]["gps"], serde_json::json!({ "present": false, "place": null }));
    let before = std::fs::read(&copy).unwrap();
    let (code, words) = refused(dir.path(), &into);
    assert!(code == 4 && words.contains("never written over"), "{code} {words}");
    assert_eq!(std::fs::read(&copy).unwrap(), before);
}

#[test]
fn without_a_house_or_a_file_the_verb_says_what_it_needs() {
    let dir = tempfile::tempdir().unwrap();
    for words in [&["photo"][..], &["photo", HOUSE], &["photo", "facts"], &["photo", "copy", "a.jpg"]] {
        let output = underlath(dir.path()).args(words).output().unwrap();
        assert_eq!(output.status.code(), Some(2), "{words:?}");
    }
}

/// What a program prints of a file; both come with what the setup installs.
fn printed(program: &str, args: &[&str]) -> Vec<u8> {
    let output = Command::new(program).args(args).output().unwrap_or_else(|e| panic!("{program}: {e}"));
    assert!(output.status.success(), "{program}: {}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}

#[test]
fn a_photograph_taken_back_leaves_in_no_packet_and_on_no_page_whether_it_has_small_pictures_or_not() {
    let dir = tempfile::tempdir().unwrap();
    let at = dir.path();
    for name in ["under-sink.jpg", "soffit.jpg"] {
        sample(at, name, name);
    }
    run(at, &["new", HOUSE]);
    run(at, &["record", HOUSE, "planned-work", "deep-sink"]);
    let taken = |name: &str| {
        let digest = json(&run(at, &["photo", HOUSE, name, "--json"]))["digest"].clone();
        digest.as_str().unwrap().to_owned()
    };
    let kept = taken("under-sink.jpg");
    let gone = taken("soffit.jpg");
    run(at, &["undo", HOUSE]);
    run(at, &["assess", HOUSE]);
    for (number, small) in [(1, "with"), (2, "without")] {
        if small == "without" {
            std::fs::remove_dir_all(at.join("device/previews")).unwrap();
        }
        run(at, &["seal", HOUSE, "--into", "."]);
        let packet = format!("mill-lane-{number}.zip");
        let names =
            String::from_utf8(printed("unzip", &["-Z1", at.join(&packet).to_str().unwrap()])).unwrap();
        assert!(names.contains(&kept) && !names.contains(&gone), "{small} small pictures: {names}");
        let inside = json(
            &String::from_utf8(printed(
                "unzip",
                &["-p", at.join(&packet).to_str().unwrap(), "*/data/packet.json"],
            ))
            .unwrap(),
        );
        assert_eq!(inside["photos"].as_array().unwrap().len(), 1, "{inside}");
        let pdf = at.join("pages.pdf");
        let pages = printed("unzip", &["-p", at.join(&packet).to_str().unwrap(), "*/data/pages/office.pdf"]);
        std::fs::write(&pdf, pages).unwrap();
        let text = String::from_utf8(printed("pdftotext", &["-layout", pdf.to_str().unwrap(), "-"])).unwrap();
        assert!(text.contains(&kept[..8]) && !text.contains(&gone[..8]), "{small} small pictures: {text}");
        let pictures = String::from_utf8(printed("pdfimages", &["-list", pdf.to_str().unwrap()])).unwrap();
        // Two lines of head.
        assert_eq!(pictures.lines().count(), 3, "{pictures}");
        run(at, &["verify", &packet]);
    }
    let checked = json(&run(at, &["check", "--mend", "--json"]));
    assert_eq!(checked["photos"], 2, "the original stays on the device");
}

#[test]
fn what_is_odd_about_a_file_is_said_in_the_language_of_whoever_asks_and_kept_in_one() {
    let dir = tempfile::tempdir().unwrap();
    let at = dir.path();
    sample(at, "under-sink.jpg", "sink.jpg");
    let mut bytes = std::fs::read(at.join("sink.jpg")).unwrap();
    bytes.extend(b"a short film");
    std::fs::write(at.join("sink.jpg"), bytes).unwrap();
    run(at, &["new", HOUSE]);
    let spanish = run(at, &["photo", HOUSE, "sink.jpg", "--language", "es"]);
    assert!(spanish.contains("12 bytes siguen al final de la imagen"), "{spanish}");
    let facts = json(&run(at, &["photo", "facts", "sink.jpg", "--json"]));
    let said = facts[0]["complaints"][0].as_str().unwrap();
    assert!(said.starts_with("12 bytes follow the end of the picture"), "{said}");
    run(at, &["record", HOUSE, "planned-work", "deep-sink"]);
    run(at, &["assess", HOUSE]);
    run(at, &["seal", HOUSE, "--into", "."]);
    let log = printed("unzip", &["-p", at.join("mill-lane-1.zip").to_str().unwrap(), "*/data/log.jsonl"]);
    assert!(String::from_utf8(log).unwrap().contains(said), "the log is one for all");
    std::fs::write(at.join("list.jpg"), "under the sink, behind the bin").unwrap();
    let (code, words) = refused(at, &["photo", HOUSE, "list.jpg", "--language", "es"]);
    assert!(code == 2 && words.contains("esto es texto simple, no una foto"), "{code} {words}");
}
