//! CSV as RFC 4180 writes it: commas, CR LF, quotes doubled; UTF-8 with the mark that spreadsheets look for.

use super::{Cell, Table, number};

/// The byte order mark: without it a spreadsheet reads the file in the letters of its own country.
const MARK: char = '\u{feff}';

pub(super) fn write(table: &Table) -> String {
    let mut out = String::from(MARK);
    row(&mut out, table.heads.iter().map(|head| text(head)));
    for cells in &table.rows {
        row(
            &mut out,
            cells.iter().map(|cell| match cell {
                Cell::Text(words) => text(words),
                Cell::Number(x) => number(*x).unwrap_or_default(),
                Cell::Empty => String::new(),
            }),
        );
    }
    out
}

fn row(out: &mut String, cells: impl Iterator<Item = String>) {
    for (n, cell) in cells.enumerate() {
        if n > 0 {
            out.push(',');
        }
        out.push_str(&cell);
    }
    out.push_str("\r\n");
}

/// A text, with an apostrophe before it where a spreadsheet would take it for a formula, and quoted where it must be. So too
/// after a semicolon or a tab inside it: a spreadsheet of a country that parts its columns by them begins a cell there, and
/// quotes do not hold it off.
fn text(words: &str) -> String {
    let mut held = String::new();
    let mut before = ';';
    for letter in words.chars() {
        let first = held.is_empty();
        let formula = matches!(letter, '=' | '+' | '-' | '@') || (first && letter.is_control());
        if formula && matches!(before, ';' | '\t') {
            held.push('\'');
        }
        held.push(letter);
        before = letter;
    }
    let words = held;
    if words.contains(['"', ',', '\r', '\n']) { format!("\"{}\"", words.replace('"', "\"\"")) } else { words }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_are_quoted_by_rfc_4180_and_never_formulas() {
        for (given, written) in [
            ("plain", "plain"),
            ("a,b", "\"a,b\""),
            ("say \"no\"", "\"say \"\"no\"\"\""),
            ("two\r\nlines", "\"two\r\nlines\""),
            ("=1+1", "'=1+1"),
            ("+1", "'+1"),
            ("-1", "'-1"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("\t=1", "'\t'=1"),
            ("a;=1+1", "a;'=1+1"),
            ("a;-1;b;c = d", "a;'-1;b;c = d"),
            ("a\t@x", "a\t'@x"),
            ("\r=1", "\"'\r=1\""),
            ("\u{1}x", "'\u{1}x"),
            ("=HYPERLINK(\"x\",\"y\")", "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\""),
            ("19 3/8″", "19 3/8″"),
            ("", ""),
        ] {
            assert_eq!(text(given), written);
        }
    }

    #[test]
    fn numbers_stay_numbers_and_what_is_none_is_left_empty() {
        let table = Table {
            name: "t",
            heads: vec!["a".into(), "b, USD".into()],
            rows: vec![
                vec![Cell::Number(-2.5), Cell::Number(1350.0)],
                vec![Cell::Number(f64::NAN), Cell::Empty],
            ],
        };
        assert_eq!(write(&table), "\u{feff}a,\"b, USD\"\r\n-2.5,1350\r\n,\r\n");
    }
}
