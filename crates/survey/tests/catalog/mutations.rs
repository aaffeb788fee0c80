//! Every key and every reference of the built-in catalog, broken one at a time: the fault names file and line, and for
//! a slip of the pen the word that was meant.

use std::collections::BTreeSet;

use survey::catalog::{Catalog, FILES, Fault};

use crate::faults::{Plant, every_one_is_found, plant};

/// One break: which file and line, the line before and after, and the word that was meant.
#[derive(Debug)]
struct Break {
    file: &'static str,
    line: usize,
    to: String,
    meant: String,
}

fn faults(one: &Break) -> Vec<Fault> {
    let files: Vec<(String, String)> = FILES
        .iter()
        .map(|(path, text)| {
            if *path != one.file {
                return ((*path).to_owned(), (*text).to_owned());
            }
            let lines = text.lines().enumerate();
            let lines: Vec<&str> =
                lines.map(|(n, l)| if n + 1 == one.line { &one.to[..] } else { l }).collect();
            ((*path).to_owned(), lines.join("\n") + "\n")
        })
        .collect();
    match Catalog::load(&files) {
        Err(error) => error.faults,
        // No fault at all: whoever asks for one says so.
        Ok(_) => Vec::new(),
    }
}

/// What kind of file it is: clue files are of one kind, and so on.
fn kind(path: &str) -> &str {
    path.split('/').next().unwrap_or(path)
}

/// A slip: two neighboring letters that differ swapped, or a letter too many.
fn slip(word: &str) -> String {
    let mut letters: Vec<char> = word.chars().collect();
    // Inside the word, so that it keeps its first letter and no shorter word arises.
    match (1..letters.len().saturating_sub(1)).find(|i| letters[*i] != letters[*i + 1]) {
        Some(i) if letters.len() > 3 => letters.swap(i, i + 1),
        _ => letters.push('x'),
    }
    letters.into_iter().collect()
}

/// Position and words of every `key = ` of a line, outside of quotes.
fn keys(line: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let mut quoted = false;
    let mut start = None;
    for (i, c) in line.char_indices() {
        match c {
            '"' => quoted = !quoted,
            '#' if !quoted => break,
            _ if quoted => {}
            'a'..='z' | '0'..='9' | '-' => {
                start.get_or_insert(i);
                continue;
            }
            ' ' if line[i..].starts_with(" = ") => {
                if let Some(s) = start {
                    found.push((s, &line[s..i]));
                }
            }
            _ => {}
        }
        start = None;
    }
    found
}

/// The first line of every kind of file on which each key stands.
fn first_keys() -> Vec<(&'static str, usize, &'static str, usize, &'static str)> {
    let mut seen = BTreeSet::new();
    let mut found = Vec::new();
    for (path, text) in FILES {
        let mut table = "";
        for (n, line) in text.lines().enumerate() {
            if line.starts_with('[') {
                table = line;
            }
            // Figures of a source and tables of a code book carry names of their own.
            for (at, key) in keys(line) {
                let free = line.starts_with("values = ") && at > 0;
                if !free && seen.insert((kind(path), table, key)) {
                    found.push((*path, n + 1, line, at, key));
                }
            }
        }
    }
    found
}

/// Nothing, or what was told instead; nothing was told where it was accepted.
fn missed(one: &Break) -> Option<String> {
    let faults = faults(one);
    let here = |f: &&Fault| f.file == one.file && f.line as usize == one.line;
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    // “lt” with a letter too many is as near to “lte”: of words that short all that are known are told.
    let short = one.meant.len() < 3;
    let meant = faults.iter().filter(here).any(|f| {
        f.mend.as_deref().unwrap_or_default().contains(&format!("“{}”", one.meant))
            || short && f.what.contains(&format!("`{}`", one.meant))
    });
    (!meant).then(|| format!("{one:?}\n  {}", told.into_iter().take(4).collect::<Vec<_>>().join("\n  ")))
}

fn misspelled_keys(part: usize) {
    let all = first_keys();
    assert!(all.len() > 150, "{}", all.len());
    let missed: Vec<String> = all
        .into_iter()
        .skip(part)
        .step_by(2)
        .filter_map(|(file, line, text, at, key)| {
            let to = format!("{}{}{}", &text[..at], slip(key), &text[at + key.len()..]);
            missed(&Break { file, line, to, meant: key.to_owned() })
        })
        .collect();
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}

