//! Bad input through the program: one paragraph with the item, file or line and how to mend it, the exit code of the
//! manual, and everything recorded before is still there.

use std::path::Path;

use super::steps::{
    CLASH, HOUSE, NOT_TAKEN, NOT_THERE, a_house, entries, json, photo, record, refuses, row, seal, tries,
};
use crate::support::{copy_folder, root, run};

#[test]
fn answers_that_cannot_be_taken_name_the_item_and_the_way_out() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    let before = (entries(dir.path()), json(dir.path(), &["show", HOUSE]));
    // (item, answer, words of the refusal)
    let table: [(&str, &[&str], &[&str]); 14] = [
        ("stub-hieght", &["18"], &["stub-hieght", "did you mean stub-height?"]),
        ("qwertyuiop", &["18"], &["qwertyuiop", "no item of the walk"]),
        ("planned-work", &["deep-sink", "moat"], &["planned-work", "“moat”", "remove-bulkhead", "new-floor"]),
        ("base-floor", &["wet-ish"], &["base-floor", "“wet-ish”", "dry, stained-or-swollen, soft"]),
        ("base-floor", &["dry", "soft"], &["base-floor", "takes one answer, 2 were given"]),
        ("stub-height", &["300"], &["300 in", "stub-height", "2 in to 30 in", "measure again", "sure"]),
        ("stub-height", &["19 3/"], &["stub-height", "“19 3/” is no length", "3/8"]),
        ("stub-height", &["about so"], &["stub-height", "is no length"]),
        ("stub-height", &["19-3"], &["stub-height", "“19-3” can mean two lengths", "range"]),
        ("stub-height", &["1,5"], &["stub-height", "can mean two lengths", "comma"]),
        ("stub-height", &["5 psi"], &["stub-height", "“psi” is not a unit", "mm"]),
        ("year-built", &["1962 ft"], &["year-built", "in ft", "plain number"]),
        ("year-built", &[], &["year-built", "there is no answer"]),
        (
            "check-result",
            &["live-scan shows-it bulkhead-wirs"],
            &["check-result", "“bulkhead-wirs”", "live-scan shows-it bulkhead-wires"],
        ),
    ];
    for (item, answer, words) in table {
        let args: Vec<&str> = ["record", HOUSE, item].into_iter().chain(answer.iter().copied()).collect();
        refuses(dir.path(), &args, NOT_TAKEN, words);
    }
    refuses(
        dir.path(),
        &["record", HOUSE, "stub-height", "18", "--tolerance", "tight"],
        NOT_TAKEN,
        &["stub-height", "“tight” is no tolerance", "1/8 in"],
    );
    refuses(
        dir.path(),
        &["record", HOUSE, "base-floor", "--could-not-reach", " "],
        NOT_TAKEN,
        &["base-floor", "why"],
    );
    refuses(dir.path(), &["note", HOUSE, " "], NOT_TAKEN, &["note"]);
    refuses(
        dir.path(),
        &["note", HOUSE, "damp", "--item", "stub-hieght"],
        NOT_TAKEN,
        &["did you mean stub-height?"],
    );
    refuses(dir.path(), &["new", " "], NOT_TAKEN, &["label"]);
    refuses(dir.path(), &["new", HOUSE], CLASH, &[HOUSE, "another label"]);
    assert_eq!((entries(dir.path()), json(dir.path(), &["show", HOUSE])), before, "nothing changed");
}

#[test]
fn a_value_out_of_range_is_kept_when_the_person_is_sure() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    let taken = record(dir.path(), "stub-height", &["31", "--sure", "--reason", "raised floor"]);
    let complaint = taken["complaints"][0].as_str().unwrap();
    assert!(complaint.contains("2 in to 30 in") && complaint.contains("sure"), "{complaint}");
    assert_eq!(row(dir.path(), "stub-height")["answer"], "31\"");
    // Being sure makes no length out of words.
    refuses(dir.path(), &["record", HOUSE, "stub-height", "tall", "--sure"], NOT_TAKEN, &["is no length"]);
}

#[test]
fn an_error_in_json_is_one_object_with_kind_message_and_hint() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    let (code, out, told) = tries(dir.path(), &["--json", "record", HOUSE, "stub-hieght", "18"]);
    assert_eq!((code, out.as_str()), (NOT_TAKEN, ""));
    let error: serde_json::Value = serde_json::from_str(&told).unwrap();
    assert_eq!(error["error"]["kind"], "input");
    assert!(error["error"]["message"].as_str().unwrap().contains("stub-hieght"));
    assert_eq!(error["error"]["hint"], "did you mean stub-height?");
}

