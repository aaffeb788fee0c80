//! The requirements of OWASP ASVS 5.0.0, one line each in `docs/asvs.csv`, held against what there is: a test that a line
//! names exists, every requirement of levels 1 and 2 has its line once, and `docs/security.md` lists what is missing. That
//! a test proves what its line says is for whoever reads both.
//! `UPDATE_DOCS=1 cargo test -p house-tests asvs` writes what the page draws from the table and from the program.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use office::people::{Call, Role};

use super::security_page::page;
use crate::support::root;

/// Chapters of the standard with their requirements of level 1 and of level 2, counted in its release 5.0.0.
const CHAPTERS: [(u32, usize, usize); 17] = [
    (1, 8, 19),
    (2, 4, 7),
    (3, 8, 11),
    (4, 2, 8),
    (5, 4, 5),
    (6, 13, 22),
    (7, 6, 12),
    (8, 4, 3),
    (9, 4, 3),
    (10, 5, 24),
    (11, 3, 11),
    (12, 3, 6),
    (13, 1, 12),
    (14, 2, 7),
    (15, 3, 10),
    (16, 0, 16),
    (17, 0, 7),
];

/// A line of the table.
struct Line {
    requirement: String,
    level: u32,
    ours: String,
    why: String,
}

impl Line {
    /// Chapter, section, number.
    fn numbers(&self) -> Option<[u32; 3]> {
        let parts = self.requirement.strip_prefix("v5.0.0-")?.split('.').map(|n| n.parse().ok());
        parts.collect::<Option<Vec<u32>>>()?.try_into().ok()
    }
    fn tests(&self) -> Vec<&str> {
        self.ours.split(' ').filter_map(|word| word.strip_prefix("test:")).collect()
    }
}

/// The lines of a table, and what is wrong with its form.
fn read(text: &str) -> (Vec<Line>, Vec<String>) {
    let (mut lines, mut faults) = (Vec::new(), Vec::new());
    let mut rows = text.lines();
    if rows.next() != Some("requirement,level,ours,why") {
        faults.push("the heads are not those of the table".to_owned());
    }
    for row in rows {
        let cells: Vec<&str> = row.splitn(4, ',').collect();
        let (Ok([requirement, level, ours, why]), true) = (<[&str; 4]>::try_from(cells), !row.contains('\r'))
        else {
            faults.push(format!("no line of four: {row}"));
            continue;
        };
        let why = why.strip_prefix('"').and_then(|w| w.strip_suffix('"')).filter(|w| !w.contains('"'));
        let Some(why) = why else {
            faults.push(format!("{requirement}: the reason is one text in quotes"));
            continue;
        };
        let line = Line {
            requirement: requirement.to_owned(),
            level: level.parse().unwrap_or_default(),
            ours: ours.to_owned(),
            why: why.to_owned(),
        };
        lines.push(line);
    }
    (lines, faults)
}

/// What is wrong with a table, where these tests exist.
fn faults(text: &str, tests: &BTreeSet<String>) -> Vec<String> {
    let (lines, mut faults) = read(text);
    let mut last = [0; 3];
    let mut counted: BTreeMap<u32, (usize, usize)> = BTreeMap::new();
    for line in &lines {
        let name = &line.requirement;
        let Some(numbers) = line.numbers() else {
            faults.push(format!("{name} is no number of the standard"));
            continue;
        };
        if numbers <= last {
            faults.push(format!("{name} is there twice, or out of order"));
        }
        last = numbers;
        let count = counted.entry(numbers[0]).or_default();
        match line.level {
            1 => count.0 += 1,
            2 => count.1 += 1,
            _ => faults.push(format!("{name}: its level is 1 or 2")),
        }
        if line.why.len() < 12 || !line.why.ends_with('.') || line.why.trim() != line.why {
            faults.push(format!("{name}: no sentence says why"));
        }
        let named = line.tests();
        let whole = match line.ours.as_str() {
            "missing" | "not-applicable" => true,
            ours => !named.is_empty() && named.len() == ours.split(' ').count(),
        };
        if !whole {
            faults.push(format!("{name}: “{}” is neither tests nor missing nor not-applicable", line.ours));
        }
        let absent = named.iter().filter(|test| !tests.contains(**test));
        faults.extend(absent.map(|test| format!("{name}: there is no test {test}")));
    }
    for (chapter, one, two) in CHAPTERS {
        let there = counted.remove(&chapter).unwrap_or_default();
        if there != (one, two) {
            faults.push(format!("chapter {chapter} has {one} and {two} requirements, the table {there:?}"));
        }
    }
    faults.extend(counted.keys().map(|chapter| format!("the standard has no chapter {chapter}")));
    faults
}

