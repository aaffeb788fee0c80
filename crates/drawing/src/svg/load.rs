//! Parts of a load laid end to end on a rule, against what carries them.

use alloc::{format, string::String, vec::Vec};

use survey::{Phrase, say};
use trade::picture::LoadBar;

use super::NARROW;
use super::canvas::{Canvas, pitch};
use super::column::spread;
use super::lettering::{fit, width, wrap};
use super::parts::{dimension_across, even_step, extension, letter_where_free};
use super::pens::{Fill, Hatch, Ink, Pen, letter};
use crate::finding::totals;
use crate::said::{carries, text_of, together};
use crate::setting::held;
use crate::written::amount;

/// Height of the bar.
const BAR: f64 = 34.0;
/// Margin at both ends of the rule.
const MARGIN: f64 = 8.0;
/// So many parts are listed by name.
const LISTED: usize = 24;
/// So many carriers are drawn.
const CARRIERS: usize = 8;

/// A part as it lies on the rule.
struct Part {
    words: String,
    amount: String,
    x: [f64; 2],
    planned: bool,
    ground: Fill,
}

pub(super) fn draw(c: &mut Canvas<'_>, p: &LoadBar, w: f64) -> f64 {
    let narrow = w < NARROW;
    let size = if narrow { 14.0 } else { 16.0 };
    let [there, planned] = totals(p);
    let total = there + planned;
    let most = p.carries.iter().map(|(_, x)| *x).filter(|x| x.is_finite()).fold(total, libm::fmax);
    let range = if most > 0.0 && most < 1e15 { most * 1.08 } else { 1.0 };
    let right = w - MARGIN;
    let at = |x: f64| MARGIN + held(x / range, 0.0, 1.0) * (right - MARGIN);

    let parts = lay(c, p, at);
    let mut y = carriers(c, p, at, w, size);
    let beside = names_fit(&parts, size, w);
    let top = y + if beside { names_height(size) } else { 0.0 };
    let base = top + BAR;
    // limits over the bar first, so that names stand on them; across the bar after it, the one that counts heavier
    let limits = p.carries.iter().take(CARRIERS).enumerate().filter(|(_, (_, x))| x.is_finite());
    let pen = |i: usize| if i == 0 { Pen::LIMIT } else { Pen::SECOND };
    for (i, (_, x)) in limits.clone() {
        c.line(at(*x), carrier_row(i, size) - size * 0.8, at(*x), top, pen(i));
    }
    if beside {
        names(c, &parts, y, size, w);
    }
    y = top;
    for part in &parts {
        let pen = if part.planned { Pen::SUBJECT } else { Pen::SEEN };
        c.rect(part.x[0], y, part.x[1] - part.x[0], BAR, part.ground, Some(pen));
    }
    for (i, (_, x)) in limits {
        c.line(at(*x), top, at(*x), base, pen(i));
    }
    if !beside {
        numbers(c, &parts, top, size);
    }
    let mut foot = rule(c, p, at, base, range, size, w);
    foot = sum(c, total, there, at, foot, size, w);
    if !beside {
        foot = list(c, &parts, foot, size, w);
    }
    foot + 4.0
}

/// Parts end to end; what is not known or below zero has no length.
fn lay(c: &Canvas<'_>, p: &LoadBar, at: impl Fn(f64) -> f64) -> Vec<Part> {
    let mut from = 0.0;
    let mut there = 0;
    p.parts
        .iter()
        .map(|(name, x, planned)| {
            let length = if x.is_finite() { libm::fmax(*x, 0.0) } else { 0.0 };
            let part = Part {
                words: c.named(name),
                amount: c.say(amount(*x)),
                x: [at(from), at(from + length)],
                planned: *planned,
                ground: Fill::Over(match (planned, there % 2) {
                    (true, _) => Hatch::Pencil,
                    (false, 0) => Hatch::Wood,
                    (false, _) => Hatch::Dense,
                }),
            };
            from += length;
            there += usize::from(!planned);
            part
        })
        .collect()
}

