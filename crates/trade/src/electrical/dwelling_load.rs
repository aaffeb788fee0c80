//! The optional load of a new dwelling (220.82) and the load of an existing one (220.83): the first part of what is
//! connected counts whole, a share of the rest; heating and cooling come on top.

use survey::catalog::Book;
use survey::say;

use crate::cite::row;
use crate::error::TradeError;
use crate::sheet::Limit;

/// How connected volt-amperes turn into a load: so many count whole, the rest in part.
#[derive(Clone, PartialEq, Debug)]
pub struct Steps {
    /// Counts whole, volt-amperes.
    pub first: f64,
    /// Share of the rest.
    pub share: f64,
    /// Where it stands.
    pub limit: Limit,
}

impl Steps {
    /// 220.82(B).
    ///
    /// # Errors
    /// A book without the table.
    pub fn new_dwelling(book: &Book) -> Result<Self, TradeError> {
        Self::read(book, "load-new")
    }
    /// 220.83.
    ///
    /// # Errors
    /// A book without the table.
    pub fn existing_dwelling(book: &Book) -> Result<Self, TradeError> {
        Self::read(book, "load-existing")
    }
    fn read(book: &Book, id: &'static str) -> Result<Self, TradeError> {
        let (first, _) = row(book, id, "first, VA")?;
        let (share, mut limit) = row(book, id, "share of the rest")?;
        let number = crate::number::show_number;
        limit.value = say!("trade-first-va-whole-rest", number = number(first), share = number(share));
        Ok(Self { first, share, limit })
    }
    /// What counts of a connected load.
    pub fn load(&self, connected: f64) -> f64 {
        if connected <= self.first { connected } else { self.first + self.share * (connected - self.first) }
    }
    /// The connected load that comes to a load: the way back.
    pub fn connected(&self, load: f64) -> f64 {
        if load <= self.first { load } else { self.first + (load - self.first) / self.share }
    }
    /// By how much the load moves for one volt-ampere more.
    pub fn slope(&self, connected: f64) -> f64 {
        if connected < self.first { 1.0 } else { self.share }
    }
}

/// From so many separately controlled heaters on, 220.83(B) counts them with all other loads (as restated in public
/// documents; the section itself was not read).
const MANY_HEATERS: u32 = 4;

/// Heating and cooling, nameplates in volt-amperes.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Climate {
    /// Air conditioning.
    pub cooling: f64,
    /// Heat pump.
    pub heat_pump: f64,
    /// Electric heat that helps the heat pump.
    pub supplementary: f64,
    /// Other electric heat.
    pub heat: f64,
    /// Separately controlled units of it.
    pub heat_units: u32,
}

