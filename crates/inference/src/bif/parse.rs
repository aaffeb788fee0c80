//! Walks the tokens of a BIF text, block by block; what the blocks mean together is checked afterwards.

use alloc::collections::BTreeMap;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

use super::token::{Placed, Token, tokens};
use super::{BifError, NOTE};
use crate::{NetworkBuilder, NodeId};

/// The blocks as written.
#[derive(Default)]
pub(super) struct Raw {
    pub(super) name: String,
    pub(super) properties: Vec<String>,
    pub(super) builder: NetworkBuilder,
    pub(super) ids: BTreeMap<String, NodeId>,
    pub(super) states: Vec<Vec<String>>,
    pub(super) lines: Vec<u32>,
    pub(super) blocks: Vec<Block>,
}

/// One probability block.
pub(super) struct Block {
    pub(super) line: u32,
    pub(super) child: String,
    pub(super) parents: Vec<String>,
    pub(super) table: Option<(u32, Vec<f64>)>,
    pub(super) default: Option<(u32, Vec<f64>)>,
    pub(super) rows: Vec<(u32, Vec<String>, Vec<f64>)>,
}

/// Cuts the text into blocks.
pub(super) fn parse(text: &str) -> Result<Raw, BifError> {
    let tokens = tokens(text)?;
    let mut reader = Reader { text, tokens: &tokens, at: 0 };
    let mut raw = Raw::default();
    while let Some(line) = reader.peek().map(|p| p.line) {
        match reader.word("\"network\", \"variable\" or \"probability\"")?.as_str() {
            "network" => reader.network(&mut raw)?,
            "variable" => reader.variable(&mut raw, line)?,
            "probability" => reader.probability(&mut raw, line)?,
            other => {
                let message =
                    format!("\"{other}\" opens no block; expected network, variable or probability");
                return Err(BifError { line, message });
            }
        }
    }
    Ok(raw)
}

struct Reader<'a> {
    text: &'a str,
    tokens: &'a [Placed],
    at: usize,
}

pub(super) fn fail<T>(line: u32, message: impl Into<String>) -> Result<T, BifError> {
    Err(BifError { line, message: message.into() })
}

