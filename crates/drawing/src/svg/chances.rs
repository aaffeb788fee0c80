//! Chances on a rule: twenty dots, each one chance in twenty, over the density of the draws; or the draws in bars.

use alloc::{format, string::String, vec, vec::Vec};

use super::NARROW;
use super::canvas::Canvas;
use super::document::document;
use super::lettering::width;
use super::parts::{even_step, letter_where_free};
use super::path::Path;
use super::pens::{Fill, Hatch, Ink, Letter, Pen, letter};
use crate::chances::{Chances, Flag, Write};
use crate::said::Say;
use crate::setting::{Palette, Width, held};

/// Dots: how many, and between which of them a mark lies: half, eight in ten, nine in ten.
pub(super) const DOTS: usize = 20;
const CUTS: [usize; 5] = [0, 10, 16, 18, DOTS];
/// Room between dots, and between a dot and a mark.
pub(super) const GAP: f64 = 3.0;
/// Longest stroke of the rule and its lettering below the line.
pub(super) const FOOT: f64 = 36.0;

/// Twenty dots stacked between the marks so that no mark cuts one, the density behind them at the dots' own scale.
/// As [`crate::svg()`] otherwise. Numbers of the rule are written by `write`.
pub fn dots(chances: &Chances, write: Write<'_>, width: Width, palette: Palette, prefix: &str) -> String {
    finished(chances, (width, palette, prefix), |c, w| draw_dots(c, chances, write, w))
}

/// The draws in bars, with the marks. As [`dots`] otherwise.
pub fn bars(chances: &Chances, write: Write<'_>, width: Width, palette: Palette, prefix: &str) -> String {
    finished(chances, (width, palette, prefix), |c, w| draw_bars(c, chances, write, w))
}

pub(super) fn finished(
    chances: &Chances,
    (width, palette, prefix): (Width, Palette, &str),
    draw: impl Fn(&mut Canvas<'_>, f64) -> f64,
) -> String {
    let prefix = super::tidy(prefix);
    // What stands on it came in words.
    let silent = |_: &survey::Said| String::new();
    let mut canvas = Canvas::new(palette, &prefix, Say(&silent));
    let height = draw(&mut canvas, width.px());
    document(canvas, (width, height), &prefix, &chances.title, &chances.said)
}

/// A value as it can be placed: not below nothing, not absurd.
pub(super) fn placed(x: f64) -> f64 {
    held(x, 0.0, 1e15)
}

/// The rule: where values lie.
pub(super) struct Rule {
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) end: f64,
}

impl Rule {
    /// A rule on which the last flag has room beyond its line.
    pub(super) fn new(chances: &Chances, left: f64, w: f64, last_flag: f64) -> Self {
        let right = w - 8.0;
        let marked = chances.flags.iter().map(|f| placed(f.at)).fold(0.0, libm::fmax);
        let most = chances.twentieths.iter().map(|x| placed(*x)).fold(marked, libm::fmax);
        let room = libm::fmax(right - left - last_flag, (right - left) * 0.2);
        let end = libm::fmax(most * 1.06, marked * (right - left) / room);
        Self { left, right, end: if end > 0.0 { end } else { 1.0 } }
    }

    pub(super) fn x(&self, value: f64) -> f64 {
        self.left + held(value / self.end, 0.0, 1.0) * (self.right - self.left)
    }

    /// The line with its strokes and numbers; between two numbers it is cut into so many parts.
    pub(super) fn draw(&self, c: &mut Canvas<'_>, write: Write<'_>, (base, parts): (f64, u32), size: f64) {
        c.line(0.0, base, self.right + 8.0, base, Pen::GROUND);
        let l = letter(size).quiet();
        let wide = width(&write(self.end), size) + 24.0;
        let step = even_step(self.end, libm::fmax(libm::floor((self.right - self.left) / wide), 1.0));
        let inside = [0.0, 0.0, self.right + 8.0, base + FOOT];
        for i in 0..=200 {
            let value = step / f64::from(parts) * f64::from(i);
            if value > self.end * (1.0 + 1e-9) {
                break;
            }
            let (x, y) = (self.x(value), base + 14.0 + size);
            c.line(x, base, x, base + if i % parts == 0 { 10.0 } else { 5.0 }, Pen::SEEN);
            if i % parts == 0 {
                let (shown, end) = (write(value), self.right + 7.0);
                letter_where_free(c, &shown, &[(x, y, l.middle()), (end, y, l.end()), (1.0, y, l)], &inside);
            }
        }
    }
}

