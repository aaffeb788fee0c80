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
        .env("USER", "R. Ames")
        .env("LC_ALL", "C");
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
        "new", "record", "note", "undo", "photo", "show", "assess", "next", "seal", "verify", "receive",
        "finding", "compare", "check", "rescue", "demo", "reckon", "words",
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
fn the_last_acts_are_taken_back_one_by_one_and_then_there_are_none() {
    let dir = tempfile::tempdir().unwrap();
    let house = "Mill Lane kitchen";
    let run = |args: &[&str]| underlath(dir.path(), args);
    assert!(run(&["new", house]).status.success());
    assert!(run(&["record", house, "year-built", "1962"]).status.success());
    assert!(run(&["note", house, "the dog bites"]).status.success());
    for said in ["the dog bites", "1962"] {
        let undone = run(&["undo", house]);
        assert!(undone.status.success() && text(&undone.stdout).contains(said), "{undone:?}");
    }
    let shown = text(&run(&["show", house]).stdout);
    assert!(!shown.contains("the dog bites") && !shown.contains("1962"), "{shown}");
    assert_eq!(run(&["undo", house]).status.code(), Some(3));
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
fn the_language_is_that_of_the_option_or_of_the_terminal() {
    let dir = tempfile::tempdir().unwrap();
    let none = |args: &[&str], variables: &[(&str, &str)]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_underlath"));
        command.args(args).env("UNDERLATH_HOME", dir.path().join("device"));
        for name in ["LC_ALL", "LC_MESSAGES", "LANG"] {
            command.env_remove(name);
        }
        text(&command.envs(variables.iter().copied()).output().unwrap().stdout)
    };
    let (english, spanish) = ("no houses on this device yet", "todavía no hay casas");
    for (args, variables, said) in [
        (&["show"][..], &[][..], english),
        (&["show"], &[("LANG", "es_MX.UTF-8")], spanish),
        (&["show"], &[("LANG", "es_MX.UTF-8"), ("LC_MESSAGES", "en_US.UTF-8")], english),
        (&["show"], &[("LANG", "es_MX.UTF-8"), ("LC_ALL", "C")], english),
        (&["show"], &[("LANG", "fr_CA.UTF-8")], english),
        (&["show", "--language", "es"], &[("LANG", "en_US.UTF-8")], spanish),
        (&["show", "--language", "en"], &[("LANG", "es_MX.UTF-8")], english),
        (&["--help"], &[("LANG", "es_MX.UTF-8")], "Códigos de salida"),
    ] {
        let told = none(args, variables);
        assert!(told.contains(said), "{args:?} {variables:?}: {told}");
    }
    let output = underlath(dir.path(), &["show", "--language", "fr"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("en, es"), "{}", text(&output.stderr));
}

#[test]
fn a_firms_catalog_in_spanish_says_what_is_missing_and_takes_its_own_words() {
    let dir = tempfile::tempdir().unwrap();
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../catalog");
    let firm = dir.path().join("firm");
    copy(&shipped, &firm);
    let file = firm.join("walk/01-plan.toml");
    let plan = std::fs::read_to_string(&file).unwrap().replace("Is a disposer planned?", "Disposer wanted?");
    std::fs::write(&file, plan).unwrap();
    let missing = &["--catalog", "firm", "--language", "es", "words", "missing"][..];
    let told = text(&underlath(dir.path(), missing).stdout);
    assert!(told.starts_with("item-disposer-plan-question = Disposer wanted?\n"), "{told}");
    assert!(told.contains("words/es/*.ftl"), "{told}");
    std::fs::create_dir_all(firm.join("words/es")).unwrap();
    std::fs::write(firm.join("words/es/own.ftl"), "item-disposer-plan-question = ¿Quieren triturador?\n")
        .unwrap();
    assert!(text(&underlath(dir.path(), missing).stdout).contains("todo texto del catálogo"));
    std::fs::write(firm.join("words/es/own.ftl"), "one = uno\nno message\n").unwrap();
    let output = underlath(dir.path(), missing);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("own.ftl línea 2"), "{}", text(&output.stderr));
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let (path, to) = (entry.as_ref().unwrap().path(), to.join(entry.unwrap().file_name()));
        if path.is_dir() { copy(&path, &to) } else { std::fs::copy(&path, &to).map(drop).unwrap() }
    }
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