impl Reader<'_> {
    fn peek(&self) -> Option<&Placed> {
        self.tokens.get(self.at)
    }

    /// Line of the next token, or of the last one at the end.
    fn line(&self) -> u32 {
        self.peek().or(self.tokens.last()).map_or(1, |p| p.line)
    }

    fn found(&self) -> String {
        match self.peek().map(|p| &p.token) {
            Some(Token::Word(w)) => format!("found \"{w}\""),
            Some(Token::Sign(c)) => format!("found \"{c}\""),
            None => "the text ends".into(),
        }
    }

    fn word(&mut self, what: &str) -> Result<String, BifError> {
        match self.peek().map(|p| p.token.clone()) {
            Some(Token::Word(w)) => {
                self.at += 1;
                Ok(w)
            }
            _ => fail(self.line(), format!("expected {what}, {}", self.found())),
        }
    }

    fn is_sign(&self, sign: char) -> bool {
        self.peek().is_some_and(|p| p.token == Token::Sign(sign))
    }

    fn skip(&mut self, sign: char) -> bool {
        let is = self.is_sign(sign);
        self.at += usize::from(is);
        is
    }

    fn sign(&mut self, sign: char) -> Result<(), BifError> {
        if self.skip(sign) {
            Ok(())
        } else {
            fail(self.line(), format!("expected \"{sign}\", {}", self.found()))
        }
    }

    /// Words up to the closing sign, with or without commas between.
    fn words(&mut self, what: &str, close: char) -> Result<Vec<String>, BifError> {
        let mut list = Vec::new();
        while !self.is_sign(close) {
            list.push(self.word(what)?);
            self.skip(',');
        }
        self.sign(close)?;
        Ok(list)
    }

    fn numbers(&mut self) -> Result<Vec<f64>, BifError> {
        let mut list = Vec::new();
        while !self.is_sign(';') {
            let line = self.line();
            let word = self.word("a probability")?;
            match word.parse::<f64>() {
                Ok(x) if x.is_finite() && x >= 0.0 => list.push(x),
                _ => return fail(line, format!("\"{word}\" is no probability; write a number from 0 to 1")),
            }
            self.skip(',');
        }
        self.sign(';')?;
        Ok(list)
    }

    /// The text of a property up to its semicolon.
    fn property(&mut self) -> Result<String, BifError> {
        let first = self.at;
        while self.peek().is_some() && !self.is_sign(';') {
            self.at += 1;
        }
        let inside = &self.tokens[first..self.at];
        self.sign(';')?;
        let is = |p: &Placed, word: &str| matches!(&p.token, Token::Word(w) if w == word);
        Ok(match inside {
            [Placed { token: Token::Word(w), .. }] => w.clone(),
            [key, equals, Placed { token: Token::Word(w), range, .. }]
                if is(key, NOTE) && is(equals, "=") && self.text[range.0..].starts_with('"') =>
            {
                w.clone()
            }
            [a, .., b] => self.text[a.range.0..b.range.1].to_string(),
            [one] => self.text[one.range.0..one.range.1].to_string(),
            [] => String::new(),
        })
    }

    fn network(&mut self, raw: &mut Raw) -> Result<(), BifError> {
        if !self.is_sign('{') {
            raw.name = self.word("the network's name")?;
        }
        self.sign('{')?;
        while !self.skip('}') {
            let line = self.line();
            match self.word("\"property\" or \"}\"")?.as_str() {
                "property" => raw.properties.push(self.property()?),
                other => return fail(line, format!("\"{other}\" has no place in a network block")),
            }
        }
        Ok(())
    }

    fn variable(&mut self, raw: &mut Raw, line: u32) -> Result<(), BifError> {
        let name = self.word("the variable's name")?;
        self.sign('{')?;
        let mut states = None;
        while !self.skip('}') {
            let line = self.line();
            match self.word("\"type\", \"property\" or \"}\"")?.as_str() {
                "property" => drop(self.property()?),
                "type" => {
                    if self.word("\"discrete\"")? != "discrete" {
                        return fail(
                            line,
                            format!("variable \"{name}\" is not discrete; only discrete ones are read"),
                        );
                    }
                    self.sign('[')?;
                    let count = self.word("the number of states")?;
                    self.sign(']')?;
                    self.sign('{')?;
                    let list = self.words("a state", '}')?;
                    self.sign(';')?;
                    if count.parse() != Ok(list.len()) {
                        let got = list.len();
                        return fail(
                            line,
                            format!("variable \"{name}\" announces {count} states and lists {got}"),
                        );
                    }
                    if states.replace(list).is_some() {
                        return fail(line, format!("variable \"{name}\" has a second type; keep one"));
                    }
                }
                other => return fail(line, format!("\"{other}\" has no place in a variable block")),
            }
        }
        let Some(states) = states else {
            return fail(
                line,
                format!("variable \"{name}\" has no states; add type discrete [ n ] {{ ... }};"),
            );
        };
        let id = raw
            .builder
            .node(name.as_str(), &states)
            .map_err(|e| BifError { line, message: e.to_string() })?;
        raw.ids.insert(name, id);
        raw.states.push(states);
        raw.lines.push(line);
        Ok(())
    }

    fn probability(&mut self, raw: &mut Raw, line: u32) -> Result<(), BifError> {
        self.sign('(')?;
        let child = self.word("the child's name")?;
        let parents = if self.skip('|') {
            self.words("a parent's name", ')')?
        } else {
            self.sign(')')?;
            Vec::new()
        };
        self.sign('{')?;
        let mut block = Block { line, child, parents, table: None, default: None, rows: Vec::new() };
        while !self.skip('}') {
            let line = self.line();
            if self.skip('(') {
                let given = self.words("a parent's state", ')')?;
                let row = self.numbers()?;
                block.rows.push((line, given, row));
                continue;
            }
            let keyword = self.word("a row, \"table\", \"default\" or \"}\"")?;
            let twice = match keyword.as_str() {
                "property" => {
                    self.property()?;
                    None
                }
                "table" => block.table.replace((line, self.numbers()?)),
                "default" => block.default.replace((line, self.numbers()?)),
                other => return fail(line, format!("\"{other}\" has no place in a probability block")),
            };
            if twice.is_some() {
                return fail(line, format!("a second \"{keyword}\" for \"{}\"; keep one", block.child));
            }
        }
        raw.blocks.push(block);
        Ok(())
    }
}
