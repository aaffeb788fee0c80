//! Every calculation has a page in `docs/calculations`; the commands on it are run, and what they print is what the
//! page shows. `UPDATE_DOCS=1` writes it anew.

use std::fs;
use std::path::PathBuf;

use crate::support::{root, run};

fn page(word: &str) -> PathBuf {
    root().join(format!("docs/calculations/{word}.md"))
}

/// Words of a command line as a shell splits them: blanks, double quotes.
pub fn split(line: &str) -> Vec<String> {
    let mut words = Vec::new();
    let (mut word, mut quoted, mut open) = (String::new(), false, false);
    for c in line.chars() {
        match c {
            '"' => (quoted, open) = (!quoted, true),
            c if c.is_whitespace() && !quoted => {
                if open || !word.is_empty() {
                    words.push(std::mem::take(&mut word));
                }
                open = false;
            }
            c => word.push(c),
        }
    }
    if open || !word.is_empty() {
        words.push(word);
    }
    words
}

/// The commands of the examples on every page, in the order of the calculations.
pub fn commands() -> Vec<String> {
    let mut all = Vec::new();
    for calculation in trade::calculations() {
        let text = fs::read_to_string(page(calculation.word)).unwrap().replace("\\\n", " ");
        all.extend(text.lines().filter_map(|l| l.strip_prefix("$ ")).map(str::to_owned));
    }
    all
}

/// What a command of a page prints.
fn printed(command: &str) -> String {
    let words = split(command.strip_prefix("underlath ").expect("a command of a page starts with underlath"));
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    run(&root(), &words) // a calculation touches no records
}

/// The page with every example's output as the program prints it today.
fn renewed(text: &str) -> (String, usize) {
    let mut out = String::new();
    let mut lines = text.lines();
    let mut run = 0;
    while let Some(line) = lines.next() {
        out.push_str(line);
        out.push('\n');
        if !line.starts_with("```") {
            continue;
        }
        let mut block: Vec<&str> = lines.by_ref().take_while(|l| !l.starts_with("```")).collect();
        if let Some(first) = block.first().and_then(|l| l.strip_prefix("$ ")) {
            // A command may go on over lines that end in a backslash.
            let mut command = first.to_owned();
            let mut head = 1;
            while command.ends_with('\\') && head < block.len() {
                command.pop();
                command.push_str(block[head].trim_start());
                head += 1;
            }
            block.truncate(head);
            run += 1;
            out.push_str(&block.join("\n"));
            out.push('\n');
            out.push_str(printed(&command).trim_end());
            out.push('\n');
        } else {
            for line in block {
                out.push_str(line);
                out.push('\n');
            }
        }
        out.push_str("```\n");
    }
    (out, run)
}

#[test]
fn every_calculation_has_a_page_whose_examples_print_what_it_shows() {
    #[allow(clippy::disallowed_methods, reason = "a switch of this test only")]
    let update = std::env::var_os("UPDATE_DOCS").is_some();
    let index = fs::read_to_string(root().join("docs/calculations/README.md")).unwrap();
    let mut stale = Vec::new();
    for calculation in trade::calculations() {
        let path = page(calculation.word);
        let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let (fresh, run) = renewed(&text);
        assert!(
            index.contains(&format!("({}.md)", calculation.word)),
            "the index lacks {}",
            calculation.word
        );
        assert!(run > 0, "{} runs no example", path.display());
        assert!(fresh.contains(calculation.word), "{}", path.display());
        if fresh != text && update {
            fs::write(&path, &fresh).unwrap();
        } else if fresh != text {
            stale.push(calculation.word);
        }
    }
    assert!(
        stale.is_empty(),
        "stale pages {stale:?}: run UPDATE_DOCS=1 cargo test -p house-tests calculation_pages"
    );
}

#[test]
fn the_formulas_of_a_page_are_well_formed_and_load_nothing() {
    let mut formulas = 0;
    for calculation in trade::calculations() {
        let text = fs::read_to_string(page(calculation.word)).unwrap();
        assert!(
            !text.contains("http://")
                || text.matches("http://").count()
                    == text.matches("http://www.w3.org/1998/Math/MathML").count(),
            "{}: loads something",
            calculation.word
        );
        for formula in text.split("<math").skip(1) {
            let end = formula
                .find("</math>")
                .unwrap_or_else(|| panic!("{}: a formula is not closed", calculation.word));
            let formula = format!("<math{}</math>", &formula[..end]);
            if let Err(error) = roxmltree::Document::parse(&formula) {
                panic!("{}: {error}: {formula}", calculation.word);
            }
            formulas += 1;
        }
    }
    assert!(formulas >= trade::calculations().count(), "{formulas} formulas");
}

#[test]
fn no_page_and_no_answer_says_what_only_a_licensed_person_may_say() {
    for calculation in trade::calculations() {
        let text = fs::read_to_string(page(calculation.word)).unwrap().to_lowercase();
        for word in ["is safe", "are safe", "compliant", "clear to cut", "approved by us"] {
            assert!(!text.contains(word), "{}: “{word}”", calculation.word);
        }
        assert!(text.contains("decide"), "{} does not say who decides", calculation.word);
    }
}
