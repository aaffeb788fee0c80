//! A stud or joist with its hole: the face it is bored through, and the cut through the hole.

use alloc::{string::String, vec, vec::Vec};

use survey::{Phrase, Said, say};
use trade::picture::BoreSection;

use super::NARROW;
use super::canvas::Canvas;
use super::column::{Block, column};
use super::lettering::{fit, width, wrap};
use super::parts::{broken_across, broken_up, chain_across, dimension_across, dimension_up, extension};
use super::path::Path;
use super::pens::{Dash, Fill, Hatch, Ink, Letter, Pen, letter};
use crate::finding::{plated, wood_left};
use crate::said::text_of;
use crate::setting::held;
use crate::written::inches;

/// A view of the member: from inches across its depth and along its length to px.
struct View {
    /// The depth runs across the sheet, as of an upright stud; else down it, as of a joist.
    upright: bool,
    /// Left top corner of the face.
    x: f64,
    y: f64,
    scale: f64,
    depth: f64,
    /// Length of face shown, px.
    length: f64,
}

impl View {
    /// A place at a share of the length, `across` inches from the edge the hole is measured from.
    fn place(&self, across: f64, along: f64) -> (f64, f64) {
        let across = held(across, -0.05 * self.depth, 1.05 * self.depth) * self.scale;
        if self.upright {
            (self.x + across, self.y + along * self.length)
        } else {
            (self.x + along * self.length, self.y + across)
        }
    }
    /// A line along the member.
    fn along(&self, c: &mut Canvas<'_>, across: f64, from: f64, to: f64, pen: Pen) {
        let ((x1, y1), (x2, y2)) = (self.place(across, from), self.place(across, to));
        c.line(x1, y1, x2, y2, pen);
    }
}

/// Members that lie level: their depth runs down the sheet.
fn level(member: &Said) -> bool {
    let name = text_of(member).to_lowercase();
    ["joist", "rafter", "beam", "header", "girder", "plate", "viga", "vigueta", "cabio", "cabezal", "solera"]
        .iter()
        .any(|word| name.contains(word))
}

pub(super) fn draw(c: &mut Canvas<'_>, p: &BoreSection, w: f64) -> f64 {
    let narrow = w < NARROW;
    let size = if narrow { 14.0 } else { 16.0 };
    let depth = if p.depth.is_finite() && p.depth > 0.0 { held(p.depth, 0.5, 60.0) } else { 3.5 };
    let upright = !level(&p.member);
    let title = fit(&c.named(&p.member), size + 1.0, w - 8.0);
    c.text(2.0, size + 2.0, &title, &letter(size + 1.0).heavy());
    let top = size + 22.0;

    let view = if upright {
        let span = if narrow { 154.0 } else { 210.0 };
        View {
            upright,
            x: if narrow { 16.0 } else { 30.0 },
            y: top + 10.0,
            scale: span / depth,
            depth,
            length: span * 1.16,
        }
    } else {
        let span = if narrow { 150.0 } else { 200.0 };
        let left = if narrow { 88.0 } else { 96.0 };
        View {
            upright,
            x: left,
            y: top + 6.0,
            scale: span / depth,
            depth,
            length: if narrow { 130.0 } else { 230.0 },
        }
    };
    face(c, &view);
    hole(c, p, &view);
    let below = dimensions(c, p, &view, size);

    let right = view.x + if upright { depth * view.scale } else { view.length };
    let cut_room = 150.0;
    let x = right + if narrow { 18.0 } else { 28.0 };
    let room = if narrow { w - x } else { w - x - cut_room };
    let labels = labels(c, p, &view, x, room, size, [top, below]);
    let mut foot = libm::fmax(below, labels);
    let at = match (narrow, upright) {
        (true, true) => [view.x + depth * view.scale / 2.0, foot + 24.0],
        (true, false) => [x + 50.0, labels + 30.0],
        (false, _) => [w - cut_room / 2.0, view.y + if upright { view.length / 2.0 - 60.0 } else { 16.0 }],
    };
    foot = libm::fmax(foot, cut(c, p, depth, at, w, size));
    foot + 6.0
}

/// The face with its grain and its broken ends.
fn face(c: &mut Canvas<'_>, v: &View) {
    let d = v.depth * v.scale;
    let (w, h) = if v.upright { (d, v.length) } else { (v.length, d) };
    c.rect(v.x, v.y, w, h, Fill::Flat(Ink::Paper), None);
    for share in [0.18, 0.4, 0.66, 0.86] {
        let (x, y) = v.place(share * v.depth, 0.02);
        let bow = libm::fmin(0.12 * v.scale, 8.0);
        let half = v.length * 0.48;
        let grain = if v.upright {
            Path::new().to(x, y).bend(bow, half / 2.0, 0.0, half).bend(-bow, half / 2.0, 0.0, half)
        } else {
            Path::new().to(x, y).bend(half / 2.0, bow, half, 0.0).bend(half / 2.0, -bow, half, 0.0)
        };
        c.path(&grain, Fill::None, Some(Pen::HAIR));
    }
    for across in [0.0, v.depth] {
        v.along(c, across, 0.0, 1.0, Pen::SEEN);
    }
    if v.upright {
        broken_across(c, v.x - 10.0, v.x + w + 10.0, v.y);
        broken_across(c, v.x - 10.0, v.x + w + 10.0, v.y + h);
    } else {
        broken_up(c, v.x, v.y - 10.0, v.y + h + 10.0);
        broken_up(c, v.x + w, v.y - 10.0, v.y + h + 10.0);
    }
}