/// How flags are set: three lines beside each line, or one line each, every one lower than the one before.
struct Flags {
    rows: [f64; 3],
    stepped: bool,
    height: f64,
}

impl Flags {
    fn new(chances: &Chances, rule: &Rule, narrow: bool) -> Self {
        let wide = |f: &Flag| libm::fmax(width(&f.value, 22.0), width(&f.says, 14.0)) + 16.0;
        let [a, b, c] = &chances.flags;
        let apart = |f: &Flag, next: &Flag| rule.x(placed(next.at)) - rule.x(placed(f.at)) >= wide(f);
        let side =
            !narrow && apart(a, b) && apart(b, c) && rule.x(placed(c.at)) + wide(c) <= rule.right + 8.0;
        if side {
            Self { rows: [2.0; 3], stepped: false, height: 62.0 }
        } else {
            Self { rows: [2.0, 27.0, 52.0], stepped: true, height: 25.0 }
        }
    }

    /// Room the last flag needs beyond its line when each has one line.
    fn stepped_room(chances: &Chances) -> f64 {
        chances.flags.iter().map(|f| width(&one_line(f), 16.0)).fold(0.0, libm::fmax) + 10.0
    }

    /// Lowest point of a flag.
    fn foot(&self, i: usize) -> f64 {
        self.rows[i] + self.height
    }

    fn draw(&self, c: &mut Canvas<'_>, chances: &Chances, rule: &Rule, base: f64) {
        for (flag, top) in chances.flags.iter().zip(self.rows) {
            let x = rule.x(placed(flag.at));
            c.line(x, top, x, base, Pen::whole(Ink::Mark, 2.0));
            let caret = Path::new().to(x, base).step(-6.0, 11.0).step(12.0, 0.0).close();
            c.path(&caret, Fill::Flat(Ink::Mark), None);
            if self.stepped {
                c.text(x + 7.0, top + 15.0, &one_line(flag), &letter(16.0).heavy().mark());
            } else {
                c.text(x + 8.0, top + 13.0, &flag.name, &letter(15.0).quiet());
                c.text(x + 8.0, top + 36.0, &flag.value, &letter(22.0).heavy().mark());
                c.text(x + 8.0, top + 56.0, &flag.says, &letter(14.0).quiet());
            }
        }
    }
}

pub(super) fn one_line(flag: &Flag) -> String {
    format!("{} {}", flag.name, flag.value)
}

/// Dots of one size: places above the line, dot by dot, and how high each group stands.
pub(super) struct Stack {
    pub(super) r: f64,
    pub(super) dots: Vec<(f64, f64)>,
    tallest: Vec<usize>,
}

