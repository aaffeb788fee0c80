//! Concealed conditions: odds by era, clues, checks, cost, days and what must be decided by whom.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::cut::Cut;
use super::predicate::{Answers, Predicate};
use super::{PLANNED_WORK, UNSURE_PLAN};
use crate::log::Value;
use crate::units::Money;

/// Where a number comes from.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// One person's judgment.
    Judgment,
    /// A rule of the trade without a source.
    CommonPractice,
    /// A published window of years; the level is judgment.
    Window,
    /// Own arithmetic on published values.
    Derived,
    /// A published value.
    Published,
    /// The firm's own record or price list.
    Firm,
}

impl Basis {
    /// Every basis.
    pub const ALL: [Self; 6] =
        [Self::Judgment, Self::CommonPractice, Self::Window, Self::Derived, Self::Published, Self::Firm];

    /// The word used in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Judgment => "judgment",
            Self::CommonPractice => "common-practice",
            Self::Window => "window",
            Self::Derived => "derived",
            Self::Published => "published",
            Self::Firm => "firm",
        }
    }
}

/// A basis that needs a source beside it.
pub(super) const fn needs_source(basis: Basis) -> bool {
    matches!(basis, Basis::Published | Basis::Derived | Basis::Window)
}

/// Low, likely, high; ordered and not negative.
#[derive(Clone, Copy, PartialEq, Debug, Deserialize)]
#[serde(try_from = "[f64; 3]")]
pub struct Three {
    /// Low.
    pub low: f64,
    /// Likely.
    pub likely: f64,
    /// High.
    pub high: f64,
}

impl TryFrom<[f64; 3]> for Three {
    type Error = String;
    fn try_from([low, likely, high]: [f64; 3]) -> Result<Self, String> {
        if 0.0 <= low && low <= likely && likely <= high && high.is_finite() {
            Ok(Self { low, likely, high })
        } else {
            Err(format!("[{low}, {likely}, {high}] must be low, likely, high in that order and not negative"))
        }
    }
}

/// Low, likely, high in money; ordered and not negative. Written in the catalog as whole dollars.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(try_from = "[f64; 3]")]
pub struct ThreeMoney {
    /// Low.
    pub low: Money,
    /// Likely.
    pub likely: Money,
    /// High.
    pub high: Money,
}

impl TryFrom<[f64; 3]> for ThreeMoney {
    type Error = String;
    fn try_from(dollars: [f64; 3]) -> Result<Self, String> {
        let Three { low, likely, high } = Three::try_from(dollars)?;
        let money = |d| Money::from_f64(d).ok_or_else(|| format!("{d} dollars are too many"));
        Ok(Self { low: money(low)?, likely: money(likely)?, high: money(high)? })
    }
}

/// One concealed condition.
#[derive(Clone, PartialEq, Debug)]
pub struct Condition {
    /// Id.
    pub id: String,
    /// Group.
    pub group: String,
    /// In the core set every firm keeps.
    pub core: bool,
    /// Station of which a house can have several places: it is there, or not, at each of them.
    pub place: Option<String>,
    /// Name shown.
    pub name: String,
    /// What it is.
    pub what: String,
    /// Planned jobs that bring it into scope.
    pub triggers: Vec<String>,
    /// Certainly true: out of scope.
    pub not_applicable_if: Option<Predicate>,
    /// Certainly false: out of scope.
    pub applies_if: Option<Predicate>,
    /// Odds before any clue.
    pub prior: Prior,
    /// Eras in which it is not there on purpose: its prior is 0.
    pub never_in: Vec<String>,
    /// Which year gives the era.
    pub dated_by: DatedBy,
    /// Clues and how strongly they speak.
    pub clues: Vec<CluePair>,
    /// Why it has no clue, when it has none.
    pub no_clue: Option<String>,
    /// Checks and how far they can be trusted.
    pub checks: Vec<CheckPair>,
    /// Groups of two or more of its clues that share a common cause: (cause, clues), derived.
    pub overlaps: Vec<(String, Vec<String>)>,
    /// Cost if found after the price is fixed.
    pub cost: ThreeMoney,
    /// Other costs in particular scopes; the first that certainly holds replaces `cost`.
    pub cost_when: Vec<CostWhen>,
    /// Working days added to the job.
    pub days: Three,
    /// Chance that it becomes a cost, given that it is there.
    pub p_cost: PCost,
    /// Its delay is a calendar wait for a utility, counted from signing and apart from working days.
    pub utility_wait: bool,
    /// The base price usually holds it; asked.
    pub usually_in_base_price: bool,
    /// Conditions whose cost is in this one's when both are there.
    pub covers_cost_of: Vec<String>,
    /// A gate before any arithmetic.
    pub decision: Option<Decision>,
    /// A calculation that stands in for prior and clues.
    pub measured_by: Option<MeasuredBy>,
    /// Trades needed.
    pub trades: Vec<String>,
    /// Licensed or certified person, or authority, who decides about its hazard; local code governs.
    pub decides: Option<String>,
    /// Caution shown.
    pub caution: String,
    /// When the work meets it (judgment).
    pub stage: Stage,
    /// Openings it makes a crew cut beyond those of the plan; `None`: it lies in what the plan opens, or opens nothing.
    pub cut: Option<Cut>,
    /// Where its numbers come from.
    pub basis: ConditionBasis,
    /// Published sources by id.
    pub sources: Vec<String>,
    /// Remark on the basis.
    pub basis_note: Option<String>,
}

