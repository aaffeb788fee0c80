//! A gas run as found, with what is planned on it: typed and within range.

use alloc::vec::Vec;

use survey::Phrase;
use survey::catalog::Book;

use super::capacity::{Drop, inside};
use super::loads::{Appliance, sum};
use crate::cite;
use crate::error::{TradeError, finite};
use crate::tolerance::Reading;

/// Longest run taken, feet.
pub const LONGEST: f64 = 300.0;
/// Shortest run taken, feet.
pub const SHORTEST: f64 = 3.0;
/// Two σ of a run paced off or added up from a sketch, as a part of it: common practice, no source.
pub const UNSTATED: f64 = 0.10;

/// A measured run of pipe, 3 to 300 ft.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RunLength(Reading);

impl RunLength {
    /// A run.
    ///
    /// # Errors
    /// Outside 3 to 300 ft.
    pub fn new(reading: Reading) -> Result<Self, TradeError> {
        let (value, hair) = (reading.inches() / 12.0, 1e-6);
        if value >= SHORTEST - hair && value <= LONGEST + hair {
            return Ok(Self(reading));
        }
        let (what, unit) = (Phrase("trade-length-gas-run"), "ft");
        Err(TradeError::OutOfRange { what, value, low: SHORTEST, high: LONGEST, unit })
    }
    /// Feet.
    pub fn feet(self) -> f64 {
        self.0.inches() / 12.0
    }
    /// σ in feet: half of the tolerance, or a twentieth of the run where nobody stated one.
    pub fn sigma_feet(self) -> f64 {
        self.0.sigma(self.0.inches() * UNSTATED / 2.0) / 12.0
    }
    /// Whether somebody stated a tolerance.
    pub const fn stated(self) -> bool {
        self.0.tolerance.is_some()
    }
}

/// Heat in a cubic foot of gas, 500 to 3500 Btu.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct HeatingValue(f64);

impl HeatingValue {
    /// Least, Btu/ft³.
    pub const LEAST: f64 = 500.0;
    /// Most, Btu/ft³.
    pub const MOST: f64 = 3500.0;

    /// A heating value in Btu/ft³.
    ///
    /// # Errors
    /// Outside the range.
    pub fn new(value: f64) -> Result<Self, TradeError> {
        if (Self::LEAST..=Self::MOST).contains(&value) {
            return Ok(Self(value));
        }
        let (what, unit) = (Phrase("trade-heating-value"), "Btu/ft³");
        Err(TradeError::OutOfRange { what, value, low: Self::LEAST, high: Self::MOST, unit })
    }
    /// Btu/ft³.
    pub const fn get(self) -> f64 {
        self.0
    }
}

/// Flow for a heat input: Btu/h over Btu/ft³ gives ft³/h.
///
/// # Errors
/// A value that is not finite, or a heating value not above zero.
pub fn cfh(btu_per_hour: f64, btu_per_cubic_foot: f64) -> Result<f64, TradeError> {
    let (what, value) =
        (Phrase("trade-heating-value"), finite(Phrase("trade-heating-value"), btu_per_cubic_foot)?);
    if value <= 0.0 {
        return Err(TradeError::OutOfRange { what, value, low: 0.0, high: f64::INFINITY, unit: "Btu/ft³" });
    }
    Ok(finite(Phrase("trade-heat-input"), btu_per_hour)? / value)
}

/// A part of the run.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Segment {
    /// From the meter on, carrying everything.
    Trunk,
    /// From the trunk to what is planned.
    Branch,
}

/// Fittings of one kind in a segment.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Fittings {
    /// Row of the book: elbow, tee.
    pub kind: &'static str,
    /// How many.
    pub count: u32,
    /// Where.
    pub segment: Segment,
}

