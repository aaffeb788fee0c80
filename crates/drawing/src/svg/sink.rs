//! Sink, trap and stub from the front: heights from the finished floor at the left, what they mean at the right.

use alloc::{string::String, vec, vec::Vec};

use survey::{Phrase, Said, say};
use trade::picture::SinkElevation;

use super::NARROW;
use super::canvas::Canvas;
use super::column::{Block, column};
use super::key::{Sign, key};
use super::lettering::{fit, width, wrap};
use super::parts::{dimension_across, dimension_up, extension, found, letter_where_free, proposed};
use super::pens::{Fill, Ink, Letter, Pen, letter};
use super::sink_shapes::{CABINET, Frame, Plan, bowls, cabinet, drain, or, plan};
use crate::finding::{Gap, gap, governing, inside_tolerance, lowest};
use crate::setting::held;
use crate::written::{give_or_take, inches};

/// The chain of heights, inches left of the cabinet.
const CHAIN: f64 = -3.2;
/// Where the difference is dimensioned, and where levels end.
const GAP_AT: f64 = 38.4;
const LEVELS_END: f64 = 39.6;

struct Layout {
    narrow: bool,
    /// Lettering.
    size: f64,
    /// Width of the labels at the left and at the right.
    left: f64,
    right: f64,
    w: f64,
}

pub(super) fn draw(c: &mut Canvas<'_>, p: &SinkElevation, w: f64) -> f64 {
    let narrow = w < NARROW;
    let layout = Layout {
        narrow,
        size: if narrow { 14.0 } else { 16.0 },
        left: if narrow { 74.0 } else { 84.0 },
        right: if narrow { 72.0 } else { 182.0 },
        w,
    };
    let scale = (w - layout.left - layout.right - 12.0) / (LEVELS_END - CHAIN);
    let tops = [p.counter, p.bowl_plane, p.stub, p.stub_max].into_iter().filter(|z| z.is_finite());
    let top = held(tops.fold(36.0, libm::fmax), 30.0, 56.0);
    let f = Frame { left: layout.left + 12.0 - CHAIN * scale, floor: 16.0 + top * scale, scale };
    let at = plan(p);

    bands(c, &f, p, &at);
    cabinet(c, &f, p);
    bowls(c, &f, p);
    drain(c, &f, p, &at);
    levels(c, &f, p, &at);
    let mut foot = libm::fmax(f.floor + 14.0, heights(c, &f, p, &at, &layout));
    names(c, &f, p, &at, &layout);
    if narrow {
        foot = libm::fmax(foot, numbers(c, &f, p, &layout));
        legend(c, p, &layout, foot + 6.0)
    } else {
        libm::fmax(conclusions(c, &f, p, &layout), foot)
    }
}

/// Left end of the zone of the wall in which the stub's heights are drawn.
fn zone(at: &Plan) -> f64 {
    libm::fmax(at.legs[1] + 2.2, at.stub - 8.0)
}

/// Tolerances as bands across the zone.
fn bands(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation, at: &Plan) {
    for (z, tolerance, ink) in
        [(p.stub, p.stub_tolerance, Ink::Sunk), (p.stub_max, p.stub_max_tolerance, Ink::Wash)]
    {
        if z.is_finite() && tolerance.is_finite() && tolerance > 0.0 {
            let (top, bottom) = (f.z(z + tolerance), f.z(z - tolerance));
            let x = f.x(zone(at));
            c.rect(x, top, f.x(CABINET - 0.75) - x, bottom - top, Fill::Flat(ink), None);
        }
    }
}

/// The level above which the stub must move is drawn only if the stub lies between it and the highest that drains.
fn must_move(p: &SinkElevation) -> Option<f64> {
    (p.stub_max < p.stub && p.stub <= p.stub_abs).then_some(p.stub_abs)
}

