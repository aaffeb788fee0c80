//! The firm's settings: how it weighs what it cannot see when it writes a price. What they mean is the program's; what
//! they are is the firm's.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::condition::{Basis, needs_source};
use super::load::Loader;
use super::source_file::At;
use super::suggest;

/// Ids of the settings a catalog must hold, and no others.
pub const SETTINGS: [&str; 10] = [
    "allowance-short",
    "allowance-unused",
    "change-order",
    "clause",
    "exclude-below",
    "floor",
    "hour-on-site",
    "idle-day",
    "priced-in-for-nothing",
    "promise-spread",
];

/// One setting.
#[derive(Clone, PartialEq, Debug)]
pub struct Setting {
    /// Id.
    pub id: String,
    /// What it is, in words.
    pub words: String,
    /// Unit of the value in words.
    pub unit: String,
    /// The value.
    pub value: f64,
    /// Least and most it can be.
    pub range: [f64; 2],
    /// Basis of the value.
    pub basis: Basis,
    /// Published sources by id.
    pub sources: Vec<String>,
    /// Remark.
    pub note: Option<String>,
}

/// The file of settings as written.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SettingsFile {
    basis: Basis,
    setting: Vec<RawSetting>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSetting {
    id: String,
    words: String,
    unit: String,
    value: f64,
    min: f64,
    max: f64,
    basis: Option<Basis>,
    #[serde(default)]
    sources: Vec<String>,
    note: Option<String>,
}

impl Loader<'_> {
    /// Reads the settings: each of [`SETTINGS`] once, inside its range.
    pub(super) fn read_settings(&mut self, at: &At, file: SettingsFile) -> BTreeMap<String, Setting> {
        let mut made = BTreeMap::new();
        for (n, raw) in file.setting.into_iter().enumerate() {
            let at = at.to("setting").to(n);
            if !SETTINGS.contains(&raw.id.as_str()) {
                let mend = suggest::mend(&raw.id, SETTINGS);
                self.faults.add(&at.to("id"), format!("nothing reads a setting “{}”", raw.id), mend);
            }
            if !(raw.min <= raw.value && raw.value <= raw.max) {
                let what =
                    format!("“{}” lies between {} and {}, not at {}", raw.id, raw.min, raw.max, raw.value);
                self.faults.add(&at.to("value"), what, Some(format!("it is in {}", raw.unit)));
            }
            let basis = raw.basis.unwrap_or(file.basis);
            self.sourced(&at, &raw.id, basis, &raw.sources);
            let setting = Setting {
                id: raw.id.clone(),
                words: raw.words,
                unit: raw.unit,
                value: raw.value,
                range: [raw.min, raw.max],
                basis,
                sources: raw.sources,
                note: raw.note,
            };
            if made.insert(raw.id.clone(), setting).is_some() {
                self.faults.add(&at.to("id"), format!("the setting “{}” is there twice", raw.id), None);
            }
        }
        for id in SETTINGS.iter().filter(|id| !made.contains_key(**id)) {
            self.faults.add(at, format!("the setting “{id}” is missing"), Some("put it back".to_owned()));
        }
        made
    }

    /// Checks that a basis which needs sources has them, and that they exist.
    pub(super) fn sourced(&mut self, at: &At, id: &str, basis: Basis, sources: &[String]) {
        if needs_source(basis) && sources.is_empty() {
            let mend = "add sources = [\"…\"] or say judgment".to_owned();
            self.faults.add(&at.to("basis"), format!("“{id}” names no source"), Some(mend));
        }
        for (i, source) in sources.iter().enumerate() {
            self.known_source(&at.to("sources").to(i), source);
        }
    }
}
