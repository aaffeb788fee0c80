//! What every calculation answers: a sheet that a person can redo on paper.

use alloc::{string::String, vec::Vec};

use survey::catalog::{Book, Mark, Table};
use survey::said::in_catalog;
use survey::{Phrase, Said};

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
    /// How a result lies, for a sentence: "beyond", "near", and "within" for all else.
    pub const fn lies(self) -> Phrase {
        match self {
            Self::Beyond => Phrase("trade-beyond"),
            Self::Near => Phrase("trade-near"),
            _ => Phrase("trade-within"),
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
#[derive(Clone, PartialEq, Debug)]
pub struct Line {
    /// What comes out.
    pub label: Said,
    /// The sum, with its result and unit.
    pub text: Said,
}

impl Line {
    /// A line.
    pub fn new(label: impl Into<Said>, text: impl Into<Said>) -> Self {
        Self { label: label.into(), text: text.into() }
    }
}

/// A published value or a rule of the trade, with where it stands.
#[derive(Clone, PartialEq, Debug)]
pub struct Limit {
    /// The rule in our words.
    pub rule: Said,
    /// The value used, with its unit.
    pub value: Said,
    /// Document.
    pub document: String,
    /// Edition read.
    pub edition: Said,
    /// Section or table.
    pub clause: String,
    /// Published, common practice or from memory.
    pub mark: Mark,
}

impl Limit {
    /// A limit out of a book, with the value used in words.
    pub fn of(book: &Book, table: &Table, value: impl Into<Said>) -> Self {
        Self {
            rule: in_catalog("limit", &table.rule),
            value: value.into(),
            document: book.document_of(table).into(),
            edition: book.edition_of(table).into(),
            clause: table.clause.clone(),
            mark: table.mark,
        }
    }
    /// A rule without a document.
    pub fn practice(rule: impl Into<Said>, value: impl Into<Said>) -> Self {
        Self {
            rule: rule.into(),
            value: value.into(),
            document: String::new(),
            edition: Said::nothing(),
            clause: String::new(),
            mark: Mark::CommonPractice,
        }
    }
    /// Where it stands, in one line: document, edition, clause, mark.
    pub fn place(&self) -> Said {
        let parts = [Said::from(&self.document), self.edition.clone(), Said::from(&self.clause)];
        let mut all: Vec<Said> = parts.into_iter().filter(|p| !p.is_nothing()).collect();
        all.push(match self.mark {
            Mark::Published => Phrase("trade-published").into(),
            Mark::CommonPractice => Phrase("trade-common-practice").into(),
            Mark::Memory => Phrase("trade-from-memory").into(),
        });
        Said::List(all)
    }
}

/// A default that stands in for something missing.
#[derive(Clone, PartialEq, Debug)]
pub struct Assumed {
    /// What is missing, in words.
    pub item: Said,
    /// What was taken, with its unit.
    pub value: Said,
}

impl Assumed {
    /// What was taken for something missing.
    pub fn new(item: impl Into<Said>, value: impl Into<Said>) -> Self {
        Self { item: item.into(), value: value.into() }
    }
}

/// A single change that would help, or help in part.
#[derive(Clone, PartialEq, Debug)]
pub struct Change {
    /// The change with its amount.
    pub text: Said,
    /// Whether it is enough by itself at the values taken.
    pub enough: bool,
}

impl Change {
    /// A change, and whether it is enough by itself.
    pub fn new(text: impl Into<Said>, enough: bool) -> Self {
        Self { text: text.into(), enough }
    }
}

/// The answer to one calculation.
#[derive(Clone, PartialEq, Debug)]
pub struct Sheet {
    /// How the result lies.
    pub standing: Standing,
    /// The result in a sentence: never "safe", "compliant" or "clear".
    pub sentence: Said,
    /// P(beyond the value it is held against), where it can be stated. It enters the network.
    pub chance_beyond: Option<f64>,
    /// One standard deviation of the result with its unit, where inputs carry tolerances.
    pub sigma: Option<Said>,
    /// What is missing, where nothing can be said.
    pub missing: Vec<Said>,
    /// The arithmetic, line by line.
    pub lines: Vec<Line>,
    /// The values used.
    pub limits: Vec<Limit>,
    /// Everything taken because nobody said.
    pub assumed: Vec<Assumed>,
    /// Single changes that would help.
    pub changes: Vec<Change>,
    /// What else to know.
    pub notes: Vec<Said>,
    /// Who decides. It stands beside the result wherever that is shown.
    pub caution: Said,
    /// What can be drawn of it.
    pub picture: Option<Picture>,
}

impl Sheet {
    /// An empty sheet with a standing, a sentence and who decides.
    pub fn new(standing: Standing, sentence: impl Into<Said>, caution: impl Into<Said>) -> Self {
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
    pub fn cannot_say(sentence: impl Into<Said>, missing: Vec<Said>, caution: impl Into<Said>) -> Self {
        Self { missing, ..Self::new(Standing::CannotSay, sentence, caution) }
    }
    /// Adds a sentence to the result.
    pub fn say_also(&mut self, sentence: impl Into<Said>) {
        self.sentence = Said::sentences([core::mem::take(&mut self.sentence), sentence.into()]);
    }
    /// Adds a line of arithmetic.
    pub fn line(&mut self, label: impl Into<Said>, text: impl Into<Said>) {
        self.lines.push(Line::new(label, text));
    }
    /// Adds a note.
    pub fn note(&mut self, text: impl Into<Said>) {
        self.notes.push(text.into());
    }
}
