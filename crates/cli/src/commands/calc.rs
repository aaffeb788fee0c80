//! `underlath calc`: one trade calculation, asked or given, worked out so that it can be redone on paper.

use std::fs;
use std::io::{self, IsTerminal as _};
use std::path::{Path, PathBuf};

use actions::{Error, Kind};
use assessment::forecast::CalculationForecast;
use trade::given::{Field, Kind as Takes, Need};
use trade::{Calculation, Sheet, calculations};
use words::{Message, Phrase, Words, msg};

use super::Room;
use crate::args::Calc;
use crate::fail;
use crate::out::Out;
use crate::terminal::{line, say};

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
        typed.answers = ask(calculation, out.words())?;
    }
    let catalog = actions::with_books(room.catalog()?, &typed.books)?;
    let sheet = actions::calculate(calculation, &typed.answers, &catalog)?;
    let frozen =
        CalculationForecast::of_sheet(calculation.word, calculation.title, None, &sheet).said_in(out.words());
    if typed.json || out.json() {
        out.value(&frozen);
    } else {
        show(&frozen, out);
    }
    match &typed.drawing {
        Some(file) => draw(calculation, &sheet, file, out.words()),
        None => Ok(()),
    }
}

/// Writes the section, but not over a file that is no drawing.
fn draw(calculation: &Calculation, sheet: &Sheet, file: &Path, words: &Words) -> Result<(), Error> {
    let Some(picture) = &sheet.picture else {
        return Err(Error::new(Kind::Missing, msg!("error-nothing-drawn")));
    };
    if file.as_os_str().is_empty() || file.is_dir() {
        let message = msg!("error-drawing-name", path = file.display().to_string());
        return Err(Error::new(Kind::Input, message).hint(msg!("error-drawing-name-hint")));
    }
    let is_drawing = fs::read(file).ok().is_none_or(|bytes| bytes.is_empty() || bytes.starts_with(b"<svg"));
    if !is_drawing {
        let message = msg!("error-no-drawing", path = file.display().to_string());
        return Err(Error::new(Kind::Conflict, message).hint(msg!("error-no-drawing-hint")));
    }
    let svg = drawing::svg(picture, drawing::Width::Tablet, drawing::Palette::Page, calculation.word, &|s| {
        words.text(s)
    });
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
            let message = msg!("error-stands-alone", word = word.chars().take(60).collect::<String>());
            return Err(Error::new(Kind::Input, message).hint(msg!("error-stands-alone-hint")));
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
                    Error::new(Kind::Input, msg!("error-no-value", name = name))
                        .hint(msg!("error-no-value-hint"))
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
    let say = |phrase: Phrase| out.words().say(&phrase.into());
    let rows: Vec<Vec<String>> = calculations().map(|c| vec![c.word.to_owned(), say(c.about)]).collect();
    if out.json() {
        let words: Vec<_> = calculations()
            .map(|c| serde_json::json!({ "word": c.word, "title": say(c.title), "about": say(c.about) }))
            .collect();
        out.value(&words);
        return;
    }
    out.head_of(msg!("calc-list"));
    out.table(&rows);
    out.line("");
    out.tell(msg!("calc-list-how"));
}

fn explain(calculation: &Calculation, out: &mut Out) {
    out.head(format!("{}: {}", calculation.word, out.say(&calculation.title.into())));
    out.tell(calculation.about.into());
    out.line("");
    for field in calculation.fields {
        let need = out.say(&match field.need {
            Need::Must => msg!("calc-needed"),
            Need::May => msg!("calc-may"),
            Need::Else(default) => msg!("calc-else", default = default),
        });
        out.line(format!("--{}: {} ({need})", field.name, out.say(&field.ask.into())));
        if let Takes::Rows(columns) = field.kind {
            out.tell_in(4, msg!("calc-rows"));
            for column in columns {
                let said = |message: Message| format!(", {}", out.say(&message));
                let need = match column.need {
                    Need::Must => String::new(),
                    Need::May => said(msg!("calc-may")),
                    Need::Else(default) => said(msg!("calc-else", default = default)),
                };
                let (ask, takes) = (out.say(&column.ask.into()), out.words().text(&column.takes()));
                out.line(format!("    {}: {ask} ({takes}{need})", column.name));
            }
        } else {
            out.line(format!("    {}", out.words().text(&field.takes())));
        }
    }
    out.line("");
    out.tell(msg!("calc-code"));
    out.tell(msg!("calc-drawing"));
    out.tell(msg!("calc-json"));
}

