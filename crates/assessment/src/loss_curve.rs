//! The least expected loss of a condition as a function of the chance that it is there, made once and read often.
//!
//! Every way of writing a condition into the price loses a straight line in that chance: priced in, by unit price,
//! excluded, and an allowance of a given amount. The least of straight lines is concave, so information never raises
//! the expected loss. Allowances are offered here in 64ths of the range of the cost; what that costs beside the best
//! amount is below a thousandth of the expected cost (tested).

use trade::pert::Pert;

use crate::decision::{LossRules, exclusion_offered};

/// Allowance amounts offered: the low value of the cost, then in steps of this part of its range.
const STEPS: u32 = 64;

/// A straight line in the chance that the condition is there.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Line {
    at_zero: f64,
    slope: f64,
}

impl Line {
    fn at(&self, p: f64) -> f64 {
        self.at_zero + self.slope * p
    }
}

/// Least expected loss in dollars by P(present).
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LossCurve {
    /// The lines that are least somewhere, in the order of the chance from which they are.
    lines: Vec<Line>,
    /// Chance from which each line is least; the first is 0.
    from: Vec<f64>,
    /// Excluding by name only, which a firm offers below a limit.
    exclude: Line,
    cost: Pert,
    p_cost: f64,
    days: f64,
}

impl LossCurve {
    /// Of a condition that becomes a cost with `p_cost` when it is there, costs `cost` and `days` critical days.
    pub(crate) fn new(p_cost: f64, cost: &Pert, days: f64, rules: &LossRules) -> Self {
        let idle = days * rules.idle_per_day;
        let c = cost.mean() + idle;
        let (g, f, g_a, f_a, h) = (rules.g, rules.f, rules.g_a, rules.f_a, rules.h);
        let mut lines = vec![
            Line { at_zero: c * g, slope: p_cost * (cost.excess(cost.mean()) - c * g) },
            Line { at_zero: h, slope: p_cost * c * f_a },
        ];
        let span = cost.high() - cost.low();
        lines.extend((0..=if span > 0.0 { STEPS } else { 0 }).map(|step| {
            let amount = cost.low() + span * f64::from(step) / f64::from(STEPS);
            let shortage = cost.excess(amount);
            let a = amount + idle;
            Line { at_zero: g_a * a + h, slope: p_cost * (g_a * (shortage - c) + f_a * shortage) }
        }));
        let exclude = Line { at_zero: 0.0, slope: p_cost * c * f };
        let (lines, from) = lowest(lines);
        Self { lines, from, exclude, cost: *cost, p_cost, days }
    }

    /// True when this is the curve of these values: it need not be made again.
    pub(crate) fn is_of(&self, p_cost: f64, cost: &Pert, days: f64) -> bool {
        self.p_cost == p_cost && self.cost == *cost && self.days == days
    }

    /// Whether excluding by name is offered at this chance.
    pub(crate) fn excludes_at(&self, p: f64, rules: &LossRules) -> bool {
        exclusion_offered(p * self.p_cost, self.cost.mean() + self.days * rules.idle_per_day, rules)
    }

    /// Least expected loss, dollars, with or without excluding by name among the offers.
    pub(crate) fn least(&self, p: f64, exclude: bool) -> f64 {
        self.best(p, exclude).at(p)
    }

    /// What is lost at chance `truly` by the pricing that is best at chance `p`, dollars.
    pub(crate) fn priced_at(&self, p: f64, truly: f64, exclude: bool) -> f64 {
        self.best(p, exclude).at(truly)
    }

    /// How far the steepest and the flattest pricing lie apart, dollars by chance. A finding that moves the chance by
    /// d on average is worth at most half of this times d: concave curves fall short of their tangent by no more.
    pub(crate) fn bend(&self, exclude: bool) -> f64 {
        let slopes = || self.lines.iter().chain(exclude.then_some(&self.exclude)).map(|line| line.slope);
        let (steep, flat) = (slopes().fold(f64::MIN, f64::max), slopes().fold(f64::MAX, f64::min));
        libm::fmax(steep - flat, 0.0)
    }

    fn best(&self, p: f64, exclude: bool) -> &Line {
        // `from` starts at 0, so there is always a line at or before.
        let k = self.from.partition_point(|from| *from <= p).max(1) - 1;
        let least = &self.lines[k];
        if exclude && self.exclude.at(p) < least.at(p) { &self.exclude } else { least }
    }
}

