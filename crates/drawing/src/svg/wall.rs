//! A wall from the front with its holes, hatched by trade, and its patches, dashed.

use alloc::{string::String, vec, vec::Vec};

use survey::{Phrase, Said, say};
use trade::picture::WallElevation;

use super::NARROW;
use super::canvas::{Canvas, overlap, text_area};
use super::key::{Sign, key};
use super::lettering::{fit, width};
use super::parts::{dimension_across, dimension_up, extension, floor, letter_where_free};
use super::pens::{Dash, Fill, Hatch, Hold, Ink, Letter, Pen, letter};
use crate::finding::{by_trade, corners, patched};
use crate::said::{named, text_of};
use crate::setting::held;
use crate::written::{amount, feet};

/// Thickness of framing.
const STUD: f64 = 1.5;
/// So many of each are drawn.
const DRAWN: usize = 400;
/// So many trades have a row in the key.
const TRADES: usize = 8;
const EDGE: Pen = Pen::whole(Ink::Strong, 2.25);
const PATCH: Pen = Pen { ink: Ink::Strong, weight: 1.75, dash: Dash::Limit };

/// From inches on the wall to px.
struct Frame {
    left: f64,
    floor: f64,
    scale: f64,
    width: f64,
    height: f64,
}

impl Frame {
    fn x(&self, x: f64) -> f64 {
        self.left + held(x, 0.0, self.width) * self.scale
    }
    fn y(&self, y: f64) -> f64 {
        self.floor - held(y, 0.0, self.height) * self.scale
    }
    /// Left, top, width, height in px, never quite nothing. None where a corner is not known.
    fn area(&self, r: &[f64; 4]) -> Option<[f64; 4]> {
        let [x0, y0, x1, y1] = corners(r)?;
        let (left, top) = (self.x(x0), self.y(y1));
        Some([left, top, libm::fmax(self.x(x1) - left, 3.0), libm::fmax(self.y(y0) - top, 3.0)])
    }
}

/// The hatch of a trade: by its name where it has one of its own, else the next that is free.
fn hatches(trades: &[Said]) -> Vec<Hatch> {
    let own = |name: &Said| {
        let name = text_of(name).to_lowercase();
        let has = |words: &[&str]| words.iter().any(|w| name.contains(w));
        if has(&["plumb", "drain", "water", "plom", "desag", "agua"]) {
            Some(Hatch::Wood)
        } else if has(&["electric", "power", "light", "eléctric", "luz", "luces"]) {
            Some(Hatch::Dots)
        } else if has(&["duct", "vent", "hvac", "heat", "calef"]) {
            Some(Hatch::Grid)
        } else if has(&["gas"]) {
            Some(Hatch::Back)
        } else {
            None
        }
    };
    let mut free: Vec<Hatch> = vec![Hatch::Dense, Hatch::Back, Hatch::Grid, Hatch::Dots, Hatch::Wood];
    free.retain(|h| !trades.iter().any(|t| own(t) == Some(*h)));
    let mut free = free.into_iter().cycle();
    trades.iter().map(|t| own(t).or_else(|| free.next()).unwrap_or(Hatch::Dense)).collect()
}

pub(super) fn draw(c: &mut Canvas<'_>, p: &WallElevation, w: f64) -> f64 {
    let narrow = w < NARROW;
    let size = if narrow { 14.0 } else { 15.0 };
    let (width_in, height_in) = (known(p.width, 96.0), known(p.height, 96.0));
    let left = held(width(&c.say(feet(p.height)), size) + 36.0, 52.0, 110.0);
    let room = w - left - 10.0;
    // a long wall fills the width, a tall one the height
    let scale = libm::fmin(room / width_in, if narrow { 300.0 } else { 430.0 } / height_in);
    let title = fit(&c.say(say!("drawing-to-scale", name = named(&p.name))), 17.0, w - 4.0);
    c.text(2.0, 18.0, &title, &letter(17.0).heavy());
    let f = Frame { left, floor: 44.0 + height_in * scale, scale, width: width_in, height: height_in };

    wall(c, &f, p);
    let trades: Vec<Said> = by_trade(p).into_iter().map(|t| t.trade).collect();
    let hatches = hatches(&trades);
    for r in p.patches.iter().take(DRAWN).filter_map(|r| f.area(r)) {
        c.rect(r[0], r[1], r[2], r[3], Fill::None, Some(PATCH));
    }
    for (_, trade, r) in p.holes.iter().take(DRAWN) {
        let hatch = trades.iter().position(|t| t == trade).and_then(|i| hatches.get(i));
        if let (Some(r), Some(hatch)) = (f.area(r), hatch) {
            c.rect(r[0], r[1], r[2], r[3], Fill::Over(*hatch), Some(EDGE));
        }
    }
    let unlettered = tags(c, &f, p, size);
    let foot = dimensions(c, &f, p, size);
    legend(c, p, &hatches, unlettered, foot + 10.0, w, size)
}

fn known(x: f64, usual: f64) -> f64 {
    if x.is_finite() && x > 0.0 { held(x, 6.0, 2400.0) } else { usual }
}