/// Tests of a Rust source: the innermost inline module, where there is one, and the name.
fn rust_tests(text: &str) -> Vec<String> {
    let (mut found, mut inline, mut marked) = (Vec::new(), None, false);
    for line in text.lines() {
        if let Some(name) = line.strip_prefix("mod ").and_then(|rest| rest.strip_suffix(" {")) {
            inline = Some(name.to_owned());
        } else if line == "}" {
            inline = None;
        }
        let line = line.trim_start();
        if line == "#[test]" {
            marked = true;
        } else if let Some(rest) = line.strip_prefix("fn ").filter(|_| marked) {
            let name = rest.split(['(', '<']).next().unwrap_or_default();
            found.push(inline.iter().map(String::as_str).chain([name]).collect::<Vec<_>>().join("::"));
            marked = false;
        }
    }
    found
}

/// The module of a source as `cargo test` names it, with its crate before it: `office::people::tests` for
/// `crates/office/src/people/tests.rs`, `server::door` for `crates/server/tests/door.rs`, `house::stories::field` for
/// `tests/stories/field.rs`.
fn module(path: &Path) -> String {
    let parts: Vec<String> = path.iter().map(|part| part.to_string_lossy().into_owned()).collect();
    let (name, rest) = match parts.first().map(String::as_str) {
        Some("crates") => (parts[1].clone(), &parts[3..]),
        Some("src-tauri") => ("shell".to_owned(), &parts[2..]),
        _ => ("house".to_owned(), &parts[1..]),
    };
    let named = rest.iter().map(|part| part.trim_end_matches(".rs").to_owned());
    let named = named.filter(|part| !["lib", "main", "mod"].contains(&part.as_str()));
    std::iter::once(name).chain(named).collect::<Vec<_>>().join("::")
}

/// Everything that can be named: tests in Rust, tests of the screens, and what is looked at in a browser.
fn tests() -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut files = Vec::new();
    for folder in ["crates", "tests", "src-tauri"] {
        super::files(&root().join(folder), &["rs"], &mut files);
    }
    for file in &files {
        let path = file.strip_prefix(root()).unwrap();
        let module = module(path);
        let text = std::fs::read_to_string(file).unwrap();
        found.extend(rust_tests(&text).into_iter().map(|name| format!("{module}::{name}")));
    }
    let mut files = Vec::new();
    super::files(&root().join("ui/src"), &["ts"], &mut files);
    super::files(&root().join("ui/e2e"), &["mjs"], &mut files);
    for file in &files {
        let path = file.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
        let begins = if path.ends_with(".test.ts") { "it('" } else { "same('" };
        let text = std::fs::read_to_string(file).unwrap();
        let titles = text.split(begins).skip(1).filter_map(|rest| rest.split('\'').next());
        found.extend(titles.map(|title| format!("{path}::{}", title.replace(' ', "_"))));
    }
    assert!(found.len() > 1000, "{}", found.len());
    found
}

fn table() -> String {
    std::fs::read_to_string(root().join("docs/asvs.csv")).unwrap()
}

