//! The commands of the README and of the page on promises, run as they stand there.

use crate::support::{root, sample_photo, underlath};

/// Splits a command line as a shell would, as far as the README needs: words and double quotes.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            other => words.last_mut().unwrap().push(other),
        }
    }
    words.retain(|w| !w.is_empty());
    words
}

#[test]
fn every_command_of_the_readme_and_of_the_page_on_promises_runs() {
    let texts =
        ["README.md", "docs/promise.md"].map(|file| std::fs::read_to_string(root().join(file)).unwrap());
    let lines: Vec<&str> =
        texts.iter().flat_map(|t| t.lines()).filter(|l| l.starts_with("underlath ")).collect();
    assert!(lines.len() >= 20, "{lines:?}");
    let dir = tempfile::tempdir().unwrap();
    std::fs::copy(sample_photo(), dir.path().join("under-sink.jpg")).unwrap();
    for line in lines {
        let output = underlath(dir.path()).args(words(line).into_iter().skip(1)).output().unwrap();
        assert!(output.status.success(), "{line}: {}", String::from_utf8_lossy(&output.stderr));
        assert!(!output.stdout.is_empty(), "{line} says nothing");
    }
}

#[test]
fn every_verb_stands_in_the_readme() {
    let text = std::fs::read_to_string(root().join("README.md")).unwrap();
    let dir = tempfile::tempdir().unwrap();
    let help = String::from_utf8(underlath(dir.path()).arg("--help").output().unwrap().stdout).unwrap();
    let verbs: Vec<&str> = help
        .lines()
        .skip_while(|l| !l.starts_with("Commands:"))
        .skip(1)
        .take_while(|l| l.starts_with("  "))
        .filter(|l| !l.starts_with("   "))
        .filter_map(|l| l.split_whitespace().next())
        .filter(|v| *v != "help")
        .collect();
    assert!(verbs.len() >= 15, "{verbs:?}");
    for verb in verbs {
        assert!(text.contains(&format!("`{verb}`")), "README.md does not name the verb {verb}");
    }
}
