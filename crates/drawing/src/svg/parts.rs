//! What every drawing uses: dimension lines, marks of things found and proposed, the floor, broken edges.

use alloc::{string::String, vec::Vec};

use super::canvas::{Canvas, text_area};
use super::column::spread;
use super::lettering::{fit, width};
use super::path::Path;
use super::pens::{Fill, Hatch, Ink, Letter, Pen};

/// Half the height of a dimension's stroke.
const STROKE: f64 = 5.0;

fn stroke(c: &mut Canvas<'_>, x: f64, y: f64, mark: bool) {
    let (t, pen) = if mark {
        (STROKE + 1.0, Pen::whole(Ink::Mark, 3.0))
    } else {
        (STROKE, Pen::whole(Ink::Strong, 2.0))
    };
    c.line(x - t, y + t, x + t, y - t, pen);
}

const fn dimension(mark: bool) -> Pen {
    if mark { Pen::whole(Ink::Mark, 2.0) } else { Pen::whole(Ink::Quiet, 1.0) }
}

/// The line that carries a dimension out of the thing.
pub(super) const fn extension(mark: bool) -> Pen {
    if mark { Pen::whole(Ink::Mark, 1.25) } else { Pen::whole(Ink::Quiet, 0.9) }
}

/// A level dimension line with its two strokes; in the pencil if it is what was asked.
pub(super) fn dimension_across(c: &mut Canvas<'_>, y: f64, x1: f64, x2: f64, mark: bool) {
    c.line(x1, y, x2, y, dimension(mark));
    stroke(c, x1, y, mark);
    stroke(c, x2, y, mark);
}

/// An upright one. Where its strokes would touch, the line goes on beyond them.
pub(super) fn dimension_up(c: &mut Canvas<'_>, x: f64, y1: f64, y2: f64, mark: bool) {
    let beyond = if libm::fabs(y2 - y1) < 3.0 * STROKE { 3.0 * STROKE } else { 0.0 };
    let (top, bottom) = (libm::fmin(y1, y2), libm::fmax(y1, y2));
    c.line(x, top - beyond, x, bottom + beyond, dimension(mark));
    stroke(c, x, y1, mark);
    stroke(c, x, y2, mark);
}

/// A chain of level dimensions through `stations`, a label under each span; labels wider than their span move aside.
/// Gives where the labels end.
pub(super) fn chain_across(
    c: &mut Canvas<'_>,
    y: f64,
    stations: &[f64],
    labels: &[String],
    l: &Letter,
    ends: [f64; 2],
) -> f64 {
    for pair in stations.windows(2) {
        dimension_across(c, y, pair[0], pair[1], false);
    }
    let most = (ends[1] - ends[0]) / libm::fmax(labels.len() as f64, 1.0) - 8.0;
    let labels: Vec<String> = labels.iter().map(|t| fit(t, l.size, most)).collect();
    let wanted: Vec<(f64, f64)> = stations
        .windows(2)
        .zip(&labels)
        .map(|(pair, text)| ((pair[0] + pair[1]) / 2.0, width(text, l.size) + 8.0))
        .collect();
    let places = spread(&wanted, ends[0], ends[1]);
    let moved = wanted.iter().zip(&places).any(|((center, _), x)| libm::fabs(center - x) > 6.0);
    let baseline = y + l.size + if moved { 14.0 } else { 5.0 };
    for ((text, x), (center, _)) in labels.iter().zip(&places).zip(&wanted) {
        if moved {
            c.line(*center, y, *x, baseline - l.size * 0.85, extension(false));
        }
        c.text(*x, baseline, text, &l.middle());
    }
    baseline + 0.3 * l.size
}

/// As found: a filled disc with a cross.
pub(super) fn found(c: &mut Canvas<'_>, x: f64, y: f64, r: f64) {
    c.line(x - 2.0 * r, y, x + 2.0 * r, y, Pen::SEEN);
    c.line(x, y - 2.0 * r, x, y + 2.0 * r, Pen::SEEN);
    c.circle(x, y, r, Fill::Flat(Ink::Strong), None);
}

