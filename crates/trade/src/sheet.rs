//! What every calculation answers: a sheet that a person can redo on paper.

use alloc::{string::String, vec::Vec};

use survey::catalog::{Book, Mark, Table};

use crate::picture::Picture;

/// How a result lies to the published value it is held against. Never an approval.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Standing {
    /// Inside the value: beyond it in at most 5 cases of 100.
    Within,
    /// So near the value that the readings cannot tell: beyond it in 5 to 95 cases of 100.
    Near,
    /// Beyond the value in over 95 cases of 100.
    Beyond,
    /// The books differ and the firm has not chosen one.
    AskLocally,
    /// Something needed is missing, or no table covers it.
    CannotSay,
    /// A quantity without a value to hold it against.
    Quantity,
}

impl Standing {
    /// The word used in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Within => "within",
            Self::Near => "near",
            Self::Beyond => "beyond",
            Self::AskLocally => "ask-locally",
            Self::CannotSay => "cannot-say",
            Self::Quantity => "quantity",
        }
    }
    /// The words shown before the rule's name.
    pub const fn shown(self) -> &'static str {
        match self {
            Self::Within => "within the value of",
            Self::Near => "near the value of",
            Self::Beyond => "beyond the value of",
            Self::AskLocally => "ask locally",
            Self::CannotSay => "cannot say",
            Self::Quantity => "",
        }
    }
    /// How a result lies, for a sentence: "beyond", "near", and "within" for all else.
    pub const fn lies(self) -> &'static str {
        match self {
            Self::Beyond => "beyond",
            Self::Near => "near",
            _ => "within",
        }
    }
    /// Beyond when the chance of lying beyond is over 0.95, near over 0.05, else within: 1.645 σ of a normal spread.
    /// The line is ours; remedies are held to the same one.
    pub fn of_chance(beyond: f64) -> Self {
        if beyond > 0.95 {
            Self::Beyond
        } else if beyond > 0.05 {
            Self::Near
        } else if beyond <= 0.05 {
            Self::Within
        } else {
            Self::CannotSay // not a number
        }
    }
}

/// One line of arithmetic.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Line {
    /// What comes out.
    pub label: String,
    /// The sum, with its result and unit.
    pub text: String,
}

impl Line {
    /// A line.
    pub fn new(label: impl Into<String>, text: impl Into<String>) -> Self {
        Self { label: label.into(), text: text.into() }
    }
}

/// A published value or a rule of the trade, with where it stands.
#[derive(Clone, PartialEq, Debug)]
pub struct Limit {
    /// The rule in our words.
    pub rule: String,
    /// The value used, with its unit.
    pub value: String,
    /// Document.
    pub document: String,
    /// Edition read.
    pub edition: String,
    /// Section or table.
    pub clause: String,
    /// Published, common practice or from memory.
    pub mark: Mark,
}

impl Limit {
    /// A limit out of a book, with the value used in words.
    pub fn of(book: &Book, table: &Table, value: impl Into<String>) -> Self {
        Self {
            rule: table.rule.clone(),
            value: value.into(),
            document: book.document_of(table).into(),
            edition: book.edition_of(table).into(),
            clause: table.clause.clone(),
            mark: table.mark,
        }
    }
    /// A rule without a document.
    pub fn practice(rule: impl Into<String>, value: impl Into<String>) -> Self {
        Self {
            rule: rule.into(),
            value: value.into(),
            document: String::new(),
            edition: String::new(),
            clause: String::new(),
            mark: Mark::CommonPractice,
        }
    }
    /// Where it stands, in one line: document, edition, clause, mark.
    pub fn place(&self) -> String {
        let mut out = String::new();
        for part in [&self.document, &self.edition, &self.clause] {
            if !part.is_empty() {
                out.push_str(part);
                out.push_str(", ");
            }
        }
        out.push_str(self.mark.words());
        out
    }
}

/// A default that stands in for something missing.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Assumed {
    /// What is missing, in words.
    pub item: String,
    /// What was taken, with its unit.
    pub value: String,
}

/// A single change that would help, or help in part.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Change {
    /// The change with its amount.
    pub text: String,
    /// Whether it is enough by itself at the values taken.
    pub enough: bool,
}

/// The answer to one calculation.
#[derive(Clone, PartialEq, Debug)]
pub struct Sheet {
    /// How the result lies.
    pub standing: Standing,
    /// The result in a sentence: never "safe", "compliant" or "clear".
    pub sentence: String,
    /// P(beyond the value it is held against), where it can be stated. It enters the network.
    pub chance_beyond: Option<f64>,
    /// One standard deviation of the result with its unit, where inputs carry tolerances.
    pub sigma: Option<String>,
    /// What is missing, where nothing can be said.
    pub missing: Vec<String>,
    /// The arithmetic, line by line.
    pub lines: Vec<Line>,
    /// The values used.
    pub limits: Vec<Limit>,
    /// Everything taken because nobody said.
    pub assumed: Vec<Assumed>,
    /// Single changes that would help.
    pub changes: Vec<Change>,
    /// What else to know.
    pub notes: Vec<String>,
    /// Who decides. It stands beside the result wherever that is shown.
    pub caution: String,
    /// What can be drawn of it.
    pub picture: Option<Picture>,
}

impl Sheet {
    /// An empty sheet with a standing, a sentence and who decides.
    pub fn new(standing: Standing, sentence: impl Into<String>, caution: impl Into<String>) -> Self {
        Self {
            standing,
            sentence: sentence.into(),
            chance_beyond: None,
            sigma: None,
            missing: Vec::new(),
            lines: Vec::new(),
            limits: Vec::new(),
            assumed: Vec::new(),
            changes: Vec::new(),
            notes: Vec::new(),
            caution: caution.into(),
            picture: None,
        }
    }
    /// "Cannot say", with why in a sentence and what would have to be known.
    pub fn cannot_say(sentence: impl Into<String>, missing: Vec<String>, caution: impl Into<String>) -> Self {
        Self { missing, ..Self::new(Standing::CannotSay, sentence, caution) }
    }
    /// Adds a line of arithmetic.
    pub fn line(&mut self, label: impl Into<String>, text: impl Into<String>) {
        self.lines.push(Line::new(label, text));
    }
    /// Adds a note.
    pub fn note(&mut self, text: impl Into<String>) {
        self.notes.push(text.into());
    }
}
