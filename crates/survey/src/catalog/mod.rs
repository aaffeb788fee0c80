//! The catalog: concealed conditions, clues, checks and the walk, as data with sources.
//!
//! Data live in TOML files that a firm edits (`catalog/`, whose README explains every key). Loading checks every
//! reference and range and reports all faults with file, line and the nearest known word. Numbers are judgment
//! unless their basis names a published source; the loader changes none.

mod answer;
mod builtin;
mod clue;
mod codes;
mod condition;
mod context;
mod cut;
mod error;
mod faults;
mod hazard;
mod item;
mod load;
mod notes;
mod overlay;
mod predicate;
mod rates;
mod raw;
mod reach;
mod read;
mod readers;
mod reference;
mod resolve;
mod setting;
mod source_file;
mod standing;
mod suggest;
mod unroll;
mod validate;
mod validate_condition;
mod validate_places;
mod validate_rest;
mod version;

use std::collections::{BTreeMap, BTreeSet};

use crate::log::Value;
use crate::{Digest, Key};

pub use answer::AnswerError;
pub use builtin::{FILES, builtin, builtin_with, shipped};
pub use clue::{Cause, Check, Clue, Serves, TrueWhen};
pub use codes::{Adopted, Book, Family, Mark, Shelf, Table};
pub use condition::{
    Action, Adjust, Basis, Calculation, CheckPair, CluePair, Condition, ConditionBasis, CostWhen, DatedBy,
    Decision, Gate, MeasuredBy, PCost, Prior, Stage, Three, ThreeMoney,
};
pub use context::{Factor, Given, GivenLevel, Level};
pub use cut::Cut;
pub use error::{CatalogError, Fault};
pub use item::{AnswerKind, Choice, Item, LengthIn, PhotoWish, Place, Several, Station};
pub use notes::Note;
pub use overlay::{Added, Backing, Change, Overlay, Removed, Row, Writing, Written, WrittenAt, kinds};
pub use predicate::{Answers, Bound, Compare, NO_STATEMENT, Predicate, Test, UNSURE};
pub use reference::{
    BaseOdds, Derived, DrainDefault, Excludes, Group, HouseholdRule, Implies, Outage, Reference, Source,
    Trust, Weights, Wish,
};
pub use setting::{SETTINGS, Setting};
pub use source_file::OVERLAY;
pub use standing::Standing;
pub use suggest::nearest;
pub use unroll::MorePlace;
pub use validate_condition::CLOSERS;
pub use version::Version;

/// The item that says what is planned; it decides which conditions are in scope.
pub const PLANNED_WORK: &str = "planned-work";
/// The item that says when the house was built.
pub const YEAR_BUILT: &str = "year-built";
/// The item that says when the room was last taken to the studs; 0 means never.
pub const LAST_GUT: &str = "last-gut";
const UNSURE_PLAN: &str = "cant-tell";

/// Ids of the drain defaults a catalog must hold, and no others.
pub const DRAIN_DEFAULTS: [&str; 22] = [
    "bowl-depth-apron-front",
    "bowl-depth-drop-in",
    "bowl-depth-undermount",
    "cabinet-floor",
    "counter-height",
    "counter-thick",
    "drop-disposer",
    "drop-disposer-open",
    "drop-strainer",
    "fall",
    "floor-buildup",
    "rim-drop-in",
    "shell-cast-iron",
    "shell-composite",
    "shell-fireclay",
    "shell-steel",
    "stub-height",
    "toe-kick",
    "trap-drop-disposer",
    "trap-drop-strainer",
    "trap-run",
    "trap-seal",
];

/// A checked catalog.
#[derive(Clone, PartialEq, Debug)]
pub struct Catalog {
    /// Title.
    pub title: String,
    /// Version, raised by whoever edits it, with that of the overlay.
    pub version: Version,
    /// What must be read with every number.
    pub notice: String,
    /// SHA-256 over the sorted files: for each, path length, path, text length, text (lengths as 8 bytes, big-endian).
    /// With an overlay its sorted files follow, their paths beginning with `overlay/`.
    pub digest: Digest,
    /// The same without the overlay.
    pub base: Digest,
    /// The overlay, where one changes, adds or leaves out something.
    pub overlay: Option<Overlay>,
    /// Groups of conditions, in order.
    pub groups: Vec<Group>,
    /// Numbers that hold for all.
    pub reference: Reference,
    /// Context factors; the first is the era.
    pub factors: Vec<Factor>,
    /// Common causes by id.
    pub causes: BTreeMap<String, Cause>,
    /// Clues by id.
    pub clues: BTreeMap<String, Clue>,
    /// Checks by id.
    pub checks: BTreeMap<String, Check>,
    /// Conditions in catalog order: groups in order, then as written.
    pub conditions: Vec<Condition>,
    /// Pairs that cannot both be there.
    pub excludes: Vec<Excludes>,
    /// Conditions that mean others.
    pub implies: Vec<Implies>,
    /// Conditions that follow from others.
    pub derived: Vec<Derived>,
    /// Stations in walking order.
    pub stations: Vec<Station>,
    /// Items in walking order.
    pub items: Vec<Item>,
    /// What the household goes without.
    pub outages: Vec<Outage>,
    /// Basis of the outage hours.
    pub outage_basis: Basis,
    /// Rules of the household.
    pub household_rules: Vec<HouseholdRule>,
    /// Wishes for later.
    pub wishes: Vec<Wish>,
    /// Published figures by id.
    pub sources: BTreeMap<String, Source>,
    /// Defaults of the sink drain fit by id.
    pub drain_defaults: BTreeMap<String, DrainDefault>,
    /// The firm's settings by id.
    pub settings: BTreeMap<String, Setting>,
    /// Code books, and which the firm works by.
    pub shelf: Shelf,
    item_index: BTreeMap<String, usize>,
    condition_index: BTreeMap<String, usize>,
}

