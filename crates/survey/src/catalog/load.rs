//! From files to a catalog. Every fault is collected; the result is a catalog without any, or all of them.

use std::collections::{BTreeMap, BTreeSet};

use serde::de::DeserializeOwned;

use super::clue::{Cause, Check, Clue};
use super::codes::{RawAdopted, RawBook, shelve};
use super::condition::Condition;
use super::context::Factor;
use super::error::CatalogError;
use super::faults::Found;
use super::item::{Item, Station};
use super::overlay::{Doc, Laid, documents, remove};
use super::raw;
use super::reference::{Group, Reference, Source};
use super::setting::SettingsFile;
use super::source_file::{At, Faults, Texts, Tree};
use super::suggest;
use super::{Catalog, Tail, digest};
use crate::units::Money;

/// Everything read so far, with the place of each thing.
pub(super) struct Loader<'a> {
    pub(super) faults: Faults<'a>,
    pub(super) groups: Vec<Group>,
    pub(super) stations: Vec<(Station, At)>,
    pub(super) items: Vec<Item>,
    pub(super) item_at: Vec<At>,
    pub(super) index: BTreeMap<String, usize>,
    /// Items with a fault of their own: what refers to them has none.
    pub(super) broken: BTreeSet<String>,
    pub(super) factors: Vec<Factor>,
    pub(super) causes: Vec<Cause>,
    pub(super) clues: Vec<(Clue, At)>,
    pub(super) checks: Vec<(Check, At)>,
    pub(super) conditions: Vec<(Condition, At)>,
    pub(super) sources: Vec<Source>,
}

/// Which file holds what.
#[derive(Default)]
struct Sorted {
    single: BTreeMap<&'static str, usize>,
    conditions: Vec<usize>,
    clues: Vec<usize>,
    walk: Vec<usize>,
    codes: Vec<usize>,
}

const ADOPTED: &str = "codes/adopted.toml";
const SINGLE: [&str; 11] = [
    "catalog.toml",
    "causes.toml",
    "checks.toml",
    ADOPTED,
    "context.toml",
    "drain-defaults.toml",
    "outages.toml",
    "relations.toml",
    "settings.toml",
    "sources.toml",
    "wishes.toml",
];

/// Reads, checks and joins the files of a catalog, with an overlay laid over them. Files are (path, text) pairs.
pub(super) fn load(files: &[(&str, &str)], overlay: &[(&str, &str)]) -> Result<Catalog, CatalogError> {
    let texts = Texts::new(files.to_vec(), overlay.to_vec());
    let mut early = Vec::new();
    let (docs, laid) = documents(&texts, &mut early);
    let mut loader = Loader {
        faults: Faults::new(&texts),
        groups: Vec::new(),
        stations: Vec::new(),
        items: Vec::new(),
        item_at: Vec::new(),
        index: BTreeMap::new(),
        broken: BTreeSet::new(),
        factors: Vec::new(),
        causes: Vec::new(),
        clues: Vec::new(),
        checks: Vec::new(),
        conditions: Vec::new(),
        sources: Vec::new(),
    };
    let sorted = loader.sort(&docs);
    loader.faults.list.extend(early.into_iter().map(|fault| Found { fault, at: None }));
    let made = sorted.and_then(|sorted| loader.build(&sorted, docs, &laid));
    let found = core::mem::take(&mut loader.faults.list);
    let mut faults = match made {
        Some(tail) if found.is_empty() => {
            let mut catalog = Catalog::join(loader, tail, digest(texts.base.iter()));
            let mut faults = Vec::new();
            let removed = remove(&mut catalog, &laid, &texts, &mut faults);
            if faults.is_empty() {
                if !laid.is_nothing() {
                    catalog.lay(laid.told(&texts, removed), digest(texts.base.iter().chain(&texts.overlay)));
                }
                return Ok(catalog);
            }
            faults
        }
        _ if overlay.is_empty() => found.into_iter().map(|f| f.fault).collect(),
        _ => {
            // Faults of the catalog itself come first: under them nothing can be said of the overlay.
            load(files, &[])?;
            laid.blamed(&texts, found)
        }
    };
    faults.sort();
    faults.dedup();
    Err(CatalogError { faults })
}

