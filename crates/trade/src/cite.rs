//! Numbers out of a code book, each with the limit to show beside it.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::{Adopted, Book, Family, Shelf, Table};

use crate::error::TradeError;
use crate::number::show_number;
use crate::sheet::{Change, Limit, Line, Sheet, Standing};

/// The table of a book, or an error that names both.
pub fn table<'a>(book: &'a Book, id: &'static str) -> Result<&'a Table, TradeError> {
    book.table(id).ok_or_else(|| TradeError::NotInBook { book: book.title.clone(), table: id })
}

/// The single value of a table, and the limit to show.
pub fn value(book: &Book, id: &'static str) -> Result<(f64, Limit), TradeError> {
    let table = table(book, id)?;
    let value = table.value.ok_or_else(|| TradeError::NotInBook { book: book.title.clone(), table: id })?;
    Ok((value, Limit::of(book, table, with_unit(value, &table.unit))))
}

/// One row of a table, and the limit to show; an unknown row is an error that lists the known ones.
pub fn row(book: &Book, id: &'static str, name: &str) -> Result<(f64, Limit), TradeError> {
    let table = table(book, id)?;
    let Some(value) = table.row(name) else {
        let known: Vec<&str> = table.rows.iter().map(|(n, _)| n.as_str()).collect();
        return Err(TradeError::NoRow {
            table: format!("{} {}", book.title, table.clause),
            value: name.chars().take(60).collect(),
            known: known.join(", "),
        });
    };
    Ok((value, Limit::of(book, table, format!("{name}: {}", with_unit(value, &table.unit)))))
}

/// A value with its unit.
pub fn with_unit(value: f64, unit: &str) -> String {
    if unit.is_empty() { show_number(value) } else { format!("{} {unit}", show_number(value)) }
}

/// The first row, in the order of the table, whose value is at least `need`: the smallest size that carries a load.
pub fn first_carrying(table: &Table, need: f64) -> Option<(&str, f64)> {
    table.rows.iter().find(|(_, carries)| *carries >= need).map(|(name, carries)| (name.as_str(), *carries))
}

/// The books to answer from, and whether the firm has chosen.
pub fn books(shelf: &Shelf, family: Family) -> Result<(Vec<&Book>, bool), TradeError> {
    let adopted = shelf.adopted(family);
    let chosen = matches!(adopted, Adopted::Chosen(_));
    let books = adopted.books();
    if books.is_empty() { Err(TradeError::NoBook { family: family.word() }) } else { Ok((books, chosen)) }
}

/// Answers under the firm's book, or under every book of the family when it has not chosen one. Where all stand the
/// same the first answer holds and says so; where they differ the answer is "ask locally", with each beside it.
/// Two bare quantities stand the same whatever they are: a caller for whom they matter lets them stand apart.
pub fn across(
    shelf: &Shelf,
    family: Family,
    caution: &str,
    answer: impl Fn(&Book) -> Result<Sheet, TradeError>,
) -> Result<Sheet, TradeError> {
    let (books, chosen) = books(shelf, family)?;
    let mut sheets: Vec<(&Book, Sheet)> = Vec::new();
    for book in books {
        sheets.push((book, answer(book)?));
    }
    let same = sheets.windows(2).all(|w| w[0].1.standing == w[1].1.standing);
    let titles: Vec<&str> = sheets.iter().map(|(book, _)| book.title.as_str()).collect();
    let family = family.word();
    if chosen || same {
        let note = (!chosen && sheets.len() > 1)
            .then(|| format!("No {family} code is chosen; {} stand the same here.", titles.join(" and ")));
        let mut sheets = sheets.into_iter().map(|(_, sheet)| sheet);
        let Some(mut first) = sheets.next() else {
            return Err(TradeError::NoBook { family: "this calculation" });
        };
        for other in sheets {
            take_limits(&mut first.limits, other.limits);
        }
        first.notes.extend(note);
        return Ok(first);
    }
    let mut sentence = format!("Ask locally which {family} code governs: ");
    let mut sheet = Sheet::new(Standing::AskLocally, "", caution);
    for (n, (book, one)) in sheets.into_iter().enumerate() {
        if n > 0 {
            sentence.push(' ');
        }
        sentence.push_str(&format!("{}: {}", book.title, one.sentence));
        for line in one.lines {
            let line = Line::new(format!("{}, {}", book.title, line.label), line.text);
            sheet.lines.push(line);
        }
        take_limits(&mut sheet.limits, one.limits);
        for assumed in one.assumed {
            if !sheet.assumed.contains(&assumed) {
                sheet.assumed.push(assumed);
            }
        }
        for note in one.notes {
            if !sheet.notes.contains(&note) {
                sheet.notes.push(note);
            }
        }
        for change in one.changes {
            let text = format!("{}: {}", book.title, change.text);
            sheet.changes.push(Change { text, enough: change.enough });
        }
        sheet.picture = sheet.picture.or(one.picture);
    }
    sheet.sentence = sentence;
    Ok(sheet)
}

fn take_limits(into: &mut Vec<Limit>, from: Vec<Limit>) {
    for limit in from {
        if !into.contains(&limit) {
            into.push(limit);
        }
    }
}