impl Stack {
    /// Between two marks lie the dots between two cuts; so there is one mark fewer than there are groups.
    pub(super) fn new(values: &[f64], rule: &Rule, (cuts, marks): (&[usize], &[f64]), r: f64) -> Self {
        let pitch = 2.0 * r + GAP;
        let mut sides = vec![rule.left - pitch - GAP];
        sides.extend(marks.iter().map(|at| rule.x(placed(*at))));
        sides.push(rule.right + 8.0);
        let groups = marks.len() + 1;
        let (mut dots, mut tallest) = (Vec::with_capacity(DOTS), vec![0; groups]);
        for (group, most) in tallest.iter_mut().enumerate() {
            let (left, right) = (sides[group] + 2.0, sides[group + 1] - 2.0);
            let columns = libm::fmax(libm::floor((right - left) / pitch), 1.0);
            // Left of the first mark dots lie against it, beyond the last they lie where they fall.
            let spare = match group {
                0 => right - left - columns * pitch,
                g if g + 1 == groups => 0.0,
                _ => (right - left - columns * pitch) / 2.0,
            };
            let mut height = vec![0usize; columns as usize];
            for value in &values[cuts[group]..cuts[group + 1]] {
                let wanted = libm::round((rule.x(placed(*value)) - left - spare) / pitch - 0.5);
                let column = held(wanted, 0.0, columns - 1.0) as usize;
                let x = left + spare + (column as f64 + 0.5) * pitch;
                dots.push((x, -(r + 4.0) - height[column] as f64 * pitch));
                height[column] += 1;
            }
            *most = height.into_iter().max().unwrap_or(0);
        }
        Self { r, dots, tallest }
    }

    fn height(&self, group: usize) -> f64 {
        self.tallest[group] as f64 * (2.0 * self.r + GAP) + 4.0
    }

    /// The highest of its groups.
    pub(super) fn highest(&self) -> f64 {
        (0..self.tallest.len()).map(|group| self.height(group)).fold(0.0, libm::fmax)
    }

    /// The largest dots that stand no higher than `most`.
    pub(super) fn within(most: f64, biggest: f64, make: impl Fn(f64) -> Self) -> Self {
        let mut r = biggest;
        loop {
            let stack = make(r);
            if stack.highest() <= most || r <= 5.0 {
                return stack;
            }
            r -= 1.0;
        }
    }
}

/// The twenty values, rising.
pub(super) fn rising(p: &Chances) -> Vec<f64> {
    let mut values: Vec<f64> = p.twentieths.iter().take(DOTS).map(|x| placed(*x)).collect();
    values.resize(DOTS, values.last().copied().unwrap_or(0.0));
    values.sort_by(f64::total_cmp);
    values
}

pub(super) fn draw_dots(c: &mut Canvas<'_>, p: &Chances, write: Write<'_>, w: f64) -> f64 {
    let narrow = w < NARROW;
    let (biggest, most) = if narrow { (9.0, 120.0) } else { (19.0, 180.0) };
    let values = rising(p);
    let cuts = [p.flags[0].at, p.flags[1].at, p.flags[2].at];
    // Left of nothing there is room for one column of the biggest dots: where half of all draws are nothing, they stand
    // there.
    let rule = Rule::new(p, 2.0 * biggest + 3.0 * GAP, w, Flags::stepped_room(p));
    let stack = Stack::within(most, biggest, |r| Stack::new(&values, &rule, (&CUTS, &cuts), r));
    let flags = Flags::new(p, &rule, narrow);
    // Dots stand below the flags that hang over them; those left of the first flag have nothing above.
    let under = (1..4).map(|group| flags.foot(group - 1) + 6.0 + stack.height(group));
    let base = under.fold(libm::fmax(stack.height(0) + 8.0, flags.foot(2) + 12.0), libm::fmax);

    density(c, p, &rule, base, libm::pow(2.0 * stack.r + GAP, 2.0));
    flags.draw(c, p, &rule, base);
    for (i, (x, y)) in stack.dots.iter().enumerate() {
        let (fill, ink) = match i {
            _ if i < CUTS[1] => (Ink::Strong, Ink::Strong),
            _ if i < CUTS[2] => (Ink::Mark, Ink::Mark),
            _ if i < CUTS[3] => (Ink::Wash, Ink::Mark),
            _ => (Ink::Paper, Ink::Strong),
        };
        c.circle(*x, base + y, stack.r, Fill::Flat(fill), Some(Pen::whole(ink, 1.75)));
    }
    rule.draw(c, write, (base, 5), 14.0);
    base + FOOT
}

