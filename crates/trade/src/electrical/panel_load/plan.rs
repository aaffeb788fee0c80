//! A house's loads, what they come to, and the chance that they lie beyond the service.

use alloc::{format, vec, vec::Vec};

use survey::catalog::Book;
use survey::{Phrase, Said};

use crate::cite::value;
use crate::electrical::demand::lighting_and_circuits;
use crate::electrical::dwelling_load::{Climate, Steps};
use crate::error::TradeError;
use crate::measure::{Amperes, SquareFeet, VoltAmperes};
use crate::normal::chance_over;
use crate::sheet::Limit;
use crate::tolerance::Budget;

/// Whether something is there now, planned, or there and to be taken out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum State {
    /// There, and stays.
    There,
    /// Comes with the work.
    Planned,
    /// There now, goes with the work.
    Removed,
}

impl State {
    pub(super) const WORDS: &'static [&'static str] = &["there", "planned", "removed"];

    pub(super) fn of(word: &str) -> Self {
        match word {
            "planned" => Self::Planned,
            "removed" => Self::Removed,
            _ => Self::There,
        }
    }
    pub(super) fn counts(self, after: bool) -> bool {
        self == Self::There || (self == Self::Planned) == after
    }
    pub(super) const fn word(self) -> Phrase {
        match self {
            Self::There => Phrase("trade-there-3"),
            Self::Planned => Phrase("trade-planned"),
            Self::Removed => Phrase("trade-removed"),
        }
    }
}

/// What kind of load one line is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Part {
    /// An appliance at its nameplate: fastened in place, or on a circuit of its own.
    Appliance,
    /// A charger for a vehicle.
    VehicleCharger,
    /// Air conditioning.
    AirConditioning,
    /// Heat pump.
    HeatPump,
    /// Electric heat that helps a heat pump.
    SupplementaryHeat,
    /// Other electric heat, with its separately controlled units.
    ElectricHeat(u32),
}

impl Part {
    pub(super) const CLIMATE: &'static [&'static str] =
        &["air-conditioning", "heat-pump", "supplementary-heat", "electric-heat"];

    pub(super) fn of(word: &str, units: u32) -> Self {
        match word {
            "air-conditioning" => Self::AirConditioning,
            "heat-pump" => Self::HeatPump,
            "supplementary-heat" => Self::SupplementaryHeat,
            _ => Self::ElectricHeat(units),
        }
    }
    pub(super) const fn is_climate(self) -> bool {
        !matches!(self, Self::Appliance | Self::VehicleCharger)
    }
}

/// One line of load.
#[derive(Clone, PartialEq, Debug)]
pub struct Load {
    /// Name.
    pub name: Said,
    /// Kind.
    pub part: Part,
    /// Nameplate.
    pub nameplate: VoltAmperes,
    /// Plus or minus this, where no plate was read: two standard deviations.
    pub tolerance: VoltAmperes,
    /// There, planned or removed.
    pub state: State,
}

/// Which method.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Method {
    /// 220.83, for an existing dwelling.
    Existing,
    /// 220.82, the optional method for a dwelling.
    Optional,
}

/// A house and its service.
#[derive(Clone, PartialEq, Debug)]
pub struct PanelPlan {
    /// Floor area from the outside, without porches, garage and what cannot be finished.
    pub area: SquareFeet,
    /// Plus or minus this: two standard deviations. None if nobody said.
    pub area_tolerance: Option<SquareFeet>,
    /// Small-appliance circuits.
    pub small_appliance: u32,
    /// Laundry circuits.
    pub laundry: u32,
    /// Appliances, chargers, heating and cooling.
    pub loads: Vec<Load>,
    /// Rating of the service.
    pub service: Amperes,
    /// Volts between its two hot wires: 240 or 208.
    pub volts: f64,
    /// Method.
    pub method: Method,
    /// Spaces unused in the panel, and spaces wanted.
    pub spaces: Option<(u32, u32)>,
}

/// Two σ of a floor area nobody gave a tolerance for, as a share of it: common practice, no source.
pub(super) const AREA_TOLERANCE: f64 = 0.05;

/// The load before or after.
pub(super) struct Sum {
    /// Connected in all.
    pub(super) connected: f64,
    pub(super) steps: Steps,
    /// Heating or cooling on top.
    pub(super) climate: f64,
    pub(super) limits: Vec<Limit>,
}

impl Sum {
    pub(super) fn total(&self) -> f64 {
        self.steps.load(self.connected) + self.climate
    }
}

