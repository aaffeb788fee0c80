//! A wall from the front: holes as boxes with their tags, patches dotted, framing as bars.

use survey::say;
use trade::picture::WallElevation;

use super::grid::{Grid, column, cut, wide_of};
use crate::finding::{by_trade, corners, patched};
use crate::said::{Say, named, text_of};
use crate::setting::held;
use crate::written::{amount, feet};

/// A character is about twice as high as wide.
const TALL: f64 = 2.0;
const TRADES: usize = 12;
const DRAWN: usize = 400;

pub(super) fn draw(p: &WallElevation, columns: usize, w: Say<'_>) -> Grid {
    let mut g = Grid::new(columns);
    let known = |x: f64| if x.is_finite() && x > 0.0 { held(x, 6.0, 2400.0) } else { 96.0 };
    let (width, height) = (known(p.width), known(p.height));
    let wide = columns - 4;
    let tall = libm::round(wide as f64 * height / width / TALL).clamp(6.0, 24.0) as usize;
    let x = |v: f64| 1 + column(v / width, wide);
    let y = |v: f64| 1 + tall - column(v / height, tall);

    g.fill(0, 0, wide + 3, '=');
    for row in 1..=tall {
        g.put(row, 0, '|');
        g.put(row, wide + 2, '|');
        for f in p.framing.iter().take(DRAWN).filter(|f| f.is_finite()) {
            g.put(row, x(*f).min(wide + 1), ':');
        }
    }
    g.fill(tall + 1, 0, wide + 3, '/');
    for r in p.patches.iter().take(DRAWN).filter_map(corners) {
        outline(&mut g, [x(r[0]), y(r[3]), x(r[2]), y(r[1])], tall, ['.', '.', '.']);
    }
    for (tag, _, r) in p.holes.iter().take(DRAWN) {
        let Some(r) = corners(r) else { continue };
        let [x0, y0, x1, y1] = [x(r[0]), y(r[3]), x(r[2]), y(r[1])];
        outline(&mut g, [x0, y0, x1, y1], tall, ['+', '-', '|']);
        let tag = cut(text_of(tag), 6);
        let middle = ((x0 + x1) / 2 + 1).saturating_sub(wide_of(&tag).div_ceil(2));
        g.write((y0 + y1) / 2, middle.min(wide + 2 - wide_of(&tag)), &tag);
    }
    g.write(
        tall + 2,
        0,
        &cut(&w.say(say!("drawing-wide-high", width = feet(p.width), height = feet(p.height))), columns),
    );
    let mut row = tall + 4;
    for t in by_trade(p).iter().take(TRADES) {
        let (trade, holes) = (named(&t.trade), say!("drawing-holes", n = t.holes));
        let words =
            say!("drawing-trade-holes-plain", trade = trade, holes = holes, area = amount(t.square_feet));
        g.write(row, 0, &cut(&w.say(words), columns));
        row += 1;
    }
    if !p.patches.is_empty() {
        let patches = say!("drawing-patches", n = p.patches.len());
        let words = say!("drawing-patches-dotted", patches = patches, area = amount(patched(p)));
        g.write(row, 0, &cut(&w.say(words), columns));
    }
    g
}

/// The edge of an area, at least three by two characters, kept above the floor.
fn outline(g: &mut Grid, [x0, y0, x1, y1]: [usize; 4], tall: usize, [corner, across, up]: [char; 3]) {
    let (y0, y1) = (y0.min(tall), y1.clamp(1, tall));
    let y0 = y0.min(y1).max(1);
    let x1 = x1.max(x0 + 1);
    for row in y0..=y1 {
        for column in x0..=x1 {
            let edge = (row == y0 || row == y1, column == x0 || column == x1);
            match edge {
                (true, true) => g.put(row, column, corner),
                (true, false) => g.put(row, column, across),
                (false, true) => g.put(row, column, up),
                // inside a hole the framing is gone from sight
                (false, false) if up == '|' => g.put(row, column, ' '),
                _ => {}
            }
        }
    }
}
