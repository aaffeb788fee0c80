//! What a catalog does not say and a simulation needs: which jobs are planned together, how often an answer is missing,
//! which places are opened. Data, all judgment: `habits.toml`.

use std::collections::BTreeMap;

use serde::Deserialize;
use survey::catalog::{Catalog, MorePlace};

use crate::unreadable::complaint;

/// The habits built in.
const BUILTIN: &str = include_str!("habits.toml");

/// Habits that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum HabitsError {
    /// Not TOML of the right shape.
    #[error("the habits cannot be read: {0}")]
    Unreadable(String),
    /// A number outside its range.
    #[error("{what} is {value}; it must lie between {low} and {high}")]
    Range {
        /// Which number.
        what: String,
        /// What was written.
        value: String,
        /// Least.
        low: String,
        /// Most.
        high: String,
    },
    /// Nothing to plan.
    #[error("the habits hold no plan with a weight above 0 and at least one job")]
    NoPlan,
}

/// A mix of jobs.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanMix {
    /// What it is called.
    pub name: String,
    /// How often, against the other mixes.
    pub weight: f64,
    /// Jobs always planned.
    pub jobs: Vec<String>,
    /// Jobs planned with a chance.
    #[serde(default)]
    pub maybe: BTreeMap<String, f64>,
}

/// Jobs that are not planned together.
#[derive(Clone, Debug, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NotTogether {
    /// Of each pair the first stands.
    pub pairs: Vec<[String; 2]>,
}

/// How many there are of what a house can have several of.
#[derive(Clone, Debug, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct More {
    /// Only where one of these is planned.
    pub jobs: Vec<String>,
    /// Chance of a second; where there is one, of a third; and so on.
    pub more: Vec<f64>,
}

/// Contract price and days.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Contract {
    /// Dollars before any job.
    pub base: f64,
    /// Days before any job.
    pub base_days: f64,
    /// The sum is multiplied by a factor between these.
    pub spread: [f64; 2],
    /// Dollars of each job.
    pub jobs: BTreeMap<String, f64>,
    /// Days of each job.
    pub days: BTreeMap<String, f64>,
}

/// When rooms are gutted.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gut {
    /// Only in houses at least so many years old.
    pub age: i64,
    /// Chance.
    pub chance: f64,
    /// Not before this year.
    pub earliest: i64,
    /// The year it is.
    pub now: i64,
}

/// How often an answer says nothing.
#[derive(Clone, Debug, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Missing {
    /// Chance of "can't tell".
    #[serde(default)]
    pub cant_tell: f64,
    /// Chance of "could not reach".
    #[serde(default)]
    pub could_not_reach: f64,
    /// Reasons, one of which is given.
    #[serde(default)]
    pub because: Vec<String>,
}

/// A chance that holds usually, and others for some items.
#[derive(Clone, Debug, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chances {
    /// For items not named.
    #[serde(alias = "asked")]
    pub usually: f64,
    /// For some items.
    #[serde(default)]
    pub items: BTreeMap<String, f64>,
}

impl Chances {
    /// The chance for an item.
    pub fn of(&self, item: &str) -> f64 {
        self.items.get(item).copied().unwrap_or(self.usually)
    }
}

/// Chances of ticks.
#[derive(Clone, Debug, PartialEq, Default, Deserialize)]
pub struct Ticks {
    /// For options not named.
    pub usually: f64,
    /// By item and option.
    #[serde(flatten)]
    pub items: BTreeMap<String, BTreeMap<String, f64>>,
}

/// How a number is spread.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spread {
    /// Mean, in the unit of the item.
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
    /// Read to the nearest of these.
    pub step: f64,
}

/// A tolerance that is noted with a length.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tolerance {
    /// Plus or minus, in inches.
    pub inches: f64,
    /// How often, against the others.
    pub weight: f64,
}

/// Further looks that are made.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Looks {
    /// At most so many.
    pub most: u32,
    /// Chance of each.
    pub chance: f64,
    /// None more invasive.
    pub invasive: u8,
    /// Chance that one comes out unclear.
    pub unclear: f64,
}

/// Which places are opened.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Opening {
    /// A condition is suspected from this probability on.
    pub suspected_from: f64,
    /// Chance that the place of a suspected condition is opened.
    pub suspected: f64,
    /// Chance for the others.
    pub others: f64,
}