/// Proposed: an open disc in the pencil.
pub(super) fn proposed(c: &mut Canvas<'_>, x: f64, y: f64, r: f64) {
    c.circle(x, y, r, Fill::Flat(Ink::Paper), Some(Pen::whole(Ink::Mark, 2.5)));
}

/// The floor, cut.
pub(super) fn floor(c: &mut Canvas<'_>, x1: f64, x2: f64, y: f64) {
    c.line(x1, y, x2, y, Pen::GROUND);
    c.rect(x1, y, x2 - x1, 11.0, Fill::Hatch(Hatch::Wood), None);
}

/// A level edge where a thing goes on but the drawing does not.
pub(super) fn broken_across(c: &mut Canvas<'_>, x1: f64, x2: f64, y: f64) {
    let middle = (x1 + x2) / 2.0;
    let path = Path::new()
        .to(x1, y)
        .across(middle - 9.0)
        .step(5.0, -10.0)
        .step(8.0, 20.0)
        .step(5.0, -10.0)
        .across(x2);
    c.path(&path, Fill::None, Some(Pen::SEEN));
}

/// An upright one; the break lies low, away from what is drawn at the middle.
pub(super) fn broken_up(c: &mut Canvas<'_>, x: f64, y1: f64, y2: f64) {
    let middle = y1 + (y2 - y1) * 0.84;
    let path =
        Path::new().to(x, y1).down(middle - 9.0).step(-10.0, 5.0).step(20.0, 8.0).step(-10.0, 5.0).down(y2);
    c.path(&path, Fill::None, Some(Pen::SEEN));
}

/// Two short strokes through a line of some thickness whose length is not drawn to scale.
pub(super) fn shortened(c: &mut Canvas<'_>, x: f64, y: f64, half: f64) {
    let lean = half * 0.5;
    let gap = Path::new()
        .to(x - 4.0 - lean, y + half)
        .line(x - 4.0 + lean, y - half)
        .line(x + 4.0 + lean, y - half)
        .line(x + 4.0 - lean, y + half)
        .close();
    c.path(&gap, Fill::Flat(Ink::Paper), None);
    for side in [-4.0, 4.0] {
        c.line(x + side - lean, y + half, x + side + lean, y - half, Pen::SEEN);
    }
}

/// A step of 1, 2 or 5 times a power of ten that divides `range` into no more than `most` parts.
pub(super) fn even_step(range: f64, most: f64) -> f64 {
    let rough = range / most;
    if !(rough.is_finite() && rough > 0.0) {
        return 1.0;
    }
    let power = libm::pow(10.0, libm::floor(libm::log10(rough)));
    let digit = [1.0, 2.0, 5.0, 10.0].into_iter().find(|d| d * power >= rough * (1.0 - 1e-9)).unwrap_or(10.0);
    digit * power
}

/// Letters a text at the first of some places at which it touches no other and stays inside; whether it found one.
pub(super) fn letter_where_free(
    c: &mut Canvas<'_>,
    text: &str,
    places: &[(f64, f64, Letter)],
    inside: &[f64; 4],
) -> bool {
    for (x, y, l) in places {
        let a = text_area(*x, *y, text, l);
        let within = a[0] >= inside[0] && a[1] >= inside[1] && a[2] <= inside[2] && a[3] <= inside[3];
        if within && c.is_free(&a) {
            c.text(*x, *y, text, l);
            return true;
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_even() {
        for (range, most, step) in
            [(280.0, 14.0, 20.0), (1.0, 10.0, 0.1), (7.0, 10.0, 1.0), (101.0, 10.0, 20.0)]
        {
            assert!(libm::fabs(even_step(range, most) - step) < 1e-12, "{range}");
        }
        assert_eq!(even_step(f64::NAN, 5.0), 1.0);
        assert_eq!(even_step(0.0, 5.0), 1.0);
    }
}
