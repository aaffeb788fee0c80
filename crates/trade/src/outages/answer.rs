//! The answer in words and as a picture.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::Catalog;
use survey::{Phrase, Said, say};

use super::CAUTION;
use super::calendar::{Calendar, Without};
use super::conflicts::{Conflict, Kind, conflicts};
use super::days::{Clock, WorkingDays};
use super::household::Household;
use super::lattice::COURSES;
use super::notes;
use super::order::Set;
use super::plan::Plan;
use super::remedies::{self, kinds};
use super::service::QUIET;
use super::strip::{blocks, strip};
use crate::cite::labeled;
use crate::error::TradeError;
use crate::number::{in_100, show_number};
use crate::picture::Picture;
use crate::sheet::{Sheet, Standing};

/// Blocks of one service listed in words before the rest is left to the picture.
const BLOCKS_SAID: usize = 16;
/// Quiet is off while there is this.
const LOUD: Phrase = Phrase("trade-loud-work");

/// Day and time, such as "day 2, Tuesday, 9:30".
fn moment(days: &WorkingDays, quarter: Option<usize>) -> Said {
    match quarter {
        Some(quarter) => {
            let (day, clock) = days.ends(quarter);
            Said::between(", ", [days.day_shown(day), clock.shown().into()])
        }
        None => say!("trade-beyond-days-looked"),
    }
}

fn both(days: &WorkingDays, ends: [Option<usize>; 2]) -> Said {
    say!("trade-p50-p90", likely = moment(days, ends[0]), nine = moment(days, ends[1]))
}

fn hours(value: Option<f64>) -> Said {
    value.map_or_else(|| say!("trade-beyond-days-looked"), |h| show_number(libm::round(h * 4.0) / 4.0).into())
}

/// A number to two places.
pub fn two_places(value: f64) -> String {
    show_number(libm::round(value * 100.0) / 100.0)
}

/// Works out the calendar of a plan and everything to say about it.
///
/// # Errors
/// Over 40 different services and circuits.
pub fn judge(plan: &Plan, household: &Household, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let calendar = Calendar::of(plan, household)?;
    let conflicts = conflicts(plan, household, &calendar)?;
    let mut sheet = Sheet::new(Standing::Quantity, sentence(plan, &calendar, &conflicts), CAUTION);
    sheet.line(
        Phrase("trade-courses"),
        say!("trade-evenly-spread-courses-work", courses = show_number(COURSES as f64)),
    );
    task_lines(plan, &calendar, &mut sheet);
    service_lines(plan, &calendar, &mut sheet);
    say_conflicts(plan, &conflicts, &mut sheet);
    remedies::add(plan, household, catalog, &conflicts, &mut sheet)?;
    notes::say_unasked(plan, household, &mut sheet);
    notes::say_help(plan, &mut sheet);
    sheet.limits = notes::limits(plan, catalog, &conflicts);
    sheet.picture = Some(Picture::Calendar(strip(plan, &calendar, &conflicts)));
    Ok(sheet)
}

fn sentence(plan: &Plan, calendar: &Calendar, conflicts: &[Conflict]) -> Said {
    let days = plan.days();
    let number = plan.order().sequence.len();
    let mut out = match calendar.ends[0] {
        None => say!("trade-outages-not-done", n = number),
        Some(_) => say!(
            "trade-outages-done",
            n = number,
            likely = moment(days, calendar.ends[0]),
            nine = moment(days, calendar.ends[1])
        ),
    };
    let off: Vec<Said> = alike(calendar)
        .iter()
        .filter_map(|rows| rows.first())
        .filter(|r| !r.service.is(QUIET))
        .map(|r| {
            say!("trade-h", shown = r.service.shown(), hours = hours(r.hours[0]), hours2 = hours(r.hours[1]))
        })
        .collect();
    if !off.is_empty() {
        out = say!("trade-off-working-hours-p50", before = out, off = Said::between("; ", off));
    }
    let kinds: Vec<Phrase> = kinds(conflicts).into_iter().map(Kind::shown).collect();
    if kinds.is_empty() {
        out = say!("trade-no-conflict-found-what-household", before = out);
    } else {
        out = say!("trade-meets", before = out, kinds = Said::from(kinds).small());
    }
    if conflicts.iter().any(|c| c.kind == Kind::Medical) {
        out = Said::sentences([out, say!("trade-medical-device-hangs-circuit")]);
    }
    out
}

