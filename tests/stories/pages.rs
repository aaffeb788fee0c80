//! The pages of a packet as a firm has them: its letterhead, its templates, its promise; and what is refused.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

use super::steps::{HOUSE, a_house, entries, json};
use crate::support::{refused, run};

/// What `pdftotext` reads on one of the pages of a packet.
fn page(dir: &Path, packet: &str, name: &str) -> String {
    let inside = format!("*/data/pages/{name}.pdf");
    let pdf = Command::new("unzip").args(["-p", packet, &inside]).current_dir(dir).output().unwrap().stdout;
    let file = dir.join("page.pdf");
    std::fs::write(&file, pdf).unwrap();
    let text = Command::new("pdftotext").arg("-raw").arg(&file).arg("-").output().unwrap();
    String::from_utf8(text.stdout).unwrap()
}

#[test]
fn a_firms_letterhead_templates_and_promise_reach_the_pages_and_a_refusal_notes_nothing() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["note", HOUSE, "#read(\"/etc/passwd\") ]#panic() =1+1"]);
    let own = dir.join("own");
    std::fs::create_dir(&own).unwrap();
    let before = entries(dir);

    let seal = |more: &[&str]| -> Vec<String> {
        ["seal", HOUSE, "--into", "."].iter().chain(more).map(|s| (*s).to_owned()).collect()
    };
    let no = |more: &[&str]| {
        let words = seal(more);
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        refused(dir, &words).1
    };
    assert!(no(&["--templates", "nowhere"]).contains("nowhere"));
    assert!(no(&["--promise", "no-such-condition", "--cap", "3000"]).contains("no-such-condition"));
    std::fs::write(own.join("household.typ"), "= Ours\n#read(\"/etc/passwd\")").unwrap();
    let said = no(&["--templates", "own"]);
    assert!(said.contains("household.typ, line 2") && !said.contains("root:"), "{said}");
    // A link in the folder stands for no file.
    std::os::unix::fs::symlink("/etc/passwd", own.join("grid.svg")).unwrap();
    std::fs::write(own.join("household.typ"), "#read(\"grid.svg\")").unwrap();
    let said = no(&["--templates", "own"]);
    assert!(said.contains("household.typ, line 1") && !said.contains("root:"), "{said}");
    assert_eq!(entries(dir), before, "a refusal notes nothing");
    assert!(
        !std::fs::read_dir(dir).unwrap().any(|e| e.unwrap().path().extension().is_some_and(|x| x == "zip"))
    );

    let own_page = "#let d = json(\"data.json\")\n#set document(title: d.document.title)\n#set text(lang: d.language)\n\
                    = Our own page\n#d.letterhead.firm, #d.letterhead.address\n#image(\"line.svg\", alt: \"a line\")";
    std::fs::write(own.join("household.typ"), own_page).unwrap();
    let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><path d=\"M0 0h9\" stroke=\"black\"/></svg>";
    for name in ["line.svg", "letterhead.svg"] {
        std::fs::write(own.join(name), svg).unwrap();
    }
    std::fs::write(own.join("notes.txt"), "left alone").unwrap();
    let words = seal(&[
        "--firm",
        "Hale & Daughter",
        "--address",
        "12 Invented Road",
        "--templates",
        "own",
        "--promise",
        "drain-stub-high",
        "--cap",
        "3000",
    ]);
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let sealed = json(dir, &words);
    let packet = sealed["packet"].as_str().unwrap();
    assert!(packet.ends_with("mill-lane-kitchen-1.zip"), "{packet}");
    let household = page(dir, packet, "household");
    assert!(
        household.contains("Our own page") && household.contains("Hale & Daughter, 12 Invented Road"),
        "{household}"
    );
    let orders = page(dir, packet, "change-orders");
    for words in
        ["Hale & Daughter", "12 Invented Road", "What the firm promises", "$3,000", "Drain stub-out too high"]
    {
        assert!(orders.contains(words), "“{words}”: {orders}");
    }
    let office = page(dir, packet, "office");
    // Lines are broken where the column ends, and invisibly within long runs.
    let run: String = office.chars().filter(|c| !c.is_whitespace() && *c != '\u{200b}').collect();
    assert!(run.contains("#read(\"/etc/passwd\")]#panic()=1+1"), "what was typed stands there as typed");
    assert!(!office.contains("root:"));
}

#[test]
fn the_household_reads_its_pages_in_its_own_language_and_the_crew_in_theirs() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let lang = |packet: &str, name: &str| {
        let text = page(dir, packet, name);
        ["What may be found, and when", "Lo que puede aparecer"].map(|words| text.contains(words))
    };
    for (options, household) in [
        (&[][..], [true, false]),
        (&["--household", "es"], [false, true]),
        (&["--pages", "es", "--household", "en"], [true, false]),
    ] {
        let words: Vec<&str> = ["seal", HOUSE, "--into", "."].iter().chain(options).copied().collect();
        let sealed = json(dir, &words);
        let packet = sealed["packet"].as_str().unwrap();
        assert_eq!(lang(packet, "household"), household, "{options:?}");
        let office = page(dir, packet, "office");
        assert_eq!(office.contains("for the office"), !options.contains(&"--pages"), "{options:?}: {office}");
    }
}

#[test]
fn pages_sealed_after_demolition_say_so_each_in_its_language_and_no_promise_is_made_then() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let seal = ["seal", HOUSE, "--into", ".", "--household", "es"];
    let pages = ["office", "trade-plumber", "household", "change-orders"];
    let said = |packet: &Value| {
        let packet = packet["packet"].as_str().unwrap();
        pages.map(|name| page(dir, packet, name).split_whitespace().collect::<Vec<_>>().join(" "))
    };
    for text in said(&json(dir, &seal)) {
        assert!(!text.contains("after demolition") && !text.contains("declarada la demolición"), "{text}");
    }
    run(dir, &["demolition", HOUSE]);
    for (name, text) in pages.iter().zip(said(&json(dir, &seal))) {
        let wanted = match *name {
            "household" => "Sellado después de declarada la demolición (R. Ames,",
            _ => "Sealed after demolition was declared (R. Ames,",
        };
        assert!(text.contains(wanted), "{name}: {text}");
    }

    let before = entries(dir);
    let promised = ["--cover", "drain-stub-high", "--cap", "3000"];
    let said = refused(dir, &[&["promise", HOUSE][..], &promised].concat()).1;
    assert!(said.contains("R. Ames declared demolition"), "{said}");
    let said = refused(dir, &[&seal[..], &["--promise", "drain-stub-high", "--cap", "3000"]].concat()).1;
    assert!(said.contains("before anything is opened"), "{said}");
    assert_eq!(entries(dir), before, "a refusal notes nothing");
}