/// What the loader reads besides the things it keeps for checking.
struct Tail {
    title: String,
    version: u32,
    notice: String,
    reference: Reference,
    relations: raw::RelationsFile,
    outages: Vec<Outage>,
    outage_basis: Basis,
    household_rules: Vec<HouseholdRule>,
    wishes: Vec<Wish>,
    drain_defaults: BTreeMap<String, DrainDefault>,
    settings: BTreeMap<String, Setting>,
    shelf: Shelf,
}

impl Catalog {
    /// Reads a catalog from (path inside the catalog folder, text) pairs, in any order.
    pub fn load(files: &[(String, String)]) -> Result<Self, CatalogError> {
        Self::load_with(files, &[])
    }

    /// Reads a catalog with a firm's overlay laid over it, given as (path inside the overlay, text) pairs in any order.
    /// Faults of the overlay name its files with `overlay/` before the path. An overlay that changes nothing leaves the
    /// catalog as it is, digest and version too.
    pub fn load_with(files: &[(String, String)], overlay: &[(String, String)]) -> Result<Self, CatalogError> {
        load::load(&borrowed(files), &borrowed(overlay))
    }

    /// Marks that an overlay was laid over it.
    fn lay(&mut self, overlay: Overlay, digest: Digest) {
        self.version.overlay = Some(overlay.version);
        self.overlay = Some(overlay);
        self.digest = digest;
    }

    fn join(loader: load::Loader<'_>, tail: Tail, digest: Digest) -> Self {
        let mut catalog = Self {
            title: tail.title,
            version: Version { catalog: tail.version, overlay: None },
            notice: tail.notice,
            digest,
            base: digest,
            overlay: None,
            groups: loader.groups,
            reference: tail.reference,
            factors: loader.factors,
            causes: loader.causes.into_iter().map(|c| (c.id.clone(), c)).collect(),
            clues: loader.clues.into_iter().map(|(c, _)| (c.id.clone(), c)).collect(),
            checks: loader.checks.into_iter().map(|(c, _)| (c.id.clone(), c)).collect(),
            conditions: loader.conditions.into_iter().map(|(c, _)| c).collect(),
            excludes: tail.relations.excludes,
            implies: tail.relations.implies,
            derived: tail.relations.derived,
            stations: loader.stations.into_iter().map(|(station, _)| station).collect(),
            items: loader.items,
            outages: tail.outages,
            outage_basis: tail.outage_basis,
            household_rules: tail.household_rules,
            wishes: tail.wishes,
            sources: loader.sources.into_iter().map(|s| (s.id.clone(), s)).collect(),
            drain_defaults: tail.drain_defaults,
            settings: tail.settings,
            shelf: tail.shelf,
            item_index: BTreeMap::new(),
            condition_index: BTreeMap::new(),
        };
        catalog.derive();
        catalog
    }

    /// Fills in what follows from the rest.
    fn derive(&mut self) {
        let mut informs: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for condition in &self.conditions {
            for item in read_by(condition, &self.clues, &self.factors) {
                informs.entry(item).or_default().insert(condition.id.clone());
            }
        }
        for (order, item) in (1..).zip(&mut self.items) {
            item.order = order;
            item.clues = self.clues.values().filter(|c| c.item == item.id).map(|c| c.id.clone()).collect();
            let factors = self.factors.iter().filter(|f| f.item == item.id);
            item.sets_context = factors.map(|f| f.id.clone()).collect();
            item.informs = informs.remove(&item.id).unwrap_or_default();
        }
        self.condition_index = self.conditions.iter().enumerate().map(|(i, c)| (c.id.clone(), i)).collect();
        self.item_index = self.items.iter().enumerate().map(|(i, x)| (x.id.clone(), i)).collect();
    }

    /// The same catalog for a firm that works by another book; an unknown id leaves the family open.
    #[must_use]
    pub fn choosing(mut self, family: Family, book: &str) -> Self {
        self.shelf = core::mem::take(&mut self.shelf).choosing(family, book);
        self
    }

