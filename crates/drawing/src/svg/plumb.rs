//! What it came to, hung as a plumb line through what was forecast: the dots below it are filled, those above are open.

use alloc::string::String;

use super::NARROW;
use super::canvas::Canvas;
use super::chances::{DOTS, FOOT, GAP, Rule, Stack, density, finished, one_line, placed, rising};
use super::lettering::width;
use super::path::Path;
use super::pens::{Dash, Fill, Hatch, Ink, Pen, letter};
use crate::chances::{Chances, Plumb, Write};
use crate::setting::{Palette, Width};

/// A sum further out than so many times the rule is drawn at its edge and lettered with its true value.
const FAR: f64 = 1.8;
/// Height of the two lines beside the plumb line.
const SAID: f64 = 48.0;
/// Height of a flag's line.
const ROW: f64 = 24.0;
/// A flag, where nothing hangs on it.
const FLAG: Pen = Pen { ink: Ink::Quiet, weight: 1.25, dash: Dash::Hidden };

/// Twenty dots with the plumb line. As [`super::dots`] otherwise.
pub fn plumbed_dots(
    chances: &Chances,
    plumb: &Plumb,
    write: Write<'_>,
    at: (Width, Palette, &str),
) -> String {
    finished(chances, at, |c, w| draw_dots(c, (chances, plumb), write, w))
}

/// The draws in bars with the plumb line. As [`super::bars`] otherwise.
pub fn plumbed_bars(
    chances: &Chances,
    plumb: &Plumb,
    write: Write<'_>,
    at: (Width, Palette, &str),
) -> String {
    finished(chances, at, |c, w| draw_bars(c, (chances, plumb), write, w))
}

/// A rule that reaches as far as the plumb line, if that is not absurd.
fn rule(p: &Chances, plumb: &Plumb, (left, w): (f64, f64)) -> Rule {
    let room = p.flags.iter().map(|f| width(&one_line(f), 15.0)).fold(0.0, libm::fmax) + 10.0;
    let rule = Rule::new(p, left, w, room);
    let most = p.shares.len() as f64 * p.step;
    let drawn = if p.twentieths.is_empty() { libm::fmax(rule.end, placed(most)) } else { rule.end };
    Rule { end: libm::fmax(drawn, libm::fmin(placed(plumb.at) * 1.04, drawn * FAR)), ..rule }
}

fn draw_dots(c: &mut Canvas<'_>, (p, plumb): (&Chances, &Plumb), write: Write<'_>, w: f64) -> f64 {
    let (biggest, most) = if w < NARROW { (9.0, 120.0) } else { (17.0, 180.0) };
    let values = rising(p);
    let came = placed(plumb.at);
    let below = values.partition_point(|value| *value <= came);
    let rule = rule(p, plumb, (2.0 * biggest + 3.0 * GAP, w));
    let cuts = [0, below, DOTS];
    let stack = Stack::within(most, biggest, |r| Stack::new(&values, &rule, (&cuts, &[came]), r));
    let top = flags_foot(p);
    let base = top + SAID + stack.highest() + 8.0;
    density(c, p, &rule, base, libm::pow(2.0 * stack.r + GAP, 2.0));
    draw_flags(c, p, &rule, base);
    for (i, (x, y)) in stack.dots.iter().enumerate() {
        let fill = if i < below { Ink::Strong } else { Ink::Paper };
        c.circle(*x, base + y, stack.r, Fill::Flat(fill), Some(Pen::whole(Ink::Strong, 1.75)));
    }
    hang(c, plumb, &rule, (top, base));
    rule.draw(c, write, (base, 5), 14.0);
    base + FOOT
}

fn draw_bars(c: &mut Canvas<'_>, (p, plumb): (&Chances, &Plumb), write: Write<'_>, w: f64) -> f64 {
    let rule = rule(p, plumb, (8.0, w));
    let tall = if w < NARROW { 64.0 } else { 76.0 };
    let top = flags_foot(p);
    let base = top + SAID + tall + 6.0;
    let most = p.shares.iter().map(|s| s.clamp(0.0, 1.0)).fold(0.0, libm::fmax);
    for (i, share) in p.shares.iter().enumerate() {
        let (from, to) = (rule.x(i as f64 * p.step), rule.x((i + 1) as f64 * p.step));
        let height = if most > 0.0 { share.clamp(0.0, 1.0) / most * tall } else { 0.0 };
        let below = (i as f64 + 0.5) * p.step <= placed(plumb.at);
        let fill = if below { Fill::Hatch(Hatch::Wood) } else { Fill::Flat(Ink::Paper) };
        let pen = Some(Pen::whole(Ink::Strong, 1.25));
        c.rect(from + 1.5, base - height, to - from - 3.0, height, fill, pen);
    }
    draw_flags(c, p, &rule, base);
    hang(c, plumb, &rule, (top, base));
    rule.draw(c, write, (base, 1), 14.0);
    base + FOOT
}

/// Where the flags end: one line each, every one lower than the one before, so that none runs into another.
fn flags_foot(p: &Chances) -> f64 {
    p.flags.len() as f64 * ROW + 6.0
}

fn draw_flags(c: &mut Canvas<'_>, p: &Chances, rule: &Rule, base: f64) {
    for (i, flag) in p.flags.iter().enumerate() {
        let (x, top) = (rule.x(placed(flag.at)), i as f64 * ROW + 2.0);
        c.line(x, top, x, base, FLAG);
        let said = one_line(flag);
        let ends = x + 7.0 + width(&said, 15.0);
        let quiet = letter(15.0).quiet();
        if ends <= rule.right + 8.0 {
            c.text(x + 7.0, top + 15.0, &said, &quiet);
        } else {
            c.text(x - 7.0, top + 15.0, &said, &quiet.end());
        }
    }
}

/// The line with its bob on the rule, and beside it what it says, on the side that has room.
fn hang(c: &mut Canvas<'_>, plumb: &Plumb, rule: &Rule, (top, base): (f64, f64)) {
    let x = rule.x(placed(plumb.at));
    let wide = libm::fmax(width(&plumb.value, 20.0), width(&plumb.says, 14.0));
    let (value, says) = (letter(20.0).heavy().mark(), letter(14.0).quiet());
    // Flags go through here; the field of paper keeps them off the letters.
    if x + 14.0 + wide <= rule.right + 8.0 {
        c.rect(x + 9.0, top, wide + 10.0, SAID - 4.0, Fill::Flat(Ink::Paper), None);
        c.text(x + 14.0, top + 19.0, &plumb.value, &value);
        c.text(x + 14.0, top + 38.0, &plumb.says, &says);
    } else {
        let right = libm::fmax(x - 14.0, wide + 1.0);
        c.rect(right - wide - 5.0, top, wide + 10.0, SAID - 4.0, Fill::Flat(Ink::Paper), None);
        c.text(right, top + 19.0, &plumb.value, &value.end());
        c.text(right, top + 38.0, &plumb.says, &says.end());
    }
    c.rect(x - 5.5, top, 11.0, 11.0, Fill::Flat(Ink::Mark), None);
    c.line(x, top + 11.0, x, base, Pen::whole(Ink::Mark, 2.5));
    let bob = Path::new().to(x, base).step(-8.0, -14.0).step(16.0, 0.0).close();
    c.path(&bob, Fill::Flat(Ink::Mark), None);
}
