//! Everything said in the made-up language: whatever is still in plain letters never went through the messages.
//!
//! What may be in plain letters: ids, file names, names of people and houses, what people wrote, names of formats,
//! percentiles and code books.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use super::steps::{HOUSE, a_house, photo};
use crate::support::{catalog, run};

/// Words that are no English of ours: names, formats, programs, units, months and half-days as `Intl` has them.
const NAMES: &str = "R Ames Mill Lane kitchen Rosa Underlath underlath sha256 sha256sum certutil hashfile SHA256 Windows \
    packet zip unzip cd c manifest txt tagmanifest pip install bagit py validate P50 P80 P90 kB JSON AM PM UTC \
    Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec data assessment json sum DIR NAME LINE KEYS FILE DOLLARS DAYS LANGUAGE \
    BECAUSE LENGTH WORDS ITEM HOUSE LABEL PATH ANSWER CONDITION FOUND LIST TO KIND WORD ANSWERS OPTIONS COMMAND default \
    Brier behind the boxes full of cans entered in ft gpm psi mm min am pm filled length PLACE STATION sample-surveys demo-made \
    UPC IPC IRC NEC IFGC WHO WHAT";

/// Verbs, which are typed and therefore the same in every language.
const VERBS: [&str; 60] = [
    "accept",
    "assess",
    "backup",
    "calc",
    "calibrate",
    "catalog",
    "certify",
    "check",
    "compare",
    "copy",
    "demo",
    "demolition",
    "diff",
    "facts",
    "fetch",
    "field",
    "finding",
    "keys",
    "learn",
    "leave",
    "log",
    "mark",
    "marks",
    "measure",
    "merge",
    "new",
    "new-office",
    "new-overlay",
    "next",
    "note",
    "office",
    "order",
    "pair",
    "password",
    "photo",
    "place",
    "promise",
    "public",
    "publish",
    "receipt",
    "receive",
    "reckon",
    "record",
    "request",
    "rescue",
    "restore",
    "revoke",
    "revoked",
    "seal",
    "send",
    "sheet",
    "sheet-answers",
    "show",
    "simulate",
    "suppose",
    "track",
    "underlath",
    "undo",
    "verify",
    "words",
];

/// Ids of the catalog, which are typed and therefore the same in every language.
fn ids() -> BTreeSet<String> {
    let c = catalog();
    let mut ids: BTreeSet<String> = c.items.iter().map(|i| i.id.clone()).collect();
    ids.extend(c.items.iter().flat_map(|i| i.answer.options()).map(|o| o.id.clone()));
    ids.extend(c.conditions.iter().map(|c| c.id.clone()));
    ids.extend(c.checks.keys().cloned());
    ids.extend(c.outages.iter().map(|o| o.id.clone()));
    ids.extend(c.wishes.iter().map(|w| w.id.clone()));
    ids.extend(VERBS.map(str::to_owned));
    ids.extend(["shows-it", "shows-not", "unclear"].map(str::to_owned));
    ids
}

/// Plain words left in a text, each with the line it stands in.
fn english(text: &str) -> Vec<String> {
    let (names, ids) = (NAMES.split_whitespace().collect::<BTreeSet<_>>(), ids());
    let mut left = Vec::new();
    for line in text.lines() {
        let tokens =
            line.split(|c: char| !(c.is_alphanumeric() || matches!(c, '-' | '_' | '/' | '.' | '$' | '~')));
        for token in tokens {
            let bare = token.trim_matches(|c: char| !c.is_ascii_alphanumeric());
            let plain = bare.chars().filter(char::is_ascii_alphabetic).count() >= 2 && bare.is_ascii();
            // paths, digests, options and ids of surveys
            let path = token.contains('/')
                || token.starts_with("--")
                || token.starts_with('$')
                || token.contains(".zip");
            let digest = bare.starts_with("underlath-0")
                || bare.len() >= 8 && bare.chars().all(|c| c.is_ascii_hexdigit() || c == '-')
                || token.parse::<keys::Thumbprint>().is_ok();
            let file = [".json", ".pdf", ".csv", ".xlsx", ".jpg", ".ftl", ".txt"]
                .iter()
                .any(|end| bare.ends_with(end));
            let known = names.contains(bare)
                || ids.contains(bare)
                || bare.split(['-', '.']).all(|p| names.contains(p));
            if plain && !(path || digest || file || known) {
                left.push(format!("“{bare}” in: {}", line.trim()));
            }
        }
    }
    left
}

