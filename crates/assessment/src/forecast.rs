//! The frozen assessment: what was forecast, from which log, by which catalog and engine.
//!
//! Its bytes are JSON with the fields in the order declared here; numbers are rounded on freezing (probabilities to
//! 1e-6, money to cents, days to 0.01), so that the same input gives the same bytes. A frozen assessment is never
//! edited: a later one stands beside it.

use serde::{Deserialize, Serialize};
use survey::catalog::Catalog;
use survey::log::Value;
use survey::units::{Length, Money};
use survey::{DeviceId, Digest, Stamp, SurveyId};
use trade::picture::Picture;

pub use crate::calculation_said::CalculationSaid;

use crate::decision::{LossRules, Pricing};

/// Version of the form.
pub const VERSION: u32 = 4;
/// Oldest form that is still read. What came later stands as missing in it.
pub const OLDEST: u32 = 2;

/// A frozen assessment of one house.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Forecast {
    /// Version of this form.
    pub v: u32,
    /// The house.
    pub survey: SurveyId,
    /// Its label.
    pub label: String,
    /// When it was frozen, handed in.
    pub made_at: Stamp,
    /// Engine name and version.
    pub engine: String,
    /// Catalog that made it.
    pub catalog: CatalogRef,
    /// Where in the log it stands.
    pub log: LogPosition,
    /// Contract price, if given.
    pub contract: Option<Money>,
    /// The firm's factors used.
    pub rules: LossRules,
    /// Generator and seed of the joint draws.
    pub seed: String,
    /// Joint draws made.
    pub draws: u32,
    /// Natural logarithm of P(evidence).
    pub log_p_evidence: f64,
    /// Keys of the answers that set evidence ([`survey::Key`]), in walking order.
    pub evidence: Vec<String>,
    /// False when no planned work was recorded: every condition then counts, most of which the job may never meet.
    pub plan_known: bool,
    /// Places of which the house has several, in walking order.
    pub places: Vec<PlaceListed>,
    /// Items that were answered "can't tell" or "could not reach", or on which claims disagree.
    pub not_known: Vec<NotKnown>,
    /// Conditions in scope, likeliest first.
    pub conditions: Vec<ConditionForecast>,
    /// The unknown in money.
    pub money: MoneyForecast,
    /// The unknown in days.
    pub days: DaysForecast,
    /// What to look at next, best first.
    pub looks: Vec<Look>,
    /// Trade calculations on what was measured, or why they say nothing.
    pub calculations: Vec<CalculationForecast>,
    /// The caution that goes with every assessment.
    pub caution: String,
}

/// Catalog version and digest.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CatalogRef {
    /// Version as written in the catalog.
    pub version: String,
    /// SHA-256 over its files.
    pub digest: Digest,
}

/// Position in the log.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LogPosition {
    /// Entries it was made from, in the order of the log: all, or those before demolition was declared.
    pub entries: u64,
    /// Last entry of each device.
    pub heads: Vec<LogHead>,
}

/// Last entry of one device's stream.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LogHead {
    /// The device.
    pub device: DeviceId,
    /// Its last position.
    pub seq: u64,
    /// Hash of that entry.
    pub hash: Digest,
}

/// One of several places of a house: two soffits, three walls to open.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlaceRef {
    /// Id of the place, as in the log.
    pub id: String,
    /// Its name when it was frozen.
    pub label: String,
}

impl PlaceRef {
    /// A place, where the house has several of its kind.
    pub fn of(catalog: &Catalog, picture: &survey::model::Picture, place: &str) -> Option<Self> {
        let label = survey::guide::place_name(catalog, picture, place)?;
        Some(Self { id: place.to_owned(), label })
    }
}

/// A place of which the house has several, with its station.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlaceListed {
    /// Station of the walk.
    pub station: String,
    /// Id of the place; the station's for its first one.
    pub id: String,
    /// Its name when it was frozen.
    pub label: String,
}

/// An item without evidence although it was asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NotKnown {
    /// Item id.
    pub item: String,
    /// At which place, where the house has several.
    pub place: Option<PlaceRef>,
    /// "can't tell", the reason it could not be reached, or "answers disagree".
    pub why: String,
}

/// One condition.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConditionForecast {
    /// Key of the condition ([`survey::Key`]).
    pub id: String,
    /// Its name for people.
    pub name: String,
    /// At which place, where the house has several.
    pub place: Option<PlaceRef>,
    /// Catalog group.
    pub group: String,
    /// P(present | all answers).
    pub probability: f64,
    /// P(present) with the plan of work alone.
    pub base: f64,
    /// P(present | year built, and year of the room's last gut), the base rate of its era.
    pub era_base: f64,
    /// P(becomes a cost | present).
    pub p_cost: f64,
    /// Calculation that gave the probability, if one did.
    pub measured_by: Option<String>,
    /// Cost if it becomes one: low, likely, high.
    pub cost: [Money; 3],
    /// Working days it adds: low, likely, high.
    pub days: [f64; 3],
    /// When the work meets it: demolition, rough-in, close-up.
    pub stage: String,
    /// Trade whose days it takes.
    pub trade: String,
    /// True when its delay is a calendar wait for a utility.
    pub utility_wait: bool,
    /// True when the base price holds it, so that its cost and days are not in the sums below.
    pub in_base_price: bool,
    /// What to do about it.
    pub advice: Advice,
    /// Answers that moved its odds most, strongest first.
    pub because: Vec<Reason>,
    /// Where the probability would lie, eight times in ten, were the base rate as far off as what stands behind it allows;
    /// missing in form 2, and where a calculation gave the probability.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub band: Option<[f64; 2]>,
    /// From `base` to `probability`, answer by answer in the order of the catalog's walk; missing in form 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub path: Option<Vec<PathStep>>,
    /// Openings to allow for, beyond those of the plan; missing before form 4, and where none are.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut: Option<CutForecast>,
    /// Who decides.
    pub caution: String,
}

