//! `docs/security.md` says what the program does: its figures, the deeds of the audit log, the words that no password may
//! live on, and every part that hashes, signs or draws secrets are held against the sources.

use std::collections::BTreeSet;

use office::people::Deed;

use crate::support::{cargo_metadata, root};

pub fn page() -> String {
    std::fs::read_to_string(root().join("docs/security.md")).unwrap()
}

/// A section of the page, from its heading to the next.
fn section<'p>(page: &'p str, heading: &str) -> &'p str {
    let rest =
        page.split(&format!("\n## {heading}\n")).nth(1).unwrap_or_else(|| panic!("no section {heading}"));
    rest.split("\n## ").next().unwrap()
}

/// Cells of the rows of the tables in a section, heads among them.
fn rows(section: &str) -> Vec<Vec<String>> {
    let lines = section.lines().filter(|line| line.starts_with("| ") && !line.starts_with("| ---"));
    let cells = |line: &str| line.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect();
    lines.map(cells).collect()
}

#[test]
fn it_tells_every_deed_of_the_audit_log_and_no_other() {
    let page = page();
    let rows = rows(section(&page, "What the log holds"));
    let told: BTreeSet<&str> = rows.iter().skip(1).map(|row| row[0].trim_matches('`')).collect();
    let deeds: BTreeSet<&str> = Deed::ALL.iter().map(|deed| deed.word()).collect();
    assert_eq!(told, deeds);
}

#[test]
fn it_names_the_words_that_count_for_nothing_in_a_password() {
    let source = std::fs::read_to_string(root().join("crates/office/src/people/password.rs")).unwrap();
    let list = source.split("const COMMON: ").nth(1).unwrap().split("];").next().unwrap();
    let held: BTreeSet<&str> = list.split('"').skip(1).step_by(2).collect();
    let page = page();
    let line = section(&page, "Passwords").lines().find(|l| l.starts_with("Common words: ")).unwrap();
    let told: BTreeSet<&str> = line.split('`').skip(1).step_by(2).collect();
    assert!(held.len() >= 20);
    assert_eq!(told, held);
}

