//! What the walk still asks, in order: only what can matter, and why.
//!
//! Whether an answer can still matter, and what it is worth, is worked out where odds are known and handed in. The
//! order is the walk's: station by station, place by place; within one, the first walk in its order, then second
//! looks that are worth their minute, best first.

use super::{Scope, Status, Step, stops, within};
use crate::catalog::{Catalog, Item, PhotoWish, Place};
use crate::model::Picture;
use crate::units::Money;

/// What an answer to a step would be good for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Use {
    /// Something in scope depends on it enough to be worth asking.
    pub matters: bool,
    /// What it is worth on average, before the minutes it takes.
    pub value: Money,
}

/// Why a step is asked.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Because {
    /// People said different things.
    Disagreed,
    /// Something in scope depends on it.
    Matters,
    /// The pages need it, whatever the odds.
    Packet,
    /// A second look whose answer is worth its minute.
    WorthIt,
}

/// One step that is asked.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Planned<'a> {
    /// The step.
    pub step: Step<'a>,
    /// Why.
    pub because: Because,
    /// What its answer is worth on average.
    pub value: Money,
}

/// What is asked and what is not.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Plan<'a> {
    /// Asked, in order.
    pub ask: Vec<Planned<'a>>,
    /// Open, but not worth asking: nothing depends on them, or too little.
    pub no_use: Vec<Step<'a>>,
}

/// Plans the rest of the walk. `use_of` says what an answer to an open step would be good for; a second look is asked
/// from `least` on, what a minute on site costs. `from`, a station, is where the walk goes on: stations before it come
/// last.
pub fn plan<'a>(
    catalog: &'a Catalog,
    picture: &'a Picture,
    scope: Scope<'a>,
    from: Option<&str>,
    least: Money,
    mut use_of: impl FnMut(&Step<'a>) -> Use,
) -> Plan<'a> {
    let mut plan = Plan::default();
    let steps: Vec<Step<'a>> = within(catalog, picture, scope).collect();
    for place in in_order(catalog, picture, from) {
        let mut second: Vec<Planned<'a>> = Vec::new();
        for step in steps.iter().filter(|s| s.place == place) {
            let planned = |because, value| Planned { step: *step, because, value };
            match step.status {
                Status::Disagreed => plan.ask.push(planned(Because::Disagreed, Money::ZERO)),
                Status::Open => {
                    let Use { matters, value } = use_of(step);
                    if matters {
                        plan.ask.push(planned(Because::Matters, value));
                    } else if for_packet(catalog, step.item) {
                        plan.ask.push(planned(Because::Packet, value));
                    } else {
                        plan.no_use.push(*step);
                    }
                }
                Status::SecondLook => {
                    let Use { value, .. } = use_of(step);
                    if value > Money::ZERO && value >= least {
                        second.push(planned(Because::WorthIt, value));
                    }
                }
                Status::Answered | Status::Skipped => {}
            }
        }
        // A stable sort: equal values stay in walking order.
        second.sort_by_key(|p| std::cmp::Reverse(p.value));
        plan.ask.extend(second);
    }
    plan
}

/// Places in the order walked.
fn in_order<'a>(catalog: &'a Catalog, picture: &'a Picture, from: Option<&str>) -> Vec<&'a str> {
    let stops: Vec<_> = stops(catalog, picture).collect();
    let first = from.and_then(|from| stops.iter().position(|s| s.station.id == from || s.place == from));
    let (before, after) = stops.split_at(first.unwrap_or(0));
    after.iter().chain(before).map(|s| s.place).collect()
}

/// True when the pages need the answer whatever the odds: it is more than a clue, it wants a photograph, or it was
/// asked of the household or the office, who answer all of their sheet.
fn for_packet(catalog: &Catalog, item: &Item) -> bool {
    let clue_only = !item.clues.is_empty() || !item.sets_context.is_empty();
    let in_house = catalog.station(&item.station).is_none_or(|s| s.place == Place::House);
    !clue_only || item.photo == PhotoWish::Needed || !in_house
}
