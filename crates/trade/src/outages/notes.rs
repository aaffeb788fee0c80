//! What was not asked, what helps, and the rules kept.

use alloc::{format, vec::Vec};

use survey::catalog::Catalog;

use super::answer::two_places;
use super::calendar::cuts_unnamed;
use super::conflicts::{Conflict, LEAST_SHOWN};
use super::household::{Household, Medical};
use super::order::STAGES;
use super::plan::Plan;
use super::remedies::kinds;
use super::service::{BATH, DRAINS, POWER, TOILET};
use super::tasks::Task;
use crate::sheet::{Limit, Sheet};

/// Questions that matter for this plan and were not answered.
pub fn say_unasked(plan: &Plan, household: &Household, sheet: &mut Sheet) {
    let off = |word: &str| plan.tasks().iter().any(|t| t.off().iter().any(|o| o.service.is(word)));
    if household.medical == Medical::Unasked && off(POWER) {
        sheet.note("Nobody said whether a medical device needs power: ask before any circuit is cut.");
    }
    if household.toilets.is_none() && (off(TOILET) || off(BATH) || off(DRAINS)) {
        sheet.note("Nobody said how many toilets there are: whether one works every night is not known.");
    }
    if household.home_days.is_none() {
        sheet.note("Nobody said who works from home on which days.");
    }
    if household.internet_circuit.is_none() && off(POWER) {
        sheet.note(
            "Nobody said which circuit feeds modem and router: a cut of that circuit takes internet too.",
        );
    }
    if household.quiet.is_none() && plan.tasks().iter().any(Task::loud) {
        sheet.note("Nobody said in which hours the household needs quiet.");
    }
    for task in plan.tasks().iter().filter(|t| cuts_unnamed(t)) {
        sheet.note(format!(
            "Which circuits “{}” cuts is not said; name them in “off”, such as power:kitchen.",
            task.name()
        ));
    }
}

/// What helps with each task, and what the calendar leaves out.
pub fn say_help(plan: &Plan, sheet: &mut Sheet) {
    for task in plan.tasks() {
        if let Some(help) = task.help() {
            sheet.note(format!("What helps with “{}”: {help}", task.name()));
        }
    }
    sheet.note(
        "Tasks are taken as independent of each other; an old house slows many of them at once, and then the P90 is \
         later.",
    );
    sheet
        .note("The utility and inspectors give their own dates: enter them as the earliest day of the task.");
}

/// Values used and rules kept: all common practice.
pub fn limits(plan: &Plan, catalog: &Catalog, conflicts: &[Conflict]) -> Vec<Limit> {
    let days = plan.days();
    let mut out = Vec::new();
    let day = format!("{}–{}, Monday to Friday", days.start().shown(), days.end().shown());
    out.push(Limit::practice("Working day", day));
    out.push(Limit::practice(
        "Water, power and internet come back at the end of each working day; gas, heat, drains, baths and kitchen \
         stay off until their task is done",
        format!("by {}", days.end().shown()),
    ));
    if plan.ways().one_at_a_time {
        out.push(Limit::practice("A trade does one task at a time", "by stage, then by name"));
    }
    if plan.ways().next_morning {
        out.push(Limit::practice(
            "A trade that follows another starts the next morning",
            days.start().shown(),
        ));
    }
    if !plan.order().usual.is_empty() {
        let used = plan.order().usual.join("; ");
        out.push(Limit::practice(format!("Usual order of stages: {}", STAGES.join(", ")), used));
    }
    for task in plan.tasks() {
        let Some(id) = task.outage() else { continue };
        let pert = task.hours();
        let three = [pert.low(), task.likely(), pert.high()].map(two_places).join(" / ");
        out.push(Limit::practice(format!("Hours of “{id}”, low, likely, high"), format!("{three} h")));
    }
    for kind in kinds(conflicts) {
        if let Some(rule) = catalog.household_rules.iter().find(|r| r.id == kind.rule()) {
            out.push(Limit::practice(rule.words.clone(), kind.shown()));
        }
    }
    if !conflicts.is_empty() {
        let value = format!("{} in 100; any chance for a medical device", LEAST_SHOWN * 100.0);
        out.push(Limit::practice("Conflicts are shown from a chance of", value));
    }
    out
}
