//! What helps: rules of the household for each conflict, and days on which a cut meets less.

use alloc::{format, vec::Vec};

use survey::catalog::{Catalog, HouseholdRule};
use survey::{Phrase, Said, say};

use super::conflicts::{Conflict, Kind, LEAST_SHOWN, worst_home_work};
use super::household::Household;
use super::order::Set;
use super::plan::Plan;
use super::service::service_said;
use crate::cite::labeled;
use crate::error::TradeError;
use crate::number::in_100;
use crate::sheet::{Change, Sheet};

/// How many days later a cut is tried.
const DAYS_TRIED: u32 = 5;

/// Services, and the household rule of the catalog that helps while they are off.
const RULES: [(&str, &str); 2] = [("kitchen", "temporary-kitchen"), ("power", "boxed-off-wiring")];

/// A household rule of the catalog in its words.
pub fn rule_said(rule: &HouseholdRule) -> Said {
    Said::of_catalog(format!("rule-{}", rule.id), &rule.words)
}

/// Kinds of conflict, each once, in order.
pub fn kinds(conflicts: &[Conflict]) -> Vec<Kind> {
    let mut kinds: Vec<Kind> = conflicts.iter().map(|c| c.kind).collect();
    kinds.dedup();
    kinds
}

/// Adds what helps.
///
/// # Errors
/// None for a plan and household that were read.
pub fn add(
    plan: &Plan,
    household: &Household,
    catalog: &Catalog,
    conflicts: &[Conflict],
    sheet: &mut Sheet,
) -> Result<(), TradeError> {
    let rule = |id: &str| catalog.household_rules.iter().find(|r| r.id == id).map(rule_said);
    let change = |text: Said| Change::new(text, false);
    for kind in kinds(conflicts) {
        let tasks = conflicts.iter().filter(|c| c.kind == kind).fold(Set::NONE, |all, c| all.with(c.tasks));
        let dark = tasks
            .iter()
            .filter_map(|t| plan.task(t))
            .any(|t| t.off().iter().any(|o| o.service.is_whole_power()));
        if kind == Kind::HomeWork {
            sheet.changes.extend(other_day(plan, household, conflicts)?);
        }
        if kind == Kind::HomeWork && dark {
            let words = Phrase("trade-battery-modem-router-phone");
            sheet.changes.push(change(labeled(kind.shown(), words)));
        } else if let Some(words) = rule(kind.rule()) {
            sheet.changes.push(change(labeled(kind.shown(), words)));
        }
    }
    for (word, id) in RULES {
        let off = plan.tasks().iter().any(|t| t.off().iter().any(|o| o.service.is(word)));
        let said = kinds(conflicts).iter().any(|k| k.rule() == id);
        if let Some(words) = rule(id).filter(|_| off && !said) {
            sheet.changes.push(change(say!("trade-while-off", word = service_said(word), words = words)));
        }
    }
    Ok(())
}

/// The task that meets work from home most, on the day within a week that meets it least.
fn other_day(
    plan: &Plan,
    household: &Household,
    conflicts: &[Conflict],
) -> Result<Option<Change>, TradeError> {
    let home = conflicts.iter().filter(|c| c.kind == Kind::HomeWork);
    let Some(worst) = home.max_by(|a, b| a.chance.total_cmp(&b.chance)) else { return Ok(None) };
    let schedule = plan.schedule();
    let morning = (worst.day as usize - 1) * schedule.day;
    let hours = |task: usize| {
        let chances = schedule.under_way(Set::only(task)).chance;
        chances.get(morning..morning + schedule.day).unwrap_or_default().iter().sum::<f64>()
    };
    let Some(task) = worst.tasks.iter().max_by(|a, b| hours(*a).total_cmp(&hours(*b))) else {
        return Ok(None);
    };
    let name = plan.task(task).map_or("", |t| t.name());
    let mut best: Option<(u32, f64)> = None;
    for day in worst.day + 1..=worst.day + DAYS_TRIED {
        let Ok(moved) = plan.moving(task, day) else { continue };
        let chance = worst_home_work(&moved, household)?;
        if chance < best.map_or(worst.chance / 2.0, |(_, least)| least) {
            best = Some((day, chance));
        }
    }
    Ok(best.map(|(day, chance)| {
        let now = if chance < LEAST_SHOWN { say!("trade-under-5-100") } else { in_100(chance) };
        let text = say!(
            "trade-not-before-worst-half",
            name = name,
            day = plan.days().day_shown(day),
            chance = in_100(worst.chance),
            now = now
        );
        Change::new(text, chance < LEAST_SHOWN)
    }))
}
