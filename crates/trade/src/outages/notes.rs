//! What was not asked, what helps, and the rules kept.

use alloc::{format, vec::Vec};

use survey::catalog::Catalog;
use survey::{Phrase, Said, say};

use super::answer::two_places;
use super::calendar::cuts_unnamed;
use super::conflicts::{Conflict, LEAST_SHOWN};
use super::household::{Household, Medical};
use super::order::STAGES;
use super::plan::Plan;
use super::remedies::{kinds, rule_said};
use super::service::{BATH, DRAINS, POWER, TOILET};
use super::tasks::Task;
use crate::given::choice;
use crate::sheet::{Limit, Sheet};

/// Questions that matter for this plan and were not answered.
pub fn say_unasked(plan: &Plan, household: &Household, sheet: &mut Sheet) {
    let off = |word: &str| plan.tasks().iter().any(|t| t.off().iter().any(|o| o.service.is(word)));
    if household.medical == Medical::Unasked && off(POWER) {
        sheet.note(Phrase("trade-nobody-said-whether-medical"));
    }
    if household.toilets.is_none() && (off(TOILET) || off(BATH) || off(DRAINS)) {
        sheet.note(Phrase("trade-nobody-said-how-many"));
    }
    if household.home_days.is_none() {
        sheet.note(Phrase("trade-nobody-said-who-works"));
    }
    if household.internet_circuit.is_none() && off(POWER) {
        sheet.note(Phrase("trade-nobody-said-which-circuit"));
    }
    if household.quiet.is_none() && plan.tasks().iter().any(Task::loud) {
        sheet.note(Phrase("trade-nobody-said-which-hours"));
    }
    for task in plan.tasks().iter().filter(|t| cuts_unnamed(t)) {
        sheet.note(say!("trade-which-circuits-cuts-not", name = task.name()));
    }
}

/// What helps with each task, and what the calendar leaves out.
pub fn say_help(plan: &Plan, sheet: &mut Sheet) {
    for task in plan.tasks() {
        if let Some(help) = task.help() {
            sheet.note(say!(
                "trade-what-helps",
                name = task.name(),
                help = Said::of_catalog(format!("outage-{}-help", task.outage().unwrap_or_default()), help)
            ));
        }
    }
    sheet.note(Phrase("trade-tasks-taken-independent-each"));
    sheet.note(Phrase("trade-utility-inspectors-give-their"));
}

/// Values used and rules kept: all common practice.
pub fn limits(plan: &Plan, catalog: &Catalog, conflicts: &[Conflict]) -> Vec<Limit> {
    let days = plan.days();
    let mut out = Vec::new();
    let day = say!("trade-monday-friday", shown = days.start().shown(), shown2 = days.end().shown());
    out.push(Limit::practice(Phrase("trade-working-day"), day));
    out.push(Limit::practice(
        Phrase("trade-water-power-internet-come"),
        say!("trade-by", shown = days.end().shown()),
    ));
    if plan.ways().one_at_a_time {
        out.push(Limit::practice(Phrase("trade-trade-does-one-task"), Phrase("trade-stage-then-name")));
    }
    if plan.ways().next_morning {
        out.push(Limit::practice(Phrase("trade-trade-follows-another-starts"), days.start().shown()));
    }
    if !plan.order().usual.is_empty() {
        let used = Said::between("; ", plan.order().usual.iter().map(|words| Said::from(*words)));
        out.push(Limit::practice(
            say!("trade-usual-order-stages", stages = STAGES.map(choice).to_vec()),
            used,
        ));
    }
    for task in plan.tasks() {
        let Some(id) = task.outage() else { continue };
        let pert = task.hours();
        let three = [pert.low(), task.likely(), pert.high()].map(two_places).join(" / ");
        out.push(Limit::practice(say!("trade-hours-low-likely-high-2", id = id), format!("{three} h")));
    }
    for kind in kinds(conflicts) {
        if let Some(rule) = catalog.household_rules.iter().find(|r| r.id == kind.rule()) {
            out.push(Limit::practice(rule_said(rule), kind.shown()));
        }
    }
    if !conflicts.is_empty() {
        let value = say!("trade-100-any-chance-medical", leastshown = LEAST_SHOWN * 100.0);
        out.push(Limit::practice(Phrase("trade-conflicts-shown-chance"), value));
    }
    out
}
