//! One invented house.

use std::collections::BTreeMap;

use serde::Serialize;
use survey::catalog::{Catalog, MorePlace};
use survey::log::{CheckOutcome, Value};
use survey::model::{Picture, PlaceSeen};
use survey::units::{Length, Money};
use survey::{DeviceId, Stamp};

use crate::measured::picture;

/// A house that was never built: what is planned, what is there, what would be said, what was found.
#[derive(Clone, Debug, PartialEq)]
pub struct SimulatedHouse {
    /// Seed of all houses it belongs to.
    pub seed: u64,
    /// Its number among them, from 1.
    pub number: u64,
    /// Name for people; begins with "Invented".
    pub label: String,
    /// Says that it is invented and what it was drawn from.
    pub note: String,
    /// Contract price.
    pub contract: Money,
    /// Days the contract allows.
    pub contract_days: u32,
    /// Places beyond the first of what the house has several of. Everything about them goes by its key ([`survey::Key`]).
    pub places: Vec<MorePlace>,
    /// What would be said to every item of the walk, at every place, asked or not, "can't tell" included.
    pub said: BTreeMap<String, Said>,
    /// What was asked in the first walk, in walking order, skip rules obeyed.
    pub walk: Vec<Step>,
    /// State of every condition in scope.
    pub conditions: BTreeMap<String, State>,
    /// Hidden nodes: true where a condition shows itself by a common cause. Keys are `<cause>.<condition>`.
    pub shows: BTreeMap<String, bool>,
    /// What is to be seen, clue by clue, where a condition in scope bears on it.
    pub clues: BTreeMap<String, bool>,
    /// Items whose clues had to be drawn again, because no answer could say the first draw.
    pub redrawn: Vec<String>,
    /// What each check would show of each condition in scope.
    pub checks: BTreeMap<(String, String), CheckOutcome>,
    /// One for each condition in scope, in catalog order.
    pub findings: Vec<Found>,
    /// What the conditions come to if every place is opened: what a forecast forecasts.
    pub loss: Loss,
    /// What they came to where places were opened.
    pub paid: Loss,
}

/// What is said to one item.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Said {
    /// The answer as it would be recorded.
    pub value: Value,
    /// Tolerance noted with a length, ± two standard deviations.
    pub tolerance: Option<Length>,
    /// What would have been said had it not been missed; `None` where no answer says what is to be seen.
    pub there: Option<Value>,
}

/// One answer of the walk.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// Key of the item.
    pub item: String,
    /// Its station, or one of several places of it.
    pub place: String,
    /// The answer.
    pub value: Value,
    /// Tolerance of a length.
    pub tolerance: Option<Length>,
    /// Who answered: surveyor, household or office.
    pub who: Who,
    /// Minutes after the beginning.
    pub minute: u32,
}

/// Who answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Who {
    /// The estimator in the house.
    Surveyor,
    /// The household, on a sheet.
    Household,
    /// The office.
    Office,
}

/// What is really there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct State {
    /// The condition is there.
    pub present: bool,
    /// It becomes a cost in this scope; false where it is not there.
    pub becomes_cost: bool,
    /// The base price holds it.
    pub in_base: bool,
    /// What it costs; nothing where another condition's work holds it.
    pub cost: Money,
    /// Working days it adds, or calendar days of a utility.
    pub days: f64,
}

/// What was found about one condition.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Found {
    /// The condition.
    pub condition: String,
    /// Found, not there, not opened.
    pub outcome: review::Outcome,
    /// What it cost.
    pub cost: Money,
    /// Days it added.
    pub days: f64,
    /// It stood in the contract price.
    pub priced_before_signing: bool,
    /// Who paid; nobody where there was no cost.
    pub paid_by: Option<Payer>,
    /// True where it was suspected from what was seen.
    pub suspected: bool,
}

/// Who paid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Payer {
    /// It stood in the contract price.
    Contract,
    /// The household, by a change order.
    Household,
    /// The firm.
    Firm,
    /// Both.
    Shared,
}

/// Sums over a house, counted as the forecast counts them.
#[derive(Clone, Copy, Debug, PartialEq, Default, Serialize)]
pub struct Loss {
    /// What the base price does not hold.
    pub money: Money,
    /// What it holds.
    pub in_base: Money,
    /// Working days.
    pub days: f64,
    /// Longest calendar wait for a utility, in days.
    pub utility_days: f64,
}

impl SimulatedHouse {
    /// What would be answered to an item, in whatever order it is asked; "can't tell" to items the walk does not have.
    pub fn answer(&self, item: &str) -> Value {
        self.said.get(item).map_or(Value::CantTell, |said| said.value.clone())
    }
    /// What a check would show of a condition; `None` where it says nothing about it.
    pub fn check(&self, check: &str, condition: &str) -> Option<CheckOutcome> {
        self.checks.get(&(check.to_owned(), condition.to_owned())).copied()
    }
    /// The folded picture after the answers of some items, as the log would give it; contract included.
    pub fn picture(&self, catalog: &Catalog, asked: impl Fn(&str) -> bool) -> Picture {
        let answers = self.said.iter().filter(|(item, _)| asked(item));
        self.opened(
            catalog,
            picture(catalog, answers.map(|(i, s)| (i.as_str(), s.value.clone(), s.tolerance))),
        )
    }
    /// The folded picture of what there is to be said, as if nothing were missed and everything asked.
    pub fn seen(&self, catalog: &Catalog) -> Picture {
        let there = self.said.iter().filter_map(|(i, s)| Some((i.as_str(), s.there.clone()?, s.tolerance)));
        self.opened(catalog, picture(catalog, there))
    }
    /// The folded picture after the walk as it was walked, further looks included.
    pub fn walked(&self, catalog: &Catalog) -> Picture {
        let steps = self.walk.iter().map(|s| (s.item.as_str(), s.value.clone(), s.tolerance));
        self.opened(catalog, picture(catalog, steps))
    }
    fn opened(&self, catalog: &Catalog, mut picture: Picture) -> Picture {
        picture.opened = Some(survey::log::Opened {
            label: self.label.clone(),
            contract: Some(self.contract),
            contract_days: Some(self.contract_days),
            catalog: catalog.digest,
        });
        self.with_places(picture)
    }
    /// The catalog as it is for this house, place by place: what is asked, said and there goes by its ids.
    pub fn catalog(&self, catalog: &Catalog) -> Catalog {
        catalog.place_by_place(&self.places)
    }
    fn with_places(&self, mut picture: Picture) -> Picture {
        picture.places = places_seen(&self.places);
        picture
    }
}

/// Added places as the log would give them.
pub(crate) fn places_seen(places: &[MorePlace]) -> Vec<PlaceSeen> {
    let seen = |place: &MorePlace| PlaceSeen {
        station: place.station.clone(),
        id: place.place.clone(),
        label: place.label.clone(),
        there: true,
        reason: None,
        by: String::new(),
        at: Stamp::EPOCH,
        device: DeviceId::from_bytes([0; 16]),
    };
    places.iter().map(seen).collect()
}