/// Probability before clues: the share by era times odds ratios of the house.
#[derive(Clone, PartialEq, Debug)]
pub struct Prior {
    /// Probability by era band id; all bands are there.
    pub by_band: BTreeMap<String, f64>,
    /// Probability when the era is unknown: the mean over bands, weighted by the housing stock (derived).
    pub unknown: f64,
    /// Odds ratios by context level.
    pub adjust: Vec<Adjust>,
}

/// An odds ratio at one level of a context factor.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Adjust {
    /// Context factor.
    pub factor: String,
    /// Its level.
    pub level: String,
    /// Odds are multiplied by this.
    pub odds_ratio: f64,
}

/// Which year gives the era of a condition.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DatedBy {
    /// The last gut of the room, when there was one; otherwise the year built.
    Room,
    /// The year built.
    House,
}

/// How strongly a clue speaks about a condition.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct CluePair {
    /// The clue.
    pub clue: String,
    /// P(clue seen | condition there, item asked).
    pub if_present: f64,
    /// P(clue seen | condition not there, item asked).
    pub if_absent: f64,
    /// The same by era, for bands where it differs.
    #[serde(default)]
    pub if_absent_by_band: BTreeMap<String, f64>,
}

impl CluePair {
    /// P(clue | not there) in one era band, or overall when the era is unknown.
    pub fn absent_in(&self, band: Option<&str>) -> f64 {
        band.and_then(|b| self.if_absent_by_band.get(b)).copied().unwrap_or(self.if_absent)
    }
}

/// How far a check can be trusted about a condition, in ordinary hands.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct CheckPair {
    /// The check.
    pub check: String,
    /// P(shows it | there).
    pub sensitivity: f64,
    /// P(shows nothing | not there).
    pub specificity: f64,
    /// Basis, when it is not the condition's.
    pub basis: Option<Basis>,
    /// Published source, when there is one.
    pub source: Option<String>,
}

/// A cost in a particular scope.
#[derive(Clone, PartialEq, Debug)]
pub struct CostWhen {
    /// When it holds.
    pub when: Predicate,
    /// The cost.
    pub cost: ThreeMoney,
}

/// Chance that a condition becomes a cost in this scope, given that it is there.
#[derive(Clone, PartialEq, Debug)]
pub enum PCost {
    /// The same for every job.
    Same(f64),
    /// By planned job; the largest that is planned counts.
    ByTrigger(BTreeMap<String, f64>),
}

/// A gate: what may be done, whatever the arithmetic says.
#[derive(Clone, PartialEq, Debug)]
pub struct Decision {
    /// Kind of gate.
    pub kind: Gate,
    /// Until this has happened, in words.
    pub until: String,
    /// What may be done meanwhile.
    pub allowed: Vec<Action>,
    /// What may never be done meanwhile.
    pub never: Vec<Action>,
    /// When the gate stands; without it, always.
    pub when_if: Option<Predicate>,
    /// A paper that opens it.
    pub released_by: Option<Predicate>,
    /// What the paper must say.
    pub released_note: Option<String>,
}

/// Kind of gate.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Gate {
    /// Taken to be there until tested.
    Presume,
    /// A named licensed person looks first.
    HardStop,
}

/// What can be done about a condition.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Action {
    /// Find out before the price.
    CheckFirst,
    /// Put it into the price.
    PriceIn,
    /// Have it tested before signing.
    TestBeforeSigning,
    /// An allowance without a test.
    AllowanceWithoutTest,
    /// Exclude it from the contract.
    Exclude,
}