/// Lines of the stub's heights and the two discs.
fn levels(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation, at: &Plan) {
    let (from, to) = (f.x(zone(at)), f.x(LEVELS_END));
    if let Some((z, _)) = lowest(p) {
        c.line(from, f.z(z), to, f.z(z), Pen::SECOND);
    }
    if let Some(z) = must_move(p) {
        c.line(from, f.z(z), to, f.z(z), Pen::SECOND);
    }
    if p.stub_max.is_finite() {
        c.line(from, f.z(p.stub_max), to, f.z(p.stub_max), Pen::SUBJECT_LIMIT);
        proposed(c, f.x(at.stub), f.z(p.stub_max), 0.95 * f.scale);
    }
    if p.stub.is_finite() {
        c.line(from, f.z(p.stub), to, f.z(p.stub), extension(false));
        // beside the proposed one where they would cover each other
        let r = libm::fmin(0.95 * f.scale, 11.0);
        let near = libm::fabs(f.z(p.stub) - f.z(p.stub_max)) < 2.0 * r;
        let x = f.x(at.stub) - if near { 4.2 * r } else { 0.0 };
        found(c, x, f.z(p.stub), r);
    }
    if let Some((a, b)) = difference(p) {
        dimension_up(c, f.x(GAP_AT), f.z(a), f.z(b), true);
    }
}

/// Ends of the dimension that is the point of the drawing.
fn difference(p: &SinkElevation) -> Option<(f64, f64)> {
    Some(match gap(p)? {
        Gap::High(_) | Gap::Room(_) => (p.stub_max, p.stub),
        Gap::Low(_) => (lowest(p)?.0, p.stub),
    })
}

/// The chain at the left.
fn heights(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation, at: &Plan, layout: &Layout) -> f64 {
    let bowl = governing(&p.bowls).map_or(f64::NAN, |(_, z)| z);
    let mut stations = vec![
        (p.counter, -1.3, false),
        (bowl, 3.4, false),
        (p.connection, if p.disposer { at.drain + 3.9 } else { at.drain - 1.6 }, false),
        (p.stub_max, zone(at), true),
        (0.0, -2.0, false),
    ];
    if let Some(other) = p.bowls.iter().take(2).find(|z| z.is_finite() && **z != bowl) {
        stations.push((*other, 19.0, false));
    }
    stations.retain(|s| s.0.is_finite());
    stations.sort_by(|a, b| b.0.total_cmp(&a.0));
    let x = f.x(CHAIN);
    for pair in stations.windows(2) {
        dimension_up(c, x, f.z(pair[0].0), f.z(pair[1].0), false);
    }
    let l = letter(layout.size).end();
    let mut blocks: Vec<Block> = Vec::new();
    for (z, to, asked) in &stations {
        let y = f.z(*z);
        let pen = if *asked { Pen::HAIR } else { extension(false) };
        c.line(x + 8.0, y, f.x(*to), y, pen);
        let l = if *asked { l.mark().heavy() } else { l };
        let shown =
            if *z == 0.0 { String::from("0") } else { fit(&c.say(inches(*z)), l.size, layout.left - 8.0) };
        // heights that round to the same figure are lettered once, in the pencil if one of them is asked for
        match blocks.last_mut().and_then(|b| b.lines.first_mut()) {
            Some(last) if last.0 == shown => last.1 = if *asked { l } else { last.1 },
            _ => blocks.push(Block::new(y, vec![(shown, l)]).led(x - 6.0, extension(false))),
        }
    }
    column(c, x - 18.0, &blocks, 4.0, f.floor + 16.0)
}

/// Names inside the section.
fn names(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation, at: &Plan, layout: &Layout) {
    let l = letter(layout.size).middle();
    for (i, z) in p.bowls.iter().take(2).enumerate() {
        let depth = p.bowl_plane - z;
        if depth.is_finite() && depth > 3.0 {
            let (middle, room) = match (p.bowls.len().min(2), i) {
                (1, _) => (18.0, 27.0),
                (_, 0) => (10.5, 13.4),
                _ => (25.5, 13.4),
            };
            let words = c.say(say!("drawing-deep", x = inches(depth)));
            let long = c.say(say!("drawing-bowl-deep", x = inches(depth)));
            let shown = if width(&long, l.size) < room * f.scale { long } else { words };
            if width(&shown, l.size) < room * f.scale {
                let y = (f.z(p.bowl_plane) + f.z(*z)) / 2.0 + l.size * 0.5;
                letter_where_free(c, &shown, &[(f.x(middle), y, l)], &[0.0, 0.0, f.x(CABINET), f.floor]);
            }
        }
    }
    if layout.narrow {
        return;
    }
    let note = letter(15.0);
    let page = [0.0, 0.0, f.x(CABINET - 1.0), f.floor - 4.0];
    let connection = or(p.connection, 18.0);
    // the disposer is named at its outlet, the strainer on its other side, away from the arm
    let (name, tip, x, y, hold) = if p.disposer {
        let x = at.drain + 6.5;
        (
            Phrase("drawing-disposer-outlet"),
            [at.drain + 5.0, connection + 0.5],
            x,
            connection + 2.6,
            note.field(),
        )
    } else {
        let x = at.drain - 4.2;
        (
            Phrase("drawing-strainer"),
            [at.drain - 1.7, connection + 1.0],
            x,
            connection + 0.8,
            note.field().end(),
        )
    };
    let (x, y) = (f.x(x), f.z(y));
    let name = c.say(name);
    if letter_where_free(c, &name, &[(x, y, hold)], &page) {
        let from = if p.disposer { x - 3.0 } else { x + 3.0 };
        c.line(from, y - 5.0, f.x(tip[0]), f.z(tip[1]), Pen::BEYOND);
    }
    let dip = or(p.trap_arm, connection - 3.0) - at.bore - 2.25;
    let (x, y) = (f.x(at.legs[0]) - 20.0, f.z(dip - 1.6));
    let trap = c.say(Phrase("drawing-trap"));
    if letter_where_free(c, &trap, &[(x, y, note.end())], &page) {
        c.line(x + 3.0, y - 5.0, f.x(at.legs[0]) + 4.0, f.z(dip - 0.4), Pen::BEYOND);
    }
    run(c, f, p, at);
}

