//! A pipe that falls over a run, laid out straight: the pipe above, the lengths it is held against under it.

use survey::{Phrase, Said, say};
use trade::picture::FallSection;

use super::NARROW;
use super::canvas::{Canvas, pitch};
use super::lettering::{fit, width};
use super::parts::{dimension_across, extension, shortened};
use super::path::Path;
use super::pens::{Fill, Hatch, Ink, Pen, letter};
use crate::finding::longest_drawn;
use crate::said::{named, text_of};
use crate::setting::held;
use crate::written::{feet, inches};

/// So many limits are drawn.
const LIMITS: usize = 8;
/// A pipe is never drawn thinner, px.
const THIN: f64 = 8.0;

pub(super) fn draw(c: &mut Canvas<'_>, p: &FallSection, w: f64) -> f64 {
    let narrow = w < NARROW;
    let size = if narrow { 14.0 } else { 16.0 };
    let l = letter(size);
    let (left, right) = if narrow { (30.0, 34.0) } else { (46.0, 56.0) };
    let longest = longest_drawn(p);
    let scale = (w - left - right) / longest;
    let at = |x: f64| left + held(x, 0.0, longest) * scale;

    let length = if p.length.is_finite() { held(p.length, 0.0, longest) } else { longest };
    let known = p.length.is_finite() && p.length > 0.0;
    let (x0, x1) = (left, at(length));
    let thick = held(p.diameter * scale, THIN, 26.0);
    let drop = held(p.fall * scale, -30.0, 60.0);
    let y0 = pitch(size) + 34.0;
    let y1 = y0 + drop;

    // names at the ends
    let mid = w / 2.0;
    c.text(4.0, pitch(size), &fit(&c.named(&p.from), size, mid - 12.0), &l.heavy());
    let to = fit(&c.named(&p.to), size, mid - 12.0);
    let end = libm::fmin(libm::fmax(x1 + right - 8.0, mid + width(&to, size)), w - 2.0);
    c.text(end, pitch(size), &to, &l.heavy().end());

    // level from the high end, against which the fall is seen
    let low = libm::fmax(y0, y1) + thick / 2.0;
    if drop > 2.0 {
        c.line(x0, y0, x1 + 26.0, y0, Pen::SECOND);
    }
    trap(c, &p.from, x0, y0, thick);
    stack(c, x1, y1, thick, [pitch(size) + 8.0, low + 26.0]);
    let pipe = Path::new().to(x0, y0).line(x1, y1);
    c.path(&pipe, Fill::None, Some(Pen::whole(Ink::Strong, thick)));
    c.path(&pipe, Fill::None, Some(Pen::whole(Ink::Paper, thick - 3.5)));
    if !known {
        shortened(c, (x0 + x1) / 2.0, (y0 + y1) / 2.0, thick / 2.0 + 3.0);
    }

    // rows under the pipe: what was asked, then each limit; their lines first, so that words stand on them
    let asked_y = low + 18.0 + pitch(size) + 26.0;
    let row = |i: usize| asked_y + (i + 1) as f64 * (14.0 + pitch(size));
    let limits = p.limits.iter().take(LIMITS).enumerate();
    for (i, (_, limit)) in limits.clone().filter(|(_, (_, x))| x.is_finite()) {
        let pen = if i == 0 { Pen::LIMIT } else { Pen::SECOND };
        c.line(at(*limit), row(i) + 8.0, at(*limit), y0 - thick / 2.0 - 8.0, pen);
        dimension_across(c, row(i), x0, at(*limit), false);
    }
    for x in [x0, x1] {
        c.line(x, low + 4.0, x, asked_y + 8.0, extension(true));
    }
    dimension_across(c, asked_y, x0, x1, true);

    if p.fall.is_finite() {
        let shown = fit(&c.say(say!("drawing-falls", x = inches(p.fall))), size, x1 - x0 - 8.0);
        if width(&shown, size) > 40.0 {
            c.text((x0 + x1) / 2.0, low + 18.0 + size * 0.7, &shown, &l.middle().field());
        }
    }
    let room = w - x0 - 14.0;
    let asked = letter(size + 5.0).heavy().mark().field();
    let shown = c.say(if known { feet(p.length) } else { Phrase("drawing-length-not-known").into() });
    c.text(x0 + 10.0, asked_y - 8.0, &fit(&shown, asked.size, room), &asked);
    for (i, (name, limit)) in limits {
        let shown = fit(&c.say(say!("drawing-name-is", name = named(name), x = feet(*limit))), size, room);
        // words longer than their limit stand beside its line if there is room
        let beside = limit.is_finite() && width(&shown, size) + 20.0 > at(*limit) - x0;
        let start =
            if beside && at(*limit) + 10.0 + width(&shown, size) < w { at(*limit) + 10.0 } else { x0 + 10.0 };
        c.text(start, row(i) - 7.0, &shown, &l.field());
    }
    let mut foot = row(p.limits.len().min(LIMITS)) - pitch(size) - 14.0;
    if p.limits.len() > LIMITS {
        foot += pitch(size) + 6.0;
        c.text(x0, foot, &c.say(say!("drawing-and-more", n = p.limits.len() - LIMITS)), &l.quiet());
    }
    foot + 16.0
}

/// The high end: a trap if it is called so, else a cut face.
fn trap(c: &mut Canvas<'_>, name: &Said, x: f64, y: f64, thick: f64) {
    // also where the name is written in Spanish
    let name = text_of(name).to_lowercase();
    if !["trap", "trampa", "sifón"].iter().any(|word| name.contains(word)) {
        c.rect(x - 12.0, y - thick / 2.0 - 8.0, 12.0, thick + 16.0, Fill::Over(Hatch::Wood), Some(Pen::CUT));
        return;
    }
    let r = libm::fmin(thick * 0.8, 13.0);
    let path = Path::new()
        .to(x - 2.0 * r - 2.0, y - 22.0)
        .down(y + r)
        .under(r, 2.0 * r)
        .down(y + thick * 0.5)
        .bend(0.0, -thick * 0.5, thick * 0.5, -thick * 0.5)
        .across(x + thick);
    c.path(&path, Fill::None, Some(Pen::whole(Ink::Strong, thick)));
    c.path(&path, Fill::None, Some(Pen::whole(Ink::Paper, thick - 3.5)));
}

/// The low end: an upright pipe, as of a vent or a stack.
fn stack(c: &mut Canvas<'_>, x: f64, y: f64, thick: f64, [top, bottom]: [f64; 2]) {
    let middle = x + thick / 2.0;
    let path = Path::new().to(middle, top).down(libm::fmax(bottom, y + thick));
    c.path(&path, Fill::None, Some(Pen::whole(Ink::Strong, thick)));
    c.path(&path, Fill::None, Some(Pen::whole(Ink::Paper, thick - 3.5)));
}
