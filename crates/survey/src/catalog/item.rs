//! Items of the walk: a question, the kind of answer it takes, and when it is asked.

use std::collections::BTreeSet;

use serde::Deserialize;

use super::condition::Basis;
use super::predicate::{Answers, Predicate};
use crate::Digest;
use crate::Key;
use crate::units::{Length, LengthUnit};

/// A stop of the walk.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Station {
    /// Id.
    pub id: String,
    /// Words shown.
    pub label: String,
    /// Where its items are answered.
    #[serde(rename = "where")]
    pub place: Place,
    /// Minutes it takes, where known (judgment).
    pub minutes: Option<u32>,
    /// When it is done, in words.
    pub when: Option<String>,
    /// What it is about, where a house can have several of it.
    pub each: Option<Several>,
}

/// Something of which a house can have several, each walked by itself.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Several {
    /// One of it, for people ("soffit").
    pub one: String,
    /// Several of it ("soffits").
    pub several: String,
    /// Most a walk takes in.
    pub most: u32,
}

impl Several {
    /// The id of an added place from its name: the name's words, the thing itself last. Two tablets that give one
    /// place the same name give it the same id. `None` for a name of nothing but spaces and signs.
    pub fn place_id(&self, label: &str) -> Option<String> {
        let lower = label.to_lowercase();
        let words: Vec<&str> =
            lower.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).collect();
        if words.is_empty() {
            return None;
        }
        let noun: Vec<&str> = self.one.split(' ').collect();
        let mut kept: Vec<&str> =
            words.iter().copied().filter(|w| !matches!(*w, "the" | "a" | "an")).collect();
        if let Some(at) = kept.windows(noun.len()).position(|w| *w == *noun) {
            kept.drain(at..at + noun.len());
        }
        let plain = kept.iter().all(|w| w.bytes().all(|b| b.is_ascii_alphanumeric())) && !kept.is_empty();
        let digest;
        if !plain {
            // Other letters, or the thing alone: ids are plain words, so the name's digest stands for them.
            digest = Digest::of(words.join(" ").as_bytes()).short();
            kept = vec![&digest];
        }
        kept.extend(noun);
        Some(kept.join("-"))
    }
}

/// Where the items of a station are answered.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Place {
    /// With the plan, before or at the door.
    Start,
    /// By the household, on a sheet sent before the visit.
    Sheet,
    /// Looked up in the office.
    Office,
    /// In the house.
    House,
}

/// One question of the walk.
#[derive(Clone, PartialEq, Debug)]
pub struct Item {
    /// Id.
    pub id: String,
    /// Station it is asked at.
    pub station: String,
    /// Asked at each place of its station, of which a house can have several (derived).
    pub at_each: bool,
    /// Position in the walk, from 1.
    pub order: u32,
    /// The question.
    pub question: String,
    /// Why it is asked, in one line.
    pub why: String,
    /// The kind of answer.
    pub answer: AnswerKind,
    /// Asked only when promoted or when its value of information asks for it.
    pub second_look: bool,
    /// Why it was put there, in words.
    pub second_look_when: Option<String>,
    /// Whether a photograph is wanted.
    pub photo: PhotoWish,
    /// What the photograph must show.
    pub photo_note: Option<String>,
    /// A check whose result this item records.
    pub records_check: Option<String>,
    /// Certainly true: not asked.
    pub skip_if: Option<Predicate>,
    /// What no answer decides, in words for the person walking.
    pub skip_note: Option<String>,
    /// Certainly true: a second-look item is asked in the first walk.
    pub promote_if: Option<Predicate>,
    /// Clues read from it (derived).
    pub clues: Vec<String>,
    /// Context factors read from it (derived).
    pub sets_context: Vec<String>,
    /// Conditions it bears on: by a clue, a factor, the scope or a calculation (derived).
    pub informs: BTreeSet<String>,
    /// Basis of its range and of the thresholds in its rules.
    pub basis: Basis,
}