/// Asks field by field on the other stream, so that the answer alone stands on standard output. An empty line leaves a
/// field out; the end of the input ends the questions.
fn ask(calculation: &Calculation, words: &Words) -> Result<Vec<(String, String)>, Error> {
    say(&format!("{}\n{}\n", words.say(&calculation.title.into()), words.say(&msg!("calc-ask"))));
    let mut answers = Vec::new();
    for field in calculation.fields {
        let rows = matches!(field.kind, Takes::Rows(_));
        loop {
            let Some(text) = ask_one(field, words)? else { return Ok(answers) };
            if text.is_empty() {
                break;
            }
            // Read alone first, so that a slip is asked again and nothing typed before is lost.
            let one = [(field.name.to_owned(), text.clone())];
            match trade::given::Given::read(calculation.fields, &one) {
                Ok(_) => answers.push((field.name.to_owned(), text)),
                Err(error) => {
                    say(&format!("  {}\n", words.say(&error.message())));
                    continue;
                }
            }
            if !rows {
                break;
            }
            say(&format!("  {}\n", words.say(&msg!("calc-another"))));
        }
    }
    Ok(answers)
}

/// One answer; none at the end of the input.
fn ask_one(field: &Field, words: &Words) -> Result<Option<String>, Error> {
    let default = match field.need {
        Need::Else(default) => format!(" [{default}]"),
        Need::Must | Need::May => String::new(),
    };
    let (ask, takes) = (words.say(&field.ask.into()), words.text(&field.takes()));
    say(&format!("{ask}{default}\n  {takes}\n"));
    if let Takes::Rows(columns) = field.kind {
        for column in columns {
            say(&format!("    {}: {}\n", column.name, words.text(&column.takes())));
        }
    }
    line()
}

fn show(c: &CalculationForecast, out: &mut Out) {
    out.head(&c.title);
    out.line(&c.sentence);
    if let Some(sigma) = &c.sigma {
        out.tell(msg!("calc-spread", sigma = sigma));
    }
    section(out, msg!("calc-not-known"), c.missing.iter());
    if !c.arithmetic.is_empty() {
        out.line("");
        let rows: Vec<Vec<String>> = c.arithmetic.iter().map(|line| line.to_vec()).collect();
        out.table(&rows);
    }
    if let Some(picture) = &c.picture {
        let drawn = drawing::text(picture, COLUMNS, &|s| out.words().text(s));
        if !drawn.is_empty() {
            out.line("");
            out.line(drawn.trim_end());
        }
    }
    section(out, msg!("calc-one-change"), c.changes.iter());
    let limits: Vec<String> =
        c.limits.iter().map(|[rule, value, place]| format!("{rule}: {value} ({place})")).collect();
    section(out, msg!("calc-held-against"), limits.iter());
    section(out, msg!("calc-assumed"), c.assumed.iter());
    section(out, msg!("calc-also"), c.notes.iter());
    out.line("");
    out.line(&c.caution);
}

fn section(out: &mut Out, head: Message, lines: impl Iterator<Item = impl std::fmt::Display>) {
    let mut lines = lines.peekable();
    if lines.peek().is_some() {
        out.line("");
        out.tell(head);
        for line in lines {
            out.line(format!("  {line}"));
        }
    }
}