/// Who pays.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Paying {
    /// Chance that it stood in the price where a look had shown it.
    pub priced_if_shown: f64,
    /// The same where it was only suspected.
    pub priced_if_suspected: f64,
    /// Of what was not in the price: chance that the household pays.
    pub household: f64,
    /// Of what was not in the price: chance that the firm pays; the rest is shared.
    pub firm: f64,
}

/// All habits.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Habits {
    /// Mixes of jobs.
    pub plan: Vec<PlanMix>,
    /// Jobs that are not planned together.
    #[serde(default)]
    pub not_together: NotTogether,
    /// How many of a kind, by station.
    #[serde(default)]
    pub several: BTreeMap<String, More>,
    /// Price and days.
    pub contract: Contract,
    /// When rooms are gutted.
    pub gut: Gut,
    /// Answers that say nothing, by station.
    pub missing: BTreeMap<String, Missing>,
    /// "Can't tell" of single items, in place of their station's chances.
    #[serde(default)]
    pub missing_item: BTreeMap<String, f64>,
    /// "Not done" of items that have such an option.
    pub not_done: Chances,
    /// Second looks asked without being promoted.
    pub second_look: Chances,
    /// Answers that hide what a clue asks for.
    pub hidden: Chances,
    /// Chance of the option that takes conditions out of scope, by item.
    #[serde(default)]
    pub absent: BTreeMap<String, f64>,
    /// Weights of options, by item.
    #[serde(default)]
    pub says: BTreeMap<String, BTreeMap<String, f64>>,
    /// Chances of ticks no clue reads.
    pub ticks: Ticks,
    /// Spread of numbers, by item.
    #[serde(default)]
    pub number: BTreeMap<String, Spread>,
    /// Tolerances noted with lengths.
    pub tolerance: Vec<Tolerance>,
    /// Further looks.
    pub looks: Looks,
    /// Which places are opened.
    pub opening: Opening,
    /// Who pays.
    pub payer: Paying,
}

impl Habits {
    /// The habits built in.
    ///
    /// # Errors
    /// None that a test would let pass.
    pub fn builtin() -> Result<Self, HabitsError> {
        Self::read(BUILTIN)
    }
    /// Reads habits from TOML and checks every number.
    ///
    /// # Errors
    /// See [`HabitsError`].
    pub fn read(text: &str) -> Result<Self, HabitsError> {
        let habits: Self = toml::from_str(text).map_err(|e| HabitsError::Unreadable(complaint(text, &e)))?;
        habits.check()?;
        Ok(habits)
    }
    /// The same for a house that is gone through place by place ([`Catalog::place_by_place`]): what holds of an item or
    /// a station holds at every place.
    #[must_use]
    pub(crate) fn place_by_place(&self, catalog: &Catalog, more: &[MorePlace]) -> Self {
        let mut all = self.clone();
        for place in more {
            if let Some(missing) = self.missing.get(&place.station) {
                all.missing.insert(place.place.clone(), missing.clone());
            }
            for item in catalog.items.iter().filter(|i| i.station == place.station) {
                let (id, key) = (item.id.as_str(), item.key_at(&place.place));
                let singles = [
                    &mut all.missing_item,
                    &mut all.not_done.items,
                    &mut all.second_look.items,
                    &mut all.hidden.items,
                    &mut all.absent,
                ];
                singles.into_iter().for_each(|map| copied(map, id, &key));
                [&mut all.says, &mut all.ticks.items].into_iter().for_each(|map| copied(map, id, &key));
                copied(&mut all.number, id, &key);
            }
        }
        all
    }
    /// Weight of an option of an item.
    pub(crate) fn weight(&self, item: &str, option: &str) -> f64 {
        self.says.get(item).and_then(|w| w.get(option)).copied().unwrap_or(1.0)
    }
    /// Chance of a tick no clue reads.
    pub(crate) fn tick(&self, item: &str, option: &str) -> f64 {
        self.ticks.items.get(item).and_then(|t| t.get(option)).copied().unwrap_or(self.ticks.usually)
    }

    fn check(&self) -> Result<(), HabitsError> {
        if !self.plan.iter().any(|p| p.weight > 0.0 && !p.jobs.is_empty()) {
            return Err(HabitsError::NoPlan);
        }
        for (what, p) in self.chances() {
            within(what, p, 0.0, 1.0)?;
        }
        for (what, x) in self.amounts() {
            within(what, x, 0.0, 1e9)?;
        }
        for (item, spread) in &self.number {
            within(format!("number.{item}.mean"), spread.mean, -1e6, 1e6)?;
            within(format!("number.{item}.sd"), spread.sd, 0.0, 1e6)?;
            within(format!("number.{item}.step"), spread.step, 1e-3, 1e6)?;
        }
        within("contract.spread, low".into(), self.contract.spread[0], 0.01, self.contract.spread[1])?;
        within("gut.now".into(), self.gut.now as f64, self.gut.earliest as f64, 9999.0)?;
        within(
            "payer.household and payer.firm together".into(),
            self.payer.household + self.payer.firm,
            0.0,
            1.0,
        )
    }

