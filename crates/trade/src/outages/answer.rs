//! The answer in words and as a picture.

use alloc::{borrow::ToOwned, format, string::String, vec::Vec};

use survey::catalog::Catalog;

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
use crate::error::TradeError;
use crate::number::{capital, in_100, show_number};
use crate::picture::Picture;
use crate::sheet::{Sheet, Standing};

/// Blocks of one service listed in words before the rest is left to the picture.
const BLOCKS_SAID: usize = 16;
/// Quiet is off while there is this.
const LOUD: &str = "loud work";

/// Day and time, such as "day 2, Tuesday, 9:30".
fn moment(days: &WorkingDays, quarter: Option<usize>) -> String {
    match quarter {
        Some(quarter) => {
            let (day, clock) = days.ends(quarter);
            format!("{}, {}", days.day_shown(day), clock.shown())
        }
        None => "beyond the days looked at".to_owned(),
    }
}

fn hours(value: Option<f64>) -> String {
    value.map_or("beyond the days looked at".to_owned(), |h| show_number(libm::round(h * 4.0) / 4.0))
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
        "Courses",
        format!(
            "{} evenly spread courses of the work; a chance is a share of them",
            show_number(COURSES as f64)
        ),
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

fn sentence(plan: &Plan, calendar: &Calendar, conflicts: &[Conflict]) -> String {
    let days = plan.days();
    let number = plan.order().sequence.len();
    let tasks = if number == 1 { "The task is".to_owned() } else { format!("The {number} tasks are") };
    let mut out = match calendar.ends[0] {
        None => format!("{tasks} likely not done within the days looked at"),
        Some(_) => format!(
            "{tasks} likely done by {} (P50), and in nine cases of ten by {} (P90)",
            moment(days, calendar.ends[0]),
            moment(days, calendar.ends[1])
        ),
    };
    let off: Vec<String> = alike(calendar)
        .iter()
        .filter_map(|rows| rows.first())
        .filter(|r| !r.service.is(QUIET))
        .map(|r| format!("{} {} and {} h", r.service.shown(), hours(r.hours[0]), hours(r.hours[1])))
        .collect();
    if !off.is_empty() {
        out.push_str(&format!("; off in working hours, P50 and P90: {}", off.join("; ")));
    }
    let kinds: Vec<&str> = kinds(conflicts).into_iter().map(Kind::shown).collect();
    if kinds.is_empty() {
        out.push_str("; no conflict found with what the household answered.");
    } else {
        out.push_str(&format!("; it meets: {}.", kinds.join(", ").to_lowercase()));
    }
    if conflicts.iter().any(|c| c.kind == Kind::Medical) {
        out.push_str(" A medical device hangs on a circuit that is cut: ");
        out.push_str("no cut without written confirmation of backup.");
    }
    out
}

fn task_lines(plan: &Plan, calendar: &Calendar, sheet: &mut Sheet) {
    let days = plan.days();
    for &at in &plan.order().sequence {
        let Some(task) = plan.task(at) else { continue };
        let pert = task.hours();
        let mut text = format!(
            "({} + 4 × {} + {}) ÷ 6 = {} h on average",
            two_places(pert.low()),
            two_places(task.likely()),
            two_places(pert.high()),
            two_places(pert.mean())
        );
        if task.day_and_night() {
            text.push_str(&format!(
                " by the clock, × {} ÷ 24 × 5 ÷ 7 = {} h of working time",
                show_number(days.hours()),
                two_places(task.working_hours(days.hours()).mean())
            ));
        }
        let end = calendar.schedule.done(Set::only(at));
        text.push_str(&format!(
            "; done {} (P50), {} (P90)",
            moment(days, end.quantile(0.5)),
            moment(days, end.quantile(0.9))
        ));
        let waits = names(plan, plan.order().waits[at]);
        if !waits.is_empty() {
            text.push_str(&format!("; after {waits}"));
        }
        if task.from_day() > 1 {
            text.push_str(&format!("; not before day {}", task.from_day()));
        }
        let who = if task.who().is_empty() { String::new() } else { format!(" ({})", task.who()) };
        sheet.line(format!("{}{who}", task.name()), text);
    }
    sheet.line(
        "All done",
        format!("{} (P50), {} (P90)", moment(days, calendar.ends[0]), moment(days, calendar.ends[1])),
    );
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
        let shown = |r: &&Without| if r.service.is(QUIET) { LOUD.to_owned() } else { r.service.shown() };
        let name = capital(&rows.iter().map(shown).collect::<Vec<String>>().join("; "));
        let Some(row) = rows.first() else { continue };
        let means: Vec<String> =
            row.tasks.iter().map(|t| two_places(calendar.schedule.times[t].mean())).collect();
        let sum = if !plan.order().all_apart(row.tasks) {
            let each = means.join(" + ");
            format!("{each}, at the same time counted once: {} h on average", two_places(row.mean))
        } else if means.len() > 1 {
            format!("{} = {} h on average", means.join(" + "), two_places(row.mean))
        } else {
            format!("{} h on average", two_places(row.mean))
        };
        let mut text = format!(
            "{sum}; {} h (P50), {} h (P90) of working time",
            hours(row.hours[0]),
            hours(row.hours[1])
        );
        let nights: f64 = row.nights.iter().sum();
        if !row.overnight.is_empty() {
            text.push_str(&format!("; {} nights on average", two_places(nights)));
        }
        sheet.line(format!("{name}, hours"), text);
        sheet.line(format!("{name}, when"), said(days, row));
        sheet.line(
            format!("{name}, over"),
            format!("{} (P50), {} (P90)", moment(days, row.ends[0]), moment(days, row.ends[1])),
        );
    }
}

fn said(days: &WorkingDays, row: &Without) -> String {
    let mut blocks = blocks(days, row);
    blocks.retain(|(_, from, ..)| *from >= days.start().hours()); // a night is said once, in the evening
    let mut out = String::new();
    let mut last = 0;
    let clock =
        |h: f64| Clock::from_quarters(libm::round(h * 4.0) as u32).map_or(String::new(), Clock::shown);
    for (day, from, to, chance) in blocks.iter().take(BLOCKS_SAID) {
        if *day != last {
            let apart = if out.is_empty() { "" } else { "; " };
            out.push_str(&format!("{apart}{}: ", days.day_shown(*day)));
        } else {
            out.push_str(", ");
        }
        last = *day;
        if *from >= days.end().hours() {
            out.push_str(&format!("overnight {}", in_100(*chance)));
        } else {
            out.push_str(&format!("{}–{} {}", clock(*from), clock(*to), in_100(*chance)));
        }
    }
    if blocks.is_empty() {
        out.push_str("nowhere over 5 in 100");
    } else if blocks.len() > BLOCKS_SAID {
        let end = blocks.last().map_or(0, |b| b.0);
        out.push_str(&format!("; and so on to day {end}"));
    }
    out
}

fn say_conflicts(plan: &Plan, conflicts: &[Conflict], sheet: &mut Sheet) {
    for kind in kinds(conflicts) {
        let of_kind = || conflicts.iter().filter(|c| c.kind == kind);
        let days: Vec<String> =
            of_kind().take(5).map(|c| format!("{}: {}", plan.days().day_shown(c.day), c.words)).collect();
        let more = of_kind().count().saturating_sub(5);
        let more = if more > 0 { format!("; and {more} more") } else { String::new() };
        sheet.note(format!("{}. {}{more}.", kind.shown(), capital(&days.join("; "))));
    }
}