const fn carrier_row(i: usize, size: f64) -> f64 {
    size + 2.0 + i as f64 * (size + 6.0)
}

/// What carries: a row each, the words before its line, or after it where there is no room before.
fn carriers(c: &mut Canvas<'_>, p: &LoadBar, at: impl Fn(f64) -> f64, w: f64, size: f64) -> f64 {
    let drawn = p.carries.len().min(CARRIERS);
    for (i, carrier) in p.carries.iter().take(CARRIERS).enumerate() {
        let x = &carrier.1;
        let l = if i == 0 { letter(size).heavy() } else { letter(size) };
        let shown = c.say(carries(carrier));
        let y = carrier_row(i, size);
        if !x.is_finite() {
            c.text(MARGIN, y, &fit(&shown, size, w - 2.0 * MARGIN), &l);
            continue;
        }
        let (before, after) = (at(*x) - 7.0, w - at(*x) - 8.0);
        if width(&shown, size) <= before || before >= after {
            c.text(at(*x) - 7.0, y, &fit(&shown, size, before), &l.end().field());
        } else {
            c.text(at(*x) + 7.0, y, &fit(&shown, size, after), &l.field());
        }
    }
    let mut y = carrier_row(drawn, size) - size * 0.4;
    if p.carries.len() > CARRIERS {
        y = carrier_row(drawn, size);
        c.text(
            MARGIN,
            y,
            &c.say(say!("drawing-and-more", n = p.carries.len() - CARRIERS)),
            &letter(size).quiet(),
        );
        y += size * 0.6;
    }
    y
}

/// Two lines over each part, if all have room side by side.
fn names_fit(parts: &[Part], size: f64, w: f64) -> bool {
    let wide: f64 = parts.iter().map(|p| label_width(p, size)).sum();
    parts.len() <= 8 && wide <= w
}

fn label_width(part: &Part, size: f64) -> f64 {
    libm::fmax(width(&part.words, size), width(&part.amount, size)) + 12.0
}

/// Height of the names with their leaders.
fn names_height(size: f64) -> f64 {
    2.0 * pitch(size) + 16.0
}

fn names(c: &mut Canvas<'_>, parts: &[Part], y: f64, size: f64, w: f64) {
    let wanted: Vec<(f64, f64)> =
        parts.iter().map(|p| ((p.x[0] + p.x[1]) / 2.0, label_width(p, size))).collect();
    let places = spread(&wanted, 0.0, w);
    let first = y + pitch(size);
    let second = first + pitch(size);
    for ((part, x), (center, wide)) in parts.iter().zip(&places).zip(&wanted) {
        let l = if part.planned { letter(size).heavy().mark().middle() } else { letter(size).middle() };
        c.text(*x, first, &part.words, &l.field());
        c.text(*x, second, &part.amount, &l.field());
        if libm::fabs(center - x) > wide / 4.0 {
            c.line(*x, second + 5.0, *center, y + names_height(size), extension(part.planned));
        }
    }
}

/// A number on each part that has room for it.
fn numbers(c: &mut Canvas<'_>, parts: &[Part], top: f64, size: f64) {
    for (i, part) in parts.iter().take(LISTED).enumerate() {
        let number = format!("{}", i + 1);
        let l = if part.planned { letter(size).heavy().mark() } else { letter(size).heavy() };
        if width(&number, size) + 8.0 < part.x[1] - part.x[0] {
            c.text(
                (part.x[0] + part.x[1]) / 2.0,
                top + BAR / 2.0 + size * 0.36,
                &number,
                &l.middle().field(),
            );
        }
    }
}