#[test]
fn every_misspelled_key_is_told_on_its_line_with_the_one_that_was_meant() {
    misspelled_keys(0);
}

#[test]
fn every_other_misspelled_key_too() {
    misspelled_keys(1);
}

/// Keys whose values are words that must be known.
const REFERENCES: &[&str] = &[
    "adopted",
    "alone",
    "answer",
    "answers",
    "based-on",
    "basis",
    "calc",
    "cause",
    "check",
    "clue",
    "condition",
    "covers-cost-of",
    "dated-by",
    "early-price-basis",
    "electrical",
    "factor",
    "family",
    "framing",
    "gas",
    "group",
    "has",
    "if",
    "in",
    "inputs",
    "item",
    "kind",
    "lacks",
    "level",
    "mark",
    "mid-range-kitchen-source",
    "neutral-on",
    "never",
    "none-of",
    "not-for",
    "old-materials",
    "pair",
    "photo",
    "plumbing",
    "prior",
    "records-check",
    "replaces-clues",
    "source",
    "sources",
    "stage",
    "then",
    "triggers",
    "trust",
    "typical-plan",
    "where",
];

#[test]
fn every_misspelled_reference_is_told_on_its_line_with_the_word_that_was_meant() {
    let (mut broken, mut all) = (0, Vec::new());
    for (file, line, text, at, key) in first_keys() {
        // The first word in quotes after the key, if the value begins with it.
        let value = at + key.len() + 3;
        let rest = text[value..].trim_start_matches('[');
        let from = text.len() - rest.len() + 1;
        let free = file == "sources.toml" && key == "source";
        if free || !REFERENCES.contains(&key) || !rest.starts_with('"') {
            continue;
        }
        let word: &str = text[from..].split('"').next().unwrap();
        let to = format!("{}{}{}", &text[..from], slip(word), &text[from + word.len()..]);
        all.extend(missed(&Break { file, line, to, meant: word.to_owned() }));
        broken += 1;
    }
    assert!(all.is_empty(), "{}", all.join("\n"));
    assert!(broken >= 60, "{broken}");
}

#[test]
fn every_key_that_is_needed_is_missed_when_its_line_is_gone() {
    const NEEDED: &[&str] = &[
        "answer",
        "basis",
        "caution",
        "check",
        "checks",
        "clue",
        "cost",
        "dated-by",
        "days",
        "document",
        "edition",
        "factor",
        "family",
        "group",
        "help",
        "hours",
        "id",
        "inches",
        "invasive",
        "item",
        "label",
        "levels",
        "mark",
        "max",
        "min",
        "minutes",
        "name",
        "notice",
        "now",
        "off",
        "options",
        "pair",
        "question",
        "read",
        "read-in",
        "rough-in",
        "rule",
        "scope",
        "source",
        "stage",
        "statement",
        "task",
        "title",
        "topic",
        "trades",
        "triggers",
        "true-when",
        "trust",
        "unit",
        "value",
        "version",
        "what",
        "where",
        "who",
        "why",
        "words",
    ];
    let mut broken = 0;
    for (file, line, text, at, key) in first_keys() {
        // A key whose value takes one line, and which is not one of those that may be left out in this kind of file.
        let may = [
            ("clues", "basis"),
            ("codes", "document"),
            ("codes", "edition"),
            ("codes", "unit"),
            ("codes", "value"),
            ("context.toml", "source"),
            ("walk", "minutes"),
            ("outages.toml", "when"),
            ("conditions", "basis"),
        ];
        let open = text.matches(['[', '{']).count() > text.matches([']', '}']).count();
        if at > 0 || open || !NEEDED.contains(&key) || may.contains(&(kind(file), key)) {
            continue;
        }
        let one = Break { file, line, to: String::new(), meant: key.to_owned() };
        let faults = faults(&one);
        let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
        // It is told at the table that misses it, which begins before; nothing lies between but the keys of that table.
        let is_missed = |f: &Fault| f.file == file && (f.line as usize) <= line && f.what.contains(key);
        assert!(faults.iter().any(is_missed), "{file}:{line} {key}\n{}", told.join("\n"));
        broken += 1;
    }
    assert!(broken >= 60, "{broken}");
}