impl Climate {
    /// What cools at once, whole.
    pub fn cooling_load(&self) -> f64 {
        self.cooling + self.heat_pump
    }
    /// What heats at once, whole.
    pub fn heating_load(&self) -> f64 {
        self.heat_pump + self.supplementary + self.heat
    }
    /// For an existing dwelling without added heating or cooling (220.83(A)): the larger of the two.
    pub fn existing(&self) -> f64 {
        libm::fmax(self.cooling_load(), self.heating_load())
    }
    /// For an existing dwelling with added heating or cooling (220.83(B)): the larger of the two, whole, and what
    /// counts among all other loads. Of separately controlled heaters fewer than four count whole; four and more
    /// count with the other loads.
    pub fn existing_added(&self) -> (f64, f64) {
        let other = if self.heat_units < MANY_HEATERS { 0.0 } else { self.heat };
        (libm::fmax(self.cooling_load(), self.heating_load() - other), other)
    }
    /// For a new dwelling (220.82(C)): the largest of cooling, heat pump with a share of its helper, and a share of
    /// other heat.
    ///
    /// # Errors
    /// A book without the table.
    pub fn new_dwelling(&self, book: &Book) -> Result<(f64, Limit), TradeError> {
        let share = |name: &str| row(book, "load-new-climate", name);
        let pump = self.heat_pump + share("supplementary heat")?.0 * self.supplementary;
        let units = if self.heat_units < 4 { "under four units" } else { "four units or more" };
        let (of_heat, limit) = share(units)?;
        Ok((libm::fmax(libm::fmax(self.cooling_load(), pump), of_heat * self.heat), limit))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::electrical::demand::{lighting_and_circuits, whole_amperes};
    use crate::measure::SquareFeet;
    use crate::testing::catalog;

    fn book() -> Book {
        catalog().shelf.book("nec-2011").cloned().unwrap()
    }
    fn connected(area: f64, nameplates: &[f64]) -> f64 {
        let area = SquareFeet::new(area).unwrap();
        lighting_and_circuits(&book(), area, 2, 1).unwrap() + nameplates.iter().sum::<f64>()
    }
    fn optional(connected: f64, climate: Climate) -> (f64, f64) {
        let load =
            Steps::new_dwelling(&book()).unwrap().load(connected) + climate.new_dwelling(&book()).unwrap().0;
        (load, whole_amperes(load / 240.0))
    }

    // California Electrical Code 2013 (NEC 2011), Annex D.
    #[test]
    fn example_d2a_heating_larger_than_cooling() {
        let general = connected(1500.0, &[12_000.0, 2500.0, 1200.0, 5000.0]);
        assert_eq!(general, 29_700.0);
        // The example takes 230 V for the air conditioner: 6 A × 230 V = 1380 VA.
        let climate = Climate { cooling: 6.0 * 230.0, heat: 9000.0, heat_units: 5, ..Climate::default() };
        assert_eq!(optional(general, climate), (21_480.0, 90.0));
    }

    #[test]
    fn example_d2b_cooling_larger_than_heating() {
        let general = connected(1500.0, &[4000.0, 4000.0, 5100.0, 4500.0, 1200.0, 5000.0]);
        assert_eq!(general, 32_800.0);
        // Here it takes 240 V: 6 × 7 A × 240 V = 10,080 VA.
        let climate = Climate { cooling: 42.0 * 240.0, heat: 1500.0, heat_units: 1, ..Climate::default() };
        assert_eq!(optional(general, climate), (29_200.0, 122.0));
    }

    #[test]
    fn example_d2c_heat_pump_with_supplementary_heat() {
        let general = connected(2000.0, &[12_000.0, 4500.0, 1200.0, 5000.0]);
        assert_eq!(general, 33_200.0);
        let climate = Climate { heat_pump: 24.0 * 240.0, supplementary: 15_000.0, ..Climate::default() };
        assert_eq!(optional(general, climate), (34_790.0, 145.0));
    }

    #[test]
    fn an_existing_dwelling_counts_eight_thousand_whole_and_forty_percent_of_the_rest() {
        // 220.83(A); the house is our own: range, dishwasher, disposer, dryer, water heater
        let general = connected(1500.0, &[12_000.0, 1200.0, 800.0, 5000.0, 4500.0]);
        let load = Steps::existing_dwelling(&book()).unwrap().load(general);
        assert_eq!((general, load), (32_500.0, 17_800.0));
        // 220.83(B): 5 kVA of added cooling counts whole, 3 kVA of heat beside it not at all
        let climate = Climate { cooling: 5000.0, heat: 3000.0, heat_units: 1, ..Climate::default() };
        assert_eq!(climate.existing_added(), (5000.0, 0.0));
        // Five heaters of 12 kVA in all: 8000 + 0.4 × (33,000 − 8000) = 18,000 VA, nothing on top.
        let heaters = Climate { heat: 12_000.0, heat_units: 5, ..Climate::default() };
        let (on_top, other) = heaters.existing_added();
        let load = Steps::existing_dwelling(&book()).unwrap().load(connected(1500.0, &[12_000.0]) + other);
        assert_eq!((on_top, load), (0.0, 18_000.0));
    }

    #[test]
    fn the_way_back_leads_home() {
        let steps = Steps::existing_dwelling(&book()).unwrap();
        for connected in [0.0, 4000.0, 8000.0, 8000.5, 32_500.0] {
            assert!((steps.connected(steps.load(connected)) - connected).abs() < 1e-9);
        }
    }
}
