//! Taking out what is not offered here, after everything has been checked: what remains obeys all rules as before.

use std::collections::BTreeSet;

use super::super::Catalog;
use super::super::error::Fault;
use super::super::item::AnswerKind;
use super::super::readers::IN_BASE_PRICE;
use super::super::source_file::Texts;
use super::lay::{Laid, Removal};
use super::{Removed, WrittenAt};

/// Takes out what the overlay says is not offered here. What cannot be left out is a fault.
pub(in super::super) fn remove(
    catalog: &mut Catalog,
    laid: &Laid,
    texts: &Texts<'_>,
    faults: &mut Vec<Fault>,
) -> Vec<Removed> {
    let mut removed = Vec::new();
    // Questions first: one that records a check goes before the check.
    let (items, others): (Vec<&Removal>, Vec<&Removal>) =
        laid.removals.iter().partition(|r| r.kind.word == "item");
    for removal in items.into_iter().chain(others) {
        let (file, line) = texts.line(usize::MAX, removal.at);
        let touched =
            laid.changes.iter().map(|c| (&c.kind, &c.id)).chain(laid.added.iter().map(|a| (&a.kind, &a.id)));
        let touched = touched.into_iter().any(|(kind, id)| kind == removal.kind.word && *id == removal.id);
        let result = if touched {
            Err(("is changed or added by the overlay and left out too".to_owned(), "keep one of the two"))
        } else {
            take(catalog, removal)
        };
        match result {
            Ok(with) => removed.push(Removed {
                kind: removal.kind.word.to_owned(),
                id: removal.id.clone(),
                reason: removal.reason.clone(),
                with,
                place: WrittenAt { file, line },
            }),
            Err((what, mend)) => faults.push(Fault {
                file,
                line,
                what: format!("the {} “{}” {what}", removal.kind.word, removal.id),
                mend: Some(mend.to_owned()),
            }),
        }
    }
    catalog.derive();
    removed.sort_by(|a, b| (&a.kind, &a.id).cmp(&(&b.kind, &b.id)));
    removed
}

/// Why something cannot be left out, and what to do instead.
type Refusal = (String, &'static str);

fn take(catalog: &mut Catalog, removal: &Removal) -> Result<Vec<String>, Refusal> {
    let id = removal.id.as_str();
    match removal.kind.word {
        "condition" => take_condition(catalog, id),
        "check" => take_check(catalog, id),
        "item" => take_item(catalog, id),
        "outage" => {
            catalog.outages.retain(|o| o.id != id);
            Ok(Vec::new())
        }
        "wish" => {
            catalog.wishes.retain(|w| w.id != id);
            Ok(Vec::new())
        }
        other => Err((format!("is a {other}, which stays"), "leave it in")),
    }
}

fn take_condition(catalog: &mut Catalog, id: &str) -> Result<Vec<String>, Refusal> {
    let Some(condition) = catalog.conditions.iter().find(|c| c.id == id) else { return Ok(Vec::new()) };
    if condition.core {
        return Err(("belongs to the core that every firm keeps".into(), "change its numbers instead"));
    }
    if condition.decision.is_some() {
        return Err((
            "stands behind a gate before a hazard, which every firm keeps".into(),
            "leave it in: it says nothing where none of its jobs is planned",
        ));
    }
    if let Some(derived) = catalog.derived.iter().find(|d| d.none_of.len() == 1 && d.none_of[0] == id) {
        let what = format!("is all that “{}” follows from", derived.condition);
        return Err((what, "leave that one out too, or neither"));
    }
    catalog.conditions.retain(|c| c.id != id);
    for other in &mut catalog.conditions {
        other.covers_cost_of.retain(|c| c != id);
    }
    catalog.excludes.retain(|e| e.pair.iter().all(|c| c != id));
    catalog.implies.retain(|i| i.premise != id && i.conclusion != id);
    catalog.derived.retain(|d| d.condition != id);
    for derived in &mut catalog.derived {
        derived.none_of.retain(|c| c != id);
    }
    catalog.reference.base_odds.not_for.retain(|c| c != id);
    if let Some(item) = catalog.items.iter_mut().find(|i| i.id == IN_BASE_PRICE)
        && let AnswerKind::Choices { options, .. } = &mut item.answer
    {
        options.retain(|o| o.id != id);
    }
    let clues: BTreeSet<String> =
        catalog.conditions.iter().flat_map(|c| c.clues.iter().map(|p| p.clue.clone())).collect();
    let mut with: Vec<String> =
        catalog.clues.keys().filter(|c| !clues.contains(*c)).map(|c| format!("clue {c}")).collect();
    catalog.clues.retain(|c, _| clues.contains(c));
    let mut checks: BTreeSet<String> =
        catalog.conditions.iter().flat_map(|c| c.checks.iter().map(|p| p.check.clone())).collect();
    checks.extend(catalog.items.iter().filter_map(|i| i.records_check.clone()));
    with.extend(catalog.checks.keys().filter(|c| !checks.contains(*c)).map(|c| format!("check {c}")));
    catalog.checks.retain(|c, _| checks.contains(c));
    Ok(with)
}

fn take_check(catalog: &mut Catalog, id: &str) -> Result<Vec<String>, Refusal> {
    if let Some(item) = catalog.items.iter().find(|i| i.records_check.as_deref() == Some(id)) {
        return Err((format!("is recorded by the question “{}”", item.id), "leave that question out too"));
    }
    let only = catalog.conditions.iter().find(|c| matches!(&c.checks[..], [one] if one.check == id));
    if let Some(condition) = only {
        return Err((format!("is the only check of “{}”", condition.id), "add another check of it first"));
    }
    for condition in &mut catalog.conditions {
        condition.checks.retain(|p| p.check != id);
    }
    catalog.checks.remove(id);
    Ok(Vec::new())
}

fn take_item(catalog: &mut Catalog, id: &str) -> Result<Vec<String>, Refusal> {
    if let Some(reader) = catalog.readers_of_answers(id).into_iter().next() {
        return Err((format!("is read by {reader}"), "ask it, or take away what reads it first"));
    }
    catalog.items.retain(|i| i.id != id);
    Ok(Vec::new())
}