    fn chances(&self) -> impl Iterator<Item = (String, f64)> + '_ {
        let maybe =
            self.plan.iter().flat_map(|p| p.maybe.iter().map(|(job, p)| (format!("maybe {job}"), *p)));
        let missing = self.missing.iter().flat_map(|(station, m)| {
            [
                (format!("missing.{station}.cant-tell"), m.cant_tell),
                (format!("missing.{station}.could-not-reach"), m.could_not_reach),
                (format!("missing.{station}, both together"), m.cant_tell + m.could_not_reach),
            ]
        });
        let of = |name: &'static str, c: &'static str| format!("{name}.{c}");
        let tables =
            [("not-done", &self.not_done), ("second-look", &self.second_look), ("hidden", &self.hidden)];
        let tables = tables.into_iter().flat_map(move |(name, chances)| {
            let items = chances.items.iter().map(move |(i, p)| (format!("{name}.{i}"), *p));
            items.chain([(of(name, "usually"), chances.usually)])
        });
        let single = |name: &'static str, map: &BTreeMap<String, f64>| {
            map.iter().map(|(i, p)| (format!("{name}.{i}"), *p)).collect::<Vec<_>>()
        };
        let ticks = self
            .ticks
            .items
            .iter()
            .flat_map(|(i, t)| t.iter().map(move |(o, p)| (format!("ticks.{i}.{o}"), *p)));
        let rest = [
            ("ticks.usually", self.ticks.usually),
            ("gut.chance", self.gut.chance),
            ("looks.chance", self.looks.chance),
            ("looks.unclear", self.looks.unclear),
            ("opening.suspected-from", self.opening.suspected_from),
            ("opening.suspected", self.opening.suspected),
            ("opening.others", self.opening.others),
            ("payer.priced-if-shown", self.payer.priced_if_shown),
            ("payer.priced-if-suspected", self.payer.priced_if_suspected),
            ("payer.household", self.payer.household),
            ("payer.firm", self.payer.firm),
        ];
        let several = self.several.iter().flat_map(|(station, of)| {
            of.more
                .iter()
                .enumerate()
                .map(move |(n, p)| (format!("several.{station}.more, number {}", n + 1), *p))
        });
        maybe
            .chain(several)
            .chain(missing)
            .chain(tables)
            .chain(single("missing-item", &self.missing_item))
            .chain(single("absent", &self.absent))
            .chain(ticks)
            .chain(rest.map(|(name, p)| (name.to_owned(), p)))
    }

    fn amounts(&self) -> impl Iterator<Item = (String, f64)> + '_ {
        let plan = self.plan.iter().map(|p| (format!("weight of the plan “{}”", p.name), p.weight));
        let money = self.contract.jobs.iter().map(|(j, x)| (format!("contract.jobs.{j}"), *x));
        let days = self.contract.days.iter().map(|(j, x)| (format!("contract.days.{j}"), *x));
        let says =
            self.says.iter().flat_map(|(i, w)| w.iter().map(move |(o, x)| (format!("says.{i}.{o}"), *x)));
        let tolerance = self.tolerance.iter().flat_map(|t| {
            [("tolerance.inches".to_owned(), t.inches), ("tolerance.weight".to_owned(), t.weight)]
        });
        let base = [("contract.base", self.contract.base), ("contract.base-days", self.contract.base_days)];
        plan.chain(money)
            .chain(days)
            .chain(says)
            .chain(tolerance)
            .chain(base.map(|(name, x)| (name.to_owned(), x)))
    }
}

fn within(what: String, value: f64, low: f64, high: f64) -> Result<(), HabitsError> {
    if (low..=high).contains(&value) {
        return Ok(());
    }
    let (value, low, high) = (value.to_string(), low.to_string(), high.to_string());
    Err(HabitsError::Range { what, value, low, high })
}

/// What holds of one name holds of another too.
fn copied<T: Clone>(map: &mut BTreeMap<String, T>, from: &str, to: &str) {
    if let Some(value) = map.get(from).cloned() {
        map.insert(to.to_owned(), value);
    }
}