/// The rule under the bar with its numbers and its unit.
fn rule(
    c: &mut Canvas<'_>,
    p: &LoadBar,
    at: impl Fn(f64) -> f64,
    base: f64,
    range: f64,
    size: f64,
    w: f64,
) -> f64 {
    c.line(MARGIN, base, w - MARGIN, base, Pen::GROUND);
    let wide = width(&c.say(amount(range)), size) + 24.0;
    let step = even_step(range, libm::fmax(libm::floor((w - 8.0) / wide), 2.0));
    let fine = step / 5.0;
    let l = letter(size).quiet();
    let y = base + 12.0 + size;
    let unit = fit(text_of(&p.unit), size, w * 0.9);
    let unit_x = w - 2.0 - width(&unit, size);
    for i in 0..=200 {
        let value = fine * f64::from(i);
        if value > range {
            break;
        }
        let long = i % 5 == 0;
        c.line(at(value), base, at(value), base + if long { 11.0 } else { 6.0 }, Pen::SEEN);
        if long {
            let shown = c.say(amount(value));
            let hold = if i == 0 { l } else { l.middle() };
            let x = if i == 0 { 4.0 } else { at(value) };
            letter_where_free(c, &shown, &[(x, y, hold)], &[0.0, 0.0, w, 1e6]);
        }
    }
    // beside the last number if there is room, else under the rule
    if letter_where_free(c, &unit, &[(unit_x, y, l)], &[0.0, 0.0, w, 1e6]) {
        y + 8.0
    } else {
        c.text(unit_x, y + pitch(size), &unit, &l);
        y + pitch(size) + 8.0
    }
}

/// The whole load as a dimension, and what of it is there now.
fn sum(
    c: &mut Canvas<'_>,
    total: f64,
    there: f64,
    at: impl Fn(f64) -> f64,
    y: f64,
    size: f64,
    w: f64,
) -> f64 {
    if total <= 0.0 {
        c.text(MARGIN, y + pitch(size), &c.say(Phrase("drawing-no-load-known")), &letter(size));
        return y + pitch(size) + 8.0;
    }
    let l = letter(if w < NARROW { size + 1.0 } else { size + 3.0 }).heavy().mark();
    let line = y + 12.0;
    dimension_across(c, line, at(0.0), at(total), true);
    let shown = c.say(together(total, there));
    let lines = wrap(&shown, l.size, w - 2.0 * MARGIN, 2);
    c.lines(MARGIN, line + 10.0 + l.size, &lines, &l) + 8.0
}

/// Parts by number, where their names have no room at the bar.
fn list(c: &mut Canvas<'_>, parts: &[Part], y: f64, size: f64, w: f64) -> f64 {
    let row = pitch(size) + 6.0;
    let columns = if w < NARROW || parts.len() < 5 { 1 } else { 2 };
    let wide = (w - (columns as f64 - 1.0) * 28.0) / columns as f64;
    let shown = parts.len().min(LISTED);
    let rows = shown.div_ceil(columns);
    let mut foot = y;
    for (i, part) in parts.iter().take(shown).enumerate() {
        let x = (i / rows) as f64 * (wide + 28.0);
        let base = y + (i % rows) as f64 * row + row;
        let l = if part.planned { letter(size).heavy().mark() } else { letter(size) };
        let number = format!("{}", i + 1);
        let value = fit(&part.amount, size, wide * 0.5);
        let value_wide = width(&value, size);
        c.line(x, base + 6.0, x + wide, base + 6.0, Pen::HAIR);
        c.text(x + 22.0, base, &number, &l.end());
        let words = if part.planned {
            c.say(say!("drawing-planned", name = &part.words))
        } else {
            part.words.clone()
        };
        c.text(x + 34.0, base, &fit(&words, size, wide - 50.0 - value_wide), &l);
        c.text(x + wide - 2.0, base, &value, &l.end());
        foot = libm::fmax(foot, base + 8.0);
    }
    if parts.len() > shown {
        foot += row;
        let more = parts.len() - shown;
        c.text(0.0, foot, &c.say(say!("drawing-and-more", n = more)), &letter(size).ink(Ink::Quiet));
        foot += 8.0;
    }
    foot
}
