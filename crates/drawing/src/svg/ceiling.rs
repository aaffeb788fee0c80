//! A ceiling from below: joists hidden above the board, lights where they are cut in, what is replaced.

use alloc::{string::String, vec, vec::Vec};

use survey::{Phrase, say};
use trade::picture::CeilingPlan;

use super::NARROW;
use super::canvas::Canvas;
use super::column::{Block, column};
use super::key::{Sign, key, light};
use super::lettering::{fit, width};
use super::parts::{chain_across, dimension_across, dimension_up, extension, found};
use super::pens::{Fill, Pen, letter};
use crate::setting::held;
use crate::written::{feet, inches};

/// Thickness of a joist.
const JOIST: f64 = 1.5;
/// So many of each are drawn.
const DRAWN: usize = 400;
/// A chain of dimensions has no more parts.
const CHAIN: usize = 7;

struct Frame {
    left: f64,
    top: f64,
    scale: f64,
    width: f64,
    depth: f64,
}

impl Frame {
    fn x(&self, x: f64) -> f64 {
        self.left + held(x, 0.0, self.width) * self.scale
    }
    /// From below and from one corner: depth runs up the sheet.
    fn y(&self, y: f64) -> f64 {
        self.top + (self.depth - held(y, 0.0, self.depth)) * self.scale
    }
}

fn known(x: f64, usual: f64) -> f64 {
    if x.is_finite() && x > 0.0 { held(x, 6.0, 2400.0) } else { usual }
}

pub(super) fn draw(c: &mut Canvas<'_>, p: &CeilingPlan, w: f64) -> f64 {
    let narrow = w < NARROW;
    let size = if narrow { 14.0 } else { 15.0 };
    let (width_in, depth_in) = (known(p.width, 120.0), known(p.depth, 120.0));
    let scale = |left: f64| {
        let room = w - left - if narrow { 12.0 } else { 40.0 };
        libm::fmin(room / width_in, if narrow { 290.0 } else { 440.0 } / depth_in)
    };
    let mut rows = stations(finite_lights(p).map(|l| l.1), depth_in);
    let mut side = Side::of(c, rows.as_deref(), p, size, narrow);
    // rows whose labels have no room one over the other are left out
    if rows.as_ref().is_some_and(|at| at.len() as f64 * (size + 11.0) > depth_in * scale(side.left)) {
        rows = None;
        side = Side::of(c, None, p, size, narrow);
    }
    let left = side.left;
    let f = Frame { left, top: 16.0, scale: scale(left), width: width_in, depth: depth_in };
    let (right, bottom) = (f.x(width_in), f.y(0.0));

    for x in p.joists.iter().take(DRAWN).filter(|x| x.is_finite() && **x >= 0.0 && **x <= width_in) {
        for side in [-JOIST / 2.0, JOIST / 2.0] {
            c.line(f.x(x + side), f.top, f.x(x + side), bottom, Pen::HIDDEN);
        }
    }
    c.rect(left, f.top, right - left, bottom - f.top, Fill::None, Some(Pen::CUT));
    if let Some((x, y)) = p.old_fixture.filter(|(x, y)| x.is_finite() && y.is_finite()) {
        found(c, f.x(x), f.y(y), if narrow { 6.0 } else { 8.0 });
    }
    for (x, y, cut, moved) in p.lights.iter().take(DRAWN).filter(|l| l.0.is_finite() && l.1.is_finite()) {
        let r = held(cut / 2.0 * f.scale, 5.0, 40.0);
        light(c, f.x(*x), f.y(*y), r, *moved);
    }
    let foot = across(c, p, &f, size, w);
    upwards(c, p, &f, rows.as_deref(), side.whole, size);
    legend(c, p, foot + 8.0, w, size)
}

/// The left side: where the ceiling starts, and where the line of its whole depth stands if there is room for it.
struct Side {
    left: f64,
    whole: Option<f64>,
}

impl Side {
    fn of(c: &Canvas<'_>, rows: Option<&[f64]>, p: &CeilingPlan, size: f64, narrow: bool) -> Self {
        let outer = libm::fmin(width(&c.say(feet(p.depth)), size), 90.0);
        let Some(at) = rows else { return Self { left: 32.0 + outer, whole: Some(14.0 + outer) } };
        let labels = at.windows(2).map(|pair| width(&c.say(feet(pair[1] - pair[0])), size));
        let inner = libm::fmin(labels.fold(0.0, libm::fmax), 90.0);
        if narrow {
            Self { left: 32.0 + inner, whole: None }
        } else {
            Self { left: 58.0 + inner + outer, whole: Some(17.0 + outer) }
        }
    }
}

/// Stations of a chain: walls and lights, each place once. None if there are too many.
fn stations(places: impl Iterator<Item = f64>, end: f64) -> Option<Vec<f64>> {
    let mut at: Vec<f64> = places.filter(|x| *x > 0.25 && *x < end - 0.25).collect();
    at.extend([0.0, end]);
    at.sort_by(f64::total_cmp);
    // lights in one row, as set out by hand
    at.dedup_by(|a, b| libm::fabs(*a - *b) < 0.25);
    (at.len() > 2 && at.len() <= CHAIN + 1).then_some(at)
}

