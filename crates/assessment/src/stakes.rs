//! What is at stake with each condition in scope: its chance now and the least expected loss by its chance.

use survey::model::Picture;

use crate::advice::{cost_pert, idle_days, open_to_looks};
use crate::decision::LossRules;
use crate::loss_curve::LossCurve;
use crate::scope::Scoped;

/// One condition in scope.
#[derive(Clone, Debug)]
pub(crate) struct Stake<'a> {
    pub(crate) scoped: &'a Scoped<'a>,
    /// P(present | all answers).
    pub(crate) p: f64,
    /// Least loss by chance; none where a gate stands, the base price holds it or it costs nothing: then knowing more
    /// moves no price.
    curve: Option<(&'a LossCurve, bool)>,
}

impl<'a> Stake<'a> {
    pub(crate) fn new(
        scoped: &'a Scoped<'a>,
        p: f64,
        curve: Option<&'a LossCurve>,
        rules: &LossRules,
    ) -> Self {
        Self { scoped, p, curve: curve.map(|c| (c, c.excludes_at(p, rules))) }
    }
    /// What it is called in forecasts and findings.
    pub(crate) fn key(&self) -> &str {
        self.scoped.key()
    }
    /// Least expected loss if the chance were `p`, with the pricings that are offered now; 0 where knowing more moves
    /// no price.
    pub(crate) fn least(&self, p: f64) -> f64 {
        self.curve.map_or(0.0, |(curve, exclude)| curve.least(p, exclude))
    }
    /// The most a finding can be worth for each step by which it moves the chance on average, dollars.
    pub(crate) fn most_per_step(&self) -> f64 {
        self.curve.map_or(0.0, |(curve, exclude)| curve.bend(exclude) / 2.0)
    }
    /// What pricing as is best now loses where the chance is truly another.
    pub(crate) fn truly(&self, p: f64) -> f64 {
        self.curve.map_or(0.0, |(curve, exclude)| curve.priced_at(self.p, p, exclude))
    }
    /// Least expected loss now.
    pub(crate) fn now(&self) -> f64 {
        self.least(self.p)
    }
}

/// Curves of the conditions in scope, kept from answer to answer: costs change only by a few answers.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Curves {
    rules: Option<LossRules>,
    by_key: std::collections::BTreeMap<String, LossCurve>,
}

impl Curves {
    /// Brings the curves of these conditions up to date.
    pub(crate) fn renew(&mut self, scope: &[Scoped<'_>], picture: &Picture, rules: &LossRules) {
        if self.rules != Some(*rules) {
            *self = Self { rules: Some(*rules), ..Self::default() };
        }
        for scoped in scope {
            let (c, here) = (scoped.condition(), scoped.here(picture));
            let (p_cost, cost, days) = (c.p_cost_in(&here), cost_pert(c, &here), idle_days(c));
            if !self.by_key.get(scoped.key()).is_some_and(|curve| curve.is_of(p_cost, &cost, days)) {
                self.by_key.insert(scoped.key().to_owned(), LossCurve::new(p_cost, &cost, days, rules));
            }
        }
    }
    /// The curve of a condition whose price knowing more may move.
    pub(crate) fn of(&self, scoped: &Scoped<'_>, picture: &Picture) -> Option<&LossCurve> {
        let here = scoped.here(picture);
        self.by_key.get(scoped.key()).filter(|_| open_to_looks(scoped.condition(), &here))
    }
}
