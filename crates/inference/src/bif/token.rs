//! Cuts a BIF text into words and signs, each with its line.

use alloc::string::{String, ToString};
use alloc::vec::Vec;

use super::BifError;

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Token {
    /// A word, or text in quotes.
    Word(String),
    /// One of `{ } ( ) [ ] , ; |`.
    Sign(char),
}

#[derive(Clone, Debug)]
pub(super) struct Placed {
    pub(super) token: Token,
    pub(super) line: u32,
    /// Byte range in the text.
    pub(super) range: (usize, usize),
}

pub(super) fn is_sign(c: char) -> bool {
    matches!(c, '{' | '}' | '(' | ')' | '[' | ']' | ',' | ';' | '|')
}

pub(super) fn tokens(text: &str) -> Result<Vec<Placed>, BifError> {
    let mut out = Vec::new();
    let mut line = 1;
    let mut chars = text.char_indices().peekable();
    while let Some((start, c)) = chars.next() {
        let rest = &text[start..];
        if c == '\n' {
            line += 1;
        } else if c.is_whitespace() {
        } else if rest.starts_with("//") {
            while chars.next_if(|(_, c)| *c != '\n').is_some() {}
        } else if let Some(comment) = rest.strip_prefix("/*") {
            let Some(length) = comment.find("*/").map(|i| i + 4) else {
                return Err(BifError {
                    line,
                    message: "the comment opened here is never closed; add */".into(),
                });
            };
            line += rest[..length].matches('\n').count() as u32;
            while chars.next_if(|(i, _)| *i < start + length).is_some() {}
        } else if is_sign(c) {
            out.push(Placed { token: Token::Sign(c), line, range: (start, start + c.len_utf8()) });
        } else if c == '"' {
            let from = line;
            let mut word = String::new();
            let end = loop {
                match chars.next() {
                    Some((i, '"')) => break i + 1,
                    Some((_, '\\')) => match chars.next() {
                        Some((_, 'n')) => word.push('\n'),
                        Some((_, c @ ('"' | '\\'))) => word.push(c),
                        Some((_, c)) => {
                            line += u32::from(c == '\n');
                            word.push('\\');
                            word.push(c);
                        }
                        None => {}
                    },
                    Some((_, c)) => {
                        line += u32::from(c == '\n');
                        word.push(c);
                    }
                    None => {
                        let message = "the quote opened here is never closed; add \"".into();
                        return Err(BifError { line: from, message });
                    }
                }
            };
            out.push(Placed { token: Token::Word(word), line: from, range: (start, end) });
        } else {
            let mut end = start + c.len_utf8();
            while let Some((i, c)) = chars.next_if(|(_, c)| !c.is_whitespace() && !is_sign(*c) && *c != '"') {
                end = i + c.len_utf8();
            }
            out.push(Placed { token: Token::Word(text[start..end].to_string()), line, range: (start, end) });
        }
    }
    Ok(out)
}
