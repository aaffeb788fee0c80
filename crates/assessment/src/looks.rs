//! What to look at next: the expected value of each further check, per minute.
//!
//! The value of a check is the sum, over the conditions it informs, of the fall in the least expected loss that its
//! own result on that condition brings on average. What one result tells about *other* conditions is not credited,
//! so the value is a floor. From it go the minutes at the firm's rate and the repair. Gated hazards bring no value
//! here: their licensed look comes first whatever the arithmetic says.

use survey::catalog::Catalog;
use survey::model::Picture;

use crate::advice::{cost_pert, idle_days, open_to_looks};
use crate::decision::{LossRules, look_value};
use crate::evidence::checks_made;
use crate::forecast::{Look, cents, round2};
use crate::scope::Scoped;

/// Checks that may be offered, best net value per minute first, ties to the least invasive; only those whose value
/// is above zero. `p` gives P(present) of each condition in scope by its key.
pub fn rank_looks(
    catalog: &Catalog,
    scope: &[Scoped<'_>],
    picture: &Picture,
    rules: &LossRules,
    p: &dyn Fn(&str) -> f64,
) -> Vec<Look> {
    let done = checks_made(catalog, picture);
    let mut looks: Vec<Look> = catalog
        .checks
        .iter()
        .filter_map(|(id, check)| {
            let blocked = check.blocked_if.iter().map(|b| b.holds(picture)).collect::<Vec<_>>();
            if blocked.contains(&Some(true)) {
                return None;
            }
            let mut value = 0.0;
            let mut conditions = Vec::new();
            for scoped in scope {
                let (c, here) = (scoped.condition(), scoped.here(picture));
                if !open_to_looks(c, &here) {
                    continue;
                }
                let Some(pair) = c.checks.iter().find(|k| k.check == *id) else { continue };
                if done.iter().any(|(k, on, _, _)| k == id && on == scoped.key()) {
                    continue;
                }
                let gain = look_value(
                    p(scoped.key()),
                    c.p_cost_in(&here),
                    pair.sensitivity,
                    pair.specificity,
                    &cost_pert(c, &here),
                    idle_days(c),
                    rules,
                );
                if gain > 0.005 {
                    value += gain;
                    conditions.push(scoped.key().to_owned());
                }
            }
            let minutes = check.minutes.likely.max(0.5);
            let cost = minutes / 60.0 * rules.labor_per_hour + check.cost.likely.dollars();
            let mut ask_first = check.not_while.clone();
            if ask_first.is_empty() && blocked.iter().any(Option::is_none) {
                ask_first.push("an answer that could forbid it is still open: settle it first".to_owned());
            }
            (value > 0.0).then(|| Look {
                check: id.clone(),
                label: check.name.clone(),
                conditions,
                minutes: round2(minutes),
                cost: cents(cost),
                value: cents(value),
                net_per_minute: cents((value - cost) / minutes),
                invasiveness: check.invasive,
                who: check.who.clone(),
                ask_first,
            })
        })
        .collect();
    looks.sort_by(|a, b| {
        b.net_per_minute
            .cmp(&a.net_per_minute)
            .then(a.invasiveness.cmp(&b.invasiveness))
            .then(a.check.cmp(&b.check))
    });
    looks
}