#[test]
fn a_photograph_that_is_missing_or_none_is_named_and_nothing_is_recorded_half() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    let before = entries(dir.path());
    let real = std::fs::read(photo()).unwrap();
    let file = |name: &str, bytes: &[u8]| std::fs::write(dir.path().join(name), bytes).unwrap();
    file("drawing.gif", b"GIF89a\x01\0\x01\0");
    file("words.jpg", b"tape at nineteen and three eighths\n");
    file("empty.jpg", b"");
    file("cut.jpg", &real[..60]);
    let table: [(&str, i32, &[&str]); 5] = [
        ("nowhere.jpg", NOT_THERE, &["nowhere.jpg", "check the path"]),
        ("drawing.gif", NOT_TAKEN, &["drawing.gif", "GIF", "export it as JPEG"]),
        ("words.jpg", NOT_TAKEN, &["words.jpg", "plain text"]),
        ("empty.jpg", NOT_TAKEN, &["empty.jpg", "empty", "again"]),
        ("cut.jpg", NOT_TAKEN, &["cut.jpg"]),
    ];
    for (name, code, words) in table {
        refuses(dir.path(), &["photo", HOUSE, name, "--item", "stub-height"], code, words);
        refuses(dir.path(), &["record", HOUSE, "stub-height", "18", "--photo", name], code, words);
        assert_eq!(entries(dir.path()), before, "{name}");
    }
    assert_eq!(row(dir.path(), "stub-height")["answer"], "19-3/8\"", "the reading before still stands");
    // A good photograph is not taken in for an answer that is refused, nor beside a bad one.
    let good = photo();
    refuses(
        dir.path(),
        &["record", HOUSE, "stub-height", "19 3/", "--photo", &good],
        NOT_TAKEN,
        &["is no length"],
    );
    refuses(
        dir.path(),
        &["record", HOUSE, "stub-hieght", "18", "--photo", &good],
        NOT_TAKEN,
        &["did you mean stub-height?"],
    );
    let both = ["record", HOUSE, "stub-height", "18", "--photo", &good, "--photo", "words.jpg"];
    refuses(dir.path(), &both, NOT_TAKEN, &["words.jpg"]);
    assert_eq!(entries(dir.path()), before);
    refuses(
        dir.path(),
        &["photo", HOUSE, &good, "--item", "stub-hieght"],
        NOT_TAKEN,
        &["did you mean stub-height?"],
    );
    assert_eq!(entries(dir.path()), before);

    // A picture that stops in the middle still shows something: it is taken, and says what is wrong with it.
    file("half.jpg", &real[..real.len() / 2]);
    let taken = json(dir.path(), &["photo", HOUSE, "half.jpg", "--item", "stub-height"]);
    let complaint = taken["complaints"][0].as_str().unwrap();
    assert!(
        complaint.contains("before the picture's end") && complaint.contains("copy it again"),
        "{complaint}"
    );
    assert_eq!(entries(dir.path()), before + 1);
}

#[test]
fn a_house_that_is_not_there_is_said_with_those_that_are() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    let before = entries(dir.path());
    for verb in ["show", "assess", "next", "seal"] {
        refuses(dir.path(), &[verb, "Nowhere"], NOT_THERE, &["“Nowhere”", HOUSE]);
    }
    refuses(dir.path(), &["record", "Nowhere", "year-built", "1950"], NOT_THERE, &["“Nowhere”", HOUSE]);
    refuses(dir.path(), &["finding", HOUSE, "bulkhead-duct", "found"], NOT_THERE, &[HOUSE, "none yet"]);
    refuses(dir.path(), &["compare", HOUSE], NOT_THERE, &[HOUSE]);
    assert_eq!(entries(dir.path()), before);
}

#[test]
fn a_finding_that_cannot_be_kept_is_refused_and_those_before_stand() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    json(dir.path(), &["receive", seal(dir.path()).to_str().unwrap()]);
    json(dir.path(), &["finding", HOUSE, "drain-stub-high", "found", "--cost", "900"]);
    let before = json(dir.path(), &["compare", HOUSE]);
    let finding = |rest: &[&str], words: &[&str]| {
        let args: Vec<&str> = ["finding", HOUSE].into_iter().chain(rest.iter().copied()).collect();
        refuses(dir.path(), &args, NOT_TAKEN, words);
    };
    finding(&["drain-stub-hgh", "found"], &["drain-stub-hgh", "did you mean “drain-stub-high”?"]);
    finding(
        &["bulkhead-duct", "not-there", "--cost", "100"],
        &["bulkhead-duct", "not there", "cost", "leave both at 0"],
    );
    finding(&["bulkhead-duct", "not-opened", "--days", "2"], &["bulkhead-duct", "days"]);
    finding(&["bulkhead-duct", "found", "--days", "1e9"], &["bulkhead-duct", "1000"]);
    std::fs::write(dir.path().join("words.jpg"), "no picture").unwrap();
    finding(&["bulkhead-duct", "found", "--photo", "words.jpg"], &["words.jpg", "plain text"]);
    assert_eq!(json(dir.path(), &["compare", HOUSE]), before);
}