/// The level run, where there is room under the trap.
fn run(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation, at: &Plan) {
    if !p.run.is_finite() || p.run < 1.0 {
        return;
    }
    let y = f.z(or(p.cabinet_floor, 5.25)) - 14.0;
    let (x1, x2) = (f.x(at.legs[1]), f.x(at.stub));
    let words = c.say(say!("drawing-run", x = inches(p.run)));
    let l = letter(15.0).middle();
    let clear = |z: f64| !z.is_finite() || libm::fabs(f.z(z) - (y - 8.0)) > 22.0;
    let low = lowest(p).map_or(f64::NAN, |(z, _)| z);
    let fits = clear(p.stub) && clear(p.stub_max) && clear(low) && width(&words, l.size) < x2 - x1 + 30.0;
    if fits
        && letter_where_free(c, &words, &[((x1 + x2) / 2.0, y - 7.0, l)], &[0.0, 0.0, f.x(CABINET), f.floor])
    {
        dimension_across(c, y, x1, x2, false);
        for x in [x1, x2] {
            c.line(x, y - 10.0, x, y + 6.0, extension(false));
        }
    }
}

/// A height with its tolerance: "19 3/8″, ±1/8″".
fn with_tolerance(z: f64, tolerance: f64) -> Said {
    match give_or_take(tolerance) {
        Some(t) => say!("drawing-with-note", x = inches(z), note = t),
        None => inches(z),
    }
}

fn lowest_words(z: f64, cabinet: bool) -> Said {
    if cabinet {
        say!("drawing-lowest-cabinet", x = inches(z))
    } else {
        say!("drawing-lowest-weir", x = inches(z))
    }
}

/// What the heights mean, at the right.
fn conclusions(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation, layout: &Layout) -> f64 {
    let x = f.x(LEVELS_END) + 20.0;
    let room = layout.w - x - 2.0;
    let (body, note) = (letter(17.0), letter(15.0).quiet());
    let lines = |texts: &[(&str, Letter)]| -> Vec<(String, Letter)> {
        texts.iter().flat_map(|(t, l)| wrap(t, l.size, room, 3).into_iter().map(|line| (line, *l))).collect()
    };
    let mut blocks = Vec::new();
    if p.counter.is_finite() {
        let words = c.say(say!("drawing-counter-above-floor", x = inches(p.counter)));
        blocks.push(Block::new(f.z(p.counter) + 14.0, lines(&[(&words, note)])));
    }
    if p.stub.is_finite() {
        let shown = c.say(with_tolerance(p.stub, p.stub_tolerance));
        let head = c.say(Phrase("drawing-stub-as-found"));
        blocks.push(
            Block::new(f.z(p.stub), lines(&[(&head, body.heavy()), (&shown, body)]))
                .led(f.x(LEVELS_END), extension(false)),
        );
    }
    if let (Some(gap), Some((a, b))) = (gap(p), difference(p)) {
        let shown = c.say(gap.shown());
        let near = c.say(Phrase("drawing-inside-tolerance"));
        let mut texts = vec![(shown.as_str(), letter(21.0).heavy().mark())];
        if inside_tolerance(p) {
            texts.push((near.as_str(), note));
        }
        blocks.push(Block::new((f.z(a) + f.z(b)) / 2.0, lines(&texts)));
    }
    if p.stub_max.is_finite() {
        let shown = c.say(with_tolerance(p.stub_max, p.stub_max_tolerance));
        let head = c.say(Phrase("drawing-highest-drains"));
        let texts = [(head.as_str(), body.heavy().mark()), (shown.as_str(), body)];
        blocks.push(Block::new(f.z(p.stub_max), lines(&texts)).led(f.x(LEVELS_END), extension(true)));
    }
    if let Some(z) = must_move(p) {
        let words = c.say(say!("drawing-above-must-move", x = inches(z)));
        blocks.push(Block::new(f.z(z), lines(&[(&words, note)])).led(f.x(LEVELS_END), extension(false)));
    }
    if let Some((z, cabinet)) = lowest(p) {
        let words = c.say(lowest_words(z, cabinet));
        blocks.push(Block::new(f.z(z), lines(&[(&words, note)])).led(f.x(LEVELS_END), extension(false)));
    }
    column(c, x, &blocks, 4.0, f.floor + 14.0) + 4.0
}