#[test]
fn every_number_written_as_a_word_is_told_on_its_line() {
    let mut broken = 0;
    let mut missed = Vec::new();
    for (file, line, text, at, key) in first_keys() {
        let value = at + key.len() + 3;
        let digits = |c: char| c.is_ascii_digit() || c == '.' || c == '-';
        let end = text[value..].find(|c| !digits(c)).map_or(text.len(), |n| value + n);
        // A table of a code book takes words in its rows, but not as its one value.
        if end == value {
            continue;
        }
        let to = format!("{}\"some\"{}", &text[..value], &text[end..]);
        let told = faults(&Break { file, line, to, meant: String::new() });
        if !told.iter().any(|f| f.file == file && f.line as usize == line) {
            missed.push(format!("{file}:{line} {text}\n  {told:?}"));
        }
        broken += 1;
    }
    assert!(missed.is_empty(), "{}", missed.join("\n"));
    assert!(broken >= 60, "{broken}");
}

#[test]
fn a_file_that_is_no_toml_any_more_is_told_with_its_line() {
    for (file, text) in FILES {
        let (at, line) =
            text.lines().enumerate().find(|(_, l)| l.contains(" = ") && !l.starts_with('#')).unwrap();
        for to in [line.replacen('=', "", 1), line.replacen(" = ", " = = ", 1), format!("[{line}")] {
            let told = faults(&Break { file, line: at + 1, to, meant: String::new() });
            assert!(told.iter().any(|f| f.file == *file && f.line > 0), "{file}: {told:?}");
        }
    }
}

/// Lines gone, doubled, cut in half: many are faults, some are not, none ends the program, and every fault says where.
#[test]
fn no_line_that_is_gone_doubled_or_cut_ends_the_program() {
    let lines =
        FILES.iter().flat_map(|(file, text)| text.lines().enumerate().map(move |(n, l)| (*file, n, l)));
    for (turn, (file, n, line)) in lines.enumerate().filter(|(n, _)| n % 37 == 0) {
        let half = line.char_indices().nth(line.chars().count() / 2).map_or(0, |(i, _)| i);
        let to = match turn / 37 % 3 {
            0 => String::new(),
            1 => format!("{line}\n{line}"),
            _ => line[..half].to_owned(),
        };
        for fault in faults(&Break { file, line: n + 1, to, meant: String::new() }) {
            assert!(FILES.iter().any(|(known, _)| *known == fault.file), "{fault}");
            assert!(!fault.what.is_empty(), "{file}:{n}");
        }
    }
}

const STUB: &str = "id = \"drain-stub-high\"";

