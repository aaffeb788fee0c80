//! What the numbers of a picture say when laid against each other; said in words, drawn and lettered alike.

use alloc::{format, vec::Vec};

use survey::{Phrase, Said, say};
use trade::picture::{BoreSection, CalendarStrip, FallSection, LoadBar, SinkElevation, WallElevation};

use crate::written::{amount_figure, in_ten, inches};

/// The stub found against the heights that drain.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Gap {
    /// Above the highest that drains, by this much.
    High(f64),
    /// Below it, by this much.
    Room(f64),
    /// Below the lowest, by this much.
    Low(f64),
}

impl Gap {
    /// "5 1/4″ too high".
    pub(crate) fn shown(self) -> Said {
        match self {
            Self::High(x) => say!("drawing-too-high", x = inches(x)),
            Self::Room(x) => say!("drawing-to-spare", x = inches(x)),
            Self::Low(x) => say!("drawing-too-low", x = inches(x)),
        }
    }
    /// The length in it.
    pub(crate) const fn inches(self) -> f64 {
        match self {
            Self::High(x) | Self::Room(x) | Self::Low(x) => x,
        }
    }
}

/// The higher of the two lowest stubs, and whether the cabinet floor sets it.
pub(crate) fn lowest(p: &SinkElevation) -> Option<(f64, bool)> {
    let (code, cabinet) = (p.stub_min_code, p.stub_min_cabinet);
    match (code.is_finite(), cabinet.is_finite()) {
        (true, true) if code > cabinet => Some((code, false)),
        (_, true) => Some((cabinet, true)),
        (true, false) => Some((code, false)),
        (false, false) => None,
    }
}

/// How the stub lies.
pub(crate) fn gap(p: &SinkElevation) -> Option<Gap> {
    if !p.stub.is_finite() {
        return None;
    }
    if let Some((least, _)) = lowest(p)
        && p.stub < least
    {
        return Some(Gap::Low(least - p.stub));
    }
    let room = p.stub_max - p.stub;
    room.is_finite().then(|| if room < 0.0 { Gap::High(-room) } else { Gap::Room(room) })
}

/// Whether the gap to the highest is no larger than both tolerances together.
pub(crate) fn inside_tolerance(p: &SinkElevation) -> bool {
    let both = libm::hypot(p.stub_tolerance, p.stub_max_tolerance);
    let room = p.stub_max - p.stub;
    both.is_finite() && room.is_finite() && both > 0.0 && libm::fabs(room) <= both
}

/// The bowl the drain hangs from: the deepest.
pub(crate) fn governing(bowls: &[f64]) -> Option<(usize, f64)> {
    let known = bowls.iter().copied().enumerate().filter(|(_, z)| z.is_finite());
    known.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// The longest of a pipe and what it is held against, held to what can be drawn: an inch to a mile.
pub(crate) fn longest_drawn(p: &FallSection) -> f64 {
    let limits = p.limits.iter().map(|(_, x)| *x);
    let longest = limits.chain([p.length]).filter(|x| x.is_finite()).fold(0.0, libm::fmax);
    if longest > 0.0 { longest.clamp(1.0, 63_360.0) } else { 12.0 }
}

/// Wood left beside the hole: at the edge the center is measured from, and at the other.
pub(crate) fn wood_left(p: &BoreSection) -> [f64; 2] {
    [p.center - p.hole / 2.0, p.depth - p.center - p.hole / 2.0]
}

/// Edges that a nail plate belongs on.
pub(crate) fn plated(p: &BoreSection) -> [bool; 2] {
    // a trillionth of slack: an edge exactly at the distance needs none
    wood_left(p).map(|left| left < p.plate_edge - 1e-9)
}

/// What is there and what is planned, each summed; parts that are not known or below zero count nothing.
pub(crate) fn totals(p: &LoadBar) -> [f64; 2] {
    p.parts.iter().fold([0.0, 0.0], |[there, planned], (_, x, new)| {
        let x = if x.is_finite() { libm::fmax(*x, 0.0) } else { 0.0 };
        if *new { [there, planned + x] } else { [there + x, planned] }
    })
}

/// Holes of one trade.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct OfTrade {
    pub(crate) trade: Said,
    pub(crate) holes: usize,
    pub(crate) square_feet: f64,
}

/// Corners in order: left, bottom, right, top. None where one is not known.
pub(crate) fn corners(r: &[f64; 4]) -> Option<[f64; 4]> {
    let [x0, y0, x1, y1] = *r;
    r.iter()
        .all(|v| v.is_finite())
        .then(|| [libm::fmin(x0, x1), libm::fmin(y0, y1), libm::fmax(x0, x1), libm::fmax(y0, y1)])
}

fn square_feet(r: &[f64; 4]) -> f64 {
    corners(r).map_or(0.0, |[x0, y0, x1, y1]| (x1 - x0) * (y1 - y0) / 144.0)
}

