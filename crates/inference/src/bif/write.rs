//! Network to BIF text.

use alloc::borrow::Cow;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt::{self, Write};

use super::token::is_sign;
use super::{EXACT_ROWS, NOTE};
use crate::{Network, Node};

/// Most cells of a factored family that is written as a table.
const FAMILY_LIMIT: u64 = 1 << 16;

/// Writes a network so that [`super::read()`] gives it back bit for bit. Nodes come in the network's own
/// order, every row on its own line; `properties` (free text, one per line) go into the network block.
///
/// The format knows no factored families: they are written as tables, and those of more than 2^16 cells over
/// helper variables behind the others, which the text says in a property `helpers`. The distribution of the
/// network's own nodes is the same either way.
pub fn write(net: &Network, name: &str, properties: &[&str]) -> String {
    let mut out = String::new();
    let (plain, split) = net.spelled_out(FAMILY_LIMIT);
    let names: Vec<&str> = split.iter().map(|n| net.nodes()[*n].name.as_str()).collect();
    let helpers = format!("helpers = parts of {}, too large for one table", names.join(", "));
    let mut properties = properties.to_vec();
    if !names.is_empty() {
        properties.push(&helpers);
    }
    // Writing to a String cannot fail.
    let _ = text(&mut out, &plain, name, &properties);
    out
}

fn text(out: &mut String, net: &Network, name: &str, properties: &[&str]) -> fmt::Result {
    writeln!(out, "network {} {{", word(name))?;
    for property in properties {
        writeln!(out, "  property {};", property_text(property))?;
    }
    writeln!(out, "  property {EXACT_ROWS};\n}}")?;
    for node in net.nodes() {
        write!(out, "variable {} {{\n  type discrete [ {} ] {{ ", word(&node.name), node.states.len())?;
        list(out, node.states.iter().map(String::as_str))?;
        writeln!(out, " }};\n}}")?;
    }
    for node in net.nodes() {
        block(out, net, node)?;
    }
    Ok(())
}

fn block(out: &mut String, net: &Network, node: &Node) -> fmt::Result {
    let parents = || node.parents.iter().map(|p| &net.nodes()[*p]);
    write!(out, "probability ( {}", word(&node.name))?;
    if !node.parents.is_empty() {
        out.push_str(" | ");
        list(out, parents().map(|p| p.name.as_str()))?;
    }
    out.push_str(" ) {\n");
    for (r, row) in node.cpt.chunks_exact(node.states.len()).enumerate() {
        if node.parents.is_empty() {
            out.push_str("  table ");
        } else {
            let mut below: usize = parents().map(|p| p.states.len()).product();
            out.push_str("  (");
            list(
                out,
                parents().map(|p| {
                    below /= p.states.len();
                    p.states[r / below % p.states.len()].as_str()
                }),
            )?;
            out.push_str(") ");
        }
        for (i, x) in row.iter().enumerate() {
            // The shortest decimals that give the same double back.
            write!(out, "{}{x:?}", if i == 0 { "" } else { ", " })?;
        }
        out.push_str(";\n");
    }
    out.push_str("}\n");
    Ok(())
}

fn list<'a>(out: &mut String, words: impl Iterator<Item = &'a str>) -> fmt::Result {
    for (i, w) in words.enumerate() {
        write!(out, "{}{}", if i == 0 { "" } else { ", " }, word(w))?;
    }
    Ok(())
}

/// A property as it is if it has a key and no sign that would end it, else as a quoted note.
fn property_text(text: &str) -> Cow<'_, str> {
    let key = text.split_once(" = ").map_or("", |(key, _)| key);
    let plain = key.starts_with(|c: char| c.is_ascii_alphabetic())
        && key.chars().all(|c| c.is_ascii_alphanumeric() || c == '_')
        && text.trim() == text
        && !text.contains(|c: char| c.is_control() || matches!(c, ';' | '"'))
        && !text.contains("//")
        && !text.contains("/*");
    if plain { Cow::Borrowed(text) } else { Cow::Owned(String::from(NOTE) + " = " + &quoted(text)) }
}

/// A word as it is where the format allows it, else in quotes.
fn word(w: &str) -> Cow<'_, str> {
    let plain = !w.is_empty()
        && !w.contains("//")
        && !w.contains("/*")
        && !w.chars().any(|c| c.is_whitespace() || is_sign(c) || c == '"');
    if plain { Cow::Borrowed(w) } else { Cow::Owned(quoted(w)) }
}

fn quoted(w: &str) -> String {
    let mut out = String::from("\"");
    for c in w.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}
