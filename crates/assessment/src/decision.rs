//! What to do about one condition: the expected loss of each way of writing it into the price.
//!
//! X is the cost if it is there (PERT, plus delay days times the firm's idle cost); Y = B·X with B true with
//! probability p, the chance that the condition is there and becomes a cost. The losses:
//!
//! | action | expected loss |
//! | --- | --- |
//! | price it in | (1−p)·c·g + p·`E[(X−c)+]`, c = `E[X]` |
//! | allowance A | g_a·`E[(A−Y)+]` + f_a·`E[(Y−A)+]` + h at A = F_Y⁻¹(f_a/(f_a+g_a)); offered when A > 0 |
//! | exclude, unit price agreed | p·c·f_a + h |
//! | exclude by name only | p·c·f; offered when p·c is below the firm's limit |
//!
//! The least loss wins; ties go to the more cautious, the order of the table. Factors are firm settings; their defaults are judgment.

use serde::{Deserialize, Serialize};

use survey::catalog::Catalog;
use trade::pert::Pert;

/// The firm's factors. The defaults are those of the shipped catalog's `settings.toml`, all judgment; a house is assessed
/// by [`LossRules::of`] its catalog.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct LossRules {
    /// Lost competitiveness per dollar priced in for what is not there.
    pub g: f64,
    /// Friction of an unpriced change order, per dollar.
    pub f: f64,
    /// Cost of allowance money left unused, per dollar.
    pub g_a: f64,
    /// Cost of a shortage at prices agreed beforehand, per dollar.
    pub f_a: f64,
    /// Handling of an agreed clause, dollars.
    pub h: f64,
    /// Idle cost of the firm per critical day, dollars.
    pub idle_per_day: f64,
    /// Excluding by name only is offered below this expected cost, dollars.
    pub exclude_below: f64,
    /// Expected costs below this are not raised at all, dollars.
    pub floor: f64,
    /// What the estimator's time costs per hour on site, dollars.
    pub labor_per_hour: f64,
}

/// Minutes a question takes on site (judgment).
const QUESTION_MINUTES: f64 = 1.0;

impl LossRules {
    /// What asking one question costs, dollars.
    pub fn question(&self) -> f64 {
        self.labor_per_hour * QUESTION_MINUTES / 60.0
    }
}

impl Default for LossRules {
    fn default() -> Self {
        Self {
            g: 0.25,
            f: 0.35,
            g_a: 0.08,
            f_a: 0.12,
            h: 40.0,
            idle_per_day: 450.0,
            exclude_below: 300.0,
            floor: 150.0,
            labor_per_hour: 95.0,
        }
    }
}

impl LossRules {
    /// The firm's factors as its catalog has them, with what its overlay says of them.
    pub fn of(catalog: &Catalog) -> Self {
        let kept = Self::default();
        // A loaded catalog holds every setting; the other value is never taken.
        let set = |id, otherwise| catalog.setting(id).unwrap_or(otherwise);
        Self {
            g: set("priced-in-for-nothing", kept.g),
            f: set("change-order", kept.f),
            g_a: set("allowance-unused", kept.g_a),
            f_a: set("allowance-short", kept.f_a),
            h: set("clause", kept.h),
            idle_per_day: set("idle-day", kept.idle_per_day),
            exclude_below: set("exclude-below", kept.exclude_below),
            floor: set("floor", kept.floor),
            labor_per_hour: set("hour-on-site", kept.labor_per_hour),
        }
    }
}

/// A way of writing a condition into the price, from the most cautious down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pricing {
    /// The likely cost stands in the price.
    PriceIn,
    /// An allowance, credited back if unused.
    Allowance,
    /// Excluded, with a unit price agreed beforehand.
    UnitPrice,
    /// Excluded by name only.
    Exclude,
}

/// Expected losses in dollars; `None` where the action is not offered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Losses {
    /// Expected cost if it is there, with idle days.
    pub c: f64,
    /// The allowance that loses least; 0 if none is worth writing.
    pub allowance_amount: f64,
    /// Loss of each action in the order of [`Pricing`].
    pub loss: [Option<f64>; 4],
}

const ORDER: [Pricing; 4] = [Pricing::PriceIn, Pricing::Allowance, Pricing::UnitPrice, Pricing::Exclude];

