//! What is found once the work is opened, what it costs, and who pays.

use std::collections::{BTreeMap, BTreeSet};

use assessment::simulate::working_days;
use review::Outcome;
use survey::Key;
use survey::catalog::Condition;
use survey::log::{CheckOutcome, CheckResult, Value};
use survey::units::Money;
use trade::pert::Pert;

use crate::habits::Habits;
use crate::house::{Found, Loss, Payer, State};
use crate::speak::Facts;
use crate::stream::Stream;
use crate::suspect;

/// Item that says what the base price holds; its options are condition ids.
const IN_BASE_PRICE: &str = "in-base-price";

/// State, cost and days of each condition in scope.
pub(crate) fn states(
    scope: &[&Condition],
    present: &BTreeSet<String>,
    facts: &Facts,
    stream: &mut Stream,
) -> BTreeMap<String, State> {
    let held = match facts.get(IN_BASE_PRICE) {
        Some(Value::Choices(held)) => Some(held),
        _ => None,
    };
    let mut list: Vec<(&Condition, State)> = Vec::new();
    for c in scope {
        // All draws are made, so that a stream keeps its meaning whatever is there.
        let becomes = stream.chance(c.p_cost_in(facts));
        let cost = c.cost_in(facts);
        let cost = stream.pert(&pert(cost.low.dollars(), cost.likely.dollars(), cost.high.dollars()));
        let days = stream.pert(&pert(c.days.low, c.days.likely, c.days.high));
        let here = present.contains(&c.id);
        let counts = here && becomes;
        list.push((
            c,
            State {
                present: here,
                becomes_cost: counts,
                in_base: c.usually_in_base_price
                    && held.is_none_or(|h| h.iter().any(|id| id == Key::parse(&c.id).id)),
                cost: if counts { Money::from_f64(cost).unwrap_or(Money::MAX) } else { Money::ZERO },
                days: if counts { libm::round(days * 100.0) / 100.0 } else { 0.0 },
            },
        ));
    }
    let covering = list.iter().filter(|(_, t)| t.becomes_cost);
    let covered: BTreeSet<&str> =
        covering.flat_map(|(c, _)| c.covers_cost_of.iter().map(String::as_str)).collect();
    list.iter()
        .map(|(c, state)| {
            let mut state = *state;
            if covered.contains(c.id.as_str()) {
                (state.cost, state.days) = (Money::ZERO, 0.0);
            }
            (c.id.clone(), state)
        })
        .collect()
}

fn pert(low: f64, likely: f64, high: f64) -> Pert {
    Pert::new(low, likely, high).unwrap_or_else(|_| Pert::fixed(likely))
}

/// Sums over the conditions that `opened` lets count.
pub(crate) fn loss(
    scope: &[&Condition],
    states: &BTreeMap<String, State>,
    opened: &dyn Fn(&str) -> bool,
) -> Loss {
    let counted: Vec<(&Condition, &State)> = scope
        .iter()
        .filter_map(|c| Some((*c, states.get(&c.id)?)))
        .filter(|(c, t)| t.becomes_cost && opened(&c.id))
        .collect();
    let sum = |held: bool| counted.iter().filter(|(_, t)| t.in_base == held).map(|(_, t)| t.cost).sum();
    let unpriced = || counted.iter().filter(|(_, t)| !t.in_base && t.days > 0.0);
    let works = unpriced().filter(|(c, _)| !c.utility_wait);
    let trade = |c: &'_ Condition| c.trades.first().map_or(String::new(), Clone::clone);
    let delays: Vec<_> = works.map(|(c, t)| (c.stage, trade(c), t.days)).collect();
    let days = working_days(delays.iter().map(|(s, t, d)| (*s, t.as_str(), *d)));
    let waits = unpriced().filter(|(c, _)| c.utility_wait).map(|(_, t)| t.days);
    Loss {
        money: sum(false),
        in_base: sum(true),
        days: libm::round(days * 100.0) / 100.0,
        utility_days: waits.fold(0.0, f64::max),
    }
}

/// What the firm notes after demolition. Whether a place is opened depends on what was seen and recorded, never on what
/// is there.
pub(crate) fn findings(
    habits: &Habits,
    scope: &[&Condition],
    odds: &[f64],
    states: &BTreeMap<String, State>,
    made: &[CheckResult],
    stream: &mut Stream,
) -> Vec<Found> {
    let o = &habits.opening;
    let mut found = Vec::new();
    for (c, odds) in scope.iter().zip(odds) {
        let Some(state) = states.get(&c.id) else { continue };
        let suspected = suspect::probability(odds * suspect::checked(c, made)) >= o.suspected_from;
        let opened = stream.chance(if suspected { o.suspected } else { o.others });
        let (priced, payer) = (stream.share(), stream.share());
        let here = opened && state.present;
        let cost = if here { state.cost } else { Money::ZERO };
        let p = &habits.payer;
        let chance = if shown(made, &c.id) {
            p.priced_if_shown
        } else if suspected {
            p.priced_if_suspected
        } else {
            0.0
        };
        let in_price = state.in_base || priced < chance;
        let paid_by = match payer {
            _ if in_price => Payer::Contract,
            u if u < p.household => Payer::Household,
            u if u < p.household + p.firm => Payer::Firm,
            _ => Payer::Shared,
        };
        found.push(Found {
            condition: c.id.clone(),
            outcome: match (opened, state.present) {
                (false, _) => Outcome::NotOpened,
                (true, true) => Outcome::Found,
                (true, false) => Outcome::NotThere,
            },
            cost,
            days: if here { state.days } else { 0.0 },
            priced_before_signing: here && in_price,
            paid_by: (cost > Money::ZERO).then_some(paid_by),
            suspected,
        });
    }
    found
}

/// True where a check that was made had shown it.
fn shown(made: &[CheckResult], condition: &str) -> bool {
    made.iter().any(|r| r.result == CheckOutcome::ShowsIt && r.conditions.iter().any(|c| c == condition))
}
