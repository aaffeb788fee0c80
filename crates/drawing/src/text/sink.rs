//! Sink, trap and stub as a scale of heights with the section beside it.

use alloc::{string::String, vec::Vec};

use survey::{Phrase, Said, say};
use trade::picture::SinkElevation;

use super::grid::{Grid, cut, plain};
use crate::finding::{gap, governing, inside_tolerance, lowest};
use crate::said::Say;
use crate::written::{give_or_take, inches};

/// Column in which the scale stands, and how wide the section is.
const SCALE: usize = 11;
const SECTION: usize = 27;
/// Inches for one row.
const ROW: f64 = 2.0;

/// What lies at a height.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Counter,
    Bowl,
    /// The bowl that does not govern.
    Other,
    Outlet,
    Stub,
    Highest,
    MustMove,
    Lowest,
    Cabinet,
    Floor,
}

struct Level {
    z: f64,
    kind: Kind,
    words: Said,
    row: usize,
}

/// The tolerance after its words; the height itself stands on the scale.
fn with_tolerance(words: Phrase, tolerance: f64) -> Said {
    give_or_take(tolerance).map_or_else(|| words.into(), |t| say!("drawing-with-note", x = words, note = t))
}

fn levels(p: &SinkElevation) -> Vec<Level> {
    let mut levels: Vec<Level> = Vec::new();
    let mut add = |z: f64, kind: Kind, words: Said| {
        if z.is_finite() {
            levels.push(Level { z, kind, words, row: 0 });
        }
    };
    add(p.counter, Kind::Counter, Phrase("drawing-counter").into());
    if let Some((lead, z)) = governing(&p.bowls) {
        add(z, Kind::Bowl, say!("drawing-inside-bowl-deep", x = inches(p.bowl_plane - z)));
        if let Some((_, z)) = p.bowls.iter().take(2).enumerate().find(|(i, other)| *i != lead && **other != z)
        {
            add(*z, Kind::Other, say!("drawing-inside-other-deep", x = inches(p.bowl_plane - z)));
        }
    }
    let outlet =
        if p.disposer { Phrase("drawing-disposer-outlet") } else { Phrase("drawing-bottom-of-strainer") };
    add(p.connection, Kind::Outlet, outlet.into());
    add(p.stub, Kind::Stub, with_tolerance(Phrase("drawing-stub-as-found-small"), p.stub_tolerance));
    add(
        p.stub_max,
        Kind::Highest,
        with_tolerance(Phrase("drawing-highest-drains-small"), p.stub_max_tolerance),
    );
    if p.stub_max < p.stub && p.stub <= p.stub_abs {
        add(p.stub_abs, Kind::MustMove, Phrase("drawing-above-this").into());
    }
    if let Some((z, cabinet)) = lowest(p) {
        let words =
            if cabinet { Phrase("drawing-lowest-cabinet-row") } else { Phrase("drawing-lowest-weir-row") };
        add(z, Kind::Lowest, words.into());
    }
    add(p.cabinet_floor, Kind::Cabinet, Phrase("drawing-cabinet-floor").into());
    add(0.0, Kind::Floor, Phrase("drawing-finished-floor").into());
    levels.sort_by(|a, b| b.z.total_cmp(&a.z));
    levels
}

/// Gives each level a row of its own, as near to scale as that allows.
fn rows(levels: &mut [Level]) {
    let top = levels.first().map_or(0.0, |l| l.z);
    let mut next = 0;
    for level in levels.iter_mut() {
        let wanted = libm::round((top - level.z) / ROW);
        // no more than eight rows between two levels, however far apart they are
        let wanted = wanted.clamp(0.0, 1e6) as usize;
        level.row = wanted.clamp(next, next + 8);
        next = level.row + 1;
    }
}

