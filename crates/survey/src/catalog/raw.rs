//! The shape of each file as written, before references are resolved.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::clue::{Cause, Serves};
use super::condition::{
    Action, Adjust, Basis, CheckPair, CluePair, ConditionBasis, DatedBy, Gate, MeasuredBy, Stage, Three,
    ThreeMoney,
};
use super::context::Factor;
use super::cut::Cut;
use super::item::{Choice, LengthIn, PhotoWish, Station};
use super::reference::{BaseOdds, Derived, Excludes, Group, HouseholdRule, Implies, Source, Weights};

macro_rules! raw {
    ($(#[$doc:meta])* $name:ident { $($(#[$attr:meta])* $field:ident: $type:ty),* $(,)? }) => {
        $(#[$doc])*
        #[derive(Deserialize, Clone, Debug)]
        #[serde(deny_unknown_fields, rename_all = "kebab-case")]
        pub(super) struct $name { $($(#[$attr])* pub(super) $field: $type),* }
    };
}

raw!(RawPredicate {
    any: Option<Vec<RawPredicate>>,
    all: Option<Vec<RawPredicate>>,
    not: Option<Box<RawPredicate>>,
    item: Option<String>,
    r#in: Option<Vec<String>>,
    not_in: Option<Vec<String>>,
    has: Option<Vec<String>>,
    lacks: Option<Vec<String>>,
    gte: Option<f64>,
    lte: Option<f64>,
    gt: Option<f64>,
    lt: Option<f64>,
    unknown: Option<bool>,
});
raw!(RawTrueWhen {
    r#in: Option<Vec<String>>,
    has: Option<Vec<String>>,
    gte: Option<f64>,
    lte: Option<f64>,
    gt: Option<f64>,
    lt: Option<f64>,
});

raw!(CatalogFile {
    title: String,
    version: u32,
    notice: String,
    group: Vec<Group>,
    weights: Weights,
    reference: RawReference,
    base_odds: BaseOdds,
});
raw!(RawReference {
    mid_range_kitchen: f64,
    mid_range_kitchen_source: String,
    early_price_factor: Three,
    early_price_basis: Basis,
    shared_cause_damping: f64,
    shared_cause_damping_basis: Basis,
});
raw!(ContextFile { factor: Vec<Factor> });
raw!(CausesFile { cause: Vec<Cause> });
raw!(ClueFile { basis: Basis, clue: Vec<RawClue> });
raw!(RawClue {
    id: String,
    words: String,
    item: String,
    true_when: RawTrueWhen,
    #[serde(default)]
    by_code: BTreeMap<String, f64>,
    #[serde(default)]
    neutral_on: Vec<String>,
    neutral_if: Option<RawPredicate>,
    cause: Option<String>,
    #[serde(default)]
    lowers: bool,
    basis: Option<Basis>,
    #[serde(default)]
    sources: Vec<String>,
    note: Option<String>,
});
raw!(ChecksFile { basis: Basis, check: Vec<RawCheck> });
raw!(RawCheck {
    id: String,
    name: String,
    invasive: u8,
    minutes: Three,
    cost: ThreeMoney,
    who: String,
    #[serde(default)]
    serves: Serves,
    note: Option<String>,
    #[serde(default)]
    blocked_if: Vec<RawPredicate>,
    #[serde(default)]
    not_while: Vec<String>,
    basis: Option<Basis>,
    #[serde(default)]
    sources: Vec<String>,
});
raw!(ConditionFile { group: String, condition: Vec<RawCondition> });
raw!(RawCondition {
    id: String,
    name: String,
    what: String,
    #[serde(default)]
    core: bool,
    place: Option<String>,
    triggers: Vec<String>,
    not_applicable_if: Option<RawPredicate>,
    applies_if: Option<RawPredicate>,
    dated_by: DatedBy,
    stage: Stage,
    trades: Vec<String>,
    decides: Option<String>,
    caution: String,
    cost: ThreeMoney,
    days: Three,
    p_cost: Option<f64>,
    p_cost_by_trigger: Option<BTreeMap<String, f64>>,
    #[serde(default)]
    cost_when: Vec<RawCostWhen>,
    #[serde(default)]
    usually_in_base_price: bool,
    #[serde(default)]
    utility_wait: bool,
    cut: Option<Cut>,
    #[serde(default)]
    covers_cost_of: Vec<String>,
    no_clue: Option<String>,
    #[serde(default)]
    adjust: Vec<Adjust>,
    #[serde(default)]
    clues: Vec<CluePair>,
    checks: Vec<CheckPair>,
    basis: ConditionBasis,
    #[serde(default)]
    sources: Vec<String>,
    basis_note: Option<String>,
    prior: BTreeMap<String, f64>,
    #[serde(default)]
    never_in: Vec<String>,
    decision: Option<RawDecision>,
    measured_by: Option<MeasuredBy>,
});
raw!(RawCostWhen { when: RawPredicate, cost: ThreeMoney });
raw!(RawDecision {
    kind: Gate,
    until: String,
    allowed: Vec<Action>,
    #[serde(default)]
    never: Vec<Action>,
    when_if: Option<RawPredicate>,
    released_by: Option<RawPredicate>,
    released_note: Option<String>,
});
raw!(RelationsFile {
    #[serde(default)]
    excludes: Vec<Excludes>,
    #[serde(default)]
    implies: Vec<Implies>,
    #[serde(default)]
    derived: Vec<Derived>,
});
raw!(OutagesFile { basis: Basis, outage: Vec<RawOutage>, household_rule: Vec<HouseholdRule> });
raw!(RawOutage {
    id: String,
    task: String,
    off: Vec<String>,
    scope: String,
    hours: Three,
    help: String,
    when: Option<RawPredicate>,
    basis: Option<Basis>,
    #[serde(default)]
    sources: Vec<String>,
});
raw!(WishesFile { basis: Basis, wish: Vec<RawWish> });
raw!(RawWish {
    id: String,
    rough_in: String,
    now: [f64; 2],
    later: Option<[f64; 2]>,
    later_note: Option<String>,
    basis: Option<Basis>,
    #[serde(default)]
    sources: Vec<String>,
});
raw!(SourcesFile { source: Vec<Source> });
raw!(DrainFile { length: Vec<RawDrainDefault> });
raw!(RawDrainDefault {
    id: String,
    name: String,
    inches: f64,
    low: Option<f64>,
    high: Option<f64>,
    #[serde(default)]
    sigma_measured: f64,
    #[serde(default)]
    sigma_assumed: f64,
    basis: Basis,
    #[serde(default)]
    sources: Vec<String>,
    note: Option<String>,
});
raw!(WalkFile {
    basis: Basis,
    station: Station,
    #[serde(default)]
    item: Vec<RawItem>,
});
raw!(RawItem {
    id: String,
    question: String,
    why: String,
    answer: RawKind,
    options: Option<Vec<Choice>>,
    #[serde(default)]
    alone: Vec<String>,
    unit: Option<String>,
    min: Option<f64>,
    max: Option<f64>,
    over: Option<String>,
    scale: Option<String>,
    zero_means: Option<String>,
    #[serde(default)]
    second_look: bool,
    second_look_when: Option<String>,
    #[serde(default)]
    photo: PhotoWish,
    photo_note: Option<String>,
    records_check: Option<String>,
    skip_if: Option<RawPredicate>,
    skip_note: Option<String>,
    promote_if: Option<RawPredicate>,
    basis: Option<Basis>,
});

#[derive(Deserialize, Clone, Copy, Debug, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
pub(super) enum RawKind {
    Choice,
    Choices,
    Length,
    Number,
    Checks,
}

impl RawItem {
    pub(super) fn length_unit(&self) -> Option<LengthIn> {
        match self.unit.as_deref() {
            Some("in") => Some(LengthIn::Inch),
            Some("ft") => Some(LengthIn::Foot),
            _ => None,
        }
    }
}
