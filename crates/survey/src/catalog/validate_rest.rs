//! What holds for the smaller things: names once, words not empty, weights, relations without circles, nothing that
//! nobody uses.

use std::collections::{BTreeMap, BTreeSet};

use super::condition::needs_source;
use super::load::Loader;
use super::overlay::Laid;
use super::raw::RelationsFile;
use super::reference::{HouseholdRule, Outage, Reference, Wish};
use super::source_file::At;

impl Loader<'_> {
    /// Outages, household rules and wishes: ids once, words there.
    pub(super) fn check_household(
        &mut self,
        at: &dyn Fn(&str) -> At,
        things: (&[Outage], &[HouseholdRule], &[Wish]),
    ) {
        let (outages, rules, wishes) = things;
        let outage = at("outages.toml").to("outage");
        let rule = at("outages.toml").to("household-rule");
        let wish = at("wishes.toml").to("wish");
        self.once("outage", &outage, outages.iter().map(|o| o.id.as_str()));
        self.once("household rule", &rule, rules.iter().map(|r| r.id.as_str()));
        self.once("wish", &wish, wishes.iter().map(|w| w.id.as_str()));
        for (i, o) in outages.iter().enumerate() {
            self.check_words(&outage.to(i), &[("task", &o.task), ("scope", &o.scope), ("help", &o.help)]);
            if o.hours.high <= 0.0 {
                self.faults.add(&outage.to(i).to("hours"), format!("“{}” takes no time", o.id), None);
            }
        }
        for (i, r) in rules.iter().enumerate() {
            self.check_words(&rule.to(i), &[("words", &r.words)]);
        }
        for (i, w) in wishes.iter().enumerate() {
            self.check_words(&wish.to(i), &[("rough-in", &w.rough_in)]);
        }
    }

    /// Words of conditions, clues, checks, causes and questions: there, and without claims.
    pub(super) fn check_all_words(&mut self, at: &dyn Fn(&str) -> At) {
        let conditions = core::mem::take(&mut self.conditions);
        for (c, at) in &conditions {
            self.check_words(at, &[("name", &c.name), ("what", &c.what), ("caution", &c.caution)]);
        }
        self.conditions = conditions;
        let clues = core::mem::take(&mut self.clues);
        for (c, at) in &clues {
            self.check_words(at, &[("words", &c.words)]);
        }
        self.clues = clues;
        let checks = core::mem::take(&mut self.checks);
        for (c, at) in &checks {
            self.check_words(at, &[("name", &c.name), ("who", &c.who)]);
        }
        self.checks = checks;
        let causes = core::mem::take(&mut self.causes);
        for (i, c) in causes.iter().enumerate() {
            self.check_words(&at("causes.toml").to("cause").to(i), &[("words", &c.words)]);
        }
        self.causes = causes;
        let (items, places) = (core::mem::take(&mut self.items), core::mem::take(&mut self.item_at));
        for (item, at) in items.iter().zip(&places) {
            self.check_words(at, &[("question", &item.question), ("why", &item.why)]);
            self.check_question(at, &item.question);
            for (i, option) in item.answer.options().iter().enumerate() {
                self.check_words(&at.to("options").to(i), &[("label", &option.label)]);
            }
        }
        (self.items, self.item_at) = (items, places);
    }

    fn check_words(&mut self, at: &At, texts: &[(&'static str, &str)]) {
        for (key, text) in texts {
            if text.trim().is_empty() {
                self.faults.add(&at.to(*key), format!("“{key}” says nothing"), None);
            }
        }
        self.check_claims(at, texts);
    }

    fn once<'k>(&mut self, kind: &str, at: &At, ids: impl Iterator<Item = &'k str>) {
        let mut seen = BTreeSet::new();
        for (i, id) in ids.enumerate() {
            if !seen.insert(id) {
                self.faults.add(&at.to(i).to("id"), format!("the {kind} “{id}” is there twice"), None);
            }
        }
    }

    /// Checks and causes that nothing uses.
    pub(super) fn check_used(&mut self, at: &dyn Fn(&str) -> At) {
        let mut checks: BTreeSet<&str> =
            self.conditions.iter().flat_map(|(c, _)| c.checks.iter().map(|p| p.check.as_str())).collect();
        checks.extend(self.items.iter().filter_map(|i| i.records_check.as_deref()));
        let mend = || Some("use it or delete it".to_owned());
        for (check, at) in self.checks.iter().filter(|(c, _)| !checks.contains(c.id.as_str())) {
            self.faults.add(&at.to("id"), format!("no condition uses the check “{}”", check.id), mend());
        }
        let causes: BTreeSet<&str> = self.clues.iter().filter_map(|(c, _)| c.cause.as_deref()).collect();
        for (i, cause) in self.causes.iter().enumerate().filter(|(_, c)| !causes.contains(c.id.as_str())) {
            let at = at("causes.toml").to("cause").to(i).to("id");
            self.faults.add(&at, format!("no clue has the cause “{}”", cause.id), mend());
        }
    }

    /// Excluding, implying and covering go in no circles and do not contradict each other.
    pub(super) fn check_circles(&mut self, at: &At, relations: &RelationsFile) {
        let implied: BTreeMap<&str, Vec<&str>> =
            joined(relations.implies.iter().map(|i| (i.premise.as_str(), i.conclusion.as_str())));
        for (i, one) in relations.implies.iter().enumerate() {
            if reaches(&implied, &one.conclusion, &one.premise) {
                let what = format!("“{}” means itself in a circle", one.premise);
                self.faults.add(&at.to("implies").to(i).to("then"), what, None);
            }
        }
        let mut seen = BTreeSet::new();
        for (i, one) in relations.excludes.iter().enumerate() {
            let [a, b] = &one.pair;
            let at = at.to("excludes").to(i).to("pair");
            if a == b || reaches(&implied, a, b) || reaches(&implied, b, a) {
                self.faults.add(&at, format!("“{a}” and “{b}” cannot exclude each other"), None);
            }
            if !seen.insert((a.min(b), a.max(b))) {
                self.faults.add(&at, format!("“{a}” and “{b}” exclude each other twice"), None);
            }
        }
        let conditions = core::mem::take(&mut self.conditions);
        let covered: BTreeMap<&str, Vec<&str>> = joined(
            conditions.iter().flat_map(|(c, _)| c.covers_cost_of.iter().map(|o| (c.id.as_str(), o.as_str()))),
        );
        for (c, at) in &conditions {
            for (i, other) in c.covers_cost_of.iter().enumerate() {
                if reaches(&covered, other, &c.id) {
                    let what = format!("“{}” and “{other}” cover each other", c.id);
                    self.faults.add(&at.to("covers-cost-of").to(i), what, None);
                }
            }
        }
        self.conditions = conditions;
    }

    /// Numbers that hold for all: in range, and with sources where their basis needs them.
    pub(super) fn check_numbers(&mut self, at: &At, reference: &Reference, laid: &Laid) {
        let weights = &reference.weights;
        let named = [
            ("judgment", Some(weights.judgment)),
            ("common-practice", Some(weights.common_practice)),
            ("window", Some(weights.window)),
            ("derived", Some(weights.derived)),
            ("published", Some(weights.published)),
            ("firm", weights.firm),
        ];
        for (name, weight) in named {
            if weight.is_some_and(|w| !(0.5..=100_000.0).contains(&w)) {
                let what = format!("a weight is 0.5 to 100000 houses, not {}", weight.unwrap_or_default());
                self.faults.add(&at.to("weights").to(name), what, None);
            }
        }
        let early = &reference.early_price_factor;
        if !(0.05 <= early.low && early.high <= 2.0) {
            let what = "an early price is 0.05 to 2 times the late one";
            self.faults.add(&at.to("reference").to("early-price-factor"), what, None);
        }
        let backed = [
            ("reference", "early-price-factor", "early-price-basis", reference.early_price_basis),
            (
                "reference",
                "shared-cause-damping",
                "shared-cause-damping-basis",
                reference.shared_cause_damping_basis,
            ),
            ("base-odds", "factor", "basis", reference.base_odds.basis),
            ("weights", "", "basis", weights.basis),
        ];
        for (table, key, place, basis) in backed {
            // A change brings its sources with it; the table itself has no place for them.
            let changed = laid.changes.iter().any(|c| c.kind == table && c.key == key);
            if needs_source(basis) && !changed {
                let what = format!("“{key}” of {table} has no place for a source");
                self.faults.add(&at.to(table).to(place), what, Some("say judgment or firm".to_owned()));
            }
        }
    }
}

fn joined<'k>(pairs: impl Iterator<Item = (&'k str, &'k str)>) -> BTreeMap<&'k str, Vec<&'k str>> {
    let mut map: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (from, to) in pairs {
        map.entry(from).or_default().push(to);
    }
    map
}

/// True when a way leads from one to the other; from a thing to itself always.
fn reaches(ways: &BTreeMap<&str, Vec<&str>>, from: &str, to: &str) -> bool {
    let mut open = vec![from];
    let mut seen = BTreeSet::new();
    while let Some(here) = open.pop() {
        if here == to {
            return true;
        }
        if seen.insert(here) {
            open.extend(ways.get(here).into_iter().flatten());
        }
    }
    false
}