/// Floor, edges, ceiling, framing behind the board.
fn wall(c: &mut Canvas<'_>, f: &Frame, p: &WallElevation) {
    let (right, top) = (f.x(f.width), f.y(f.height));
    for x in p.framing.iter().take(DRAWN).filter(|x| x.is_finite()) {
        for side in [-STUD / 2.0, STUD / 2.0] {
            let x = f.x(x + side);
            c.line(x, top, x, f.floor, Pen::HIDDEN);
        }
    }
    c.rect(f.left - 8.0, top - 6.0, right - f.left + 16.0, 6.0, Fill::Over(Hatch::Wood), Some(Pen::SEEN));
    c.line(f.left, top, f.left, f.floor, Pen::SEEN);
    c.line(right, top, right, f.floor, Pen::SEEN);
    floor(c, f.left - 8.0, right + 8.0, f.floor);
}

/// Tags in their holes where they fit, else beside them; gives those that found no place.
fn tags(c: &mut Canvas<'_>, f: &Frame, p: &WallElevation, size: f64) -> usize {
    let l = letter(size).heavy().middle().field();
    let page = [f.left + 3.0, f.y(f.height) + 1.0, f.x(f.width) - 3.0, f.floor - 2.0];
    let areas: Vec<[f64; 4]> = p.holes.iter().take(DRAWN).filter_map(|(_, _, r)| f.area(r)).collect();
    let mut unlettered = p.holes.len().saturating_sub(DRAWN);
    for (tag, _, r) in p.holes.iter().take(DRAWN) {
        let Some([x, y, w, h]) = f.area(r) else { continue };
        let tag = text_of(tag);
        if tag.is_empty() {
            continue;
        }
        let tag = fit(tag, size, 120.0);
        let wide = width(&tag, size);
        let (middle, base) = (x + w / 2.0, y + h / 2.0 + size * 0.36);
        let inside = wide + 10.0 < w && size + 8.0 < h;
        let start = Letter { hold: Hold::Start, ..l };
        let mut places: Vec<(f64, f64, Letter)> = Vec::new();
        if inside {
            places.push((middle, base, l));
        }
        places.extend([
            (middle, y - 6.0, l),
            (middle, y + h + size + 2.0, l),
            (x + w, y - 6.0, start.end()),
            (x, y - 6.0, start),
            (x + w, y + h + size + 2.0, start.end()),
            (x, y + h + size + 2.0, start),
            (x + w + 7.0, base, start),
            (x - 7.0, base, start.end()),
        ]);
        // not on another hole
        places.retain(|(x, y, l)| {
            let area = text_area(*x, *y, &tag, l);
            let on = areas.iter().filter(|[ax, ay, aw, ah]| overlap(&area, &[*ax, *ay, ax + aw, ay + ah]));
            on.count() <= usize::from(inside)
        });
        if !letter_where_free(c, &tag, &places, &page) {
            unlettered += 1;
        }
    }
    unlettered
}

fn dimensions(c: &mut Canvas<'_>, f: &Frame, p: &WallElevation, size: f64) -> f64 {
    let l = letter(size);
    let y = f.floor + 30.0;
    let (right, top) = (f.x(f.width), f.y(f.height));
    for x in [f.left, right] {
        c.line(x, f.floor + 14.0, x, y + 8.0, extension(false));
    }
    dimension_across(c, y, f.left, right, false);
    c.text(
        (f.left + right) / 2.0,
        y + size + 5.0,
        &fit(&c.say(feet(p.width)), size, right - f.left + 60.0),
        &l.middle(),
    );
    let x = f.left - 20.0;
    for y in [top, f.floor] {
        c.line(f.left - 9.0, y, x - 8.0, y, extension(false));
    }
    dimension_up(c, x, top, f.floor, false);
    c.text(
        x - 9.0,
        (top + f.floor) / 2.0 + size * 0.36,
        &fit(&c.say(feet(p.height)), size, x - 11.0),
        &l.end(),
    );
    y + size + 10.0
}

/// Each trade with its holes; framing and patches.
fn legend(
    c: &mut Canvas<'_>,
    p: &WallElevation,
    hatches: &[Hatch],
    unlettered: usize,
    y: f64,
    w: f64,
    size: f64,
) -> f64 {
    let l = letter(size);
    let trades = by_trade(p);
    let mut entries: Vec<(Sign, String)> = trades
        .iter()
        .zip(hatches)
        .take(TRADES)
        .map(|(t, hatch)| {
            let (trade, holes) = (named(&t.trade), say!("drawing-holes", n = t.holes));
            let words =
                say!("drawing-trade-holes", trade = trade, holes = holes, area = amount(t.square_feet));
            (Sign::Swatch(Fill::Over(*hatch), EDGE), c.say(words))
        })
        .collect();
    if !p.patches.is_empty() {
        let patches = say!("drawing-patches", n = p.patches.len());
        let words = say!("drawing-patches-area", patches = patches, area = amount(patched(p)));
        entries.push((Sign::Swatch(Fill::None, PATCH), c.say(words)));
    }
    if !p.framing.is_empty() {
        entries.push((Sign::Line(Pen::HIDDEN), c.say(Phrase("drawing-framing-behind"))));
    }
    let mut foot = key(c, 0.0, y, w, &l, &entries);
    let more = trades.len().saturating_sub(TRADES);
    for words in [
        (more > 0).then(|| say!("drawing-and-trades-more", n = more)),
        (unlettered > 0).then(|| say!("drawing-without-tag", holes = say!("drawing-holes", n = unlettered))),
    ]
    .into_iter()
    .flatten()
    {
        foot += size + 4.0;
        let words = c.say(words);
        c.text(4.0, foot, &fit(&words, size, w - 8.0), &l.quiet());
        foot += 4.0;
    }
    foot + 4.0
}
