//! Code books as data: published limits and tables of one document and edition, each with its clause and mark, and
//! which of them a firm has chosen.
//!
//! A book may stand on another (`based-on`) and then holds only what its edition changed. Calculations in `trade`
//! read numbers from here and nowhere else, so a number never goes about without its document.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;

use super::source_file::{At, Faults};
use super::suggest;

/// What a book governs.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Family {
    /// Drains, traps, vents.
    Plumbing,
    /// Fuel gas piping.
    Gas,
    /// Wiring.
    Electrical,
    /// Light framing: studs, joists, plates.
    Framing,
    /// Lead, asbestos, dust.
    OldMaterials,
}

impl Family {
    /// Every family.
    pub const ALL: [Self; 5] =
        [Self::Plumbing, Self::Gas, Self::Electrical, Self::Framing, Self::OldMaterials];

    /// The word used in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Plumbing => "plumbing",
            Self::Gas => "gas",
            Self::Electrical => "electrical",
            Self::Framing => "framing",
            Self::OldMaterials => "old-materials",
        }
    }
}

/// Where a number comes from.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mark {
    /// Read in the document named.
    Published,
    /// A rule of the trade or plain geometry, without a published source.
    CommonPractice,
    /// Recalled, not seen when it was entered: look it up before relying on it.
    Memory,
}

impl Mark {
    /// The words shown beside a number.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::CommonPractice => "common practice, no source",
            Self::Memory => "from memory: look it up",
        }
    }
}

/// One limit or table.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Table {
    /// Id, unique in its book.
    pub id: String,
    /// The rule in our words.
    pub rule: String,
    /// Section or table of the document.
    pub clause: String,
    /// Document, where it is not the book's own.
    pub document: Option<String>,
    /// Edition read, where it is not the book's own.
    pub edition: Option<String>,
    /// Where the numbers come from.
    pub mark: Mark,
    /// Unit of the values; empty for a count or a ratio.
    #[serde(default)]
    pub unit: String,
    /// A single value.
    pub value: Option<f64>,
    /// Values by row name, in the order of the document.
    #[serde(default)]
    pub rows: Vec<(String, f64)>,
    /// Column names of a grid.
    #[serde(default)]
    pub columns: Vec<String>,
    /// Rows of a grid: row value (a length in feet, say) and one value for each column. A missing value is negative.
    #[serde(default)]
    pub grid: Vec<(f64, Vec<f64>)>,
    /// Doubts, exceptions.
    #[serde(default)]
    pub note: String,
}

impl Table {
    /// The value of a row.
    pub fn row(&self, name: &str) -> Option<f64> {
        self.rows.iter().find(|(n, _)| n == name).map(|(_, v)| *v)
    }
    /// Position of a column of the grid.
    pub fn column(&self, name: &str) -> Option<usize> {
        self.columns.iter().position(|c| c == name)
    }
}

/// A book as written.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct RawBook {
    id: String,
    family: Family,
    title: String,
    document: String,
    edition: String,
    based_on: Option<String>,
    #[serde(default)]
    note: String,
    #[serde(default)]
    table: Vec<Table>,
}

/// Which books a firm works by, as written in `codes/adopted.toml`.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawAdopted {
    #[serde(default)]
    adopted: BTreeMap<String, String>,
}

/// One document in one edition.
#[derive(Clone, PartialEq, Debug)]
pub struct Book {
    /// Id.
    pub id: String,
    /// What it governs.
    pub family: Family,
    /// Short name shown, such as "UPC 2012".
    pub title: String,
    /// The document read.
    pub document: String,
    /// Its edition.
    pub edition: String,
    /// Doubts that hold for the whole book.
    pub note: String,
    tables: BTreeMap<String, Table>,
}

impl Book {
    /// Every table, in order of id.
    pub fn tables(&self) -> impl Iterator<Item = &Table> {
        self.tables.values()
    }
    /// A table by id.
    pub fn table(&self, id: &str) -> Option<&Table> {
        self.tables.get(id)
    }
    /// Document a table was read in.
    pub fn document_of<'a>(&'a self, table: &'a Table) -> &'a str {
        table.document.as_deref().unwrap_or(&self.document)
    }
    /// Edition a table was read in.
    pub fn edition_of<'a>(&'a self, table: &'a Table) -> &'a str {
        table.edition.as_deref().unwrap_or(&self.edition)
    }
}

/// What a firm works by in one family.
#[derive(Clone, PartialEq, Debug)]
pub enum Adopted<'a> {
    /// The firm has chosen a book.
    Chosen(&'a Book),
    /// It has not: every book of the family, in order of id. Where they differ, the answer is "ask locally".
    Open(Vec<&'a Book>),
}

impl<'a> Adopted<'a> {
    /// The books to look into.
    pub fn books(&self) -> Vec<&'a Book> {
        match self {
            Self::Chosen(book) => vec![book],
            Self::Open(books) => books.clone(),
        }
    }
}

/// All books, and the firm's choice among them.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Shelf {
    books: BTreeMap<String, Book>,
    chosen: BTreeMap<Family, String>,
}