impl Loader<'_> {
    fn sort(&mut self, docs: &[Doc<'_>]) -> Option<Sorted> {
        let mut sorted = Sorted::default();
        let mut seen = BTreeSet::new();
        for (i, path) in docs.iter().map(|d| &d.path).enumerate() {
            if !seen.insert(path) {
                self.faults.file(path, "this file is given twice", None);
            }
            if let Some(name) = SINGLE.iter().find(|n| *n == path) {
                sorted.single.insert(name, i);
            } else {
                let toml = path.ends_with(".toml");
                match path.split_once('/').map(|(folder, _)| folder).filter(|_| toml) {
                    Some("conditions") => sorted.conditions.push(i),
                    Some("clues") => sorted.clues.push(i),
                    Some("walk") => sorted.walk.push(i),
                    Some("codes") => sorted.codes.push(i),
                    _ => {
                        let mend = "a catalog holds the files named in its README and the folders clues, codes, conditions and walk";
                        self.faults.file(path, "this file has no place in a catalog", Some(mend.to_owned()));
                    }
                }
            }
        }
        for name in SINGLE.iter().filter(|n| !sorted.single.contains_key(**n)) {
            self.faults.file(name, "this file is missing", Some("put it back".to_owned()));
        }
        for (folder, list) in [
            ("conditions/", &sorted.conditions),
            ("clues/", &sorted.clues),
            ("walk/", &sorted.walk),
            ("codes/", &sorted.codes),
        ] {
            if list.is_empty() {
                self.faults.file(folder, "this folder has no files", None);
            }
        }
        self.faults.list.is_empty().then_some(sorted)
    }

    fn build(&mut self, files: &Sorted, docs: Vec<Doc<'_>>, laid: &Laid) -> Option<Tail> {
        let single = |name: &str| files.single.get(name).copied().unwrap_or_default();
        let mut trees: Vec<Option<Tree<'_>>> =
            docs.into_iter().map(|d| (!d.broken).then_some(d.tree)).collect();
        let mut tree = |doc: usize| trees.get_mut(doc).and_then(Option::take);
        let head: Option<raw::CatalogFile> = self.read_doc(single("catalog.toml"), &mut tree);
        let context: Option<raw::ContextFile> = self.read_doc(single("context.toml"), &mut tree);
        let causes: Option<raw::CausesFile> = self.read_doc(single("causes.toml"), &mut tree);
        let checks: Option<raw::ChecksFile> = self.read_doc(single("checks.toml"), &mut tree);
        let relations: Option<raw::RelationsFile> = self.read_doc(single("relations.toml"), &mut tree);
        let outages: Option<raw::OutagesFile> = self.read_doc(single("outages.toml"), &mut tree);
        let wishes: Option<raw::WishesFile> = self.read_doc(single("wishes.toml"), &mut tree);
        let sources: Option<raw::SourcesFile> = self.read_doc(single("sources.toml"), &mut tree);
        let drain: Option<raw::DrainFile> = self.read_doc(single("drain-defaults.toml"), &mut tree);
        let settings: Option<SettingsFile> = self.read_doc(single("settings.toml"), &mut tree);
        let adopted: Option<RawAdopted> = self.read_doc(single(ADOPTED), &mut tree);
        let mut books = Vec::new();
        for i in &files.codes {
            books.push((At::new(*i), self.read_doc::<RawBook>(*i, &mut tree)));
        }
        let mut walk = Vec::new();
        for i in &files.walk {
            walk.push((*i, self.read_doc::<raw::WalkFile>(*i, &mut tree)));
        }
        let mut clue_files = Vec::new();
        for i in &files.clues {
            clue_files.push((*i, self.read_doc::<raw::ClueFile>(*i, &mut tree)));
        }
        let mut condition_files = Vec::new();
        for i in &files.conditions {
            condition_files.push((*i, self.read_doc::<raw::ConditionFile>(*i, &mut tree)));
        }
        if !self.faults.list.is_empty() {
            return None; // shapes first: references into a file that cannot be read would all look broken
        }
        let (head, drain, relations) = (head?, drain?, relations?);
        let (outages, wishes) = (outages?, wishes?);
        let books = books.into_iter().filter_map(|(at, book)| Some((at, book?))).collect();
        let shelf = shelve(books, (At::new(single(ADOPTED)), adopted?), &mut self.faults);
        self.groups = head.group;
        self.sources = sources?.source;
        self.causes = causes?.cause;
        self.factors = context?.factor;
        for (i, file) in walk {
            self.read_items(At::new(i), file?);
        }
        let checks = checks?;
        self.read_checks(&At::new(single("checks.toml")), checks);
        for (i, file) in clue_files {
            self.read_clues(&At::new(i), file?);
        }
        let mut condition_files: Vec<(usize, raw::ConditionFile)> =
            condition_files.into_iter().filter_map(|(i, file)| Some((i, file?))).collect();
        let position = |g: &str| self.groups.iter().position(|x| x.id == g).unwrap_or(usize::MAX);
        condition_files.sort_by_key(|(i, file)| (position(&file.group), *i));
        for (i, file) in condition_files {
            self.read_conditions(&At::new(i), file);
        }
        let at = At::new(single("catalog.toml"));
        let Some(kitchen) = Money::from_f64(head.reference.mid_range_kitchen) else {
            self.faults.add(&at.to("reference"), "mid-range-kitchen is not a sum of money", None);
            return None;
        };
        let reference = Reference {
            mid_range_kitchen: kitchen,
            mid_range_kitchen_source: head.reference.mid_range_kitchen_source,
            early_price_factor: head.reference.early_price_factor,
            early_price_basis: head.reference.early_price_basis,
            shared_cause_damping: head.reference.shared_cause_damping,
            shared_cause_damping_basis: head.reference.shared_cause_damping_basis,
            weights: head.weights,
            base_odds: head.base_odds,
        };
        let settings = self.read_settings(&At::new(single("settings.toml")), settings?);
        let drain_defaults = self.read_drain(&At::new(single("drain-defaults.toml")), drain);
        let tail = Tail {
            title: head.title,
            version: head.version,
            notice: head.notice,
            reference,
            relations,
            outage_basis: outages.basis,
            household_rules: outages.household_rule.clone(),
            outages: self.read_outages(&At::new(single("outages.toml")), outages),
            wishes: self.read_wishes(&At::new(single("wishes.toml")), wishes),
            drain_defaults,
            settings,
            shelf,
        };
        let at = |name: &str| At::new(single(name));
        self.check_names(&at);
        self.check_context(&at("context.toml"));
        self.check_clues();
        self.check_conditions();
        self.check_relations(&at("relations.toml"), &tail.relations);
        self.check_places(&at("context.toml"), &at("relations.toml"), &tail.relations);
        self.check_reference(&at("catalog.toml"), &tail.reference);
        self.check_household(&at, (&tail.outages, &tail.household_rules, &tail.wishes));
        self.check_all_words(&at);
        self.check_used(&at);
        self.check_circles(&at("relations.toml"), &tail.relations);
        self.check_numbers(&at("catalog.toml"), &tail.reference, laid);
        self.check_backing(laid);
        Some(tail)
    }

    fn read_doc<'d, T: DeserializeOwned>(
        &mut self,
        doc: usize,
        tree: &mut impl FnMut(usize) -> Option<Tree<'d>>,
    ) -> Option<T> {
        self.faults.read(doc, tree(doc)?)
    }

    /// Sources that changes rest on must exist.
    fn check_backing(&mut self, laid: &Laid) {
        for (id, offset) in &laid.sources {
            if !self.sources.iter().any(|s| s.id == *id) {
                let mend = suggest::mend(id, self.sources.iter().map(|s| s.id.as_str()));
                self.faults.at_offset(*offset, format!("there is no source “{id}”"), mend);
            }
        }
    }
}