    /// An item by id.
    pub fn item(&self, id: &str) -> Option<&Item> {
        self.item_index.get(id).and_then(|i| self.items.get(*i))
    }
    /// A condition by id.
    pub fn condition(&self, id: &str) -> Option<&Condition> {
        self.condition_index.get(id).and_then(|i| self.conditions.get(*i))
    }
    /// The condition a key names, if it can be at several places where the key names one.
    pub fn condition_of(&self, key: &str) -> Option<&Condition> {
        let Key { id, place } = Key::parse(key);
        self.condition(id).filter(|c| place.is_none() || c.place.is_some())
    }
    /// The key of a condition as it is written everywhere: the first place is left out.
    pub fn key_of(&self, key: &str) -> Option<String> {
        let condition = self.condition_of(key)?;
        Some(Key::new(&condition.id, Key::parse(key).place, condition.place.as_deref()).to_string())
    }
    /// A station by id.
    pub fn station(&self, id: &str) -> Option<&Station> {
        self.stations.iter().find(|s| s.id == id)
    }
    /// A clue by id.
    pub fn clue(&self, id: &str) -> Option<&Clue> {
        self.clues.get(id)
    }
    /// A check by id.
    pub fn check(&self, id: &str) -> Option<&Check> {
        self.checks.get(id)
    }
    /// The value of a setting; every one of [`SETTINGS`] is there.
    pub fn setting(&self, id: &str) -> Option<f64> {
        self.settings.get(id).map(|s| s.value)
    }
    /// A context factor by id.
    pub fn factor(&self, id: &str) -> Option<&Factor> {
        self.factors.iter().find(|f| f.id == id)
    }
    /// The era factor (the first).
    pub fn era(&self) -> Option<&Factor> {
        self.factors.first()
    }

    /// The era band of a condition dated so, or `None` when no year is known.
    pub fn band(&self, dated_by: DatedBy, answers: &dyn Answers) -> Option<&str> {
        let era = self.era()?;
        if dated_by == DatedBy::Room
            && let Some(Value::Number(year)) = answers.value(LAST_GUT)
            && year.milli > 0
        {
            return era.band_of_year(year.milli.div_euclid(1000));
        }
        era.level(answers)
    }

    /// The context the answers show: factor id to level id. Factors that nothing shows are left out.
    pub fn context(&self, answers: &dyn Answers) -> BTreeMap<&str, &str> {
        self.factors.iter().filter_map(|f| Some((f.id.as_str(), f.level(answers)?))).collect()
    }

    /// The clues that are certainly true, by id.
    pub fn clues_true(&self, answers: &dyn Answers) -> BTreeSet<&str> {
        let shown = self.clues.values().filter(|c| c.state(answers) == Some(true));
        shown.map(|c| c.id.as_str()).collect()
    }

    /// Conditions that are not certainly out of scope, in catalog order.
    pub fn in_scope<'a>(&'a self, answers: &'a dyn Answers) -> impl Iterator<Item = &'a Condition> {
        self.conditions.iter().filter(|c| c.applies(answers) != Some(false))
    }
}

/// The same pairs, borrowed.
fn borrowed(files: &[(String, String)]) -> Vec<(&str, &str)> {
    files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect()
}

/// Ids of the items that bear on a condition.
fn read_by<'a>(
    c: &'a Condition,
    clues: &'a BTreeMap<String, Clue>,
    factors: &'a [Factor],
) -> BTreeSet<String> {
    let mut items: BTreeSet<&str> = BTreeSet::from([PLANNED_WORK]);
    for pair in &c.clues {
        if let Some(clue) = clues.get(&pair.clue) {
            items.insert(&clue.item);
            items.extend(clue.neutral_if.iter().flat_map(Predicate::items));
        }
    }
    for adjust in &c.prior.adjust {
        items.extend(factors.iter().filter(|f| f.id == adjust.factor).map(|f| f.item.as_str()));
    }
    items.insert(YEAR_BUILT);
    if c.dated_by == DatedBy::Room {
        items.insert(LAST_GUT);
    }
    let gates = c.decision.iter().flat_map(|d| d.when_if.iter().chain(&d.released_by));
    let scopes = c.not_applicable_if.iter().chain(&c.applies_if).chain(c.cost_when.iter().map(|w| &w.when));
    items.extend(scopes.chain(gates).flat_map(Predicate::items));
    items.extend(c.measured_by.iter().flat_map(|m| m.inputs.iter().map(String::as_str)));
    items.into_iter().map(str::to_owned).collect()
}

/// The digest of sorted files.
fn digest<'t>(files: impl Iterator<Item = &'t source_file::Text<'t>>) -> Digest {
    let mut bytes = Vec::new();
    for file in files {
        for part in [file.name.as_ref(), file.text] {
            bytes.extend_from_slice(&(part.len() as u64).to_be_bytes());
            bytes.extend_from_slice(part.as_bytes());
        }
    }
    Digest::of(&bytes)
}
