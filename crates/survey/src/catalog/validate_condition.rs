//! What holds for one condition: scope, priors, clue and check pairs, cost, basis, gate.

use std::collections::{BTreeMap, BTreeSet};

use super::PLANNED_WORK;
use super::clue::TrueWhen;
use super::condition::{Action, Condition, Gate, PCost, needs_source};
use super::faults::Faults;
use super::item::AnswerKind;
use super::load::Loader;
use super::source_file::At;

/// Trades that close what was opened.
pub const CLOSERS: [&str; 4] = ["drywall", "tile", "floor", "roofer"];
/// Exclusive answers of one item leave at least this much for "none of them".
const LEFT_OVER: f64 = 0.03;

impl Loader<'_> {
    pub(super) fn check_conditions(&mut self) {
        let conditions = core::mem::take(&mut self.conditions);
        let ids: Vec<&str> = conditions.iter().map(|(c, _)| c.id.as_str()).collect();
        let plan = self.options(PLANNED_WORK);
        let bands: Vec<String> =
            self.factors.first().map(|f| f.levels.iter().map(|l| l.id.clone()).collect()).unwrap_or_default();
        for (c, at) in &conditions {
            if c.triggers.is_empty() {
                self.faults.add(&at.to("triggers"), format!("“{}” has no trigger", c.id), None);
            }
            for (i, job) in c.triggers.iter().enumerate() {
                let kind = format!("option of “{PLANNED_WORK}”");
                self.known_option(&at.to("triggers").to(i), &kind, PLANNED_WORK, job, &plan);
            }
            self.check_prior(c, at, &bands);
            self.check_pairs(c, at, &bands);
            self.check_cost(c, at, &ids);
            self.check_basis(c, at);
            self.check_hazard(c, at);
            self.check_reach(c, at);
            if let Some(d) = &c.decision {
                let presumed = d.kind == Gate::Presume;
                if presumed && (!d.never.contains(&Action::Exclude) || d.when_if.is_none()) {
                    let what = format!("“{}” is presumed: it needs when-if and may never be excluded", c.id);
                    self.faults.add(&at.to("decision"), what, Some("never = [\"exclude\"]".to_owned()));
                }
                if d.allowed.is_empty() || d.allowed.iter().any(|a| d.never.contains(a)) {
                    self.faults.add(&at.to("decision"), "allowed and never contradict each other", None);
                }
            }
            if let Some(m) = &c.measured_by {
                let at = at.to("measured-by");
                let own: Vec<&str> = c.clues.iter().map(|p| p.clue.as_str()).collect();
                for (i, clue) in m.replaces_clues.iter().enumerate() {
                    let kind = format!("clue of “{}”", c.id);
                    self.faults.known(&at.to("replaces-clues").to(i), &kind, clue, own.iter().copied());
                }
                for (i, item) in m.inputs.iter().enumerate() {
                    self.known_item(&at.to("inputs").to(i), item);
                }
            }
        }
        self.conditions = conditions;
    }

    fn check_prior(&mut self, c: &Condition, at: &At, bands: &[String]) {
        for band in bands.iter().filter(|b| !c.prior.by_band.contains_key(*b)) {
            self.faults.add(&at.to("prior"), format!("“{}” has no prior for “{band}”", c.id), None);
        }
        for (band, p) in &c.prior.by_band {
            let place = at.to("prior").to(band);
            self.faults.known(&place, "era", band, bands.iter().map(String::as_str));
            let never = c.never_in.contains(band);
            if !(0.0..=0.98).contains(p) || (*p == 0.0) != never {
                let what = format!("the prior {p} must lie between 0 and 0.98");
                let mend = match (never, *p == 0.0) {
                    (true, false) => Some(format!("never-in says that it is 0 in “{band}”")),
                    (false, true) => Some(format!("if it is meant, say never-in = [\"{band}\"]")),
                    _ => None,
                };
                self.faults.add(&place, what, mend);
            }
        }
        for (i, band) in c.never_in.iter().enumerate() {
            let place = at.to("never-in").to(i);
            self.faults.known(&place, "era", band, bands.iter().map(String::as_str));
        }
        let factors = &self.factors;
        let mut seen = BTreeSet::new();
        for (i, adjust) in c.prior.adjust.iter().enumerate() {
            let at = at.to("adjust").to(i);
            let ids = factors.iter().map(|f| f.id.as_str());
            if self.faults.known(&at.to("factor"), "factor", &adjust.factor, ids) {
                let levels = factors.iter().filter(|f| f.id == adjust.factor).flat_map(|f| &f.levels);
                let kind = format!("level of “{}”", adjust.factor);
                self.faults.known(&at.to("level"), &kind, &adjust.level, levels.map(|l| l.id.as_str()));
            }
            if !(0.01..=300.0).contains(&adjust.odds_ratio) {
                self.faults.add(&at.to("odds-ratio"), "an odds ratio lies between 0.01 and 300", None);
            }
            if !seen.insert((&adjust.factor, &adjust.level)) {
                self.faults.add(&at, "this level is adjusted twice", None);
            }
        }
    }

    fn check_pairs(&mut self, c: &Condition, at: &At, bands: &[String]) {
        if c.clues.is_empty() && c.no_clue.is_none() {
            self.faults.add(at, format!("“{}” has no clue; say why in no-clue", c.id), None);
        }
        let context: BTreeSet<String> = c
            .prior
            .adjust
            .iter()
            .filter_map(|a| self.factors.iter().find(|f| f.id == a.factor))
            .map(|f| f.item.clone())
            .collect();
        let mut seen = BTreeSet::new();
        let mut exclusive: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        for (i, pair) in c.clues.iter().enumerate() {
            let at = at.to("clues").to(i);
            let ids = self.clues.iter().map(|(k, _)| k.id.as_str());
            if !self.faults.known(&at.to("clue"), "clue", &pair.clue, ids) {
                continue;
            }
            if !seen.insert(pair.clue.as_str()) {
                self.faults.add(&at.to("clue"), format!("“{}” is there twice", pair.clue), None);
            }
            let Some((clue, _)) = self.clues.iter().find(|(k, _)| k.id == pair.clue) else { continue };
            let (item, lowers) = (clue.item.clone(), clue.lowers);
            let absent = core::iter::once(pair.if_absent).chain(pair.if_absent_by_band.values().copied());
            let all: Vec<f64> = absent.collect();
            if all.iter().chain([&pair.if_present]).any(|p| !(0.001..=0.99).contains(p)) {
                self.faults.add(&at, "chances of a clue lie between 0.001 and 0.99", None);
            } else if (pair.if_present <= pair.if_absent) != lowers {
                // Over all houses: in an old era an era-bound clue may be commoner than over all that have it.
                let what =
                    format!("“{}” does not {} “{}”", pair.clue, if lowers { "lower" } else { "raise" }, c.id);
                let mend = "if-present must be more than if-absent".to_owned();
                self.faults.add(&at, what, (!lowers).then_some(mend));
            }
            for band in pair.if_absent_by_band.keys() {
                let place = at.to("if-absent-by-band").to(band);
                self.faults.known(&place, "era", band, bands.iter().map(String::as_str));
            }
            if context.contains(&item) {
                let what = format!("the answer to “{item}” would count twice, as clue and as context");
                self.faults.add(&at.to("clue"), what, Some("drop one of them".to_owned()));
            }
            if matches!(self.items[self.index[&item]].answer, AnswerKind::Choice { .. }) {
                exclusive.entry(item).or_default().push(i);
            }
        }
        for (item, pairs) in exclusive.iter().filter(|(_, pairs)| pairs.len() > 1) {
            self.check_exclusive(c, at, item, pairs, bands);
        }
        if c.checks.is_empty() {
            self.faults.add(at, format!("“{}” has no check", c.id), None);
        }
        for (i, pair) in c.checks.iter().enumerate() {
            let at = at.to("checks").to(i);
            self.known_check(&at.to("check"), &pair.check);
            let inside = |p: f64| 0.0 < p && p < 1.0;
            if !(inside(pair.sensitivity) && inside(pair.specificity))
                || pair.sensitivity + pair.specificity <= 1.0
            {
                let what = "sensitivity and specificity lie between 0 and 1 and add up to more than 1";
                self.faults.add(&at, what, None);
            }
            if let Some(source) = &pair.source {
                self.known_source(&at.to("source"), source);
            } else if pair.basis.is_some_and(needs_source) {
                let mend = "add source = \"…\" or say judgment".to_owned();
                self.faults.add(&at.to("basis"), format!("“{}” names no source", pair.check), Some(mend));
            }
        }
    }

    /// Clues of one single-answer item are one piece of evidence: disjoint, and something left for none of them.
    fn check_exclusive(&mut self, c: &Condition, at: &At, item: &str, pairs: &[usize], bands: &[String]) {
        let at = at.to("clues").to(pairs.first().copied().unwrap_or_default());
        let mut options: BTreeSet<String> = BTreeSet::new();
        let mut doubled = None;
        for i in pairs {
            let clue = self.clues.iter().find(|(k, _)| k.id == c.clues[*i].clue);
            if let Some(TrueWhen::In(list)) = clue.map(|(k, _)| &k.true_when) {
                doubled = doubled.or(list.iter().find(|o| !options.insert((*o).clone())).cloned());
            }
        }
        if let Some(option) = doubled {
            self.faults.add(&at, format!("two clues of “{}” are true at “{option}” of “{item}”", c.id), None);
        }
        let sum = |f: &dyn Fn(usize) -> f64| pairs.iter().map(|i| f(*i)).sum::<f64>();
        let mut sums = vec![sum(&|i| c.clues[i].if_present), sum(&|i| c.clues[i].if_absent)];
        sums.extend(bands.iter().map(|b| sum(&|i| c.clues[i].absent_in(Some(b)))));
        if let Some(most) = sums.into_iter().find(|s| *s > 1.0 - LEFT_OVER) {
            let what =
                format!("the answers to “{item}” exclude each other, but their chances add up to {most:.3}");
            self.faults.add(&at, what, Some("keep each sum below 0.97".to_owned()));
        }
    }

    fn check_cost(&mut self, c: &Condition, at: &At, ids: &[&str]) {
        let chance = |faults: &mut Faults<'_>, at: &At, p: f64| {
            if !(0.0 < p && p <= 1.0) {
                faults.add(at, format!("p-cost of “{}” must be more than 0 and at most 1", c.id), None);
            }
        };
        match &c.p_cost {
            PCost::Same(p) => chance(&mut self.faults, &at.to("p-cost"), *p),
            PCost::ByTrigger(table) => {
                let at = at.to("p-cost-by-trigger");
                for (job, p) in table {
                    let kind = format!("trigger of “{}”", c.id);
                    chance(&mut self.faults, &at.to(job), *p);
                    self.faults.known(&at.to(job), &kind, job, c.triggers.iter().map(String::as_str));
                }
                if let Some(left) = c.triggers.iter().find(|job| !table.contains_key(*job)) {
                    let what = format!("p-cost-by-trigger leaves out “{left}”");
                    self.faults.add(&at, what, Some("name every trigger".to_owned()));
                }
            }
        }
        for (i, other) in c.covers_cost_of.iter().enumerate() {
            let at = at.to("covers-cost-of").to(i);
            self.faults.known(&at, "condition", other, ids.iter().copied());
        }
    }

    fn check_basis(&mut self, c: &Condition, at: &At) {
        let b = &c.basis;
        let all =
            [Some(b.prior), Some(b.likelihoods), Some(b.checks), Some(b.cost), Some(b.days), b.p_cost, b.cut];
        if all.into_iter().flatten().any(needs_source) && c.sources.is_empty() {
            let what = format!("“{}” claims a published basis and names no source", c.id);
            self.faults.add(&at.to("basis"), what, Some("add sources = [\"…\"] or say judgment".to_owned()));
        }
        for (i, source) in c.sources.iter().enumerate() {
            self.known_source(&at.to("sources").to(i), source);
        }
        if c.p_cost != PCost::Same(1.0) && b.p_cost.is_none() {
            self.faults.add(&at.to("basis"), format!("“{}” has a p-cost without basis", c.id), None);
        }
        if c.cut.is_some() != b.cut.is_some() {
            let what = format!("“{}” says how many openings it makes, or on which basis, and not both", c.id);
            self.faults.add(&at.to("cut"), what, Some("add cut = \"judgment\" to its basis".to_owned()));
        }
        let closes = |t: &String| CLOSERS.contains(&t.as_str());
        if c.cut.is_some() && !c.trades.iter().any(closes) {
            let what = format!("“{}” makes openings, and no trade of it closes them", c.id);
            self.faults.add(&at.to("cut"), what, Some(format!("one of {}", CLOSERS.join(", "))));
        }
        if c.caution.is_empty() {
            self.faults.add(&at.to("caution"), format!("“{}” has no caution", c.id), None);
        }
    }
}