/// How far apart joists are, if they are evenly spaced.
fn spacing(joists: &[f64]) -> Option<f64> {
    let first = joists.get(1)? - joists.first()?;
    let even = joists.windows(2).all(|pair| libm::fabs(pair[1] - pair[0] - first) < 0.1);
    (even && first.is_finite() && first > 0.0).then_some(first)
}

fn finite_lights(p: &CeilingPlan) -> impl Iterator<Item = &(f64, f64, f64, bool)> {
    p.lights.iter().take(DRAWN).filter(|l| l.0.is_finite() && l.1.is_finite())
}

fn across(c: &mut Canvas<'_>, p: &CeilingPlan, f: &Frame, size: f64, w: f64) -> f64 {
    let l = letter(size);
    let (right, bottom) = (f.x(f.width), f.y(0.0));
    // a ceiling too shallow for its own label still leaves room for it
    let mut y = libm::fmax(bottom, f.top + 26.0) + 20.0;
    if let Some(at) = stations(finite_lights(p).map(|l| l.0), f.width) {
        let labels: Vec<String> = at.windows(2).map(|pair| c.say(feet(pair[1] - pair[0]))).collect();
        let px: Vec<f64> = at.iter().map(|x| f.x(*x)).collect();
        let wide: f64 = labels.iter().map(|t| width(t, size) + 10.0).sum();
        if wide < w {
            for x in &px {
                c.line(*x, bottom + 6.0, *x, y + 8.0, extension(false));
            }
            y = chain_across(c, y, &px, &labels, &l, [0.0, w]) + 14.0;
        }
    }
    for x in [f.left, right] {
        c.line(x, bottom + 6.0, x, y + 8.0, extension(false));
    }
    dimension_across(c, y, f.left, right, false);
    c.text((f.left + right) / 2.0, y + size + 5.0, &fit(&c.say(feet(p.width)), size, w / 2.0), &l.middle());
    y + size + 10.0
}

fn upwards(
    c: &mut Canvas<'_>,
    p: &CeilingPlan,
    f: &Frame,
    rows: Option<&[f64]>,
    whole: Option<f64>,
    size: f64,
) {
    let l = letter(size).end();
    if let Some(at) = rows {
        let x = f.left - 18.0;
        let mut blocks = Vec::new();
        for pair in at.windows(2) {
            dimension_up(c, x, f.y(pair[1]), f.y(pair[0]), false);
            let shown = fit(&c.say(feet(pair[1] - pair[0])), size, 90.0);
            blocks.push(Block::new((f.y(pair[0]) + f.y(pair[1])) / 2.0, vec![(shown, l)]));
        }
        for y in at {
            c.line(f.left - 6.0, f.y(*y), x - 8.0, f.y(*y), extension(false));
        }
        column(c, x - 9.0, &blocks, 2.0, f.y(0.0) + 10.0);
    }
    if let Some(x) = whole {
        let words = (fit(&c.say(feet(p.depth)), size, 90.0), l);
        for y in [f.top, f.y(0.0)] {
            c.line(f.left - 6.0, y, x - 8.0, y, extension(false));
        }
        dimension_up(c, x, f.top, f.y(0.0), false);
        column(c, x - 9.0, &[Block::new((f.top + f.y(0.0)) / 2.0, vec![words])], f.top, f.y(0.0));
    }
}

fn legend(c: &mut Canvas<'_>, p: &CeilingPlan, y: f64, w: f64, size: f64) -> f64 {
    let l = letter(size);
    let mut entries: Vec<(Sign, String)> = Vec::new();
    let cut = p.lights.iter().map(|l| l.2).find(|x| x.is_finite());
    let same = cut.is_some_and(|first| p.lights.iter().all(|l| l.2 == first));
    let cut = cut.filter(|_| same).map(inches);
    let moved = p.lights.iter().filter(|l| l.3).count();
    let stay = p.lights.len() - moved;
    if stay > 0 {
        let lights = say!("drawing-lights", n = stay);
        let words = match &cut {
            Some(x) => say!("drawing-light-cut-out", lights = lights, x = x),
            None => lights,
        };
        entries.push((Sign::Light(false), c.say(words)));
    }
    if moved > 0 {
        let words = match cut.filter(|_| stay == 0) {
            Some(x) => say!("drawing-moved-cut-out", n = moved, x = x),
            None => say!("drawing-moved-off-joist", n = moved),
        };
        entries.push((Sign::Light(true), c.say(words)));
    }
    if p.old_fixture.is_some() {
        entries.push((Sign::Found, c.say(Phrase("drawing-fixture-replaced"))));
    }
    if !p.joists.is_empty() {
        let words = match spacing(&p.joists) {
            Some(x) => say!("drawing-joists-above-apart", x = inches(x)),
            None => Phrase("drawing-joists-above").into(),
        };
        entries.push((Sign::Line(Pen::HIDDEN), c.say(words)));
    }
    key(c, 0.0, y, w, &l, &entries) + 4.0
}
