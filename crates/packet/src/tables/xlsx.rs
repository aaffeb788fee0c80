//! The tables as one workbook (Office Open XML, ECMA-376 part 1, SpreadsheetML): six small parts in the zip that this
//! crate writes anyway. Our own and not a library's: no second zip writer and compressor comes in, and equal tables
//! give equal bytes. Texts are inline strings, which no spreadsheet reads as a formula.

use super::{Cell, Table, number};
use crate::zip::ZipWriter;

/// Most letters of a cell (Excel specifications and limits: 32,767), in UTF-16 units.
const LETTERS: usize = 32_767;

const HEAD: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
const SHEETS: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const LINKS: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006";
const TYPE: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/// The workbook; `None` only if a file in memory could not be written.
pub(super) fn write(tables: &[Table]) -> Option<Vec<u8>> {
    let mut parts = vec![
        ("[Content_Types].xml".to_owned(), content_types(tables.len())),
        ("_rels/.rels".to_owned(), relations(&[("officeDocument", "xl/workbook.xml".to_owned())])),
        ("xl/_rels/workbook.xml.rels".to_owned(), workbook_relations(tables.len())),
        ("xl/styles.xml".to_owned(), styles()),
        ("xl/workbook.xml".to_owned(), workbook(tables)),
    ];
    parts.extend((1..).zip(tables).map(|(n, table)| (sheet_name(n), sheet(table))));
    let mut zip = ZipWriter::new(Vec::new());
    for (name, text) in parts {
        let bytes = text.into_bytes();
        let known = (bytes.len() as u64, crc32fast::hash(&bytes));
        zip.add(name, known, &mut bytes.as_slice()).ok()?;
    }
    zip.finish().ok().map(|(bytes, ..)| bytes)
}

fn sheet_name(n: usize) -> String {
    format!("xl/worksheets/sheet{n}.xml")
}

fn content_types(sheets: usize) -> String {
    let mut out = format!(
        "{HEAD}<Types xmlns=\"{PACKAGE}/content-types\">\
         <Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>\
         <Override PartName=\"/xl/workbook.xml\" ContentType=\"{TYPE}.sheet.main+xml\"/>\
         <Override PartName=\"/xl/styles.xml\" ContentType=\"{TYPE}.styles+xml\"/>"
    );
    for n in 1..=sheets {
        out += &format!("<Override PartName=\"/{}\" ContentType=\"{TYPE}.worksheet+xml\"/>", sheet_name(n));
    }
    out + "</Types>"
}

fn relations(to: &[(&str, String)]) -> String {
    let mut out = format!("{HEAD}<Relationships xmlns=\"{PACKAGE}/relationships\">");
    for (n, (kind, target)) in (1..).zip(to) {
        out += &format!("<Relationship Id=\"rId{n}\" Type=\"{LINKS}/{kind}\" Target=\"{target}\"/>");
    }
    out + "</Relationships>"
}

fn workbook_relations(sheets: usize) -> String {
    let mut to: Vec<(&str, String)> =
        (1..=sheets).map(|n| ("worksheet", format!("worksheets/sheet{n}.xml"))).collect();
    to.push(("styles", "styles.xml".to_owned()));
    relations(&to)
}

fn workbook(tables: &[Table]) -> String {
    let mut out = format!("{HEAD}<workbook xmlns=\"{SHEETS}\" xmlns:r=\"{LINKS}\"><sheets>");
    for (n, table) in (1..).zip(tables) {
        out += &format!("<sheet name=\"{}\" sheetId=\"{n}\" r:id=\"rId{n}\"/>", escape(table.name));
    }
    out + "</sheets></workbook>"
}

/// Two forms of a cell: 0 plain, 1 bold for the heads.
fn styles() -> String {
    let font = "<sz val=\"11\"/><name val=\"Calibri\"/>";
    format!(
        "{HEAD}<styleSheet xmlns=\"{SHEETS}\"><fonts count=\"2\"><font>{font}</font><font><b/>{font}</font></fonts>\
         <fills count=\"2\"><fill><patternFill patternType=\"none\"/></fill>\
         <fill><patternFill patternType=\"gray125\"/></fill></fills>\
         <borders count=\"1\"><border><left/><right/><top/><bottom/><diagonal/></border></borders>\
         <cellStyleXfs count=\"1\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\"/></cellStyleXfs>\
         <cellXfs count=\"2\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\"/>\
         <xf numFmtId=\"0\" fontId=\"1\" fillId=\"0\" borderId=\"0\" xfId=\"0\" applyFont=\"1\"/></cellXfs>\
         </styleSheet>"
    )
}