pub(super) fn draw(p: &SinkElevation, columns: usize, w: Say<'_>) -> Grid {
    let mut levels = levels(p);
    rows(&mut levels);
    let mut g = Grid::new(columns);
    let (left, right) = (SCALE + 2, SCALE + 2 + SECTION);
    let row_of = |kind: Kind| levels.iter().find(|l| l.kind == kind).map(|l| l.row);
    let floor = row_of(Kind::Floor).unwrap_or(0);
    let last = levels.last().map_or(0, |l| l.row);
    for row in 0..=last {
        g.put(row, SCALE, '|');
    }
    // the cabinet's sides
    let top = row_of(Kind::Counter).unwrap_or(0);
    for row in top + 1..floor {
        g.put(row, left, '|');
        g.put(row, right, '|');
    }
    for level in &levels {
        line(&mut g, level, left, right);
    }
    shapes(&mut g, p, left, &row_of);
    // words last, so that nothing lies on them
    for level in &levels {
        let shown = if level.z == 0.0 { String::from("0") } else { w.say(inches(level.z)) };
        g.write_before(level.row, SCALE - 1, &cut(&shown, SCALE - 1));
        g.put(level.row, SCALE, '+');
        g.write(level.row, right + 3, &cut(&w.say(level.words.clone()), columns - right - 3));
    }
    conclusion(&mut g, p, columns, w);
    g
}

/// The line of a level across the section.
fn line(g: &mut Grid, level: &Level, left: usize, right: usize) {
    let row = level.row;
    match level.kind {
        Kind::Counter => {
            g.fill(row, left - 1, left + 4, '#');
            g.fill(row, right - 3, right + 2, '#');
        }
        Kind::Floor => g.fill(row, left - 1, right + 2, '/'),
        Kind::Cabinet => g.fill(row, left + 1, right, '='),
        Kind::Highest => {
            for column in (left + 15..right).step_by(2) {
                g.put(row, column, '-');
            }
            g.write(row, right - 5, "( )");
        }
        Kind::Stub => {
            g.fill(row, left + 16, right, '.');
            g.write(row, right - 5, "(X)");
        }
        Kind::Lowest | Kind::MustMove => {
            for column in (left + 15..right).step_by(2) {
                g.put(row, column, '.');
            }
        }
        Kind::Bowl | Kind::Other | Kind::Outlet => {}
    }
}

/// Bowl, disposer or strainer, trap and arm between the rows of their levels.
fn shapes(g: &mut Grid, p: &SinkElevation, left: usize, row_of: &dyn Fn(Kind) -> Option<usize>) {
    let (Some(counter), Some(bowl)) = (row_of(Kind::Counter), row_of(Kind::Bowl)) else { return };
    for row in counter + 1..bowl {
        g.put(row, left + 3, '|');
        g.put(row, left + SECTION - 3, '|');
    }
    g.put(bowl, left + 3, '\\');
    g.fill(bowl, left + 4, left + SECTION - 3, '_');
    g.put(bowl, left + SECTION - 3, '/');
    let (Some(outlet), Some(arm)) = (row_of(Kind::Outlet), row_of(Kind::Highest)) else { return };
    if outlet <= bowl || arm <= outlet {
        return;
    }
    let (body, inlet) = if p.disposer { (left + 4, left + 11) } else { (left + 7, left + 8) };
    let foot = if p.disposer { arm + 1 } else { outlet };
    if p.disposer {
        for row in bowl + 1..=foot {
            g.write(row, body, if row == foot { "|___|" } else { "|   |" });
        }
        g.write(outlet, body + 5, "==.");
        g.put(outlet, inlet, '.');
    } else {
        for row in bowl + 1..=outlet {
            g.write(row, body, if row == outlet { "|_|" } else { "| |" });
        }
    }
    // down into the trap, round, and level to the stub
    for row in outlet + 1..arm + 1 {
        g.put(row, inlet, '|');
    }
    g.write(arm, inlet, "|  .");
    for column in inlet + 4..left + SECTION - 5 {
        g.put(arm, column, '-');
    }
    g.write(arm + 1, inlet, "\\__/");
}

fn conclusion(g: &mut Grid, p: &SinkElevation, columns: usize, w: Say<'_>) {
    let Some(gap) = gap(p) else { return };
    let mut said = say!("drawing-stub-gap", gap = gap.shown());
    if inside_tolerance(p) {
        said = say!("drawing-with-note", x = said, note = Phrase("drawing-inside-tolerance"));
    }
    let row = g.height() + 1;
    g.write(row, SCALE + 2, &cut(&w.say(said), columns - SCALE - 2));
    g.write(row + 1, SCALE + 2, &plain(&w.say(Phrase("drawing-signs-found-proposed"))));
}