/// A gas run of steel pipe with natural gas.
#[derive(Clone, PartialEq, Debug)]
pub struct GasPlan {
    /// From the meter to the farthest appliance, the planned one included.
    pub length: RunLength,
    /// Size of the trunk, by name.
    pub trunk: &'static str,
    /// Size of the branch to what is planned, where there is one.
    pub branch: Option<&'static str>,
    /// Pressure that may be lost.
    pub drop: Drop,
    /// Specific gravity of the gas: a row of the book.
    pub gravity: &'static str,
    /// Heat in a cubic foot.
    pub heating_value: HeatingValue,
    /// What hangs on the trunk now.
    pub existing: Vec<Appliance>,
    /// What is planned, on one branch.
    pub planned: Vec<Appliance>,
    /// Fittings along the longest run.
    pub fittings: Vec<Fittings>,
    /// From the meter to where the branch leaves.
    pub trunk_length: Option<Reading>,
    /// From the meter to the planned appliance by a pipe of its own.
    pub own_run: Option<Reading>,
}

impl GasPlan {
    /// Flow of what is there, ft³/h.
    pub fn before(&self) -> f64 {
        sum(&self.existing) / self.heating_value.get()
    }
    /// Flow of what is planned, ft³/h.
    pub fn added(&self) -> f64 {
        sum(&self.planned) / self.heating_value.get()
    }
    /// How many fittings a segment has.
    pub fn count(&self, segment: Segment) -> u32 {
        self.fittings.iter().filter(|f| f.segment == segment).map(|f| f.count).sum()
    }
    /// Length in feet that the fittings of a segment add at a size: nothing below the number from which they count.
    ///
    /// # Errors
    /// A book without the tables, or an unknown size or fitting.
    pub fn fittings_feet(&self, book: &Book, segment: Segment, size: &str) -> Result<f64, TradeError> {
        if f64::from(self.count(segment)) < cite::value(book, "fittings-from")?.0 {
            return Ok(0.0);
        }
        let mut feet = 0.0;
        for fitting in self.fittings.iter().filter(|f| f.segment == segment) {
            let (diameters, _) = cite::row(book, "fitting-diameters", fitting.kind)?;
            feet += f64::from(fitting.count) * equivalent_feet(book, diameters, size)?;
        }
        Ok(feet)
    }
}

/// Length of pipe in feet that a fitting equals: n inside diameters ÷ 12 (IFGC Table A.2.2, note 4).
///
/// # Errors
/// An unknown size, or a number that is not finite.
pub fn equivalent_feet(book: &Book, diameters: f64, size: &str) -> Result<f64, TradeError> {
    Ok(finite(Phrase("trade-diameters"), diameters)? * inside(book, size)?.0 / 12.0)
}

#[cfg(test)]
mod tests {
    use survey::units::Length;

    use super::*;
    use crate::testing::catalog;

    #[test]
    fn a_run_and_a_heating_value_stay_in_range() {
        let run = |feet: f64| RunLength::new(Reading::plain(Length::from_inches(feet * 12.0).unwrap()));
        assert!(run(3.0).is_ok() && run(300.0).is_ok());
        assert!(run(2.9).is_err() && run(300.1).is_err());
        assert_eq!(run(60.0).unwrap().sigma_feet(), 3.0); // a twentieth
        assert!(HeatingValue::new(1000.0).is_ok());
        for bad in [0.0, -1.0, 499.0, f64::NAN, f64::INFINITY] {
            assert!(HeatingValue::new(bad).is_err());
        }
    }

    #[test]
    fn a_heat_input_over_a_heating_value_is_a_flow() {
        assert_eq!(cfh(65_000.0, 1000.0).unwrap(), 65.0); // IFGC 2018 Appendix A, A.6.1
        assert!(cfh(65_000.0, 0.0).is_err() && cfh(f64::NAN, 1000.0).is_err());
    }

    #[test]
    fn a_fitting_equals_its_diameters_of_pipe() {
        // IFGC Table A.2.2 note 4: 30 × 0.824 ÷ 12 and 60 × 1.049 ÷ 12
        let shelf = catalog().shelf;
        let book = shelf.book("ifgc-2018").unwrap();
        assert!((equivalent_feet(book, 30.0, "3/4").unwrap() - 2.06).abs() < 1e-9);
        assert!((equivalent_feet(book, 60.0, "1").unwrap() - 5.245).abs() < 1e-9);
    }
}
