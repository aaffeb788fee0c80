//! `underlath calc`: one trade calculation, asked or given, worked out so that it can be redone on paper.

use std::fs;
use std::io::{self, BufRead as _, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};

use actions::{Error, Kind};
use assessment::forecast::CalculationForecast;
use trade::given::{Field, Kind as Takes, Need};
use trade::{Calculation, Sheet, calculations};

use super::Room;
use crate::args::Calc;
use crate::fail;
use crate::out::Out;

/// Columns of a drawing in letters.
const COLUMNS: usize = 78;

/// What was typed after the calculation's word.
#[derive(Default)]
struct Typed {
    answers: Vec<(String, String)>,
    books: Vec<String>,
    drawing: Option<PathBuf>,
    json: bool,
    help: bool,
}

/// Lists, explains, asks, or answers.
pub fn run(args: &Calc, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let Some(word) = args.word.as_deref().filter(|w| !matches!(*w, "--help" | "-h")) else {
        list(out);
        return Ok(());
    };
    let calculation = actions::calculation(word)?;
    let mut typed = typed(&args.answers)?;
    if typed.help {
        explain(calculation, out);
        return Ok(());
    }
    if typed.answers.is_empty() && io::stdin().is_terminal() {
        typed.answers = ask(calculation)?;
    }
    let catalog = actions::with_books(room.catalog()?, &typed.books)?;
    let sheet = actions::calculate(calculation, &typed.answers, &catalog)?;
    let frozen = CalculationForecast::of_sheet(calculation.word, calculation.title, None, &sheet);
    if typed.json || out.json() {
        out.value(&frozen);
    } else {
        show(&frozen, out);
    }
    match &typed.drawing {
        Some(file) => draw(calculation, &sheet, file),
        None => Ok(()),
    }
}

/// Writes the section, but not over a file that is no drawing.
fn draw(calculation: &Calculation, sheet: &Sheet, file: &Path) -> Result<(), Error> {
    let Some(picture) = &sheet.picture else {
        return Err(Error::new(Kind::Missing, "this answer has nothing to draw; no file was written"));
    };
    if file.as_os_str().is_empty() || file.is_dir() {
        let message = format!("“{}” is no name for a drawing", file.display());
        return Err(Error::new(Kind::Input, message).hint("name a file, such as arm.svg"));
    }
    let is_drawing = fs::read(file).ok().is_none_or(|bytes| bytes.is_empty() || bytes.starts_with(b"<svg"));
    if !is_drawing {
        let message = format!("{} is there and is no drawing; it was left alone", file.display());
        return Err(Error::new(Kind::Conflict, message).hint("name another file"));
    }
    let svg = drawing::svg(picture, drawing::Width::Tablet, drawing::Palette::Page, calculation.word);
    fs::write(file, svg).map_err(|e| fail::file(file, &e))
}

fn typed(words: &[String]) -> Result<Typed, Error> {
    let mut typed = Typed::default();
    let mut words = words.iter();
    while let Some(word) = words.next() {
        if word == "-h" {
            typed.help = true;
            continue;
        }
        let Some(name) = word.strip_prefix("--") else {
            let message = format!("“{}” stands alone", word.chars().take(60).collect::<String>());
            return Err(Error::new(Kind::Input, message).hint("write answers as --name value"));
        };
        let (name, joined) = match name.split_once('=') {
            Some((name, value)) => (name, Some(value.to_owned())),
            None => (name, None),
        };
        match name {
            "json" => typed.json = true,
            "help" => typed.help = true,
            _ => {
                let next = || words.clone().next().filter(|v| !v.starts_with("--")).cloned();
                let followed = joined.is_none();
                let value = joined.or_else(next).ok_or_else(|| {
                    Error::new(Kind::Input, format!("--{name} has no value")).hint("write --name value")
                })?;
                if followed {
                    words.next();
                }
                match name {
                    "code" => typed.books.push(value),
                    "drawing" => typed.drawing = Some(PathBuf::from(value)),
                    _ => typed.answers.push((name.to_owned(), value)),
                }
            }
        }
    }
    Ok(typed)
}

fn list(out: &mut Out) {
    let rows: Vec<Vec<String>> =
        calculations().map(|c| vec![c.word.to_owned(), c.about.to_owned()]).collect();
    if out.json() {
        let words: Vec<_> = calculations()
            .map(|c| serde_json::json!({ "word": c.word, "title": c.title, "about": c.about }))
            .collect();
        out.value(&words);
        return;
    }
    out.head("Calculations");
    out.table(&rows);
    out.line("");
    out.line("underlath calc WORD asks; underlath calc WORD --help lists what it takes.");
}

