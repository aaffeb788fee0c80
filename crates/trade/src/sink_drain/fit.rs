//! From a planned sink and a measured stub to an answer.

use alloc::boxed::Box;

use survey::catalog::{Book, Family, Shelf};
use survey::say;

use super::answer::{DrainAnswer, DrainFit};
use super::defaults::DrainDefaults;
use super::lines::arithmetic;
use super::plan::{CAUTION, SinkPlan};
use super::remedies::single;
use super::resolve::{Case, resolve};
use super::terms::Assumptions;
use super::{also, notes, sources};
use crate::error::TradeError;
use crate::sheet::Assumed;
use crate::{cite, trap_arm};

/// Fits one planned sink to one stub, under the firm's plumbing book or, while none is chosen, under the first, which
/// is then said to be assumed. What is missing is either named or assumed.
///
/// # Errors
/// A plumbing book without the limits of a drain.
pub fn fit(plan: &SinkPlan, defaults: &DrainDefaults, shelf: &Shelf) -> Result<DrainAnswer, TradeError> {
    let (books, chosen) = cite::books(shelf, Family::Plumbing)?;
    let Some(book) = books.first() else { return Err(TradeError::NoBook { family: "plumbing" }) };
    let mut answer = fit_under(plan, defaults, book)?;
    if let DrainAnswer::Fit(fit) = &mut answer
        && !chosen
    {
        fit.assumed.push(Assumed::new(say!("trade-plumbing-code"), &book.title));
    }
    Ok(answer)
}

/// The same under one book.
///
/// # Errors
/// A book without the limits of a drain.
pub fn fit_under(plan: &SinkPlan, defaults: &DrainDefaults, book: &Book) -> Result<DrainAnswer, TradeError> {
    let mut assumed = Assumptions::default();
    match resolve(plan, defaults, book, &mut assumed)? {
        Some(case) => Ok(DrainAnswer::Fit(Box::new(judged(plan, defaults, book, case, assumed)?))),
        None => Ok(DrainAnswer::CannotSay { missing: plan.missing() }),
    }
}

/// Puts the answer together once chain, spread and stub are known.
fn judged(
    plan: &SinkPlan,
    defaults: &DrainDefaults,
    book: &Book,
    case: Case,
    assumed: Assumptions,
) -> Result<DrainFit, TradeError> {
    let (levels, stub) = (case.levels, case.stub.height);
    let first = case.first.levels;
    let second = case.second.as_ref().map_or(first, |bowl| bowl.levels);
    let governs = second.stub_max < first.stub_max;
    let over = case.spread.over(governs);
    // The outlet that lies higher governs from below.
    let under = case.spread.under(second.stub_min_code > first.stub_min_code);
    let p_over_practical = case.spread.chance_over([stub - first.stub_max, stub - second.stub_max]);
    let p_over_absolute = case.spread.chance_over([stub - first.stub_abs, stub - second.stub_abs]);
    let p_too_low = case.spread.chance_under([first.stub_min_code - stub, second.stub_min_code - stub]);
    let chain = case.second.as_ref().filter(|_| governs).map_or(&case.first, |bowl| bowl).chain.clone();
    let arm = trap_arm::check(book, chain.trap_size, chain.run, chain.slope).ok();
    Ok(DrainFit {
        levels,
        stub,
        verdict: case.verdict(),
        margin: levels.stub_max - stub,
        sigma: over.sigma(),
        stub_sigma: case.spread.stub_sigma(),
        stub_max_sigma: case.spread.high_sigma(governs),
        p_over_practical,
        p_over_absolute,
        p_too_low,
        seal: chain.seal + libm::fmax(stub - levels.stub_max, 0.0),
        remedies: single(plan, defaults, book, &case)?,
        lines: arithmetic(&case, over.sigma(), under.sigma()),
        limits: sources::limits(plan, book, chain.trap_size)?,
        notes: notes::of(plan, book, &case, arm.as_ref())?,
        also: also::broken(book, &case, arm.as_ref())?,
        trap_arm: arm,
        assumed: assumed.0,
        caution: CAUTION,
        over,
        under,
        chain,
        first: case.first,
        second: case.second,
    })
}
