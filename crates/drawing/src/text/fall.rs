//! A pipe that falls over a run, and the lengths it is held against, on one scale.

use alloc::format;

use survey::{Phrase, say};
use trade::picture::FallSection;

use super::grid::{Grid, column, cut, plain, wide_of};
use crate::finding::longest_drawn;
use crate::said::{Say, named};
use crate::written::{feet, inches};

const LIMITS: usize = 12;

pub(super) fn draw(p: &FallSection, columns: usize, w: Say<'_>) -> Grid {
    let mut g = Grid::new(columns);
    let wide = columns - 4;
    let longest = longest_drawn(p);
    let end = |x: f64| column(x / longest, wide).max(2);
    let x = if p.length.is_finite() { end(p.length) } else { wide };
    let name = cut(&w.named(&p.from), columns / 2 - 2);
    g.write(0, 0, &name);
    let to = cut(&w.named(&p.to), columns / 2 - 2);
    let at = (x + 1).max(wide_of(&name) + 2 + wide_of(&to)).min(columns);
    g.write_before(0, at, &to);
    g.put(1, 0, '|');
    g.fill(1, 1, x, '=');
    g.put(1, x, '|');
    if p.fall.is_finite() {
        let shown = w.say(say!("drawing-falls", x = inches(p.fall)));
        let shown = cut(&shown, columns);
        if wide_of(&shown) + 4 < x {
            g.write(1, (x - wide_of(&shown)) / 2, &format!(" {shown} "));
        } else {
            g.write(2, 2, &shown);
        }
    }
    let length =
        if p.length.is_finite() { feet(p.length) } else { Phrase("drawing-length-not-known").into() };
    rule(&mut g, 3, x, &w.say(say!("drawing-length-run", length = length)), columns);
    let mut row = 5;
    for (name, limit) in p.limits.iter().take(LIMITS) {
        let words = w.say(say!("drawing-name-is", name = named(name), x = feet(*limit)));
        if limit.is_finite() {
            rule(&mut g, row, end(*limit), &words, columns);
        } else {
            g.write(row, 0, &cut(&words, columns));
        }
        row += 2;
    }
    if p.limits.len() > LIMITS {
        g.write(row, 0, &plain(&w.say(say!("drawing-and-more", n = p.limits.len() - LIMITS))));
    }
    g
}

/// Words over a line from the high end.
fn rule(g: &mut Grid, row: usize, x: usize, words: &str, columns: usize) {
    g.write(row, 1, &cut(words, columns - 1));
    g.put(row + 1, 0, '|');
    g.fill(row + 1, 1, x, '-');
    g.put(row + 1, x, '|');
}