/// The density at the dots' own scale: the ground below it is as large as twenty dots with the room around them.
pub(super) fn density(c: &mut Canvas<'_>, p: &Chances, rule: &Rule, base: f64, dot: f64) {
    let bar = rule.x(p.step) - rule.x(0.0);
    if p.shares.is_empty() || !(bar.is_finite() && bar > 0.0) {
        return;
    }
    let scale = DOTS as f64 * dot / bar;
    let top = |share: f64| base - held(share * scale, 0.0, base - 2.0);
    let mut path = Path::new().to(rule.x(0.0), base).line(rule.x(0.0), top(smooth(&p.shares, 0)));
    for i in 0..p.shares.len() {
        let middle = (i as f64 + 0.5) * p.step;
        if middle > rule.end {
            break;
        }
        path = path.line(rule.x(middle), top(smooth(&p.shares, i)));
    }
    let last = rule.x(libm::fmin(p.shares.len() as f64 * p.step, rule.end));
    let end = smooth(&p.shares, p.shares.len() - 1);
    c.path(&path.line(last, top(end)).line(last, base).close(), Fill::Flat(Ink::Sunk), None);
}

/// A share with its neighbors, so that the chance of the draws themselves is not drawn: 1, 2, 1 parts of four.
fn smooth(shares: &[f64], i: usize) -> f64 {
    let at = |k: Option<usize>| k.and_then(|k| shares.get(k)).copied().unwrap_or(shares[i]);
    held((at(i.checked_sub(1)) + 2.0 * shares[i] + at(Some(i + 1))) / 4.0, 0.0, 1.0)
}

pub(super) fn draw_bars(c: &mut Canvas<'_>, p: &Chances, write: Write<'_>, w: f64) -> f64 {
    let l: Letter = letter(14.0).heavy().mark();
    let room = p.flags.iter().map(|f| width(&f.name, l.size)).fold(0.0, libm::fmax) + 8.0;
    let drawn = p.shares.len() as f64 * p.step;
    let rule = {
        let rule = Rule::new(p, 8.0, w, room);
        Rule { end: libm::fmax(rule.end, held(drawn, 0.0, 1e15)), ..rule }
    };
    // A flag that has no room beside the one before it hangs lower.
    let mut rows = [0usize; 3];
    for i in 1..3 {
        let gap = rule.x(placed(p.flags[i].at)) - rule.x(placed(p.flags[i - 1].at));
        rows[i] = if gap >= room { 0 } else { rows[i - 1] + 1 };
    }
    // A line must not cross a flag that hangs lower than its own.
    if rows[2] == 0 && rows[1] > 0 {
        rows[2] = rows[1] + 1;
    }
    let tall = if w < NARROW { 64.0 } else { 76.0 };
    let base = 26.0 + rows.iter().max().map_or(0.0, |r| *r as f64 * 18.0) + tall;
    let most = p.shares.iter().map(|s| held(*s, 0.0, 1.0)).fold(0.0, libm::fmax);
    for (i, share) in p.shares.iter().enumerate() {
        let (from, to) = (rule.x(i as f64 * p.step), rule.x((i + 1) as f64 * p.step));
        let height = if most > 0.0 { held(*share, 0.0, 1.0) / most * tall } else { 0.0 };
        let pen = Some(Pen::whole(Ink::Strong, 1.25));
        c.rect(from + 1.5, base - height, to - from - 3.0, height, Fill::Hatch(Hatch::Wood), pen);
    }
    for (flag, row) in p.flags.iter().zip(rows) {
        let (x, top) = (rule.x(placed(flag.at)), 4.0 + row as f64 * 18.0);
        c.line(x, top, x, base, Pen::whole(Ink::Mark, 2.0));
        c.path(&Path::new().to(x, base).step(-5.0, 9.0).step(10.0, 0.0).close(), Fill::Flat(Ink::Mark), None);
        c.text(x + 5.0, top + 12.0, &flag.name, &l);
    }
    rule.draw(c, write, (base, 1), 14.0);
    base + FOOT
}
