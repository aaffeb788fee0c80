//! Steps the stories share: JSON answers, rows of a house, refusals with their exit codes.

use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::support::{refused, run, sample_photo, underlath};

/// Exit code: what was given cannot be taken.
pub(super) const NOT_TAKEN: i32 = 2;
/// Exit code: what was named is not there.
pub(super) const NOT_THERE: i32 = 3;
/// Exit code: it clashes with what stands.
pub(super) const CLASH: i32 = 4;
/// Exit code: something recorded is damaged.
pub(super) const DAMAGED: i32 = 5;

/// The house of these stories.
pub(super) const HOUSE: &str = "Mill Lane kitchen";

/// Runs with `--json`, expects success and reads the answer.
pub(super) fn json(dir: &Path, args: &[&str]) -> Value {
    let words: Vec<&str> = std::iter::once("--json").chain(args.iter().copied()).collect();
    serde_json::from_str(&run(dir, &words)).unwrap()
}

/// Records an answer to the house.
pub(super) fn record(dir: &Path, item: &str, answer: &[&str]) -> Value {
    let words: Vec<&str> = ["record", HOUSE, item].into_iter().chain(answer.iter().copied()).collect();
    json(dir, &words)
}

/// Entries in the log of the device, which must be whole.
pub(super) fn entries(dir: &Path) -> u64 {
    let report = json(dir, &["check"]);
    assert_eq!(report["problems"], serde_json::json!([]));
    report["entries"].as_u64().unwrap()
}

/// What the house shows for an item.
pub(super) fn row(dir: &Path, item: &str) -> Value {
    let view = json(dir, &["show", HOUSE]);
    let rows = view["stations"].as_array().unwrap().iter().flat_map(|s| s["rows"].as_array().unwrap());
    rows.into_iter().find(|r| r["item"] == item).unwrap_or_else(|| panic!("{item} is not shown")).clone()
}

/// One condition of an assessment.
pub(super) fn condition<'a>(forecast: &'a Value, id: &str) -> &'a Value {
    let list = forecast["conditions"].as_array().unwrap();
    list.iter().find(|c| c["id"] == id).unwrap_or_else(|| panic!("{id} is not in the assessment"))
}

/// Runs, expects this exit code and all of these words.
pub(super) fn refuses(dir: &Path, args: &[&str], code: i32, words: &[&str]) -> String {
    let (got, told) = refused(dir, args);
    assert_eq!(got, code, "underlath {args:?}: {told}");
    words.iter().for_each(|w| assert!(told.contains(w), "“{w}” is missing in: {told}"));
    told
}

/// The house with a plan, a year and a measured drain.
pub(super) fn a_house(dir: &Path) {
    run(dir, &["new", HOUSE, "--contract", "80000", "--days", "30"]);
    record(dir, "planned-work", &["remove-bulkhead", "deep-sink"]);
    record(dir, "year-built", &["1962"]);
    record(dir, "stub-datum", &["finished-floor"]);
    record(dir, "stub-height", &["19 3/8"]);
}

/// Seals the house and returns where the packet lies.
pub(super) fn seal(dir: &Path) -> PathBuf {
    let sealed = json(dir, &["seal", HOUSE, "--into", "out"]);
    dir.join(sealed["packet"].as_str().unwrap())
}

/// A photograph of the samples as an argument.
pub(super) fn photo() -> String {
    sample_photo().to_str().unwrap().to_owned()
}

/// Runs whatever comes of it and returns exit code, output and words.
pub(super) fn tries(dir: &Path, args: &[&str]) -> (i32, String, String) {
    let output = underlath(dir).args(args).output().unwrap();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (output.status.code().unwrap_or(-1), text(&output.stdout), text(&output.stderr))
}