/// A calculation whose probability replaces the prior and some clues, so that an observation counts once.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct MeasuredBy {
    /// The calculation.
    pub calc: Calculation,
    /// Clues it stands in for.
    pub replaces_clues: Vec<String>,
    /// Items it reads.
    pub inputs: Vec<String>,
}

/// Trade calculations that can stand in for odds, by the words they have there.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Calculation {
    /// Kitchen-sink drain fit.
    SinkDrain,
    /// Trap arm against the table of the code.
    TrapArm,
    /// Horizontal branch drain by fixture units.
    DrainSize,
    /// Gas pipe by the longest-length method.
    GasRun,
    /// Service load before and after.
    PanelLoad,
}

impl Calculation {
    /// Every one.
    pub const ALL: [Self; 5] =
        [Self::SinkDrain, Self::TrapArm, Self::DrainSize, Self::GasRun, Self::PanelLoad];

    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::SinkDrain => "sink-drain",
            Self::TrapArm => "trap-arm",
            Self::DrainSize => "drain-size",
            Self::GasRun => "gas-run",
            Self::PanelLoad => "panel-load",
        }
    }
}

/// When the work meets a condition.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// While it is opened.
    Demolition,
    /// While pipes, cables, ducts and framing are put in.
    RoughIn,
    /// While it is closed and finished.
    CloseUp,
}

/// Where the numbers of a condition come from.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ConditionBasis {
    /// Prior.
    pub prior: Basis,
    /// Clue pairs.
    pub likelihoods: Basis,
    /// Check pairs.
    pub checks: Basis,
    /// Cost.
    pub cost: Basis,
    /// Days.
    pub days: Basis,
    /// Chance of becoming a cost, where the catalog gives one.
    pub p_cost: Option<Basis>,
    /// Openings, where the catalog gives them.
    pub cut: Option<Basis>,
}

impl Condition {
    /// Whether it belongs to this house and plan: yes, no, or not known yet (it then stays, at its base rate).
    pub fn applies(&self, answers: &dyn Answers) -> Option<bool> {
        if let Some(Value::Choices(plan)) = answers.value(PLANNED_WORK) {
            let open = plan.iter().all(|job| job == UNSURE_PLAN);
            if !open && !plan.iter().any(|job| self.triggers.contains(job)) {
                return Some(false);
            }
        }
        if self.not_applicable_if.as_ref().is_some_and(|p| p.holds(answers) == Some(true)) {
            return Some(false);
        }
        self.applies_if.as_ref().map_or(Some(true), |p| p.holds(answers))
    }

    /// The planned jobs that bring it into scope, in catalog order.
    pub fn planned_triggers(&self, answers: &dyn Answers) -> Vec<&str> {
        match answers.value(PLANNED_WORK) {
            Some(Value::Choices(plan)) => {
                self.triggers.iter().filter(|t| plan.contains(t)).map(String::as_str).collect()
            }
            _ => Vec::new(),
        }
    }

    /// Its cost in this house: the first special cost that certainly holds, otherwise the usual one.
    pub fn cost_in(&self, answers: &dyn Answers) -> ThreeMoney {
        let special = self.cost_when.iter().find(|c| c.when.holds(answers) == Some(true));
        special.map_or(self.cost, |c| c.cost)
    }

    /// Chance that it becomes a cost in this plan, given that it is there. Without a plan, the largest.
    pub fn p_cost_in(&self, answers: &dyn Answers) -> f64 {
        match &self.p_cost {
            PCost::Same(p) => *p,
            PCost::ByTrigger(table) => {
                let planned = self.planned_triggers(answers);
                let counted =
                    table.iter().filter(|(job, _)| planned.is_empty() || planned.contains(&job.as_str()));
                counted.map(|(_, p)| *p).fold(0.0, f64::max)
            }
        }
    }

    /// Whether its gate stands in this house: yes, no, or unknown. `None` in the outer option: it has no gate.
    pub fn gate(&self, answers: &dyn Answers) -> Option<Option<bool>> {
        self.decision.as_ref().map(|d| {
            if d.released_by.as_ref().is_some_and(|p| p.holds(answers) == Some(true)) {
                return Some(false);
            }
            d.when_if.as_ref().map_or(Some(true), |p| p.holds(answers))
        })
    }
}