/// A source, with section and words of the page for what stands in it. What is changed in one place only is found.
type Said = (&'static str, &'static [(&'static str, &'static str, &'static str)]);

const SAID: [Said; 15] = [
    (
        "crates/office/src/people/password.rs",
        &[
            ("Passwords", "at least 15 letters", "FEWEST: usize = 15;"),
            ("Passwords", "at most 256", "MOST: usize = 256;"),
            ("Passwords", "fewer than 8 letters", "LEFT: usize = 8;"),
            ("Passwords", "19 MiB", "MEMORY_KIB: u32 = 19_456;"),
            ("Passwords", "2 passes", "PASSES: u32 = 2;"),
            ("Passwords", "1 lane", "LANES: u32 = 1;"),
        ],
    ),
    (
        "crates/office/src/people/limits.rs",
        &[
            ("Passwords", "Five wrong passwords", "FREE: u32 = 5;"),
            ("Passwords", "the tenth locks", "LOCK: u32 = 10;"),
            ("Passwords", "30 attempts", "FROM_ONE: u32 = 30;"),
            ("Passwords", "attempts in 15 minutes", "WINDOW_MS: i64 = 15 * MINUTE_MS;"),
            ("Passwords", "at most 15 minutes", "LONGEST_MS: i64 = 15 * MINUTE_MS;"),
            ("What takes time", "16 wait", "WAITING: usize = 16;"),
            ("What takes time", "3,000 times a minute", "ASKED: u32 = 3_000;"),
        ],
    ),
    (
        "crates/office/src/people/second.rs",
        &[
            ("Second factor", "six digits", ".with_digits(6)"),
            ("Second factor", "30 seconds", "STEP: i64 = 30;"),
            ("Second factor", "before and after", ".with_skew(1)"),
            ("Second factor", "waits 10 minutes, for five codes", "WITHIN_MS: i64 = 10 * 60 * 1000;"),
            ("Second factor", "for five codes", "TRIES: u32 = 5;"),
        ],
    ),
    (
        "crates/office/src/people/mod.rs",
        &[
            ("Sessions", "after an hour", "IDLE_MS: i64 = 60 * 60 * 1000;"),
            ("Sessions", "after 12 hours", "WHOLE_MS: i64 = 12 * 60 * 60 * 1000;"),
        ],
    ),
    (
        "crates/office/src/people/sign_in.rs",
        &[("Sessions", "256 random bits", "let (secret, now): ([u8; 32], i64)")],
    ),
    (
        "crates/office/src/people/name.rs",
        &[
            ("What is taken in", "80 letters", "MOST: usize = 80;"),
            ("What is taken in", "120 letters", "MOST_OF_FIRM: usize = 120;"),
        ],
    ),
    ("crates/office/src/ask/findings.rs", &[("What is taken in", "2000 letters", "NOTE: usize = 2000;")]),
    (
        "crates/review/src/finding.rs",
        &[
            ("What is taken in", "days at most 1000", "(0.0..=1000.0).contains(&self.days)"),
            ("What must go together", "was not found has no cost", "FindingError::CostWithoutFinding {"),
            ("What must go together", "nobody paid", "FindingError::PaidWithoutFinding {"),
        ],
    ),
    (
        "crates/server/src/door.rs",
        &[
            ("What is taken in", "256 kB, 30 seconds", "MOST_JSON: usize = 256 * 1024;"),
            ("What is taken in", "64 MB, 10 minutes", "MOST_PHOTO: usize = 64 * 1024 * 1024;"),
            ("What a request must be", "for a year", "\"max-age=31536000; includeSubDomains\""),
        ],
    ),
    (
        "crates/server/src/upload.rs",
        &[
            ("What is taken in", "16 GB, 4 hours", "MOST_PACKET: u64 = 16 << 30;"),
            ("What is taken in", "30 seconds without a byte", "PAUSE: Duration = Duration::from_secs(30);"),
            ("What takes time", "4 hours", "Duration::from_secs(4 * 60 * 60)"),
        ],
    ),
    (
        "crates/server/src/connections.rs",
        &[
            ("What takes time", "512 connections", "MOST: usize = 512;"),
            ("What takes time", "128 of one address", "MOST_OF_ONE: usize = 128;"),
            (
                "What takes time",
                "10 seconds for a handshake",
                "HANDSHAKE: Duration = Duration::from_secs(10);",
            ),
            ("What takes time", "20 for a head", "HEAD: Duration = Duration::from_secs(20);"),
            ("What takes time", "32 kB", "HEAD_BYTES: usize = 32 * 1024;"),
            ("What takes time", "30 for whoever does not read", "WRITE: Duration = Duration::from_secs(30);"),
        ],
    ),
    ("crates/server/src/certificate.rs", &[("Keys and ciphers", "800 days", "VALID_DAYS: i64 = 800;")]),
    ("crates/office/src/tablets/mod.rs", &[("Keys and ciphers", "730 days", "CERTIFIED_DAYS: u32 = 730;")]),
    (
        "crates/cli/src/commands/office/certificate.rs",
        &[("Keys and ciphers", "30 days before", "BEFORE_MS: i64 = 30 * 24 * 60 * 60 * 1000;")],
    ),
    (
        "crates/photo/src/size.rs",
        &[("What is taken in", "250 million pixels", "MAX_PIXELS: u64 = 250_000_000;")],
    ),
];

#[test]
fn its_figures_and_rules_are_those_of_the_program() {
    let page = page();
    for (file, all) in SAID {
        let source = std::fs::read_to_string(root().join(file)).unwrap();
        for (heading, words, code) in all {
            assert!(section(&page, heading).contains(words), "{heading}: “{words}” is not said");
            assert!(source.contains(code), "{file} has no “{code}” any more; {heading} says “{words}”");
        }
    }
}

/// What is laid down in words alone: here it can only be held that it is there.
#[test]
fn what_must_be_written_down_stands_in_its_section() {
    let page = page();
    for (heading, said) in [
        (
            "Ways in",
            &["sign-in with name", "one-time link", "`underlath office password", "`underlath field`"][..],
        ),
        ("Sessions", &["as many as there are browsers", "SP 800-63B"]),
        ("Who may do what", &["An owner closes a house", "no field is held back"]),
        (
            "What must go together",
            &["of another house or of another log", "did not certify, or has revoked", "last owner"],
        ),
        ("What takes time", &["| a packet that comes |", "| looking at a password |", "| pictures |"]),
        ("What it connects to", &["sends nothing to anybody"]),
        (
            "What is kept, and how",
            &[
                "| level | on the way | on the disk | whole by | in the log | goes out to |",
                "| secret |",
                "| household |",
                "| firm |",
                "| open |",
                "How long it is kept:",
                "| packets, photographs of findings, forecasts, findings | as long as",
            ],
        ),
        (
            "Keys and ciphers",
            &[
                "NIST SP 800-57",
                "| the office's own | private signature key",
                "| a device's | the same |",
                "destroyed",
            ],
        ),
        ("Parts of others", &["| the fault | within |", "without signing in | 7 days |", "| 30 days |"]),
        (
            "What the log holds",
            &["in the office's database", "as long as the database is kept", "owners read it"],
        ),
    ] {
        let section = section(&page, heading);
        said.iter().for_each(|words| assert!(section.contains(words), "{heading}: “{words}” is not said"));
    }
}

/// Crates for certificates, random bits and codes, which do not say of themselves that they are for cryptography.
const ALSO: [&str; 3] = ["getrandom", "rcgen", "totp-rs"];

#[test]
fn it_lists_every_part_that_hashes_signs_or_draws_secrets() {
    let metadata = cargo_metadata(&["--locked"]);
    let packages = metadata["packages"].as_array().unwrap();
    let said = |p: &serde_json::Value| {
        p["categories"].as_array().is_some_and(|all| all.iter().any(|c| c == "cryptography"))
    };
    let names = packages.iter().filter(|p| said(p)).map(|p| p["name"].as_str().unwrap());
    let ciphers: BTreeSet<&str> = names.chain(ALSO).collect();
    let ours = packages.iter().filter(|p| p["source"].is_null());
    let imported = ours.flat_map(|p| p["dependencies"].as_array().unwrap()).filter(|d| d["kind"].is_null());
    let imported: BTreeSet<&str> = imported.map(|d| d["name"].as_str().unwrap()).collect();
    let held: BTreeSet<&str> = imported.intersection(&ciphers).copied().collect();
    let page = page();
    let rows = rows(section(&page, "Keys and ciphers"));
    let told: BTreeSet<&str> =
        rows.iter().filter_map(|row| row[0].strip_prefix('`')?.strip_suffix('`')).collect();
    assert!(held.len() >= 6, "{held:?}");
    assert_eq!(told, held);
}
