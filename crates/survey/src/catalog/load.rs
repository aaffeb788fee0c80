//! From files to a catalog. Every fault is collected; the result is a catalog without any, or all of them.

use std::collections::{BTreeMap, BTreeSet};

use super::clue::{Cause, Check, Clue};
use super::codes::{RawAdopted, RawBook, shelve};
use super::condition::{Basis, Condition};
use super::context::Factor;
use super::error::CatalogError;
use super::item::{Item, Station};
use super::raw;
use super::reference::{Group, Reference, Source};
use super::source_file::{At, Faults};
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
const SINGLE: [&str; 10] = [
    "catalog.toml",
    "causes.toml",
    "checks.toml",
    ADOPTED,
    "context.toml",
    "drain-defaults.toml",
    "outages.toml",
    "relations.toml",
    "sources.toml",
    "wishes.toml",
];

/// Reads, checks and joins the files of a catalog.
pub(super) fn load(files: &[(String, String)]) -> Result<Catalog, CatalogError> {
    let mut order: Vec<(String, String)> = files.to_vec();
    order.sort();
    let mut loader = Loader {
        faults: Faults::new(&order),
        groups: Vec::new(),
        stations: Vec::new(),
        items: Vec::new(),
        item_at: Vec::new(),
        index: BTreeMap::new(),
        factors: Vec::new(),
        causes: Vec::new(),
        clues: Vec::new(),
        checks: Vec::new(),
        conditions: Vec::new(),
        sources: Vec::new(),
    };
    let sorted = loader.sort(&order);
    let made = sorted.and_then(|sorted| loader.build(&sorted));
    let mut faults = core::mem::take(&mut loader.faults.list);
    faults.sort();
    faults.dedup();
    match made {
        Some(tail) if faults.is_empty() => Ok(Catalog::join(loader, tail, digest(&order))),
        _ => Err(CatalogError { faults }),
    }
}

impl Loader<'_> {
    fn sort(&mut self, files: &[(String, String)]) -> Option<Sorted> {
        let mut sorted = Sorted::default();
        let mut seen = BTreeSet::new();
        for (i, (path, _)) in files.iter().enumerate() {
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

    fn build(&mut self, files: &Sorted) -> Option<Tail> {
        let single = |name: &str| files.single.get(name).copied().unwrap_or_default();
        let head: Option<raw::CatalogFile> = self.faults.parse(single("catalog.toml"));
        let context: Option<raw::ContextFile> = self.faults.parse(single("context.toml"));
        let causes: Option<raw::CausesFile> = self.faults.parse(single("causes.toml"));
        let checks: Option<raw::ChecksFile> = self.faults.parse(single("checks.toml"));
        let relations: Option<raw::RelationsFile> = self.faults.parse(single("relations.toml"));
        let outages: Option<raw::OutagesFile> = self.faults.parse(single("outages.toml"));
        let wishes: Option<raw::WishesFile> = self.faults.parse(single("wishes.toml"));
        let sources: Option<raw::SourcesFile> = self.faults.parse(single("sources.toml"));
        let drain: Option<raw::DrainFile> = self.faults.parse(single("drain-defaults.toml"));
        let adopted: Option<RawAdopted> = self.faults.parse(single(ADOPTED));
        let mut books = Vec::new();
        for i in &files.codes {
            books.push((At::new(*i), self.faults.parse::<RawBook>(*i)));
        }
        let mut walk = Vec::new();
        for i in &files.walk {
            walk.push((*i, self.faults.parse::<raw::WalkFile>(*i)));
        }
        let mut clue_files = Vec::new();
        for i in &files.clues {
            clue_files.push((*i, self.faults.parse::<raw::ClueFile>(*i)));
        }
        let mut condition_files = Vec::new();
        for i in &files.conditions {
            condition_files.push((*i, self.faults.parse::<raw::ConditionFile>(*i)));
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
        Some(tail)
    }
}

/// A basis that needs a source beside it.
pub(super) fn needs_source(basis: Basis) -> bool {
    matches!(basis, Basis::Published | Basis::Derived | Basis::Window)
}