/// Single numbers and words that are out of what they can be.
const VALUES: &[Plant] = &[
    plant(
        "conditions/drain.toml",
        (STUB, "if-present = 0.92", "if-present = 1.2"),
        ("between 0.001 and 0.99", "", "1.2"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "if-absent = 0.45", "if-absent = 0"),
        ("between 0.001 and 0.99", "", "if-absent = 0"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "sensitivity = 0.95", "sensitivity = 1.2"),
        ("between 0 and 1", "", "1.2"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "1940-1959 = 0.36", "1940-1959 = 0"),
        ("must lie between 0 and 0.98", "", "1940-1959"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "days = [0.5, 1, 2]", "days = [0.5, 1]"),
        ("invalid length 2", "", "days"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "cost = [450,", "cost = [\"450\","),
        ("invalid type: string", "", "cost"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "stage = \"rough-in\"", "stage = \"rough in\""),
        ("unknown variant `rough in`", "“rough-in”", "stage"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "dated-by = \"", "dated-by = \"the-"),
        ("unknown variant `the-", "known: ", "dated-by"),
    ),
    plant(
        "conditions/hvac.toml",
        ("", "open-wall = 0.25", "open-wall = 1.2"),
        ("more than 0 and at most 1", "", "p-cost-by-trigger"),
    ),
    plant(
        "conditions/hvac.toml",
        ("", "place = \"walls\"", "place = \"wall\""),
        ("“wall”", "“walls”", "place"),
    ),
    plant("conditions/hvac.toml", ("", "odds-ratio = 1.6", "odds-ratio = -1.6"), ("odds", "", "-1.6")),
    plant(
        "conditions/hvac.toml",
        ("", "factor = \"heat\"", "factor = \"heaat\""),
        ("there is no factor “heaat”", "“heat”", "heaat"),
    ),
    plant(
        "settings.toml",
        ("", "value = 0.25", "value = 3"),
        ("lies between 0 and 2, not at 3", "it is in dollars a dollar", "value = 3"),
    ),
    plant(
        "settings.toml",
        ("", "id = \"idle-day\"", "id = \"idle-days\""),
        ("nothing reads a setting “idle-days”", "“idle-day”", "idle-days"),
    ),
    plant(
        "settings.toml",
        ("", "id = \"clause\"", "id = \"floor\""),
        ("the setting “floor” is there twice", "", "floor"),
    ),
    plant(
        "checks.toml",
        ("", "serves = \"house\"", "serves = \"home\""),
        ("unknown variant `home`", "", "serves = \"home\""),
    ),
    plant("checks.toml", ("", "invasive = 0", "invasive = 9"), ("invasive is 0 to 5", "", "invasive = 9")),
    plant(
        "checks.toml",
        ("", "minutes = [2, 5, 15]", "minutes = [5, 2, 15]"),
        ("low, likely, high in that order", "", "minutes"),
    ),
    plant(
        "checks.toml",
        ("", "id = \"file-search\"", "id = \"ask-owner\""),
        ("the check “ask-owner” is there twice", "", "ask-owner"),
    ),
    plant(
        "outages.toml",
        ("", "hours = [0.5, 1, 2.5]", "hours = [-0.5, 1, 2.5]"),
        ("not negative", "", "hours"),
    ),
    plant(
        "causes.toml",
        ("", "id = \"duct-run\"", "id = \"wet-room-stack\""),
        ("the cause “wet-room-stack” is there twice", "", "wet-room-stack"),
    ),
    plant("catalog.toml", ("[base-odds]", "factor = 0.53", "factor = 0"), ("factor", "", "factor = 0")),
    plant("catalog.toml", ("", "version = 4", "version = -3"), ("-3", "", "version")),
    plant(
        "catalog.toml",
        ("", "shared-cause-damping = 0.35", "shared-cause-damping = 1.2"),
        ("between 0 and 1", "", "1.2"),
    ),
    plant(
        "context.toml",
        ("id = \"foundation\"", "answers = [\"crawl\"]", "answers = [\"crawll\"]"),
        ("“crawll”", "“crawl”", "crawll"),
    ),
    plant(
        "walk/01-plan.toml",
        ("", "id = \"deep-sink\"", "id = \"move-sink\""),
        ("an option is there twice", "", "options"),
    ),
    plant(
        "walk/01-plan.toml",
        ("", "where = \"start\"", "where = \"begin\""),
        ("unknown variant `begin`", "known: ", "where"),
    ),
    plant("walk/08-walls.toml", ("", "most = 6", "most = 0"), ("most", "", "most = 0")),
    plant(
        "wishes.toml",
        ("", "id = \"pot-filler\"", "id = \"pot-fillers\""),
        ("“pot-fillers”", "“pot-filler”", "pot-fillers"),
    ),
    plant(
        "sources.toml",
        ("", "trust = \"high\"", "trust = \"hihg\""),
        ("unknown variant `hihg`", "“high”", "hihg"),
    ),
    plant("sources.toml", ("", "read = true", "read = \"yes\""), ("invalid type: string", "", "read")),
    plant(
        "relations.toml",
        ("", "then = \"bulkhead-wires\"", "then = \"bulkhead-wire\""),
        ("there is no condition “bulkhead-wire”", "“bulkhead-wires”", "bulkhead-wire"),
    ),
    plant("drain-defaults.toml", ("", "low = 34", "low = 37"), ("low", "", "")),
];

#[test]
fn every_number_or_word_out_of_range_is_told_on_its_line() {
    every_one_is_found(VALUES);
}
