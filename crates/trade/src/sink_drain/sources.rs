//! The published limits that one fit is held against.

use alloc::vec::Vec;

use survey::catalog::Book;

use super::plan::SinkPlan;
use crate::error::TradeError;
use crate::number::size_name;
use crate::sheet::Limit;
use crate::{cite, dishwasher, limits};

/// Most distance between two outlets on one trap, and most difference of their depths: only where the book holds them.
pub(super) const ON_ONE_TRAP: [&str; 2] = ["bowls-apart", "bowls-deeper"];

pub(super) fn limits(plan: &SinkPlan, book: &Book, trap_size: f64) -> Result<Vec<Limit>, TradeError> {
    let mut out = limits::of_sink_drain(book, size_name(trap_size).unwrap_or("1-1/2"))?;
    if plan.second.is_some() {
        for id in ON_ONE_TRAP.into_iter().filter(|id| book.table(id).is_some()) {
            out.push(cite::value(book, id)?.1);
        }
    }
    if plan.drains_dishwasher() {
        match plan.dishwasher_method {
            Some(method) => out.push(dishwasher::is_named(book, method)?.1),
            None => out.push(dishwasher::rule(book)?),
        }
    }
    Ok(out)
}
