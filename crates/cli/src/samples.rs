//! Reading a sample survey: what was answered on the walk, and what was found afterwards. The keys are explained in
//! `sample-surveys/README.md`.

use std::fs;
use std::path::{Path, PathBuf};

use actions::{Drawn, Error, Kind};
use serde::Deserialize;
use words::msg;

use crate::fail;

/// A walk, in the order it was walked.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "some keys are for readers of the file only")]
pub struct Walk {
    /// Version of these keys; 1.
    pub schema: u32,
    /// Folder name.
    pub id: String,
    /// Name of the house.
    pub label: String,
    /// Where it would be.
    pub place: String,
    /// What it is.
    pub about: String,
    /// Always true.
    pub invented: bool,
    /// Says so in words.
    pub invented_note: String,
    /// Contract price in dollars.
    pub contract_price: i64,
    /// Days the contract allows.
    pub contract_days: u32,
    /// Who walked.
    pub surveyor: String,
    /// Name of the tablet.
    pub device: String,
    /// Beginning of the walk, with offset.
    pub started: survey::Stamp,
    /// Other readings of the day.
    #[serde(default)]
    pub measurement: Vec<Measurement>,
    /// Places of which the house has several, as they were found on the walk.
    #[serde(default)]
    pub named_place: Vec<NamedPlace>,
    /// Marks drawn over photographs, in the order they were drawn.
    #[serde(default)]
    pub mark: Vec<Mark>,
    /// Answers.
    pub entry: Vec<Entry>,
}

/// A mark over a photograph.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Mark {
    /// The photograph file, from the folder of the house; an entry before names it.
    pub photo: PathBuf,
    /// What is drawn.
    pub draw: Draw,
    /// Minutes after the beginning.
    pub minutes_after_start: i64,
}

/// What is drawn, in pixels of the upright picture: to the right, down.
#[derive(Deserialize, Debug, Clone)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Draw {
    /// Tail, head.
    Arrow([[f64; 2]; 2]),
    /// Middle, a point it runs through.
    Ring([[f64; 2]; 2]),
    /// The left end of the baseline, and the words.
    Words {
        /// The left end of the baseline.
        at: [f64; 2],
        /// What they say.
        say: String,
    },
    /// A length between two ends.
    Dimension {
        /// Its ends.
        ends: [[f64; 2]; 2],
        /// What the tape said.
        length: String,
        /// Plus or minus what.
        tolerance: Option<String>,
    },
}

impl Draw {
    /// As a person draws it.
    pub fn drawn(&self) -> Drawn {
        match self.clone() {
            Self::Arrow(ends) => Drawn::Arrow(ends),
            Self::Ring(spots) => Drawn::Ring(spots),
            Self::Words { at, say } => Drawn::Words(at, say),
            Self::Dimension { ends, length, tolerance } => Drawn::Dimension(ends, length, tolerance),
        }
    }
}

/// One more soffit, another wall to open; or the name of the first.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct NamedPlace {
    /// Station of the walk.
    pub station: String,
    /// Its name; the id follows from it.
    pub label: String,
    /// True for the first one, which only gets its name.
    #[serde(default)]
    pub first: bool,
    /// Minutes after the beginning.
    pub minutes_after_start: i64,
}

/// A reading that belongs to no item.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Measurement {
    /// What was measured.
    pub name: String,
    /// The reading.
    pub value: String,
}

/// An answer, or several ticks.
#[derive(Deserialize, Debug, Clone)]
#[serde(untagged)]
pub enum Words {
    /// One.
    One(String),
    /// Several.
    Several(Vec<String>),
}

/// One answer.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Item id; at one of several places ITEM@PLACE.
    pub item: String,
    /// The answer.
    pub answer: Option<Words>,
    /// Or why it could not be reached.
    pub could_not_reach: Option<String>,
    /// Tolerance of a length.
    pub tolerance: Option<String>,
    /// Photograph files, from the folder of the house.
    #[serde(default)]
    pub photos: Vec<PathBuf>,
    /// A remark.
    pub note: Option<String>,
    /// Why an earlier answer is corrected.
    pub correction_reason: Option<String>,
    /// Who answered, when it was not the surveyor.
    pub who: Option<String>,
    /// Minutes after the beginning.
    pub minutes_after_start: i64,
}

/// What was found.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "some keys are for readers of the file only")]
pub struct Findings {
    /// Version of these keys; 1.
    pub schema: u32,
    /// Folder name of the house.
    pub house: String,
    /// Always true.
    pub invented: bool,
    /// When it was written down.
    pub recorded_at: survey::Stamp,
    /// By whom.
    pub recorded_by: String,
    /// One for each condition.
    pub finding: Vec<SampleFinding>,
}

/// One condition.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct SampleFinding {
    /// Condition id; at one of several places CONDITION@PLACE.
    pub condition: String,
    /// found, not-there or not-opened.
    pub found: review::Outcome,
    /// Dollars.
    pub cost: f64,
    /// Working days.
    pub days: f64,
    /// It stood in the contract price.
    pub priced_before_signing: bool,
    /// Who bore the cost: absorbed, allowance or change-order.
    pub paid_by: Option<review::PaidBy>,
    /// Words.
    #[serde(default)]
    pub note: String,
    /// Photograph file, from the folder of the house.
    pub photo: Option<PathBuf>,
}

/// Folders of houses, in order of name.
pub fn houses(folder: &Path) -> Result<Vec<PathBuf>, Error> {
    let mut found: Vec<PathBuf> = fs::read_dir(folder)
        .map_err(|e| fail::file(folder, &e))?
        .filter_map(|e| e.ok().map(|e| e.path()))
        .filter(|p| p.join("survey.toml").is_file())
        .collect();
    found.sort();
    if found.is_empty() {
        let message = msg!("error-no-samples", path = folder.display().to_string());
        return Err(Error::new(Kind::Missing, message).hint(msg!("error-no-samples-hint")));
    }
    Ok(found)
}

/// Reads one file of a house.
pub fn read<T: for<'de> Deserialize<'de>>(path: &Path) -> Result<T, Error> {
    let text = fs::read_to_string(path).map_err(|e| fail::file(path, &e))?;
    toml::from_str(&text).map_err(|e| {
        let line = e.span().map_or(0, |s| text[..s.start.min(text.len())].matches('\n').count() + 1);
        let path = path.display().to_string();
        Error::new(Kind::Input, msg!("error-sample", path = path, line = line, said = e.message()))
            .hint(msg!("error-sample-hint"))
    })
}