/// The trades of a wall, in the order in which they first cut.
pub(crate) fn by_trade(p: &WallElevation) -> Vec<OfTrade> {
    let mut trades: Vec<OfTrade> = Vec::new();
    for (_, trade, r) in &p.holes {
        match trades.iter_mut().find(|t| t.trade == *trade) {
            Some(t) => {
                t.holes += 1;
                t.square_feet += square_feet(r);
            }
            None => trades.push(OfTrade { trade: trade.clone(), holes: 1, square_feet: square_feet(r) }),
        }
    }
    trades
}

/// Area of the patches; where patches overlap it is counted twice.
pub(crate) fn patched(p: &WallElevation) -> f64 {
    p.patches.iter().map(square_feet).sum()
}

/// The working day in hours; a day without length is taken as eight to five.
pub(crate) fn working_day(p: &CalendarStrip) -> [f64; 2] {
    let [from, to] = p.hours;
    if from.is_finite() && to.is_finite() && from >= 0.0 && to > from && to <= 48.0 {
        [from, to]
    } else {
        [8.0, 17.0]
    }
}

/// A stretch of one day in which something is off.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Off {
    /// From 1.
    pub(crate) day: u32,
    /// Shares of the working day.
    pub(crate) from: f64,
    pub(crate) to: f64,
    /// 0 to 1.
    pub(crate) chance: f64,
    pub(crate) hours: f64,
}

impl Off {
    pub(crate) fn certain(&self) -> bool {
        self.chance >= 0.995
    }
    /// "day", "am", "pm", "2 h".
    pub(crate) fn length(&self) -> Said {
        self.whole().map_or_else(|| self.hours_long(), |(short, _)| short.into())
    }
    /// Words of a whole day or half of one: short, and in a sentence.
    fn whole(&self) -> Option<(Phrase, Phrase)> {
        let near = |x: f64, y: f64| libm::fabs(x - y) < 0.06;
        if near(self.from, 0.0) && near(self.to, 1.0) {
            Some((Phrase("drawing-day"), Phrase("drawing-all-day")))
        } else if near(self.from, 0.0) && near(self.to, 0.5) {
            Some((Phrase("drawing-morning-short"), Phrase("drawing-in-morning")))
        } else if near(self.from, 0.5) && near(self.to, 1.0) {
            Some((Phrase("drawing-afternoon-short"), Phrase("drawing-in-afternoon")))
        } else {
            None
        }
    }
    fn hours_long(&self) -> Said {
        if self.hours < 1.0 {
            format!("{} min", amount_figure(libm::round(self.hours * 60.0))).into()
        } else {
            format!("{} h", amount_figure(self.hours)).into()
        }
    }
    /// The same in words, with the chance where it is not certain: "all day, 7 in 10".
    pub(crate) fn said(&self) -> Said {
        let words = self.whole().map_or_else(|| self.hours_long(), |(_, long)| long.into());
        if self.certain() { words } else { say!("drawing-with-note", x = words, note = in_ten(self.chance)) }
    }
}

/// The blocks of a row that lie in a working day, in order; the rest of their hours is cut off.
pub(crate) fn offs(p: &CalendarStrip, blocks: &[(u32, f64, f64, f64)]) -> Vec<Off> {
    let [start, end] = working_day(p);
    let share = |h: f64| ((h - start) / (end - start)).clamp(0.0, 1.0);
    let mut offs: Vec<Off> = blocks
        .iter()
        .filter(|(day, from, to, chance)| {
            *day >= 1
                && from.is_finite()
                && to.is_finite()
                && from < to
                && chance.is_finite()
                && *chance > 0.0
        })
        .map(|&(day, from, to, chance)| {
            let (from, to) = (share(from), share(to));
            Off { day, from, to, chance: chance.min(1.0), hours: (to - from) * (end - start) }
        })
        .filter(|o| o.to > o.from)
        .collect();
    offs.sort_by(|a, b| a.day.cmp(&b.day).then(a.from.total_cmp(&b.from)));
    offs
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::vec;

    #[test]
    fn a_morning_a_day_and_two_hours_are_named() {
        let p =
            CalendarStrip { days: 5, hours: [8.0, 16.0], stages: vec![], rows: vec![], conflicts: vec![] };
        let blocks = [(1, 8.0, 12.0, 1.0), (2, 7.0, 17.0, 1.0), (3, 9.0, 11.0, 0.7), (4, 20.0, 22.0, 1.0)];
        let said: Vec<_> = offs(&p, &blocks).iter().map(|off| crate::testing::english(&off.said())).collect();
        assert_eq!(said, ["in the morning", "all day", "2 h, 7 in 10"]);
    }

    #[test]
    fn a_plate_belongs_where_less_wood_is_left_than_asked() {
        let p = BoreSection {
            member: "2x4".into(),
            depth: 3.5,
            thickness: 1.5,
            hole: 1.0,
            center: 1.75,
            largest: 1.4,
            edge_kept: 0.625,
            plate_edge: 1.25,
        };
        assert_eq!(wood_left(&p), [1.25, 1.25]);
        assert_eq!(plated(&p), [false, false]);
        assert_eq!(plated(&BoreSection { center: 1.5, ..p }), [true, false]);
    }
}
