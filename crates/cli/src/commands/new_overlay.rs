//! `underlath catalog new-overlay`: an overlay to begin with. As it is written it changes nothing; its examples become
//! real when the sign before them is taken away.

use std::fs;

use actions::{Error, Kind};
use words::{Message, msg};

use crate::args::NewOverlay;
use crate::fail;
use crate::out::Out;

/// The file that is written.
const FILE: &str = "firm.toml";

pub fn run(args: &NewOverlay, out: &mut Out) -> Result<(), Error> {
    let io = |e: std::io::Error| fail::file(&args.dir, &e);
    let path = args.dir.join(FILE);
    if path.exists() {
        let message = msg!("error-overlay-there", path = path.display().to_string());
        return Err(Error::new(Kind::Conflict, message).hint(msg!("error-overlay-there-hint")));
    }
    fs::create_dir_all(&args.dir).map_err(io)?;
    fs::write(&path, starter(out)).map_err(|e| fail::file(&path, &e))?;
    let (file, dir) = (path.display().to_string(), args.dir.display().to_string());
    if out.json() {
        out.value(&serde_json::json!({ "file": file }));
        return Ok(());
    }
    out.tell(msg!("overlay-made", file = file));
    out.tell_in(2, msg!("overlay-made-check", command = format!("underlath catalog check {dir}")));
    out.tell_in(2, msg!("overlay-made-use", option = format!("--overlay {dir}")));
    Ok(())
}

/// The starter: remarks in the language of the person, examples that fit the catalog built in.
fn starter(out: &Out) -> String {
    let name = out.say(&msg!("overlay-starter-name"));
    let reason = out.say(&msg!("overlay-starter-reason"));
    let judged = out.say(&msg!("overlay-starter-judged"));
    let unused = out.say(&msg!("overlay-starter-unused"));
    let parts: [(Message, String); 6] = [
        (msg!("overlay-starter-head"), format!("name = \"{name}\"\nversion = 1\n")),
        (
            msg!("overlay-starter-money"),
            format!(
                "#[change.setting.idle-day]\n#value = 520\n#basis = \"firm\"\n#jobs = 12\n#reason = \"{reason}\"\n"
            ),
        ),
        (
            msg!("overlay-starter-cost"),
            format!(
                "#[change.condition.bulkhead-duct]\n#cost = [1200, 3000, 8000]\n#basis = \"firm\"\n#jobs = 34\n#reason = \"{reason}\"\n#on = 2026-11-02\n"
            ),
        ),
        (
            msg!("overlay-starter-odds"),
            format!(
                "#[change.condition.bulkhead-wires.prior]\n#to-1939 = 0.9\n#basis = \"judgment\"\n#reason = \"{judged}\"\n"
            ),
        ),
        (
            msg!("overlay-starter-codes"),
            format!("#[change.adopted]\n#plumbing = \"upc-2012\"\n#reason = \"{judged}\"\n"),
        ),
        (msg!("overlay-starter-removed"), format!("#[remove.check]\n#heat-view = \"{unused}\"\n")),
    ];
    let mut text = String::new();
    for (remark, lines) in parts {
        for line in wrapped(&out.say(&remark), 98) {
            text.push_str(&format!("# {line}\n"));
        }
        text.push_str(&lines);
        text.push('\n');
    }
    text.truncate(text.trim_end().len() + 1);
    text
}

/// Words in lines of at most so many letters.
fn wrapped(text: &str, most: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let full = |line: &String| !line.is_empty() && line.chars().count() + 1 + word.chars().count() > most;
        if lines.last().is_some_and(full) {
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use survey::catalog::{builtin, builtin_with};
    use words::{Language, Words};

    fn load(text: String) -> survey::catalog::Catalog {
        builtin_with(&[(FILE.to_owned(), text)]).unwrap_or_else(|e| panic!("{e}"))
    }

    #[test]
    fn the_starter_loads_as_it_is_and_with_its_examples_in_both_languages() {
        for language in Language::WRITTEN {
            let text = starter(&Out::new(false, Words::of(language)));
            assert_eq!(load(text.clone()), builtin().unwrap(), "as it is written it changes nothing");
            let made_real: Vec<&str> = text
                .lines()
                .map(
                    |line| if line.starts_with("# ") { line } else { line.strip_prefix('#').unwrap_or(line) },
                )
                .collect();
            let overlay = load(made_real.join("\n")).overlay.unwrap();
            assert_eq!((overlay.changes.len(), overlay.removed.len()), (4, 1), "{language}");
        }
    }

    #[test]
    fn lines_keep_their_words() {
        assert_eq!(wrapped("one two three", 7), ["one two", "three"]);
        assert_eq!(wrapped("", 7), [""]);
    }
}
