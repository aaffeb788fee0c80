//! Tables for the office's own programs: one CSV file each (RFC 4180) and all of them as sheets of one workbook.
//!
//! What people typed is text and stays text: a spreadsheet reads a cell beginning with = + - @ as a formula, so in CSV
//! such a text gets an apostrophe before it, and in the workbook every text is written as a text.

mod csv;
mod xlsx;

use crate::PageFile;

/// A table with one row of heads.
#[derive(Clone, PartialEq, Debug)]
pub struct Table {
    /// File and sheet name: lower case letters and hyphens.
    pub name: &'static str,
    /// Heads of the columns, each with its unit where it has one.
    pub heads: Vec<String>,
    /// Rows, as long as the heads.
    pub rows: Vec<Vec<Cell>>,
}

/// A cell.
#[derive(Clone, PartialEq, Debug)]
pub enum Cell {
    /// A text.
    Text(String),
    /// A number. What is not finite is left empty.
    Number(f64),
    /// Nothing.
    Empty,
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

/// The tables of a packet.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Tables(pub Vec<Table>);

impl Tables {
    /// `pages/<name>.csv` for each, and `pages/tables.xlsx` with a sheet for each. Equal tables, equal bytes.
    pub fn files(&self) -> Vec<PageFile> {
        let csv = self.0.iter().map(|table| PageFile {
            name: format!("pages/{}.csv", table.name),
            bytes: csv::write(table).into_bytes(),
        });
        let mut files: Vec<PageFile> = csv.collect();
        if let Some(bytes) = xlsx::write(&self.0) {
            files.push(PageFile { name: "pages/tables.xlsx".to_owned(), bytes });
        }
        files
    }
}

/// The shortest decimal that reads back as the number; `None` where it is none.
fn number(x: f64) -> Option<String> {
    x.is_finite().then(|| format!("{}", x + 0.0))
}