fn explain(calculation: &Calculation, out: &mut Out) {
    out.head(format!("{}: {}", calculation.word, calculation.title));
    out.line(calculation.about);
    out.line("");
    for field in calculation.fields {
        let need = match field.need {
            Need::Must => "needed".to_owned(),
            Need::May => "may be left out".to_owned(),
            Need::Else(default) => format!("taken as {default} if left out"),
        };
        out.line(format!("--{}: {} ({need})", field.name, field.ask));
        if let Takes::Rows(columns) = field.kind {
            out.line("    one row each time it is given; in a row, separated by commas:");
            for column in columns {
                let need = match column.need {
                    Need::Must => String::new(),
                    Need::May => ", may be left out".to_owned(),
                    Need::Else(default) => format!(", taken as {default} if left out"),
                };
                out.line(format!("    {}: {} ({}{need})", column.name, column.ask, column.takes()));
            }
        } else {
            out.line(format!("    {}", field.takes()));
        }
    }
    out.line("");
    out.line("--code FAMILY=BOOK: answer by another code book this once");
    out.line("--drawing FILE: write the section as SVG");
    out.line("--json: answer in JSON");
}

/// Asks field by field on the other stream, so that the answer alone stands on standard output. An empty line leaves a
/// field out; the end of the input ends the questions.
fn ask(calculation: &Calculation) -> Result<Vec<(String, String)>, Error> {
    say(&format!("{}\nAn empty line leaves a question out.\n", calculation.title));
    let mut answers = Vec::new();
    for field in calculation.fields {
        let rows = matches!(field.kind, Takes::Rows(_));
        loop {
            let Some(text) = ask_one(field)? else { return Ok(answers) };
            if text.is_empty() {
                break;
            }
            // Read alone first, so that a slip is asked again and nothing typed before is lost.
            let one = [(field.name.to_owned(), text.clone())];
            match trade::given::Given::read(calculation.fields, &one) {
                Ok(_) => answers.push((field.name.to_owned(), text)),
                Err(error) => {
                    say(&format!("  {error}\n"));
                    continue;
                }
            }
            if !rows {
                break;
            }
            say("  Another? An empty line ends the rows.\n");
        }
    }
    Ok(answers)
}

/// One answer; none at the end of the input.
fn ask_one(field: &Field) -> Result<Option<String>, Error> {
    let default = match field.need {
        Need::Else(default) => format!(" [{default}]"),
        Need::Must | Need::May => String::new(),
    };
    say(&format!("{}{default}\n  {}\n", field.ask, field.takes()));
    if let Takes::Rows(columns) = field.kind {
        for column in columns {
            say(&format!("    {}: {}\n", column.name, column.takes()));
        }
    }
    say("> ");
    let mut line = Vec::new();
    let read = io::stdin().lock().read_until(b'\n', &mut line);
    let read = read.map_err(|e| Error::new(Kind::Input, format!("standard input cannot be read: {e}")))?;
    Ok((read > 0).then(|| String::from_utf8_lossy(&line).trim().to_owned()))
}

fn say(text: &str) {
    let mut stderr = io::stderr().lock();
    // A terminal that went away shows itself at the next answer.
    let _ = stderr.write_all(text.as_bytes()).and_then(|()| stderr.flush());
}

fn show(c: &CalculationForecast, out: &mut Out) {
    out.head(&c.title);
    out.line(&c.sentence);
    if let Some(sigma) = &c.sigma {
        out.line(format!("Spread, one standard deviation: {sigma}"));
    }
    section(out, "Not known", c.missing.iter());
    if !c.arithmetic.is_empty() {
        out.line("");
        let rows: Vec<Vec<String>> = c.arithmetic.iter().map(|line| line.to_vec()).collect();
        out.table(&rows);
    }
    if let Some(picture) = &c.picture {
        let drawn = drawing::text(picture, COLUMNS);
        if !drawn.is_empty() {
            out.line("");
            out.line(drawn.trim_end());
        }
    }
    section(out, "One change at a time", c.changes.iter());
    let limits: Vec<String> =
        c.limits.iter().map(|[rule, value, place]| format!("{rule}: {value} ({place})")).collect();
    section(out, "Held against", limits.iter());
    section(out, "Assumed", c.assumed.iter());
    section(out, "Also", c.notes.iter());
    out.line("");
    out.line(&c.caution);
}

fn section(out: &mut Out, head: &str, lines: impl Iterator<Item = impl std::fmt::Display>) {
    let mut lines = lines.peekable();
    if lines.peek().is_some() {
        out.line("");
        out.line(head);
        for line in lines {
            out.line(format!("  {line}"));
        }
    }
}
