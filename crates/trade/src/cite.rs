//! Numbers out of a code book, each with the limit to show beside it.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::{Adopted, Book, Family, Shelf, Table};
use survey::said::in_catalog;
use survey::{Said, say};

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
            value: Said::Text(name.chars().take(60).collect()),
            known: known.join(", "),
        });
    };
    Ok((value, Limit::of(book, table, of_row(name, with_unit(value, &table.unit)))))
}

/// A value with its unit.
pub fn with_unit(value: f64, unit: &str) -> Said {
    figure(show_number(value), unit)
}

/// A figure as lettered, with its unit.
pub fn figure(figure: String, unit: &str) -> Said {
    if unit.is_empty() {
        figure.into()
    } else {
        Said::Joined(" ".into(), alloc::vec![figure.into(), in_catalog("unit", unit)])
    }
}

/// The name of a row of a table.
pub fn row_name(name: &str) -> Said {
    in_catalog("row", name)
}

/// What stands in a row.
pub fn of_row(name: &str, value: impl Into<Said>) -> Said {
    labeled(row_name(name), value)
}

/// "sum = result".
pub fn equals(sum: String, result: impl Into<Said>) -> Said {
    Said::Joined(" = ".into(), alloc::vec![sum.into(), result.into()])
}

/// "label: text".
pub fn labeled(label: impl Into<Said>, text: impl Into<Said>) -> Said {
    Said::Joined(": ".into(), alloc::vec![label.into(), text.into()])
}

/// The words for the code of a family: "plumbing code".
pub fn code_of(family: Family) -> Said {
    Said::by_id(format!("code-{}", family.word()))
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

/// Answers under the firm's book, or under every book of the family when it has not chosen one.
///
/// Where the books stand apart the answer is "ask locally", each beside the other and without a drawing, for a drawing
/// shows one book's limit. Where all lie within, the strictest is shown and named. Where all are near or beyond but
/// say it with other numbers, each is shown; the chance is stated only where they agree on it. Two bare quantities
/// stand the same whatever they are: a caller for whom they matter lets them stand apart.
pub fn across(
    shelf: &Shelf,
    family: Family,
    caution: impl Into<Said>,
    answer: impl Fn(&Book) -> Result<Sheet, TradeError>,
) -> Result<Sheet, TradeError> {
    let caution = caution.into();
    let (books, chosen) = books(shelf, family)?;
    let mut sheets: Vec<(&Book, Sheet)> = Vec::new();
    for book in books {
        sheets.push((book, answer(book)?));
    }
    if chosen || sheets.len() == 1 {
        let first = sheets.into_iter().next();
        return first.map(|(_, sheet)| sheet).ok_or(TradeError::NoBook { family: family.word() });
    }
    let standings_agree = sheets.windows(2).all(|w| w[0].1.standing == w[1].1.standing);
    if !standings_agree {
        let opening = say!("trade-ask-locally", code = code_of(family));
        return Ok(beside(sheets, Standing::AskLocally, opening, caution));
    }
    let standing = sheets.first().map_or(Standing::CannotSay, |(_, sheet)| sheet.standing);
    let words_agree = sheets.windows(2).all(|w| w[0].1.sentence == w[1].1.sentence);
    if !words_agree && matches!(standing, Standing::Near | Standing::Beyond) {
        let opening = say!("trade-no-code", code = code_of(family));
        return Ok(beside(sheets, standing, opening, caution));
    }
    let titles: Vec<&str> = sheets.iter().map(|(book, _)| book.title.as_str()).collect();
    let chance = |at: usize| sheets.get(at).and_then(|(_, s)| s.chance_beyond).unwrap_or(0.0);
    let mut strictest = 0;
    for at in 1..sheets.len() {
        if chance(at) > chance(strictest) {
            strictest = at;
        }
    }
    let (code, all) = (code_of(family), and(titles.iter().map(|t| Said::from(*t))));
    let note = if !words_agree && standing == Standing::Within {
        let shown = titles.get(strictest).copied().unwrap_or_default();
        say!("trade-books-agree-shown", code = code, books = all, shown = shown)
    } else {
        say!("trade-books-agree", code = code, books = all)
    };
    let (_, mut shown) = sheets.remove(strictest);
    for (_, other) in sheets {
        take(&mut shown.limits, other.limits);
        take(&mut shown.notes, other.notes);
        take(&mut shown.missing, other.missing);
        take(&mut shown.assumed, other.assumed);
    }
    shown.note(note);
    Ok(shown)
}

/// Every book's answer beside the others.
fn beside(sheets: Vec<(&Book, Sheet)>, standing: Standing, opening: Said, caution: Said) -> Sheet {
    let mut joined = Sheet::new(standing, Said::nothing(), caution);
    let mut sentences = alloc::vec![opening];
    let chances: Option<Vec<f64>> = sheets.iter().map(|(_, sheet)| sheet.chance_beyond).collect();
    if let Some(chances) = chances.filter(|_| standing != Standing::AskLocally) {
        let most = chances.iter().copied().fold(f64::NEG_INFINITY, libm::fmax);
        let least = chances.iter().copied().fold(f64::INFINITY, libm::fmin);
        joined.chance_beyond = (most - least <= AGREED).then_some(most);
    }
    let same_changes = sheets.windows(2).all(|w| w[0].1.changes == w[1].1.changes);
    for (book, one) in sheets {
        sentences.push(labeled(&book.title, one.sentence));
        for line in one.lines {
            let label = Said::List(alloc::vec![Said::from(&book.title), line.label]);
            joined.lines.push(Line::new(label, line.text));
        }
        take(&mut joined.limits, one.limits);
        take(&mut joined.assumed, one.assumed);
        take(&mut joined.notes, one.notes);
        take(&mut joined.missing, one.missing);
        if same_changes {
            take(&mut joined.changes, one.changes);
            continue;
        }
        for change in one.changes {
            joined.changes.push(Change::new(labeled(&book.title, change.text), change.enough));
        }
    }
    joined.sentence = Said::sentences(sentences);
    joined
}

/// "IPC and UPC".
pub fn and(all: impl IntoIterator<Item = Said>) -> Said {
    let mut all = all.into_iter();
    let first = all.next().unwrap_or_else(Said::nothing);
    all.fold(first, |before, next| say!("trade-and", before = before, next = next))
}

/// Chances that differ by no more than this are one chance.
const AGREED: f64 = 0.05;

fn take<T: PartialEq>(into: &mut Vec<T>, from: Vec<T>) {
    for one in from {
        if !into.contains(&one) {
            into.push(one);
        }
    }
}