/// Openings a condition makes a crew cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CutForecast {
    /// How many: few, usual, many.
    pub number: [u16; 3],
    /// Width of one, in eighths of a micrometer.
    pub width: Length,
    /// Height of one, in eighths of a micrometer.
    pub height: Length,
}

/// An answer and how far it moved the odds of a condition.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reason {
    /// Item id.
    pub item: String,
    /// At which place, where the house has several and the item is asked at each.
    pub place: Option<PlaceRef>,
    /// The answer.
    pub value: Value,
    /// Weight of evidence in decibans (10·log10 of the ratio of the odds with and without this answer).
    pub decibans: f64,
}

/// A step from the base rate of a condition to its odds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PathStep {
    /// The answer, with how far it moved the odds on top of those before it; none where several answers that each moved
    /// them little are one step.
    pub answer: Option<Reason>,
    /// How many answers the step is.
    pub answers: u32,
    /// P(present) after it.
    pub to: f64,
}

/// What to do about a condition.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case")]
pub enum Advice {
    /// Hard stop: a named licensed person looks first.
    LicensedLookFirst {
        /// Who or what must come first, in the catalog's words.
        until: String,
    },
    /// Presumed: price it in or have it tested before signing; never excluded.
    PriceInOrTest {
        /// Who tests, in the catalog's words.
        until: String,
    },
    /// The base price already holds it.
    InBasePrice {
        /// False when this was only assumed, because it usually does and nobody said otherwise.
        confirmed: bool,
    },
    /// Too small to raise.
    BelowFloor,
    /// The pricing that loses least.
    Price {
        /// How to write it.
        pricing: Pricing,
        /// Amount of the allowance or of the sum to price in; none where nothing is priced.
        amount: Option<Money>,
        /// Expected loss.
        loss: Money,
    },
    /// Nothing to write: a finding without a cost of its own.
    Nothing,
}

impl Advice {
    /// Whether a licensed person or a test comes first.
    pub fn is_gate(&self) -> bool {
        matches!(self, Self::LicensedLookFirst { .. } | Self::PriceInOrTest { .. })
    }
}

/// The unknown in money.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MoneyForecast {
    /// Mean.
    pub mean: Money,
    /// Percentiles.
    pub p50: Money,
    /// Percentiles.
    pub p80: Money,
    /// Percentiles.
    pub p90: Money,
    /// Monte-Carlo standard errors of mean, P50, P80, P90.
    pub standard_errors: [Money; 4],
    /// P(total above 2, 5, 10 % of the contract), if the contract price is known.
    pub over: Option<[f64; 3]>,
    /// Every fifth percentile from 5 to 95.
    pub quantiles: Vec<Money>,
    /// What its drawing needs; missing in form 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shape: Option<MoneyShape>,
    /// Mean of what the base price already holds.
    pub in_base_mean: Money,
    /// Ten largest contributors to the mean.
    pub to_mean: Vec<Contribution>,
    /// Ten largest contributors to P80 − P50.
    pub to_spread: Vec<Contribution>,
}

/// The shape of the unknown in money.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MoneyShape {
    /// Twenty sums, each one chance in twenty: the middle of each twentieth of the draws.
    pub twentieths: Vec<Money>,
    /// The draws counted in bars, in dollars.
    pub bars: Bars,
}

/// Draws counted in bars of one width from nothing up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bars {
    /// Width of a bar, in dollars or days. The first holds what is below it, nothing too.
    pub step: f64,
    /// Draws in each, up to the bar that holds the 98th percentile.
    pub counts: Vec<u32>,
    /// Draws beyond.
    pub beyond: u32,
}

/// Share of one condition.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Contribution {
    /// Key of the condition.
    pub condition: String,
    /// Its part.
    pub amount: Money,
}

/// The unknown in working days, and the longest calendar wait for a utility beside it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DaysForecast {
    /// Mean.
    pub mean: f64,
    /// Percentiles.
    pub p50: f64,
    /// Percentiles.
    pub p80: f64,
    /// Percentiles.
    pub p90: f64,
    /// Monte-Carlo standard errors of mean, P50, P80, P90.
    pub standard_errors: [f64; 4],
    /// Calendar days a utility may take: mean, P80.
    pub utility_wait: [f64; 2],
    /// The draws of the working days counted, for the drawing; missing in form 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bars: Option<Bars>,
}

