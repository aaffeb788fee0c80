//! A member across its depth: wood as #, the hole open; each rule as a bar of its own under it.

use alloc::format;

use survey::{Said, say};
use trade::picture::BoreSection;

use super::grid::{Grid, column, cut, wide_of};
use crate::finding::{plated, wood_left};
use crate::said::Say;
use crate::written::inches;

pub(super) fn draw(p: &BoreSection, columns: usize, w: Say<'_>) -> Grid {
    let mut g = Grid::new(columns);
    let wide = (columns / 2).min(42);
    let depth = if p.depth.is_finite() && p.depth > 0.0 { p.depth } else { 1.0 };
    let center = if p.center.is_finite() { p.center } else { depth / 2.0 };
    let at = |x: f64| column(x / depth, wide);
    let hole = |d: f64| {
        if d.is_finite() { (at(center - d / 2.0), at(center + d / 2.0)) } else { (0, 0) }
    };
    let words = |g: &mut Grid, row: usize, words: Said| {
        g.write(row, wide + 5, &cut(&w.say(words), columns - wide - 5));
    };

    let shown = w.say(say!("drawing-deep", x = inches(p.depth)));
    let shown = cut(&shown, wide);
    g.put(0, 1, '|');
    g.fill(0, 2, wide + 2, '-');
    g.put(0, wide + 2, '|');
    g.write(0, 2 + (wide - wide_of(&shown)) / 2 - 1, &format!(" {shown} "));

    let (a, b) = hole(p.hole);
    for row in 1..4 {
        bar(&mut g, row, wide, a, b, '#');
        for (edge, plate) in [0, wide + 3].into_iter().zip(plated(p)) {
            if plate {
                g.put(row, edge, '!');
            }
        }
    }
    words(&mut g, 2, say!("drawing-hole-needed-row", x = inches(p.hole)));
    let [near, far] = wood_left(p);
    words(&mut g, 3, say!("drawing-wood-left", near = inches(near), far = inches(far)));
    let (a, b) = hole(p.largest);
    bar(&mut g, 5, wide, a, b, '#');
    words(&mut g, 5, say!("drawing-largest-table-row", x = inches(p.largest)));
    if p.edge_kept.is_finite() && p.edge_kept > 0.0 {
        bar(&mut g, 7, wide, 0, 0, ' ');
        g.fill(7, 2, 2 + at(p.edge_kept), '%');
        g.fill(7, 2 + at(depth - p.edge_kept), 2 + wide, '%');
        words(&mut g, 7, say!("drawing-kept-each-edge", x = inches(p.edge_kept)));
    }
    let row = g.height() + 1;
    g.write(row, 1, &cut(&w.say(say!("drawing-thick", x = inches(p.thickness))), columns - 1));
    if plated(p).contains(&true) {
        let words = w.say(say!("drawing-nail-plate-row", x = inches(p.plate_edge)));
        g.write(row + 1, 0, &cut(&words, columns));
    }
    g
}

/// Wood from edge to edge, open between two columns.
fn bar(g: &mut Grid, row: usize, wide: usize, a: usize, b: usize, c: char) {
    g.put(row, 1, '|');
    g.fill(row, 2, wide + 2, c);
    if b > a {
        g.fill(row, 2 + a, 2 + b, ' ');
        // its edges
        g.put(row, 2 + a, '(');
        g.put(row, (1 + b).max(2 + a), ')');
    }
    g.put(row, wide + 2, '|');
}
