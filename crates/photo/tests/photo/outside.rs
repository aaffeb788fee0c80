//! The outside readers.

use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::{Map, Value};

const INSTALL: &str = "these tests need exiftool, an EXIF reader that shares no code with this crate; install it \
                       with: apt-get install libimage-exiftool-perl";

/// What exiftool says of each file, in the order asked: numeric, duplicates, unknown tags and embedded files too,
/// keys as "Group:Tag".
pub(crate) fn exiftool(files: &[PathBuf]) -> Vec<Map<String, Value>> {
    // Held to 1.5 GB: some broken files make it reserve all the memory there is.
    let held = "ulimit -v 1500000; exec exiftool \"$@\"";
    let options = ["-c", held, "exiftool", "-json", "-n", "-G1", "-a", "-u", "-ee"];
    let output = Command::new("sh").args(options).args(files).output().unwrap();
    // The shell answers 127 when there is no such program.
    assert_ne!(output.status.code(), Some(127), "{INSTALL}");
    let found: Vec<Map<String, Value>> = serde_json::from_slice(&output.stdout).unwrap_or_else(|e| {
        panic!("exiftool ({}): {e}: {}", output.status, String::from_utf8_lossy(&output.stderr))
    });
    assert_eq!(found.len(), files.len(), "exiftool left files out");
    found
}

/// What exiftool says of some bytes.
pub(crate) fn exiftool_of(pictures: &[&[u8]]) -> Vec<Map<String, Value>> {
    in_files(pictures, exiftool)
}

fn in_files<T>(pictures: &[&[u8]], ask: impl Fn(&[PathBuf]) -> T) -> T {
    let folder = tempfile::tempdir().unwrap();
    let mut files = Vec::new();
    for (place, bytes) in pictures.iter().enumerate() {
        let path = folder.path().join(format!("{place:03}.jpg"));
        std::fs::write(&path, bytes).unwrap();
        files.push(path);
    }
    ask(&files)
}

/// The names of all EXIF tags exifread finds, or nothing when no Python with it was named.
#[allow(clippy::disallowed_methods, reason = "a test may ask which Python the test run has prepared")]
pub(crate) fn exifread_of(picture: &[u8]) -> Option<Vec<String>> {
    let python = std::env::var_os("UNDERLATH_TEST_PYTHON")?;
    let script = "import sys, json, exifread\n\
                  print(json.dumps(sorted(exifread.process_file(open(sys.argv[1], 'rb'), details=True).keys())))";
    in_files(&[picture], |files| {
        let output = Command::new(Path::new(&python)).args(["-c", script]).args(files).output().unwrap();
        let errors = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "exifread failed (tests/requirements.txt installs it): {errors}");
        Some(serde_json::from_slice(&output.stdout).unwrap())
    })
}