impl Losses {
    /// The action with the least loss; ties to the more cautious.
    pub fn best(&self) -> (Pricing, f64) {
        let mut best = (Pricing::PriceIn, f64::INFINITY);
        for (action, loss) in ORDER.iter().zip(self.loss) {
            if let Some(loss) = loss.filter(|l| *l < best.1) {
                best = (*action, loss);
            }
        }
        best
    }
    /// Loss of one action, if it is offered.
    pub fn of(&self, action: Pricing) -> Option<f64> {
        self.loss[ORDER.iter().position(|a| *a == action).unwrap_or(0)]
    }
}

/// Expected losses of a condition with chance `p` of becoming a cost, cost `cost` and `days` critical days of delay.
/// `offer_exclude` overrides whether excluding by name is offered (`None`: by the firm's limit).
pub fn losses(p: f64, cost: &Pert, days: f64, rules: &LossRules, offer_exclude: Option<bool>) -> Losses {
    let idle = days * rules.idle_per_day;
    let c = cost.mean() + idle;
    let price_in = (1.0 - p) * c * rules.g + p * cost.excess(cost.mean());
    let amount = allowance_amount(p, cost, idle, rules);
    let allowance = (amount > 0.0).then(|| {
        // E[(Y−A)+] = p·E[(X−A)+]; E[(A−Y)+] = A − E[Y] + E[(Y−A)+].
        let shortage = p * cost.excess(amount - idle);
        rules.g_a * (amount - p * c + shortage) + rules.f_a * shortage + rules.h
    });
    let exclude = offer_exclude.unwrap_or(exclusion_offered(p, c, rules)).then_some(p * c * rules.f);
    Losses {
        c,
        allowance_amount: amount,
        loss: [Some(price_in), allowance, Some(p * c * rules.f_a + rules.h), exclude],
    }
}

/// A* = F_Y⁻¹(f_a / (f_a + g_a)); 0 when the chance of no cost at all already reaches that level.
fn allowance_amount(p: f64, cost: &Pert, idle: f64, rules: &LossRules) -> f64 {
    let level = rules.f_a / (rules.f_a + rules.g_a);
    if p <= 0.0 || 1.0 - p >= level {
        return 0.0;
    }
    cost.quantile((level - (1.0 - p)) / p) + idle
}

/// Whether excluding by name only is offered: below the firm's limit on the expected cost.
pub(crate) fn exclusion_offered(p: f64, c: f64, rules: &LossRules) -> bool {
    p * c < rules.exclude_below
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;

    fn number(case: &Value, key: &str) -> f64 {
        case[key].as_f64().unwrap_or_else(|| panic!("{key}"))
    }

    /// Reference losses by scipy's beta distribution and numerical integration.
    #[test]
    fn losses_agree_with_scipy() {
        let file: Value =
            serde_json::from_str(include_str!("../../../tests/vectors/assessment/decision.json")).unwrap();
        let cases = file["cases"].as_array().unwrap();
        assert!(cases.len() >= 10);
        for case in cases {
            let at = |i: usize| case["pert"][i].as_f64().unwrap();
            let rules = LossRules {
                g: number(case, "g"),
                f: number(case, "f"),
                g_a: number(case, "g_a"),
                f_a: number(case, "f_a"),
                h: number(case, "h"),
                idle_per_day: number(case, "idle_per_day"),
                ..LossRules::default()
            };
            let cost = Pert::new(at(0), at(1), at(2)).unwrap();
            let got = losses(number(case, "p"), &cost, number(case, "days"), &rules, Some(true));
            let near = |a: f64, b: f64| (a - b).abs() < 0.01;
            assert!(near(got.c, number(case, "c")), "{case}");
            assert!(near(got.allowance_amount, number(case, "allowance_amount")), "{case} {got:?}");
            for (key, action) in [
                ("price_in", Pricing::PriceIn),
                ("allowance", Pricing::Allowance),
                ("unit_price", Pricing::UnitPrice),
                ("exclude", Pricing::Exclude),
            ] {
                match (case["loss"][key].as_f64(), got.of(action)) {
                    (Some(want), Some(loss)) => assert!(near(want, loss), "{key}: {case} {got:?}"),
                    (None, None) => {}
                    other => panic!("{key}: {other:?} in {case}"),
                }
            }
            let firm = losses(number(case, "p"), &cost, number(case, "days"), &rules, None);
            let best = serde_json::to_value(firm.best().0).unwrap();
            assert_eq!(best.as_str().unwrap().replace('-', "_"), case["best"].as_str().unwrap(), "{case}");
        }
    }
}