/// The lines that are least somewhere in [0, 1], and from where (the lower envelope).
fn lowest(mut lines: Vec<Line>) -> (Vec<Line>, Vec<f64>) {
    // From left to right the slope of the least line falls.
    lines.sort_by(|a, b| b.slope.total_cmp(&a.slope).then(a.at_zero.total_cmp(&b.at_zero)));
    lines.dedup_by(|b, a| a.slope == b.slope);
    let mut kept: Vec<Line> = Vec::new();
    let mut from: Vec<f64> = Vec::new();
    for line in lines {
        let mut start = 0.0;
        while let Some(last) = kept.last() {
            start = (line.at_zero - last.at_zero) / (last.slope - line.slope);
            if start > from[from.len() - 1] {
                break;
            }
            kept.pop();
            from.pop();
            start = 0.0;
        }
        if start <= 1.0 {
            kept.push(line);
            from.push(start.max(0.0));
        }
    }
    (kept, from)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decision::losses;
    use proptest::prelude::*;

    /// The least over the exact actions.
    fn exact(p: f64, p_cost: f64, cost: &Pert, days: f64, rules: &LossRules, exclude: bool) -> f64 {
        losses(p * p_cost, cost, days, rules, Some(exclude)).best().1
    }

    proptest! {
        #[test]
        fn the_curve_is_the_least_loss_to_a_thousandth_of_the_cost(
            p in 0.0..=1.0f64, p_cost in 0.0..=1.0f64, low in 0.0..5_000.0f64, more in 0.0..5_000.0f64,
            most in 0.0..9_000.0f64, days in 0.0..10.0f64, exclude: bool,
        ) {
            let cost = Pert::new(low, low + more, low + more + most).unwrap();
            let rules = LossRules::default();
            let curve = LossCurve::new(p_cost, &cost, days, &rules);
            let (got, want) = (curve.least(p, exclude), exact(p, p_cost, &cost, days, &rules, exclude));
            let c = cost.mean() + days * rules.idle_per_day;
            prop_assert!(got - want < 1e-3 * c + 1e-9, "{got} {want}");
            // Fewer amounts to choose from can only lose more.
            prop_assert!(want - got < 1e-9 * c.max(1.0), "{got} {want}");
        }

        #[test]
        fn a_finding_is_worth_at_most_half_the_bend_for_each_step_of_the_chance(
            a in 0.0..=1.0f64, b in 0.0..=1.0f64, w in 0.0..=1.0f64, p_cost in 0.0..=1.0f64,
            low in 0.0..5_000.0f64, more in 0.0..5_000.0f64, most in 0.0..9_000.0f64, exclude: bool,
        ) {
            let cost = Pert::new(low, low + more, low + more + most).unwrap();
            let curve = LossCurve::new(p_cost, &cost, 0.5, &LossRules::default());
            let now = w * a + (1.0 - w) * b;
            let worth = curve.least(now, exclude) - w * curve.least(a, exclude) - (1.0 - w) * curve.least(b, exclude);
            let moved = w * (a - now).abs() + (1.0 - w) * (b - now).abs();
            prop_assert!(worth <= curve.bend(exclude) / 2.0 * moved + 1e-6, "{worth} {moved}");
        }

        #[test]
        fn no_pricing_loses_less_than_the_one_that_is_best_at_the_true_chance(
            p in 0.0..=1.0f64, truly in 0.0..=1.0f64, low in 0.0..5_000.0f64, more in 0.0..5_000.0f64, exclude: bool,
        ) {
            let cost = Pert::new(low, low + more, low + 2.0 * more).unwrap();
            let curve = LossCurve::new(0.8, &cost, 1.0, &LossRules::default());
            prop_assert!(curve.priced_at(p, truly, exclude) >= curve.least(truly, exclude) - 1e-9);
            prop_assert_eq!(curve.priced_at(p, p, exclude), curve.least(p, exclude));
        }

        #[test]
        fn information_never_raises_the_expected_loss(
            a in 0.0..=1.0f64, b in 0.0..=1.0f64, w in 0.0..=1.0f64, p_cost in 0.0..=1.0f64,
            low in 0.0..5_000.0f64, more in 0.0..5_000.0f64, most in 0.0..9_000.0f64, exclude: bool,
        ) {
            let cost = Pert::new(low, low + more, low + more + most).unwrap();
            let curve = LossCurve::new(p_cost, &cost, 0.5, &LossRules::default());
            let before = curve.least(w * a + (1.0 - w) * b, exclude);
            let after = w * curve.least(a, exclude) + (1.0 - w) * curve.least(b, exclude);
            prop_assert!(after <= before + 1e-9 * before.max(1.0), "{before} {after}");
        }
    }

    #[test]
    fn a_condition_that_costs_nothing_loses_nothing_when_excluded() {
        let curve = LossCurve::new(1.0, &Pert::fixed(0.0), 0.0, &LossRules::default());
        assert_eq!(curve.least(0.7, true), 0.0);
    }
}
