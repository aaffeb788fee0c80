//! Houses as logs of one device, and their networks.

use std::sync::LazyLock;

use assessment::{ClueTables, HouseEvidence, HouseNetwork, Scope, house_evidence, scope_of};
use inference::{Posterior, posterior};
use survey::catalog::{Catalog, FILES};
use survey::log::{Answer, Body, Demolition, Entry, PlaceNamed, Value};
use survey::model::{Picture, fold};
use survey::{DeviceId, EntryId, SurveyId};

/// The catalog as shipped, and its clue tables.
pub(crate) static CATALOG: LazyLock<Catalog> = LazyLock::new(|| survey::catalog::builtin().unwrap());
pub(crate) static TABLES: LazyLock<ClueTables> = LazyLock::new(|| ClueTables::fit(&CATALOG));

/// The same catalog for a program that knows no places: no station repeats, no condition has a place.
pub(crate) fn without_places() -> Catalog {
    let known = |line: &&str| !line.starts_with("each = ") && !line.starts_with("place = ");
    let files = FILES.iter().map(|(path, text)| {
        let text = text.lines().filter(known).collect::<Vec<_>>().join("\n");
        ((*path).to_owned(), text)
    });
    Catalog::load(&files.collect::<Vec<_>>()).unwrap()
}

/// A house being walked.
#[derive(Clone, Default)]
pub(crate) struct House(Vec<Entry>);

impl House {
    /// A house with this work planned.
    pub(crate) fn planned(jobs: &[&str]) -> Self {
        Self::default().say("planned-work", several(jobs))
    }
    fn push(mut self, body: Body) -> Self {
        let n = self.0.len() as u64 + 1;
        self.0.push(Entry {
            v: body.form(),
            id: EntryId::new(n, &[1; 10]),
            survey: SurveyId::new(1, &[9; 10]),
            device: DeviceId::new(1, &[1; 10]),
            seq: n,
            lamport: n,
            at: "2026-04-12T09:30:00.000-05:00".parse().unwrap(),
            by: "R. Ames".into(),
            prev: None,
            body,
        });
        self
    }
    /// An answer at the item's station: its first place.
    pub(crate) fn say(self, item: &str, value: Value) -> Self {
        let station = CATALOG.item(item).unwrap_or_else(|| panic!("no item {item}")).station.clone();
        self.say_at(&station, item, value)
    }
    pub(crate) fn say_at(self, place: &str, item: &str, value: Value) -> Self {
        self.push(Body::Answer(Answer {
            place: place.into(),
            item: item.into(),
            value,
            tolerance: None,
            entered: None,
            photos: vec![],
            corrects: vec![],
            reason: None,
        }))
    }
    pub(crate) fn place(self, station: &str, place: &str) -> Self {
        self.named(station, place, true)
    }
    pub(crate) fn take_out(self, station: &str, place: &str) -> Self {
        self.named(station, place, false)
    }
    fn named(self, station: &str, place: &str, there: bool) -> Self {
        self.push(Body::Place(PlaceNamed {
            station: station.into(),
            place: place.into(),
            label: format!("The {place}"),
            there,
            reason: None,
        }))
    }
    pub(crate) fn declare_demolition(self) -> Self {
        self.push(Body::Demolition(Demolition { reason: None }))
    }
    pub(crate) fn picture(&self) -> Picture {
        fold(&self.0)
    }
}

pub(crate) fn one(option: &str) -> Value {
    Value::Choice(option.into())
}

pub(crate) fn several(options: &[&str]) -> Value {
    Value::choices(options.iter().map(|o| (*o).to_owned()).collect())
}

/// Scope and network of a house, without calculations.
pub(crate) fn network<'c>(
    catalog: &'c Catalog,
    tables: &ClueTables,
    picture: &Picture,
) -> (Scope<'c>, HouseNetwork) {
    let scope = scope_of(catalog, picture);
    let gutted = matches!(picture.value("last-gut"), Some(Value::Number(year)) if year.milli > 0);
    let house = HouseNetwork::build(catalog, tables, &scope, &[], &[], gutted).unwrap();
    (scope, house)
}

/// A network with the answers entered.
pub(crate) struct Answered {
    pub(crate) house: HouseNetwork,
    pub(crate) evidence: HouseEvidence,
    posterior: Posterior,
}

impl Answered {
    pub(crate) fn of(catalog: &Catalog, tables: &ClueTables, picture: &Picture) -> Self {
        let (_, house) = network(catalog, tables, picture);
        let evidence = house_evidence(catalog, &house, picture);
        let posterior = posterior(&house.net, &evidence.all()).unwrap();
        Self { house, evidence, posterior }
    }
    /// P(present) of a condition by its key.
    pub(crate) fn p(&self, key: &str) -> f64 {
        self.posterior.of(self.house.condition(key).unwrap_or_else(|| panic!("{key} is not in scope")))[1]
    }
    pub(crate) fn keys(&self) -> Vec<&str> {
        self.house.conditions.iter().map(|(key, _)| key.as_str()).collect()
    }
}
