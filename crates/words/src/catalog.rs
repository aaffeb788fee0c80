//! Ids of what a catalog says, made from the catalog's own ids.
//!
//! `condition-<id>-name`, `item-<id>-option-<option>` and so on; words that many things share (trades, units, who
//! decides) have an id made from themselves: `trade-gas-fitter`. A change to the English in the catalog therefore
//! either keeps its id and is noticed, because a translation is used only for the words it was made from, or it has
//! another id.

use std::borrow::Cow;
use std::collections::BTreeSet;

use survey::catalog::{AnswerKind, Catalog, Item};
pub use survey::said::slug;
use survey::said::{Said, in_catalog};

use crate::Words;

/// Options said alike everywhere; their English stands in `answers.ftl`.
const COMMON: [(&str, &str); 3] = [("cant-tell", "can't tell"), ("yes", "yes"), ("no", "no")];

/// Id of an option of an item.
pub fn option(item: &str, option: &str, label: &str) -> String {
    match COMMON.iter().find(|(id, english)| *id == option && *english == label) {
        Some((id, _)) => format!("option-{id}"),
        None => format!("item-{item}-option-{option}"),
    }
}

/// Every text of a catalog that a person reads, with its id, each id once, in catalog order. Left out: why a number is
/// what it is (basis notes, sources, code books), which stays in the language of its documents.
pub fn texts(catalog: &Catalog) -> Vec<(String, &str)> {
    let mut all = Texts::default();
    all.add("catalog-title".into(), &catalog.title);
    all.add("catalog-notice".into(), &catalog.notice);
    for group in &catalog.groups {
        all.add(format!("group-{}", group.id), &group.name);
    }
    walk(catalog, &mut all);
    for c in &catalog.conditions {
        let id = |part: &str| format!("condition-{}-{part}", c.id);
        all.add(id("name"), &c.name);
        all.add(id("what"), &c.what);
        all.add(id("caution"), &c.caution);
        all.maybe(|| id("until"), c.decision.as_ref().map(|d| d.until.as_str()));
        all.maybe(|| id("released"), c.decision.as_ref().and_then(|d| d.released_note.as_deref()));
        all.maybe(
            || format!("decides-{}", slug(c.decides.as_deref().unwrap_or_default())),
            c.decides.as_deref(),
        );
        for trade in &c.trades {
            all.add(format!("trade-{}", slug(trade)), trade);
        }
    }
    for clue in catalog.clues.values() {
        all.add(format!("clue-{}", clue.id), &clue.words);
    }
    for check in catalog.checks.values() {
        all.add(format!("check-{}-name", check.id), &check.name);
        all.add(format!("who-{}", slug(&check.who)), &check.who);
        all.maybe(|| format!("check-{}-note", check.id), check.note.as_deref());
        for (n, ask) in (1..).zip(&check.not_while) {
            all.add(ask_first(&check.id, n), ask);
        }
    }
    house(catalog, &mut all);
    books(catalog, &mut all);
    all.0
}

/// Rules, units and rows of the code books, as trade calculations say them.
fn books<'c>(catalog: &'c Catalog, all: &mut Texts<'c>) {
    for table in catalog.shelf.books().flat_map(|book| book.tables()) {
        let rows = table.rows.iter().map(|(name, _)| ("row", name));
        // The note of a grid stands beside what was read in it.
        let note = Some(("code-note", &table.note)).filter(|_| !table.grid.is_empty());
        let own = [("limit", &table.rule), ("unit", &table.unit)];
        for (kind, text) in own.into_iter().chain(rows).chain(note) {
            if let Said::Catalog(id, _) = in_catalog(kind, text) {
                all.add(id, text);
            }
        }
    }
}

/// Id of the `n`-th thing (from 1) to be asked before a check.
pub fn ask_first(check: &str, n: usize) -> String {
    format!("check-{check}-ask-{n}")
}

fn walk<'c>(catalog: &'c Catalog, all: &mut Texts<'c>) {
    for station in &catalog.stations {
        all.add(format!("station-{}", station.id), &station.label);
        all.maybe(|| format!("station-{}-when", station.id), station.when.as_deref());
    }
    for item in &catalog.items {
        let id = |part: &str| format!("item-{}-{part}", item.id);
        all.add(id("question"), &item.question);
        all.add(id("why"), &item.why);
        for choice in item.answer.options() {
            all.add(option(&item.id, &choice.id, &choice.label), &choice.label);
        }
        all.maybe(|| id("photo"), item.photo_note.as_deref());
        all.maybe(|| id("skip"), item.skip_note.as_deref());
        all.maybe(|| id("second-look"), item.second_look_when.as_deref());
        if let AnswerKind::Number { unit, scale, zero_means, .. } = &item.answer {
            if !unit.is_empty() {
                all.add(format!("unit-{}", slug(unit)), unit);
            }
            all.maybe(|| format!("scale-{}", slug(scale.as_deref().unwrap_or_default())), scale.as_deref());
            all.maybe(|| id("zero"), zero_means.as_deref());
        }
    }
}