fn task_lines(plan: &Plan, calendar: &Calendar, sheet: &mut Sheet) {
    let days = plan.days();
    for &at in &plan.order().sequence {
        let Some(task) = plan.task(at) else { continue };
        let pert = task.hours();
        let mut text = say!(
            "trade-4-6-h-average",
            low = two_places(pert.low()),
            likely = two_places(task.likely()),
            high = two_places(pert.high()),
            mean = two_places(pert.mean())
        );
        if task.day_and_night() {
            text = say!(
                "trade-clock-24-5-7",
                before = text,
                day = show_number(days.hours()),
                mean = two_places(task.working_hours(days.hours()).mean())
            );
        }
        let end = calendar.schedule.done(Set::only(at));
        text = say!(
            "trade-done-p50-p90",
            before = text,
            likely = moment(days, end.quantile(0.5)),
            nine = moment(days, end.quantile(0.9))
        );
        let waits = names(plan, plan.order().waits[at]);
        if !waits.is_empty() {
            text = say!("trade-after-3", before = text, waits = waits);
        }
        if task.from_day() > 1 {
            text = say!("trade-not-before-day", before = text, day = task.from_day());
        }
        let who = if task.who().is_empty() { String::new() } else { format!(" ({})", task.who()) };
        sheet.line(format!("{}{who}", task.name()), text);
    }
    sheet.line(Phrase("trade-all-done"), both(days, calendar.ends));
}

fn names(plan: &Plan, tasks: Set) -> String {
    let names: Vec<String> =
        tasks.iter().filter_map(|t| plan.task(t)).map(|t| format!("“{}”", t.name())).collect();
    names.join(", ")
}

/// Services that the same tasks take away in the same way.
fn alike(calendar: &Calendar) -> Vec<Vec<&Without>> {
    let mut groups: Vec<Vec<&Without>> = Vec::new();
    for row in &calendar.rows {
        let same = |r: &&Without| (r.tasks, r.overnight) == (row.tasks, row.overnight);
        match groups.iter_mut().find(|g| g.first().is_some_and(same)) {
            Some(group) => group.push(row),
            None => groups.push([row].into()),
        }
    }
    groups
}

fn service_lines(plan: &Plan, calendar: &Calendar, sheet: &mut Sheet) {
    let days = plan.days();
    for rows in alike(calendar) {
        let shown = |r: &&Without| if r.service.is(QUIET) { LOUD.into() } else { r.service.shown() };
        let name = Said::between("; ", rows.iter().map(shown)).capital();
        let Some(row) = rows.first() else { continue };
        let means: Vec<String> =
            row.tasks.iter().map(|t| two_places(calendar.schedule.times[t].mean())).collect();
        let sum = if !plan.order().all_apart(row.tasks) {
            let each = means.join(" + ");
            say!("trade-same-time-counted-once", each = each, mean = two_places(row.mean))
        } else if means.len() > 1 {
            say!("trade-h-average-2", means = means.join(" + "), mean = two_places(row.mean))
        } else {
            say!("trade-h-average", mean = two_places(row.mean))
        };
        let mut text =
            say!("trade-h-p50-h-p90", sum = sum, hours = hours(row.hours[0]), hours2 = hours(row.hours[1]));
        let nights: f64 = row.nights.iter().sum();
        if !row.overnight.is_empty() {
            text = say!("trade-nights-average", before = text, nights = two_places(nights));
        }
        sheet.line(say!("trade-hours", name = &name), text);
        sheet.line(say!("trade-when", name = &name), said(days, row));
        sheet.line(say!("trade-over-2", name = name), both(days, row.ends));
    }
}

fn said(days: &WorkingDays, row: &Without) -> Said {
    let mut blocks = blocks(days, row);
    blocks.retain(|(_, from, ..)| *from >= days.start().hours()); // a night is said once, in the evening
    if blocks.is_empty() {
        return Phrase("trade-nowhere-over-5-100").into();
    }
    let mut of_days: Vec<(u32, Vec<Said>)> = Vec::new();
    let clock =
        |h: f64| Clock::from_quarters(libm::round(h * 4.0) as u32).map_or(String::new(), Clock::shown);
    for (day, from, to, chance) in blocks.iter().take(BLOCKS_SAID) {
        let one = if *from >= days.end().hours() {
            say!("trade-overnight", chance = in_100(*chance))
        } else {
            let hours = format!("{}–{}", clock(*from), clock(*to));
            Said::between(" ", [hours.into(), in_100(*chance)])
        };
        match of_days.last_mut() {
            Some((last, all)) if *last == *day => all.push(one),
            _ => of_days.push((*day, [one].into())),
        }
    }
    let mut all: Vec<Said> =
        of_days.into_iter().map(|(day, of_day)| labeled(days.day_shown(day), of_day)).collect();
    if blocks.len() > BLOCKS_SAID {
        let end = blocks.last().map_or(0, |b| b.0);
        all.push(say!("trade-day-2", day = end));
    }
    Said::between("; ", all)
}

fn say_conflicts(plan: &Plan, conflicts: &[Conflict], sheet: &mut Sheet) {
    for kind in kinds(conflicts) {
        let of_kind = || conflicts.iter().filter(|c| c.kind == kind);
        let mut days: Vec<Said> =
            of_kind().take(5).map(|c| labeled(plan.days().day_shown(c.day), &c.words)).collect();
        let more = of_kind().count().saturating_sub(5);
        if more > 0 {
            days.push(say!("trade-more-3", n = more));
        }
        let days = Said::between("; ", days).capital();
        sheet.note(Said::run([kind.shown().into(), ". ".into(), days, ".".into()]));
    }
}