/// Only the numbers, where there is no room for words.
fn numbers(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation, layout: &Layout) -> f64 {
    let x = f.x(LEVELS_END) + 14.0;
    let room = layout.w - x - 2.0;
    let mut blocks = Vec::new();
    let mut add = |y: f64, text: String, l: Letter| {
        blocks.push(
            Block::new(y, vec![(fit(&text, l.size, room), l)])
                .led(f.x(LEVELS_END), extension(l.ink == Ink::Mark)),
        );
    };
    if p.stub.is_finite() {
        add(f.z(p.stub), c.say(inches(p.stub)), letter(15.0).heavy());
    }
    if p.stub_max.is_finite() {
        add(f.z(p.stub_max), c.say(inches(p.stub_max)), letter(15.0).heavy().mark());
    }
    if let Some((z, _)) = lowest(p) {
        add(f.z(z), c.say(inches(z)), letter(14.0).quiet());
    }
    if let (Some(gap), Some((a, b))) = (gap(p), difference(p)) {
        let shown = c.say(inches(gap.inches()));
        let size = if width(&shown, 18.0) <= room { 18.0 } else { 15.0 };
        let l = letter(size).heavy().mark();
        let shown = fit(&shown, size, room);
        blocks.push(Block::new((f.z(a) + f.z(b)) / 2.0, vec![(shown, l)]));
    }
    column(c, x, &blocks, 4.0, f.floor + 14.0)
}

/// What the marks stand for, under the drawing.
fn legend(c: &mut Canvas<'_>, p: &SinkElevation, layout: &Layout, y: f64) -> f64 {
    let l = letter(15.0);
    let mut foot = y;
    if let Some(gap) = gap(p) {
        let shown = if inside_tolerance(p) {
            say!("drawing-with-note", x = gap.shown(), note = Phrase("drawing-inside-tolerance"))
        } else {
            gap.shown()
        };
        foot += 22.0;
        let shown = fit(&c.say(shown), 18.0, layout.w);
        c.text(0.0, foot, &shown, &letter(18.0).heavy().mark());
        foot += 8.0;
    }
    let mut entries = Vec::new();
    if p.stub.is_finite() {
        let x = with_tolerance(p.stub, p.stub_tolerance);
        entries.push((Sign::Found, c.say(say!("drawing-stub-as-found-row", x = x))));
    }
    if p.stub_max.is_finite() {
        let x = with_tolerance(p.stub_max, p.stub_max_tolerance);
        entries.push((Sign::Proposed, c.say(say!("drawing-highest-drains-row", x = x))));
    }
    if let Some(z) = must_move(p) {
        entries.push((Sign::Line(Pen::SECOND), c.say(say!("drawing-above-must-move-row", x = inches(z)))));
    }
    if let Some((z, cabinet)) = lowest(p) {
        let words = if cabinet {
            say!("drawing-lowest-cabinet-short", x = inches(z))
        } else {
            say!("drawing-lowest-weir-short", x = inches(z))
        };
        entries.push((Sign::Line(Pen::SECOND), c.say(words)));
    }
    // one to a row: signs that are compared stand under each other
    for entry in &entries {
        foot = key(c, 0.0, foot, layout.w, &l, core::slice::from_ref(entry));
    }
    foot + 4.0
}