/// What the verbs say when all goes well.
fn said(dir: &Path, args: &[&str]) -> String {
    let words: Vec<&str> = ["--language", "qps"].into_iter().chain(args.iter().copied()).collect();
    run(dir, &words)
}

/// Words of what is cited: names of documents, editions and clauses stay as they are printed.
fn cited() -> BTreeSet<String> {
    let files = std::fs::read_dir(crate::support::root().join("catalog/codes")).unwrap();
    let mut words = BTreeSet::new();
    for file in files {
        let text = std::fs::read_to_string(file.unwrap().path()).unwrap();
        for line in text.lines() {
            let Some((key, value)) = line.split_once(" = ") else { continue };
            if ["title", "document", "edition", "clause"].contains(&key) {
                let pieces = value.split(|c: char| !(c.is_alphanumeric() || matches!(c, '-' | '.')));
                words.extend(pieces.map(|w| w.trim_matches('.').to_owned()));
            }
        }
    }
    words
}

/// True for a finding of [`english`] whose word, or all its parts, are cited.
fn is_cited(found: &str, cited: &BTreeSet<String>) -> bool {
    let word = found.trim_start_matches('“').split('”').next().unwrap_or_default();
    word.split(['-', '.', '/']).all(|part| cited.contains(part)) || cited.contains(word)
}

#[test]
fn every_verb_says_everything_in_the_language_asked_for() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let record = |item: &str, answer: &[&str]| {
        said(dir, &["record", HOUSE, item].into_iter().chain(answer.iter().copied()).collect::<Vec<_>>())
    };
    let mut all = vec![
        said(dir, &["show"]),
        record("bulkhead-sound", &["water-heard"]),
        record("bulkhead-sound", &["quiet"]),
        record("faucet-flow", &["1.5"]),
        record("base-damp", &["--could-not-reach", "behind the boxes full of cans"]),
        record("check-result", &["live-scan shows-it bulkhead-wires"]),
        record("air-valve", &["can't tell"]),
        said(dir, &["photo", HOUSE, &photo(), "--item", "stub-height"]),
        said(dir, &["show"]),
        said(dir, &["show", HOUSE]),
        said(dir, &["next", HOUSE]),
        said(dir, &["assess", HOUSE]),
        said(dir, &["check"]),
        said(dir, &["keys", "show"]),
        said(dir, &["seal", HOUSE, "--into", "out"]),
        said(dir, &["keys", "show"]),
        said(dir, &["verify", "out/mill-lane-kitchen-1.zip"]),
        said(dir, &["receive", "out/mill-lane-kitchen-1.zip"]),
        said(dir, &["receive", "out/mill-lane-kitchen-1.zip"]),
        said(dir, &["finding", HOUSE, "bulkhead-wires", "found", "--cost", "900", "--days", "1"]),
        said(dir, &["finding", HOUSE, "bulkhead-drain", "not-there"]),
        said(dir, &["compare", HOUSE]),
        said(dir, &["merge", "out/mill-lane-kitchen-1.zip"]),
        said(dir, &["rescue", "saved.json"]),
        said(dir, &["words", "missing"]),
        said(dir, &["catalog", "check"]),
        said(dir, &["catalog", "diff"]),
        said(dir, &["catalog", "new-overlay", "out/ours"]),
    ];
    all.push(said(dir, &["--help"]));
    for verb in [
        "new", "record", "note", "photo", "show", "seal", "finding", "merge", "check", "demo", "reckon",
        "words", "catalog", "keys", "verify",
    ] {
        all.push(said(dir, &[verb, "--help"]));
    }
    let left: BTreeSet<String> = all.iter().flat_map(|text| english(text)).collect();
    assert!(left.is_empty(), "left in English:\n{}", left.into_iter().collect::<Vec<_>>().join("\n"));
}