impl Shelf {
    /// A book by id.
    pub fn book(&self, id: &str) -> Option<&Book> {
        self.books.get(id)
    }
    /// Every book, in order of id.
    pub fn books(&self) -> impl Iterator<Item = &Book> {
        self.books.values()
    }
    /// What the firm works by.
    pub fn adopted(&self, family: Family) -> Adopted<'_> {
        match self.chosen.get(&family).and_then(|id| self.books.get(id)) {
            Some(book) => Adopted::Chosen(book),
            None => Adopted::Open(self.books.values().filter(|b| b.family == family).collect()),
        }
    }
    /// The same shelf with another choice; an unknown id leaves the family open.
    #[must_use]
    pub fn choosing(mut self, family: Family, id: &str) -> Self {
        self.chosen.remove(&family);
        if self.books.get(id).is_some_and(|b| b.family == family) {
            self.chosen.insert(family, id.to_owned());
        }
        self
    }
}

/// Joins the books, laying each over the one it is based on.
pub(super) fn shelve(raw: Vec<(At, RawBook)>, adopted: (At, RawAdopted), faults: &mut Faults<'_>) -> Shelf {
    let mut ids: BTreeMap<String, usize> = BTreeMap::new();
    for (i, (at, book)) in raw.iter().enumerate() {
        check_book(at, book, faults);
        if ids.insert(book.id.clone(), i).is_some() {
            faults.add(&at.to("id"), format!("the book “{}” is there twice", book.id), None);
        }
    }
    let mut books = BTreeMap::new();
    for (at, top) in &raw {
        let mut tables: BTreeMap<String, Table> = BTreeMap::new();
        let mut layers = vec![top];
        let mut seen = BTreeSet::from([top.id.as_str()]);
        while let Some(base) = layers.last().and_then(|b| b.based_on.as_deref()) {
            let Some(under) = ids.get(base).and_then(|i| raw.get(*i)).map(|(_, book)| book) else {
                let mend = suggest::mend(base, ids.keys().map(String::as_str));
                faults.add(&at.to("based-on"), format!("there is no book “{base}”"), mend);
                break;
            };
            if !seen.insert(&under.id) || under.family != top.family {
                faults.add(&at.to("based-on"), "a book stands on another one of its own family", None);
                break;
            }
            layers.push(under);
        }
        for layer in layers.iter().rev() {
            for table in &layer.table {
                let mut table = table.clone();
                if layer.id != top.id {
                    // A table taken over from an older edition keeps saying where it was read.
                    table.document.get_or_insert_with(|| layer.document.clone());
                    table.edition.get_or_insert_with(|| layer.edition.clone());
                }
                tables.insert(table.id.clone(), table);
            }
        }
        let book = Book {
            id: top.id.clone(),
            family: top.family,
            title: top.title.clone(),
            document: top.document.clone(),
            edition: top.edition.clone(),
            note: top.note.clone(),
            tables,
        };
        books.insert(book.id.clone(), book);
    }
    let mut chosen = BTreeMap::new();
    let (at, adopted) = adopted;
    for (word, id) in adopted.adopted {
        let at = at.to("adopted").to(&word);
        let Some(family) = Family::ALL.into_iter().find(|f| f.word() == word) else {
            let mend = suggest::mend(&word, Family::ALL.map(Family::word));
            faults.add(&at, format!("there is no family of codes “{word}”"), mend);
            continue;
        };
        let known: Vec<&str> =
            books.values().filter(|b| b.family == family).map(|b: &Book| b.id.as_str()).collect();
        if faults.known(&at, &format!("book of {word}"), &id, known) {
            chosen.insert(family, id);
        }
    }
    Shelf { books, chosen }
}

/// Shape of one book: ids once, exactly one kind of value in each table, finite numbers.
fn check_book(at: &At, book: &RawBook, faults: &mut Faults<'_>) {
    let mut seen = BTreeSet::new();
    for (n, table) in book.table.iter().enumerate() {
        let at = at.to("table").to(n);
        if !seen.insert(&table.id) {
            faults.add(&at.to("id"), format!("the table “{}” is there twice", table.id), None);
        }
        let kinds = [table.value.is_some(), !table.rows.is_empty(), !table.grid.is_empty()];
        if kinds.iter().filter(|k| **k).count() != 1 {
            let mend = "give a value, or rows, or columns with a grid".to_owned();
            faults.add(
                &at.to("id"),
                format!("“{}” holds not exactly one kind of value", table.id),
                Some(mend),
            );
        }
        if table.grid.iter().any(|(_, cells)| cells.len() != table.columns.len()) {
            faults.add(&at.to("grid"), format!("a row of “{}” has not one value a column", table.id), None);
        }
        let cells = table.grid.iter().flat_map(|(at, cells)| cells.iter().chain([at]));
        let values = table.value.iter().chain(table.rows.iter().map(|(_, v)| v)).chain(cells);
        if values.into_iter().any(|v| !v.is_finite()) {
            faults.add(&at.to("id"), format!("“{}” holds what is no finite number", table.id), None);
        }
        if table.rule.trim().is_empty() || table.clause.trim().is_empty() {
            faults.add(&at.to("id"), format!("“{}” names no rule or no clause", table.id), None);
        }
    }
}
