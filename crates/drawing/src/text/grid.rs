//! A sheet of characters.

use alloc::{string::String, vec, vec::Vec};

/// Rows of characters of one width; writing outside it is cut.
pub(super) struct Grid {
    width: usize,
    rows: Vec<Vec<char>>,
}

impl Grid {
    pub(super) const fn new(width: usize) -> Self {
        Self { width, rows: Vec::new() }
    }

    /// One character; rows are added as they are needed.
    pub(super) fn put(&mut self, row: usize, column: usize, c: char) {
        while self.rows.len() <= row {
            self.rows.push(vec![' '; self.width]);
        }
        if let Some(cell) = self.rows.get_mut(row).and_then(|r| r.get_mut(column)) {
            *cell = c;
        }
    }

    /// Words from a column on.
    pub(super) fn write(&mut self, row: usize, column: usize, words: &str) {
        self.put(row, self.width, ' ');
        for (i, c) in words.chars().enumerate() {
            self.put(row, column + i, c);
        }
    }

    /// Words that end before a column.
    pub(super) fn write_before(&mut self, row: usize, column: usize, words: &str) {
        let long = words.chars().count();
        let skip = long.saturating_sub(column);
        for (i, c) in words.chars().skip(skip).enumerate() {
            self.put(row, column + i + skip - long, c);
        }
    }

    /// The same character from one column to before another.
    pub(super) fn fill(&mut self, row: usize, from: usize, to: usize, c: char) {
        for column in from..to.min(self.width) {
            self.put(row, column, c);
        }
    }

    /// Whether a stretch of a row is still empty.
    pub(super) fn is_free(&self, row: usize, from: usize, to: usize) -> bool {
        self.rows.get(row).is_none_or(|r| r.iter().take(to).skip(from).all(|c| *c == ' '))
    }

    pub(super) fn height(&self) -> usize {
        self.rows.len()
    }

    /// Lines without trailing spaces, each ended.
    pub(super) fn into_text(self) -> String {
        let mut out = String::new();
        for row in self.rows {
            let line: String = row.into_iter().collect();
            out.push_str(line.trim_end());
            out.push('\n');
        }
        out
    }
}

/// The words in characters one column wide: letters with their accents, primes as quotes, signs as they are typed,
/// anything else a question mark.
pub(super) fn plain(words: &str) -> String {
    let mut out = String::new();
    for c in words.chars() {
        match c {
            ' '..='~' => out.push(c),
            '″' | '“' | '”' => out.push('"'),
            '′' | '’' | '‘' => out.push('\''),
            '−' | '–' | '—' => out.push('-'),
            '×' => out.push('x'),
            '±' => out.push_str("+/-"),
            '²' => out.push('2'),
            '³' => out.push('3'),
            '·' => out.push('*'),
            '÷' => out.push('/'),
            'σ' => out.push('s'),
            '¼' => out.push_str("1/4"),
            '½' => out.push_str("1/2"),
            '¾' => out.push_str("3/4"),
            // Letters of Spanish and its neighbors, each one column wide (Unicode: Latin-1 Supplement and Latin Extended).
            '¿' | '¡' | 'À'..='ɏ' => out.push(c),
            // An accent that stands by itself after its letter has no column.
            '\u{300}'..='\u{36f}' => {}
            c if c.is_whitespace() || c.is_control() => out.push(' '),
            _ => out.push('?'),
        }
    }
    out
}

/// Columns that plain words take.
pub(super) fn wide_of(words: &str) -> usize {
    words.chars().count()
}

/// The words, cut to a length.
pub(super) fn cut(words: &str, most: usize) -> String {
    let words = plain(words);
    let words = words.trim();
    if wide_of(words) <= most {
        return words.into();
    }
    let mut kept: String = words.chars().take(most.saturating_sub(2)).collect();
    kept = kept.trim_end().into();
    if most >= 2 {
        kept.push_str("..");
    }
    kept
}

/// The words in lines of a length, no more than `lines`.
pub(super) fn fold(words: &str, most: usize, lines: usize) -> Vec<String> {
    let words = plain(words);
    let mut folded: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in words.split_whitespace().take(400) {
        if !line.is_empty() && wide_of(&line) + 1 + wide_of(word) > most {
            if folded.len() + 1 == lines {
                line.push(' ');
                line.push_str(word);
                break;
            }
            folded.push(cut(&line, most));
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    if !line.is_empty() {
        folded.push(cut(&line, most));
    }
    folded
}

/// A share of a width as a column, whatever the share.
pub(super) fn column(share: f64, width: usize) -> usize {
    libm::round(crate::setting::held(share, 0.0, 1.0) * width as f64) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_become_plain_and_stay_inside() {
        assert_eq!(plain("−1 1/4″, ±1/8″, 2×4"), "-1 1/4\", +/-1/8\", 2x4");
        assert_eq!(plain("¿Dónde? Ñandú, 2÷3 漢"), "¿Dónde? Ñandú, 2/3 ?");
        assert_eq!(plain("cafe\u{301}"), "cafe");
        assert_eq!(cut("water heater", 8), "water..");
        assert_eq!(fold("one two three four five", 9, 2), ["one two", "three f.."]);
        assert_eq!(fold("ñañó ñañó ñañó", 9, 2), ["ñañó ñañó", "ñañó"]);
    }

    #[test]
    fn what_lies_outside_is_cut() {
        let mut g = Grid::new(5);
        g.write(0, 3, "abcd");
        g.write_before(1, 2, "xyz");
        assert_eq!(g.into_text(), "   ab\nyz\n");
    }
}
