//! Values as they are written in TOML, on one line.

use core::fmt::Write as _;

use toml::de::DeValue;

use super::super::source_file::Node;

/// A value on one line: numbers as they were written, words in quotes.
pub(super) fn shown(node: &Node<'_>) -> String {
    let mut text = String::new();
    show(node, &mut text);
    text
}

fn show(node: &Node<'_>, text: &mut String) {
    // Writing into a String cannot fail.
    let _ = match node.get_ref() {
        DeValue::String(words) => write!(text, "{}", toml::Value::String(words.to_string())),
        DeValue::Integer(number) => write!(text, "{number}"),
        DeValue::Float(number) => write!(text, "{number}"),
        DeValue::Boolean(yes) => write!(text, "{yes}"),
        DeValue::Datetime(moment) => write!(text, "{moment}"),
        DeValue::Array(list) => {
            text.push('[');
            for (i, part) in list.iter().enumerate() {
                text.push_str(if i == 0 { "" } else { ", " });
                show(part, text);
            }
            write!(text, "]")
        }
        DeValue::Table(table) => {
            text.push('{');
            for (i, (key, part)) in table.iter().enumerate() {
                text.push_str(if i == 0 { " " } else { ", " });
                text.push_str(key.get_ref());
                text.push_str(" = ");
                show(part, text);
            }
            write!(text, " }}")
        }
    };
}

/// True when a number stands anywhere inside.
pub(super) fn has_number(node: &Node<'_>) -> bool {
    match node.get_ref() {
        DeValue::Integer(_) | DeValue::Float(_) => true,
        DeValue::Array(list) => list.iter().any(has_number),
        DeValue::Table(table) => table.iter().any(|(_, v)| has_number(v)),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use toml::de::DeTable;

    use super::*;

    #[test]
    fn values_read_as_they_were_written() {
        for (written, number) in [
            ("0.620", true),
            ("[1200, 3000.0, 8000]", true),
            ("\"two \\\"words\\\"\"", false),
            ("{ any = [{ in = [\"x\"], item = \"a\" }, { item = \"b\", lt = 9 }] }", true),
            ("true", false),
            ("[]", false),
        ] {
            let text = format!("k = {written}");
            let table = DeTable::parse(&text).unwrap();
            let node = table.get_ref().get("k").unwrap();
            // TOML has two ways to write a quotation mark inside words.
            assert_eq!(shown(node).replace("'two \"words\"'", "\"two \\\"words\\\"\""), written);
            assert_eq!(has_number(node), number, "{written}");
        }
    }
}
