//! The program answers, says what it can do, and ends with the codes it documents.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

use std::path::Path;
use std::process::{Command, Output};

fn underlath(dir: &Path, args: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_underlath"));
    command.args(args).current_dir(dir);
    command
        .env("UNDERLATH_HOME", dir.join("device"))
        .env("UNDERLATH_OFFICE", dir.join("office"))
        .env("USER", "R. Ames");
    command.output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

#[test]
fn help_lists_the_verbs_and_the_exit_codes() {
    let dir = tempfile::tempdir().unwrap();
    let output = underlath(dir.path(), &["--help"]);
    assert!(output.status.success());
    let help = text(&output.stdout);
    let verbs = [
        "new", "record", "note", "photo", "show", "assess", "next", "seal", "verify", "receive", "finding",
        "compare", "check", "rescue", "demo", "reckon",
    ];
    for verb in verbs {
        let line = help.lines().find(|l| l.split_whitespace().next() == Some(verb));
        assert!(line.is_some_and(|l| l.trim().len() > verb.len() + 10), "{verb} is not explained: {help}");
    }
    let flat: String = help.split_whitespace().collect::<Vec<_>>().join(" ");
    for code in [
        "0 done",
        "1 a fault",
        "2 what was given",
        "3 what was named",
        "4 it clashes",
        "5 something recorded",
    ] {
        assert!(flat.contains(code), "{code}: {flat}");
    }
    for verb in verbs {
        assert!(underlath(dir.path(), &[verb, "--help"]).status.success(), "{verb} --help");
    }
    assert!(!dir.path().join("device").exists(), "asking for help makes nothing");
}

#[test]
fn version_is_the_version_of_the_package() {
    let dir = tempfile::tempdir().unwrap();
    let output = underlath(dir.path(), &["--version"]);
    assert!(output.status.success());
    assert_eq!(text(&output.stdout), concat!("underlath ", env!("CARGO_PKG_VERSION"), "\n"));
}

#[test]
fn an_unknown_verb_option_or_missing_argument_ends_with_2_and_makes_nothing() {
    let dir = tempfile::tempdir().unwrap();
    for (args, named) in
        [(&["shwo"][..], "shwo"), (&["show", "--loud"], "--loud"), (&["record", "House"], "ITEM")]
    {
        let output = underlath(dir.path(), args);
        assert_eq!(output.status.code(), Some(2), "{args:?}");
        assert!(output.stdout.is_empty());
        assert!(text(&output.stderr).contains(named), "{args:?}: {}", text(&output.stderr));
    }
    assert_eq!(underlath(dir.path(), &[]).status.code(), Some(2));
    assert!(!dir.path().join("device").exists());
}

#[test]
fn an_empty_device_says_how_to_begin() {
    let dir = tempfile::tempdir().unwrap();
    let output = underlath(dir.path(), &["show"]);
    assert!(output.status.success());
    assert!(text(&output.stdout).contains("underlath new LABEL"), "{}", text(&output.stdout));
    let output = underlath(dir.path(), &["show", "--json"]);
    assert_eq!(text(&output.stdout).trim(), "[]");
}

#[test]
fn options_may_stand_before_or_after_the_answer() {
    let dir = tempfile::tempdir().unwrap();
    assert!(underlath(dir.path(), &["new", "Mill Lane"]).status.success());
    for args in [
        &["record", "Mill Lane", "stub-height", "19 3/8", "--tolerance", "1/4 in"][..],
        &["record", "Mill Lane", "--tolerance", "1/4 in", "stub-height", "19 3/8"],
        &["record", "--tolerance", "1/4 in", "Mill Lane", "stub-height", "19 3/8"],
    ] {
        let output = underlath(dir.path(), args);
        assert!(output.status.success(), "{args:?}: {}", text(&output.stderr));
        assert!(text(&output.stdout).contains("19-3/8"), "{}", text(&output.stdout));
    }
    let output = underlath(dir.path(), &["record", "Mill Lane", "stub-height", "-3"]);
    assert_eq!(output.status.code(), Some(2), "a length below zero");
    assert!(text(&output.stderr).contains("stub-height"), "{}", text(&output.stderr));
}