#[test]
fn every_requirement_has_its_line_and_every_test_it_names_exists() {
    let found = faults(&table(), &tests());
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn a_fault_of_the_table_would_be_found() {
    let (table, tests) = (table(), tests());
    let line = table.lines().nth(1).unwrap();
    let with = |other: &str| faults(&table.replacen(line, other, 1), &tests).join("\n");
    let begins = line.split(',').next().unwrap();
    for (other, told) in [
        (String::new(), "no line of four"),
        (format!("{line}\n{line}"), "there twice"),
        (line.replacen("v5.0.0-", "V", 1), "no number of the standard"),
        (format!("{begins},3,missing,\"Nothing of it is there.\""), "its level is 1 or 2"),
        (format!("{begins},2,missing,\"\""), "no sentence says why"),
        (format!("{begins},2,missing,why"), "one text in quotes"),
        (format!("{begins},2,done,\"It was done once.\""), "is neither tests"),
        (
            format!("{begins},2,test:office::people::no_such_test,\"It is said to be.\""),
            "there is no test office::people::",
        ),
    ] {
        assert!(with(&other).contains(told), "{told}: {}", with(&other));
    }
    let shorter = table.replacen(&format!("{line}\n"), "", 1);
    assert!(faults(&shorter, &tests).join("\n").contains("chapter 1 has"));
    for there in [
        "office::people::password::tests::a_password_is_known_again_and_no_other",
        "server::connections::tests::one_address_does_not_take_all_places",
        "photo::photo::refusals::an_empty_file_is_refused_as_empty",
        "house::house_rules::asvs::a_fault_of_the_table_would_be_found",
        "ui/src/rules.test.ts::load_nothing_from_outside",
        "ui/e2e/office.mjs::no_script_reads_the_cookie",
    ] {
        assert!(tests.contains(there), "{there}");
    }
}

/// What stands between two marks of the page, drawn from elsewhere; written anew where that is asked for.
fn drawn(mark: &str, wanted: &str) {
    let mark = format!("<!-- {mark} -->");
    let page = page();
    let parts: Vec<&str> = page.split(&mark).collect();
    let [before, held, after] = parts[..] else { panic!("{mark} stands there twice") };
    let wanted = format!("\n{wanted}\n");
    if held != wanted && std::env::var_os("UPDATE_DOCS").is_some() {
        std::fs::write(root().join("docs/security.md"), format!("{before}{mark}{wanted}{mark}{after}"))
            .unwrap();
        return;
    }
    assert_eq!(
        held, wanted,
        "docs/security.md is not what it is drawn from: run UPDATE_DOCS=1 cargo test -p house-tests asvs"
    );
}

/// One test for all that is drawn, so that no two write the page at once.
#[test]
fn the_page_lists_what_is_missing_and_the_commands_as_they_are() {
    let (lines, _) = read(&table());
    let of = |kind: &str, level: u32| lines.iter().filter(|l| l.level == level && l.ours == kind).count();
    let mut counts = String::from(
        "| level | shown by a test | not applicable | missing | in all |\n| --- | --- | --- | --- | --- |",
    );
    for level in [1, 2] {
        let all = lines.iter().filter(|l| l.level == level).count();
        let (none, missing) = (of("not-applicable", level), of("missing", level));
        counts += &format!("\n| {level} | {} | {none} | {missing} | {all} |", all - none - missing);
    }
    drawn("counts", &counts);
    let missing = lines.iter().filter(|line| line.ours == "missing");
    let list: Vec<String> =
        missing.map(|l| format!("- **{}** (level {}): {}", l.requirement, l.level, l.why)).collect();
    assert!(!list.is_empty());
    drawn("missing", &list.join("\n"));
    let people =
        Call::commands().map(|(name, least)| (name, least.map_or("nobody need be signed in", Role::word)));
    let houses = office::ask::COMMANDS.iter().map(|command| (command.name, command.least.word()));
    let commands: Vec<String> =
        people.chain(houses).map(|(name, least)| format!("| `{name}` | {least} |")).collect();
    drawn("commands", &format!("| command | least role |\n| --- | --- |\n{}", commands.join("\n")));
}
