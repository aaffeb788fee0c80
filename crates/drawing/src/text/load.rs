//! Parts of a load end to end, lettered a, b, c (planned ones in capitals), and where each carrier ends.

use alloc::{format, string::String};

use survey::say;
use trade::picture::LoadBar;

use super::grid::{Grid, column, cut, plain, wide_of};
use crate::finding::totals;
use crate::said::{Say, carries, named, text_of, together};
use crate::written::amount;

const PARTS: usize = 26;
const CARRIERS: usize = 8;

pub(super) fn draw(p: &LoadBar, columns: usize, w: Say<'_>) -> Grid {
    let mut g = Grid::new(columns);
    let [there, planned] = totals(p);
    let total = there + planned;
    let most = p.carries.iter().map(|(_, x)| *x).filter(|x| x.is_finite()).fold(total, libm::fmax);
    let range = if most > 0.0 && most < 1e15 { most } else { 1.0 };
    let wide = columns - 3;
    let at = |x: f64| column(x / range, wide);

    // carriers over the bar, their lines down to it
    let carriers = p.carries.len().min(CARRIERS);
    for (i, carrier) in p.carries.iter().take(CARRIERS).enumerate() {
        let x = &carrier.1;
        let words = w.say(carries(carrier));
        if !x.is_finite() {
            g.write(i, 0, &cut(&words, columns));
            continue;
        }
        let end = 1 + at(*x);
        let words = cut(&words, columns - 2);
        for row in i..=carriers {
            g.put(row, end, ':');
        }
        if wide_of(&words) < end { g.write_before(i, end - 1, &words) } else { g.write(i, end + 2, &words) }
    }
    let row = carriers;
    g.put(row, 0, '|');
    let mut from = 0.0;
    for (i, (_, x, new)) in p.parts.iter().enumerate() {
        let x = if x.is_finite() { libm::fmax(*x, 0.0) } else { 0.0 };
        g.fill(row, 1 + at(from), 1 + at(from + x), tag(i, *new));
        from += x;
    }
    g.put(row, 1 + at(total), '|');
    g.put(row + 1, 0, '0');
    let shown = cut(&format!("{} {}", w.say(amount(total)), text_of(&p.unit)), columns - 4);
    g.write(
        row + 1,
        (2 + at(total)).saturating_sub(wide_of(&shown) / 2).clamp(2, columns - wide_of(&shown)),
        &shown,
    );

    let mut row = row + 3;
    let name_wide = columns - 20;
    for (i, (name, x, new)) in p.parts.iter().take(PARTS).enumerate() {
        let words = w.say(if *new { say!("drawing-planned", name = named(name)) } else { named(name) });
        g.write(row, 1, &format!("{} {}", tag(i, *new), cut(&words, name_wide)));
        g.write_before(row, columns.min(60), &cut(&w.say(amount(*x)), 14));
        row += 1;
    }
    if p.parts.len() > PARTS {
        g.write(row, 1, &plain(&w.say(say!("drawing-and-more", n = p.parts.len() - PARTS))));
        row += 1;
    }
    let sum = w.say(together(total, if planned > 0.0 { there } else { 0.0 }));
    g.write(row, 3, &cut(&sum, columns - 3));
    g
}

/// A letter for a part; after the last of the alphabet they are all alike.
fn tag(i: usize, planned: bool) -> char {
    let letters: String = if planned { ('A'..='Z').collect() } else { ('a'..='z').collect() };
    letters.chars().nth(i).unwrap_or(if planned { '+' } else { '-' })
}
