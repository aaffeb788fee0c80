//! What is off, day by day: black where it is off for certain, filled to the share of the chance where it is not.

use alloc::{format, string::String, vec::Vec};

use survey::{Phrase, say};
use trade::picture::CalendarStrip;

use super::NARROW;
use super::canvas::{Canvas, pitch};
use super::key::{Sign, key};
use super::lettering::{width, wrap};
use super::parts::letter_where_free;
use super::pens::{Fill, Ink, Letter, Pen, letter};
use crate::finding::{Off, offs, working_day};
use crate::said::{figure, not_shown};
use crate::written::hour;

/// No more days, rows, stages and conflicts than these are drawn; the rest is counted.
const DAYS: u32 = 60;
const ROWS: usize = 24;
const LANES: usize = 4;
const CONFLICTS: usize = 8;

/// One strip of days under each other where they do not fit side by side.
struct Strip {
    first: u32,
    last: u32,
    left: f64,
    cell: f64,
}

impl Strip {
    fn x(&self, day: u32, share: f64) -> f64 {
        self.left + (f64::from(day - self.first) + share) * self.cell
    }
    fn days(&self) -> core::ops::RangeInclusive<u32> {
        self.first..=self.last
    }
}

struct Layout {
    narrow: bool,
    size: f64,
    /// Height of a row.
    row: f64,
    w: f64,
}

pub(super) fn draw(c: &mut Canvas<'_>, p: &CalendarStrip, w: f64) -> f64 {
    let narrow = w < NARROW;
    let layout =
        Layout { narrow, size: if narrow { 15.0 } else { 17.0 }, row: if narrow { 36.0 } else { 44.0 }, w };
    let days = p.days.clamp(1, DAYS);
    let names =
        p.rows.iter().take(ROWS).map(|(name, _)| width(&c.named(name), layout.size)).fold(0.0, libm::fmax);
    let left = libm::fmin(names + 18.0, if narrow { 92.0 } else { 150.0 });
    let least = if narrow { 23.0 } else { 36.0 };
    let fit_in = (libm::floor((w - left - 2.0) / least) as u32).max(1);
    // whole weeks of five where one strip is too short
    let per = match fit_in {
        n if days <= n => days,
        n if n >= 5 => n / 5 * 5,
        n => n,
    };
    let cell = (w - left - 2.0) / f64::from(per);
    let rows: Vec<Vec<Off>> = p.rows.iter().take(ROWS).map(|(_, blocks)| offs(p, blocks)).collect();

    let mut y = 0.0;
    let mut first = 1;
    while first <= days {
        let strip = Strip { first, last: (first + per - 1).min(days), left, cell };
        y = draw_strip(c, p, &rows, &strip, &layout, y) + if strip.last < days { 20.0 } else { 0.0 };
        first += per;
    }
    legend(c, p, &rows, &layout, y + 8.0)
}

fn draw_strip(
    c: &mut Canvas<'_>,
    p: &CalendarStrip,
    rows: &[Vec<Off>],
    s: &Strip,
    layout: &Layout,
    top: f64,
) -> f64 {
    let heads = stages(c, p, s, top);
    let grid = heads + pitch(14.0) + 4.0;
    let foot = grid + layout.row * rows.len().max(1) as f64;
    // the days of which something is said
    for day in s.days() {
        let told = p.conflicts.iter().any(|(d, _)| *d == day);
        let x = s.x(day, 0.0);
        if told {
            c.rect(x, heads, s.cell, foot - heads, Fill::Flat(Ink::Wash), None);
        }
        let l = if told { letter(14.0).heavy().middle() } else { letter(14.0).middle() };
        c.text(x + s.cell / 2.0, heads + 15.0, &format!("{day}"), &l);
        if day > s.first {
            c.line(x, grid, x, foot, Pen::HAIR);
        }
    }
    for (i, row) in rows.iter().enumerate() {
        let y = grid + layout.row * i as f64;
        if i > 0 {
            c.line(s.left, y, s.x(s.last, 1.0), y, Pen::HAIR);
        }
        let name = p.rows.get(i).map_or_else(|| c.say(Phrase("drawing-unnamed")), |(name, _)| c.named(name));
        row_name(c, &name, layout, s.left - 8.0, y + layout.row / 2.0);
        blocks(c, row, s, layout, y);
    }
    for day in s.days().filter(|day| p.conflicts.iter().any(|(d, _)| d == day)) {
        c.rect(s.x(day, 0.0), grid, s.cell, foot - grid, Fill::None, Some(Pen::SUBJECT));
    }
    c.rect(s.left, grid, s.x(s.last, 1.0) - s.left, foot - grid, Fill::None, Some(Pen::SEEN));
    foot
}

/// A row's name: in one line, else in two smaller ones.
fn row_name(c: &mut Canvas<'_>, name: &str, layout: &Layout, room: f64, middle: f64) {
    if width(name, layout.size) <= room {
        c.text(0.0, middle + layout.size * 0.34, name, &letter(layout.size).heavy());
    } else {
        let lines = wrap(name, 14.0, room, 2);
        let first = middle + 14.0 * 0.34 - pitch(14.0) * (lines.len() as f64 - 1.0) / 2.0;
        c.lines(0.0, first, &lines, &letter(14.0).heavy());
    }
}