#[test]
fn a_refusal_is_said_in_the_language_asked_for() {
    let dir = tempfile::tempdir().unwrap();
    a_house(dir.path());
    for (args, spanish) in [
        (&["record", HOUSE, "stub-height", "lots"][..], "no es un largo"),
        (&["record", HOUSE, "stub-height", "77"], "está fuera de lo que cabe en"),
        (&["record", HOUSE, "stub-hieght", "17"], "¿quiso decir stub-height?"),
        (&["record", HOUSE, "sink-mount", "glued"], "no es ninguna de sus respuestas"),
        (&["record", HOUSE, "year-built", "old"], "no es un número"),
        (&["show", "nowhere"], "No hay un levantamiento"),
        (&["new", HOUSE], "ya hay un levantamiento"),
        (&["verify", "nothing.zip"], "no es un paquete entero"),
        (&["receive", "nothing.zip"], "no hay un archivo"),
        (&["calc", "trap-amr"], "no hay un cálculo"),
    ] {
        let words: Vec<&str> = ["--language", "es"].into_iter().chain(args.iter().copied()).collect();
        let (code, told) = crate::support::refused(dir.path(), &words);
        assert!(told.contains(spanish), "{args:?} ({code}): {told}");
    }
}

#[test]
fn the_pages_are_set_in_the_language_asked_for() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["record", HOUSE, "base-damp", "--could-not-reach", "behind the boxes full of cans"]);
    run(dir, &["photo", HOUSE, &photo(), "--item", "stub-height"]);
    for (language, of, words) in [("es", "es-US", "Dinero y días"), ("qps", "en-US", "[Шóñéý áñđ đáýš]")]
    {
        let out = format!("out-{language}");
        run(dir, &["seal", HOUSE, "--into", &out, "--pages", language]);
        let packets: Vec<_> = std::fs::read_dir(dir.join(&out)).unwrap().map(|e| e.unwrap().path()).collect();
        let into = dir.join(format!("pages-{language}"));
        let unzip = Command::new("unzip")
            .args(["-qj", packets[0].to_str().unwrap(), "*/data/pages/*.pdf", "-d"])
            .arg(&into)
            .status();
        assert!(unzip.unwrap().success());
        let mut texts = 0;
        for pdf in std::fs::read_dir(&into).unwrap().map(|e| e.unwrap().path()) {
            let text =
                Command::new("pdftotext").args(["-layout", pdf.to_str().unwrap(), "-"]).output().unwrap();
            let text = String::from_utf8(text.stdout).unwrap();
            let name = pdf.file_stem().unwrap().to_str().unwrap();
            assert!(name != "office" || text.contains(words), "“{words}” is not on the pages:\n{text}");
            assert!(pdf_language(&pdf).contains(of.split('-').next().unwrap()) || language == "qps");
            texts += 1;
            if language == "qps" {
                let cited = cited();
                let left: BTreeSet<String> =
                    english(&text).into_iter().filter(|found| !is_cited(found, &cited)).collect();
                let left = left.into_iter().collect::<Vec<_>>().join("\n");
                assert!(left.is_empty(), "{name}: left in English:\n{left}");
            }
        }
        assert!(texts >= 4, "{texts} documents");
    }
}

/// What the PDF says of its own language.
fn pdf_language(pdf: &Path) -> String {
    let bytes = std::fs::read(pdf).unwrap();
    let text = String::from_utf8_lossy(&bytes);
    text.split("/Lang(").nth(1).unwrap_or_default().chars().take(12).collect()
}