impl PanelPlan {
    pub(super) fn climate(&self, after: bool) -> Climate {
        let mut climate = Climate::default();
        for load in self.loads.iter().filter(|l| l.state.counts(after)) {
            let va = load.nameplate.get();
            match load.part {
                Part::AirConditioning => climate.cooling += va,
                Part::HeatPump => climate.heat_pump += va,
                Part::SupplementaryHeat => climate.supplementary += va,
                Part::ElectricHeat(units) => {
                    climate.heat += va;
                    climate.heat_units += units;
                }
                Part::Appliance | Part::VehicleCharger => {}
            }
        }
        climate
    }
    /// What one appliance or charger counts for; a charger has a least value in the newer books.
    pub(super) fn counts(book: &Book, load: &Load) -> f64 {
        let least = book.table("vehicle-charger-least").and_then(|t| t.value);
        match (load.part, least) {
            (Part::VehicleCharger, Some(least)) => libm::fmax(load.nameplate.get(), least),
            _ => load.nameplate.get(),
        }
    }
    pub(super) fn adds_climate(&self) -> bool {
        self.loads.iter().any(|l| l.part.is_climate() && l.state == State::Planned)
    }
    pub(super) fn sum(&self, book: &Book, after: bool) -> Result<Sum, TradeError> {
        let counted = self.loads.iter().filter(|l| !l.part.is_climate() && l.state.counts(after));
        let nameplates: f64 = counted.map(|l| Self::counts(book, l)).sum();
        let circuits = lighting_and_circuits(book, SquareFeet::ZERO, self.small_appliance, self.laundry)?;
        let climate = self.climate(after);
        let (steps, on_top, other, mut limits) = match self.method {
            Method::Optional => {
                let (load, limit) = climate.new_dwelling(book)?;
                (Steps::new_dwelling(book)?, load, 0.0, if load > 0.0 { vec![limit] } else { Vec::new() })
            }
            Method::Existing if after && self.adds_climate() => {
                let (whole, other) = climate.existing_added();
                (Steps::existing_dwelling(book)?, whole, other, Vec::new())
            }
            Method::Existing => (Steps::existing_dwelling(book)?, 0.0, climate.existing(), Vec::new()),
        };
        let rest = circuits + nameplates + other;
        let (per_foot, lighting) = value(book, "lighting-load")?;
        limits.extend([lighting, value(book, "small-appliance-load")?.1, value(book, "laundry-load")?.1]);
        limits.push(steps.limit.clone());
        Ok(Sum { connected: per_foot * self.area.get() + rest, steps, climate: on_top, limits })
    }
    /// σ of the floor area in square feet.
    pub(super) fn area_sigma(&self) -> f64 {
        self.area_tolerance.map_or(AREA_TOLERANCE * self.area.get(), SquareFeet::get) / 2.0
    }
    /// σ of the connected load in volt-amperes: floor area and every nameplate taken as typical. Heating and cooling
    /// on top count whole, which is more than their share: `slope` carries them back.
    pub(super) fn connected_sigma(&self, book: &Book, sum: &Sum, slope: f64) -> Result<f64, TradeError> {
        let mut budget = Budget::new().with(
            Phrase("trade-floor-area"),
            value(book, "lighting-load")?.0,
            self.area_sigma(),
        );
        for (n, load) in self.loads.iter().enumerate().filter(|(_, l)| l.state.counts(true)) {
            let on_top = load.part.is_climate() && sum.climate > 0.0 && slope > 0.0;
            let weight = if on_top { 1.0 / slope } else { 1.0 };
            budget.add(format!("nameplate {n}"), weight, load.tolerance.get() / 2.0);
        }
        Ok(budget.sigma())
    }
    /// Chance that the load after the work is over so many volt-amperes.
    pub(super) fn chance(&self, book: &Book, after: &Sum, carries: f64) -> Result<f64, TradeError> {
        let limit = after.steps.connected(carries - after.climate);
        let slope = after.steps.slope(limit);
        Ok(chance_over(after.connected, limit, self.connected_sigma(book, after, slope)?))
    }
    /// Volt-amperes of load: before and after the work.
    ///
    /// # Errors
    /// A book without a table.
    pub fn loads_under(&self, book: &Book) -> Result<(f64, f64), TradeError> {
        Ok((self.sum(book, false)?.total(), self.sum(book, true)?.total()))
    }
    /// Chance that the load after the work lies beyond the service.
    ///
    /// # Errors
    /// A book without a table.
    pub fn chance_beyond(&self, book: &Book) -> Result<f64, TradeError> {
        self.chance(book, &self.sum(book, true)?, self.service.get() * self.volts)
    }
}
