//! A ceiling from below: joists as bars, lights as O, moved ones as @, the fixture replaced as X.

use alloc::string::ToString;

use survey::{Phrase, say};
use trade::picture::CeilingPlan;

use super::grid::{Grid, column, cut, plain};
use crate::said::Say;
use crate::setting::held;
use crate::written::{feet, inches};

const TALL: f64 = 2.0;
const DRAWN: usize = 400;
/// So many lights are listed with their places.
const LISTED: usize = 20;

pub(super) fn draw(p: &CeilingPlan, columns: usize, w: Say<'_>) -> Grid {
    let mut g = Grid::new(columns);
    let known = |x: f64| if x.is_finite() && x > 0.0 { held(x, 6.0, 2400.0) } else { 120.0 };
    let (width, depth) = (known(p.width), known(p.depth));
    let wide = (columns - 4).min(46);
    let tall = libm::round(wide as f64 * depth / width / TALL).clamp(5.0, 24.0) as usize;
    let x = |v: f64| 1 + column(v / width, wide);
    let y = |v: f64| 1 + tall - column(v / depth, tall);

    for row in [0, tall + 2] {
        g.fill(row, 1, wide + 2, '-');
        g.put(row, 0, '+');
        g.put(row, wide + 2, '+');
    }
    for row in 1..=tall + 1 {
        g.put(row, 0, '|');
        g.put(row, wide + 2, '|');
        for j in p.joists.iter().take(DRAWN).filter(|j| j.is_finite()) {
            g.put(row, x(*j).min(wide + 1), ':');
        }
    }
    if let Some((fx, fy)) = p.old_fixture.filter(|(a, b)| a.is_finite() && b.is_finite()) {
        g.put(y(fy), x(fx), 'X');
    }
    let lights = || p.lights.iter().filter(|l| l.0.is_finite() && l.1.is_finite());
    for (lx, ly, _, moved) in lights().take(DRAWN) {
        g.put(y(*ly), x(*lx), if *moved { '@' } else { 'O' });
    }
    g.write(
        tall + 3,
        0,
        &cut(&w.say(say!("drawing-wide-by", width = feet(p.width), depth = feet(p.depth))), columns),
    );
    g.write(tall + 4, 0, &cut(&w.say(Phrase("drawing-ceiling-signs")), columns));
    let mut row = tall + 6;
    for (lx, ly, hole, moved) in lights().take(LISTED) {
        let sign = if *moved { '@' } else { 'O' };
        let (left, up, hole) = (feet(*lx), feet(*ly), inches(*hole));
        let words = say!("drawing-from-left-up", sign = sign.to_string(), left = left, up = up, hole = hole);
        g.write(row, 0, &cut(&w.say(words), columns));
        row += 1;
    }
    if p.lights.len() > LISTED {
        g.write(row, 0, &plain(&w.say(say!("drawing-and-more", n = p.lights.len() - LISTED))));
    }
    g
}