/// A further look worth its minutes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Look {
    /// Check id.
    pub check: String,
    /// Its label.
    pub label: String,
    /// At which place it is made, where the house has several.
    pub place: Option<PlaceRef>,
    /// Which of several places it tells of at once. Left out of the frozen form where there is none, so that forecasts
    /// made before keep their bytes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub serves: Vec<PlaceRef>,
    /// Keys of the conditions it informs.
    pub conditions: Vec<String>,
    /// Likely minutes.
    pub minutes: f64,
    /// What it costs: minutes at the firm's rate and repair.
    pub cost: Money,
    /// Expected value before its cost.
    pub value: Money,
    /// Value less cost, per minute.
    pub net_per_minute: Money,
    /// 0 look, 1 touch, 2 opens a part, 3 pinhole, 4 small opening.
    pub invasiveness: u8,
    /// Who does it.
    pub who: String,
    /// What must be asked before it is done.
    pub ask_first: Vec<String>,
}

/// A trade calculation as it was answered: enough to redo it on paper and to draw it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CalculationForecast {
    /// Its word.
    pub word: String,
    /// Its title.
    pub title: String,
    /// within, near, beyond, ask-locally, cannot-say, quantity.
    pub standing: String,
    /// The result in one sentence.
    pub sentence: String,
    /// P(beyond the value it is held against).
    pub chance_beyond: Option<f64>,
    /// One standard deviation of the result, with its unit.
    pub sigma: Option<String>,
    /// Key of the condition it covers, if one in scope.
    pub condition: Option<String>,
    /// What would have to be known.
    pub missing: Vec<String>,
    /// The arithmetic, line by line.
    pub arithmetic: Vec<[String; 2]>,
    /// Values used: rule, value, and document, edition, clause, mark.
    pub limits: Vec<[String; 3]>,
    /// Inputs that nobody gave, with what was taken.
    pub assumed: Vec<String>,
    /// Single changes that would help.
    pub changes: Vec<String>,
    /// What else to know.
    pub notes: Vec<String>,
    /// Who decides.
    pub caution: String,
    /// What can be drawn of it.
    pub picture: Option<Picture>,
    /// The same texts as messages, to be said in another language; older forms have none and stay in English.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub said: Option<CalculationSaid>,
}

/// Bytes that are not a frozen assessment this program reads.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ForecastError {
    /// Not JSON of the right shape.
    #[error("the assessment cannot be read: {0}")]
    Unreadable(String),
    /// Made by an older program, before any release.
    #[error(
        "the assessment has form {found}; this program reads forms {OLDEST} to {VERSION}: assess the house again"
    )]
    Older {
        /// Version found.
        found: u64,
    },
    /// Made by a newer program.
    #[error(
        "the assessment has form {found}; this program reads forms {OLDEST} to {VERSION}: use a newer program"
    )]
    Newer {
        /// Version found.
        found: u64,
    },
}

impl ConditionForecast {
    /// Its name, with the place where the house has several.
    pub fn full_name(&self) -> String {
        match &self.place {
            Some(place) => format!("{} ({})", self.name, place.label),
            None => self.name.clone(),
        }
    }
}

impl Forecast {
    /// The frozen bytes.
    pub fn to_bytes(&self) -> Vec<u8> {
        // All floats are finite (rounded on freezing) and all keys are strings, so this cannot fail.
        let mut bytes = serde_json::to_vec_pretty(self).unwrap_or_default();
        bytes.push(b'\n');
        bytes
    }
    /// Reads frozen bytes.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, ForecastError> {
        #[derive(Deserialize)]
        struct Version {
            v: u64,
        }
        let unreadable = |e: serde_json::Error| ForecastError::Unreadable(e.to_string());
        let version: Version = serde_json::from_slice(bytes).map_err(unreadable)?;
        if version.v > u64::from(VERSION) {
            return Err(ForecastError::Newer { found: version.v });
        }
        if version.v < u64::from(OLDEST) {
            return Err(ForecastError::Older { found: version.v });
        }
        serde_json::from_slice(bytes).map_err(unreadable)
    }
    /// One condition by its key.
    pub fn condition(&self, key: &str) -> Option<&ConditionForecast> {
        self.conditions.iter().find(|c| c.id == key)
    }
}

/// To a millionth: how probabilities are frozen.
pub fn round6(x: f64) -> f64 {
    libm::round(x * 1e6) / 1e6 + 0.0
}

/// To a hundredth: how days and inches are frozen.
pub fn round2(x: f64) -> f64 {
    libm::round(x * 100.0) / 100.0 + 0.0
}

/// Dollars to cents.
pub fn cents(dollars: f64) -> Money {
    Money::from_f64(dollars).unwrap_or(Money::MAX)
}

/// A chance in words that never claim certainty: "8 in 100", "less than 1 in 100".
pub fn in_100(p: f64) -> String {
    match p * 100.0 {
        x if x < 0.5 => "less than 1 in 100".to_owned(),
        x if x > 99.5 => "more than 99 in 100".to_owned(),
        x => format!("{:.0} in 100", x.clamp(1.0, 99.0)),
    }
}
