//! What to do about a condition. In this order; the first that applies decides: gate, base price, firm's floor,
//! least expected loss.

use survey::catalog::{Answers, Condition, Gate};
use survey::log::Value;

use crate::decision::{LossRules, Pricing, losses};
use crate::forecast::{Advice, cents};
use trade::pert::Pert;

/// Item that says which usual conditions the base price already holds; its options are condition ids.
pub(crate) const IN_BASE_PRICE: &str = "in-base-price";

/// Whether the base price holds a condition: `Some(confirmed)`, or `None` if it does not.
pub(crate) fn in_base_price(c: &Condition, answers: &dyn Answers) -> Option<bool> {
    if !c.usually_in_base_price {
        return None;
    }
    match answers.value(IN_BASE_PRICE) {
        Some(Value::Choices(held)) => held.contains(&c.id).then_some(true),
        _ => Some(false),
    }
}

/// Three-point cost of a condition in this house, dollars.
pub(crate) fn cost_pert(c: &Condition, answers: &dyn Answers) -> Pert {
    let cost = c.cost_in(answers);
    let dollars = [cost.low.dollars(), cost.likely.dollars(), cost.high.dollars()];
    Pert::new(dollars[0], dollars[1], dollars[2]).unwrap_or_else(|_| Pert::fixed(dollars[1]))
}

/// Three-point working days of a condition.
pub(crate) fn days_pert(c: &Condition) -> Pert {
    Pert::new(c.days.low, c.days.likely, c.days.high).unwrap_or_else(|_| Pert::fixed(c.days.likely))
}

/// Critical days that cost the firm idle time: none while only a utility is waited for.
pub(crate) fn idle_days(c: &Condition) -> f64 {
    if c.utility_wait { 0.0 } else { days_pert(c).mean() }
}

/// The gate's advice, if a gate stands (an unknown answer leaves it standing).
fn gated(c: &Condition, answers: &dyn Answers) -> Option<Advice> {
    let decision = c.decision.as_ref()?;
    if c.gate(answers)? == Some(false) {
        return None;
    }
    let until = decision.until.clone();
    Some(match decision.kind {
        Gate::Presume => Advice::PriceInOrTest { until },
        Gate::HardStop => Advice::LicensedLookFirst { until },
    })
}

/// True when a value of information may move the price of this condition: no gate stands before it, it is not in
/// the base price, and it costs something.
pub(crate) fn open_to_looks(c: &Condition, answers: &dyn Answers) -> bool {
    gated(c, answers).is_none() && in_base_price(c, answers).is_none() && cost_pert(c, answers).mean() > 0.0
}

/// What to do about a condition that is present with probability `p`.
pub fn advise(c: &Condition, answers: &dyn Answers, p: f64, rules: &LossRules) -> Advice {
    if let Some(advice) = gated(c, answers) {
        return advice;
    }
    if let Some(confirmed) = in_base_price(c, answers) {
        return Advice::InBasePrice { confirmed };
    }
    let cost = cost_pert(c, answers);
    if cost.mean() <= 0.0 {
        return Advice::Nothing;
    }
    let p = p * c.p_cost_in(answers);
    let found = losses(p, &cost, idle_days(c), rules, None);
    if p * found.c < rules.floor {
        return Advice::BelowFloor;
    }
    let (pricing, loss) = found.best();
    let amount = match pricing {
        Pricing::PriceIn => Some(cents(found.c)),
        Pricing::Allowance => Some(cents(found.allowance_amount)),
        Pricing::UnitPrice => Some(cents(found.c)),
        Pricing::Exclude => None,
    };
    Advice::Price { pricing, amount, loss: cents(loss) }
}