/// Brackets over the days, in lanes where stages overlap; gives where they end.
fn stages(c: &mut Canvas<'_>, p: &CalendarStrip, s: &Strip, top: f64) -> f64 {
    let lane_height = pitch(14.0) + 16.0;
    // how far each lane is taken
    let mut lanes: Vec<u32> = Vec::new();
    for (name, from, to) in &p.stages {
        let (from, to) = ((*from).max(s.first), (*to).min(s.last));
        if from > to {
            continue;
        }
        let lane = match lanes.iter().position(|taken| *taken < from) {
            Some(i) => i,
            None if lanes.len() < LANES => {
                lanes.push(0);
                lanes.len() - 1
            }
            None => continue,
        };
        lanes[lane] = to;
        let y = top + 8.0 + lane as f64 * lane_height;
        let (x1, x2) = (s.x(from, 0.0) + 2.0, s.x(to, 1.0) - 2.0);
        c.line(x1, y, x2, y, Pen::SEEN);
        for x in [x1, x2] {
            c.line(x, y - 4.0, x, y + 4.0, Pen::SEEN);
        }
        let shown = short(&c.named(name), 14.0, x2 - x1 + 2.0);
        c.text((x1 + x2) / 2.0, y + 19.0, &shown, &letter(14.0).quiet().middle());
    }
    top + lanes.len() as f64 * lane_height + if lanes.is_empty() { 2.0 } else { 6.0 }
}

/// A name cut to a point: "Demo." where "Demolition" has no room; nothing where not even two letters have.
fn short(name: &str, size: f64, most: f64) -> String {
    if width(name, size) <= most {
        return name.into();
    }
    let mut kept: String = name.chars().take(60).collect();
    while !kept.is_empty() && width(&kept, size) + width(".", size) > most {
        kept.pop();
    }
    let kept = kept.trim_end_matches([' ', '-', ',', '.']);
    if kept.chars().count() < 2 { String::new() } else { format!("{kept}.") }
}

/// What is off in a row, with its length in the block or after it.
fn blocks(c: &mut Canvas<'_>, row: &[Off], s: &Strip, layout: &Layout, y: f64) {
    let (top, height) = (y + 6.0, layout.row - 12.0);
    let mut here: Vec<&Off> = row.iter().filter(|o| o.day >= s.first && o.day <= s.last).collect();
    let ends = |o: &Off| {
        let x1 = s.x(o.day, o.from) + 1.0;
        (x1, libm::fmax(s.x(o.day, o.to) - 1.0, x1 + 3.0))
    };
    // where two lie on each other the surer one is seen
    here.sort_by(|a, b| a.chance.total_cmp(&b.chance));
    for o in &here {
        let (x1, x2) = ends(o);
        if o.certain() {
            c.rect(x1, top, x2 - x1, height, Fill::Flat(Ink::Strong), None);
        } else {
            let filled = height * o.chance;
            c.rect(x1, top, x2 - x1, height, Fill::Flat(Ink::Paper), None);
            c.rect(x1, top + height - filled, x2 - x1, filled, Fill::Flat(Ink::Strong), None);
            c.rect(x1, top, x2 - x1, height, Fill::None, Some(Pen::whole(Ink::Strong, 1.25)));
        }
    }
    if layout.narrow {
        return;
    }
    let l: Letter = letter(14.0);
    let base = y + layout.row / 2.0 + 5.0;
    let page = [s.left, y, s.x(s.last, 1.0), y + layout.row];
    for (i, o) in here.iter().enumerate() {
        let (x1, x2) = ends(o);
        let words = c.say(o.length());
        let wide = width(&words, l.size);
        // clear of every other block from the start of this one to the end of its word
        let clear = |to: f64| {
            here.iter().enumerate().all(|(k, other)| k == i || ends(other).1 < x1 || ends(other).0 > to)
        };
        if o.certain() && wide + 2.0 < x2 - x1 && clear(x2) {
            let place = ((x1 + x2) / 2.0, base, l.ink(Ink::Paper).middle());
            letter_where_free(c, &words, &[place], &page);
        } else if clear(x2 + 6.0 + wide) && (o.certain() || o.to < 1.0 || o.from > 0.0) {
            // a whole day that is not certain has no word: behind it, it would lie in the next day
            letter_where_free(c, &words, &[(x2 + 4.0, base, l)], &page);
        }
    }
}

/// What black means, the working day, the conflicts in words.
fn legend(c: &mut Canvas<'_>, p: &CalendarStrip, rows: &[Vec<Off>], layout: &Layout, y: f64) -> f64 {
    let size = if layout.narrow { 14.0 } else { 15.0 };
    let l = letter(size);
    let [from, to] = working_day(p);
    let mut entries: Vec<(Sign, String)> =
        alloc::vec![(Sign::Share(1.0), c.say(say!("drawing-off-day-is", from = hour(from), to = hour(to))))];
    if rows.iter().flatten().any(|o| !o.certain()) {
        entries.push((Sign::Share(0.4), c.say(Phrase("drawing-filled-to-chance"))));
    }
    let mut foot = key(c, 0.0, y, layout.w, &l, &entries);
    for (day, words) in p.conflicts.iter().take(CONFLICTS) {
        let head = c.say(say!("drawing-day-head", day = figure(day)));
        foot += 6.0;
        let lead = width(&head, size) + 16.0;
        c.text(2.0, foot + size, &head, &l.heavy().mark());
        let lines = wrap(&c.named(words), size, layout.w - lead - 2.0, 3);
        foot = c.lines(2.0 + lead, foot + size, &lines, &l) + 4.0;
    }
    for more in not_shown(p, (CONFLICTS, ROWS, DAYS)) {
        foot += pitch(size);
        c.text(2.0, foot, &c.say(more), &l.quiet());
    }
    foot + 6.0
}
