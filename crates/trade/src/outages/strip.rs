//! The calendar as a picture: blocks in which a service is off, with their chance, and stages above.

use alloc::vec::Vec;

use survey::{Said, say};

use super::calendar::{Calendar, Without};
use super::conflicts::{Conflict, LEAST_SHOWN};
use super::days::WorkingDays;
use super::order::STAGES;
use super::plan::Plan;
use super::service::QUIET;
use crate::cite::labeled;
use crate::given::choice;
use crate::picture::CalendarStrip;

/// Half hours whose chances lie between the same two of these form one block.
const BANDS: [f64; 4] = [LEAST_SHOWN, 0.3, 0.7, 0.95];

fn band(chance: f64) -> usize {
    BANDS.iter().filter(|edge| chance >= **edge).count()
}

/// Day (from 1), from hour, to hour, chance: half hours of like chance side by side are one block. A service that
/// stays off overnight has blocks to midnight and from midnight too.
pub fn blocks(days: &WorkingDays, row: &Without) -> Vec<(u32, f64, f64, f64)> {
    let mut out = Vec::new();
    let (start, end) = (days.start().hours(), days.end().hours());
    let halves = days.quarters().div_ceil(2);
    let mut before = 0.0;
    for day in 1..=row.nights.len() as u32 {
        if before >= LEAST_SHOWN && start > 0.0 {
            out.push((day, 0.0, start, before));
        }
        let chances: Vec<f64> = (0..halves).map(|h| row.half_hour(days.quarters(), day, h)).collect();
        let mut at = 0;
        while at < halves {
            let mut to = at + 1;
            while to < halves && band(chances[to]) == band(chances[at]) {
                to += 1;
            }
            if band(chances[at]) > 0 {
                let mean = chances[at..to].iter().sum::<f64>() / (to - at) as f64;
                let hour = |half: usize| libm::fmin(start + half as f64 / 2.0, end);
                out.push((day, hour(at), hour(to), mean));
            }
            at = to;
        }
        before = row.nights[day as usize - 1];
        if before >= LEAST_SHOWN && end < 24.0 {
            out.push((day, end, 24.0, before));
        }
    }
    out
}

/// The strip: days up to the P90 of the end.
pub fn strip(plan: &Plan, calendar: &Calendar, conflicts: &[Conflict]) -> CalendarStrip {
    let days = plan.days();
    let shown = calendar.ends[1].map_or(calendar.schedule.days(), |end| days.ends(end).0);
    let rows = calendar.rows.iter().map(|row| {
        let name = if row.service.is(QUIET) { say!("trade-loud-work") } else { row.service.shown() };
        (name, blocks(days, row).into_iter().filter(|b| b.0 <= shown).collect())
    });
    let stages = STAGES.iter().filter_map(|stage| {
        let of_stage = plan.named(|t| t.stage() == Some(*stage));
        let starts = of_stage.iter().filter_map(|t| calendar.schedule.start(t).quantile(0.5));
        let first = starts.min()? / days.quarters() + 1;
        let last = calendar.schedule.done(of_stage).quantile(0.5)?;
        Some((choice(stage), u32::min(first as u32, days.ends(last).0), days.ends(last).0))
    });
    let words = |c: &Conflict| -> (u32, Said) { (c.day, labeled(c.kind.shown(), &c.words)) };
    CalendarStrip {
        days: shown,
        hours: [days.start().hours(), days.end().hours()],
        stages: stages.collect(),
        rows: rows.collect(),
        conflicts: conflicts.iter().filter(|c| c.day <= shown).map(words).collect(),
    }
}