/// Center of the hole as drawn.
fn center(p: &BoreSection, v: &View) -> f64 {
    if p.center.is_finite() { held(p.center, 0.0, v.depth) } else { v.depth / 2.0 }
}

/// A radius in px of a diameter in inches, at most a little more than the member.
fn radius(diameter: f64, v: &View) -> f64 {
    if diameter.is_finite() { held(diameter / 2.0, 0.0, v.depth * 0.55) * v.scale } else { 0.0 }
}

/// The hole needed, the largest by the table, the wood to keep, the plates.
fn hole(c: &mut Canvas<'_>, p: &BoreSection, v: &View) {
    let (x, y) = v.place(center(p, v), 0.5);
    let (needed, largest) = (radius(p.hole, v), radius(p.largest, v));
    let dashed = Pen { ink: Ink::Strong, weight: 2.0, dash: Dash::Limit };
    c.circle(x, y, needed, Fill::Flat(Ink::Wash), Some(Pen::SUBJECT));
    if largest < needed {
        c.circle(x, y, largest, Fill::Flat(Ink::Paper), Some(dashed));
    } else {
        c.circle(x, y, largest, Fill::None, Some(dashed));
    }
    if p.edge_kept.is_finite() && p.edge_kept > 0.0 && p.edge_kept < v.depth {
        for across in [p.edge_kept, v.depth - p.edge_kept] {
            v.along(c, across, 0.05, 0.95, Pen::SECOND);
        }
    }
    // a steel plate over an edge with too little wood
    for (across, plate) in [0.0, v.depth].into_iter().zip(plated(p)) {
        if plate {
            let (x1, y1) = v.place(across, 0.24);
            let (x2, y2) = v.place(across, 0.76);
            let out = if across == 0.0 { -6.0 } else { 1.0 };
            if v.upright {
                c.rect(x1 + out, y1, 5.0, y2 - y1, Fill::Flat(Ink::Strong), None);
            } else {
                c.rect(x1, y1 + out, x2 - x1, 5.0, Fill::Flat(Ink::Strong), None);
            }
        }
    }
}

/// Depth of the member, and the wood and the hole across it.
fn dimensions(c: &mut Canvas<'_>, p: &BoreSection, v: &View, size: f64) -> f64 {
    let span = v.depth * v.scale;
    let shown = c.say(inches(p.depth));
    let [near, far] = wood_left(p);
    let l = letter(size);
    let half = held(p.hole / 2.0, 0.0, v.depth);
    let mid = center(p, v);
    let edges = [held(mid - half, 0.0, v.depth), held(mid + half, 0.0, v.depth)];
    let split = near.is_finite() && far.is_finite() && near > 0.0 && far > 0.0;
    if v.upright {
        let mut y = v.y + v.length + 22.0;
        for x in [v.x, v.x + span] {
            c.line(x, v.y + v.length + 12.0, x, y + 8.0, extension(false));
        }
        if split {
            let stations = [0.0, edges[0], edges[1], v.depth].map(|a| v.x + a * v.scale);
            for x in &stations[1..3] {
                c.line(*x, v.y + v.length / 2.0, *x, y + 8.0, Pen::HAIR);
            }
            let labels = [inches(near), inches(p.hole), inches(far)].map(|x| c.say(x));
            y = chain_across(c, y, &stations, &labels, &l, [2.0, v.x + span + 14.0]) + 14.0;
        }
        dimension_across(c, y, v.x, v.x + span, false);
        c.text(v.x + span / 2.0, y + size + 5.0, &fit(&shown, size, span), &l.middle());
        y + size + 14.0
    } else {
        let x = v.x - 20.0;
        for y in [v.y, v.y + span] {
            c.line(v.x - 10.0, y, x - 8.0, y, extension(false));
        }
        let mut blocks: Vec<Block> = Vec::new();
        if split {
            let stations = [0.0, edges[0], edges[1], v.depth].map(|a| v.y + a * v.scale);
            for pair in stations.windows(2) {
                dimension_up(c, x, pair[0], pair[1], false);
            }
            for (pair, value) in stations.windows(2).zip([near, p.hole, far]) {
                blocks.push(Block::new(
                    (pair[0] + pair[1]) / 2.0,
                    vec![(fit(&c.say(inches(value)), size, x - 8.0), l.end())],
                ));
            }
        } else {
            dimension_up(c, x, v.y, v.y + span, false);
        }
        column(c, x - 9.0, &blocks, v.y - 10.0, v.y + span + 10.0);
        let words = c.say(say!("drawing-deep", x = shown));
        c.text(
            v.x + v.length / 2.0,
            v.y + span + size + 22.0,
            &fit(&words, size, v.length + 40.0),
            &l.middle(),
        );
        v.y + span + size + 30.0
    }
}

