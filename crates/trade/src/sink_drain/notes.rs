//! What else the reader should know: what to ask for, what the code family says of trap, dishwasher and two bowls.

use alloc::{format, string::String, string::ToString, vec::Vec};

use survey::catalog::Book;

use super::chain::{Connection, HAIR, Verdict};
use super::plan::SinkPlan;
use super::resolve::Case;
use super::sources::ON_ONE_TRAP;
use crate::error::TradeError;
use crate::given::show_inches as show;
use crate::{cite, dishwasher, trap_arm, trap_seal};

pub(super) fn of(
    plan: &SinkPlan,
    book: &Book,
    case: &Case,
    arm: Option<&trap_arm::TrapArm>,
) -> Result<Vec<String>, TradeError> {
    let mut out = Vec::new();
    let chain = &case.first.chain;
    let (stub, levels) = (case.stub.height, &case.levels);
    let unread = |kind, drop: bool| kind == Connection::Disposer && !drop;
    if unread(chain.connection, plan.disposer_drop.is_some())
        || case.second.as_ref().is_some_and(|bowl| {
            let read = plan.second.is_some_and(|second| second.disposer_drop.is_some());
            unread(bowl.chain.connection, read)
        })
    {
        out.push(
            "Ask for the disposer's sheet: its outlet drop is the widest guess in this answer.".to_string(),
        );
    }
    if plan.stub_datum.is_none() {
        out.push(format!(
            "A reading that starts at the cabinet floor would put the stub {} higher.",
            show(chain.cabinet_floor)
        ));
    }
    if stub < levels.stub_min_cabinet - HAIR {
        out.push(format!(
            "The trap would come closer than {} to the cabinet floor, or below it; a stub {} higher would keep it off.",
            show(chain.service),
            show(levels.stub_min_cabinet - stub)
        ));
    }
    if matches!(case.verdict(), Verdict::Marginal | Verdict::MustMove) {
        let stretch = stub - levels.stub_max;
        out.push(format!(
            "To reach the stub as it is, the outlet leg of the trap would be stretched by {}. {}",
            show(stretch),
            trap_seal::sentence(book, chain.seal + stretch)?
        ));
    }
    if stub > levels.flood + HAIR {
        let place = match (chain.connection, &case.second) {
            (Connection::Disposer, None) => "in the disposer",
            (Connection::Strainer, None) => "in the bowl",
            _ => "in a bowl or the disposer",
        };
        out.push(format!("At that height water would stand {place} for good."));
    }
    if arm.is_some_and(|arm| arm.faults.contains(&trap_arm::Fault::TooLong)) {
        out.push(format!(
            "Under {} the run alone is longer than the trap arm may be before its vent.",
            book.title
        ));
    }
    if case.second.is_some() {
        on_one_trap(book, case, &mut out)?;
    }
    if plan.drains_dishwasher() {
        out.push(dishwasher::sentence(book, plan.dishwasher_method)?);
        let wye = case.first.chain.connection == Connection::Strainer
            && case.second.as_ref().is_none_or(|bowl| bowl.chain.connection == Connection::Strainer);
        if wye {
            out.push(
                "A wye for the dishwasher in the tailpiece takes height of its own; it is not in the trap drop taken."
                    .to_string(),
            );
        }
    }
    Ok(out)
}

/// Two outlets on one trap against the book's distance and difference of depth.
fn on_one_trap(book: &Book, case: &Case, out: &mut Vec<String>) -> Result<(), TradeError> {
    let Some(second) = &case.second else { return Ok(()) };
    out.push("The trap is taken to hang under the first bowl.".to_string());
    let apart = second.waste_run;
    let deeper = libm::fabs(second.levels.outlet - case.first.levels.outlet);
    for (id, found, what) in
        [(ON_ONE_TRAP[0], apart, "apart"), (ON_ONE_TRAP[1], deeper, "deeper than the other")]
    {
        if book.table(id).is_none() {
            continue;
        }
        let (most, limit) = cite::value(book, id)?;
        if found > most + HAIR {
            out.push(format!(
                "Under {} one trap serves two bowls only up to {} {what}; here it is {} ({}).",
                book.title,
                show(most),
                show(found),
                limit.place()
            ));
        }
    }
    Ok(())
}
