//! The rest of the catalog: numbers that hold for all, relations, sources, outages, wishes, drain defaults.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::Catalog;
use super::condition::{Basis, Three};
use super::predicate::{Answers, Predicate};
use crate::units::{Length, Money};

/// A group of conditions.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Group {
    /// Id.
    pub id: String,
    /// Name shown.
    pub name: String,
}

/// Pseudo-houses behind a number when the firm's findings are set against it.
#[derive(Clone, Copy, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Weights {
    /// Judgment.
    pub judgment: f64,
    /// Common practice.
    pub common_practice: f64,
    /// A published window of years with a judged level.
    pub window: f64,
    /// Own arithmetic on published values.
    pub derived: f64,
    /// A published value.
    pub published: f64,
    /// The firm's own, where no number of jobs is told; left out: as judgment.
    pub firm: Option<f64>,
    /// Basis of the weights themselves.
    pub basis: Basis,
}

impl Weights {
    /// The weight of a basis.
    pub fn of(&self, basis: Basis) -> f64 {
        match basis {
            Basis::Judgment => self.judgment,
            Basis::CommonPractice => self.common_practice,
            Basis::Window => self.window,
            Basis::Derived => self.derived,
            Basis::Published => self.published,
            Basis::Firm => self.firm.unwrap_or(self.judgment),
        }
    }
}

/// Reference values.
#[derive(Clone, PartialEq, Debug)]
pub struct Reference {
    /// What a mid-range kitchen costs.
    pub mid_range_kitchen: Money,
    /// Its published source.
    pub mid_range_kitchen_source: String,
    /// Price of the same work before signing as a part of the late price: low, likely, high.
    pub early_price_factor: Three,
    /// Its basis.
    pub early_price_basis: Basis,
    /// How much a further clue of one cause counts, where a model cannot tell them apart.
    pub shared_cause_damping: f64,
    /// Its basis.
    pub shared_cause_damping_basis: Basis,
    /// Pseudo-houses by basis.
    pub weights: Weights,
    /// One factor on base odds.
    pub base_odds: BaseOdds,
}

/// One factor on the base odds of most conditions.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct BaseOdds {
    /// Base odds are multiplied by this.
    pub factor: f64,
    /// Its basis.
    pub basis: Basis,
    /// The plan it was set with.
    pub typical_plan: Vec<String>,
    /// Conditions it does not touch.
    pub not_for: Vec<String>,
}

impl BaseOdds {
    /// The factor for a condition.
    pub fn factor_for(&self, condition: &str) -> f64 {
        if self.not_for.iter().any(|c| c == condition) { 1.0 } else { self.factor }
    }
}

/// Two conditions that cannot both be there.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Excludes {
    /// The two.
    pub pair: [String; 2],
}

/// One condition being there means that another is.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Implies {
    /// If this is there,
    #[serde(rename = "if")]
    pub premise: String,
    /// then so is this.
    #[serde(rename = "then")]
    pub conclusion: String,
}

/// A condition that follows from others.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Derived {
    /// The condition.
    pub condition: String,
    /// It is there exactly when none of these is.
    pub none_of: Vec<String>,
    /// Why it is not a condition of its own.
    pub why: String,
}

/// A published figure, or one from memory that says so.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Source {
    /// Id.
    pub id: String,
    /// Topic.
    pub topic: String,
    /// What it says.
    pub statement: String,
    /// Its numbers.
    #[serde(default)]
    pub values: BTreeMap<String, f64>,
    /// Document, edition, table.
    pub source: String,
    /// Where it was read.
    pub read_in: String,
    /// False: from memory.
    pub read: bool,
    /// Confidence in the source.
    pub trust: Trust,
    /// Remark.
    pub note: Option<String>,
}

/// Confidence in a source.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Trust {
    /// Low.
    Low,
    /// Medium.
    Medium,
    /// High.
    High,
}

/// What the household goes without.
#[derive(Clone, PartialEq, Debug)]
pub struct Outage {
    /// Id.
    pub id: String,
    /// Task that causes it.
    pub task: String,
    /// What is off.
    pub off: Vec<String>,
    /// How far it reaches.
    pub scope: String,
    /// Hours: low, likely, high.
    pub hours: Three,
    /// What helps.
    pub help: String,
    /// Answers that bring the task into the plan; none: only where somebody puts it there.
    pub when: Option<Predicate>,
    /// Basis of the hours.
    pub basis: Basis,
    /// Published sources by id.
    pub sources: Vec<String>,
}

impl Outage {
    /// Over so many hours an outage is told in days, and is no matter of a calendar of hours (the line is ours).
    pub const IN_DAYS: f64 = 80.0;

    /// Whether it is told in days.
    pub fn in_days(&self) -> bool {
        self.hours.high > Self::IN_DAYS
    }
}

impl Catalog {
    /// What the answers bring into the plan, in the catalog's order.
    pub fn planned_outages<'c>(&'c self, here: &dyn Answers) -> impl Iterator<Item = &'c Outage> {
        self.outages.iter().filter(|o| o.when.as_ref().is_some_and(|when| when.holds(here) == Some(true)))
    }
}

/// A rule of the household during the work (common practice).
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HouseholdRule {
    /// Id.
    pub id: String,
    /// Words.
    pub words: String,
}

/// Something wished for later and what to rough in now. Sums are low and high.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Wish {
    /// Option of the item "wishes".
    pub id: String,
    /// What to rough in.
    pub rough_in: String,
    /// Cost while the wall is open.
    pub now: [Money; 2],
    /// Cost later, where known.
    pub later: Option<[Money; 2]>,
    /// What comes on top later.
    pub later_note: Option<String>,
    /// Basis of the sums.
    pub basis: Basis,
    /// Published sources by id.
    pub sources: Vec<String>,
}

/// A length the sink drain fit takes when nobody measured or chose it.
#[derive(Clone, PartialEq, Debug)]
pub struct DrainDefault {
    /// Id.
    pub id: String,
    /// Words shown.
    pub name: String,
    /// The length.
    pub length: Length,
    /// Usual range, where one is known.
    pub range: Option<[Length; 2]>,
    /// One standard deviation in inches when measured or read from a spec sheet; 0 for a rule.
    pub sigma_measured: f64,
    /// One standard deviation in inches when this default is used; 0 for a rule.
    pub sigma_assumed: f64,
    /// Basis.
    pub basis: Basis,
    /// Published sources by id.
    pub sources: Vec<String>,
    /// Remark or document.
    pub note: Option<String>,
}