/// Words at the right, each led from what it names.
fn labels(
    c: &mut Canvas<'_>,
    p: &BoreSection,
    v: &View,
    x: f64,
    room: f64,
    size: f64,
    [top, bottom]: [f64; 2],
) -> f64 {
    let (cx, cy) = v.place(center(p, v), 0.5);
    let body = letter(size);
    let asked = letter(size + 3.0).heavy().mark();
    let set = |texts: &[(String, Letter)]| -> Vec<(String, Letter)> {
        texts.iter().flat_map(|(t, l)| wrap(t, l.size, room, 3).into_iter().map(|s| (s, *l))).collect()
    };
    let (needed, largest) = (radius(p.hole, v), radius(p.largest, v));
    // a point of a circle, by how far up it lies
    let on = |r: f64, up: f64| (cx + r * libm::sqrt(1.0 - up * up), cy - r * up);
    let mut blocks: Vec<Block> = Vec::new();
    let mut add = |from: (f64, f64), texts: &[(String, Letter)], pen: Pen| {
        blocks.push(Block::new(from.1, set(texts)).led(from.0, pen));
    };
    add(
        on(needed, 0.75),
        &[(c.say(Phrase("drawing-hole-needed")), asked), (c.say(inches(p.hole)), asked)],
        Pen::SUBJECT_THIN,
    );
    if p.largest.is_finite() {
        let words = c.say(say!("drawing-largest-table", x = inches(p.largest)));
        add(on(largest, if largest < needed { -0.35 } else { 0.2 }), &[(words, body)], Pen::BEYOND);
    }
    if p.edge_kept.is_finite() {
        let words = c.say(say!("drawing-kept-each-edge", x = inches(p.edge_kept)));
        let from = v.place(v.depth - p.edge_kept, if v.upright { 0.88 } else { 0.95 });
        add(from, &[(words, body.quiet())], Pen::BEYOND);
    }
    let [near, far] = plated(p);
    if near || far {
        let words = c.say(if near && far {
            say!("drawing-nail-plates", x = inches(p.plate_edge))
        } else {
            say!("drawing-nail-plate", x = inches(p.plate_edge))
        });
        // from the plate that is nearer to the words
        let from = match (v.upright, far) {
            (true, true) => v.place(v.depth, 0.7),
            (true, false) => v.place(0.0, 0.76),
            (false, _) => v.place(if near { 0.0 } else { v.depth }, 0.76),
        };
        add(from, &[(words, body)], Pen::BEYOND);
    }
    column(c, x, &blocks, top, bottom)
}

/// The member cut through the middle of the hole, about `x` and from `y` down: what wood is left.
fn cut(c: &mut Canvas<'_>, p: &BoreSection, depth: f64, [x, y]: [f64; 2], w: f64, size: f64) -> f64 {
    let thickness =
        if p.thickness.is_finite() && p.thickness > 0.0 { held(p.thickness, 0.2, depth * 2.0) } else { 1.5 };
    let upright = !level(&p.member);
    let long = if upright { 118.0 } else { 150.0 };
    let scale = libm::fmin(long / depth, 90.0 / thickness);
    let l = letter(libm::fmax(size - 1.0, 14.0)).quiet();
    let (dw, dh) =
        if upright { (depth * scale, thickness * scale) } else { (thickness * scale, depth * scale) };
    let caption = c.say(Phrase("drawing-cut-at-hole"));
    let middle = libm::fmin(x, w - width(&caption, l.size) / 2.0 - 2.0);
    c.text(middle, y - 10.0, &caption, &l.middle());
    let x = middle - dw / 2.0;
    c.rect(x, y, dw, dh, Fill::Over(Hatch::Wood), Some(Pen::CUT));
    let half = held(p.hole / 2.0, 0.0, depth);
    let mid = if p.center.is_finite() { held(p.center, 0.0, depth) } else { depth / 2.0 };
    let (a, b) = (held(mid - half, 0.0, depth) * scale, held(mid + half, 0.0, depth) * scale);
    if b - a > 0.5 {
        let (vx, vy, vw, vh) = if upright { (x + a, y, b - a, dh) } else { (x, y + a, dw, b - a) };
        c.rect(vx, vy, vw, vh, Fill::Flat(Ink::Wash), Some(Pen::whole(Ink::Mark, 2.0)));
    }
    for (far, plate) in [false, true].into_iter().zip(plated(p)) {
        if plate {
            if upright {
                c.rect(if far { x + dw + 1.0 } else { x - 6.0 }, y, 5.0, dh, Fill::Flat(Ink::Strong), None);
            } else {
                c.rect(x, if far { y + dh + 1.0 } else { y - 6.0 }, dw, 5.0, Fill::Flat(Ink::Strong), None);
            }
        }
    }
    let mut foot = y + dh + 6.0;
    if p.thickness.is_finite() {
        let words =
            fit(&c.say(say!("drawing-thick", x = inches(p.thickness))), l.size, width(&caption, l.size));
        foot += l.size + 4.0;
        c.text(middle, foot, &words, &l.middle());
    }
    foot + 6.0
}
