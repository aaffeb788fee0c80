//! What is off, day by day: each day some characters, each of them a part of the working day.

use alloc::format;

use trade::picture::CalendarStrip;

use survey::say;

use super::grid::{Grid, cut, fold, plain, wide_of};
use crate::finding::{Off, offs, working_day};
use crate::said::{Say, figure, not_shown};
use crate::written::hour;

const DAYS: u32 = 60;
const ROWS: usize = 24;
const STAGES: usize = 12;
const CONFLICTS: usize = 8;

pub(super) fn draw(p: &CalendarStrip, columns: usize, w: Say<'_>) -> Grid {
    let mut g = Grid::new(columns);
    let days = p.days.clamp(1, DAYS);
    let names = p.rows.iter().take(ROWS).map(|(n, _)| wide_of(&cut(&w.named(n), 16))).max().unwrap_or(0);
    let left = names + 2;
    // as wide as they fit, from three to five characters for a day and a bar between
    let part = ((columns - left - 1) / days as usize).clamp(4, 6) - 1;
    let per = ((columns - left - 1) / (part + 1)).max(1) as u32;
    let per = if days > per && per > 5 { per / 5 * 5 } else { per.min(days) };
    let mut row = 0;
    let mut first = 1;
    while first <= days {
        let last = (first + per - 1).min(days);
        row = strip(&mut g, (p, w), row, [first, last], left, part) + 1;
        first += per;
    }
    let [from, to] = working_day(p);
    let key = w.say(say!("drawing-off-signs", from = hour(from), to = hour(to)));
    g.write(row, 0, &cut(&key, columns));
    row += 1;
    for (day, words) in p.conflicts.iter().take(CONFLICTS) {
        let head =
            format!("{} ", cut(&w.say(say!("drawing-day-head-small", day = figure(day))), columns / 2));
        for (i, line) in fold(&w.named(words), columns - wide_of(&head), 3).iter().enumerate() {
            if i == 0 {
                g.write(row, 0, &head);
            }
            g.write(row, wide_of(&head), line);
            row += 1;
        }
    }
    for more in not_shown(p, (CONFLICTS, ROWS, DAYS)) {
        g.write(row, 0, &plain(&w.say(more)));
        row += 1;
    }
    g
}

/// Stages, day numbers and rows of some days; gives the row after them.
fn strip(
    g: &mut Grid,
    (p, w): (&CalendarStrip, Say<'_>),
    top: usize,
    [first, last]: [u32; 2],
    left: usize,
    part: usize,
) -> usize {
    let at = |day: u32| left + (day - first) as usize * (part + 1);
    let mut row = top;
    for (name, from, to) in p.stages.iter().take(STAGES) {
        let (from, to) = ((*from).max(first), (*to).min(last));
        if from > to {
            continue;
        }
        let (a, b) = (at(from), at(to) + part + 1);
        // a lane of its own where another stage lies there already
        let lane = (top..=row).find(|r| g.is_free(*r, a + 1, b)).unwrap_or(row + 1);
        row = row.max(lane);
        g.fill(lane, a, b + 1, '-');
        g.put(lane, a, '|');
        g.put(lane, b, '|');
        let name = cut(&w.named(name), (b - a).saturating_sub(3));
        if wide_of(&name) > 1 {
            g.write(lane, a + 1 + (b - a - 1 - wide_of(&name)) / 2, &name);
        }
    }
    row += 1;
    for day in first..=last {
        let shown =
            if p.conflicts.iter().any(|(d, _)| *d == day) { format!("{day}*") } else { format!("{day}") };
        g.write(row, at(day) + 1 + (part.saturating_sub(wide_of(&shown))) / 2, &shown);
    }
    row += 1;
    for (name, blocks) in p.rows.iter().take(ROWS) {
        g.write(row, 0, &cut(&w.named(name), left - 2));
        let offs = offs(p, blocks);
        for day in first..=last {
            g.put(row, at(day), '|');
            for i in 0..part {
                let middle = (i as f64 + 0.5) / part as f64;
                g.put(row, at(day) + 1 + i, mark(&offs, day, middle, part));
            }
        }
        g.put(row, at(last) + part + 1, '|');
        row += 1;
    }
    row
}

/// What is shown at a share of a day; a block too short to reach the middle of a part shows in the part it starts in.
fn mark(offs: &[Off], day: u32, middle: f64, part: usize) -> char {
    let half = 0.5 / part as f64;
    let here = offs.iter().filter(|o| {
        o.day == day
            && ((o.from <= middle && middle < o.to)
                || (o.to - o.from < 2.0 * half && libm::fabs(o.from - middle) <= half))
    });
    match here.map(|o| o.chance).fold(0.0, libm::fmax) {
        c if c >= 0.995 => '#',
        c if c >= 0.5 => '+',
        c if c > 0.0 => '-',
        _ => ' ',
    }
}
