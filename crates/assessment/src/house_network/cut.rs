//! The clues of a house cut down to one place of each kind.
//!
//! Weights, leaks and hidden nodes of the clues come from a house that has everything once: the house as a whole, or
//! the house as one place sees it. So a place has the same numbers whether it is the only one or one of six.

use std::collections::BTreeMap;

use survey::catalog::{AnswerKind, Clue, DatedBy};

use super::Builder;
use crate::clue_fit::Family;
use crate::mediators::{Mediator, Member, share_leaks};
use crate::priors::era_shares;
use crate::scope::Scoped;

/// One of several places: its station and its id.
pub(super) type Spot<'s> = (&'s str, &'s str);

/// A clue, cut down to its conditions in scope. Without any it has no node.
pub(super) struct InScope<'a> {
    pub(super) clue: &'a Clue,
    /// Positions in the catalog's conditions.
    pub(super) conditions: Vec<usize>,
    pub(super) families: Vec<Family>,
    pub(super) by_era_of: Option<DatedBy>,
}

/// All clues with a table, in one order for every cut, and the hidden nodes between them and their conditions.
pub(super) struct Cut<'a> {
    pub(super) clues: Vec<InScope<'a>>,
    pub(super) mediators: Vec<Mediator>,
}

impl<'a> Builder<'a> {
    /// The house as one place sees it, or as a whole.
    pub(super) fn cut(&self, from: Option<Spot<'_>>) -> Cut<'a> {
        let clues = self.clues_in_scope(from);
        let mediators = self.mediators(&clues);
        Cut { clues, mediators }
    }

    /// The places of a condition in scope that a clue hangs on, seen from a place or from the house as a whole:
    /// at a place of its own kind this one, otherwise all of them. A place where a calculation replaces the clue is
    /// left out.
    pub(super) fn hangs_on(
        &self,
        condition: usize,
        clue: &str,
        from: Option<Spot<'_>>,
    ) -> Vec<&'a Scoped<'a>> {
        let Some(c) = self.catalog.conditions.get(condition) else { return Vec::new() };
        let here = |s: &Scoped<'_>| match (from, &c.place) {
            (Some((station, place)), Some(own)) if own == station => s.place() == Some(place),
            _ => true,
        };
        let replaces = c.measured_by.as_ref().is_some_and(|m| m.replaces_clues.iter().any(|r| r == clue));
        let replaced = |s: &Scoped<'_>| replaces && self.measured_p(s.key()).is_some();
        self.scope.iter().filter(|s| s.condition().id == c.id && here(s) && !replaced(s)).collect()
    }

    /// Families with the conditions out of scope, or replaced by a calculation, left in the leak at base rate.
    fn clues_in_scope(&self, from: Option<Spot<'_>>) -> Vec<InScope<'a>> {
        let catalog = self.catalog;
        let mut list = Vec::new();
        for (id, clue) in &catalog.clues {
            let Some(table) = self.tables.table(id) else { continue };
            let mut conditions = Vec::new();
            let mut families = table.families.clone();
            let mut at = 0;
            for condition in &table.conditions {
                let position = catalog.conditions.iter().position(|c| c.id == *condition);
                match position.filter(|p| !self.hangs_on(*p, id, from).is_empty()) {
                    Some(position) => {
                        conditions.push(position);
                        at += 1;
                    }
                    None => {
                        for (f, family) in families.iter_mut().enumerate() {
                            let base = self.tables.rates().base(condition, table.by_era_of.map(|_| f));
                            *family = family.absorb(at, base);
                        }
                    }
                }
            }
            list.push(InScope { clue, conditions, families, by_era_of: table.by_era_of });
        }
        list
    }

    fn mediators(&self, clues: &[InScope<'_>]) -> Vec<Mediator> {
        /// (clue, its item, its part in the group)
        type Reporting<'c> = (usize, &'c str, Member);
        let mut groups: BTreeMap<(usize, &str), Vec<Reporting<'_>>> = BTreeMap::new();
        for (k, scoped) in clues.iter().enumerate().filter(|(_, c)| !c.conditions.is_empty()) {
            let Some(cause) = scoped.clue.cause.as_deref() else { continue };
            for (position, (condition, pair)) in
                scoped.conditions.iter().zip(self.pairs_over_all(scoped)).enumerate()
            {
                let weights = scoped.families.iter().map(|f| f.weights[position]).collect();
                let member = Member { clue: k, pair, weights };
                groups.entry((*condition, cause)).or_default().push((k, &scoped.clue.item, member));
            }
        }
        let mut mediators = Vec::new();
        for ((condition, cause), list) in groups {
            // Clues of one single answer already exclude each other; ticks of one answer with several do not.
            let several = |item: &str| {
                let kind = self.catalog.item(item).map(|i| &i.answer);
                matches!(kind, Some(AnswerKind::Choices { .. }))
            };
            let mut sources: Vec<(&str, usize)> =
                list.iter().map(|(k, item, _)| (*item, if several(item) { *k } else { 0 })).collect();
            sources.sort_unstable();
            sources.dedup();
            if sources.len() > 1 {
                let raising = list.into_iter().map(|(_, _, m)| m).filter(|m| m.pair.0 > m.pair.1).collect();
                mediators.extend(Mediator::new(
                    condition,
                    cause,
                    raising,
                    self.catalog.reference.shared_cause_damping,
                ));
            }
        }
        let leaks: Vec<Vec<f64>> =
            clues.iter().map(|c| c.families.iter().map(|f| f.leak).collect()).collect();
        share_leaks(&mut mediators, &leaks);
        mediators
    }

    /// (P(clue | present), P(clue | absent)) for each condition, over all houses.
    fn pairs_over_all(&self, scoped: &InScope<'_>) -> Vec<(f64, f64)> {
        let ids: Vec<&str> =
            scoped.conditions.iter().map(|c| self.catalog.conditions[*c].id.as_str()).collect();
        if let [family] = scoped.families.as_slice() {
            return family.got(&self.tables.rates().pairs(&ids, None));
        }
        let shares = era_shares(self.catalog);
        let mut sums = vec![[0.0; 4]; scoped.conditions.len()];
        for (era, (family, share)) in scoped.families.iter().zip(&shares).enumerate() {
            let pairs = self.tables.rates().pairs(&ids, Some(era));
            for ((sum, (present, absent)), pair) in sums.iter_mut().zip(family.got(&pairs)).zip(&pairs) {
                let (with, without) = (share * pair.base, share * (1.0 - pair.base));
                *sum = [sum[0] + with * present, sum[1] + with, sum[2] + without * absent, sum[3] + without];
            }
        }
        sums.iter().map(|s| (s[0] / s[1].max(1e-300), s[2] / s[3].max(1e-300))).collect()
    }
}