fn sheet(table: &Table) -> String {
    let mut out = format!(
        "{HEAD}<worksheet xmlns=\"{SHEETS}\"><sheetViews><sheetView workbookViewId=\"0\">\
         <pane ySplit=\"1\" topLeftCell=\"A2\" activePane=\"bottomLeft\" state=\"frozen\"/></sheetView></sheetViews><cols>"
    );
    for n in 1..=table.heads.len() {
        out += &format!("<col min=\"{n}\" max=\"{n}\" width=\"{}\" customWidth=\"1\"/>", width(table, n - 1));
    }
    out += "</cols><sheetData>";
    let heads: Vec<Cell> = table.heads.iter().cloned().map(Cell::Text).collect();
    row(&mut out, 1, &heads, " s=\"1\"");
    for (n, cells) in (2..).zip(&table.rows) {
        row(&mut out, n, cells, "");
    }
    out + "</sheetData></worksheet>"
}

/// As wide as its longest text, between 8 and 60 letters.
fn width(table: &Table, column: usize) -> usize {
    let texts = table.rows.iter().filter_map(|row| match row.get(column) {
        Some(Cell::Text(text)) => Some(text.chars().count()),
        _ => None,
    });
    let head = table.heads.get(column).map_or(0, |head| head.chars().count());
    texts.chain([head]).max().unwrap_or(0).clamp(8, 60) + 2
}

fn row(out: &mut String, n: usize, cells: &[Cell], style: &str) {
    *out += &format!("<row r=\"{n}\">");
    for (at, cell) in cells.iter().enumerate() {
        let place = format!("{}{n}", column(at));
        match cell {
            Cell::Text(text) if text.is_empty() => {}
            Cell::Text(text) => {
                *out += &format!(
                    "<c r=\"{place}\"{style} t=\"inlineStr\"><is><t xml:space=\"preserve\">{}</t></is></c>",
                    escape(&cut(text))
                );
            }
            Cell::Number(x) => {
                if let Some(x) = number(*x) {
                    *out += &format!("<c r=\"{place}\"{style}><v>{x}</v></c>");
                }
            }
            Cell::Empty => {}
        }
    }
    *out += "</row>";
}

/// Letters of a column from its number: A to Z, AA and on.
fn column(mut at: usize) -> String {
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'A' + (at % 26) as u8));
        match (at / 26).checked_sub(1) {
            Some(next) => at = next,
            None => break,
        }
    }
    letters.into_iter().rev().collect()
}

fn cut(text: &str) -> String {
    let mut units = 0;
    text.chars()
        .take_while(|letter| {
            units += letter.len_utf16();
            units <= LETTERS
        })
        .collect()
}

/// Text as XML 1.0 takes it: signs that mean something are written out, letters it has no place for are left out.
fn escape(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\r' => out.push_str("&#13;"),
            '\t' | '\n' => out.push(letter),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::python;

    #[test]
    fn columns_are_lettered_as_spreadsheets_letter_them() {
        for (at, letters) in
            [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA"), (701, "ZZ"), (702, "AAA")]
        {
            assert_eq!(column(at), letters);
        }
    }

    #[test]
    fn letters_xml_has_no_place_for_are_left_out_and_signs_written_out() {
        assert_eq!(escape("a<b>&\"c\"\u{0}\u{1b}\u{ffff}\r\n"), "a&lt;b&gt;&amp;&quot;c&quot;&#13;\n");
        assert_eq!(cut(&"🔥".repeat(20_000)).encode_utf16().count(), 32_766);
    }

    #[test]
    fn equal_tables_give_equal_bytes_of_a_zip_that_another_program_reads() {
        let table = |name, text: &str| Table {
            name,
            heads: vec!["what".into(), "USD".into()],
            rows: vec![
                vec![Cell::Text(text.into()), Cell::Number(12.5)],
                vec![Cell::Empty, Cell::Number(f64::NAN)],
            ],
        };
        let tables = [table("conditions", "=1+1"), table("openings", "a & <b>")];
        let bytes = write(&tables).unwrap();
        assert_eq!(bytes, write(&tables).unwrap());
        let file = tempfile::NamedTempFile::new().unwrap();
        std::fs::write(file.path(), &bytes).unwrap();
        let script = "import sys,zipfile,xml.dom.minidom as m\n\
                      z=zipfile.ZipFile(sys.argv[1])\nassert z.testzip() is None\n\
                      [m.parseString(z.read(n)) for n in z.namelist()]\nprint(len(z.namelist()))\n";
        assert_eq!(python(script, &[file.path()]).unwrap().trim(), "7");
    }
}
