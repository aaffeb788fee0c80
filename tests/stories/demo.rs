//! `underlath demo`: what the last lines promise is there, and every run makes the same.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use survey::Digest;

use super::steps::{CLASH, refuses};
use crate::support::{copy_folder, root, run, underlath};

/// One run of the demo.
pub(crate) struct Run {
    _dir: tempfile::TempDir,
    /// The folder it was run in.
    pub(crate) dir: PathBuf,
    /// What it printed.
    pub(crate) said: String,
    /// Digest of each file it promised, by name.
    pub(crate) made: BTreeMap<String, Digest>,
}

/// Plays the demo with whatever `with` changes about the command.
pub(super) fn play(with: impl FnOnce(Command) -> Command) -> Run {
    let temp = tempfile::tempdir().unwrap();
    let dir = temp.path().to_owned();
    let said = again(&dir, with);
    let made = digests(&dir, &said);
    Run { _dir: temp, dir, said, made }
}

fn again(dir: &Path, with: impl FnOnce(Command) -> Command) -> String {
    let mut command = with(underlath(dir));
    command.args(["demo", "--into", "demo-made", "--samples"]).arg(root().join("sample-surveys"));
    let output = command.output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// The lines that name files: (what, path), from the end of the output.
fn promised(said: &str) -> Vec<(&str, &str)> {
    let last = said.lines().skip_while(|l| *l != "Made:").skip(1);
    last.map(|l| l.split_once("  ").unwrap_or_else(|| panic!("{l}"))).collect()
}

fn digests(dir: &Path, said: &str) -> BTreeMap<String, Digest> {
    let digest =
        |path: &str| Digest::of(&std::fs::read(dir.join(path)).unwrap_or_else(|e| panic!("{path}: {e}")));
    let files = |path: &str| -> Vec<String> {
        match std::fs::read_dir(dir.join(path)) {
            Ok(inside) => {
                inside.map(|e| format!("{path}/{}", e.unwrap().file_name().to_string_lossy())).collect()
            }
            Err(_) => vec![path.to_owned()],
        }
    };
    let all = promised(said).into_iter().flat_map(|(_, path)| files(path));
    all.map(|path| (path.clone(), digest(&path))).collect()
}

/// A run in UTC and the C locale, shared by the tests that only look at it.
pub(crate) fn plain() -> &'static Run {
    static RUN: OnceLock<Run> = OnceLock::new();
    RUN.get_or_init(|| {
        play(|mut command| {
            command.env("TZ", "UTC").env("LANG", "C").env("LC_ALL", "C");
            command
        })
    })
}

#[test]
fn the_last_lines_name_a_packet_and_a_comparison_of_each_house() {
    let run = plain();
    assert!(!run.said.contains('\u{1b}'), "no color when not on a terminal");
    let lines = promised(&run.said);
    let houses = std::fs::read_dir(root().join("sample-surveys")).unwrap();
    let houses = houses.filter(|e| e.as_ref().unwrap().path().join("survey.toml").is_file()).count();
    assert_eq!(houses, 3);
    let kinds: Vec<&str> = lines.iter().map(|(what, _)| *what).collect();
    let with_pages = kinds.contains(&"pages");
    let each: &[&str] =
        if with_pages { &["packet", "pages", "comparison"] } else { &["packet", "comparison"] };
    assert_eq!(kinds, each.repeat(houses));
    let mut names = std::collections::BTreeSet::new();
    for (what, path) in lines {
        assert!(path.is_ascii() && !path.contains(char::is_whitespace), "{path}");
        assert!(names.insert(path), "{path} is named twice");
        let file = run.dir.join(path);
        match what {
            "packet" => assert!(path.ends_with(".zip"), "{path}"),
            "pages" => {
                for name in ["office.pdf", "household.pdf", "change-orders.pdf"] {
                    assert!(std::fs::read(file.join(name)).unwrap().starts_with(b"%PDF-"), "{path}/{name}");
                }
            }
            _ => {
                let comparison: review::Comparison =
                    serde_json::from_slice(&std::fs::read(&file).unwrap()).unwrap();
                assert!(comparison.scores.is_some_and(|s| s.n > 50), "{path}: every house was opened");
            }
        }
        assert!(file.metadata().unwrap().len() > 1000, "{path}");
    }
}

#[test]
fn each_house_gets_its_screen_and_says_that_it_is_invented() {
    let said = &plain().said;
    let screens: Vec<&str> = said.split("==== ").filter(|part| part.contains("An invented house")).collect();
    assert_eq!(screens.len(), 3);
    for screen in screens {
        assert!(screen.contains("forecast beside finding"), "{screen}");
        assert!(screen.contains("received once though sent twice"), "{screen}");
        assert!(screen.lines().count() < 64, "one screen: {screen}");
    }
}

#[test]
fn every_packet_of_the_demo_is_whole_and_its_comparison_judges_the_sealed_forecast() {
    let run = plain();
    let lines = promised(&run.said);
    let mut packets = 0;
    let of =
        |what: &str| -> Vec<&str> { lines.iter().filter(|(w, _)| *w == what).map(|(_, p)| *p).collect() };
    for (path, beside) in of("packet").into_iter().zip(of("comparison")) {
        let told = crate::support::run(&run.dir, &["verify", path]);
        assert!(told.contains("whole"), "{told}");
        let packet = packet::open(&run.dir.join(path)).unwrap();
        let comparison: review::Comparison =
            serde_json::from_slice(&std::fs::read(run.dir.join(beside)).unwrap()).unwrap();
        assert_eq!(comparison.forecast, Digest::of(packet.assessment()));
        assert!(packet.info().photos.len() >= 8, "{path}");
        packets += 1;
    }
    assert_eq!(packets, 3);
}

#[test]
fn a_second_run_makes_the_same_files_and_a_folder_of_others_is_refused() {
    let first = plain();
    let dir = tempfile::tempdir().unwrap();
    let second = dir.path().join("second");
    copy_folder(&first.dir, &second);
    let said = again(&second, |c| c);
    assert_eq!(said, first.said);
    assert_eq!(digests(&second, &said), first.made, "the same folder again, the same bytes");

    let others = second.join("others");
    std::fs::create_dir(&others).unwrap();
    std::fs::write(others.join("letter.txt"), "not the demo's").unwrap();
    let samples = root().join("sample-surveys");
    let args = ["demo", "--samples", samples.to_str().unwrap(), "--into", "others"];
    refuses(&second, &args, CLASH, &["others", "did not make", "--into"]);
    assert_eq!(std::fs::read_to_string(others.join("letter.txt")).unwrap(), "not the demo's");
    assert_eq!(std::fs::read_dir(&others).unwrap().count(), 1);
    let missing = ["demo", "--samples", "nowhere", "--into", "fresh"];
    refuses(&second, &missing, super::steps::NOT_THERE, &["nowhere"]);
    run(&second, &["show"]);
}