impl Item {
    /// Its key ([`Key`]) at a place: the id alone where it is asked once, or at the first of several.
    pub fn key_at(&self, place: &str) -> String {
        Key::new(&self.id, self.at_each.then_some(place), Some(&self.station)).to_string()
    }
    /// True when the answers so far certainly rule it out.
    pub fn skipped(&self, answers: &dyn Answers) -> bool {
        self.skip_if.as_ref().is_some_and(|p| p.holds(answers) == Some(true))
    }
    /// True when it belongs to the first walk: core, or certainly promoted.
    pub fn in_first_walk(&self, answers: &dyn Answers) -> bool {
        !self.second_look || self.promote_if.as_ref().is_some_and(|p| p.holds(answers) == Some(true))
    }
}

/// The kind of answer an item takes. "Can't tell" and "could not reach" are accepted by all.
#[derive(Clone, PartialEq, Debug)]
pub enum AnswerKind {
    /// One option.
    Choice {
        /// The options in the order shown.
        options: Vec<Choice>,
    },
    /// One or more options.
    Choices {
        /// The options in the order shown.
        options: Vec<Choice>,
        /// Options that stand alone ("none").
        alone: Vec<String>,
    },
    /// A length.
    Length {
        /// Unit it is asked in.
        unit: LengthIn,
        /// Least plausible.
        min: Length,
        /// Most plausible.
        max: Length,
        /// The base it is measured over ("8 ft"), for a slope read as a length.
        over: Option<String>,
    },
    /// Any other quantity.
    Number {
        /// Unit symbol; empty for a count or a year.
        unit: String,
        /// Least plausible, in thousandths.
        min_milli: i64,
        /// Most plausible, in thousandths.
        max_milli: i64,
        /// What is counted, or the scale it is read on.
        scale: Option<String>,
        /// What zero means, when it is not a number ("never").
        zero_means: Option<String>,
    },
    /// Records of further checks.
    Checks,
}

impl AnswerKind {
    /// The options of a choice; empty for other kinds.
    pub fn options(&self) -> &[Choice] {
        match self {
            Self::Choice { options } | Self::Choices { options, .. } => options,
            _ => &[],
        }
    }
    /// The kind in words.
    pub fn words(&self) -> &'static str {
        match self {
            Self::Choice { .. } => "one option",
            Self::Choices { .. } => "one or more options",
            Self::Length { .. } => "a length",
            Self::Number { .. } => "a number",
            Self::Checks => "check results",
        }
    }
}

/// One option of a choice.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Choice {
    /// Id.
    pub id: String,
    /// Words shown.
    pub label: String,
}

impl From<LengthIn> for LengthUnit {
    fn from(unit: LengthIn) -> Self {
        match unit {
            LengthIn::Inch => Self::Inch,
            LengthIn::Foot => Self::Foot,
        }
    }
}

/// Unit a length is asked in; thresholds in the catalog are in it.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
pub enum LengthIn {
    /// Inches.
    #[serde(rename = "in")]
    Inch,
    /// Feet.
    #[serde(rename = "ft")]
    Foot,
}

impl LengthIn {
    /// The symbol.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Foot => "ft",
        }
    }
    /// The unit in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Inch => "inches",
            Self::Foot => "feet",
        }
    }
    /// The nearest length to a number in this unit; `None` beyond what is accepted.
    pub fn length(self, number: f64) -> Option<Length> {
        Length::from_inches(match self {
            Self::Inch => number,
            Self::Foot => number * 12.0,
        })
    }
    /// A length as a number in this unit, for display and formulas.
    pub fn number(self, length: Length) -> f64 {
        match self {
            Self::Inch => length.inches(),
            Self::Foot => length.inches() / 12.0,
        }
    }
}

/// Whether a photograph is wanted with an answer.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PhotoWish {
    /// None.
    #[default]
    None,
    /// It helps.
    Optional,
    /// It is needed.
    Needed,
}
