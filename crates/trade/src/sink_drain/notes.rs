//! What else the reader should know: what to ask for, what the code family says of trap, dishwasher and two bowls.

use alloc::vec::Vec;

use survey::catalog::Book;
use survey::{Phrase, Said, say};

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
) -> Result<Vec<Said>, TradeError> {
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
        out.push(say!("trade-ask-disposers-sheet-outlet"));
    }
    if plan.stub_datum.is_none() {
        out.push(say!("trade-reading-starts-cabinet-floor", cabinetfloor = show(chain.cabinet_floor)));
    }
    if stub < levels.stub_min_cabinet - HAIR {
        out.push(say!(
            "trade-trap-would-come-closer",
            service = show(chain.service),
            stub = show(levels.stub_min_cabinet - stub)
        ));
    }
    if matches!(case.verdict(), Verdict::Marginal | Verdict::MustMove) {
        let stretch = stub - levels.stub_max;
        out.push(say!(
            "trade-reach-stub-outlet-leg",
            stretch = show(stretch),
            stretch2 = trap_seal::sentence(book, chain.seal + stretch)?
        ));
    }
    if stub > levels.flood + HAIR {
        let place = match (chain.connection, &case.second) {
            (Connection::Disposer, None) => Phrase("trade-disposer"),
            (Connection::Strainer, None) => Phrase("trade-bowl"),
            _ => Phrase("trade-bowl-disposer"),
        };
        out.push(say!("trade-height-water-would-stand", place = place));
    }
    if arm.is_some_and(|arm| arm.faults.contains(&trap_arm::Fault::TooLong)) {
        out.push(say!("trade-under-run-alone-longer", title = &book.title));
    }
    if case.second.is_some() {
        on_one_trap(book, case, &mut out)?;
    }
    if plan.drains_dishwasher() {
        out.push(dishwasher::sentence(book, plan.dishwasher_method)?);
        let wye = case.first.chain.connection == Connection::Strainer
            && case.second.as_ref().is_none_or(|bowl| bowl.chain.connection == Connection::Strainer);
        if wye {
            out.push(Phrase("trade-wye-dishwasher-tailpiece-takes").into());
        }
    }
    Ok(out)
}

/// Two outlets on one trap against the book's distance and difference of depth.
fn on_one_trap(book: &Book, case: &Case, out: &mut Vec<Said>) -> Result<(), TradeError> {
    let Some(second) = &case.second else { return Ok(()) };
    out.push(say!("trade-trap-taken-hang-under"));
    let apart = second.waste_run;
    let deeper = libm::fabs(second.levels.outlet - case.first.levels.outlet);
    for (id, found, what) in [
        (ON_ONE_TRAP[0], apart, Phrase("trade-apart")),
        (ON_ONE_TRAP[1], deeper, Phrase("trade-deeper-than-other")),
    ] {
        if book.table(id).is_none() {
            continue;
        }
        let (most, limit) = cite::value(book, id)?;
        if found > most + HAIR {
            out.push(say!(
                "trade-under-one-trap-serves",
                title = &book.title,
                most = show(most),
                what = what,
                found = show(found),
                place = limit.place()
            ));
        }
    }
    Ok(())
}
