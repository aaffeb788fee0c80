//! What holds across the files of a catalog.

use std::collections::{BTreeMap, BTreeSet};

use super::condition::needs_source;
use super::load::Loader;
use super::raw::RelationsFile;
use super::reference::Reference;
use super::source_file::At;
use super::{PLANNED_WORK, YEAR_BUILT};

impl Loader<'_> {
    /// Ids are kebab-case and unique within their kind.
    pub(super) fn check_names(&mut self, file: &dyn Fn(&str) -> At) {
        let mut names: Vec<(&str, Vec<(String, At)>)> = Vec::new();
        let listed = |name: &str, key: &'static str, ids: Vec<String>| {
            let at = file(name).to(key);
            ids.into_iter().enumerate().map(|(i, id)| (id, at.to(i).to("id"))).collect::<Vec<_>>()
        };
        names
            .push(("condition", self.conditions.iter().map(|(c, at)| (c.id.clone(), at.to("id"))).collect()));
        names.push(("clue", self.clues.iter().map(|(c, at)| (c.id.clone(), at.to("id"))).collect()));
        names.push(("check", self.checks.iter().map(|(c, at)| (c.id.clone(), at.to("id"))).collect()));
        let places = self.items.iter().zip(&self.item_at);
        names.push(("item", places.map(|(i, at)| (i.id.clone(), at.to("id"))).collect()));
        let causes = self.causes.iter().map(|c| c.id.clone()).collect();
        names.push(("cause", listed("causes.toml", "cause", causes)));
        let factors = self.factors.iter().map(|f| f.id.clone()).collect();
        names.push(("factor", listed("context.toml", "factor", factors)));
        let sources = self.sources.iter().map(|s| s.id.clone()).collect();
        names.push(("source", listed("sources.toml", "source", sources)));
        let groups = self.groups.iter().map(|g| g.id.clone()).collect();
        names.push(("group", listed("catalog.toml", "group", groups)));
        for (kind, ids) in names {
            let mut seen = BTreeSet::new();
            for (id, at) in ids {
                if !is_kebab(&id) {
                    let mend = "ids are lower-case letters, digits and single hyphens".to_owned();
                    self.faults.add(&at, format!("“{id}” is not an id"), Some(mend));
                }
                if !seen.insert(id.clone()) && kind != "item" {
                    self.faults.add(&at, format!("the {kind} “{id}” is there twice"), None);
                }
            }
        }
        for (i, item) in self.items.iter().enumerate() {
            for option in item.answer.options().iter().filter(|o| !is_kebab(&o.id)) {
                let mend = "ids are lower-case letters, digits and single hyphens".to_owned();
                self.faults.add(
                    &self.item_at[i].to("options"),
                    format!("“{}” is not an id", option.id),
                    Some(mend),
                );
            }
        }
    }

    pub(super) fn check_context(&mut self, at: &At) {
        let factors = core::mem::take(&mut self.factors);
        let ids: Vec<&str> = factors.iter().map(|f| f.id.as_str()).collect();
        match factors.first() {
            Some(first) if first.item == YEAR_BUILT => {}
            _ => self.faults.add(
                at,
                format!("the first factor must be the era, read from “{YEAR_BUILT}”"),
                None,
            ),
        }
        for (n, factor) in factors.iter().enumerate() {
            let at = at.to("factor").to(n);
            self.known_item(&at.to("item"), &factor.item);
            let total: f64 = factor.levels.iter().map(|l| l.prior).sum();
            if (total - 1.0).abs() > 0.001 || factor.levels.iter().any(|l| !(0.0 < l.prior && l.prior < 1.0))
            {
                let what = format!("the shares of “{}” add up to {total:.4}, not 1", factor.id);
                self.faults.add(&at.to("levels"), what, None);
            }
            if needs_source(factor.basis) && factor.source.is_none() {
                self.faults.add(&at.to("basis"), format!("“{}” names no source", factor.id), None);
            }
            if let Some(source) = &factor.source {
                self.known_source(&at.to("source"), source);
            }
            let mut seen = BTreeSet::new();
            for (i, level) in factor.levels.iter().enumerate() {
                if !seen.insert(&level.id) || !is_kebab(&level.id) {
                    let what = format!("“{}” is no id, or there twice in “{}”", level.id, factor.id);
                    self.faults.add(&at.to("levels").to(i).to("id"), what, None);
                }
            }
            let options: Vec<String> = self.options(&factor.item);
            for (i, level) in factor.levels.iter().enumerate() {
                for (j, answer) in level.answers.iter().enumerate() {
                    let place = at.to("levels").to(i).to("answers").to(j);
                    let kind = format!("option of “{}”", factor.item);
                    self.known_option(&place, &kind, &factor.item, answer, &options);
                }
            }
            for (i, pair) in factor.levels.windows(2).enumerate() {
                let [before, after] = pair else { continue };
                let dated = before.to.is_some() || after.from.is_some();
                if dated && before.to.map(|y| y + 1) != after.from {
                    let what = format!("“{}” and “{}” leave a gap or overlap", before.id, after.id);
                    self.faults.add(&at.to("levels").to(i + 1), what, None);
                }
            }
            if let Some(given) = &factor.given {
                let at = at.to("given");
                if self.faults.known(&at.to("factor"), "factor", &given.factor, ids.iter().copied()) {
                    let other = factors.iter().find(|f| f.id == given.factor);
                    let levels: Vec<&str> =
                        other.map(|f| f.levels.iter().map(|l| l.id.as_str()).collect()).unwrap_or_default();
                    let own: BTreeSet<&str> = factor.levels.iter().map(|l| l.id.as_str()).collect();
                    for (i, row) in given.when.iter().enumerate() {
                        let at = at.to("when").to(i);
                        self.faults.known(&at.to("level"), "level", &row.level, levels.iter().copied());
                        let keys: BTreeSet<&str> = row.priors.keys().map(String::as_str).collect();
                        for level in row.priors.keys() {
                            let kind = format!("level of “{}”", factor.id);
                            self.faults.known(&at.to("priors").to(level), &kind, level, own.iter().copied());
                        }
                        let total: f64 = row.priors.values().sum();
                        if keys != own || (total - 1.0).abs() > 0.001 {
                            self.faults.add(&at.to("priors"), "one share per level, adding up to 1", None);
                        }
                        let sure = row.priors.values().any(|p| !(0.0 < *p && *p < 1.0));
                        if sure != row.certain {
                            let mend = if sure { "say certain = true" } else { "drop certain" };
                            let what = "shares of 0 and 1 are said to be meant, and no others";
                            self.faults.add(&at.to("priors"), what, Some(mend.to_owned()));
                        }
                    }
                }
            }
        }
        self.factors = factors;
    }

    pub(super) fn check_clues(&mut self) {
        let used: BTreeSet<String> =
            self.conditions.iter().flat_map(|(c, _)| c.clues.iter().map(|p| p.clue.clone())).collect();
        let causes: Vec<String> = self.causes.iter().map(|c| c.id.clone()).collect();
        let clues = core::mem::take(&mut self.clues);
        for (clue, at) in &clues {
            if let Some(cause) = &clue.cause {
                self.faults.known(&at.to("cause"), "cause", cause, causes.iter().map(String::as_str));
            }
            for (i, source) in clue.sources.iter().enumerate() {
                self.known_source(&at.to("sources").to(i), source);
            }
            if needs_source(clue.basis) && clue.sources.is_empty() {
                self.faults.add(&at.to("basis"), format!("“{}” names no source", clue.id), None);
            }
            if !used.contains(&clue.id) {
                let mend = "use it or delete it".to_owned();
                self.faults.add(
                    &at.to("id"),
                    format!("no condition uses the clue “{}”", clue.id),
                    Some(mend),
                );
            }
        }
        self.clues = clues;
        let records: Vec<(usize, String)> =
            self.items.iter().enumerate().filter_map(|(i, x)| Some((i, x.records_check.clone()?))).collect();
        for (i, check) in records {
            let at = self.item_at[i].to("records-check");
            self.known_check(&at, &check);
        }
    }

    pub(super) fn check_relations(&mut self, at: &At, relations: &RelationsFile) {
        let priors: BTreeMap<String, BTreeMap<String, f64>> =
            self.conditions.iter().map(|(c, _)| (c.id.clone(), c.prior.by_band.clone())).collect();
        let ids: Vec<&str> = priors.keys().map(String::as_str).collect();
        let derived: BTreeSet<&str> = relations.derived.iter().map(|d| d.condition.as_str()).collect();
        for (i, excludes) in relations.excludes.iter().enumerate() {
            let at = at.to("excludes").to(i).to("pair");
            let [a, b] = &excludes.pair;
            let known = [a, b].map(|id| self.faults.known(&at, "condition", id, ids.iter().copied()));
            if known != [true, true] || derived.contains(a.as_str()) || derived.contains(b.as_str()) {
                continue;
            }
            for (band, p) in &priors[a] {
                let sum = p + priors[b].get(band).copied().unwrap_or_default();
                if sum > 1.0 {
                    let what = format!(
                        "“{a}” and “{b}” exclude each other, but their priors for {band} add up to {sum:.2}"
                    );
                    self.faults.add(&at, what, None);
                }
            }
        }
        for (i, implies) in relations.implies.iter().enumerate() {
            let at = at.to("implies").to(i);
            let (a, b) = (&implies.premise, &implies.conclusion);
            let first = self.faults.known(&at.to("if"), "condition", a, ids.iter().copied());
            let second = self.faults.known(&at.to("then"), "condition", b, ids.iter().copied());
            if !(first && second) {
                continue;
            }
            for (band, p) in &priors[a] {
                let then = priors[b].get(band).copied().unwrap_or_default();
                if *p > then {
                    let what =
                        format!("“{a}” means “{b}”, but its prior for {band} is higher: {p} against {then}");
                    self.faults.add(&at.to("if"), what, None);
                }
            }
        }
        for (i, d) in relations.derived.iter().enumerate() {
            let at = at.to("derived").to(i);
            self.faults.known(&at.to("condition"), "condition", &d.condition, ids.iter().copied());
            for (j, other) in d.none_of.iter().enumerate() {
                let at = at.to("none-of").to(j);
                if self.faults.known(&at, "condition", other, ids.iter().copied()) && *other == d.condition {
                    self.faults.add(&at, "a condition cannot follow from itself", None);
                }
            }
        }
    }

    pub(super) fn check_reference(&mut self, at: &At, reference: &Reference) {
        let plan = self.options(PLANNED_WORK);
        let ids: Vec<String> = self.conditions.iter().map(|(c, _)| c.id.clone()).collect();
        self.known_source(&at.to("reference.mid-range-kitchen-source"), &reference.mid_range_kitchen_source);
        let odds = &reference.base_odds;
        for (i, job) in odds.typical_plan.iter().enumerate() {
            let place = at.to("base-odds.typical-plan").to(i);
            self.known_option(&place, "planned job", PLANNED_WORK, job, &plan);
        }
        for (i, id) in odds.not_for.iter().enumerate() {
            let place = at.to("base-odds.not-for").to(i);
            self.faults.known(&place, "condition", id, ids.iter().map(String::as_str));
        }
        if !(0.05..=20.0).contains(&odds.factor) {
            self.faults.add(&at.to("base-odds.factor"), "the factor lies between 0.05 and 20", None);
        }
        if !(0.0..=1.0).contains(&reference.shared_cause_damping) {
            self.faults.add(&at.to("reference.shared-cause-damping"), "damping lies between 0 and 1", None);
        }
    }

    pub(super) fn options(&self, item: &str) -> Vec<String> {
        let found = self.index.get(item).map(|i| self.items[*i].answer.options());
        found.unwrap_or_default().iter().map(|o| o.id.clone()).collect()
    }
    /// Checks an option of a question, unless the question has a fault of its own, which is told already.
    pub(super) fn known_option(&mut self, at: &At, kind: &str, item: &str, option: &str, options: &[String]) {
        if !self.broken.contains(item) {
            self.faults.known(at, kind, option, options.iter().map(String::as_str));
        }
    }
    pub(super) fn known_item(&mut self, at: &At, id: &str) -> bool {
        let items = self.index.keys().chain(&self.broken);
        self.faults.known(at, "item", id, items.map(String::as_str))
    }
    pub(super) fn known_check(&mut self, at: &At, id: &str) -> bool {
        self.faults.known(at, "check", id, self.checks.iter().map(|(c, _)| c.id.as_str()))
    }
    pub(super) fn known_source(&mut self, at: &At, id: &str) -> bool {
        self.faults.known(at, "source", id, self.sources.iter().map(|s| s.id.as_str()))
    }
}

pub(super) fn is_kebab(id: &str) -> bool {
    !id.is_empty()
        && id
            .split('-')
            .all(|w| !w.is_empty() && w.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit()))
}
