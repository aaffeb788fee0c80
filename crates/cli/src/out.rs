//! Output: plain and aligned; bold only on a terminal; JSON when asked.

use std::io::{self, IsTerminal as _, Write};
use std::process::ExitCode;

use actions::Error;
use anstyle::Style;
use serde::Serialize;
use words::{Message, Words};

use crate::fail::exit_code;

/// Where a command's output goes.
pub struct Out {
    json: bool,
    words: &'static Words,
    color: bool,
    lost: bool,
}

impl Out {
    /// Output for people, or in JSON.
    pub fn new(json: bool, words: &'static Words) -> Self {
        Self { json, words, color: io::stdout().is_terminal(), lost: false }
    }
    /// Exit code of a command that did its work: 1 when what it had to say could not be written.
    pub fn done(&self) -> ExitCode {
        if self.lost { ExitCode::from(1) } else { ExitCode::SUCCESS }
    }
    /// True when JSON is wanted.
    pub fn json(&self) -> bool {
        self.json
    }
    /// The words it speaks in.
    pub fn words(&self) -> &'static Words {
        self.words
    }
    /// Speaks in other words from now on.
    pub fn speak(&mut self, words: &'static Words) {
        self.words = words;
    }
    /// A message in the language asked for.
    pub fn say(&self, message: &Message) -> String {
        self.words.say(message)
    }
    /// A message as one line.
    pub fn tell(&mut self, message: Message) {
        let line = self.say(&message);
        self.line(line);
    }
    /// A message as one line, set in by so many spaces.
    pub fn tell_in(&mut self, spaces: usize, message: Message) {
        let line = self.say(&message);
        self.line(format!("{:spaces$}{line}", ""));
    }
    /// A message as a heading.
    pub fn head_of(&mut self, message: Message) {
        let line = self.say(&message);
        self.head(line);
    }
    /// One line. A reader that went away is not our trouble.
    pub fn line(&mut self, text: impl AsRef<str>) {
        if let Err(e) = writeln!(io::stdout().lock(), "{}", text.as_ref()) {
            self.lost |= e.kind() != io::ErrorKind::BrokenPipe;
        }
    }
    /// How far long work is, on the other stream and only for somebody who watches; the next call writes over it.
    pub fn progress(&mut self, text: &str) {
        if io::stderr().is_terminal() && !self.json {
            let _ = write!(io::stderr().lock(), "\r{text}\x1b[K");
        }
    }
    /// A heading.
    pub fn head(&mut self, text: impl AsRef<str>) {
        let bold = Style::new().bold();
        let text = text.as_ref();
        if self.color {
            self.line(format!("{}{text}{}", bold.render(), bold.render_reset()));
        } else {
            self.line(text);
        }
    }
    /// Rows in aligned columns, two spaces between; the last column is not padded.
    pub fn table(&mut self, rows: &[Vec<String>]) {
        let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
        let width =
            |c: usize| rows.iter().filter_map(|r| r.get(c)).map(|t| t.chars().count()).max().unwrap_or(0);
        let widths: Vec<usize> = (0..columns).map(width).collect();
        for row in rows {
            let mut line = String::from("  ");
            for (c, cell) in row.iter().enumerate() {
                line.push_str(cell);
                if c + 1 < row.len() {
                    let pad = widths[c].saturating_sub(cell.chars().count()) + 2;
                    line.extend(std::iter::repeat_n(' ', pad));
                }
            }
            self.line(line.trim_end());
        }
    }
    /// A value as JSON.
    pub fn value(&mut self, value: &impl Serialize) {
        match serde_json::to_string_pretty(value) {
            Ok(text) => self.line(text),
            Err(e) => self.line(format!("{{\"error\": \"{e}\"}}")),
        }
    }
    /// Words about an error on the other stream, and its exit code.
    pub fn fail(&mut self, error: &Error) -> ExitCode {
        let (message, hint) = (error.say(self.words), error.say_hint(self.words));
        if self.json {
            let object = serde_json::json!({
                "error": { "kind": error.kind_word(), "message": message, "hint": hint }
            });
            let _ = writeln!(io::stderr().lock(), "{object}");
        } else {
            let hint = hint.map(|h| format!(" — {h}")).unwrap_or_default();
            let _ = writeln!(io::stderr().lock(), "underlath: {message}{hint}");
        }
        ExitCode::from(exit_code(error.kind))
    }
}
