//! Photographs at the office are decoded by the program started once more, which can do nothing else.

use std::fs;
use std::os::unix::fs::PermissionsExt as _;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use apart::{Apart, ApartError};

use crate::support::{program, root};

fn apart() -> Apart {
    Apart::new(program())
}

/// Photographs of the sample houses.
fn photographs() -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![root().join("sample-surveys")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == "jpg" || e == "png") {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

#[test]
fn pictures_made_apart_are_those_made_here() {
    let all = photographs();
    assert!(all.len() >= 3, "{all:?}");
    for path in all.iter().step_by(all.len() / 3) {
        let bytes = fs::read(path).unwrap();
        let here = apart::pictures(&bytes).unwrap();
        assert_eq!(apart().pictures(bytes).unwrap(), here, "{}", path.display());
    }
}

#[test]
fn what_is_refused_is_refused_in_the_same_words() {
    let bomb = {
        // The header of a PNG of 65,535 × 65,535 pixels.
        let mut png = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\xff\xff\0\0\xff\xff\x08\x06\0\0\0".to_vec();
        png.extend([0; 64]);
        png
    };
    for bytes in [Vec::new(), b"%PDF-1.7".to_vec(), b"\xff\xd8\xff\xe0".to_vec(), bomb] {
        let said = apart::pictures(&bytes).unwrap_err().said();
        assert_eq!(apart().pictures(bytes), Err(ApartError::Refused(said)));
    }
}

/// A program that does what a process would do that a photograph took over.
fn taken_over(dir: &Path, does: &str) -> Apart {
    let path = dir.join("program");
    fs::write(&path, format!("#!/bin/sh\n{does}\n")).unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o700)).unwrap();
    Apart::new(path).patient_for(Duration::from_secs(2))
}

#[test]
fn a_process_that_dies_hangs_or_answers_something_else_is_ended_and_gives_nothing() {
    let dir = tempfile::tempdir().unwrap();
    for does in [
        "exit 0",
        "kill -9 $$",
        "exec /bin/sleep 600",
        "exec /bin/cat",
        "echo '{\"made\":{\"screen\":9,\"list\":9}}'; echo '<svg><script/></svg>'",
        "while :; do echo aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa; done",
    ] {
        let since = Instant::now();
        let given = taken_over(dir.path(), does).pictures(vec![0xff; 4 << 20]);
        assert_eq!(given, Err(ApartError::Ended), "{does}");
        assert!(since.elapsed() < Duration::from_secs(60), "{does} was waited for");
    }
}

#[test]
fn a_program_that_is_not_there_is_said() {
    let given = Apart::new(PathBuf::from("/nowhere/underlath")).pictures(vec![1]);
    assert!(matches!(given, Err(ApartError::NotStarted(_))), "{given:?}");
}

/// What it has of ours: an empty environment and no folder.
#[test]
fn the_process_is_told_nothing_of_where_it_runs() {
    let dir = tempfile::tempdir().unwrap();
    let told = dir.path().join("told");
    let does = format!("/usr/bin/env > {0}; pwd >> {0}; ls /proc/self/fd | wc -l >> {0}", told.display());
    assert_eq!(taken_over(dir.path(), &does).pictures(vec![1]), Err(ApartError::Ended));
    let told = fs::read_to_string(told).unwrap();
    let lines: Vec<&str> = told.lines().filter(|l| !l.starts_with("PWD=") && !l.starts_with("_=")).collect();
    assert!(lines.contains(&"/"), "{told}");
    assert!(!lines.iter().any(|l| l.starts_with("HOME=") || l.starts_with("UNDERLATH")), "{told}");
}