/// A copy of the shipped catalog with one change.
fn changed_catalog(to: &Path, file: &str, from: &str, into: &str) {
    copy_folder(&root().join("catalog"), to);
    let path = to.join(file);
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.contains(from), "{file} has no “{from}”");
    std::fs::write(&path, text.replacen(from, into, 1)).unwrap();
}

#[test]
fn a_catalog_with_a_broken_reference_is_refused_with_file_line_and_suggestion() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    let before = entries(dir.path());
    let folder = dir.path().join("our-catalog");
    changed_catalog(
        &folder,
        "conditions/bulkhead.toml",
        "clue = \"bulkhead-live-signal\"",
        "clue = \"bulkhead-live-signl\"",
    );
    let text = std::fs::read_to_string(folder.join("conditions/bulkhead.toml")).unwrap();
    let line = 1 + text.lines().position(|l| l.contains("bulkhead-live-signl")).unwrap();
    let place = format!("conditions/bulkhead.toml:{line}:");
    for verb in [&["show"][..], &["record", HOUSE, "year-built", "1950"], &["assess", HOUSE]] {
        let args: Vec<&str> = ["--catalog", "our-catalog"].into_iter().chain(verb.iter().copied()).collect();
        let (code, _, told) = tries(dir.path(), &args);
        assert_eq!(code, NOT_TAKEN, "{told}");
        assert!(!told.contains("\n\n") && !told.contains("panicked"), "one paragraph: {told}");
        for words in [
            place.as_str(),
            "“bulkhead-live-signl”",
            "did you mean “bulkhead-live-signal”?",
            "nothing was recorded",
        ] {
            assert!(told.contains(words), "“{words}” is missing in: {told}");
        }
    }
    let torn = dir.path().join("torn");
    changed_catalog(&torn, "conditions/bulkhead.toml", "core = true", "core = tru");
    let (code, _, told) = tries(dir.path(), &["--catalog", "torn", "show"]);
    assert_eq!(code, NOT_TAKEN, "{told}");
    assert!(told.contains("conditions/bulkhead.toml:"), "{told}");
    refuses(dir.path(), &["--catalog", "nowhere", "show"], NOT_THERE, &["nowhere"]);
    std::fs::create_dir(dir.path().join("bare")).unwrap();
    refuses(dir.path(), &["--catalog", "bare", "show"], NOT_THERE, &["bare", "no catalog files"]);
    assert_eq!(entries(dir.path()), before, "with the built-in catalog all is as before");
}

/// The shipped catalog leaves every combination of answers a chance; a firm that writes zeros does not.
#[test]
fn answers_that_cannot_all_be_true_are_named_and_stay_recorded() {
    let dir = tempfile::tempdir().unwrap();
    let last = "{ id = \"mixed\", answers = [\"mixed\"], prior = 0.1 },\n]\n";
    let zeros = "[factor.given]\nfactor = \"stories\"\nwhen = [\n  { level = \"one\", priors = { basement = 0.0, \
                 crawl = 0.0, slab = 1.0, mixed = 0.0 }, certain = true },\n]\n";
    changed_catalog(&dir.path().join("ours"), "context.toml", last, &format!("{last}{zeros}"));
    a_house(dir.path());
    record(dir.path(), "over-kitchen", &["attic"]);
    let assess = ["--catalog", "ours", "assess", HOUSE];
    run(dir.path(), &assess);
    record(dir.path(), "below-kind", &["crawl"]);
    let before = entries(dir.path());
    let words =
        ["cannot all be true", "over-kitchen = attic", "below-kind = crawl", "can't tell", "stays recorded"];
    let told = refuses(dir.path(), &assess, CLASH, &words);
    assert!(!told.contains("year-built"), "what does not clash is not named: {told}");
    for verb in ["next", "seal"] {
        refuses(dir.path(), &["--catalog", "ours", verb, HOUSE], CLASH, &["below-kind = crawl"]);
    }
    assert_eq!(entries(dir.path()), before);
    assert_eq!(row(dir.path(), "below-kind")["answer"], "crawl space");
    // As the error says: one of them "can't tell", and it goes on.
    record(dir.path(), "below-kind", &["can't tell"]);
    run(dir.path(), &assess);
}