fn house<'c>(catalog: &'c Catalog, all: &mut Texts<'c>) {
    for cause in catalog.causes.values() {
        all.add(format!("cause-{}", cause.id), &cause.words);
    }
    for factor in &catalog.factors {
        all.add(format!("factor-{}", factor.id), &factor.name);
    }
    for length in catalog.drain_defaults.values() {
        all.add(format!("length-{}", length.id), &length.name);
    }
    for outage in &catalog.outages {
        all.add(format!("outage-{}-task", outage.id), &outage.task);
        all.add(format!("outage-{}-help", outage.id), &outage.help);
        all.add(format!("scope-{}", slug(&outage.scope)), &outage.scope);
        for off in &outage.off {
            all.add(format!("off-{}", slug(off)), off);
        }
    }
    for rule in &catalog.household_rules {
        all.add(format!("rule-{}", rule.id), &rule.words);
    }
    for wish in &catalog.wishes {
        all.add(format!("wish-{}", wish.id), &wish.rough_in);
        all.maybe(|| format!("wish-{}-later", wish.id), wish.later_note.as_deref());
    }
}

#[derive(Default)]
struct Texts<'c>(Vec<(String, &'c str)>, BTreeSet<String>);

impl<'c> Texts<'c> {
    fn add(&mut self, id: String, text: &'c str) {
        if self.1.insert(id.clone()) {
            self.0.push((id, text));
        }
    }
    fn maybe(&mut self, id: impl FnOnce() -> String, text: Option<&'c str>) {
        if let Some(text) = text {
            self.add(id(), text);
        }
    }
}

/// What one catalog says, in one language.
#[derive(Clone, Copy)]
pub struct CatalogWords<'a> {
    /// The language.
    pub words: &'a Words,
    /// The catalog.
    pub catalog: &'a Catalog,
}

impl<'a> CatalogWords<'a> {
    /// Joins the two.
    pub fn new(words: &'a Words, catalog: &'a Catalog) -> Self {
        Self { words, catalog }
    }
    /// The question of an item; its id where the catalog has no such item.
    pub fn question(&self, item: &'a str) -> Cow<'a, str> {
        match self.catalog.item(item) {
            Some(found) => self.words.catalog(&format!("item-{item}-question"), &found.question),
            None => Cow::Borrowed(item),
        }
    }
    /// Why an item is asked.
    pub fn why(&self, item: &'a Item) -> Cow<'a, str> {
        self.words.catalog(&format!("item-{}-why", item.id), &item.why)
    }
    /// The label of an option of an item; the option as it is where the catalog has no such option.
    pub fn option(&self, item: &'a Item, id: &'a str) -> Cow<'a, str> {
        match item.answer.options().iter().find(|o| o.id == id) {
            Some(found) => self.words.catalog(&option(&item.id, id, &found.label), &found.label),
            None => Cow::Borrowed(id),
        }
    }
    /// The label of a station; its id where the catalog has no such station.
    pub fn station(&self, id: &'a str) -> Cow<'a, str> {
        match self.catalog.stations.iter().find(|s| s.id == id) {
            Some(found) => self.words.catalog(&format!("station-{id}"), &found.label),
            None => Cow::Borrowed(id),
        }
    }
    /// The name of a condition by its id or its key at one of several places; the id where the catalog has none such.
    pub fn condition(&self, id: &'a str) -> Cow<'a, str> {
        match self.catalog.condition_of(id) {
            Some(found) => self.words.catalog(&format!("condition-{}-name", found.id), &found.name),
            None => Cow::Borrowed(id),
        }
    }
    /// The name of a check; its id where the catalog has no such check.
    pub fn check(&self, id: &'a str) -> Cow<'a, str> {
        match self.catalog.checks.get(id) {
            Some(found) => self.words.catalog(&format!("check-{id}-name"), &found.name),
            None => Cow::Borrowed(id),
        }
    }
    /// The symbol of a unit.
    pub fn unit(&self, unit: &'a str) -> Cow<'a, str> {
        self.words.catalog(&format!("unit-{}", slug(unit)), unit)
    }
    /// The catalog's notice.
    pub fn notice(&self) -> Cow<'a, str> {
        self.words.catalog("catalog-notice", &self.catalog.notice)
    }
}
